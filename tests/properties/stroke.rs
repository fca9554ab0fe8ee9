//! What a stroke brings with one screw open, by plan, pedal and simulation.

use super::config;
use crate::demo::{ALL, load_demo};
use crate::generated::cases;
use bleedwright_network::{Bounds, CircuitId, Network};
use bleedwright_pedal::{Choice, Control, Mechanism, Press, Range, Unknown, controls};
use bleedwright_planner::{Block, Drive, Options, Plan, Purpose, Step, plan};
use bleedwright_simulation::{Parameters, simulate};
use proptest::prelude::*;
use uom::si::f64::Volume;
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// N on a mm2 for each bar.
const N_PER_BAR_MM2: f64 = 0.1;

/// Just before the piston with the open screw moves.
const ALMOST: f64 = 1.0 - 1e-9;

/// Rounding of sums of some tens of terms, in ml.
const ROUNDING_ML: f64 = 1e-6;

/// A mechanism whose pistons reach no stop.
fn endless(network: &Network, control: &Control) -> Mechanism {
    let mut mechanism = Mechanism::new(network, control);
    for chamber in mechanism
        .cylinders
        .iter_mut()
        .flat_map(|it| &mut it.chambers)
    {
        let stroke = &mut chamber.stroke_mm;
        (stroke.low, stroke.nominal, stroke.high) = (1e6, 1e6, 1e6);
    }
    mechanism
}

/// How far the rods have gone, by the pedal's own figures, when the open piston is about to move: the force on the pedal is
/// such that the open piston's springs and seals bear it all.
fn rods_mm(mechanism: &Mechanism, choice: &Choice, lost: (usize, usize), force_n: f64) -> f64 {
    let press = Press {
        force_n: force_n * ALMOST,
        lost: Some(lost),
        ..Press::default()
    };
    let at = |range: &Range| range.at(choice);
    let rest_mm = at(&mechanism.free_play_mm) + at(&mechanism.flex_mm_per_n) * press.force_n;
    let moved_mm = mechanism.travel_mm(choice, &press) - rest_mm;
    (moved_mm / at(&mechanism.ratio)).max(0.0)
}

/// What leaves by the open screw in one choice of the unknowns.
fn delivered_ml(
    network: &Network,
    open: CircuitId,
    choice: &Choice,
    (share, block): (f64, Block),
) -> Option<f64> {
    let control = controls(network)
        .into_iter()
        .find(|control| control.circuits(network).any(|circuit| circuit == open))?;
    let as_built = Mechanism::new(network, &control);
    let mechanism = endless(network, &control);
    let place = mechanism
        .cylinders
        .iter()
        .enumerate()
        .find_map(|(index, cylinder)| {
            let nth = cylinder.chambers.iter().position(|it| it.circuit == open)?;
            Some((index, nth))
        })?;
    let at = |range: &Range| range.at(choice);
    let own = &as_built.cylinders[place.0].chambers[place.1];
    let area_mm2 = at(&own.area_mm2);
    let chambers = &as_built.cylinders[place.0].chambers;
    let lever = at(&mechanism.ratio);
    let piston_mm = match block {
        Block::FirmPedal => share * at(&own.stroke_mm),
        Block::At(travel) => {
            let rod_mm = (travel.get::<millimeter>() - at(&mechanism.free_play_mm)) / lever;
            match (&mechanism.bar_share, place.1) {
                // The bar tilts about the shut piston once its port is closed.
                (Some(bar_share), _) if as_built.cylinders.len() == 2 => {
                    let first = at(bar_share);
                    let wide = if place.0 == 0 { first } else { 1.0 - first };
                    let shut_mm = at(&as_built.cylinders[1 - place.0].chambers[0].cut_off_mm);
                    shut_mm + (rod_mm - shut_mm) / wide
                }
                (_, 1) => rod_mm - at(&chambers[0].cut_off_mm),
                _ => rod_mm,
            }
        }
    };
    let displaced_ml = (area_mm2 * (piston_mm - at(&own.cut_off_mm)) / 1000.0).max(0.0);
    if let (Some(bar_share), 2) = (&mechanism.bar_share, mechanism.cylinders.len()) {
        let first = at(bar_share);
        let (wide, narrow) = if place.0 == 0 {
            (first, 1.0 - first)
        } else {
            (1.0 - first, first)
        };
        let shut = &as_built.cylinders[1 - place.0].chambers[0];
        let rods = rods_mm(&mechanism, choice, place, at(&own.drag_n) / (lever * wide));
        let short_mm = rods / narrow - at(&shut.cut_off_mm);
        let delivered = displaced_ml - narrow / wide * short_mm * area_mm2 / 1000.0;
        return Some(delivered);
    }
    match place.1 {
        1 => {
            let primary = &chambers[0];
            let pressure_bar = at(&own.drag_n) / (N_PER_BAR_MM2 * area_mm2);
            let force_n =
                at(&primary.drag_n) + N_PER_BAR_MM2 * at(&primary.area_mm2) * pressure_bar;
            let rods = rods_mm(&mechanism, choice, place, force_n / lever);
            let taken_mm = (rods - at(&primary.cut_off_mm)).max(0.0);
            Some(displaced_ml - taken_mm * at(&primary.area_mm2) / 1000.0)
        }
        _ => Some(displaced_ml),
    }
}

