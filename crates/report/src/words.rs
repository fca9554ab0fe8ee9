//! Pieces that many sentences are made of.

use std::borrow::Borrow;

/// A sentence with a capital letter.
pub(crate) fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// What is said of each of `all`, with `between` two of them.
pub(crate) fn listed<T, S: Borrow<str>>(
    all: impl IntoIterator<Item = T>,
    between: &str,
    said: impl FnMut(T) -> S,
) -> String {
    let texts: Vec<S> = all.into_iter().map(said).collect();
    texts.join(between)
}

/// ` and 3 more` of the `all` where so many are named; nothing where those are all.
pub(crate) fn and_more(all: usize, named: usize) -> String {
    match all.saturating_sub(named) {
        0 => String::new(),
        more => format!(" and {more} more"),
    }
}
