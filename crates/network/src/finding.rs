//! What was found in a layout or in the options of a plan.

use crate::code::Code;
use crate::corner::Corner;
use crate::place::Place;

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Nothing is planned until it is mended.
    Error,
    /// The plan is made, but somebody must look.
    Warning,
    /// Worth knowing; usually a preparation of the plan follows from it.
    Advice,
}

impl Severity {
    /// The word printed.
    pub fn name(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Advice => "advice",
        }
    }
}

/// A second place that belongs to a finding, such as the other of two twins.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub place: Place,
    /// What stands there.
    pub text: String,
}

/// One finding: what, where, what is allowed, what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The stable code, documented in docs/findings.md.
    pub code: Code,
    /// How much it matters.
    pub severity: Severity,
    /// One line: lower case, no full stop, with the value found.
    pub message: String,
    /// Where.
    pub place: Place,
    /// Other places that belong to it.
    pub labels: Vec<Label>,
    /// The range or the words allowed, where there is one.
    pub allowed: Option<String>,
    /// What to do.
    pub help: String,
}

impl Finding {
    /// A finding of the code's own severity.
    pub fn new(
        code: Code,
        place: Place,
        message: impl Into<String>,
        help: impl Into<String>,
    ) -> Self {
        Self {
            code,
            severity: code.severity(),
            message: message.into(),
            place,
            labels: Vec::new(),
            allowed: None,
            help: help.into(),
        }
    }

    /// Adds what is allowed.
    #[must_use]
    pub fn allowing(mut self, allowed: impl Into<String>) -> Self {
        self.allowed = Some(allowed.into());
        self
    }

    /// Adds another place.
    #[must_use]
    pub fn also_at(mut self, place: Place, text: impl Into<String>) -> Self {
        self.labels.push(Label {
            place,
            text: text.into(),
        });
        self
    }

    /// Whether it stops a plan.
    pub fn is_error(&self) -> bool {
        self.severity == Severity::Error
    }
}

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
/// wanted was meant, only not said in full.
fn likeness(wanted: &str, name: &str) -> f64 {
    let words: Vec<&str> = name.split_whitespace().collect();
    let is_short_for = wanted.split_whitespace().all(|word| words.contains(&word));
    if is_short_for && wanted.len() > 2 {
        1.0
    } else {
        strsim::jaro_winkler(wanted, name)
    }
}

/// Names offered in one guess.
const MOST_OFFERED: usize = 3;

/// A help line that names the nearest allowed names first.
pub fn suggest(found: &str, names: &[&str]) -> String {
    let near = near_names(found, names.iter().copied());
    if near.is_empty() {
        return choice(names);
    }
    let near: Vec<String> = near.iter().map(|name| format!("`{name}`")).collect();
    format!("did you mean {}?", near.join(" or "))
}

/// The names to choose from, as far as a line holds them.
fn choice(names: &[&str]) -> String {
    if names.is_empty() {
        return "there is none to choose from".to_owned();
    }
    let shown: Vec<String> = names
        .iter()
        .take(MOST_SHOWN)
        .map(|name| format!("`{name}`"))
        .collect();
    let more = if names.len() > MOST_SHOWN {
        ", ..."
    } else {
        ""
    };
    format!("choose one of {}{more}", shown.join(", "))
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
