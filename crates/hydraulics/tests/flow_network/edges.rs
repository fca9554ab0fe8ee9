//! Closed, cut off, joined without resistance, wrong, large.

use super::{
    BranchLaw, DENSITY_KG_PER_M3, FlowError, FlowNetwork, assert_near, end, gauge_pa, joint,
    ml_per_s, pipe, solve, try_solve,
};
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

const WEIGHT_PA_PER_M: f64 = DENSITY_KG_PER_M3 * 9.80665;

#[test]
fn a_closed_screw_holds_the_pressure_before_it() {
    let mut network = FlowNetwork::new();
    let tank = end(&mut network, 0.5, 1e5);
    let caliper = joint(&mut network, 0.2);
    let hose_end = end(&mut network, 0.1, 0.0);
    let line = network.add_branch(tank, caliper, pipe(2.0, 1.0));
    let screw = network.add_branch(caliper, hose_end, BranchLaw::closed());
    let flows = solve(&network);
    assert!(ml_per_s(&flows, line).abs() <= 0.0);
    assert!(ml_per_s(&flows, screw).abs() <= 0.0);
    let found = gauge_pa(&flows, caliper).expect("the tank reaches it");
    assert_near(found, 1e5 + 0.3 * WEIGHT_PA_PER_M, 1e-9);
}

#[test]
fn what_no_end_reaches_has_no_pressure_and_no_flow() {
    let mut network = FlowNetwork::new();
    let tank = end(&mut network, 0.0, 1e5);
    let [near, far, further] = [0.0; 3].map(|height_m| joint(&mut network, height_m));
    network.add_branch(tank, near, pipe(1.0, 0.0));
    network.add_branch(near, far, BranchLaw::closed());
    let inside = [
        network.add_branch(far, further, pipe(1.0, 0.0)),
        network.add_branch(further, far, pipe(2.0, 1.0)),
        network.add_branch(further, far, BranchLaw::direct()),
        network.add_branch(far, far, pipe(2.0, 1.0)),
    ];
    let flows = solve(&network);
    assert_eq!(gauge_pa(&flows, far), None);
    assert_eq!(gauge_pa(&flows, further), None);
    for branch in inside {
        assert!(ml_per_s(&flows, branch).abs() <= 0.0);
    }
}

/// A column of liquid at rest between two surfaces at one level has rounding errors, and no flow.
#[test]
fn hydrostatic_balance_is_exact_rest() {
    let mut network = FlowNetwork::new();
    let low = end(&mut network, 0.1, 0.3 * WEIGHT_PA_PER_M);
    let high = end(&mut network, 0.4, 0.0);
    let branch = network.add_branch(low, high, pipe(1.0, 0.0));
    assert!(ml_per_s(&solve(&network), branch).abs() <= 0.0);
}

/// Direct joints on both sides of a pipe and one that only sits there: as if they were not there.
#[test]
fn direct_joints_pass_what_flows() {
    let mut network = FlowNetwork::new();
    let tank = end(&mut network, 0.0, 1e5);
    let screw = end(&mut network, 0.0, 0.0);
    let [first, second, aside] = [0.0, 0.7, 0.2].map(|height_m| joint(&mut network, height_m));
    let before = network.add_branch(first, tank, BranchLaw::direct());
    let branch = network.add_branch(first, second, pipe(5.0, 0.0));
    let behind = network.add_branch(second, screw, BranchLaw::direct());
    let still = network.add_branch(second, aside, BranchLaw::direct());
    let flows = solve(&network);
    let flow = ml_per_s(&flows, branch);
    assert_near(flow, 3.832_359_788, 5.1e-10);
    assert_near(ml_per_s(&flows, before), -flow, 0.0);
    assert_near(ml_per_s(&flows, behind), flow, 0.0);
    assert_near(ml_per_s(&flows, still), 0.0, 0.0);
    let found = gauge_pa(&flows, second).expect("the screw reaches it");
    assert_near(found, -0.7 * WEIGHT_PA_PER_M, 1e-9);
}

