//! 49 CFR 571.106 (FMVSS 106), Table I: how much a brake hose may swell, in
//! cubic centimetres for each foot. The low-expansion row of 1/8 in was read
//! second-hand, all other figures are from memory. They are limits.

use bleedwright_hydraulics::elastic::hose::{Expansion, expansion_limit, typical_expansion};
use uom::si::f64::{Length, Pressure};
use uom::si::length::{foot, inch};
use uom::si::pressure::psi;
use uom::si::volume::cubic_centimeter;

fn limit(bore_in: f64, expansion: Expansion, pressure_psi: f64) -> Option<f64> {
    expansion_limit(
        Length::new::<inch>(bore_in),
        expansion,
        Pressure::new::<psi>(pressure_psi),
        Length::new::<foot>(1.0),
    )
    .ok()
    .map(|volume| volume.get::<cubic_centimeter>())
}

#[test]
fn the_table() {
    use Expansion::{Low, Regular};
    for (bore_in, expansion, row) in [
        (1.0 / 8.0, Regular, [Some(0.66), Some(0.79), Some(1.21)]),
        (1.0 / 8.0, Low, [Some(0.33), Some(0.42), Some(0.61)]),
        (3.0 / 16.0, Regular, [Some(0.86), Some(1.02), Some(1.67)]),
        (3.0 / 16.0, Low, [Some(0.55), Some(0.72), Some(0.91)]),
        (1.0 / 4.0, Regular, [Some(1.04), Some(1.30), None]),
        (1.0 / 4.0, Low, [Some(0.82), Some(1.17), None]),
    ] {
        for (pressure_psi, printed) in [1000.0, 1500.0, 2900.0].into_iter().zip(row) {
            let found = limit(bore_in, expansion, pressure_psi);
            match (found, printed) {
                (Some(found), Some(printed)) => {
                    assert!((found - printed).abs() <= 1e-6, "{bore_in}: {found}");
                }
                (found, printed) => assert_eq!(found, printed, "{bore_in}, {pressure_psi}"),
            }
        }
    }
}

/// One rubber hose that was tested, read second-hand: 0.136, 0.150 and
/// 0.290 cc/ft.
#[test]
fn a_hose_that_was_tested() {
    for (pressure_psi, printed) in [(1000.0, 0.136), (1500.0, 0.150), (2900.0, 0.290)] {
        let found = typical_expansion(
            Length::new::<inch>(0.125),
            Pressure::new::<psi>(pressure_psi),
            Length::new::<foot>(1.0),
        )
        .expect("inside the table")
        .nominal
        .get::<cubic_centimeter>();
        assert!((found - printed).abs() <= 1e-6, "{pressure_psi}: {found}");
    }
}
