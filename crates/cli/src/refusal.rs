//! What a verb says when it cannot do its work on a file.

use crate::exit::{Ended, Exit};
use crate::output::{Output, complain, complain_at_length};
use anyhow::Result;
use bleedwright_network::{Finding, Network};
use bleedwright_report::json::{CheckJson, pretty};

/// How the findings are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Told {
    /// To people, on standard error.
    Text,
    /// To programs, as the document of `check`.
    Json,
}

impl Told {
    pub(crate) fn json_if(is_json: bool) -> Self {
        if is_json { Self::Json } else { Self::Text }
    }
}

/// Ends a verb: tells the findings that stand in the way of a file, and `what` was not done.
pub(crate) fn refuse<T>(
    (name, source): (&str, &str),
    network: Option<&Network>,
    findings: &[Finding],
    what: &str,
    told: Told,
    output: &mut Output,
) -> Result<T> {
    match told {
        Told::Json => {
            output.print(&pretty(&CheckJson::new(name, network, findings, source)))?;
        }
        Told::Text => {
            complain_at_length(&output.findings(findings, name, source));
            complain(&format!("{what} from {name}"));
        }
    }
    Err(Ended::Told(Exit::for_findings(findings)).into())
}
