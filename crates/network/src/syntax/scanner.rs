//! Takes the text apart, reading over slips where the brackets still hold.

use super::slip::{Bracket, Slip, SlipKind};
use super::{Field, Scan, Shape, Value};
use std::ops::Range;

/// A layout needs about ten levels of brackets.
const MOST_LEVELS: usize = 64;

/// A text with more slips than this is no layout.
const MOST_SLIPS: usize = 100;

/// Quotes that word processors put in place of the straight ones.
pub(super) const ODD_QUOTES: [char; 7] = [
    '\u{201c}', '\u{201d}', '\u{201e}', '\u{2018}', '\u{2019}', '«', '»',
];

/// Reading ends here; the slip that says why was noted.
pub(super) struct Stop;

pub(super) type Read<T> = Result<T, Stop>;

pub(super) struct Scanner<'t> {
    pub(super) text: &'t str,
    pub(super) at: usize,
    /// The brackets that are open here, the innermost last.
    open: Vec<Bracket>,
    slips: Vec<Slip>,
}

pub(super) fn scan(text: &str) -> Scan {
    // A byte-order mark is invisible to the writer; it is read over, and stays
    // in the text so that places stay true.
    let start = if text.starts_with('\u{feff}') { 3 } else { 0 };
    let mut scanner = Scanner::starting_at(text, start);
    let root = scanner.layout().ok();
    Scan {
        root,
        slips: scanner.slips,
    }
}

impl<'t> Scanner<'t> {
    pub(super) fn starting_at(text: &'t str, at: usize) -> Self {
        Self {
            text,
            at,
            open: Vec::new(),
            slips: Vec::new(),
        }
    }

    fn layout(&mut self) -> Read<Value> {
        self.skip_blank()?;
        while self.rest().starts_with("#![") {
            // RON's own header lines; `]` cannot stand inside their words.
            let length = self.rest().find(']').unwrap_or(0);
            self.at += length + 1;
            self.skip_blank()?;
        }
        if self.rest().is_empty() {
            let end = self.text.trim_end().len();
            self.note(SlipKind::Empty, end..end, None)?;
        }
        let root = self.value()?;
        self.skip_blank()?;
        if let Some(next) = self.peek() {
            let at = self.at..self.at + next.len_utf8();
            if next == ':' {
                self.note(SlipKind::NoOuterBrackets, root.range.clone(), None)?;
            }
            self.note(SlipKind::TextAfterLayout, at, None)?;
        }
        Ok(root)
    }

    pub(super) fn note(
        &mut self,
        kind: SlipKind,
        at: Range<usize>,
        began: Option<Range<usize>>,
    ) -> Read<()> {
        self.slips.push(Slip { kind, at, began });
        if self.slips.len() == MOST_SLIPS {
            let end = self.at..self.at;
            return self.note(SlipKind::TooMany, end, None);
        }
        if kind.is_fatal() { Err(Stop) } else { Ok(()) }
    }

