//! What `draft` was told, as the options that say the same.

use crate::draft_args::{BOOSTERS, BRAKES, CYLINDERS, DraftArguments, HALVES, REAR_AXLES, UNITS};
use crate::words::word_of;
use bleedwright_drafting::PipeSort;
use bleedwright_network::{Bounds, Fluid, Split, Steering};
use uom::si::f64::Length;
use uom::si::length::meter;

/// Whether no option says anything of the vehicle.
pub(crate) fn gives_nothing(arguments: &DraftArguments) -> bool {
    let DraftArguments {
        anti_lock, from, ..
    } = arguments;
    given(arguments).is_empty() && !anti_lock && from.is_none()
}

/// The call with which nothing more need be asked.
pub(crate) fn as_call(arguments: &DraftArguments) -> String {
    let arguments = DraftArguments {
        units: Some(arguments.units()),
        ..arguments.clone()
    };
    let mut call = String::from("bleedwright draft");
    for (flag, value) in given(&arguments) {
        // A text that no shell can take is left to be typed in.
        let quoted =
            shlex::try_quote(&value).map_or_else(|_| "''".to_owned(), std::borrow::Cow::into_owned);
        call.push_str(&format!(" --{flag} {quoted}"));
    }
    if arguments.anti_lock {
        call.push_str(" --anti-lock");
    }
    call
}

/// The options with a value that were given.
fn given(arguments: &DraftArguments) -> Vec<(&'static str, String)> {
    let options = [
        (
            "split",
            arguments.split.map(|it| Split::word(it).to_owned()),
        ),
        (
            "steering",
            arguments.steering.map(|it| Steering::word(it).to_owned()),
        ),
        (
            "fluid",
            arguments.fluid.map(|it| Fluid::word(it).to_owned()),
        ),
        (
            "cylinder",
            arguments.cylinder.and_then(|it| word_of(it, &CYLINDERS)),
        ),
        ("half", arguments.half.and_then(|it| word_of(it, &HALVES))),
        (
            "booster",
            arguments.booster.and_then(|it| word_of(it, &BOOSTERS)),
        ),
        (
            "cylinder-behind-axle",
            arguments.cylinder_behind_axle.map(length),
        ),
        ("pipe", arguments.pipe.as_ref().map(pipe)),
        ("front", arguments.front.and_then(|it| word_of(it, &BRAKES))),
        ("rear", arguments.rear.and_then(|it| word_of(it, &BRAKES))),
        (
            "rear-axle",
            arguments.rear_axle.and_then(|it| word_of(it, &REAR_AXLES)),
        ),
        ("rear-pipe", arguments.rear_pipe.as_ref().map(pipe)),
        ("wheelbase", arguments.wheelbase.map(|it| length(it.length))),
        ("track", arguments.track.map(length)),
        ("units", arguments.units.and_then(|it| word_of(it, &UNITS))),
        ("name", arguments.name.clone()),
    ];
    let given = options.into_iter();
    given
        .filter_map(|(flag, value)| Some((flag, value?)))
        .collect()
}

fn length(length: Bounds<Length>) -> String {
    let [low, nominal, high] =
        [length.low, length.nominal, length.high].map(|length| length.get::<meter>());
    let whole_micrometres = |m: f64| (m * 1e6).round() / 1e6;
    let reach = whole_micrometres((high - nominal).max(nominal - low));
    let nominal = whole_micrometres(nominal);
    if reach > 0.0 {
        format!("{nominal} m ± {reach} m")
    } else {
        format!("{nominal} m")
    }
}

fn pipe(sort: &PipeSort) -> String {
    match &sort.wall {
        None => sort.size.clone(),
        Some(wall) => format!("{} x {wall}", sort.size),
    }
}
