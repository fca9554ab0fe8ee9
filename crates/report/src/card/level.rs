//! How often to see to the reservoir, in words.

use crate::said::{Said, bare, figure, say};
use bleedwright_planner::{LevelAction, LevelRule, Progress, Rhythm};
use uom::si::volume::milliliter;

/// How often to see to the level, compartment by compartment.
pub(super) fn level(rules: &[LevelRule]) -> Option<Said> {
    let action = match rules.first()?.action {
        LevelAction::TopUp => "TOP UP",
        LevelAction::DrawOff => "DRAW OFF",
    };
    let each = rules.iter().map(|rule| {
        let mut when = Vec::new();
        if rule.is_before_start {
            when.push(say!("before you start"));
        }
        when.extend(rule.every.map(rhythm));
        say!(
            "{} {}",
            bare(&rule.compartment),
            Said::joined(when, ", then ")
        )
    });
    Some(say!("{} {}.", action, Said::joined(each, "; ")))
}

fn rhythm(every: Rhythm) -> Said {
    let count = |strokes: u64| {
        if strokes == 1 {
            say!("every stroke")
        } else {
            say!("every {}", figure(strokes))
        }
    };
    match every {
        Rhythm::Strokes {
            every,
            without_block: Some(without_block),
        } => say!("{} (no block: {})", count(every), count(without_block)),
        Rhythm::Strokes { every, .. } => say!("{} (never without the block)", count(every)),
        Rhythm::Volume(volume) => {
            say!("every {} ml", figure(place_of(Progress::Volume(volume))))
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
