//! Text that Markdown shows as it stands.

use crate::clean::clean;
use std::fmt::Display;

/// One line of text in which nothing has a meaning to the reader of the format: no emphasis, code, link, picture, HTML,
/// entity, formula, mention, list or heading.
pub(super) fn escaped(text: impl Display) -> String {
    let text = text.to_string();
    let text = clean(&text);
    // A line feed would end the item that the text stands in.
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut shown = String::with_capacity(text.len() + 8);
    for (at, c) in text.char_indices() {
        let next = text[at + c.len_utf8()..].chars().next();
        let has_meaning = match c {
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '&' | '|' | '~' | '$' | '@' => true,
            // Addresses become links by themselves.
            ':' => text[at..].starts_with("://"),
            // `1.` and `1)` begin a list.
            '.' => {
                ends_with_www(&text[..at]) || (next.is_none_or(is_blank) && is_number(&text[..at]))
            }
            ')' => next.is_none_or(is_blank) && is_number(&text[..at]),
            '#' => at == 0 || next.is_some_and(char::is_alphanumeric),
            '-' | '+' | '=' => at == 0,
            _ => false,
        };
        if has_meaning {
            shown.push('\\');
        }
        shown.push(c);
    }
    shown
}

fn ends_with_www(text: &str) -> bool {
    let end = text.len().saturating_sub(3);
    text.get(end..)
        .is_some_and(|end| end.eq_ignore_ascii_case("www"))
}

fn is_blank(c: char) -> bool {
    c == ' '
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_a_meaning_is_shown_as_it_stands() {
        for (text, shown) in [
            ("`master` to 46 mm (44-48)", "\\`master\\` to 46 mm (44-48)"),
            ("<b>&amp;</b>", "\\<b\\>\\&amp;\\</b\\>"),
            ("# one\n# two", "\\# one # two"),
            ("see #12", "see \\#12"),
            ("1. first", "1\\. first"),
            ("12) first", "12\\) first"),
            ("- item", "\\- item"),
            ("HTTPS://a www.a ä.ww.", "HTTPS\\://a www\\.a ä.ww."),
            ("![a](b)", "!\\[a\\](b)"),
            ("2.5 ml", "2.5 ml"),
        ] {
            assert_eq!(escaped(text), shown, "{text}");
        }
    }
}
