//! Guesses at the name that was meant by one that is not known.

use crate::corner::Corner;
use crate::trade_word::{is_called, is_no_part, meant};

/// The name nearest to a misspelt one, if one is near enough to be meant.
pub fn nearest<'n>(found: &str, names: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    near_names(found, names).first().copied()
}

/// Names hardly less near than the nearest are offered beside it.
const AS_NEAR: f64 = 0.02;

/// The names that may be meant, nearest first; none of another corner of the
/// vehicle.
fn near_names<'n>(found: &str, names: impl IntoIterator<Item = &'n str>) -> Vec<&'n str> {
    let wanted = found.to_lowercase();
    let corner = Corner::of(found);
    let mut near: Vec<(f64, &str)> = names
        .into_iter()
        .map(|name| (likeness(&wanted, &name.to_lowercase()), name))
        .filter(|(likeness, name)| *likeness > 0.75 && corner.agrees_with(Corner::of(name)))
        .collect();
    near.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    let least = near.first().map_or(0.0, |(best, _)| best - AS_NEAR);
    near.into_iter()
        .take_while(|(likeness, _)| *likeness >= least)
        .take(MOST_OFFERED)
        .map(|(_, name)| name)
        .collect()
}

/// How alike two names are, from 0 to 1. A name that has every word of what is
/// wanted was meant, only not said in full or in another order; so was the
/// format's word for what the trade calls otherwise.
fn likeness(wanted: &str, name: &str) -> f64 {
    let words: Vec<&str> = words_of(name).collect();
    let is_short_for = words_of(wanted).all(|word| words.contains(&word));
    if (is_short_for && wanted.len() > 2) || is_called(wanted, name) {
        1.0
    } else {
        strsim::jaro_winkler(wanted, name)
    }
}

fn words_of(name: &str) -> impl Iterator<Item = &str> {
    name.split(|c: char| c.is_whitespace() || c == '_')
        .filter(|word| !word.is_empty())
}

/// Names offered in one guess.
const MOST_OFFERED: usize = 3;

/// A help line that names the nearest allowed names first.
pub fn suggest(found: &str, names: &[&str]) -> String {
    let near = near_names(found, names.iter().copied());
    if near.is_empty() {
        return choice(names);
    }
    did_you_mean(near)
}

/// A help line that offers these names.
pub fn did_you_mean<'n>(names: impl IntoIterator<Item = &'n str>) -> String {
    format!("did you mean {}?", ticked(names, " or "))
}

/// Names as they stand in a message, with this between two of them.
pub fn ticked<'n>(names: impl IntoIterator<Item = &'n str>, between: &str) -> String {
    let names = names.into_iter().map(|name| format!("`{name}`"));
    names.collect::<Vec<_>>().join(between)
}

/// Whether a word may be another one misspelt.
pub fn is_near(found: &str, name: &str) -> bool {
    !near_names(found, [name]).is_empty()
}

/// As [`suggest`], for the fixed words of the format.
pub(crate) fn word_meant(found: &str, words: &[&'static str]) -> String {
    if let Some(word) = meant(found, words) {
        format!("write `{word}`")
    } else if words.contains(&"tee") && is_no_part(found) {
        "leave it out: it is no part of its own, and a line ends at what it is screwed to"
            .to_owned()
    } else if words.contains(&"dot4") {
        // A guess at a fluid could name one that destroys the seals.
        format!(
            "take the grade on the reservoir's cap: {}",
            words.join(", ")
        )
    } else {
        suggest(found, words)
    }
}

/// The names to choose from, as far as a line holds them.
fn choice(names: &[&str]) -> String {
    if names.is_empty() {
        return "there is none to choose from".to_owned();
    }
    let shown = ticked(names.iter().take(MOST_SHOWN).copied(), ", ");
    let more = if names.len() > MOST_SHOWN {
        ", ..."
    } else {
        ""
    };
    format!("choose one of {shown}{more}")
}

/// Names listed in one line of help.
const MOST_SHOWN: usize = 24;

/// Comparisons of two names that one kind of finding may cost. A vehicle with
/// a hundred parts spends them on thousands of findings; a file made to do
/// harm is told its mistakes without a guess when they are spent.
const MOST_COMPARISONS: usize = 300_000;

/// Guesses at misspelt names, of which a file may have many.
pub(crate) struct Guesses<'n> {
    known: Vec<&'n str>,
    comparisons_left: usize,
}

impl<'n> Guesses<'n> {
    pub(crate) fn new() -> Self {
        Self {
            known: Vec::new(),
            comparisons_left: MOST_COMPARISONS,
        }
    }

    /// As [`suggest`]; the names are asked for once, at the first mistake.
    pub(crate) fn suggest(&mut self, found: &str, names: impl FnOnce() -> Vec<&'n str>) -> String {
        if self.known.is_empty() {
            self.known = names();
            self.known.sort_unstable();
            self.known.dedup();
        }
        match self.comparisons_left.checked_sub(self.known.len()) {
            Some(left) => {
                self.comparisons_left = left;
                suggest(found, &self.known)
            }
            None => choice(&self.known),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_in_another_order_are_found() {
        let wheels = ["front_left", "front_right", "rear_left", "rear_right"];
        assert_eq!(nearest("left_front", wheels), Some("front_left"));
        assert_eq!(nearest("right rear", wheels), Some("rear_right"));
    }

    #[test]
    fn what_the_trade_calls_otherwise_is_found() {
        let kinds = ["tee", "block", "union", "caliper", "wheel_cylinder"];
        assert_eq!(nearest("coupling", kinds), Some("union"));
        assert_eq!(nearest("T-piece", kinds), Some("tee"));
        assert_eq!(nearest("drum", kinds), Some("wheel_cylinder"));
        assert_eq!(nearest("adaptor", kinds), Some("union"));
        assert_eq!(
            suggest("four_way", &kinds),
            "did you mean `block` or `tee`?"
        );
        assert_eq!(nearest("gearbox", kinds), None);
        assert_eq!(nearest("copper", ["pipe", "hose", "direct"]), Some("pipe"));
        let boosters = ["vacuum", "hydraulic", "electric"];
        assert_eq!(nearest("servo", boosters), Some("vacuum"));
        let valves = ["metering", "proportioning", "residual"];
        for valve in ["pcv", "bias_valve"] {
            assert_eq!(nearest(valve, valves), Some("proportioning"));
        }
        let fields = ["id", "kind", "wheel", "screws"];
        assert_eq!(nearest("bleeders", fields), Some("screws"));
    }

    #[test]
    fn what_is_no_part_is_left_out() {
        let kinds = ["tee", "block", "union"];
        for found in ["banjo", "banjo_bolt", "stop_switch"] {
            assert!(word_meant(found, &kinds).starts_with("leave it out"));
        }
        assert_eq!(word_meant("t_piece", &kinds), "write `tee`");
        assert!(word_meant("dot_6", &["dot3", "dot4"]).starts_with("take the grade"));
    }

    #[test]
    fn another_corner_is_never_guessed() {
        assert_eq!(nearest("left_front", ["front_right", "rear_left"]), None);
    }
}
