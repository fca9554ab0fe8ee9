//! How the program ends.

use crate::output::complain;
use bleedwright_network::{Finding, Place};
use bleedwright_planner::Plan;
use std::fmt::Display;
use std::process::ExitCode;

/// The exit codes, as documented in docs/walk.md.
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

/// Why a verb ended without its work, where the program itself did not fail.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Ended {
    /// A call that means nothing, or a value that cannot be taken.
    #[error("{0}")]
    Usage(String),
    /// The same where something was to be written.
    #[error("{0}")]
    NothingWritten(String),
    /// What stands in the way was told already.
    #[error("what stands in the way was told")]
    Told(Exit),
}

impl Ended {
    /// Says what was not said yet.
    pub(crate) fn tell(self) -> Exit {
        match self {
            Self::Usage(why) => complain(&why),
            Self::NothingWritten(why) => {
                complain(&why);
                complain("nothing was written");
            }
            Self::Told(exit) => return exit,
        }
        Exit::Usage
    }
}

/// Wrong usage, in words.
pub(crate) fn usage(why: impl Display) -> anyhow::Error {
    Ended::Usage(why.to_string()).into()
}

/// Why nothing was written, in words.
pub(crate) fn nothing_written(why: impl Display) -> anyhow::Error {
    Ended::NothingWritten(why.to_string()).into()
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
