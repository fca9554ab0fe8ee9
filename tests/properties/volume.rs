//! Contents.

use super::{assert_ordered, config};
use crate::generated::{Choices, cases};
use bleedwright_network::{Bounds, Network};
use bleedwright_planner::{Volumes, volumes};
use bleedwright_report::json::{VolumesJson, pretty};
use proptest::prelude::*;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

fn corners_ml(bounds: Bounds<Volume>) -> [f64; 3] {
    [bounds.low, bounds.nominal, bounds.high].map(|volume| volume.get::<milliliter>())
}

fn sum_ml(bounds: impl Iterator<Item = Bounds<Volume>>) -> [f64; 3] {
    bounds.map(corners_ml).fold([0.0; 3], |sum, part| {
        [0, 1, 2].map(|corner| sum[corner] + part[corner])
    })
}

fn are_equal(a: [f64; 3], b: [f64; 3]) -> bool {
    a.iter()
        .zip(&b)
        .all(|(a, b)| (a - b).abs() <= 1e-9 * a.abs().max(1.0))
}

fn check_bounds(volumes: &Volumes) -> Result<(), TestCaseError> {
    for line in &volumes.lines {
        assert_ordered(&line.id, &line.contents)?;
        assert_ordered(&line.id, &line.length)?;
    }
    for part in &volumes.parts {
        assert_ordered(&part.name, &part.contents)?;
    }
    for run in &volumes.runs {
        assert_ordered(&run.screw, &run.contents)?;
        assert_ordered(&run.screw, &run.length)?;
    }
    for circuit in &volumes.circuits {
        assert_ordered(&circuit.name, &circuit.chamber)?;
        assert_ordered(&circuit.name, &circuit.lines)?;
        assert_ordered(&circuit.name, &circuit.cavities)?;
        assert_ordered(&circuit.name, &circuit.total)?;
    }
    for size in &volumes.sizes {
        assert_ordered(&size.size, &size.contents)?;
        assert_ordered(&size.size, &size.length)?;
    }
    for compartment in &volumes.compartments {
        assert_ordered(&compartment.name, &compartment.max)?;
    }
    assert_ordered("total", &volumes.total)
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn volumes_add_up(case in cases()) {
        let network = &case.load();
        let volumes = volumes(network);
        let total = corners_ml(volumes.total);
        let pieces = sum_ml(
            volumes.lines.iter().map(|line| line.contents)
                .chain(volumes.parts.iter().map(|part| part.contents)),
        );
        prop_assert!(are_equal(pieces, total), "lines and parts {pieces:?}, total {total:?}");
        let circuits = sum_ml(volumes.circuits.iter().map(|circuit| circuit.total));
        prop_assert!(are_equal(circuits, total), "circuits {circuits:?}, total {total:?}");
        for circuit in &volumes.circuits {
            let own = sum_ml([circuit.chamber, circuit.lines, circuit.cavities].into_iter());
            prop_assert!(are_equal(own, corners_ml(circuit.total)), "{circuit:?}");
            let name = Some(&circuit.name);
            let pieces = sum_ml(
                volumes.lines.iter().filter(|line| line.circuit.as_ref() == name)
                    .map(|line| line.contents)
                    .chain(
                        volumes.parts.iter().filter(|part| part.circuit.as_ref() == name)
                            .map(|part| part.contents),
                    ),
            );
            prop_assert!(are_equal(pieces, own), "{}: {pieces:?}, {own:?}", circuit.name);
        }
        // Pipes and hoses by size leave out direct joints and crossovers.
        let by_size = sum_ml(volumes.sizes.iter().map(|size| size.contents));
        let with_length = sum_ml(
            volumes.lines.iter()
                .filter(|line| line.kind != "crossover" && line.kind != "direct joint")
                .map(|line| line.contents),
        );
        prop_assert!(are_equal(by_size, with_length), "{by_size:?}, {with_length:?}");
    }

    /// Contents of lines given by bore: area times length, by hand.
    #[test]
    fn contents_are_area_times_length(case in cases()) {
        let network = &case.load();
        let volumes = volumes(network);
        for (id, expected) in &case.layout.known.line_contents_ml {
            let line = volumes.lines.iter().find(|line| line.id == *id)
                .ok_or_else(|| TestCaseError::fail(format!("no line `{id}`")))?;
            let found = corners_ml(line.contents);
            // Bores and lengths are written with two to four decimals.
            let near = found.iter().zip(expected)
                .all(|(found, expected)| (found - expected).abs() <= 0.006 * expected + 1e-9);
            prop_assert!(near, "{id}: {found:?}, by hand {expected:?}");
        }
    }

    #[test]
    fn contents_keep_low_below_nominal_below_high(case in cases()) {
        let network = &case.load();
        check_bounds(&volumes(network))?;
    }

    #[test]
    fn volumes_come_out_the_same_twice(case in cases()) {
        let text = || {
            let network = &case.load();
            pretty(&VolumesJson::new(&volumes(network)))
        };
        prop_assert_eq!(text(), text());
    }

    /// The sum of a system does not depend on the order of its parts in the
    /// file.
    #[test]
    fn totals_do_not_depend_on_the_order_of_the_file(case in cases()) {
        let mut other = case.clone();
        other.layout = case.layout.shuffled(&mut Choices::new(case.spare.clone()));
        let (a, b) = (case.load(), other.load());
        let total = |network: &Network| {
            corners_ml(volumes(network).total)
        };
        prop_assert!(are_equal(total(&a), total(&b)), "{:?}, {:?}", total(&a), total(&b));
    }
}