#[test]
fn ends_of_different_pressure_cannot_be_joined_directly() {
    let mut network = FlowNetwork::new();
    let tank = end(&mut network, 0.0, 1e5);
    let between = joint(&mut network, 0.3);
    let screw = end(&mut network, 0.0, 0.0);
    network.add_branch(tank, between, BranchLaw::direct());
    network.add_branch(screw, between, BranchLaw::direct());
    let found = try_solve(&network);
    assert!(matches!(
        found,
        Err(FlowError::EndsJoined {
            first: 0,
            second: 2,
            ..
        })
    ));
}

#[test]
fn wrong_numbers_are_refused() {
    let bad = |linear_pa_s_per_m3, quadratic_pa_s2_per_m6| BranchLaw {
        linear_pa_s_per_m3,
        quadratic_pa_s2_per_m6,
    };
    for law in [
        bad(-1.0, 0.0),
        bad(1.0, -1.0),
        bad(f64::NAN, 0.0),
        bad(1.0, f64::NAN),
        bad(f64::INFINITY, 0.0),
        bad(0.0, f64::INFINITY),
    ] {
        let mut network = FlowNetwork::new();
        let tank = end(&mut network, 0.0, 1e5);
        let screw = end(&mut network, 0.0, 0.0);
        network.add_branch(tank, screw, law);
        let found = try_solve(&network);
        assert!(
            matches!(found, Err(FlowError::BranchOutOfRange { branch: 0, .. })),
            "{found:?}"
        );
    }
    for (height_m, pressure_pa) in [
        (f64::NAN, 0.0),
        (0.0, f64::NAN),
        (0.0, f64::NEG_INFINITY),
        (1e305, 0.0),
    ] {
        let mut network = FlowNetwork::new();
        end(&mut network, height_m, pressure_pa);
        assert!(matches!(
            try_solve(&network),
            Err(FlowError::NodeOutOfRange { node: 0, .. })
        ));
    }
    let mut network = FlowNetwork::new();
    assert_eq!(try_solve(&network), Err(FlowError::NoEnd));
    joint(&mut network, 0.0);
    assert_eq!(try_solve(&network), Err(FlowError::NoEnd));
    end(&mut network, 0.0, 0.0);
    for density in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            network.solve(MassDensity::new::<kilogram_per_cubic_meter>(density)),
            Err(FlowError::DensityOutOfRange { .. })
        ));
    }
}

#[test]
fn a_node_of_another_network_is_refused() {
    let mut other = FlowNetwork::new();
    let mut network = FlowNetwork::new();
    let tank = end(&mut network, 0.0, 1e5);
    let [_, foreign] = [0.0; 2].map(|height_m| joint(&mut other, height_m));
    let branch = network.add_branch(tank, foreign, pipe(1.0, 0.0));
    assert_eq!(
        try_solve(&network),
        Err(FlowError::UnknownNode { branch: 0, node: 1 })
    );
    let one_end = end(&mut other, 0.0, 0.0);
    let flows = solve(&other);
    assert!(ml_per_s(&flows, branch).is_nan());
    assert_eq!(gauge_pa(&flows, one_end), Some(0.0));
}

/// Coefficients that no scale can hold together end in an error, not in a number.
#[test]
fn absurd_coefficients_give_no_nonsense() {
    for (first, second) in [
        (1e-300, 1e300),
        (f64::MIN_POSITIVE, f64::MAX),
        (5e-324, 1.0),
    ] {
        let mut network = FlowNetwork::new();
        let tank = end(&mut network, 0.0, 1e5);
        let middle = joint(&mut network, 0.0);
        let screw = end(&mut network, 0.0, 0.0);
        network.add_branch(tank, middle, BranchLaw::linear(first));
        let branch = network.add_branch(middle, screw, BranchLaw::linear(second));
        if let Ok(flows) = try_solve(&network) {
            let expected = 1e5 / second * 1e6;
            assert_near(ml_per_s(&flows, branch), expected, 1e-12 * expected);
        }
    }
}

