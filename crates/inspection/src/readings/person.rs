//! Who stands behind a record: whether a text names a person, and whether two name the same one.

/// Words that say nobody, whatever stands beside them.
const NOBODY: &[&str] = &[
    "aborted",
    "anybody",
    "anyone",
    "be",
    "cancelled",
    "failed",
    "filled",
    "given",
    "illegible",
    "known",
    "later",
    "nil",
    "no",
    "nobody",
    "none",
    "noone",
    "not",
    "notchecked",
    "null",
    "open",
    "pending",
    "skipped",
    "somebody",
    "someone",
    "tba",
    "tbc",
    "tbd",
    "todo",
    "tomorrow",
    "unknown",
    "waiting",
];

/// Words that are no name by themselves, but may be part of one.
const NO_NAME: &[&str] = &[
    "blank",
    "checked",
    "above",
    "as",
    "ditto",
    "do",
    "done",
    "empty",
    "follow",
    "himself",
    "herself",
    "maybe",
    "myself",
    "na",
    "name",
    "ok",
    "same",
    "self",
    "signature",
    "to",
    "x",
    "yes",
];

/// What stands before a name and makes nobody another person.
const TITLES: &[&str] = &[
    "dipl", "dr", "eng", "ing", "miss", "mr", "mrs", "ms", "prof", "sir",
];

/// Letters of other scripts that look like these.
const LOOK_ALIKES: [(&str, char); 17] = [
    ("аα", 'a'),
    ("вβ", 'b'),
    ("сϲ", 'c'),
    ("ԁ", 'd'),
    ("еε", 'e'),
    ("һн", 'h'),
    ("іιı", 'i'),
    ("ј", 'j'),
    ("кκ", 'k'),
    ("ӏ", 'l'),
    ("м", 'm'),
    ("оο", 'o'),
    ("рρ", 'p'),
    ("ѕ", 's'),
    ("тτ", 't'),
    ("уυγ", 'y'),
    ("хχ", 'x'),
];

/// Whether a text names somebody. A stroke, a question mark, an initial or a word such as `nobody` does not, and neither does a
/// name with doubt behind it.
pub(super) fn is_name(text: &str) -> bool {
    let words = words(text);
    let is_nobody = |word: &String| NOBODY.contains(&word.as_str());
    let is_name = |word: &String| {
        word.chars().filter(|c| c.is_alphabetic()).count() > 1 && !NO_NAME.contains(&word.as_str())
    };
    !text.contains('?') && words.iter().any(is_name) && !words.iter().any(is_nobody)
}

/// Whether a text says anything at all: a letter or a digit, no doubt, and not only that there is nothing to say.
pub(super) fn is_stated(text: &str) -> bool {
    let words = words(text);
    let all = words.concat();
    let says_nothing = |word: &str| NOBODY.contains(&word) || NO_NAME.contains(&word);
    let is_nobody = says_nothing(&all) || words.iter().all(|word| says_nothing(word));
    // One letter or digit is a stroke of the pen.
    all.chars().count() > 1 && !text.contains('?') && !is_nobody
}

/// Whether a text says that there is nothing of what was asked for. One that is not sure does not say so.
pub(super) fn says_none(text: &str) -> bool {
    let all = words(text).concat();
    !text.contains('?') && ["", "na", "nil", "no", "none", "nothing"].contains(&all.as_str())
}

/// Whether two texts may name one person: every word of the shorter one stands in the other, in any order, in full or by its
/// initial, whatever their case, their spaces, titles, numbers, and letters that only look alike.
pub(super) fn is_same(one: &str, other: &str) -> bool {
    let (one, other) = (words(one), words(other));
    if one.concat() == other.concat() {
        return true;
    }
    let letters = |words: Vec<String>| -> Vec<String> {
        let has_letter = |word: &String| word.chars().any(char::is_alphabetic);
        words.into_iter().filter(has_letter).collect()
    };
    let (one, other) = (letters(one), letters(other));
    let (shorter, longer) = if one.len() <= other.len() {
        (one, other)
    } else {
        (other, one)
    };
    let is_alike = |a: &str, b: &str| {
        let is_initial = a.chars().count() == 1 || b.chars().count() == 1;
        a == b || (is_initial && a.chars().next() == b.chars().next())
    };
    !shorter.is_empty()
        && shorter
            .iter()
            .all(|a| longer.iter().any(|b| is_alike(a, b)))
}

/// The folded words of a name, without titles.
pub(super) fn words(text: &str) -> Vec<String> {
    let folded: String = text.to_lowercase().chars().map(latin).collect();
    folded
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty() && !TITLES.contains(word))
        .map(str::to_owned)
        .collect()
}

fn latin(letter: char) -> char {
    let alike = LOOK_ALIKES
        .iter()
        .find(|(letters, _)| letters.contains(letter));
    alike.map_or(letter, |(_, latin)| *latin)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_is_no_person() {
        for text in [
            "",
            "-",
            "?",
            "n/a",
            "N/A",
            "none",
            "not_checked",
            "Not checked",
            "null",
            "nobody",
            "unknown",
            "A. Tern?",
            "X",
            "tbd",
            "Same",
            "no one",
            "123",
            "later",
            "to do",
            "open",
            "as above",
            "himself",
            "tbc",
            "to be filled in",
            "waiting for A. Tern",
            "will be checked by A. Tern",
        ] {
            assert!(!is_name(text), "{text}");
        }
        for text in [
            "A. Tern",
            "Ibis",
            "Åse Rype",
            "Norma Knott",
            "Данила",
            "Mary Self",
        ] {
            assert!(is_name(text), "{text}");
        }
    }

    #[test]
    fn one_person_is_the_same_however_written() {
        for (one, other) in [
            ("A. Tern", "a tern"),
            ("A. Tern", "Tern, A."),
            ("Dr A. Tern", "A. Tern"),
            ("Anna Tern", "Аnnа Теrn"),
            ("ATern", "A Tern"),
            ("Anna Tern", "A. Tern"),
            ("Anna Tern", "Anna T."),
            ("Anna Tern", "Anna Tern (2)"),
            ("Anna Tern, instructor", "Anna Tern"),
        ] {
            assert!(is_same(one, other), "{one} and {other}");
        }
        for (one, other) in [("A. Tern", "B. Tern"), ("A. Tern", "A. Knot")] {
            assert!(!is_same(one, other), "{one} and {other}");
        }
    }
}
