//! Values that are given by one of a few words.

use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};

/// A word, what help says of it (empty where the word says it all), and what it means.
pub(crate) type Word<T> = (&'static str, &'static str, T);

/// Takes one of these words.
pub(crate) fn one_of<T: Copy + Send + Sync + 'static, const COUNT: usize>(
    words: [Word<T>; COUNT],
) -> impl TypedValueParser<Value = T> {
    let possible = words.map(|(word, help, _)| match help {
        "" => PossibleValue::new(word),
        help => PossibleValue::new(word).help(help),
    });
    PossibleValuesParser::new(possible).map(move |given| {
        let found = words.iter().find(|(word, ..)| *word == given);
        found.expect("no other word comes through").2
    })
}
