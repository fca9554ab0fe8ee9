//! What is still braked when a circuit is lost, against the definitions of the splits.
//!
//! Source: DIN 74000 names II (each axle a circuit), X (a front wheel and the rear one across), HI (one circuit all
//! wheels, one the front), LL (each circuit both front wheels and one rear wheel), HH (each circuit all wheels);
//! second-hand.

use crate::demo::load_demo;
use bleedwright_pedal::{controls, remaining};
use std::collections::BTreeMap;

/// For every circuit that is lost: the wheels with all of their pistons, and those with some of them.
fn left(name: &str) -> BTreeMap<String, [Vec<String>; 2]> {
    let network = &load_demo(name);
    let control = controls(network)
        .into_iter()
        .next()
        .expect("it has a pedal");
    remaining(network, &control)
        .into_iter()
        .map(|remaining| {
            let names = |is_meant: &dyn Fn(&bleedwright_pedal::WheelLeft) -> bool| {
                let wheels = remaining.wheels.iter().filter(|wheel| is_meant(wheel));
                wheels.map(|wheel| wheel.name.clone()).collect::<Vec<_>>()
            };
            let whole = names(&|wheel| wheel.is_whole());
            let partly = names(&|wheel| !wheel.is_whole() && !wheel.is_gone());
            (remaining.lost.clone(), [whole, partly])
        })
        .collect()
}

fn wheels(found: &BTreeMap<String, [Vec<String>; 2]>) -> Vec<[Vec<&str>; 2]> {
    let mut all: Vec<_> = found
        .values()
        .map(|[whole, partly]| [whole, partly].map(|it| it.iter().map(String::as_str).collect()))
        .collect();
    all.sort();
    all
}

const FRONT: [&str; 2] = ["front left", "front right"];
const REAR: [&str; 2] = ["rear left", "rear right"];
const ALL: [&str; 4] = ["front left", "front right", "rear left", "rear right"];

#[test]
fn a_lost_axle_leaves_the_other() {
    for name in ["lapwing", "curlew"] {
        assert_eq!(
            wheels(&left(name)),
            [[FRONT.to_vec(), vec![]], [REAR.to_vec(), vec![]]],
            "{name}"
        );
    }
}

#[test]
fn a_lost_diagonal_leaves_the_other() {
    for name in ["plover", "godwit"] {
        assert_eq!(
            wheels(&left(name)),
            [
                [vec!["front left", "rear right"], vec![]],
                [vec!["front right", "rear left"], vec![]],
            ],
            "{name}"
        );
    }
}

#[test]
fn two_chamber_calipers_keep_a_part() {
    assert_eq!(
        wheels(&left("avocet")),
        [[vec![], ALL.to_vec()], [vec![], ALL.to_vec()]]
    );
    assert_eq!(
        wheels(&left("redshank")),
        [[vec![], FRONT.to_vec()], [REAR.to_vec(), FRONT.to_vec()]]
    );
    assert_eq!(
        wheels(&left("dunlin")),
        [
            [vec!["rear left"], FRONT.to_vec()],
            [vec!["rear right"], FRONT.to_vec()],
        ]
    );
}

#[test]
fn a_single_circuit_leaves_nothing() {
    let found = left("whimbrel");
    assert_eq!(wheels(&found), [[Vec::<&str>::new(), vec![]]]);
}
