//! Text broken into lines of a width.

use crate::font::{Fonts, Glyph, Source, Weight};
use crate::legible::legible;
use std::ops::Range;
use textwrap::WordSeparator;

/// A piece of text of one weight.
#[derive(Clone, Debug)]
pub(crate) struct Span {
    text: String,
    weight: Weight,
}

impl Span {
    pub(crate) fn regular(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            weight: Weight::Regular,
        }
    }

    pub(crate) fn bold(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            weight: Weight::Bold,
        }
    }
}

/// A line, ready to be printed: what is said and the glyphs that say it.
#[derive(Clone, Debug)]
pub(crate) struct Line {
    pub(crate) text: String,
    pub(crate) glyphs: Vec<Placed>,
    /// Without the blank at its end, in ems.
    pub(crate) width: f32,
}

/// A glyph and the bytes of the line that it shows.
#[derive(Clone, Debug)]
pub(crate) struct Placed {
    pub(crate) glyph: Glyph,
    pub(crate) bytes: Range<usize>,
}

impl Line {
    /// A whole text in one line, however long.
    pub(crate) fn whole(span: &Span, fonts: &Fonts) -> Self {
        Typed::new(std::slice::from_ref(span), fonts).line(0..usize::MAX)
    }

    /// A whole text in one line, shortened with an ellipsis where it is longer than `most` ems.
    pub(crate) fn within(span: &Span, most: f32, fonts: &Fonts) -> Self {
        let line = Self::whole(span, fonts);
        if line.width <= most {
            return line;
        }
        let whole = |text: String| {
            let weight = span.weight;
            Self::whole(&Span { text, weight }, fonts)
        };
        let room = most - whole("…".to_owned()).width;
        let mut used = 0.0;
        let kept = line.glyphs.iter().take_while(|placed| {
            used += placed.glyph.advance;
            used <= room
        });
        let end = kept.last().map_or(0, |placed| placed.bytes.end);
        whole(format!("{}…", line.text[..end].trim_end()))
    }

    /// Stretches of glyphs that are from one font, with where each begins in ems.
    pub(crate) fn runs(&self) -> Vec<(Source, f32, &[Placed])> {
        let mut at = 0.0;
        self.glyphs
            .chunk_by(|a, b| a.glyph.source == b.glyph.source)
            .map(|run| {
                let start = at;
                at += width(run);
                (run[0].glyph.source, start, run)
            })
            .collect()
    }
}

fn width(glyphs: &[Placed]) -> f32 {
    glyphs.iter().map(|placed| placed.glyph.advance).sum()
}

/// Breaks text into lines of at most `most` ems. A word that is longer is broken where it must be.
pub(crate) fn set(spans: &[Span], most: f32, fonts: &Fonts) -> Vec<Line> {
    let typed = Typed::new(spans, fonts);
    let mut lines = Vec::new();
    let mut start = 0;
    let mut end = 0;
    for piece in typed.pieces(most) {
        if end > start && typed.width(start..piece.start) + typed.width_of_ink(piece.clone()) > most
        {
            lines.push(typed.line(start..end));
            start = end;
        }
        end = piece.end;
    }
    if end > start {
        lines.push(typed.line(start..end));
    }
    lines
}

/// Text as glyphs, in order.
struct Typed {
    text: String,
    glyphs: Vec<Placed>,
}

impl Typed {
    fn new(spans: &[Span], fonts: &Fonts) -> Self {
        let mut typed = Self {
            text: String::new(),
            glyphs: Vec::new(),
        };
        for span in spans {
            for character in legible(&span.text, fonts).chars() {
                let start = typed.text.len();
                typed.text.push(character);
                // `legible` leaves nothing that a font lacks.
                if let Some(glyph) = fonts.glyph(character, span.weight) {
                    typed.glyphs.push(Placed {
                        glyph,
                        bytes: start..typed.text.len(),
                    });
                }
            }
        }
        typed
    }