    pub(super) fn rest(&self) -> &'t str {
        &self.text[self.at..]
    }

    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub(super) fn here(&self) -> Range<usize> {
        self.at..self.at + self.peek().map_or(0, char::len_utf8)
    }

    pub(super) fn take_while(&mut self, is_part: impl Fn(char) -> bool) {
        let rest = self.rest();
        self.at += rest.find(|c| !is_part(c)).unwrap_or(rest.len());
    }

    /// Reads the value at this place.
    fn value(&mut self) -> Read<Value> {
        let start = self.at;
        let Some(first) = self.peek() else {
            return self.missing_value();
        };
        let shape = match first {
            '(' => self.round(None)?,
            '[' => self.list()?,
            '{' => self.curly()?,
            '"' => self.text_value()?,
            '\'' => self.character()?,
            _ if ODD_QUOTES.contains(&first) => self.odd_quote(first)?,
            _ if self.raw_text_hashes().is_some() => self.raw_text()?,
            '+' | '-' | '.' | '0'..='9' => {
                self.at += first.len_utf8();
                self.take_while(is_word_part);
                Shape::Number
            }
            _ if is_word_start(first) => {
                let word = self.word();
                let end = self.at;
                self.skip_blank()?;
                if self.peek() == Some('(') {
                    self.round(Some(word))?
                } else {
                    self.at = end;
                    Shape::Word
                }
            }
            _ => return self.missing_value(),
        };
        Ok(Value {
            range: start..self.at,
            shape,
        })
    }

    fn missing_value(&mut self) -> Read<Value> {
        let at = self.here();
        let kind = match self.peek() {
            None | Some(',' | ')' | ']' | '}') => SlipKind::MissingValue,
            Some(other) => SlipKind::Unexpected(other),
        };
        self.note(kind, at.clone(), None)?;
        Ok(Value {
            range: at,
            shape: Shape::Unread,
        })
    }

    fn word(&mut self) -> Range<usize> {
        if self.rest().starts_with("r#") {
            self.at += 2;
        }
        let start = self.at;
        self.take_while(is_word_part);
        start..self.at
    }

    fn enter(&mut self, bracket: Bracket) -> Read<()> {
        if self.open.len() == MOST_LEVELS {
            self.note(SlipKind::TooDeep, self.here(), None)?;
        }
        self.open.push(bracket);
        self.at += 1;
        self.skip_blank()
    }

    /// Whether the bracket is closed here; a wrong closing bracket or the end
    /// of the text means that it never is. Where the wrong one closes the
    /// bracket around this one, this one's alone was forgotten, and reading
    /// goes on.
    fn is_closed(&mut self, bracket: Bracket, opened: usize) -> Read<bool> {
        match self.peek() {
            Some(next) if next == bracket.closer() => {
                self.at += 1;
                self.open.pop();
                Ok(true)
            }
            found @ (None | Some(')' | ']' | '}')) => {
                let at = if self.rest().is_empty() {
                    let end = self.text.trim_end().len();
                    end..end
                } else {
                    self.here()
                };
                let kind = SlipKind::NeverClosed(bracket);
                let began = Some(opened..opened + 1);
                self.open.pop();
                let around = self.open.last().map(|bracket| bracket.closer());
                if found.is_some() && found == around && self.slips.is_empty() {
                    self.slips.push(Slip { kind, at, began });
                } else {
                    self.note(kind, at, began)?;
                }
                Ok(true)
            }
            Some(_) => Ok(false),
        }
    }

    fn round(&mut self, word: Option<Range<usize>>) -> Read<Shape> {
        let opened = self.at;
        let (mut fields, mut items) = (Vec::new(), Vec::new());
        self.enter(Bracket::Round)?;
        while !self.is_closed(Bracket::Round, opened)? {
            let name = self.field_name()?;
            let mut value = self.value()?;
            self.separator(Some(&mut value), Self::is_field_ahead)?;
            match name {
                Some(name) => fields.push(Field { name, value }),
                None => items.push(value),
            }
        }
        if fields.is_empty() && !items.is_empty() {
            return Ok(Shape::Tuple { word, items });
        }
        for item in items {
            if let Some(number) = comma_number(&fields, &item) {
                self.note(SlipKind::DecimalComma, number, None)?;
            } else if !matches!(item.shape, Shape::Unread) {
                self.note(SlipKind::NoFieldName, item.range, None)?;
            }
        }
        Ok(Shape::Structure { word, fields })
    }

    /// The name of the field that begins here and its colon, if one does.
    fn field_name(&mut self) -> Read<Option<Range<usize>>> {
        let start = self.at;
        if !self.peek().is_some_and(is_word_start) || self.raw_text_hashes().is_some() {
            return Ok(None);
        }
        let name = self.word();
        let end = self.at;
        self.skip_blank()?;
        match self.peek() {
            Some(':') => self.at += 1,
            Some('"' | '[' | '0'..='9') => self.note(SlipKind::MissingColon, end..end, None)?,
            _ => {
                self.at = start;
                return Ok(None);
            }
        }
        self.skip_blank()?;
        Ok(Some(name))
    }

    fn is_field_ahead(&self) -> bool {
        let rest = self.rest();
        let behind = rest.trim_start_matches(is_word_part);
        rest.starts_with(is_word_start) && behind.trim_start_matches(is_blank).starts_with(':')
    }

    fn list(&mut self) -> Read<Shape> {
        let opened = self.at;
        let mut items = Vec::new();
        self.enter(Bracket::Square)?;
        while !self.is_closed(Bracket::Square, opened)? {
            if self.is_field_ahead() {
                let began = Some(opened..opened + 1);
                self.note(SlipKind::FieldInList, self.here(), began)?;
            }
            items.push(self.value()?);
            self.separator(None, |scanner| {
                scanner.rest().starts_with(['(', '"']) || scanner.is_field_ahead()
            })?;
        }
        Ok(Shape::List(items))
    }

    /// The comma behind a field or item. Where something else stands, it is
    /// the next field or item, or it is read over up to the next comma.
    fn separator(
        &mut self,
        field: Option<&mut Value>,
        is_next_ahead: impl Fn(&Self) -> bool,
    ) -> Read<()> {
        let end = self.at;
        self.skip_blank()?;
        let next = match self.peek() {
            Some(',') => {
                self.at += 1;
                return self.skip_blank();
            }
            None | Some(')' | ']' | '}') => return Ok(()),
            Some(next) => next,
        };
        if is_next_ahead(self) {
            return self.note(SlipKind::MissingComma, end..end, None);
        }
        if let Some(word) = field.as_deref().filter(|value| self.is_same_word(value)) {
            let start = word.range.start;
            self.take_while(|c| is_word_part(c) || c == ' ');
            let end = start + self.text[start..self.at].trim_end().len();
            if let Some(word) = field {
                word.range.end = end;
            }
            return self.separator(None, is_next_ahead);
        }
        let number = field.filter(|value| matches!(value.shape, Shape::Number));
        let (kind, at) = match (next, number) {
            ('/' | '%' | '±' | '"', Some(number)) => {
                number.shape = Shape::Unread;
                (SlipKind::BareQuantity, number.range.clone())
            }
            (c, Some(number)) if c.is_alphabetic() => {
                number.shape = Shape::Unread;
                (SlipKind::BareQuantity, number.range.clone())
            }
            (c, _) if is_word_part(c) || matches!(c, '(' | '[' | '{' | '"' | '\'') => {
                (SlipKind::MissingComma, end..end)
            }
            (other, _) => (SlipKind::Unexpected(other), self.here()),
        };
        self.note(kind, at, None)?;
        self.skip_to_comma()
    }

    /// Whether the word goes on behind a space, as in `dot 4`: one word that
    /// is written wrong, and no comma is missing in it.
    fn is_same_word(&self, value: &Value) -> bool {
        matches!(value.shape, Shape::Word)
            && self.peek().is_some_and(is_word_part)
            && self.text[value.range.end..self.at]
                .trim_matches(' ')
                .is_empty()
    }

    fn skip_to_comma(&mut self) -> Read<()> {
        loop {
            self.skip_blank()?;
            match self.peek() {
                Some(',') => {
                    self.at += 1;
                    return self.skip_blank();
                }
                None | Some(')' | ']' | '}') => return Ok(()),
                Some('(' | '[' | '{' | '"') => {
                    self.value()?;
                }
                Some(other) => self.at += other.len_utf8(),
            }
        }
    }

    /// Curly brackets have no place in a layout: what they hold is read over.
    fn curly(&mut self) -> Read<Shape> {
        let opened = self.at;
        self.enter(Bracket::Curly)?;
        while !self.is_closed(Bracket::Curly, opened)? {
            match self.peek() {
                Some('(' | '[' | '{' | '"') => {
                    self.value()?;
                }
                Some(other) => self.at += other.len_utf8(),
                None => {}
            }
            self.skip_blank()?;
        }
        Ok(Shape::Map)
    }
}

/// The bytes of a number in two pieces, as in `ratio: 4,2`, of which this item
/// is the second.
fn comma_number(fields: &[Field], item: &Value) -> Option<Range<usize>> {
    let is_first = |field: &&Field| field.value.range.end + 1 == item.range.start;
    let first = &fields.iter().find(is_first)?.value;
    let are_numbers = matches!(first.shape, Shape::Number) && matches!(item.shape, Shape::Number);
    are_numbers.then_some(first.range.start..item.range.end)
}

pub(super) fn is_word_start(c: char) -> bool {
    c.is_alphabetic() || c == '_'
}

fn is_word_part(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '_' | '.' | '-' | '+')
}

pub(super) fn is_blank(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\u{200e}' | '\u{200f}')
}
