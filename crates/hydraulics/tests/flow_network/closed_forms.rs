//! Networks whose flows follow by hand, or were worked out by a root finder for general use.

use super::{BranchLaw, FlowNetwork, assert_near, end, gauge_pa, joint, ml_per_s, pipe, solve};

/// Half a unit of the ninth decimal of the values below.
const PRINTED: f64 = 5.1e-10;

/// `Q = pi D^4 dp / (128 mu L)`: 5 m at 1 bar.
#[test]
fn one_pipe() {
    let mut network = FlowNetwork::new();
    let tank = end(&mut network, 0.0, 1e5);
    let screw = end(&mut network, 0.0, 0.0);
    let branch = network.add_branch(tank, screw, pipe(5.0, 0.0));
    let flows = solve(&network);
    assert_near(ml_per_s(&flows, branch), 3.832_359_788, PRINTED);
    assert!(flows.iterations() <= 2, "one step, and one that shows it");
}

/// Flow, and pressure at the tee, of a trunk of 3.0 m with branches of 0.6 m and 2.4 m.
fn tee(loss: f64) -> ([f64; 3], f64) {
    let mut network = FlowNetwork::new();
    let tank = end(&mut network, 0.0, 1e5);
    let tee = joint(&mut network, 0.0);
    let trunk = network.add_branch(tank, tee, pipe(3.0, 0.0));
    let [near, far] = [0.6, 2.4].map(|length_m| {
        let screw = end(&mut network, 0.0, 0.0);
        network.add_branch(tee, screw, pipe(length_m, loss))
    });
    let flows = solve(&network);
    let pressure = gauge_pa(&flows, tee).expect("the tank reaches the tee");
    ([trunk, near, far].map(|b| ml_per_s(&flows, b)), pressure)
}

/// By conductances: 1 / 0.6 + 1 / 2.4 = 1 / 0.48, so the tee has 0.48 / 3.48 of 1 bar.
#[test]
fn two_open_screws_behind_a_tee() {
    let ([trunk, near, far], pressure_pa) = tee(0.0);
    assert_near(trunk, 5.506_264_064, PRINTED);
    assert_near(near, 4.405_011_251, PRINTED);
    assert_near(far, 1.101_252_813, PRINTED);
    assert_near(pressure_pa, 1e5 * 0.48 / 3.48, 1e-9);
}

/// `SciPy` 1.17.1, `optimize.brentq` on the pressure at the tee: 1.5 velocity heads in each branch.
#[test]
fn velocity_heads_in_both_branches() {
    let ([trunk, near, far], _) = tee(1.5);
    assert_near(near, 4.385_922_857, PRINTED);
    assert_near(far, 1.111_402_405, PRINTED);
    assert_near(trunk, near + far, 1e-14);
}

/// The same tee by gravity alone: the reservoir at 1.0 m, hose ends at 0.25 m and 0.45 m. Air is sucked in at the
/// higher one. Worked out by conductances with g = 32.2 ft/s2, which scaling the heights stands for.
#[test]
fn the_higher_open_screw_sucks_air() {
    let scale = 32.2 * 0.3048 / 9.80665;
    let mut network = FlowNetwork::new();
    let reservoir = end(&mut network, 1.0 * scale, 0.0);
    let tee = joint(&mut network, 0.3 * scale);
    let trunk = network.add_branch(reservoir, tee, pipe(3.0, 0.0));
    let low = end(&mut network, 0.25 * scale, 0.0);
    let high = end(&mut network, 0.45 * scale, 0.0);
    let near = network.add_branch(tee, low, pipe(0.6, 0.0));
    let far = network.add_branch(tee, high, pipe(2.4, 0.0));
    let flows = solve(&network);
    assert_near(ml_per_s(&flows, trunk), 0.402_879_8, 5.1e-8);
    assert_near(ml_per_s(&flows, near), 0.453_949_1, 5.1e-8);
    assert_near(ml_per_s(&flows, far), -0.051_069_3, 5.1e-8);
}

