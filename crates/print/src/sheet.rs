//! The card as blocks, in the order of the work.

mod figure;
mod foot;
mod head;
mod section;
mod step;

pub(crate) use figure::add_figure;
pub(crate) use foot::Foot;
pub(crate) use section::CAUTION;

use crate::block::{Block, Role};
use crate::font::Fonts;
use crate::lines::Span;
use crate::paper::{Size, WIDTH};
use bleedwright_report::Card;
use section::Blanks;

/// Everything that the card says.
pub(crate) fn words<'a>(card: &Card, fonts: &Fonts) -> Vec<Block<'a>> {
    let mut blocks = vec![head::title(card, fonts)];
    blocks.push(paragraph(&card.facts, fonts));
    blocks.extend(card.notes.iter().map(|text| paragraph(text, fonts)));
    blocks.extend(card.danger.as_ref().map(|text| head::danger(text, fonts)));
    blocks.extend(head::warnings(&card.warnings, fonts));
    // On the first page: what can hurt is read before the work, and nobody loses it with a second page.
    blocks.push(section::cautions(&card.cautions, fonts));
    section::ticked(&mut blocks, "BEFORE", &card.before, Blanks::None, fonts);
    blocks.push(section::heading("STEPS", "", fonts));
    blocks.push(paragraph(&card.rhythm, fonts));
    let digits = card.all_steps().count().to_string().len();
    step::steps(&mut blocks, ("STEPS", digits), &card.steps, fonts);
    blocks.push(section::heading("IF", "", fonts));
    blocks.extend(card.otherwise.iter().map(|text| paragraph(text, fonts)));
    blocks.extend(card.order.iter().map(|text| paragraph(text, fonts)));
    blocks.push(section::heading("BUY", "", fonts));
    blocks.push(paragraph(&card.buy, fonts));
    let kept = match card.second {
        Some(_) => Blanks::Signed,
        None => Blanks::Kept,
    };
    section::ticked(&mut blocks, "AFTER", &card.after, kept, fonts);
    if let Some(second) = &card.second {
        let title = "SECOND BLEED";
        blocks.push(section::heading(title, "after the routine", fonts));
        blocks.push(paragraph(&second.how, fonts));
        step::steps(&mut blocks, (title, digits), &second.steps, fonts);
        blocks.push(section::signatures(fonts));
        let title = "AFTER THE SECOND BLEED";
        section::ticked(&mut blocks, title, &second.after, Blanks::Kept, fonts);
    }
    section::assumed(&mut blocks, card, fonts);
    // A sentence that a plan does not have is no block.
    blocks.retain(|block| !block.slices.is_empty());
    blocks
}

fn paragraph<'a>(text: &impl ToString, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Paragraph, WIDTH);
    block.gap = 3.0;
    block.push_text(
        &[Span::regular(text.to_string())],
        0.0,
        WIDTH,
        Size::BODY,
        fonts,
    );
    block
}
