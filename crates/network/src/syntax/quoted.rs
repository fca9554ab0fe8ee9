//! Texts and characters in quotes, straight ones and others.

use super::Shape;
use super::scanner::{ODD_QUOTES, Read, Scanner, is_word_start};
use super::slip::SlipKind;

impl Scanner<'_> {
    pub(super) fn text_value(&mut self) -> Read<Shape> {
        let start = self.at;
        self.at += 1;
        loop {
            self.take_while(|c| c != '"' && c != '\\');
            match self.peek() {
                Some('"') => {
                    self.at += 1;
                    return self.closed_text(start);
                }
                Some(_) => {
                    self.at += 1;
                    self.at += self.peek().map_or(0, char::len_utf8);
                }
                None => {
                    let end = self.text.trim_end().len().max(start);
                    self.note(SlipKind::QuoteNeverClosed, end..end, Some(start..start + 1))?;
                }
            }
        }
    }

    /// A text with a word right behind it was closed by the opening quote of
    /// the next one.
    fn closed_text(&mut self, start: usize) -> Read<Shape> {
        if self.peek().is_some_and(is_word_start) {
            let text = &self.text[start..self.at];
            let first_line = start + text.find('\n').unwrap_or(text.len());
            self.note(SlipKind::QuoteNeverClosed, start..first_line, None)?;
        }
        Ok(Shape::Text)
    }

    /// How many `#` open the raw text that begins here, if one does.
    pub(super) fn raw_text_hashes(&self) -> Option<usize> {
        let rest = self.rest();
        let rest = rest.strip_prefix('b').unwrap_or(rest);
        let hashes = match rest.strip_prefix('r') {
            Some(raw) => raw.len() - raw.trim_start_matches('#').len(),
            None if self.rest().starts_with("b\"") => return Some(0),
            None => return None,
        };
        rest[1 + hashes..].starts_with('"').then_some(hashes)
    }

    pub(super) fn raw_text(&mut self) -> Read<Shape> {
        let start = self.at;
        if self.rest().starts_with("b\"") {
            self.at += 1;
            return self.text_value();
        }
        let hashes = self.raw_text_hashes().unwrap_or(0);
        let closer = format!("\"{}", "#".repeat(hashes));
        let opened = self
            .rest()
            .find('"')
            .map_or(self.at, |quote| self.at + quote + 1);
        match self.text[opened..].find(&closer) {
            Some(length) => self.at = opened + length + closer.len(),
            None => self.note(SlipKind::QuoteNeverClosed, start..opened, None)?,
        }
        Ok(Shape::Text)
    }

    pub(super) fn character(&mut self) -> Read<Shape> {
        let mut inside = self.rest()[1..].char_indices();
        let length = match inside.next() {
            Some((_, '\\')) => inside.as_str().find('\'').map(|end| end + 1),
            Some((_, first)) if first != '\'' => inside
                .as_str()
                .starts_with('\'')
                .then_some(first.len_utf8()),
            _ => None,
        };
        match length {
            Some(length) => {
                self.at += length + 2;
                Ok(Shape::Character)
            }
            None => self.odd_quote('\''),
        }
    }

    /// Text in quotes of another kind, to its other quote on the same line.
    pub(super) fn odd_quote(&mut self, first: char) -> Read<Shape> {
        self.note(SlipKind::OddQuote, self.here(), None)?;
        self.at += first.len_utf8();
        self.take_while(|c| !ODD_QUOTES.contains(&c) && !matches!(c, '\'' | '"' | '\n'));
        if !self.rest().starts_with('\n') {
            self.at += self.peek().map_or(0, char::len_utf8);
        }
        Ok(Shape::Unread)
    }
}
