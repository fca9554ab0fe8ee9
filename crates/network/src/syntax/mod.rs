//! The shape of a layout's text: values, fields and brackets, each with its
//! place.
//!
//! Whether a file is sound is decided by the RON reader alone. This shape is
//! made when a place has to be found, or when that reader refused a file and
//! every mistake has to be told; so it reads on where RON stops.

mod blank;
mod quoted;
mod scanner;
mod slip;
mod trailing;

pub(crate) use slip::{Slip, SlipKind};
pub(crate) use trailing::trailing;

use std::ops::Range;

/// A value and the bytes it takes, comments around it left out.
#[derive(Debug)]
pub(crate) struct Value {
    pub(crate) range: Range<usize>,
    pub(crate) shape: Shape,
}

/// What a value looks like.
#[derive(Debug)]
pub(crate) enum Shape {
    /// `"text"`, raw strings included.
    Text,
    Number,
    /// A bare word. Points and hyphens are taken in, though RON has none in
    /// its words, so that `dot5.1` can be told as one wrong word.
    Word,
    /// `'c'`.
    Character,
    /// `(a: 1)` or `word(a: 1)`, and both with nothing inside.
    Structure {
        word: Option<Range<usize>>,
        fields: Vec<Field>,
    },
    /// `(1, 2)` or `word(1)`.
    Tuple {
        word: Option<Range<usize>>,
        items: Vec<Value>,
    },
    List(Vec<Value>),
    /// `{ ... }`, which has no place in a layout and is not looked into.
    Map,
    /// Nothing that could be read; a slip says so.
    Unread,
}

/// `name: value`.
#[derive(Debug)]
pub(crate) struct Field {
    pub(crate) name: Range<usize>,
    pub(crate) value: Value,
}

/// What came of reading a text.
pub(crate) struct Scan {
    /// The outermost value; none when the brackets cannot be trusted.
    pub(crate) root: Option<Value>,
    pub(crate) slips: Vec<Slip>,
}

/// Reads the shape of a whole text.
pub(crate) fn scan(text: &str) -> Scan {
    scanner::scan(text)
}

impl Value {
    /// The value of a field, looking through `Some(...)`.
    pub(crate) fn field<'v>(&'v self, text: &str, name: &str) -> Option<&'v Value> {
        match &self.shape {
            Shape::Structure { fields, .. } => fields
                .iter()
                .find(|field| &text[field.name.clone()] == name)
                .map(|field| &field.value),
            _ => self.inside_some(text)?.field(text, name),
        }
    }

    /// An item of a list, looking through `Some(...)`.
    pub(crate) fn item<'v>(&'v self, text: &str, index: usize) -> Option<&'v Value> {
        match &self.shape {
            Shape::List(items) => items.get(index),
            _ => self.inside_some(text)?.item(text, index),
        }
    }

    /// What stands in `Some(...)`.
    pub(crate) fn inside_some(&self, text: &str) -> Option<&Value> {
        match &self.shape {
            Shape::Tuple {
                word: Some(word),
                items,
            } if &text[word.clone()] == "Some" => items.first(),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kinds(text: &str) -> Vec<SlipKind> {
        scan(text).slips.into_iter().map(|slip| slip.kind).collect()
    }

    #[test]
    fn comments_strings_and_brackets_keep_apart() {
        let text = "(a: /* ) \" /* */ */ 1, b: r#\"x \" ) \"#, c: '\"', // ]\n d: w(e: \"\\\"\"))";
        let scan = scan(text);
        assert!(scan.slips.is_empty(), "{:?}", scan.slips);
        let root = scan.root.expect("a sound text has a root");
        let at = |name| &text[root.field(text, name).expect(name).range.clone()];
        assert_eq!(at("a"), "1");
        assert_eq!(at("b"), "r#\"x \" ) \"#");
        assert_eq!(at("c"), "'\"'");
        assert_eq!(at("d"), "w(e: \"\\\"\")");
    }

    #[test]
    fn reads_on_behind_a_missing_comma_or_quote() {
        assert_eq!(kinds("(a: 1 b: 2)"), [SlipKind::MissingComma]);
        assert_eq!(kinds("(a: [(b: 1) (b: 2)])"), [SlipKind::MissingComma]);
        assert_eq!(
            kinds("(a: 3/16 in, b: 0.9 m, c \"x\", d: )"),
            [
                SlipKind::BareQuantity,
                SlipKind::BareQuantity,
                SlipKind::MissingColon,
                SlipKind::MissingValue
            ]
        );
        assert_eq!(kinds("(a: “x”, b: 1)"), [SlipKind::OddQuote]);
        assert_eq!(kinds("(a: 4,2, b: 1)"), [SlipKind::DecimalComma]);
        assert_eq!(kinds("(a: 4, 2, b: 1)"), [SlipKind::NoFieldName]);
        assert_eq!(kinds("(a: dot 4, b: 1)"), []);
        assert_eq!(kinds("(# x\n a: 1)"), [SlipKind::HashComment]);
    }

    #[test]
    fn reads_on_where_one_bracket_alone_was_forgotten() {
        for text in ["(a: [1, 2)", "(a: [(b: 1], c: 2)"] {
            let scan = scan(text);
            assert!(scan.root.is_some(), "{text}");
            assert_eq!(scan.slips.len(), 1, "{text}: {:?}", scan.slips);
        }
    }

    #[test]
    fn brackets_that_cannot_be_trusted_leave_no_root() {
        for text in [
            "(a: [1, 2}",
            "(a: [1, 2",
            "(a: 1",
            "(a: \"x",
            "(a: /* ",
            "",
            "// x\n",
        ] {
            let scan = scan(text);
            assert!(scan.root.is_none(), "{text}");
            assert_eq!(scan.slips.len(), 1, "{text}: {:?}", scan.slips);
        }
        let deep = scan(&"(".repeat(1_000_000));
        assert_eq!(deep.slips[0].kind, SlipKind::TooDeep);
    }
}
