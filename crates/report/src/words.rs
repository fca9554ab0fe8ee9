//! Pieces that many sentences are made of.

/// A sentence with a capital letter.
pub(crate) fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Names of the layout, each between backticks.
pub(crate) fn quoted(names: &[String]) -> String {
    let names: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    names.join(", ")
}

/// ` and 3 more` of the `all` where so many are named; nothing where those are all.
pub(crate) fn and_more(all: usize, named: usize) -> String {
    match all.saturating_sub(named) {
        0 => String::new(),
        more => format!(" and {more} more"),
    }
}
