//! What a name looks like on a sheet, where headings stand in capitals and one
//! space is like another.

use std::borrow::Cow;
use unicode_normalization::UnicodeNormalization;

/// Two names with the same look cannot be told apart by whoever reads a sheet.
/// Most names are their own look and cost no memory.
pub(crate) fn look(name: &str) -> Cow<'_, str> {
    let is_plain = |byte: u8| matches!(byte, b' '..=b'~') && !byte.is_ascii_uppercase();
    if name.bytes().all(is_plain) && !name.contains("  ") {
        return Cow::Borrowed(name);
    }
    let words: Vec<&str> = name.split_whitespace().collect();
    let mut look = words.join(" ");
    if look.is_ascii() {
        look.make_ascii_lowercase();
        return Cow::Owned(look);
    }
    // By way of capitals, so that `ß` is `ss` and every sigma is one.
    let capitals = look.nfkd().flat_map(char::to_uppercase);
    Cow::Owned(capitals.flat_map(char::to_lowercase).nfkd().collect())
}

/// Control characters, and the marks of Unicode that steer the direction of writing, end a line or take no room: two names
/// that look alike could differ by them, and a terminal or a sheet could show something other than the plan.
///
/// The marks without room are those that Unicode calls ignorable by default.
pub fn is_invisible(c: char) -> bool {
    c.is_control()
        || matches!(
            c,
            '\u{ad}'
                | '\u{34f}'
                | '\u{61c}'
                | '\u{115f}'..='\u{1160}'
                | '\u{17b4}'..='\u{17b5}'
                | '\u{180b}'..='\u{180f}'
                | '\u{200b}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}'
                | '\u{3164}'
                | '\u{fe00}'..='\u{fe0f}'
                | '\u{feff}'
                | '\u{ffa0}'
                | '\u{fff0}'..='\u{fffb}'
                | '\u{1bca0}'..='\u{1bca3}'
                | '\u{1d173}'..='\u{1d17a}'
                | '\u{e0000}'..='\u{e0fff}'
        )
}

/// A character as JSON escapes it: `\u202e`, beyond the first plane by two units (RFC 8259, section 7).
pub fn json_escape(c: char) -> String {
    let units: Vec<String> = c
        .encode_utf16(&mut [0; 2])
        .iter()
        .map(|unit| format!("\\u{unit:04x}"))
        .collect();
    units.concat()
}

#[cfg(test)]
mod tests {
    use super::look;
    use std::borrow::Cow;

    #[test]
    fn what_prints_alike_has_one_look() {
        for (one, other) in [
            ("front left", "Front LEFT"),
            ("front left", "front\u{a0}left"),
            ("front left", "front \u{2003} left"),
            ("d\u{e9}rivation", "de\u{301}rivation"),
            ("D\u{c9}RIVATION", "de\u{301}rivation"),
            ("stra\u{df}e", "STRASSE"),
            ("\u{fb01}rst", "first"),
            ("\u{3c3}\u{3c2}", "\u{3a3}\u{3a3}"),
        ] {
            assert_eq!(look(one), look(other));
        }
        for (one, other) in [
            ("front left", "front-left"),
            ("front left", "frontleft"),
            ("e", "\u{e9}"),
        ] {
            assert_ne!(look(one), look(other));
        }
    }

    #[test]
    fn a_plain_name_is_not_copied() {
        assert!(matches!(look("front left (2)"), Cow::Borrowed(_)));
    }
}
