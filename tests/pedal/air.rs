//! Air from readings, and the reservoir's reserve: what must hold on a vehicle small enough to draw often.

use super::Stint;
use crate::demo::network_of;
use bleedwright_network::Bounds;
use bleedwright_pedal::{
    AirPocket, CapacityVerdict, Choice, Mechanism, Press, Reading, capacities,
};
use proptest::prelude::*;
use uom::si::f64::{Force, Length};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

fn config(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        max_shrink_iters: 50,
        ..ProptestConfig::default()
    }
}

fn reading(force_n: f64, travel_mm: f64) -> Reading {
    Reading {
        force: Bounds::exact(Force::new::<newton>(force_n)),
        travel: Length::new::<millimeter>(travel_mm),
        tolerance: Length::new::<millimeter>(1.0),
        is_pumped: false,
        is_boosted: false,
    }
}

/// Least, best and most air that one reading implies, in ml; without end where more would not show.
fn implied_ml(mechanism: &Mechanism, reading: Reading) -> [f64; 3] {
    let air = mechanism
        .air_from_readings(&[reading])
        .expect("the force moves the piston")
        .air;
    let high = air
        .high
        .map_or(f64::INFINITY, |high| high.get::<milliliter>());
    [
        air.low.get::<milliliter>(),
        air.nominal.get::<milliliter>(),
        high,
    ]
}

fn travel_mm(mechanism: &Mechanism, force_n: f64, air_ml: f64) -> f64 {
    let press = Press {
        force_n,
        air: vec![AirPocket {
            chamber: (0, 0),
            zone: 0,
            volume_ml: air_ml,
        }],
        ..Press::default()
    };
    mechanism.travel_mm(&Choice::nominal(), &press)
}

proptest! {
    #![proptest_config(config(24))]

    /// A lower pedal under the same force never means less air.
    #[test]
    fn more_travel_never_means_less_air(
        force_n in 60.0..800.0_f64,
        air_ml in 0.0..4.0_f64,
        more_mm in 0.0..30.0_f64,
    ) {
        let mechanism = Stint::default().mechanism();
        let travel = travel_mm(&mechanism, force_n, air_ml);
        let one = implied_ml(&mechanism, reading(force_n, travel));
        let more = implied_ml(&mechanism, reading(force_n, travel + more_mm));
        for (less, more) in one.into_iter().zip(more) {
            // Bounds are found to a thousandth of a millilitre.
            prop_assert!(more >= less - 2e-3, "{one:?} ml, then {more:?} ml");
        }
        prop_assert!(one[0] <= one[1] && one[1] <= one[2], "{one:?}");
        // What was there is within what is implied.
        prop_assert!(one[0] <= air_ml + 1e-3 && air_ml <= one[2] + 1e-3, "{air_ml} ml, implied {one:?}");
    }
}

proptest! {
    #![proptest_config(config(256))]

    /// The verdict turns where the reservoir holds what is needed, and nowhere else.
    #[test]
    fn the_reserve_turns_at_what_is_needed(
        piston_mm in 40.0..80.0_f64,
        wear_mm in 5.0..20.0_f64,
        clearance_mm in 0.01..1.0_f64,
        apart in 1e-6..0.5_f64,
    ) {
        let stint = Stint { piston_mm, clearance_mm, wear_mm, ..Stint::default() };
        // Area by travel, by hand.
        let needed_ml = std::f64::consts::FRAC_PI_4 * piston_mm * piston_mm * (wear_mm + clearance_mm) / 1000.0;
        for (reservoir_ml, verdict) in [
            (needed_ml * (1.0 + apart), CapacityVerdict::Pass),
            (needed_ml * (1.0 - apart), CapacityVerdict::Fail),
        ] {
            let network = Stint { reservoir_ml, ..stint }.load();
            let all = capacities(&network);
            prop_assert_eq!(all[0].verdict, verdict, "{} ml of {} ml", reservoir_ml, needed_ml);
            let found = all[0].needed.nominal.get::<milliliter>();
            prop_assert!((found - needed_ml).abs() <= 1e-9 * needed_ml, "{found}, by hand {needed_ml}");
        }
    }
}

/// Each compartment counts by itself: one of 20 ml in 240 ml is too small, whatever the other one holds, and a capacity whose
/// bounds lie on both sides of what is needed is neither enough nor not enough.
#[test]
fn each_compartment_counts_by_itself() {
    use CapacityVerdict::{Fail, Open, Pass};

    let verdicts = |front: &str| {
        let text = crate::demo::demo_text("lapwing");
        let stated = "max: \"260 ml\", min: \"120 ml\"";
        assert!(text.contains(stated));
        let text = text.replace(stated, &format!("max: \"{front}\", min: \"5 ml\""));
        let network = &network_of(&text);
        let options = bleedwright_planner::Options::default();
        let said: Vec<&str> = bleedwright_planner::plan(network, &options)
            .findings
            .iter()
            .map(|finding| finding.code.text())
            .filter(|code| ["BW321", "BW322"].contains(code))
            .collect();
        let all: Vec<CapacityVerdict> = capacities(network).iter().map(|one| one.verdict).collect();
        (all, said.first().copied())
    };
    // Two pistons of 54 mm, 10 to 18 mm of travel (assumed) and at most 0.3 mm of clearance: 46 to 84 ml, by hand.
    for (front, verdict, said) in [
        ("20 ml", Fail, Some("BW321")),
        ("45 ml", Fail, Some("BW321")),
        ("50 ml", Open, Some("BW322")),
        ("83 ml", Open, Some("BW322")),
        ("85 ml", Pass, None),
        ("45 ml ± 5 ml", Open, Some("BW322")),
        ("86 ml ± 5 ml", Open, Some("BW322")),
        ("260 ml", Pass, None),
    ] {
        assert_eq!(verdicts(front), (vec![verdict, Pass], said), "{front}");
    }
}
