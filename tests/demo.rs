//! The demo layouts, loaded and planned.

use crate::command_line::run;
use bleedwright_network::{Loaded, load};
use bleedwright_planner::{Options, Plan, Planned, plan};

/// The demo vehicles of the folder `layouts`.
pub(crate) const ALL: [&str; 10] = [
    "avocet",
    "curlew",
    "dunlin",
    "godwit",
    "lapwing",
    "plover",
    "redshank",
    "ruff",
    "turnstone",
    "whimbrel",
];

/// Loads a file of the repository, which must be free of errors.
pub(crate) fn load_file(path: &str) -> Loaded {
    let bytes = std::fs::read(crate::binary::root().join(path))
        .unwrap_or_else(|error| panic!("{path}: {error}"));
    let loaded = load(&bytes);
    assert!(!loaded.has_errors(), "{path}: {:#?}", loaded.findings);
    loaded
}

/// The text of a demo vehicle.
pub(crate) fn demo_text(name: &str) -> String {
    let path = crate::binary::root().join(format!("layouts/{name}.ron"));
    std::fs::read_to_string(path).expect("a demo layout can be read")
}

/// Loads a demo vehicle.
pub(crate) fn load_demo(name: &str) -> Loaded {
    load_file(&format!("layouts/{name}.ron"))
}

/// Plans, whatever comes out.
pub(crate) fn planned(loaded: &Loaded, options: &Options) -> Planned {
    let network = loaded
        .sound_network()
        .expect("the layout was checked when it was loaded");
    plan(network, options)
}

/// The plan of a loaded layout, which must come out.
pub(crate) fn plan_of(loaded: &Loaded, options: &Options) -> Plan {
    let planned = planned(loaded, options);
    match planned.plan {
        Some(plan) => *plan,
        None => panic!("no plan with {options:#?}: {:#?}", planned.findings),
    }
}

/// The plan of a file of the repository.
pub(crate) fn plan_file(path: &str, options: &Options) -> Plan {
    plan_of(&load_file(path), options)
}

/// The plan of a demo vehicle.
pub(crate) fn plan_demo(name: &str, options: &Options) -> Plan {
    plan_of(&load_demo(name), options)
}

/// The names of the screws in the order of the plan.
pub(crate) fn screws(plan: &Plan) -> Vec<&str> {
    plan.steps
        .iter()
        .flat_map(|step| step.screws.iter().map(|screw| screw.screw.as_str()))
        .collect()
}

/// What `draft` writes of a car with this split of which hardly anything is measured.
pub(crate) fn drafted(split: &str) -> Loaded {
    let run = run(&format!(
        "draft --wheelbase '2.6 m' --track '1.5 m' --split {split} --steering left"
    ));
    assert_eq!(run.code, Some(0), "{}", run.stderr);
    load(run.stdout.as_bytes())
}
