//! How often to see to the reservoir, in words.

use crate::said::{Said, figure, say};
use bleedwright_planner::{LevelRule, Progress, Rhythm};
use uom::si::volume::milliliter;

/// When one compartment is seen to.
pub(super) fn when(rule: &LevelRule) -> Said {
    match (rule.is_before_start, rule.every) {
        (true, None) => say!("before you start"),
        (true, Some(every)) => say!("before + {}", rhythm(every)),
        (false, Some(every)) => rhythm(every),
        (false, None) => Said::default(),
    }
}

fn rhythm(every: Rhythm) -> Said {
    match every {
        Rhythm::Strokes { every: 1, .. } => say!("every stroke"),
        Rhythm::Strokes { every, .. } => say!("every {}", figure(every)),
        Rhythm::Volume(volume) => say!("every {}", figure(place_of(Progress::Volume(volume)))),
    }
}

/// How the counts of a plan's top-ups hold; nothing where none counts strokes.
pub(super) fn without_block<'r>(rules: impl Iterator<Item = &'r LevelRule>) -> Option<Said> {
    let strokes = rules.filter_map(|rule| match rule.every {
        Some(Rhythm::Strokes { without_block, .. }) => Some(without_block),
        _ => None,
    });
    let mut strokes = strokes.peekable();
    strokes.peek()?;
    Some(if strokes.all(|without_block| without_block.is_some()) {
        say!("No block: TOP UP at half.")
    } else {
        say!("NEVER without the block.")
    })
}

/// How far a step may go, as a count. Rounded down: sooner is safe.
pub(super) fn place_of(progress: Progress) -> u64 {
    match progress {
        Progress::Strokes(strokes) => strokes,
        Progress::Volume(volume) => volume.get::<milliliter>().floor() as u64,
    }
}
