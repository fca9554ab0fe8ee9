//! What a sheet warns of before the work begins.

use crate::number::ml_within;
use bleedwright_network::{Code, Severity};
use bleedwright_planner::Plan;

/// One line for each kind of warning, then what bleeding does not reach.
pub(super) fn warnings(plan: &Plan) -> Vec<String> {
    let mut texts = Vec::new();
    // What stays is said with its volume below.
    let is_said = |code| matches!(code, Code::NeedsRoutine | Code::NotAtTop);
    let mut codes: Vec<Code> = Vec::new();
    for finding in &plan.findings {
        if finding.severity != Severity::Warning
            || is_said(finding.code)
            || codes.contains(&finding.code)
        {
            continue;
        }
        codes.push(finding.code);
        let more = plan
            .findings
            .iter()
            .filter(|other| other.code == finding.code)
            .count()
            - 1;
        let more = match more {
            0 => String::new(),
            more => format!(" (and {more} more like it)"),
        };
        texts.push(format!("{} {}{more}", finding.code.text(), finding.message));
    }
    for remains in &plan.remains {
        texts.push(format!(
            "stays in `{}`: {} {}",
            remains.part,
            ml_within(remains.volume),
            remains.text
        ));
    }
    texts
}
