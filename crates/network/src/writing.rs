//! Pieces of RON written into a text that somebody else wrote.

use crate::source::dialect;
use crate::syntax::trailing;
use std::ops::Range;

/// A text in RON's quotes.
///
/// ```
/// assert_eq!(bleedwright_network::quoted("1 5/8 \""), r#""1 5/8 \"""#);
/// ```
pub fn quoted(text: &str) -> String {
    let escape = |c: char| format!("\\u{{{:x}}}", u32::from(c));
    quoted_with(text, |c| c.is_control().then(|| escape(c)))
}

/// A text in quotes, with what RON and JSON escape alike and what else is to be escaped.
pub fn quoted_with(text: &str, escape: impl Fn(char) -> Option<String>) -> String {
    let mut all = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => {
                all.push('\\');
                all.push(c);
            }
            '\n' => all.push_str("\\n"),
            '\r' => all.push_str("\\r"),
            '\t' => all.push_str("\\t"),
            c => match escape(c) {
                Some(escaped) => all.push_str(&escaped),
                None => all.push(c),
            },
        }
    }
    all.push('"');
    all
}

/// The text between RON's quotes, if that is all that is written.
///
/// ```
/// assert_eq!(bleedwright_network::unquoted(r#""1 5/8 \"""#).as_deref(), Some("1 5/8 \""));
/// assert_eq!(bleedwright_network::unquoted("3.1 m"), None);
/// ```
pub fn unquoted(written: &str) -> Option<String> {
    dialect().from_str(written).ok()
}

/// What to insert at which byte, first place first, so that a field stands
/// behind the last one of a structure.
///
/// `structure` are the bytes of the structure, which ends with its bracket;
/// `last` those of its last field, from its name to the end of its value. The
/// new field takes a line of its own, indented like the last one, where that
/// one has one. A comment behind the last field stays with it.
///
/// ```
/// use bleedwright_network::behind_last_field;
///
/// let text = "(at: 1 /* taped */)";
/// let inserted = behind_last_field(text, &(0..text.len()), Some(&(1..6)), "to: 2");
/// assert_eq!(inserted, [(6, ",".to_owned()), (18, " to: 2".to_owned())]);
/// ```
pub fn behind_last_field(
    text: &str,
    structure: &Range<usize>,
    last: Option<&Range<usize>>,
    field: &str,
) -> Vec<(usize, String)> {
    let Some(last) = last else {
        return vec![(structure.end - 1, field.to_owned())];
    };
    let behind = trailing(text, last.end);
    let mut gap = gap_before(text, last.start);
    if behind.ends_line && !gap.contains('\n') {
        gap = new_line_like(text, last.start);
    }
    if behind.has_comma {
        return vec![(behind.end, format!("{gap}{field},"))];
    }
    if behind.end == last.end {
        return vec![(last.end, format!(",{gap}{field}"))];
    }
    vec![
        (last.end, ",".to_owned()),
        (behind.end, format!("{gap}{field}")),
    ]
}

/// The line end and indentation before a field that begins its line; a blank
/// for any other.
fn gap_before(text: &str, field: usize) -> String {
    let before = &text[..field];
    let gap = &before[before.trim_end_matches([' ', '\t', '\r', '\n']).len()..];
    match gap.rfind('\n') {
        Some(line) => line_end(gap[..line].ends_with('\r')) + &gap[line + 1..],
        None => " ".to_owned(),
    }
}

/// A line end and the indentation of the line on which the field stands.
fn new_line_like(text: &str, field: usize) -> String {
    let (above, line) = match text[..field].rfind('\n') {
        Some(end) => (&text[..end], &text[end + 1..]),
        None => ("", text),
    };
    let indentation = line.len() - line.trim_start_matches([' ', '\t']).len();
    let is_windows = above.ends_with('\r') || (above.is_empty() && text.contains("\r\n"));
    line_end(is_windows) + &line[..indentation]
}

fn line_end(is_windows: bool) -> String {
    if is_windows { "\r\n" } else { "\n" }.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Puts `b: 2` behind `a: 1`, the only field of the structure.
    fn put(text: &str) -> String {
        let name = text.find("a: 1").expect("the text has the field");
        let inserted = behind_last_field(text, &(0..text.len()), Some(&(name..name + 4)), "b: 2");
        let mut changed = text.to_owned();
        for (at, piece) in inserted.into_iter().rev() {
            changed.insert_str(at, &piece);
        }
        changed
    }

    #[test]
    fn a_field_is_put_as_its_neighbour_stands() {
        for (before, after) in [
            ("(a: 1)", "(a: 1, b: 2)"),
            ("(a: 1,)", "(a: 1, b: 2,)"),
            ("(a: 1 /* x */)", "(a: 1, /* x */ b: 2)"),
            ("(a: 1, /* x */)", "(a: 1, /* x */ b: 2,)"),
            ("(a: 1 // x\n)", "(a: 1, // x\nb: 2\n)"),
            ("(\n  a: 1,\n)", "(\n  a: 1,\n  b: 2,\n)"),
            ("(\n  a: 1\n)", "(\n  a: 1,\n  b: 2\n)"),
            (
                "(\n  a: 1, // x\n  // y\n)",
                "(\n  a: 1, // x\n  b: 2,\n  // y\n)",
            ),
            (
                "(\n  a: 1 // x\n  , // y\n)",
                "(\n  a: 1 // x\n  ,\n  b: 2, // y\n)",
            ),
            (
                "(\r\n\ta: 1, // x\r\n)",
                "(\r\n\ta: 1, // x\r\n\tb: 2,\r\n)",
            ),
            ("(a: 1, // x\r\n)", "(a: 1, // x\r\nb: 2,\r\n)"),
        ] {
            assert_eq!(put(before), after, "{before:?}");
        }
    }

    #[test]
    fn a_structure_without_fields_takes_one() {
        let text = "metering(/* none */)";
        let inserted = behind_last_field(text, &(0..text.len()), None, "b: 2");
        assert_eq!(inserted, [(19, "b: 2".to_owned())]);
    }
}
