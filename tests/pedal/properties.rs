//! What must hold for every pedal: drawn layouts, drawn presses.

use crate::generated::{Case, cases};
use bleedwright_network::{Bounds, Network};
use bleedwright_pedal::{
    AirPocket, Choice, Control, Curve, Feel, Mechanism, OnStop, Press, controls,
};
use proptest::prelude::*;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// A drawn layout takes a few milliseconds, and has up to four controls.
pub(super) fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 64,
        failure_persistence: None,
        max_shrink_iters: 200,
        ..ProptestConfig::default()
    }
}

/// Rounding of sums of some tens of terms.
const ROUNDING: f64 = 1e-9;

/// Calls something with every pedal of a case.
pub(super) fn for_each_pedal(
    case: &Case,
    mut visit: impl FnMut(&Network, &Control, &Mechanism) -> Result<(), TestCaseError>,
) -> Result<(), TestCaseError> {
    let network = &case.load();
    for control in controls(network) {
        visit(network, &control, &Mechanism::new(network, &control))?;
    }
    Ok(())
}

prop_compose! {
    pub(super) fn presses()(
        force_n in 10.0..2000.0_f64,
        is_boosted in any::<bool>(),
        is_pumped in any::<bool>(),
        air_ml in prop_oneof![Just(0.0), 0.01..20.0_f64],
    ) -> Press {
        Press { force_n, is_boosted, is_pumped, lost: None, air: pocket(air_ml) }
    }
}

fn pocket(volume_ml: f64) -> Vec<AirPocket> {
    vec![AirPocket {
        chamber: (0, 0),
        zone: 0,
        volume_ml,
    }]
}

fn ordered<Q: Copy + PartialOrd + Default + std::fmt::Debug>(
    what: &str,
    bounds: Bounds<Q>,
) -> Result<(), TestCaseError> {
    let is_ordered = bounds.low <= bounds.nominal && bounds.nominal <= bounds.high;
    prop_assert!(
        is_ordered && bounds.low >= Q::default(),
        "{what}: {bounds:?}"
    );
    Ok(())
}

fn all_ordered(feel: &Feel) -> Result<(), TestCaseError> {
    ordered("travel", feel.travel)?;
    ordered("share", feel.stroke_share)?;
    for circuit in &feel.circuits {
        ordered(&circuit.name, circuit.pressure)?;
        ordered(&circuit.name, circuit.stroke_share)?;
        for brake in &circuit.brakes {
            ordered(&brake.name, brake.pressure)?;
        }
    }
    for contribution in &feel.contributions {
        ordered(contribution.what.word(), contribution.volume)?;
    }
    Ok(())
}

/// What every piston displaced is what its circuit took up.
fn volumes_add_up(mechanism: &Mechanism, feel: &Feel) -> Result<(), TestCaseError> {
    for cylinder in &mechanism.cylinders {
        let rel = |nth: usize| {
            let chamber = &cylinder.chambers[nth];
            let found = feel.circuits.iter().find(|it| it.name == chamber.name);
            let share = found.expect("one for each chamber").stroke_share.nominal;
            share.get::<ratio>() * chamber.stroke_mm.nominal
        };
        for (nth, chamber) in cylinder.chambers.iter().enumerate() {
            let area = chamber.area_mm2.nominal;
            let mut displaced = area * rel(nth);
            if nth == 0 && cylinder.chambers.len() == 2 {
                // In a stepped cylinder the floating piston makes room as it goes.
                displaced += (area - cylinder.chambers[1].area_mm2.nominal) * rel(1);
            }
            let taken: f64 = feel
                .contributions
                .iter()
                .filter(|it| it.circuit == chamber.name)
                .map(|it| it.volume.nominal.get::<milliliter>())
                .sum();
            let displaced = displaced / 1000.0;
            // A floating piston that goes farther than the one behind it leaves that one's own stroke unused, and the share
            // of it says no more than that.
            if nth == 0 && rel(0) <= 0.0 {
                continue;
            }
            // A metering valve lets all of its pressure through at once, so that volumes within that jump are met by no
            // pressure; a piston stands there only at the end of its stroke.
            let jumps = chamber
                .zones
                .iter()
                .any(|zone| matches!(zone.curve, Curve::Metering { .. }));
            if jumps && is_on_stop(feel) {
                continue;
            }
            prop_assert!(
                (taken - displaced).abs() <= ROUNDING * displaced.max(1.0),
                "{}: taken up {taken} ml, displaced {displaced} ml",
                chamber.name
            );
        }
    }
    Ok(())
}

