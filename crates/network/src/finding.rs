//! What was found in a layout or in the options of a plan.

use crate::code::{Code, Severity};
use crate::place::Place;

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
