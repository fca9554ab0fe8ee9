//! How the program ends.

use bleedwright_network::{Finding, Place};
use bleedwright_planner::Plan;
use std::process::ExitCode;

/// The exit codes, as documented in the README.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Exit {
    Done,
    CouldNotRun,
    Usage,
    LayoutHasErrors,
    UnsafeByOptions,
}

impl Exit {
    /// Errors of the options are wrong usage; errors of the layout stop a plan.
    pub(crate) fn for_findings(findings: &[Finding]) -> Self {
        let errors = || findings.iter().filter(|finding| finding.is_error());
        if errors().any(|finding| !matches!(finding.place, Place::Option(_))) {
            Self::LayoutHasErrors
        } else if errors().next().is_some() {
            Self::Usage
        } else {
            Self::Done
        }
    }

    /// How a verb ends that worked from this plan.
    pub(crate) fn with(plan: &Plan) -> Self {
        if plan.is_unsafe_by_options {
            Self::UnsafeByOptions
        } else {
            Self::Done
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(match exit {
            Exit::Done => 0,
            Exit::CouldNotRun => 1,
            Exit::Usage => 2,
            Exit::LayoutHasErrors => 3,
            Exit::UnsafeByOptions => 4,
        })
    }
}
