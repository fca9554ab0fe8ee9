//! Page 2: why, how certain, and what it rests on.

use super::section::heading;
use crate::block::{Block, Role};
use crate::font::Fonts;
use crate::lines::Span;
use crate::paper::{Size, WIDTH};
use bleedwright_report::{Card, CardStep};

/// Adds what is read where there is time.
pub(super) fn why(blocks: &mut Vec<Block<'_>>, card: &Card, fonts: &Fonts) {
    let mut section = |title: &str, texts: Vec<String>| {
        blocks.push(heading(title, "", fonts));
        for text in texts {
            let mut block = Block::new(Role::Paragraph, WIDTH);
            block.gap = 1.5;
            block.push_text(&[Span::regular(text)], 0.0, WIDTH, Size::SMALL, fonts);
            blocks.push(block);
        }
    };
    let mut why = vec![card.facts.to_string()];
    why.extend(card.all_steps().map(|step| step.in_full().to_string()));
    why.extend(card.order.iter().map(ToString::to_string));
    section("WHY", why);
    section("RUNS", card.all_steps().flat_map(runs).collect());
    section("BUY", vec![card.buy.to_string()]);
    let in_full = card.in_full();
    section("IN FULL", in_full.iter().map(ToString::to_string).collect());
    let rests_on = card.rests_on();
    section(
        "ASSUMED",
        rests_on.iter().map(ToString::to_string).collect(),
    );
}

/// The run of each screw in a line.
fn runs(step: &CardStep) -> Vec<String> {
    let runs = step.runs.iter();
    runs.map(|run| run.in_full().to_string()).collect()
}