/// A loop that nothing drives, with a purely quadratic branch in it, on a joint that fluid flows past.
#[test]
fn a_quadratic_branch_at_rest_in_a_loop() {
    let mut network = FlowNetwork::new();
    let tank = end(&mut network, 1.76, 151e3);
    let screw = end(&mut network, 1.32, 148.8e3);
    let [past, first, second, third] = [0.47, 1.7, 0.8, 1.6].map(|m| joint(&mut network, m));
    let mut add = |from, to, linear_pa_s_per_m3, quadratic_pa_s2_per_m6| {
        let law = BranchLaw {
            linear_pa_s_per_m3,
            quadratic_pa_s2_per_m6,
        };
        network.add_branch(from, to, law)
    };
    let into = add(tank, past, 7.2e14, 1e13);
    let out = add(screw, past, 2.46e14, 0.0);
    let inside = [
        add(past, third, 0.0, 2.65e18),
        add(past, first, 1e10, 5.2e13),
        add(second, first, 5.1e10, 0.0),
        add(second, third, 1e10, 0.0),
    ];
    let flows = solve(&network);
    let passing = ml_per_s(&flows, into);
    assert_near(ml_per_s(&flows, out), -passing, 1e-14 * passing);
    for branch in inside {
        assert_near(ml_per_s(&flows, branch), 0.0, 1e-12 * passing);
    }
}

/// A siphon that no liquid can follow is named.
#[test]
fn a_joint_below_vacuum_is_named() {
    let mut network = FlowNetwork::new();
    let high = end(&mut network, 1.0, 0.0);
    let top = joint(&mut network, 12.0);
    let low = end(&mut network, 0.0, 0.0);
    network.add_branch(high, top, pipe(1.0, 0.0));
    network.add_branch(top, low, pipe(1.0, 0.0));
    assert_eq!(solve(&network).below_vacuum(), [top]);
}

/// A tree of a hundred thousand joints with a screw at each leaf, and a grid: neither takes long nor the stack.
#[test]
fn large_networks_are_solved() {
    let mut network = FlowNetwork::new();
    let mut joints = vec![end(&mut network, 1.0, 1e5)];
    let mut trunk = None;
    for nth in 0..100_000_usize {
        let next = joint(&mut network, 0.0);
        let line = network.add_branch(joints[nth / 2], next, pipe(0.5, 0.0));
        trunk.get_or_insert(line);
        joints.push(next);
    }
    let mut screws = Vec::new();
    for leaf in joints.iter().skip(50_001) {
        let hose_end = end(&mut network, 0.0, 0.0);
        screws.push(network.add_branch(*leaf, hose_end, pipe(0.1, 1.0)));
    }
    let flows = solve(&network);
    let out: f64 = screws.iter().map(|screw| ml_per_s(&flows, *screw)).sum();
    assert!(out > 0.0);

    let side = 40;
    let mut network = FlowNetwork::new();
    let grid: Vec<_> = (0..side * side).map(|_| joint(&mut network, 0.0)).collect();
    for (nth, from) in grid.iter().enumerate() {
        if nth % side + 1 < side {
            network.add_branch(*from, grid[nth + 1], pipe(0.5, 1.0));
        }
        if let Some(to) = grid.get(nth + side) {
            network.add_branch(*from, *to, pipe(0.5, 1.0));
        }
    }
    let tank = end(&mut network, 0.0, 1e5);
    let screw = end(&mut network, 0.0, 0.0);
    let into = network.add_branch(tank, grid[0], pipe(0.1, 0.0));
    let out = network.add_branch(grid[side * side - 1], screw, pipe(0.1, 0.0));
    let flows = solve(&network);
    assert_near(ml_per_s(&flows, into), ml_per_s(&flows, out), 1e-12);
}
