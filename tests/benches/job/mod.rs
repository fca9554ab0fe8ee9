//! The job that is measured: from the text of a layout to a plan.

use bleedwright_benches::{block_star, short_circuits, tee_tree, union_chain};
use bleedwright_network::{Loaded, load_up_to};
use bleedwright_planner::{Options, Plan, plan};

/// The shape of a synthetic layout.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Shape {
    /// Many short circuits side by side.
    Circuits,
    /// One balanced tree behind one cylinder.
    Tree,
    /// One row of unions between a cylinder and its only brake.
    Chain,
    /// One block behind one cylinder, with all brakes on it.
    Star,
}

impl Shape {
    pub(crate) fn layout(self, parts: usize) -> String {
        match self {
            Self::Circuits => short_circuits(parts),
            Self::Tree => tee_tree(parts),
            Self::Chain => union_chain(parts),
            Self::Star => block_star(parts),
        }
    }
}

/// Loads a layout of any size, which also checks its pipework.
pub(crate) fn load_all(text: &str) -> Loaded {
    load_up_to(text.as_bytes(), text.len())
}

/// Plans with the options' defaults.
pub(crate) fn plan_loaded(loaded: &Loaded) -> Box<Plan> {
    let network = loaded
        .sound_network()
        .unwrap_or_else(|| panic!("a benchmark's layout has errors: {:?}", loaded.findings));
    let planned = plan(network, &Options::default());
    planned
        .plan
        .unwrap_or_else(|| panic!("nothing was planned: {:?}", planned.findings))
}

/// Loads, checks and plans.
pub(crate) fn plan_text(text: &str) -> Box<Plan> {
    plan_loaded(&load_all(text))
}
