//! What must hold for every layout and every set of options.

mod gravity;
mod opening;
mod order;
mod plan;
mod second;
mod simulation;
mod stroke;
mod volume;

use crate::generated::Case;
use bleedwright_network::{Bounds, Network};
use bleedwright_planner::{Plan, plan};
use proptest::prelude::*;
use std::fmt::Debug;

/// A thousand cases of each property; a case that fails is printed whole, as
/// a file that can be kept.
fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 1000,
        failure_persistence: None,
        max_shrink_iters: 1000,
        ..ProptestConfig::default()
    }
}

/// The plan of a case. Its options leave a screw in scope, ask for residuals
/// above a clean reservoir's and for strokes that move fluid, so that there is
/// no reason to refuse it.
fn plan_of(network: &Network, case: &Case) -> Result<Box<Plan>, TestCaseError> {
    let planned = plan(network, &case.options);
    planned
        .plan
        .ok_or_else(|| TestCaseError::fail(format!("no plan: {:#?}", planned.findings)))
}

fn assert_ordered<T: PartialOrd + Debug>(
    what: &str,
    bounds: &Bounds<T>,
) -> Result<(), TestCaseError> {
    prop_assert!(
        bounds.low <= bounds.nominal && bounds.nominal <= bounds.high,
        "{what}: {bounds:?}"
    );
    Ok(())
}
