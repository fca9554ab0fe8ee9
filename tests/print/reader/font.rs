//! Fonts with two-byte codes (ISO 32000-1, 9.7 and 9.10).

use super::number;
use lopdf::{Dictionary, Document, Object};
use std::collections::BTreeMap;

/// A font with two-byte codes.
pub(super) struct Font {
    pub(super) characters: BTreeMap<u16, String>,
    pub(super) widths: BTreeMap<u16, f64>,
}

impl Font {
    pub(super) fn new(document: &Document, font: &Dictionary) -> Self {
        let unicode = font
            .get(b"ToUnicode")
            .and_then(Object::as_reference)
            .expect("a font says its characters");
        let unicode = document
            .get_object(unicode)
            .and_then(Object::as_stream)
            .expect("it is a stream");
        let unicode = unicode
            .decompressed_content()
            .unwrap_or_else(|_| unicode.content.clone());
        let descendants = resolved(
            document,
            font.get(b"DescendantFonts")
                .expect("a font of two-byte codes"),
        );
        let descendant = resolved(document, &descendants.as_array().expect("it is a list")[0]);
        let widths = descendant
            .as_dict()
            .and_then(|font| font.get(b"W"))
            .expect("glyphs have widths");
        Self {
            characters: characters(&String::from_utf8_lossy(&unicode)),
            widths: widths_of(resolved(document, widths).as_array().expect("it is a list")),
        }
    }
}

fn resolved<'d>(document: &'d Document, object: &'d Object) -> &'d Object {
    document
        .dereference(object)
        .expect("whatever is referred to is there")
        .1
}

/// The pairs of code and text between `beginbfchar` and `endbfchar`; the writer uses no ranges.
fn characters(map: &str) -> BTreeMap<u16, String> {
    assert!(
        !map.contains("beginbfrange"),
        "this reader does not know ranges"
    );
    let mut characters = BTreeMap::new();
    for part in map.split("beginbfchar").skip(1) {
        let part = part.split("endbfchar").next().unwrap_or_default();
        let codes: Vec<Vec<u16>> = part
            .split(['<', '>'])
            .filter(|code| !code.trim().is_empty())
            .map(|code| {
                let digits = code.as_bytes().chunks(4);
                let unit = |digits| u16::from_str_radix(std::str::from_utf8(digits).ok()?, 16).ok();
                digits
                    .map(|digits| unit(digits).expect("four digits make a unit"))
                    .collect()
            })
            .collect();
        for pair in codes.chunks_exact(2) {
            characters.insert(pair[0][0], String::from_utf16_lossy(&pair[1]));
        }
    }
    characters
}

/// `first [w w w]` and `first last w`.
fn widths_of(list: &[Object]) -> BTreeMap<u16, f64> {
    let mut widths = BTreeMap::new();
    let mut rest = list;
    while let [first, second, after @ ..] = rest {
        let first = number(first) as u16;
        if let Ok(each) = second.as_array() {
            widths.extend((first..).zip(each.iter().map(number)));
            rest = after;
        } else {
            let (width, after) = after.split_first().expect("a range has a width");
            widths.extend((first..=number(second) as u16).map(|code| (code, number(width))));
            rest = after;
        }
    }
    widths
}
