//! A layout with its plan, for every verb that works from one.

use crate::layout::LayoutFile;
use bleedwright_network::{Code, Finding, Network, Place};
use bleedwright_planner::{Options, Plan, plan, pressure_stores};

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
    let released = nothing_stored(network, options);
    let is_refused = released.is_some();
    findings.extend(released);
    findings.extend(result.findings);
    findings.sort_by_key(|finding| finding.severity);
    match result.plan.filter(|_| !is_refused) {
        Some(plan) => Ok(Planned {
            network,
            plan: Plan { findings, ..*plan },
        }),
        None => Err(findings),
    }
}

/// Released pressure where nothing stores any. A caller of the planner may say so of every vehicle.
pub(crate) fn nothing_stored(network: &Network, options: &Options) -> Option<Finding> {
    let is_said = options.depressurised && pressure_stores(network).is_empty();
    is_said.then(|| {
        Finding::new(
            Code::NothingStored,
            Place::Option("--depressurised"),
            "`--depressurised` was given, and nothing in the layout stores pressure",
            "leave the option out, or write the `accumulator` into its part or booster",
        )
    })
}
