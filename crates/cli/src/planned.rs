//! A layout without errors, and its plan, for every verb that works from one.

use crate::layout::LayoutFile;
use crate::output::Output;
use crate::refusal::{Told, refuse};
use anyhow::Result;
use bleedwright_network::{Finding, Network};
use bleedwright_planner::{Options, Plan, plan_loaded};

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
    let planned = plan_loaded(&file.loaded, options);
    match planned.plan {
        Some(plan) => Ok(Planned {
            network,
            plan: *plan,
        }),
        None => refuse_layout(file, &planned.findings, what, told, output),
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
