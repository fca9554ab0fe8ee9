//! Spoilt files: whatever is wrong with a file, it is said at a place in it.

use crate::{config, layouts};
use bleedwright_network::{Finding, Locator, Place, load};
use proptest::prelude::*;
use std::ops::Range;

/// One way to spoil a text. Positions are shares of its length, so that they
/// fit whatever was done to the text before.
#[derive(Clone, Debug)]
enum Spoiling {
    Overwrite(f64, u8),
    Delete(f64, usize),
    Duplicate(f64, usize, f64),
    SwapTokens(f64, f64),
    Insert(f64, &'static str),
}

/// Marks and words with a meaning of their own in a file.
const MARKS: [&str; 22] = [
    "(", ")", "[", "]", "{", "}", "\"", "'", ",", ":", "//", "/*", "*/", "r#\"", "\\", "Some(",
    "None", "NaN", "±", "\u{feff}", "\u{202e}", "\n",
];

fn spoilings() -> impl Strategy<Value = Vec<Spoiling>> {
    let share = || 0.0..1.0;
    let length = || prop_oneof![1..4_usize, 1..400_usize];
    let any_way = prop_oneof![
        (share(), any::<u8>()).prop_map(|(at, byte)| Spoiling::Overwrite(at, byte)),
        (share(), 32..127_u8).prop_map(|(at, byte)| Spoiling::Overwrite(at, byte)),
        (share(), length()).prop_map(|(at, length)| Spoiling::Delete(at, length)),
        (share(), length(), share())
            .prop_map(|(at, length, to)| Spoiling::Duplicate(at, length, to)),
        (share(), share()).prop_map(|(a, b)| Spoiling::SwapTokens(a, b)),
        (share(), prop::sample::select(&MARKS[..]))
            .prop_map(|(at, mark)| Spoiling::Insert(at, mark)),
    ];
    prop::collection::vec(any_way, 1..8)
}

fn spoil(bytes: &mut Vec<u8>, spoiling: &Spoiling) {
    let length = bytes.len();
    let index = |share: f64| ((share * length as f64) as usize).min(length);
    let piece = |share: f64, size: usize| index(share)..(index(share) + size).min(length);
    match spoiling {
        Spoiling::Overwrite(at, byte) => {
            if let Some(target) = bytes.get_mut(index(*at)) {
                *target = *byte;
            }
        }
        Spoiling::Delete(at, size) => {
            bytes.drain(piece(*at, *size));
        }
        Spoiling::Duplicate(at, size, to) => {
            let copy = bytes[piece(*at, *size)].to_vec();
            let to = index(*to);
            bytes.splice(to..to, copy);
        }
        Spoiling::SwapTokens(a, b) => {
            let (a, b) = (token(bytes, index(*a)), token(bytes, index(*b)));
            let (first, second) = if a.start <= b.start { (a, b) } else { (b, a) };
            if first.end <= second.start {
                let (left, right) = (
                    bytes[first.clone()].to_vec(),
                    bytes[second.clone()].to_vec(),
                );
                bytes.splice(second, left);
                bytes.splice(first, right);
            }
        }
        Spoiling::Insert(at, mark) => {
            let at = index(*at);
            bytes.splice(at..at, mark.bytes());
        }
    }
}

/// The word, or the single mark, at a place.
fn token(bytes: &[u8], at: usize) -> Range<usize> {
    let is_word = |byte: &u8| byte.is_ascii_alphanumeric() || b"_.\"".contains(byte);
    let at = at.min(bytes.len());
    let before = bytes[..at].iter().rev().take_while(|b| is_word(b)).count();
    let after = bytes[at..].iter().take_while(|b| is_word(b)).count();
    at - before..(at + after.max(1)).min(bytes.len())
}

/// Every place of a finding, those of its labels included.
fn places(finding: &Finding) -> impl Iterator<Item = &Place> {
    std::iter::once(&finding.place).chain(finding.labels.iter().map(|label| &label.place))
}

fn assert_inside(text: &str, range: &Range<usize>, finding: &Finding) -> Result<(), TestCaseError> {
    prop_assert!(
        range.start <= range.end
            && text.is_char_boundary(range.start)
            && text.is_char_boundary(range.end),
        "{range:?} of {} bytes: {finding:?}",
        text.len()
    );
    Ok(())
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_spoilt_file_is_judged_at_places_inside_it(
        layout in layouts(),
        spoilings in spoilings(),
    ) {
        let mut bytes = layout.as_bytes().to_vec();
        for spoiling in &spoilings {
            spoil(&mut bytes, spoiling);
        }
        let loaded = load(&bytes);
        prop_assert!(loaded.network.is_some() || loaded.has_errors());
        prop_assert_eq!(&loaded.findings, &load(&bytes).findings);
        let Ok(text) = std::str::from_utf8(&bytes) else {
            let codes: Vec<&str> = loaded.findings.iter().map(|f| f.code.text()).collect();
            prop_assert_eq!(codes, ["BW008"]);
            return Ok(());
        };
        let locator = Locator::new(text);
        for finding in &loaded.findings {
            prop_assert!(!finding.message.is_empty() && !finding.help.is_empty());
            for place in places(finding) {
                // The loader's own bytes must be right before anything
                // rounds them.
                if let Place::Bytes(range) = place {
                    assert_inside(text, range, finding)?;
                }
                let found = locator.find(place);
                prop_assert!(found.is_some(), "{finding:?}");
                assert_inside(text, &found.unwrap_or_default(), finding)?;
            }
        }
    }

    /// The names of the program's own structures are nobody's business.
    #[test]
    fn no_message_names_the_inside_of_the_program(
        layout in layouts(),
        spoilings in spoilings(),
    ) {
        let mut bytes = layout.as_bytes().to_vec();
        for spoiling in &spoilings {
            spoil(&mut bytes, spoiling);
        }
        for finding in load(&bytes).findings {
            let said = format!("{} {} {:?}", finding.message, finding.help, finding.allowed);
            for inside in ["File", "Given", "OneOrMany", "serde", "struct ", "ron::", "RawValue"] {
                prop_assert!(!said.contains(inside), "{said}");
            }
        }
    }
}
