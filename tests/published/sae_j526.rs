//! SAE J526, welded low-carbon steel tubing: sizes and tolerances.
//!
//! Read second-hand, not in the standard: 3/16 in by 0.028 in, outside
//! diameter ± 0.003 in, wall ± 0.005 in; 1/4 in by 0.028 in, both ± 0.003 in.
//! The standard prints thousandths of an inch.

use bleedwright_network::{bore_of_size, parse_quantity};
use uom::si::f64::Length;
use uom::si::length::inch;

#[test]
fn bores_of_two_sizes() {
    for (size, outside, outside_within, wall_within) in [
        ("3/16 in", 0.1875, 0.003, 0.005),
        ("1/4 in", 0.25, 0.003, 0.003),
    ] {
        let nominal = parse_quantity::<Length>(size).expect("the size is a length");
        let (_, bore) = bore_of_size(nominal.nominal, None).expect("the size is known");
        for (found, sign) in [
            (bore.bounds.low, -1.0),
            (bore.bounds.nominal, 0.0),
            (bore.bounds.high, 1.0),
        ] {
            let printed = outside - 2.0 * 0.028 + sign * (outside_within + 2.0 * wall_within);
            assert!(
                (found.get::<inch>() - printed).abs() < 1e-9,
                "{size}: {found:?}"
            );
        }
    }
}
