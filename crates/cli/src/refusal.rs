//! What a verb says when it cannot do its work on a layout.

use crate::exit::Exit;
use crate::layout::LayoutFile;
use crate::output::{Output, complain, complain_at_length};
use anyhow::Result;
use bleedwright_network::Finding;
use bleedwright_report::findings_terminal;
use bleedwright_report::json::{CheckJson, pretty};

/// How the findings are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Told {
    /// To people, on standard error.
    Text,
    /// To programs, as the document of `check`.
    Json,
}

/// Tells the findings that stand in the way, and `what` was not done.
pub(crate) fn refuse(
    file: &LayoutFile,
    findings: &[Finding],
    what: &str,
    told: Told,
    output: &mut Output,
) -> Result<Exit> {
    match told {
        Told::Json => {
            let network = file.loaded.network.as_ref();
            let document = CheckJson::new(&file.name, network, findings, &file.source);
            output.print(&pretty(&document))?;
        }
        Told::Text => {
            complain_at_length(&findings_terminal(
                findings,
                &file.name,
                &file.source,
                output.width(),
                output.has_colour(),
            ));
            complain(&format!("{what} from {}", file.name));
        }
    }
    Ok(Exit::for_findings(findings))
}
