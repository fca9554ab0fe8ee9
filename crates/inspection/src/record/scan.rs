//! Takes the text of a record apart. RON and JSON have the same structure here and differ in brackets, names, quotes
//! and comments, so one reader does both; what it accepts, the general-purpose readers of the two formats accept too.

use super::tree::{Field, Node, Shape};
use bleedwright_network::{Code, Finding, Place};
use std::ops::Range;

/// A record has four levels of brackets.
const MOST_LEVELS: usize = 16;

/// A text with more slips than this is no record.
const MOST_SLIPS: usize = 50;

/// How a record is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spelling {
    /// `(name: value)`, with comments.
    Ron,
    /// `{"name": value}`.
    Json,
}

/// What came of reading a text.
pub(crate) struct Scan {
    pub(crate) spelling: Spelling,
    /// The outermost value; none when the brackets cannot be trusted.
    pub(crate) root: Option<Node>,
    pub(crate) slips: Vec<Finding>,
}

/// Reading ends here; what stands in the way was noted.
pub(super) struct Stop;

/// Where reading has come to.
pub(super) struct Scanner<'t> {
    text: &'t str,
    pub(super) at: usize,
    levels: usize,
    pub(super) spelling: Spelling,
    slips: Vec<Finding>,
}

pub(crate) fn scan(text: &str) -> Scan {
    let start = text.len() - text.trim_start_matches('\u{feff}').len();
    let spelling = if text[start..].trim_start().starts_with('{') {
        Spelling::Json
    } else {
        Spelling::Ron
    };
    let mut scanner = Scanner {
        text,
        at: start,
        levels: 0,
        spelling,
        slips: Vec::new(),
    };
    let root = scanner.whole().ok();
    Scan {
        spelling,
        root,
        slips: scanner.slips,
    }
}

impl<'t> Scanner<'t> {
    fn whole(&mut self) -> Result<Node, Stop> {
        self.skip_blank()?;
        if self.rest().is_empty() {
            return self.stop(
                0..0,
                "the file is empty",
                "start a record with --for LAYOUT",
            );
        }
        let root = self.value()?;
        self.skip_blank()?;
        if !self.rest().is_empty() {
            let message = "something stands behind the end of the record";
            return self.stop(
                self.here(),
                message,
                "a file holds one record; delete the rest",
            );
        }
        Ok(root)
    }

    fn note(&mut self, at: Range<usize>, message: &str, help: &str) -> Result<(), Stop> {
        self.slips
            .push(Finding::new(Code::Syntax, Place::Bytes(at), message, help));
        if self.slips.len() == MOST_SLIPS {
            return Err(Stop);
        }
        Ok(())
    }

