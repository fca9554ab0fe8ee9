//! Single values of the demo files set anew: nothing else changes.

use crate::demo::{self, demo_text};
use bleedwright_drafting::{EditError, NamedValue, named_values, set_values};
use bleedwright_network::{EntryKind, Loaded, load};

/// Other values that may fit, the likeliest first.
pub(super) fn others(value: &NamedValue) -> Vec<String> {
    let written = value.value.clone().unwrap_or_default();
    match value.kind {
        EntryKind::Quantity => {
            let sizes = ["6 mm", "5 mm", "3/16 in", "1.0 mm", "0.70 mm", "0.89 mm"];
            let sizes = sizes.iter().map(|size| (*size).to_owned());
            let first = next_number(&written).into_iter();
            first
                .chain(sizes)
                .filter(|other| *other != written)
                .collect()
        }
        EntryKind::Text => vec![format!("{written} \"\\ b")],
        EntryKind::Word(words) => words
            .iter()
            .map(|&word| word.to_owned())
            .filter(|word| *word != written)
            .collect(),
        EntryKind::Count => vec!["1".to_owned(), "2".to_owned(), "3".to_owned()]
            .into_iter()
            .filter(|count| *count != written)
            .collect(),
        EntryKind::YesNo => vec![(written != "true").to_string()],
        kind => panic!("{} is listed and is {kind:?}", value.name),
    }
}

/// The quantity with the last digit of its first number one up, or one down.
fn next_number(quantity: &str) -> Option<String> {
    let is_number = |c: char| c.is_ascii_digit() || c == '.';
    let start = quantity.find(is_number)?;
    let length = quantity[start..].find(|c| !is_number(c));
    let end = length.map_or(quantity.len(), |length| start + length);
    let last: u8 = quantity[end - 1..end].parse().ok()?;
    let next = if last == 9 { 8 } else { last + 1 };
    Some(format!(
        "{}{next}{}",
        &quantity[..end - 1],
        &quantity[end..]
    ))
}

/// The bytes of the first text that differ from the second, and those that stand there instead.
fn difference<'t>(before: &'t str, after: &'t str) -> (usize, &'t str, &'t str) {
    let start: usize = before
        .chars()
        .zip(after.chars())
        .take_while(|(a, b)| a == b)
        .map(|(a, _)| a.len_utf8())
        .sum();
    let (rest, new) = (&before[start..], &after[start..]);
    let same = rest.chars().rev().zip(new.chars().rev());
    let tail: usize = same
        .take_while(|(a, b)| a == b)
        .map(|(a, _)| a.len_utf8())
        .sum();
    (start, &rest[..rest.len() - tail], &new[..new.len() - tail])
}

/// The name of the field whose value holds this byte: the word before the last colon that stands outside quotes.
fn field_at(text: &str, byte: usize) -> String {
    let line = text[..byte].rfind('\n').map_or(0, |end| end + 1);
    let mut is_quoted = false;
    let mut colon = None;
    for (at, c) in text[line..byte].char_indices() {
        match c {
            '"' if !text[line..line + at].ends_with('\\') => is_quoted = !is_quoted,
            ':' if !is_quoted => colon = Some(line + at),
            _ => {}
        }
    }
    let before = &text[..colon.expect("a value stands behind a colon")];
    let name = before.rfind(|c: char| !(c.is_alphanumeric() || c == '_'));
    before[name.map_or(0, |at| at + 1)..].replace('_', " ")
}

/// The names of everything that surrounds the first line in which two layouts as read differ. Read by the reader of RON,
/// they owe nothing to the places by which the text was changed.
fn surroundings(before: &str, after: &str) -> Vec<String> {
    let depth = |line: &str| line.len() - line.trim_start().len();
    let lines: Vec<&str> = before.lines().collect();
    let differing = lines.iter().zip(after.lines()).position(|(a, b)| *a != b);
    let differing = differing.expect("a value that is set changes the layout");
    let mut names = Vec::new();
    let mut deepest = depth(lines[differing]);
    let mut at = differing;
    loop {
        let line = lines[at];
        if depth(line) <= deepest {
            deepest = depth(line);
            let name = ["id: \"", "inlet: \"", "name: \""]
                .iter()
                .find_map(|field| line.trim_start().strip_prefix(field));
            names.extend(name.map(|name| name.trim_end_matches(['"', ',']).to_owned()));
        }
        if at == 0 {
            return names;
        }
        at -= 1;
    }
}

fn layout_as_read(loaded: &Loaded) -> String {
    let network = loaded.sound_network().expect("an edited demo is sound");
    format!("{:#?}", network.layout())
}

