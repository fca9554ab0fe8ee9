//! Text that the fonts can show.

use crate::font::{Fonts, Weight};

/// The same text with everything that no font shows named by its code point: letters of other scripts, pictures, and
/// whatever steers. Scripts that run from right to left are among them, so that no page has to turn a line around.
///
/// Line ends and tabs become blanks. A code point stands apart from its neighbours: `aU+05D0b` would read as another one.
pub(crate) fn legible(text: &str, fonts: &Fonts) -> String {
    let mut legible = String::with_capacity(text.len());
    let mut is_after_code = false;
    for character in text.chars() {
        let blank = matches!(character, ' ' | '\n' | '\r' | '\t');
        if blank {
            legible.push(' ');
            is_after_code = false;
            continue;
        }
        let is_shown = [Weight::Regular, Weight::Bold]
            .iter()
            .all(|weight| fonts.glyph(character, *weight).is_some());
        if (is_after_code || !is_shown) && !legible.is_empty() && !legible.ends_with(' ') {
            legible.push(' ');
        }
        if is_shown {
            legible.push(character);
        } else {
            legible.push_str(&format!("U+{:04X}", u32::from(character)));
        }
        is_after_code = !is_shown;
    }
    legible
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fonts() -> Fonts {
        Fonts::new().expect("the fonts are built in")
    }

    #[test]
    fn what_no_font_shows_is_named() {
        let named = |text| legible(text, &fonts());
        assert_eq!(
            named("Lüfter 3 µm ± 20 °C → ≤ 4"),
            "Lüfter 3 µm ± 20 °C → ≤ 4"
        );
        assert_eq!(named("a\u{1b}[31mb"), "a U+001B [31mb");
        assert_eq!(named("\u{5d0}\u{5d1}"), "U+05D0 U+05D1");
        assert_eq!(named("bus \u{1f68c}"), "bus U+1F68C");
        assert_eq!(named("one\ntwo\tthree"), "one two three");
        assert_eq!(named("\u{202e}x"), "U+202E x");
    }

    #[test]
    fn what_cannot_be_seen_is_never_taken_as_shown() {
        let invisible = (0..0x20)
            .chain(0x7f..0xa0)
            .chain([0xad, 0x34f, 0x61c, 0x115f, 0x180e, 0x3164, 0xfeff, 0xffa0])
            .chain(0x200b..=0x200f)
            .chain(0x2028..=0x202e)
            .chain(0x2060..=0x206f)
            .chain(0xfe00..=0xfe0f)
            .chain(0xe0000..=0xe0fff);
        let fonts = fonts();
        for code in invisible {
            let character = char::from_u32(code).expect("none of these is a surrogate");
            assert!(
                fonts.glyph(character, Weight::Bold).is_none(),
                "U+{code:04X}"
            );
            assert!(
                fonts.glyph(character, Weight::Regular).is_none(),
                "U+{code:04X}"
            );
        }
    }

    /// Hebrew, Arabic, Syriac, Thaana, N'Ko and the rest of the blocks that the Unicode Standard sets aside for them.
    #[test]
    fn no_font_has_letters_that_run_from_right_to_left() {
        let fonts = fonts();
        let blocks = (0x590..0x900)
            .chain(0xfb1d..0xfe00)
            .chain(0xfe70..0xff00)
            .chain(0x10800..0x11000)
            .chain(0x1e800..0x1f000);
        for character in blocks.filter_map(char::from_u32) {
            assert!(fonts.glyph(character, Weight::Regular).is_none());
        }
    }
}