/// `Q = (-a + sqrt(a^2 + 4 b dp)) / (2 b)`, and `sqrt(dp / b)` without a linear part.
#[test]
fn one_screw() {
    for (a, b) in [(1e10, 1e15), (1e10, 1e19), (0.0, 1e16), (1e-300, 1e16)] {
        let mut network = FlowNetwork::new();
        let tank = end(&mut network, 0.0, 1e5);
        let screw = end(&mut network, 0.0, 0.0);
        let law = BranchLaw {
            linear_pa_s_per_m3: a,
            quadratic_pa_s2_per_m6: b,
        };
        let branch = network.add_branch(tank, screw, law);
        let expected = 2.0 * 1e5 / (a + (a * a + 4.0 * b * 1e5).sqrt()) * 1e6;
        let found = ml_per_s(&solve(&network), branch);
        assert_near(found, expected, 1e-12 * expected);
    }
}

/// A ladder of equal resistances: seen from its far end, the flows are Fibonacci's numbers.
#[test]
fn a_ladder_counts_in_fibonacci_numbers() {
    const RUNGS: usize = 30;
    let mut network = FlowNetwork::new();
    let floor = end(&mut network, 0.0, 0.0);
    let law = BranchLaw::linear(1e10);
    let mut below = end(&mut network, 0.0, 1e5);
    let mut branches = Vec::new();
    for _ in 0..RUNGS {
        let next = joint(&mut network, 0.0);
        branches.push(network.add_branch(below, next, law));
        branches.push(network.add_branch(next, floor, law));
        below = next;
    }
    let flows = solve(&network);
    // From the far end: the last rung carries 1, the rail before it 1, the rung before that 2, and so on.
    let mut numbers = vec![1.0, 1.0];
    while numbers.len() < branches.len() {
        numbers.push(numbers[numbers.len() - 2] + numbers[numbers.len() - 1]);
    }
    let unit = ml_per_s(&flows, branches[0]) / numbers[numbers.len() - 1];
    for (branch, number) in branches.iter().rev().zip(&numbers) {
        let tolerance = 1e-14 * numbers[numbers.len() - 1];
        assert_near(ml_per_s(&flows, *branch) / unit, *number, tolerance);
    }
    // All of it falls over the resistances of the first rail and the first rung.
    let pressure_pa =
        1e10 * 1e-6 * unit * (numbers[numbers.len() - 1] + numbers[numbers.len() - 2]);
    assert_near(pressure_pa, 1e5, 1e-8);
}

/// A bridge of five resistances, by star-delta: 1, 2 over 3, 4 with 5 across.
#[test]
fn an_unbalanced_bridge() {
    let mut network = FlowNetwork::new();
    let top = end(&mut network, 0.0, 1e5);
    let bottom = end(&mut network, 0.0, 0.0);
    let left = joint(&mut network, 0.0);
    let right = joint(&mut network, 0.0);
    let mut add = |from, to, tens| network.add_branch(from, to, BranchLaw::linear(tens * 1e10));
    add(top, left, 1.0);
    add(top, right, 2.0);
    add(left, bottom, 3.0);
    add(right, bottom, 4.0);
    let across = add(left, right, 5.0);
    // Balance at both joints: 23 p - 3 q = 15 and -4 p + 19 q = 10 with p, q as shares of the pressure.
    let (p, q) = (315.0 / 425.0, 290.0 / 425.0);
    let flows = solve(&network);
    let found_pa = gauge_pa(&flows, left).expect("an end reaches it");
    assert_near(found_pa, p * 1e5, 1e-9);
    let found_pa = gauge_pa(&flows, right).expect("an end reaches it");
    assert_near(found_pa, q * 1e5, 1e-9);
    assert_near(ml_per_s(&flows, across), (p - q) * 2.0, 1e-13);
}