/// Fields whose every other value may break a layout, since it names something, is named, or is held against the pipework.
const REFERENCES: [&str; 11] = [
    "id",
    "split",
    "from",
    "to",
    "feeds",
    "chamber",
    "bleed first",
    "inlet",
    "wheel",
    "kind",
    "purpose",
];

fn check_every_value(demo: &str) {
    let text = demo_text(demo);
    let as_read = layout_as_read(&load(text.as_bytes()));
    let values = named_values(&text).expect("the demo files have no slips");
    let same: Vec<(&str, &str)> = values
        .iter()
        .filter_map(|value| Some((value.name.as_str(), value.value.as_deref()?)))
        .collect();
    let same = set_values(&text, &same).unwrap_or_else(|error| panic!("{demo}: {error}"));
    assert!(same.text == text, "{demo}: values set to themselves");
    let mut changed = 0;
    for value in values.iter().filter(|value| value.is_written) {
        let name = value.name.as_str();
        let written = value.value.as_deref().expect("the demo files are sound");
        let field = REFERENCES.iter().find(|field| {
            name == **field
                || name
                    .strip_suffix(**field)
                    .is_some_and(|item| item.ends_with(' '))
        });
        let edited = others(value).into_iter().find_map(|other| {
            match set_values(&text, &[(name, other.as_str())]) {
                Ok(edited) => Some((edited, other)),
                Err(EditError::Breaks { .. }) => None,
                Err(error) => panic!("{demo}, {name} = {other}: {error}"),
            }
        });
        let Some((edited, other)) = edited else {
            assert!(field.is_some(), "{demo}, {name}: no other value is taken");
            continue;
        };
        let (start, old, new) = difference(&text, &edited.text);
        let is_piece = |piece: &str, value: &str| {
            value.contains(piece) || format!("{value:?}").contains(piece)
        };
        assert!(
            is_piece(old, written) && is_piece(new, &other),
            "{demo}, {name}: {old} -> {new}"
        );
        assert!(
            name.ends_with(&field_at(&text, start)),
            "{demo}, {name} at {start}"
        );
        let as_read_now = layout_as_read(&edited.loaded);
        if name.contains(' ') && field != Some(&"id") && as_read_now != as_read {
            let around = surroundings(&as_read, &as_read_now);
            let is_around = |around: &String| name.contains(around.as_str());
            assert!(around.iter().any(is_around), "{demo}, {name}: {around:?}");
        }
        changed += 1;
    }
    assert!(changed > 60, "{demo}: only {changed} values took another");
}

#[test]
fn every_value_of_every_demo_is_set_and_nothing_else_changes() {
    for name in demo::ALL {
        check_every_value(name);
    }
}

#[test]
fn several_values_are_set_together() {
    let text = demo_text("curlew");
    // Either alone would lack what it needs, or lie above the other.
    let edited = set_values(
        &text,
        &[
            ("front tee position x", "1.2 m"),
            ("front_tee position Y", "\"-0.2 m\""),
            ("front pot min", "8 in3"),
            ("front pot max", "9 in3"),
        ],
    );
    let edited = edited.unwrap_or_else(|error| panic!("{error}"));
    let expected = text
        .replace(
            "(id: \"front tee\", kind: tee, height: \"19 in\")",
            "(id: \"front tee\", kind: tee, height: \"19 in\", position: (x: \"1.2 m\", y: \"-0.2 m\"))",
        )
        .replacen("max: \"7 in3\", min: \"3 in3\"", "max: \"9 in3\", min: \"8 in3\"", 1);
    assert_eq!(edited.text, expected);
    assert_eq!(edited.changes[1].name, "front tee position y");
    assert_eq!(edited.changes[1].before, None);
    assert_eq!(edited.changes[3].before.as_deref(), Some("7 in3"));
}

#[test]
fn comments_stay_with_what_they_are_about() {
    let text = demo_text("curlew")
        .replace(
            "height: \"22 in\",",
            "height: \"22 in\" /* taped */ , // twice",
        )
        .replace(
            "height: \"19 in\")",
            "height: /* from the floor */ \"19 in\" /* taped */)",
        );
    let set = [
        ("rear cylinder height", "23 in"),
        ("rear cylinder control", "pedal"),
        ("front tee height", "20 in"),
        ("front tee contents", "0.5 ml"),
    ];
    let edited = set_values(&text, &set).unwrap_or_else(|error| panic!("{error}"));
    for piece in [
        "            height: \"23 in\" /* taped */ , // twice\n            control: pedal,\n",
        "height: /* from the floor */ \"20 in\", /* taped */ contents: \"0.5 ml\"),",
    ] {
        assert!(edited.text.contains(piece), "{piece}");
    }
}
