//! Slips of the pen in the text of a layout, and what to say about them.

use crate::code::Code;
use crate::finding::Finding;
use crate::place::Place;
use std::ops::Range;

#[derive(Debug)]
pub(crate) struct Slip {
    pub(crate) kind: SlipKind,
    pub(crate) at: Range<usize>,
    /// Where the thing began that should have ended.
    pub(crate) began: Option<Range<usize>>,
}

/// The brackets of a layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Bracket {
    Round,
    Square,
    Curly,
}

impl Bracket {
    pub(crate) fn closer(self) -> char {
        match self {
            Self::Round => ')',
            Self::Square => ']',
            Self::Curly => '}',
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SlipKind {
    Empty,
    NoOuterBrackets,
    TextAfterLayout,
    NeverClosed(Bracket),
    FieldInList,
    QuoteNeverClosed,
    CommentNeverClosed,
    MissingComma,
    MissingColon,
    MissingValue,
    NoFieldName,
    BareQuantity,
    DecimalComma,
    OddQuote,
    HashComment,
    Unexpected(char),
    TooDeep,
    TooMany,
}

impl SlipKind {
    /// Whether nothing behind the slip can be trusted to mean what it seems.
    pub(super) fn is_fatal(self) -> bool {
        matches!(
            self,
            Self::Empty
                | Self::NoOuterBrackets
                | Self::NeverClosed(_)
                | Self::FieldInList
                | Self::QuoteNeverClosed
                | Self::CommentNeverClosed
                | Self::TooDeep
                | Self::TooMany
        )
    }
}

impl Slip {
    pub(crate) fn finding(self) -> Finding {
        let code = match self.kind {
            SlipKind::TooDeep => Code::TooDeep,
            _ => Code::Syntax,
        };
        let (message, help) = words(self.kind);
        let finding = Finding::new(code, Place::Bytes(self.at), message, help);
        match self.began {
            Some(began) => finding.also_at(Place::Bytes(began), "it begins here"),
            None => finding,
        }
    }
}

fn words(kind: SlipKind) -> (String, &'static str) {
    let (message, help) = match kind {
        SlipKind::Empty => (
            "the file holds no layout",
            "start from one of the files in the folder layouts",
        ),
        SlipKind::NoOuterBrackets => (
            "the layout does not begin with a round bracket",
            "everything belongs inside one pair of round brackets: `( ... )`",
        ),
        SlipKind::TextAfterLayout => (
            "there is text behind the end of the layout",
            "everything belongs inside one pair of round brackets",
        ),
        SlipKind::NeverClosed(bracket) => {
            return (
                format!("a bracket is not closed: `{}` is missing", bracket.closer()),
                "close the bracket that was opened before; every `(` needs its `)`, every `[` its `]`",
            );
        }
        SlipKind::FieldInList => (
            "a field stands in a list",
            "close the list before it with `]`, or put the fields of each item into round brackets",
        ),
        SlipKind::QuoteNeverClosed => (
            "a quote is never closed",
            "put a `\"` at the end of the text that was opened before",
        ),
        SlipKind::CommentNeverClosed => ("a comment is never closed", "put `*/` at its end"),
        SlipKind::MissingComma => (
            "a comma is missing",
            "put a comma between two fields or items",
        ),
        SlipKind::MissingColon => ("a colon is missing", "write `field: value`"),
        SlipKind::MissingValue => (
            "a value is missing",
            "write the value, or take the field or comma away",
        ),
        SlipKind::NoFieldName => (
            "a value stands without the name of its field",
            "write `field: value`",
        ),
        SlipKind::BareQuantity => (
            "a quantity stands without quotes",
            "put it in quotes with its unit, such as `\"3.3 mm\"`",
        ),
        SlipKind::DecimalComma => (
            "a number has a comma where its decimal point belongs",
            "write it with a point, such as `4.2`",
        ),
        SlipKind::OddQuote => (
            "this is not the quote that a text begins with",
            "use straight double quotes: `\"`",
        ),
        SlipKind::HashComment => ("a comment does not begin with `#`", "begin it with `//`"),
        SlipKind::Unexpected(character) => {
            return (
                format!("`{}` cannot stand here", character.escape_debug()),
                "compare the place with the example in docs/layout-format.md",
            );
        }
        SlipKind::TooDeep => (
            "the brackets are nested too deeply",
            "a layout needs no more than ten levels; look for a bracket that is never closed",
        ),
        SlipKind::TooMany => (
            "there are too many mistakes in the text to go on",
            "mend the ones above first, or start from one of the files in the folder layouts",
        ),
    };
    (message.to_owned(), help)
}