    pub(super) fn stop<T>(
        &mut self,
        at: Range<usize>,
        message: &str,
        help: &str,
    ) -> Result<T, Stop> {
        self.note(at, message, help)?;
        Err(Stop)
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

    fn skip_blank(&mut self) -> Result<(), Stop> {
        loop {
            let rest = self.rest();
            self.at += rest.len() - rest.trim_start_matches([' ', '\t', '\n', '\r']).len();
            let rest = self.rest();
            let is_comment = rest.starts_with("//") || rest.starts_with("/*");
            if is_comment && self.spelling == Spelling::Json {
                let help = "JSON has no comments; use `notes`, or write the record as RON";
                return self.stop(self.here(), "a comment stands in a JSON record", help);
            }
            if rest.starts_with("//") {
                self.at += rest.find('\n').unwrap_or(rest.len());
            } else if rest.starts_with("/*") {
                self.block_comment()?;
            } else {
                return Ok(());
            }
        }
    }

    /// Comments of this kind nest.
    fn block_comment(&mut self) -> Result<(), Stop> {
        let opened = self.at..self.at + 2;
        let mut depth = 0_usize;
        loop {
            let rest = self.rest();
            if rest.starts_with("/*") {
                depth += 1;
                self.at += 2;
            } else if rest.starts_with("*/") {
                depth -= 1;
                self.at += 2;
                if depth == 0 {
                    return Ok(());
                }
            } else if let Some(c) = rest.chars().next() {
                let step = rest.find(['/', '*']).unwrap_or(rest.len());
                self.at += step.max(if step == 0 { c.len_utf8() } else { 0 });
            } else {
                return self.stop(opened, "this comment is never closed", "close it with */");
            }
        }
    }

    fn value(&mut self) -> Result<Node, Stop> {
        let start = self.at;
        let shape = match (self.peek(), self.spelling) {
            (Some('('), Spelling::Ron) => self.structure(')')?,
            (Some('{'), Spelling::Json) => self.structure('}')?,
            (Some('['), _) => self.list()?,
            (Some('"'), _) => Shape::Text(self.quoted()?),
            (Some('r'), Spelling::Ron) if self.raw_hashes().is_some() => Shape::Text(self.raw()?),
            (Some(c), _) if is_bare(c) => {
                let rest = self.rest();
                self.at += rest.find(|c| !is_bare(c)).unwrap_or(rest.len());
                Shape::Bare(self.text[start..self.at].to_owned())
            }
            _ => {
                let help = "write a text in quotes, a word such as not_checked, or a list";
                return self.stop(self.here(), "a value is expected here", help);
            }
        };
        if let (Shape::Bare(word), Spelling::Json) = (&shape, self.spelling)
            && !matches!(word.as_str(), "null" | "true" | "false")
            && !is_json_number(word)
        {
            let message = format!("`{word}` has no quotes");
            self.note(
                start..self.at,
                &message,
                "in JSON every word stands in quotes",
            )?;
        }
        Ok(Node {
            range: start..self.at,
            shape,
        })
    }

    fn enter(&mut self) -> Result<(), Stop> {
        if self.levels == MOST_LEVELS {
            self.slips.push(
                Finding::new(
                    Code::TooDeep,
                    Place::Bytes(self.here()),
                    "the brackets are nested too deeply",
                    "a record has four levels of brackets",
                )
                .allowing(format!("up to {MOST_LEVELS} levels")),
            );
            return Err(Stop);
        }
        self.levels += 1;
        self.at += 1;
        self.skip_blank()
    }

    fn structure(&mut self, closer: char) -> Result<Shape, Stop> {
        let opened = self.at;
        let mut fields = Vec::new();
        self.enter()?;
        while !self.is_closed(closer, opened)? {
            let (name, name_range) = self.field_name()?;
            self.skip_blank()?;
            if self.peek() != Some(':') {
                let message = format!("no colon stands behind `{name}`");
                return self.stop(
                    self.here(),
                    &message,
                    "write a field like `free: \"150 mm\"`",
                );
            }
            self.at += 1;
            self.skip_blank()?;
            let value = self.value()?;
            fields.push(Field {
                name,
                name_range,
                value,
            });
            self.comma(closer)?;
        }
        Ok(Shape::Fields(fields))
    }

    fn field_name(&mut self) -> Result<(String, Range<usize>), Stop> {
        let start = self.at;
        let name = match (self.peek(), self.spelling) {
            (Some('"'), Spelling::Json) => self.quoted()?,
            (Some(c), Spelling::Ron) if c.is_ascii_alphabetic() || c == '_' => {
                let rest = self.rest();
                let is_part = |c: char| c.is_ascii_alphanumeric() || c == '_';
                self.at += rest.find(|c| !is_part(c)).unwrap_or(rest.len());
                self.text[start..self.at].to_owned()
            }
            _ => {
                let help = match self.spelling {
                    Spelling::Ron => "write a field like `free: \"150 mm\"`",
                    Spelling::Json => "write a field like `\"free\": \"150 mm\"`",
                };
                return self.stop(self.here(), "the name of a field is expected here", help);
            }
        };
        Ok((name, start..self.at))
    }

    fn list(&mut self) -> Result<Shape, Stop> {
        let opened = self.at;
        let mut items = Vec::new();
        self.enter()?;
        while !self.is_closed(']', opened)? {
            items.push(self.value()?);
            self.comma(']')?;
        }
        Ok(Shape::Items(items))
    }

    fn is_closed(&mut self, closer: char, opened: usize) -> Result<bool, Stop> {
        match self.peek() {
            Some(c) if c == closer => {
                self.at += 1;
                self.levels -= 1;
                Ok(true)
            }
            None | Some(')' | ']' | '}') => {
                let message = format!("this bracket is never closed with `{closer}`");
                let help = "close it; a file that was cut off has lost what stood behind";
                self.stop(opened..opened + 1, &message, help)
            }
            Some(_) => Ok(false),
        }
    }

    /// The comma behind a field or an item; where it was forgotten, reading goes on.
    fn comma(&mut self, closer: char) -> Result<(), Stop> {
        let end = self.at;
        self.skip_blank()?;
        match self.peek() {
            Some(',') => {
                let at = self.here();
                self.at += 1;
                self.skip_blank()?;
                if self.spelling == Spelling::Json && self.peek() == Some(closer) {
                    let help = "JSON has no comma behind the last value; delete it";
                    self.note(at, "nothing stands behind this comma", help)?;
                }
                Ok(())
            }
            None | Some(')' | ']' | '}') => Ok(()),
            Some(_) => self.note(end..end, "a comma is missing here", "put a comma here"),
        }
    }
}

fn is_json_number(word: &str) -> bool {
    let digits = word.strip_prefix('-').unwrap_or(word);
    let has_leading_zero =
        digits.len() > 1 && digits.starts_with('0') && digits.as_bytes()[1].is_ascii_digit();
    let ends_well = digits.ends_with(|c: char| c.is_ascii_digit())
        && digits.starts_with(|c: char| c.is_ascii_digit())
        && !digits.contains(".e")
        && !digits.contains(".E");
    ends_well && !has_leading_zero && word.parse::<f64>().is_ok_and(f64::is_finite)
}

fn is_bare(c: char) -> bool {
    c.is_ascii_alphanumeric() || matches!(c, '_' | '.' | '-' | '+')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text_of(text: &str) -> Option<String> {
        let scan = scan(text);
        match scan.root?.field("a")?.shape {
            Shape::Text(ref text) => Some(text.clone()),
            _ => None,
        }
    }

    #[test]
    fn escapes_of_both_spellings() {
        for (written, meant) in [
            (r#"(a: "x \"y\" \\ \u{e4} \n")"#, "x \"y\" \\ ä \n"),
            (r##"(a: r#"x "y" \"#)"##, "x \"y\" \\"),
            (
                r#"{"a": "x \"y\" \u00e4 \ud83d\ude00 \/"}"#,
                "x \"y\" ä 😀 /",
            ),
            ("(/* ) /* */ */ a: \"b\", // )\n)", "b"),
        ] {
            assert_eq!(text_of(written).as_deref(), Some(meant), "{written}");
        }
        for wrong in [
            r#"(a: "\x")"#,
            r#"{"a": "\ud83d"}"#,
            r#"(a: "\u{110000}")"#,
            "{\"a\": \"\t\"}",
        ] {
            assert_eq!(text_of(wrong), None, "{wrong}");
            assert_eq!(scan(wrong).slips.len(), 1, "{wrong}");
        }
    }

    #[test]
    fn every_missing_comma_is_told() {
        let scan = scan("(a: \"1\" b: [\"2\" \"3\"])");
        assert_eq!(scan.slips.len(), 2, "{:?}", scan.slips);
        assert!(scan.root.is_some());
    }

    #[test]
    fn hostile_texts_end() {
        for text in [
            "(".repeat(100_000),
            "[".repeat(100_000),
            "/*".repeat(100_000),
            "{\"a\":".repeat(9999),
        ] {
            let scan = scan(&text);
            assert!(scan.root.is_none() && scan.slips.len() == 1);
        }
    }
}
