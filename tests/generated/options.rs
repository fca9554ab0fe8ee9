//! Random plan options that a layout can be planned with.

use super::layout::Known;
use crate::generated::Choices;
use bleedwright_network::Fluid;
use bleedwright_planner::{Begin, Method, Options, Purpose};
use uom::si::f64::{Ratio, ThermodynamicTemperature, Volume};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume::milliliter;

/// Draws options; at least one screw stays in scope.
pub(crate) fn draw(choices: &mut Choices, known: &Known) -> Options {
    let mut options = Options {
        // Whether a plan waits for it is tested by itself.
        depressurised: true,
        purpose: *choices.pick(&[
            None,
            Some(Purpose::Renew),
            Some(Purpose::Air),
            Some(Purpose::Fill),
        ]),
        ..Options::default()
    };
    let methods = [
        Method::Pressure,
        Method::Vacuum,
        Method::Gravity,
        Method::Reverse,
    ];
    if choices.chance(30) {
        options.method = *choices.pick(&methods);
    }
    // The two refusals of the reverse method are tested by themselves.
    if options.method == Method::Reverse
        && (options.purpose == Some(Purpose::Renew) || known.holds_back)
    {
        options.method = Method::Vacuum;
    }
    let things: Vec<String> = known.parts.iter().chain(&known.lines).cloned().collect();
    if choices.chance(35) {
        let count = 1 + choices.below(2);
        options.opened = (0..count).map(|_| choices.pick(&things).clone()).collect();
    }
    if choices.chance(15) {
        options.drained = vec![choices.pick(&things).clone()];
    }
    if choices.chance(25) {
        options.ran_dry = choices.some_of(&known.compartments, 60);
    }
    if choices.chance(30) {
        options.clamped = choices.some_of(&known.rubber_hoses, 40);
    }
    if choices.chance(40) {
        options.begin = Begin::Nearest;
    }
    if choices.chance(30) {
        options.circuit_first = Some(choices.pick(&known.circuits).name.clone());
    }
    let share = |choices: &mut Choices, usual: f64, low: f64, high: f64| {
        let value = if choices.chance(60) {
            choices.between(low, high, 100)
        } else {
            usual
        };
        Ratio::new::<percent>(value)
    };
    options.residual = share(choices, 5.0, 1.0, 30.0);
    options.stroke = share(choices, 60.0, 30.0, 100.0);
    if choices.chance(20) {
        let sizes: [&[f64]; 3] = [&[500.0], &[250.0, 1000.0], &[330.0]];
        options.bottles = choices
            .pick(&sizes)
            .iter()
            .map(|size| Volume::new::<milliliter>(*size))
            .collect();
    }
    if choices.chance(20) {
        let degc = choices.between(-20.0, 40.0, 12);
        options.temperature = ThermodynamicTemperature::new::<degree_celsius>(degc);
    }
    if choices.chance(20) {
        options.date = Some("2031-04-05".to_owned());
    }
    if choices.chance(20) && known.fluid.is_some_and(|fluid| fluid != "dot5") {
        options.new_fluid = Some(Fluid::Dot51);
    }
    leave_out(choices, known, &mut options);
    options
}

fn leave_out(choices: &mut Choices, known: &Known, options: &mut Options) {
    let in_scope: Vec<String> = screws_in_scope(known, options).into_iter().collect();
    let names: Vec<String> = known.screws.iter().map(|screw| screw.id.clone()).collect();
    if choices.chance(20) {
        options.skip = choices.some_of(&names, 20);
    }
    if choices.chance(20) {
        options.done = choices.some_of(&names, 25);
    }
    let is_left = |name: &String| !options.skip.contains(name) && !options.done.contains(name);
    if !in_scope.iter().any(is_left) {
        options.skip.clear();
        options.done.clear();
    }
}

/// The screws that the options ask for before any is skipped or done, worked
/// out from the words of the layout alone.
pub(crate) fn screws_in_scope(known: &Known, options: &Options) -> Vec<String> {
    let mut circuits: Vec<usize> = Vec::new();
    for name in options
        .opened
        .iter()
        .chain(&options.drained)
        .chain(&options.ran_dry)
    {
        circuits.extend(known.circuits_of.get(name).into_iter().flatten());
    }
    let is_everything = match options.purpose {
        Some(Purpose::Renew | Purpose::Fill) => true,
        Some(Purpose::Air) | None => circuits.is_empty(),
    };
    known
        .screws
        .iter()
        .filter(|screw| is_everything || circuits.contains(&screw.circuit))
        .filter(|screw| !screw.stays_shut)
        .map(|screw| screw.id.clone())
        .collect()
}
