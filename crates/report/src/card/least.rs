//! The least that an opened joint asks for, in words.

use crate::said::{Said, bare, figure, name, say};
use bleedwright_planner::{AtLeast, LeastFrom, StepScrew};

/// The least of a screw, and why it asks for it.
pub(super) fn at_least(
    screw: &StepScrew,
    is_named: bool,
    why: impl Fn(&AtLeast) -> Said,
) -> Option<Said> {
    let least = screw.at_least.as_ref()?;
    let of = if is_named {
        say!("{}: ", bare(&screw.screw))
    } else {
        Said::default()
    };
    let ml = figure(least.whole_ml());
    Some(say!("{}Push at least {} ml: {}.", of, ml, why(least)))
}

/// The least of a screw, the joint that asks for it, and where its way begins.
pub(super) fn least(screw: &StepScrew, is_named: bool) -> Option<Said> {
    at_least(screw, is_named, |AtLeast { joint, from, .. }| {
        let from = match from {
            LeastFrom::Joint => say!(""),
            LeastFrom::HighPoint(high) if *high == joint.at => say!(""),
            LeastFrom::HighPoint(high) => say!("; its air climbs to {}", name(high)),
            LeastFrom::Swept => say!("; the way before is pushed through already"),
            LeastFrom::Screw => say!("; from the screw up to the reservoir"),
        };
        say!(
            "the joint of {} at {} was open{}",
            name(&joint.line),
            name(&joint.at),
            from
        )
    })
}
