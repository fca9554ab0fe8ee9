//! Findings as JSON.

use super::{SCHEMA_VERSION, each};
use crate::finding::cut;
use crate::lines::Lines;
use bleedwright_network::{Finding, Locator, Network, Place};
use schemars::JsonSchema;
use serde::Serialize;

/// What `check` found.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CheckJson {
    /// The version of this document.
    pub schema_version: u32,
    /// The layout file.
    pub file: String,
    /// How the circuits are shared among the wheels; null when the layout
    /// could not be read.
    pub split: Option<String>,
    /// The wheels that a brake names; null when the layout could not be read.
    pub wheels: Option<Vec<String>>,
    /// Whether nothing stops a plan.
    pub is_sound: bool,
    /// Everything found, errors first.
    pub findings: Vec<FindingJson>,
}

impl CheckJson {
    /// The document for one layout.
    pub fn new(file: &str, network: Option<&Network>, findings: &[Finding], source: &str) -> Self {
        let words = |network: &Network| {
            let wheels = network.wheels().into_iter();
            wheels.map(|wheel| wheel.word().to_owned()).collect()
        };
        Self {
            schema_version: SCHEMA_VERSION,
            file: file.to_owned(),
            split: network.map(|network| network.split().word().to_owned()),
            wheels: network.map(words),
            is_sound: !findings.iter().any(Finding::is_error),
            findings: FindingJson::list(findings, source),
        }
    }
}

/// One finding.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FindingJson {
    /// The stable code, explained in docs/findings.md.
    pub code: String,
    /// `error`, `warning` or `advice`.
    pub severity: String,
    /// What was found.
    pub message: String,
    /// Line of the file, counted from one; null for an option.
    pub line: Option<usize>,
    /// Column of the line, counted from one in characters.
    pub column: Option<usize>,
    /// The option concerned; null for a place in the file.
    pub option: Option<String>,
    /// What is allowed, where there is a range or a list.
    pub allowed: Option<String>,
    /// What to do.
    pub help: String,
    /// Other places that belong to it.
    pub also: Vec<LabelJson>,
}

/// Another place of a finding.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LabelJson {
    /// Line of the file, counted from one.
    pub line: Option<usize>,
    /// What stands there.
    pub text: String,
}

impl FindingJson {
    /// All findings of one layout.
    pub fn list(findings: &[Finding], source: &str) -> Vec<Self> {
        let locator = Locator::new(source);
        let lines = Lines::new(source);
        let place_of = |place: &Place| {
            let span = locator.find(place)?;
            Some(lines.line_and_column(span.start))
        };
        each(findings, |finding| {
            let place = place_of(&finding.place);
            Self {
                code: finding.code.text().to_owned(),
                severity: finding.severity.name().to_owned(),
                message: cut(&finding.message).into_owned(),
                line: place.map(|(line, _)| line),
                column: place.map(|(_, column)| column),
                option: match &finding.place {
                    Place::Option(option) => Some((*option).to_owned()),
                    _ => None,
                },
                allowed: finding.allowed.clone(),
                help: cut(&finding.help).into_owned(),
                also: each(&finding.labels, |label| LabelJson {
                    line: place_of(&label.place).map(|(line, _)| line),
                    text: label.text.clone(),
                }),
            }
        })
    }
}
