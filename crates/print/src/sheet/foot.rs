//! The line at the foot of each page.

use crate::font::Fonts;
use crate::legible::legible;
use crate::lines::{Line, Span};
use crate::mark::Mark;
use crate::paper::{FOOT, Size, WIDTH};
use bleedwright_report::Card;

/// The most that the name of the layout file takes.
const LAYOUT: f32 = 130.0;

/// The number of the page, up to `page 9999 of 9999`, with the gap before it.
const PAGE: f32 = 94.0;

/// Between two of its texts.
const GAP: f32 = 14.0;

/// What every page says at its foot.
#[derive(Debug)]
pub(crate) struct Foot {
    title: String,
    /// What is the same on all pages, with where it begins.
    lines: Vec<(f32, Line)>,
}

impl Foot {
    /// For the pages of a card.
    pub(crate) fn new(card: &Card, layout: &str, fonts: &Fonts) -> Self {
        let em = Size::SMALL.em;
        let governs = governs("9999", fonts);
        let layout = Line::within(&Span::regular(layout), LAYOUT / em, fonts);
        let governs_at = WIDTH - PAGE - governs.width * em;
        let room = governs_at - layout.width * em - 2.0 * GAP;
        let vehicle = Line::within(&Span::regular(&card.vehicle), room / em, fonts);
        let layout_at = vehicle.width * em + GAP;
        Self {
            title: legible(&format!("Bleed plan: {}", card.vehicle), fonts),
            lines: vec![(0.0, vehicle), (layout_at, layout)],
        }
    }

    /// The title of the file.
    pub(crate) fn title(&self) -> &str {
        &self.title
    }

    /// Its marks on page `number` of `of`, with the page of the cautions.
    pub(crate) fn marks(
        &self,
        number: usize,
        of: usize,
        cautions: usize,
        fonts: &Fonts,
    ) -> Vec<Mark<'static>> {
        let size = Size::SMALL;
        let top = FOOT - size.leading;
        let rule = Mark::Rule {
            from: (0.0, top - 2.0),
            to: (WIDTH, top - 2.0),
            width: 0.5,
        };
        let page = Line::whole(&Span::regular(format!("page {number} of {of}")), fonts);
        let page_at = WIDTH - page.width * size.em;
        let governs = governs(&cautions.to_string(), fonts);
        let governs_at = WIDTH - PAGE - governs.width * size.em;
        let lines = self.lines.iter().cloned();
        let lines = lines.chain([(governs_at, governs), (page_at, page)]);
        std::iter::once(rule)
            .chain(lines.map(|(at, line)| Mark::text((at, top), size, line)))
            .collect()
    }
}

/// What nobody may overlook on any page.
fn governs(cautions: &str, fonts: &Fonts) -> Line {
    let text = format!("The maker's manual governs. Cautions: page {cautions}");
    Line::whole(&Span::bold(text), fonts)
}
