//! A layout without errors, and its plan, for every verb that works from one.

use crate::layout::LayoutFile;
use crate::output::Output;
use crate::refusal::{Told, refuse};
use anyhow::Result;
use bleedwright_network::{Code, Finding, Network, Place};
use bleedwright_planner::{Options, Plan, plan, pressure_stores};

/// A sound layout and a plan of it.
pub(crate) struct Planned<'f> {
    pub(crate) network: &'f Network,
    /// With the findings of the layout and of the options.
    pub(crate) plan: Plan,
}

/// The network of a layout; where it has errors, they are told and `what` was not done.
pub(crate) fn sound<'f>(
    file: &'f LayoutFile,
    what: &str,
    told: Told,
    output: &mut Output,
) -> Result<&'f Network> {
    match file.loaded.sound_network() {
        Some(network) => Ok(network),
        None => refuse_layout(file, &file.loaded.findings, what, told, output),
    }
}

/// Plans from a layout; what stands in the way is told, and that `what` was not done.
pub(crate) fn planned<'f>(
    file: &'f LayoutFile,
    options: &Options,
    what: &str,
    told: Told,
    output: &mut Output,
) -> Result<Planned<'f>> {
    let network = sound(file, what, told, output)?;
    let mut findings = file.loaded.findings.clone();
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
        None => refuse_layout(file, &findings, what, told, output),
    }
}

fn refuse_layout<T>(
    file: &LayoutFile,
    findings: &[Finding],
    what: &str,
    told: Told,
    output: &mut Output,
) -> Result<T> {
    let network = file.loaded.network.as_ref();
    refuse(
        (&file.name, &file.source),
        network,
        findings,
        what,
        told,
        output,
    )
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
