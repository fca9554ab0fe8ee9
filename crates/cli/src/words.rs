//! Values that are given by one of a few words.

use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};

/// A word, what help says of it (empty where the word says it all), and what it means.
pub(crate) type Word<T> = (&'static str, &'static str, T);

/// What help says of another spelling of the word before: nothing.
pub(crate) const ALIAS: &str = "another spelling";

/// What a word of a dialogue means; capitals, blanks and lines between its pieces do not matter.
pub(crate) fn meant<T: Copy>(text: &str, words: &[Word<T>]) -> Result<T, String> {
    let text = text.replace([' ', '_'], "-");
    let found = words.iter().find(|it| it.0.eq_ignore_ascii_case(&text));
    found.map(|it| it.2).ok_or_else(|| {
        let words = words.iter().filter(|it| it.1 != ALIAS);
        let words: Vec<&str> = words.map(|it| it.0).collect();
        format!("give one of {}", words.join(", "))
    })
}

pub(crate) fn word_of<T: Copy + PartialEq>(meant: T, words: &[Word<T>]) -> Option<String> {
    let found = words.iter().find(|it| it.2 == meant)?;
    Some(found.0.to_owned())
}

/// Takes one of these words.
pub(crate) fn one_of<T: Copy + Send + Sync + 'static, const COUNT: usize>(
    words: [Word<T>; COUNT],
) -> impl TypedValueParser<Value = T> {
    let possible = words.map(|(word, help, _)| match help {
        "" => PossibleValue::new(word),
        ALIAS => PossibleValue::new(word).hide(true),
        help => PossibleValue::new(word).help(help),
    });
    PossibleValuesParser::new(possible).map(move |given| {
        let found = words.iter().find(|(word, ..)| *word == given);
        found.expect("no other word comes through").2
    })
}
