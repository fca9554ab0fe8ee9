//! What a card says, in the order in which its pages must say it.

use bleedwright_report::{Card, CardStep};

/// Every text of a card.
pub(crate) fn texts(card: &Card) -> Vec<String> {
    let mut texts = vec![card.vehicle.clone()];
    texts.push(card.facts.clone());
    texts.extend(card.notes.clone());
    texts.extend(card.danger.clone());
    texts.extend(card.warnings.clone());
    texts.extend(card.cautions.clone());
    texts.extend(card.before.clone());
    texts.push(card.rhythm.clone());
    for step in &card.steps {
        texts.extend(step_texts(step));
    }
    texts.extend(card.otherwise.clone());
    texts.extend(card.order.clone());
    texts.push(card.buy.clone());
    texts.extend(card.after.clone());
    if let Some(second) = &card.second {
        texts.push(second.how.clone());
        for step in &second.steps {
            texts.extend(step_texts(step));
        }
        texts.extend(second.after.clone());
    }
    texts.extend(card.assumed.clone());
    texts.extend(card.certainty.clone());
    texts
}

fn step_texts(step: &CardStep) -> Vec<String> {
    let mut texts = vec![step.number.to_string()];
    texts.extend(step.screws.clone());
    texts.push(step.tools.clone());
    texts.push(step.work.clone());
    texts.push(step.marks.clone());
    texts.extend(step.level.clone());
    texts.extend(step.draw_back.clone());
    texts.push(step.bounds.clone());
    texts.extend(step.least.clone());
    texts.push(step.why.clone());
    texts.extend(step.runs.clone());
    texts.extend(step.notes.clone());
    texts.extend(step.strokes.map(|strokes| format!("of {strokes}")));
    texts
}
