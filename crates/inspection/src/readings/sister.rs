//! A reading far from that of the other side of the vehicle: one of the two is wrong, or the two sides are.

use super::{Bench, Group, Remark, State, What, is_above};
use crate::record::{BrakeReadings, Entry, Measured, Record, ScrewReadings};
use std::ops::{Mul, Sub};
use uom::num_traits::Zero;

/// How many times as large a figure may be as that of the other side.
///
/// ASSUMPTION, no source: all of them, wide enough for parts worn unevenly and for gauges of two hands.
const TIMES_DISC: f64 = 1.15;
const TIMES_DRUM: f64 = 1.01;
const TIMES_LINING: f64 = 2.0;
const TIMES_LIMIT: f64 = 1.1;
const TIMES_TORQUE: f64 = 1.5;

/// Marks every check whose figure is far from its sister's. Nothing is softened by it.
pub(super) fn judge(record: &Record, bench: &mut Bench) {
    for (brake, sister) in pairs(&record.brakes, |brake| &brake.name) {
        let mut look = |what, of: fn(&BrakeReadings) -> &Entry<Measured<_>>, times| {
            compare(
                bench,
                (Group::Brakes, what),
                (&brake.name, &sister.name),
                (of(brake), of(sister)),
                times,
            );
        };
        look(What::Disc, |brake| &brake.disc, TIMES_DISC);
        look(What::Disc, |brake| &brake.disc_minimum, TIMES_LIMIT);
        look(What::Drum, |brake| &brake.drum, TIMES_DRUM);
        look(What::Drum, |brake| &brake.drum_maximum, TIMES_DRUM);
        look(What::Lining, |brake| &brake.lining, TIMES_LINING);
        look(What::Lining, |brake| &brake.lining_minimum, TIMES_LIMIT);
    }
    for (screw, sister) in pairs(&record.screws, |screw| &screw.name) {
        let mut look = |of: fn(&ScrewReadings) -> &Entry<Measured<_>>| {
            let what = (Group::Screws, What::Torque);
            compare(
                bench,
                what,
                (&screw.name, &sister.name),
                (of(screw), of(sister)),
                TIMES_TORQUE,
            );
        };
        look(|screw| &screw.torque);
        look(|screw| &screw.torque_wanted);
    }
}

/// Every item with the one whose name says the other side.
fn pairs<T>(items: &[T], name: impl Fn(&T) -> &String) -> Vec<(&T, &T)> {
    let mut pairs = Vec::new();
    for item in items {
        let Some(other) = other_side(name(item)) else {
            continue;
        };
        pairs.extend(
            items
                .iter()
                .filter(|it| *name(it) == other)
                .map(|it| (item, it)),
        );
    }
    pairs
}

/// The name with left and right exchanged; none for one that says neither.
fn other_side(name: &str) -> Option<String> {
    if name.contains("left") {
        Some(name.replace("left", "right"))
    } else if name.contains("right") {
        Some(name.replace("right", "left"))
    } else {
        None
    }
}

fn compare<Q>(
    bench: &mut Bench,
    (group, what): (Group, What),
    (name, sister): (&str, &str),
    (own, other): (&Entry<Measured<Q>>, &Entry<Measured<Q>>),
    times: f64,
) where
    Q: Copy + PartialOrd + Zero + Mul<f64, Output = Q> + Sub<Output = Q>,
{
    let (Some(own), Some(other)) = (own.found(), other.found()) else {
        return;
    };
    let is_far = is_above(own.bounds.low, other.bounds.high * times)
        || is_above(other.bounds.low, own.bounds.high * times);
    let is_meant = |check: &&mut super::Check| {
        check.group == group && check.subject == name && check.what == what
    };
    let check = bench.checks.iter_mut().find(is_meant).filter(|_| is_far);
    let Some(check) = check else {
        return;
    };
    check.state = check.state.max(State::LookAgain);
    check.remark.get_or_insert_with(|| Remark::FarFromSister {
        here: own.text.clone(),
        there: other.text.clone(),
        sister: sister.to_owned(),
    });
}
