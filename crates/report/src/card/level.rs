//! How often to see to the reservoir, in words.

use crate::words::listed;
use bleedwright_planner::{LevelAction, LevelRule, Progress, Rhythm};
use uom::si::volume::milliliter;

/// How often to see to the level, compartment by compartment.
pub(super) fn level(rules: &[LevelRule]) -> Option<String> {
    let action = match rules.first()?.action {
        LevelAction::TopUp => "TOP UP",
        LevelAction::DrawOff => "DRAW OFF",
    };
    let each = listed(rules, "; ", |rule| {
        let mut when = Vec::new();
        if rule.is_before_start {
            when.push("before you start".to_owned());
        }
        when.extend(rule.every.map(rhythm));
        format!("{} {}", rule.compartment, when.join(", then "))
    });
    Some(format!("{action} {each}."))
}

fn rhythm(every: Rhythm) -> String {
    let count = |strokes: u64| match strokes {
        1 => "every stroke".to_owned(),
        _ => format!("every {strokes}"),
    };
    match every {
        Rhythm::Strokes {
            every,
            without_block: Some(without_block),
        } => format!("{} (no block: {})", count(every), count(without_block)),
        Rhythm::Strokes { every, .. } => format!("{} (never without the block)", count(every)),
        Rhythm::Volume(volume) => {
            format!("every {} ml", place_of(Progress::Volume(volume)))
        }
    }
}

/// How far a step may go, as a count. Rounded down: sooner is safe.
pub(super) fn place_of(progress: Progress) -> u64 {
    match progress {
        Progress::Strokes(strokes) => strokes,
        Progress::Volume(volume) => volume.get::<milliliter>().floor() as u64,
    }
}
