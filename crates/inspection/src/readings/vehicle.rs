//! Reservoir, leaks, hoses, lamp; who and when.

use super::person::{is_name, is_same, is_stated};
use super::{Bench, Check, Group, State, fluid, kept};
use crate::limit::{
    CLEAR_FLUID, HOSES, LAMP_LIGHTS, LEAK, LOW_LEVEL, PEDAL_HOLD, PRACTICE, RESERVOIR_CAP, SHEET,
};
use crate::record::{Answer, CompartmentReadings, FluidLevel, Record};

pub(super) fn judge_compartment(name: &str, compartment: &CompartmentReadings, bench: &mut Bench) {
    let level = compartment.level.found();
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
    let cap = compartment.cap.found();
    let question = (Group::Reservoir, name, "cap on, level switch connected");
    bench.question(question, cap, Answer::Yes, RESERVOIR_CAP);
}

pub(super) fn judge_vehicle(record: &Record, bench: &mut Bench) {
    let checks = &record.checks;
    let mass = bench.is_over_10000_lb;
    for (what, answer, good, source) in [
        ("leak found anywhere", &checks.leak_found, Answer::No, LEAK),
        (
            "hoses and pipes sound, supported, free of the body, also at full lock",
            &checks.hoses_sound,
            Answer::Yes,
            HOSES.of(mass),
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
            PEDAL_HOLD.of(mass),
        ),
        (
            "fluid clear in a glass, no water or dirt to be seen",
            &checks.fluid_clear,
            Answer::Yes,
            CLEAR_FLUID,
        ),
    ] {
        bench.question((Group::Vehicle, "", what), answer.found(), good, source);
    }
    fluid::judge(record, bench);
    kept::judge_opened(record, bench);
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
            "this says nobody and nothing".clone_into(&mut check.remark);
        }
        check.found = found;
    };
    let vehicle = &record.vehicle;
    for (what, text) in [
        ("vehicle", &vehicle.name),
        (
            "registration, chassis or fleet number",
            &vehicle.registration,
        ),
    ] {
        stated(what, text.clone(), is_stated(text));
    }
    for (what, name) in [("done by", &work.done_by), ("checked by", &work.checked_by)] {
        stated(what, name.clone(), is_name(name));
    }
    let is_one_person = is_name(&work.done_by) && is_same(&work.done_by, &work.checked_by);
    if is_one_person && let Some(check) = bench.checks.last_mut() {
        check.state = State::LookAgain;
        "the same as done by: a second pair of eyes is asked for".clone_into(&mut check.remark);
    }
    let date = work.date.found();
    let check = bench.check(Group::Record, "", "date", SHEET);
    "stated".clone_into(&mut check.limit);
    if let Some(date) = date {
        check.found = date.to_string();
        check.state = State::Within;
        if !date.is_of_this_century() {
            check.state = State::LookAgain;
            "nobody worked on this vehicle on such a day".clone_into(&mut check.remark);
        }
    }
}
