//! A layout with its plan, for every verb that works from one.

use crate::Exit;
use crate::layout::LayoutFile;
use bleedwright_network::{Finding, Network};
use bleedwright_planner::{Options, Plan, plan};

/// A sound layout and a plan of it.
pub(crate) struct Planned<'f> {
    pub(crate) network: &'f Network,
    /// With the findings of the layout and of the options.
    pub(crate) plan: Plan,
}

/// Plans from a layout, or gives the findings that stand in the way.
pub(crate) fn planned<'f>(
    file: &'f LayoutFile,
    options: &Options,
) -> Result<Planned<'f>, Vec<Finding>> {
    let mut findings = file.loaded.findings.clone();
    let Some(network) = file.loaded.sound_network() else {
        return Err(findings);
    };
    let result = plan(network, options);
    findings.extend(result.findings);
    findings.sort_by_key(|finding| finding.severity);
    match result.plan {
        Some(plan) => Ok(Planned {
            network,
            plan: Plan { findings, ..*plan },
        }),
        None => Err(findings),
    }
}

/// How a verb ends that worked from this plan.
pub(crate) fn exit_with(plan: &Plan) -> Exit {
    if plan.is_unsafe_by_options {
        Exit::UnsafeByOptions
    } else {
        Exit::Done
    }
}
