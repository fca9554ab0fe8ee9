//! Networks so small that a formula says what they do.

use crate::{air, laminar, pascals, pocket, press_hold_release, run, seconds, square_meters};
use bleedwright_hydraulics::stroke::{BranchLaw, Motion, StrokeError};
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// A pocket of 0.5 ml behind 0.4 m of 3.3 mm pipe, under 1 bar from one moment on:
/// `t = R ((V0 - V) / ps + (c / ps^2) ln((ps V0 - c) / (ps V - c)))` with `c = p0 V0` and absolute `ps`, derived by
/// separating the variables of `R dV/dt = -(ps - c / V)`.
#[test]
fn a_pocket_under_constant_pressure() {
    let mut network = air();
    let leg = network
        .add_node(0.0, Some(pocket(0.5, 1.0)))
        .expect("sound");
    let pump = network.add_end(pascals(1e5)).expect("sound");
    network
        .add_branch(pump, leg, laminar(2.164_436_689e9))
        .expect("sound");
    let points = [
        (0.45, 1.145_731_460),
        (0.375, 3.237_113_148),
        (0.3, 6.577_072_067),
        (0.275, 8.814_765_768),
        (0.255, 14.279_530_081),
    ];
    let gas_at = |time_s| {
        let gas = run(&network, time_s, 1e-9).pocket(leg).expect("known");
        gas.expect("a pocket").get::<milliliter>()
    };
    for (gas_ml, time_ms) in points {
        let found_ml = gas_at(time_ms * 1e-3);
        assert!(
            (found_ml - gas_ml).abs() < 1e-8,
            "{time_ms} ms: {found_ml} ml"
        );
    }
    assert!((gas_at(1.0) - 0.251_645_350).abs() < 1e-9);
}

/// A compliance that fills through a screw: `t = C (a ln(Q0 / Q) + 2 b (Q0 - Q))`, from `C dp/dt = Q` with
/// `d(ps - p) = (a + 2 b Q) dQ`.
#[test]
fn a_compliance_fills_through_a_quadratic_screw() {
    let (compliance, linear, quadratic) = (1e-12, 1e9, 4e14);
    let mut network = air();
    let node = network.add_node(compliance, None).expect("sound");
    let source = network.add_end(pascals(1e6)).expect("sound");
    let law = BranchLaw {
        linear_pa_s_per_m3: linear,
        quadratic_pa_s2_per_m6: quadratic,
    };
    let screw = network.add_branch(source, node, law).expect("sound");
    let first = law.flow_m3_per_s(1e6);
    let time_s = |share: f64| {
        compliance * (linear * share.recip().ln() + 2.0 * quadratic * first * (1.0 - share))
    };
    for share in [0.9, 0.5, 0.1, 0.01] {
        let then = run(&network, time_s(share), 1e-9);
        let gauge_pa = then.gauge(node).expect("known").get::<pascal>();
        let flow = law.flow_m3_per_s(1e6 - gauge_pa);
        assert!((flow / (first * share) - 1.0).abs() < 1e-6, "{share}");
    }
    let in_m3 = run(&network, 1.0, 1e-9).delivered(screw).expect("known");
    let in_m3 = in_m3.value;
    assert!((in_m3 / (compliance * 1e6) - 1.0).abs() < 1e-8);
}

/// A piston in a closed node: `p = A x / C` at every time.
#[test]
fn a_closed_node_follows_its_piston() {
    let mut network = air();
    let node = network.add_node(1e-12, None).expect("sound");
    let motion = press_hold_release(0.01, 0.4, 0.2, 0.8);
    network
        .add_piston(node, square_meters(1e-4), motion)
        .expect("sound");
    let points = [
        (0.2, 0.005),
        (0.4, 0.01),
        (0.5, 0.01),
        (1.0, 0.005),
        (1.4, 0.0),
        (1.5, 0.0),
    ];
    for (time_s, travel_m) in points {
        let then = run(&network, time_s, 1e-6);
        let found_pa = then.gauge(node).expect("known").get::<pascal>();
        assert!(
            (found_pa - 1e8 * travel_m).abs() < 1e-3,
            "{time_s} s: {found_pa} Pa"
        );
    }
}

#[test]
fn what_cannot_be_is_refused() {
    let mut network = air();
    let node = network.add_node(1e-14, None).expect("sound");
    let end = network.add_end(Pressure::default()).expect("sound");
    for compliance in [-1e-15, f64::NAN, f64::INFINITY] {
        assert!(network.add_node(compliance, None).is_err());
    }
    for linear in [0.0, -1.0, f64::NAN] {
        assert!(network.add_branch(node, end, laminar(linear)).is_err());
    }
    assert_eq!(
        network.add_branch(end, end, laminar(1e9)),
        Err(StrokeError::BranchToItself)
    );
    let still = Motion::default();
    assert_eq!(
        network.add_piston(end, square_meters(1e-4), still.clone()),
        Err(StrokeError::PistonAtEnd)
    );
    let without_area = network.add_piston(node, square_meters(0.0), still);
    assert!(without_area.is_err());
    assert!(network.add_end(pascals(-2e5)).is_err());
    for (until_s, tolerance) in [(-1.0, 1e-5), (f64::NAN, 1e-5), (1.0, 0.1), (1.0, 1e-13)] {
        let run = network.run(seconds(until_s), Ratio::new::<ratio>(tolerance));
        assert!(run.is_err(), "{until_s} {tolerance}");
    }
}

/// To and fro: what the method's own quadrature misses is made up for in every step.
#[test]
fn nothing_is_missing_after_many_coarse_steps() {
    let mut motion = Motion::default();
    for (travel_m, duration_s) in [(0.005, 0.25), (-0.005, 0.5), (0.005, 0.5), (-0.005, 0.5)] {
        motion = motion
            .then_move(Length::new::<meter>(travel_m), seconds(duration_s))
            .expect("sound");
    }
    let mut network = air();
    let node = network.add_node(1e-14, None).expect("sound");
    let outlet = network.add_end(Pressure::default()).expect("sound");
    let screw = network
        .add_branch(node, outlet, laminar(1e9))
        .expect("sound");
    network
        .add_piston(node, square_meters(3e-4), motion)
        .expect("sound");
    let end = run(&network, 1.75, 1e-2);
    let held_ml = 1e-14 * end.gauge(node).expect("known").value * 1e6;
    let out_ml = end.delivered(screw).expect("known").get::<milliliter>();
    assert!((held_ml + out_ml + 1.5).abs() < 1e-12, "{held_ml} {out_ml}");
}
