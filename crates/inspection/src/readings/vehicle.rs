//! Reservoir, leaks, hoses, lamp; who and when.

use super::{Bench, Check, Group, State, fluid, reading};
use crate::limit::{
    HOSES, LAMP_LIGHTS, LEAK, LOW_LEVEL, PEDAL_HOLD, PRACTICE, RESERVOIR_CAP, SHEET,
};
use crate::record::{Answer, CompartmentReadings, FluidLevel, Record};

pub(super) fn judge_compartment(
    name: &str,
    compartment: Option<&CompartmentReadings>,
    bench: &mut Bench,
) {
    let level = reading(compartment, |compartment| &compartment.level);
    let check = bench.check(Group::Reservoir, name, "level", PRACTICE);
    "at the maximum mark".clone_into(&mut check.limit);
    if let Some(level) = level {
        check.found = level.word().replace('_', " ");
        let (state, remark) = match level {
            FluidLevel::AtMaximum => (State::Within, ""),
            FluidLevel::Between => (State::LookAgain, "fill up to the maximum mark"),
            FluidLevel::AboveMaximum => (State::LookAgain, "draw off to the maximum mark"),
            FluidLevel::BelowMinimum => (State::Fails, "fill up, and look where it went"),
        };
        check.state = state;
        if state == State::Fails {
            check.source = LOW_LEVEL;
        }
        remark.clone_into(&mut check.remark);
    }
    let cap = reading(compartment, |compartment| &compartment.cap);
    let question = (Group::Reservoir, name, "cap on, level switch connected");
    bench.question(question, cap, Answer::Yes, RESERVOIR_CAP);
}

pub(super) fn judge_vehicle(record: &Record, bench: &mut Bench) {
    let checks = &record.checks;
    for (what, answer, good, source) in [
        ("leak found anywhere", &checks.leak_found, Answer::No, LEAK),
        (
            "hoses and pipes sound, supported, free of the body, also at full lock",
            &checks.hoses_sound,
            Answer::Yes,
            HOSES,
        ),
        (
            "brake warning lamp lights with the ignition",
            &checks.lamp_lights,
            Answer::Yes,
            LAMP_LIGHTS,
        ),
        (
            "lamp then goes out, and stays off under the hard press",
            &checks.lamp_goes_out,
            Answer::Yes,
            PEDAL_HOLD,
        ),
    ] {
        bench.question((Group::Vehicle, "", what), answer.found(), good, source);
    }
    fluid::judge(record, bench);
}

/// A record of no vehicle, or that nobody stands for, shows nothing.
pub(super) fn judge_who(record: &Record, bench: &mut Bench) {
    let work = &record.work;
    let mut stated = |what, found: String, is_stated: bool| {
        let check: &mut Check = bench.check(Group::Record, "", what, SHEET);
        "stated".clone_into(&mut check.limit);
        if is_stated {
            check.state = State::Within;
        } else if !found.trim().is_empty() {
            "a name has a letter".clone_into(&mut check.remark);
        }
        check.found = found;
    };
    let vehicle = &record.vehicle.name;
    stated("vehicle", vehicle.clone(), !vehicle.trim().is_empty());
    for (what, name) in [("done by", &work.done_by), ("checked by", &work.checked_by)] {
        stated(what, name.clone(), is_name(name));
    }
    let is_one_person =
        is_name(&work.done_by) && letters(&work.done_by) == letters(&work.checked_by);
    if is_one_person && let Some(check) = bench.checks.last_mut() {
        check.state = State::LookAgain;
        "the same as done by: a second pair of eyes is asked for".clone_into(&mut check.remark);
    }
    let date = work.date.found().map(ToString::to_string);
    let check = bench.check(Group::Record, "", "date", SHEET);
    "stated".clone_into(&mut check.limit);
    if let Some(date) = date {
        check.state = State::Within;
        check.found = date;
    }
}

/// Whether somebody stands behind it: a stroke or a question mark is nobody.
fn is_name(text: &str) -> bool {
    text.chars().any(char::is_alphabetic)
}

/// What makes a name the same name: its letters and digits, whatever their case.
fn letters(name: &str) -> String {
    let letters = name.chars().filter(|c| c.is_alphanumeric());
    letters.flat_map(char::to_lowercase).collect()
}
