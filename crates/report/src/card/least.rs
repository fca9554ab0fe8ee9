//! The least that an opened joint asks for, in words.

use bleedwright_planner::{AtLeast, LeastFrom, StepScrew};
use uom::si::volume::milliliter;

/// The least in whole millilitres, rounded up: more is safe.
pub(super) fn least_ml(least: &AtLeast) -> u64 {
    (least.volume.get::<milliliter>() - 1e-9).ceil() as u64
}

/// The least of a screw, and why it asks for it.
pub(super) fn at_least(
    screw: &StepScrew,
    is_named: bool,
    why: impl Fn(&AtLeast) -> String,
) -> Option<String> {
    let least = screw.at_least.as_ref()?;
    let name = if is_named {
        format!("{}: ", screw.screw)
    } else {
        String::new()
    };
    let ml = least_ml(least);
    Some(format!("{name}Push at least {ml} ml: {}.", why(least)))
}

/// The least of a screw, the joint that asks for it, and where its way begins.
pub(super) fn least(screw: &StepScrew, is_named: bool) -> Option<String> {
    at_least(screw, is_named, |AtLeast { joint, from, .. }| {
        let from = match from {
            LeastFrom::Joint => String::new(),
            LeastFrom::HighPoint(high) if *high == joint.at => String::new(),
            LeastFrom::HighPoint(high) => format!("; its air climbs to `{high}`"),
            LeastFrom::Swept => "; the way before is pushed through already".to_owned(),
            LeastFrom::Screw => "; from the screw up to the reservoir".to_owned(),
        };
        format!(
            "the joint of `{}` at `{}` was open{from}",
            joint.line, joint.at
        )
    })
}
