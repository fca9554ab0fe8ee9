//! How long a text is, whatever font shows it.
//!
//! A picture is shown by fonts that nobody knows beforehand. So each text is given the length that the wider of two
//! common fonts would need, and the program that shows it spreads its letters over exactly that length.

mod widths;

use unicode_segmentation::UnicodeSegmentation;

/// How heavy letters are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// As usual.
    Normal,
    /// Heavier.
    Bold,
}

/// How long a text is, in ems.
pub fn width_em(text: &str, weight: Weight) -> f64 {
    text.graphemes(true)
        .map(|grapheme| widths::advance_em(grapheme, weight))
        .sum()
}

/// The text without what cannot be shown: control characters, marks that turn the direction of writing, and what XML
/// does not allow. Line ends and tabs become spaces.
pub fn printable(text: &str) -> String {
    text.chars()
        .filter_map(|character| match character {
            '\n' | '\r' | '\t' | '\u{2028}' | '\u{2029}' => Some(' '),
            '\u{61c}'
            | '\u{200e}'
            | '\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2066}'..='\u{2069}'
            | '\u{feff}'
            | '\u{fffe}'
            | '\u{ffff}' => None,
            _ if character.is_control() => None,
            _ => Some(character),
        })
        .collect()
}

/// The beginning of a text and an ellipsis, where the whole would be longer than this; nothing where it fits.
pub fn shortened(text: &str, most_em: f64, weight: Weight) -> Option<String> {
    if width_em(text, weight) <= most_em {
        return None;
    }
    let mut left_em = most_em - widths::advance_em("…", weight);
    let mut short = String::new();
    for grapheme in text.graphemes(true) {
        left_em -= widths::advance_em(grapheme, weight);
        if left_em < 0.0 {
            break;
        }
        short.push_str(grapheme);
    }
    short.truncate(short.trim_end().len());
    short.push('…');
    Some(short)
}

/// Whether a text is written from right to left, by its first letter that has a direction (rules P2 and P3 of
/// [UAX9](crate#sources)).
pub(crate) fn runs_right_to_left(text: &str) -> bool {
    text.chars().find(|character| character.is_alphabetic()).is_some_and(|letter| {
        matches!(letter,
            '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefc}' | '\u{10800}'..='\u{10fff}'
            | '\u{1e800}'..='\u{1efff}')
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_text_stays_and_a_long_one_ends_in_an_ellipsis() {
        assert_eq!(shortened("tee", 10.0, Weight::Normal), None);
        let long = "a very long name ".repeat(20);
        let short = shortened(&long, 8.0, Weight::Normal).expect("it is too long");
        assert!(short.ends_with("name…") || short.ends_with('…'), "{short}");
        assert!(width_em(&short, Weight::Normal) <= 8.0);
    }

    #[test]
    fn an_ellipsis_never_cuts_a_sign_in_two() {
        // A family of four is one sign of seven characters.
        let family = "👨\u{200d}👩\u{200d}👧\u{200d}👦";
        let short = shortened(&family.repeat(9), 5.0, Weight::Normal).expect("it is too long");
        assert_eq!(
            short,
            format!("{}…", family.repeat(short.graphemes(true).count() - 1))
        );
    }

    #[test]
    fn nothing_that_steers_is_printable() {
        assert_eq!(printable("a\u{1b}[31m\u{202e}b\nc\u{ffff}\0"), "a[31mb c");
    }

    #[test]
    fn the_first_letter_gives_the_direction() {
        assert!(runs_right_to_left("12 \u{5d1}\u{5dc}\u{5dd} abc"));
        assert!(!runs_right_to_left("abc \u{5d1}"));
        assert!(!runs_right_to_left("12 ± 3"));
    }
}
