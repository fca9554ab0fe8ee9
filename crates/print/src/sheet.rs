//! The card as blocks, in the order of the work.

mod figure;
mod foot;
mod head;
mod section;
mod step;
mod why;

pub(crate) use figure::add_figure;
pub(crate) use foot::Foot;
pub(crate) use section::CAUTION;

use crate::block::{Block, Role};
use crate::font::Fonts;
use crate::lines::Span;
use crate::paper::{Size, WIDTH};
use bleedwright_report::{AFTER, AFTER_SECOND, BEFORE, Card, LOOK_FIRST, SECOND, Said};

/// Everything that the card says.
pub(crate) fn words<'a>(card: &Card, fonts: &Fonts) -> Vec<Block<'a>> {
    let mut blocks = vec![head::title(card, fonts)];
    blocks.push(paragraph(&card.job.plain(), fonts));
    blocks.extend(card.notes.iter().map(|text| paragraph(text, fonts)));
    blocks.extend(card.danger.as_ref().map(|text| head::danger(text, fonts)));
    blocks.extend(head::warnings(&card.warnings, fonts));
    blocks.push(led("READY ", &card.ready.plain(), fonts));
    // What can hurt is read before the work.
    blocks.push(section::cautions(&card.cautions, fonts));
    section::ticked(&mut blocks, LOOK_FIRST, &card.look, false, fonts);
    section::ticked(&mut blocks, BEFORE, &card.before, false, fonts);
    let in_one = |all: &[Said]| all.iter().map(Said::plain).collect::<Vec<_>>().join("  ");
    let each = format!("{} ", card.each_head().to_uppercase());
    blocks.push(led(&each, &in_one(&card.each), fonts));
    blocks.push(paragraph(&in_one(&card.done), fonts));
    let digits = card.all_steps().count().to_string().len();
    step::steps(
        &mut blocks,
        ("STEPS", digits),
        &card.steps,
        &card.titles,
        fonts,
    );
    blocks.extend(section::ifs(&card.otherwise, fonts));
    section::ticked(&mut blocks, AFTER, &card.after, true, fonts);
    if let Some(second) = &card.second {
        let (title, right) = SECOND;
        let title = title.to_uppercase();
        blocks.push(section::heading(&title, right, fonts));
        blocks.push(paragraph(&second.how.plain(), fonts));
        let of_second = (title.as_str(), digits);
        step::steps(&mut blocks, of_second, &second.steps, &card.titles, fonts);
        blocks.push(section::signatures(fonts));
        section::ticked(&mut blocks, AFTER_SECOND, &second.after, true, fonts);
    }
    blocks.extend(section::kept(fonts));
    blocks.push(section::signatures(fonts));
    why::why(&mut blocks, card, fonts);
    // A sentence that a plan does not have is no block.
    blocks.retain(|block| !block.slices.is_empty());
    blocks
}

fn paragraph<'a>(text: &impl ToString, fonts: &Fonts) -> Block<'a> {
    block_of(&[Span::regular(text.to_string())], fonts)
}

/// A paragraph whose first words stand out.
fn led<'a>(lead: &str, text: &str, fonts: &Fonts) -> Block<'a> {
    block_of(&[Span::bold(lead), Span::regular(text)], fonts)
}

fn block_of<'a>(spans: &[Span], fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Paragraph, WIDTH);
    block.gap = 2.0;
    block.push_text(spans, 0.0, WIDTH, Size::BODY, fonts);
    block
}