fn is_on_stop(feel: &Feel) -> bool {
    feel.on_stop == OnStop::Yes
}

/// `p = F r / A`, less what springs take: of a chamber whose piston is pushed straight by the rod.
fn pressures_by_hand(
    mechanism: &Mechanism,
    press: &Press,
    feel: &Feel,
) -> Result<(), TestCaseError> {
    let foot_n = press.force_n * mechanism.ratio.nominal;
    let help = mechanism
        .booster_ratio
        .map_or(0.0, |help| help.nominal - 1.0);
    let most = mechanism
        .booster_help_n
        .map_or(f64::INFINITY, |most| most.nominal);
    let rod_n = foot_n
        + if press.is_boosted {
            (foot_n * help).min(most)
        } else {
            0.0
        };
    for (index, cylinder) in mechanism.cylinders.iter().enumerate() {
        let share = match (mechanism.bar_share, index) {
            (None, _) => 1.0,
            (Some(share), 0) => share.nominal,
            (Some(share), _) => 1.0 - share.nominal,
        };
        let first = &cylinder.chambers[0];
        let found = feel.circuits.iter().find(|it| it.name == first.name);
        let found = found.expect("one for each chamber");
        let bars = found.pressure.nominal.get::<bar>();
        let frictionless = 10.0 * share * rod_n / first.area_mm2.nominal;
        let by_hand = 10.0 * (share * rod_n - first.drag_n.nominal) / first.area_mm2.nominal;
        prop_assert!(
            bars <= frictionless * (1.0 + ROUNDING),
            "{bars} above {frictionless}"
        );
        if found.stroke_share.nominal.get::<ratio>() < 1.0 - 1e-6 {
            prop_assert!(
                (bars - by_hand.max(0.0)).abs() <= ROUNDING * by_hand.abs().max(1.0),
                "{bars}, by hand {by_hand}"
            );
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn bounds_sums_and_pressures(case in cases(), press in presses()) {
        for_each_pedal(&case, |_, _, mechanism| {
            let feel = mechanism.feel(&press);
            all_ordered(&feel)?;
            volumes_add_up(mechanism, &feel)?;
            pressures_by_hand(mechanism, &press, &feel)?;
            for (_, lost) in mechanism.feel_each_lost(&press) {
                all_ordered(&lost)?;
                for circuit in lost.circuits.iter().filter(|circuit| circuit.is_lost) {
                    prop_assert!(circuit.pressure.high.get::<bar>() <= 0.0);
                }
            }
            Ok(())
        })?;
    }

    #[test]
    fn travel_rises_with_force_air_and_loss(case in cases(), press in presses(), more in 1.0..3.0_f64, more_ml in 0.0..10.0_f64) {
        for_each_pedal(&case, |_, _, mechanism| {
            // Where the rear piston is the larger one of a stepped cylinder, the pressure between the two pushes back on
            // it, so that softness there lets it go less far once they touch.
            let is_back_to_front = mechanism.cylinders.iter().any(|cylinder| {
                cylinder.chambers.len() == 2
                    && cylinder.chambers[0].area_mm2.nominal < cylinder.chambers[1].area_mm2.nominal
            });
            if is_back_to_front {
                return Ok(());
            }
            let travel = |press: &Press| mechanism.travel_mm(&Choice::nominal(), press);
            let least = travel(&press) - ROUNDING * travel(&press);
            let harder = Press { force_n: press.force_n * more, ..press.clone() };
            prop_assert!(travel(&harder) >= least, "harder: {} after {least}", travel(&harder));
            let airier = Press { air: pocket(press.air[0].volume_ml + more_ml), ..press.clone() };
            prop_assert!(travel(&airier) >= least, "more air: {} after {least}", travel(&airier));
            for (name, lost) in mechanism.feel_each_lost(&press) {
                let lost_mm = lost.travel.nominal.get::<millimeter>();
                prop_assert!(lost_mm >= least, "{name} lost: {lost_mm} after {least}");
            }
            let first_push = Press { is_pumped: false, ..press.clone() };
            prop_assert!(travel(&first_push) >= least, "pumped");
            Ok(())
        })?;
    }
}
