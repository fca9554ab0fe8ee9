//! Keeps what a file contains from steering the terminal.

use bleedwright_network::is_invisible;
use std::borrow::Cow;

/// Replaces control characters and other invisible ones by a visible mark; line
/// feeds stay.
pub fn clean(text: &str) -> Cow<'_, str> {
    if text.chars().any(is_unsafe) {
        let cleaned = text
            .chars()
            .map(|c| if is_unsafe(c) { '\u{fffd}' } else { c });
        Cow::Owned(cleaned.collect())
    } else {
        Cow::Borrowed(text)
    }
}

/// The same with marks of as many bytes as what they replace, so that places
/// in the text stay true; tabs and carriage returns stay too.
pub(crate) fn mask(text: &str) -> Cow<'_, str> {
    let is_kept = |c: char| !is_unsafe(c) || matches!(c, '\t' | '\r');
    if text.chars().all(is_kept) {
        return Cow::Borrowed(text);
    }
    let masked = text.chars().map(|c| match c.len_utf8() {
        _ if is_kept(c) => c,
        1 => '?',
        2 => '\u{bf}',
        _ => '\u{fffd}',
    });
    Cow::Owned(masked.collect())
}

fn is_unsafe(character: char) -> bool {
    is_invisible(character) && character != '\n'
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escapes_and_direction_marks_are_made_visible() {
        assert_eq!(
            clean("a\u{1b}[31mb\u{202e}c\n"),
            "a\u{fffd}[31mb\u{fffd}c\n"
        );
        let masked = mask("a\u{1b}\t\u{9b}\u{202e}");
        assert_eq!(masked, "a?\t\u{bf}\u{fffd}");
        assert_eq!(clean("Lüfter 3 µm"), "Lüfter 3 µm");
        assert_eq!(clean("fr\u{200b}ont\u{feff}"), "fr\u{fffd}ont\u{fffd}");
    }
}