    /// Stretches of glyphs that stay together: words with the blanks behind them, pieces of words longer than a line,
    /// and numbers with their units.
    fn pieces(&self, most: f32) -> Vec<Range<usize>> {
        let mut pieces: Vec<Range<usize>> = Vec::new();
        let (mut byte, mut start, mut before) = (0, 0, String::new());
        for word in WordSeparator::UnicodeBreakProperties.find_words(&self.text) {
            byte += word.word.len() + word.whitespace.len();
            let count = self.glyphs[start..]
                .iter()
                .take_while(|placed| placed.bytes.end <= byte)
                .count();
            let piece = start..start + count;
            start = piece.end;
            match pieces.last_mut() {
                Some(last)
                    if is_unit_of(&before, word.word)
                        && self.width_of_ink(last.start..piece.end) <= most =>
                {
                    last.end = piece.end;
                }
                _ if self.width_of_ink(piece.clone()) <= most => pieces.push(piece),
                _ => pieces.extend(self.broken(piece, most)),
            }
            before.clear();
            before.push_str(word.word);
        }
        pieces
    }

    /// Pieces of a word that is longer than a line. No mark is torn from the letter that it stands on.
    fn broken(&self, word: Range<usize>, most: f32) -> Vec<Range<usize>> {
        let mut pieces = Vec::new();
        let mut start = word.start;
        for index in word.clone() {
            let is_mark = self.glyphs[index].glyph.advance == 0.0;
            if index > start && !is_mark && self.width_of_ink(start..index + 1) > most {
                pieces.push(start..index);
                start = index;
            }
        }
        pieces.push(start..word.end);
        pieces
    }

    fn width(&self, range: Range<usize>) -> f32 {
        width(&self.glyphs[range])
    }

    /// Without the blanks at the end.
    fn width_of_ink(&self, range: Range<usize>) -> f32 {
        let glyphs = &self.glyphs[range];
        let blanks = glyphs
            .iter()
            .rev()
            .take_while(|placed| &self.text[placed.bytes.clone()] == " ")
            .count();
        width(&glyphs[..glyphs.len() - blanks])
    }

    fn line(&self, range: Range<usize>) -> Line {
        let range = range.start..range.end.min(self.glyphs.len());
        let from = self
            .glyphs
            .get(range.start)
            .map_or(0, |placed| placed.bytes.start);
        let glyphs: Vec<Placed> = self.glyphs[range.clone()]
            .iter()
            .map(|placed| Placed {
                glyph: placed.glyph,
                bytes: placed.bytes.start - from..placed.bytes.end - from,
            })
            .collect();
        let to = glyphs.last().map_or(0, |placed| placed.bytes.end);
        Line {
            text: self.text[from..from + to].to_owned(),
            width: self.width_of_ink(range),
            glyphs,
        }
    }
}

/// Whether a word is the unit of the number before it, as in `7 N m`.
fn is_unit_of(before: &str, word: &str) -> bool {
    const UNITS: [&str; 15] = [
        "ml", "l", "mm", "m", "in", "ft", "%", "°C", "N", "lbf", "s", "min", "bar", "x", "h",
    ];
    let unit = word.trim_end_matches([',', '.', ';', ':', ')']);
    let is_after_number = before.ends_with(|c: char| c.is_ascii_digit());
    (is_after_number && UNITS.contains(&unit))
        || matches!((before, unit), ("N", "m") | ("lbf", "ft" | "in"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str, most: f32) -> Vec<String> {
        let fonts = Fonts::new().expect("the fonts are built in");
        let lines = set(&[Span::regular(text)], most, &fonts);
        for line in &lines {
            assert!(line.width <= most, "{} is too long", line.text);
        }
        lines.into_iter().map(|line| line.text).collect()
    }

    #[test]
    fn numbers_keep_their_units() {
        for most in 4..20 {
            let lines = lines("screws to 7 N m, then 45 mm; 20 % of 160 ml.", most as f32);
            for line in &lines[1..] {
                for unit in ["N m", "m,", "mm", "%", "ml"] {
                    assert!(!line.starts_with(unit), "{lines:?}");
                }
            }
        }
    }

    #[test]
    fn no_letter_is_lost_however_narrow_the_line() {
        let text = format!(
            "{} e\u{301}{} end",
            "word".repeat(75),
            "e\u{301}".repeat(40)
        );
        for most in [1.0, 3.0, 9.5, 30.0] {
            let lines = lines(&text, most);
            assert_eq!(lines.concat(), text);
            assert!(lines.iter().all(|line| !line.starts_with('\u{301}')));
        }
    }

    #[test]
    fn nothing_makes_no_line() {
        assert!(lines("", 9.0).is_empty());
    }
}
