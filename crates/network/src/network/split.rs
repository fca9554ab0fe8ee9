//! Recognises how circuits are shared among the wheels.
//!
//! Names of DIN 74000 (second-hand): II, X, HI, LL, HH.

use super::circuit::Circuit;
use crate::layout::{BalanceBar, Layout, Split, Wheel, Works};
use std::collections::BTreeSet;

const FRONT: [Wheel; 2] = [Wheel::FrontLeft, Wheel::FrontRight];
const REAR: [Wheel; 2] = [Wheel::RearLeft, Wheel::RearRight];
const ALL: [Wheel; 4] = [
    Wheel::FrontLeft,
    Wheel::FrontRight,
    Wheel::RearLeft,
    Wheel::RearRight,
];

/// The split of the brakes; the clutch does not count.
///
/// Circuits that no common pedal joins (a motorcycle's two brakes) are not a
/// split brake: each is single.
pub(crate) fn recognise(layout: &Layout, circuits: &[Circuit]) -> Split {
    let brakes: Vec<&Circuit> = circuits
        .iter()
        .filter(|circuit| circuit.purpose == Works::Brake)
        .collect();
    match brakes.as_slice() {
        [] => Split::Other,
        [_] => Split::Single,
        [a, b] if share_a_pedal(layout, a, b) => pair_of(&a.wheels, &b.wheels),
        several => {
            if has_common_pedal(layout, several) {
                Split::Other
            } else {
                Split::Single
            }
        }
    }
}

/// Whether any two of many circuits share a pedal.
fn has_common_pedal(layout: &Layout, circuits: &[&Circuit]) -> bool {
    let cylinders: BTreeSet<usize> = circuits.iter().map(|circuit| circuit.cylinder).collect();
    let is_on = |bar: &BalanceBar, cylinder: usize| {
        (bar.cylinders.iter()).any(|name| *name == layout.cylinders[cylinder].id)
    };
    cylinders.len() < circuits.len()
        || (layout.balance_bars.iter())
            .any(|bar| cylinders.iter().filter(|at| is_on(bar, **at)).count() > 1)
}

/// Whether two circuits belong to one tandem cylinder or one balance bar.
fn share_a_pedal(layout: &Layout, a: &Circuit, b: &Circuit) -> bool {
    if a.cylinder == b.cylinder {
        return true;
    }
    let id = |circuit: &Circuit| layout.cylinders[circuit.cylinder].id.as_str();
    layout.balance_bars.iter().any(|bar| {
        let holds = |wanted: &str| bar.cylinders.iter().any(|name| name == wanted);
        holds(id(a)) && holds(id(b))
    })
}

/// The wheels as those of a two-axle car: a middle axle counts as rear, a
/// trailer not at all.
fn car_wheels(wheels: &[Wheel]) -> Vec<Wheel> {
    let mut car: Vec<Wheel> = wheels
        .iter()
        .filter_map(|wheel| match wheel {
            Wheel::MiddleLeft => Some(Wheel::RearLeft),
            Wheel::MiddleRight => Some(Wheel::RearRight),
            Wheel::TrailerLeft | Wheel::TrailerRight => None,
            other => Some(*other),
        })
        .collect();
    car.sort_unstable();
    car.dedup();
    car
}

/// The split of two circuits of one pedal, by their wheels.
pub(crate) fn pair_of(a: &[Wheel], b: &[Wheel]) -> Split {
    recognise_pair(&car_wheels(a), &car_wheels(b))
}

fn recognise_pair(a: &[Wheel], b: &[Wheel]) -> Split {
    // Wheels come sorted, so the lists can be compared as they are.
    let either = |x: &[Wheel], y: &[Wheel]| (a == x && b == y) || (a == y && b == x);
    let front_and = |rear: Wheel| [FRONT[0], FRONT[1], rear];
    if either(&FRONT, &REAR) {
        Split::II
    } else if either(
        &[Wheel::FrontLeft, Wheel::RearRight],
        &[Wheel::FrontRight, Wheel::RearLeft],
    ) {
        Split::X
    } else if either(&ALL, &FRONT) {
        Split::HI
    } else if either(&front_and(REAR[0]), &front_and(REAR[1])) {
        Split::LL
    } else if either(&ALL, &ALL) {
        Split::HH
    } else {
        Split::Other
    }
}
