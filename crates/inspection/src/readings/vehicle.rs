//! Reservoir, leaks, hoses, lamp; who and when.

use super::person::{is_name, is_same, is_stated};
use super::{Bench, Check, Found, Group, Remark, State, Wanted, What, fluid, kept};
use crate::limit::{
    CLEAR_FLUID, HOSES, LAMP_LIGHTS, LEAK, LOW_LEVEL, PEDAL_HOLD, PRACTICE, RESERVOIR_CAP, SHEET,
};
use crate::record::{Answer, CompartmentReadings, FluidLevel, Record};

pub(super) fn judge_compartment(name: &str, compartment: &CompartmentReadings, bench: &mut Bench) {
    let level = compartment.level.found();
    let check = bench.check(Group::Reservoir, name, What::Level, PRACTICE);
    check.limit = Wanted::MaximumMark;
    if let Some(level) = level {
        check.found = Found::Level(*level);
        (check.state, check.remark) = match level {
            FluidLevel::AtMaximum => (State::Within, None),
            FluidLevel::Between => (State::LookAgain, Some(Remark::FillUp)),
            FluidLevel::AboveMaximum => (State::LookAgain, Some(Remark::DrawOff)),
            FluidLevel::BelowMinimum => (State::Fails, Some(Remark::LookWhereItWent)),
        };
        if check.state == State::Fails {
            check.source = LOW_LEVEL;
        }
    }
    let cap = compartment.cap.found();
    let question = (Group::Reservoir, name, What::Cap);
    bench.question(question, cap, Answer::Yes, RESERVOIR_CAP);
}

pub(super) fn judge_vehicle(record: &Record, bench: &mut Bench) {
    let checks = &record.checks;
    let mass = bench.is_over_10000_lb;
    for (what, answer, good, source) in [
        (What::Leak, &checks.leak_found, Answer::No, LEAK),
        (
            What::Hoses,
            &checks.hoses_sound,
            Answer::Yes,
            HOSES.of(mass),
        ),
        (
            What::LampLights,
            &checks.lamp_lights,
            Answer::Yes,
            LAMP_LIGHTS,
        ),
        (
            What::LampGoesOut,
            &checks.lamp_goes_out,
            Answer::Yes,
            PEDAL_HOLD.of(mass),
        ),
        (
            What::FluidClear,
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
    let mut stated = |what, found: &str, is_stated: bool| {
        let check: &mut Check = bench.check(Group::Record, "", what, SHEET);
        check.limit = Wanted::Stated;
        if is_stated {
            check.state = State::Within;
        } else if !found.trim().is_empty() {
            check.remark = Some(Remark::SaysNothing);
        }
        if !found.is_empty() {
            check.found = Found::Written(found.to_owned());
        }
    };
    let vehicle = &record.vehicle;
    for (what, text) in [
        (What::Vehicle, &vehicle.name),
        (What::Registration, &vehicle.registration),
    ] {
        stated(what, text, is_stated(text));
    }
    for (what, name) in [
        (What::DoneBy, &work.done_by),
        (What::CheckedBy, &work.checked_by),
    ] {
        stated(what, name, is_name(name));
    }
    let is_one_person = is_name(&work.done_by) && is_same(&work.done_by, &work.checked_by);
    if is_one_person && let Some(check) = bench.checks.last_mut() {
        check.state = State::LookAgain;
        check.remark = Some(Remark::SamePerson);
    }
    let date = work.date.found();
    let check = bench.check(Group::Record, "", What::Date, SHEET);
    check.limit = Wanted::Stated;
    if let Some(date) = date {
        check.found = Found::Day(*date);
        check.state = State::Within;
        if !date.is_of_this_century() {
            check.state = State::LookAgain;
            check.remark = Some(Remark::NoSuchDay);
        }
    }
}
