//! How long the flow solver takes for 40 pipes with 31 unknown pressures.
//!
//! `cargo bench -p bleedwright-tests --bench flow`
//!
//! The networks are those of `reference/flow/speed.json`, and the flows must be
//! the ones that stand there. `reference/flow/speed.py` runs this program and
//! prints the times of other solvers beside it.
#![expect(
    clippy::print_stdout,
    reason = "a benchmark is a program whose result is what it prints"
)]

#[path = "../flow_case/mod.rs"]
mod flow_case;

use flow_case::Reference;
use std::hint::black_box;
use std::time::Instant;

const NETWORKS: &str = include_str!("../reference/flow/speed.json");

/// Batches of solves, the fastest of which counts: a machine may have other
/// work at any time, and none that makes a solve faster.
const BATCHES: usize = 2_000;
const SOLVES: u32 = 20;

fn main() {
    let reference = Reference::read(NETWORKS);
    for case in &reference.networks {
        let differences = case.differences(&reference);
        assert!(differences.is_empty(), "{}", differences.join("\n"));
        let built = case.build(&reference);
        let iterations = case.solve(&built.network).iterations();
        let times_us = (0..BATCHES).map(|_| {
            let start = Instant::now();
            for _ in 0..SOLVES {
                black_box(case.solve(black_box(&built.network)));
            }
            start.elapsed().as_secs_f64() * 1e6 / f64::from(SOLVES)
        });
        let least_us = times_us.fold(f64::INFINITY, f64::min);
        println!("{least_us:.3} us {}, {iterations} steps", case.name);
    }
}
