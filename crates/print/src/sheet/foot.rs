//! The line at the foot of each page.

use crate::font::Fonts;
use crate::legible::legible;
use crate::lines::{Line, Span};
use crate::mark::{Ink, Mark};
use crate::paper::{FOOT, Size, WIDTH};
use bleedwright_report::Card;

/// The most that the name of the layout file takes.
const LAYOUT: f32 = 130.0;

/// What every page says at its foot.
#[derive(Debug)]
pub(crate) struct Foot {
    title: String,
    vehicle: String,
    layout: String,
}

impl Foot {
    /// For the pages of a card.
    pub(crate) fn new(card: &Card, layout: &str, fonts: &Fonts) -> Self {
        Self {
            title: legible(&format!("Bleed plan: {}", card.vehicle), fonts),
            vehicle: card.vehicle.clone(),
            layout: layout.to_owned(),
        }
    }

    /// The title of the file.
    pub(crate) fn title(&self) -> &str {
        &self.title
    }

    /// Its marks on page `number` of `of`.
    pub(crate) fn marks(&self, number: usize, of: usize, fonts: &Fonts) -> Vec<Mark<'static>> {
        let size = Size::SMALL;
        let top = FOOT - size.leading;
        let page = Line::whole(&Span::regular(format!("page {number} of {of}")), fonts);
        let governs = Line::whole(&Span::bold("The maker's manual governs."), fonts);
        let layout = Line::within(
            &Span::regular(self.layout.as_str()),
            LAYOUT / size.em,
            fonts,
        );
        let gap = 14.0 / size.em;
        let room = WIDTH / size.em - page.width - governs.width - layout.width - 3.0 * gap;
        let vehicle = Line::within(&Span::regular(self.vehicle.as_str()), room, fonts);
        let layout_at = (vehicle.width + gap) * size.em;
        let page_at = WIDTH - page.width * size.em;
        let governs_at = page_at - (gap + governs.width) * size.em;
        let mut marks = vec![Mark::Rule {
            from: (0.0, top - 2.0),
            to: (WIDTH, top - 2.0),
            width: 0.5,
            ink: Ink::Black,
        }];
        for (at, line) in [
            (0.0, vehicle),
            (layout_at, layout),
            (governs_at, governs),
            (page_at, page),
        ] {
            marks.push(Mark::text((at, top), size, line));
        }
        marks
    }
}
