//! Steps of the card that were begun and not finished, or passed over.

use super::{Bench, Group, State};
use crate::limit::SHEET;
use crate::record::CardMarks;
use std::collections::BTreeSet;

/// One check where the record followed a card: every step that was counted, and every one before the last that was ticked,
/// is ticked. How many steps the card had the record does not say.
pub(super) fn judge(card: &CardMarks, bench: &mut Bench) {
    if card.plan.trim().is_empty() {
        return;
    }
    let number = |mark: &str| -> Option<u32> {
        let (list, number) = mark.split_once(' ')?;
        (list == "step").then(|| number.parse().ok())?
    };
    let ticked: BTreeSet<u32> = card
        .ticked
        .0
        .iter()
        .filter_map(|mark| number(mark))
        .collect();
    let counted = card.counted.0.iter().filter_map(|mark| {
        let (name, count) = mark.split_once(": ")?;
        let step = name.split(' ').take(2).collect::<Vec<_>>().join(" ");
        let is_begun = count.parse::<f64>().is_ok_and(|count| count > 0.0);
        number(&step).filter(|_| is_begun)
    });
    let last = ticked.last().copied().unwrap_or(0);
    let open: BTreeSet<u32> = (1..=last)
        .chain(counted)
        .filter(|step| !ticked.contains(step))
        .collect();
    let check = bench.check(Group::Vehicle, "", "steps of the card", SHEET);
    "each begun step finished, none passed over".clone_into(&mut check.limit);
    if open.is_empty() && !ticked.is_empty() {
        check.state = State::Within;
        check.found = format!("{} ticked", ticked.len());
        return;
    }
    let open: Vec<String> = open.iter().map(u32::to_string).collect();
    check.found = match open.len() {
        0 => "none ticked".to_owned(),
        _ => format!("open: {}", open.join(", ")),
    };
    "NOT FINISHED: bleed what is open, or say on paper why it was left out"
        .clone_into(&mut check.remark);
}
