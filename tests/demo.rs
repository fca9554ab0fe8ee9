//! The demo layouts, loaded and planned.

use crate::command_line::run;
use bleedwright_network::{Network, load};
use bleedwright_planner::{Options, Plan, plan};

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

/// The network of a layout, which must be free of errors.
pub(crate) fn network_of(text: &str) -> Network {
    let loaded = load(text.as_bytes());
    let network = loaded.sound_network().cloned();
    network.unwrap_or_else(|| panic!("{:#?}\n{text}", loaded.findings))
}

pub(crate) fn text_of_file(path: &str) -> String {
    let text = std::fs::read_to_string(crate::binary::root().join(path));
    text.unwrap_or_else(|error| panic!("{path}: {error}"))
}

pub(crate) fn load_file(path: &str) -> Network {
    network_of(&text_of_file(path))
}

pub(crate) fn demo_text(name: &str) -> String {
    text_of_file(&format!("layouts/{name}.ron"))
}

/// Loads a demo vehicle.
pub(crate) fn load_demo(name: &str) -> Network {
    network_of(&demo_text(name))
}

/// The plan of a network, which must come out.
pub(crate) fn plan_of(network: &Network, options: &Options) -> Plan {
    let planned = plan(network, options);
    match planned.plan {
        Some(plan) => *plan,
        None => panic!("no plan with {options:#?}: {:#?}", planned.findings),
    }
}

pub(crate) fn plan_file(path: &str, options: &Options) -> Plan {
    plan_of(&load_file(path), options)
}

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
pub(crate) fn drafted(split: &str) -> Network {
    let run = run(&format!(
        "draft --wheelbase '2.6 m' --track '1.5 m' --split {split} --steering left"
    ));
    assert_eq!(run.code, Some(0), "{}", run.stderr);
    network_of(&run.stdout)
}
