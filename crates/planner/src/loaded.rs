//! From a loaded layout to its plan, with the findings of both merged once.

use crate::build::{Planned, plan};
use crate::options::Options;
use crate::plan::Plan;
use crate::sheet::pressure_stores;
use bleedwright_network::{Code, Finding, Loaded, Network, Place};

/// Plans from a layout; its findings and those of the options stand together, the worst first, in the plan as well. A layout
/// with errors is not planned from, and has its own findings alone.
pub fn plan_loaded(loaded: &Loaded, options: &Options) -> Planned {
    let mut findings = loaded.findings.clone();
    let Some(network) = loaded.sound_network() else {
        return Planned {
            plan: None,
            findings,
        };
    };
    let released = nothing_stored(network, options);
    let planned = plan(network, options);
    let plan = planned.plan.filter(|_| released.is_none());
    findings.extend(released);
    findings.extend(planned.findings);
    findings.sort_by_key(|finding| finding.severity);
    let plan = plan.map(|plan| {
        Box::new(Plan {
            findings: findings.clone(),
            ..*plan
        })
    });
    Planned { plan, findings }
}

/// Released pressure where nothing stores any. Who plans from a network alone may say so of every vehicle.
fn nothing_stored(network: &Network, options: &Options) -> Option<Finding> {
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
