//! Why values were not set.

use bleedwright_network::{Finding, ticked};
use thiserror::Error;

/// Why values were not set. Nothing was changed.
#[derive(Clone, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum EditError {
    /// Brackets, commas or quotes are amiss, so that no value has a safe place.
    #[error("the file cannot be taken apart, so nothing is set; mend it in a text editor first")]
    Unreadable {
        /// What is wrong with it.
        findings: Vec<Finding>,
    },
    /// No value has this name.
    #[error("no value of this layout is called `{found}`; {help}")]
    UnknownName {
        /// The name found.
        found: String,
        /// The nearest names.
        help: String,
    },
    /// More than one value has this name.
    #[error(
        "`{found}` means more than one value of this layout; {}",
        telling_apart(names)
    )]
    Ambiguous {
        /// The name found.
        found: String,
        /// The full names, where they tell the values apart; else none.
        names: Vec<String>,
    },
    /// What has this name is no single value.
    #[error("`{name}` cannot be set: {why}")]
    NotSingle {
        /// The name.
        name: String,
        /// What it is instead.
        why: Structural,
    },
    /// A bore for one of two pistons, where the cylinder has one for both.
    #[error(
        "`{name}` makes a stepped cylinder, with another bore for each piston; set `{whole}` if both are of one bore, or give the bores of both pistons, `primary bore` and `secondary bore`, in one call"
    )]
    Stepped {
        /// The name of the value.
        name: String,
        /// The bore that both pistons have.
        whole: String,
    },
    /// One call sets the same value twice.
    #[error("`{name}` is set twice; leave one out")]
    SetTwice {
        /// The name of the value.
        name: String,
    },
    /// The value is of another kind than the field.
    #[error("`{name}` cannot be `{found}`; write {allowed}")]
    WrongKind {
        /// The name of the value.
        name: String,
        /// The value found.
        found: String,
        /// What can stand there.
        allowed: String,
    },
    /// The layout would have errors that it does not have.
    #[error("{names} cannot be set so: the layout would have errors that it does not have now")]
    Breaks {
        /// The names of the values.
        names: String,
        /// The errors, with their places in `text`.
        findings: Vec<Finding>,
        /// The text as it would have been.
        text: String,
    },
    /// The layout has errors, and the change mends none of them.
    #[error("the layout has errors and this mends none of them, so nothing is set")]
    StillUnsound {
        /// The errors that it has.
        findings: Vec<Finding>,
    },
    /// More than the named values would have changed.
    #[error("{names} cannot be set without changing more than that; set it in a text editor")]
    Spreads {
        /// The names of the values.
        names: String,
    },
}

/// What is no single value.
#[derive(Clone, Copy, Debug, Error, PartialEq, Eq)]
#[non_exhaustive]
pub enum Structural {
    /// The number of the format.
    #[error("it is the number of the notation, not of the vehicle, and 1 is the only one")]
    Format,
    /// A point on the way of a line.
    #[error("points on the way have no names to tell them apart; change `via` in a text editor")]
    Via,
    /// A list, or an item of a list of names.
    #[error("it is a list or part of one; change the list in a text editor")]
    List,
    /// A kind with its settings, or another structure.
    #[error(
        "settings stand in brackets behind it; set each of them by its own name, or change the kind in a text editor"
    )]
    Brackets,
}

fn telling_apart(names: &[String]) -> String {
    if names.is_empty() {
        return "no longer name tells them apart, so set it in a text editor, or give one of the \
                things another name"
            .to_owned();
    }
    format!("say {}", ticked(names.iter().map(String::as_str), " or "))
}
