//! Guesses at the reading that was meant. None crosses from one kind of measure to another: the thickness of a pad must
//! not be recorded as that of a disc because the two names look alike.

use bleedwright_network::suggest;
use std::collections::BTreeSet;

/// What a workshop calls the measures: common practice, no source.
const CALLED: &[(&str, &str)] = &[
    ("friction", "lining"),
    ("pad", "lining"),
    ("pads", "lining"),
    ("pressed", "depressed"),
    ("rotor", "disc"),
    ("shoe", "lining"),
    ("shoes", "lining"),
    ("water", "moisture"),
];

/// Words that say nothing of which measure it is.
const SAYS_NOTHING: &[&str] = &["brake", "diameter", "material", "thickness"];

/// A help line for a name that is not known: names of the measure that was named, or what there is to choose from. Each
/// known name stands with the field it belongs to.
pub(super) fn guess(found: &str, known: &[(&str, &str)]) -> String {
    let measures: BTreeSet<&str> = known.iter().flat_map(|(_, field)| words(field)).collect();
    let read: Vec<(&str, bool)> = words(found)
        .filter(|word| !SAYS_NOTHING.contains(word))
        .map(|word| match measure(word, &measures) {
            Some(measure) => (measure, true),
            None => (word, false),
        })
        .collect();
    let is_said = |measure| read.contains(&(measure, true));
    let said_in_full = |field| words(field).filter(|word| is_said(word)).count();
    let meant = known
        .iter()
        .filter(|(_, field)| words(field).all(is_said))
        .max_by_key(|(_, field)| said_in_full(field));
    let Some((_, most)) = meant else {
        let names: Vec<&str> = known.iter().map(|(name, _)| *name).collect();
        // Nothing is like the empty name, so that all are listed.
        return suggest("", &names);
    };
    let names: Vec<&str> = known
        .iter()
        .filter(|(_, field)| words(field).all(is_said) && said_in_full(field) == said_in_full(most))
        .map(|(name, _)| *name)
        .collect();
    let read: Vec<&str> = read.into_iter().map(|(word, _)| word).collect();
    suggest(&read.join(" "), &names)
}

fn words(name: &str) -> impl Iterator<Item = &str> {
    name.split(|c: char| c.is_whitespace() || c == '_')
        .filter(|word| !word.is_empty())
}

/// The word of a measure that a written one is: itself, what the trade calls it, its beginning, or the one nearest to it.
fn measure<'m>(word: &str, measures: &BTreeSet<&'m str>) -> Option<&'m str> {
    if let Some(same) = measures.get(word) {
        return Some(same);
    }
    if let Some((_, called)) = CALLED.iter().find(|(trade, _)| *trade == word) {
        return measures.get(called).copied();
    }
    if word.len() < 3 {
        return None;
    }
    let alone = |near: Vec<&'m str>| (near.len() == 1).then(|| near[0]);
    let begun = measures.iter().filter(|known| known.starts_with(word));
    alone(begun.copied().collect()).or_else(|| {
        let slips = |known: &str| strsim::osa_distance(word, known);
        let least = measures.iter().map(|known| slips(known)).min()?;
        let is_near = least <= (word.chars().count() / 3).clamp(1, 2);
        let nearest = measures.iter().filter(|known| slips(known) == least);
        alone(nearest.copied().collect()).filter(|_| is_near)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const KNOWN: &[(&str, &str)] = &[
        ("front left disc", "disc"),
        ("front left disc minimum", "disc_minimum"),
        ("front left lining", "lining"),
        ("front left lining minimum", "lining_minimum"),
        ("rear left drum", "drum"),
        ("rear left drum maximum", "drum_maximum"),
        ("rear left lining", "lining"),
        ("rear left lining minimum", "lining_minimum"),
        ("front left screw cap", "cap"),
        ("front left screw torque", "torque"),
        ("pedal free", "free"),
        ("pedal depressed", "depressed"),
        ("pedal force", "force"),
    ];

    #[test]
    fn what_was_meant_is_offered() {
        for (found, wanted) in [
            ("front left pad", "front left lining"),
            ("front left brake pad thickness", "front left lining"),
            ("rear left shoe", "rear left lining"),
            ("rear left shoes min", "rear left lining minimum"),
            ("front left pad minimum", "front left lining minimum"),
            ("front left rotor", "front left disc"),
            ("front left dsic", "front left disc"),
            ("frnt left disc", "front left disc"),
            ("rear left drum max", "rear left drum maximum"),
            ("front left torque", "front left screw torque"),
            ("pedal fre", "pedal free"),
            ("pedal pressed", "pedal depressed"),
        ] {
            let help = guess(found, KNOWN);
            assert_eq!(help, format!("did you mean `{wanted}`?"), "{found}");
        }
    }

    #[test]
    fn no_guess_crosses_to_another_measure() {
        for (found, never) in [
            ("front left thickness", "did you mean"),
            ("front left", "did you mean"),
            ("rear left disc", "drum"),
            ("front left drum", "disc"),
            ("front left minimum", "did you mean"),
            ("front left pd", "did you mean"),
            ("pad", "disc"),
            ("", "did you mean"),
        ] {
            let help = guess(found, KNOWN);
            assert!(!help.contains(never), "{found}: {help}");
        }
        // A vehicle without linings has none to offer.
        assert!(!guess("front left pad", &KNOWN[..2]).contains("did you mean"));
    }
}