fn brought(step: &Step) -> Option<Bounds<f64>> {
    match step.drive {
        Drive::Strokes { brought, .. } => Some(brought.map(|volume| volume.get::<milliliter>())),
        Drive::Steady { .. } => None,
    }
}

/// Every bound of a plan against one choice of the unknowns, by the pedal's model.
fn against_the_pedal(
    network: &Network,
    options: &Options,
    plan: &Plan,
    choice: &Choice,
) -> Result<(), TestCaseError> {
    let share = options.stroke.get::<ratio>();
    for step in &plan.steps {
        let (Some(brought), [screw]) = (brought(step), &step.screws[..]) else {
            continue;
        };
        let block = step.block().expect("a pedal drives it");
        let to = (share, block);
        let Some(delivered) = delivered_ml(network, screw.circuit_id, choice, to) else {
            continue;
        };
        let delivered = delivered.max(0.0);
        prop_assert!(
            brought.low <= delivered + ROUNDING_ML && delivered <= brought.high + ROUNDING_ML,
            "{}: {delivered} ml, the plan says {brought:?} with {choice:?}",
            screw.screw
        );
    }
    Ok(())
}

/// A fluid without air: what a simulated stroke brings lies within the plan's bounds.
fn against_the_simulation(
    network: &Network,
    options: &Options,
    plan: &Plan,
) -> Result<(), TestCaseError> {
    let outcome = simulate(network, options, plan, &Parameters::default())
        .map_err(|error| TestCaseError::fail(error.to_string()))?;
    if outcome.air_at_start > Volume::default() {
        return Ok(());
    }
    for (step, done) in plan.steps.iter().zip(&outcome.steps) {
        let (Some(brought), Some(made)) = (brought(step), done.strokes) else {
            continue;
        };
        let each = done.out.get::<milliliter>() / made as f64;
        prop_assert!(
            brought.low <= each + ROUNDING_ML && each <= brought.high + ROUNDING_ML,
            "step {}: {each} ml simulated, the plan says {brought:?}",
            step.number
        );
    }
    Ok(())
}

/// Each unknown low, nominal, high or between.
fn choice_of(kinds: &[u8]) -> Choice {
    let at = |choice: Choice, (unknown, kind): (&Unknown, &u8)| match kind {
        0 => choice.with(*unknown, 0.0),
        1 => choice.with(*unknown, 1.0),
        2 => choice.with(*unknown, 0.4),
        _ => choice,
    };
    Unknown::ALL.iter().zip(kinds).fold(Choice::nominal(), at)
}

fn kinds() -> impl Strategy<Value = Vec<u8>> {
    proptest::collection::vec(0..4_u8, Unknown::ALL.len())
}

proptest! {
    #![proptest_config(config())]

    /// At every choice of the unknowns a stroke brings no less than the plan's least, and no more than its most.
    #[test]
    fn the_least_is_the_least(case in cases(), kinds in kinds()) {
        let network = &case.load();
        let options = Options { purpose: Some(Purpose::Renew), ..case.options.clone() };
        if let Some(plan) = plan(network, &options).plan {
            against_the_pedal(network, &options, &plan, &choice_of(&kinds))?;
            against_the_simulation(network, &options, &plan)?;
        }
    }

    #[test]
    fn the_least_is_the_least_of_a_demo(kinds in kinds(), nth in 0..ALL.len()) {
        let network = &load_demo(ALL[nth]);
        let options = Options { depressurised: true, ..Options::default() };
        let plan = plan(network, &options).plan.or_else(|| plan(network, &Options::default()).plan);
        let plan = plan.expect("every demo plans");
        against_the_pedal(network, &options, &plan, &choice_of(&kinds))?;
        against_the_simulation(network, &options, &plan)?;
    }
}
