//! Networks so small that a formula says what they do.

use crate::{air, laminar, pascals, pocket, press_hold_release, seconds, square_meters, tolerance};
use bleedwright_hydraulics::stroke::{
    BranchLaw, Motion, MotionPoint, StrokeError, StrokeNetwork, StrokeWarning,
};
use std::f64::consts::PI;
use uom::si::acceleration::meter_per_second_squared;
use uom::si::f64::{Acceleration, Length, Pressure, Velocity};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::velocity::meter_per_second;
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
        .add_branch(pump, leg, laminar(2.164_436_689e9), None)
        .expect("sound");
    let points = [
        (0.45, 1.145_731_460),
        (0.375, 3.237_113_148),
        (0.3, 6.577_072_067),
        (0.275, 8.814_765_768),
        (0.255, 14.279_530_081),
    ];
    let asked = points.map(|(_, time_ms)| seconds(time_ms * 1e-3));
    let trace = network
        .run(&network.rest(), seconds(1.0), &asked, &tolerance(1e-9))
        .expect("the run ends");
    for (gas_ml, time_ms) in points {
        let sample = trace.at(seconds(time_ms * 1e-3)).expect("it was asked for");
        let found = sample.pocket(leg).expect("known").expect("a pocket");
        let found_ml = found.get::<milliliter>();
        assert!(
            (found_ml - gas_ml).abs() < 1e-8,
            "{time_ms} ms: {found_ml} ml"
        );
    }
    let last = trace.end().pocket(leg).expect("known").expect("a pocket");
    assert!((last.get::<milliliter>() - 0.251_645_350).abs() < 1e-9);
}

/// A compliance that empties through a screw: `t = C (a ln(Q0 / Q) + 2 b (Q0 - Q))`, from `C dp/dt = -Q` with
/// `dp = (a + 2 b Q) dQ`.
#[test]
fn a_compliance_empties_through_a_quadratic_screw() {
    let (compliance, linear, quadratic) = (1e-12, 1e9, 4e14);
    let mut network = air();
    let node = network.add_node(compliance, None).expect("sound");
    let outlet = network.add_end(Pressure::default()).expect("sound");
    let law = BranchLaw {
        linear_pa_s_per_m3: linear,
        quadratic_pa_s2_per_m6: quadratic,
    };
    let screw = network.add_branch(node, outlet, law, None).expect("sound");
    let first = law.flow_m3_per_s(1e6);
    let time_s = |share: f64| {
        compliance * (linear * share.recip().ln() + 2.0 * quadratic * first * (1.0 - share))
    };
    let shares = [0.9, 0.5, 0.1, 0.01];
    let asked = shares.map(|share| seconds(time_s(share)));
    let start = network.rest_at(pascals(1e6)).expect("sound");
    let trace = network
        .run(&start, seconds(1.0), &asked, &tolerance(1e-9))
        .expect("the run ends");
    for share in shares {
        let sample = trace.at(seconds(time_s(share))).expect("it was asked for");
        let flow = sample.flow(screw).expect("known").value;
        assert!((flow / (first * share) - 1.0).abs() < 1e-6, "{share}");
    }
    let out_m3 = trace.end().delivered(screw).expect("known").value;
    assert!((out_m3 / (compliance * 1e6) - 1.0).abs() < 1e-8);
}

/// Mass, spring and damper: `p = p0 exp(-d t) (cos(w t) + d / w sin(w t))`, `d = a / (2 I)`, `w^2 = 1 / (I C) - d^2`.
#[test]
fn inertance_and_compliance_swing() {
    let (compliance, linear, inertance) = (2e-13, 2e9, 5e7);
    let mut network = air();
    let node = network.add_node(compliance, None).expect("sound");
    let outlet = network.add_end(Pressure::default()).expect("sound");
    network
        .add_branch(node, outlet, laminar(linear), Some(inertance))
        .expect("sound");
    let damping = linear / (2.0 * inertance);
    let rate = (1.0 / (inertance * compliance) - damping * damping).sqrt();
    let times_s = [0.001, 0.005, 0.01, 0.02, 0.05];
    let start = network.rest_at(pascals(1e5)).expect("sound");
    let asked = times_s.map(seconds);
    let trace = network
        .run(&start, seconds(0.05), &asked, &tolerance(1e-9))
        .expect("the run ends");
    for time_s in times_s {
        let sample = trace.at(seconds(time_s)).expect("it was asked for");
        let found_pa = sample.gauge(node).expect("known").get::<pascal>();
        let (sine, cosine) = (rate * time_s).sin_cos();
        let expected_pa = 1e5 * (-damping * time_s).exp() * (cosine + damping / rate * sine);
        assert!(
            (found_pa - expected_pa).abs() < 1e-2,
            "{time_s} s: {found_pa} Pa"
        );
    }
}

/// A piston in a closed node: `p = A x / C` at every time, whatever the motion.
#[test]
fn a_motion_of_ones_own_has_kinks() {
    // 10 mm in 0.4 s at constant speed, then back at half of it: the speed jumps twice.
    let course = |time: uom::si::f64::Time| {
        let time_s = time.value;
        let (travel, speed) = if time_s <= 0.4 {
            (0.025 * time_s, 0.025)
        } else if time_s <= 1.2 {
            (0.01 - 0.0125 * (time_s - 0.4), -0.0125)
        } else {
            (0.0, 0.0)
        };
        MotionPoint {
            travel: Length::new::<meter>(travel),
            speed: Velocity::new::<meter_per_second>(speed),
            acceleration: Acceleration::new::<meter_per_second_squared>(0.0),
        }
    };
    let motion = Motion::following(course, &[seconds(1.2), seconds(0.4)]).expect("sound");
    let mut network = air();
    let node = network.add_node(1e-12, None).expect("sound");
    network
        .add_piston(node, square_meters(1e-4), motion)
        .expect("sound");
    let asked = [0.2, 0.4, 0.8, 1.2, 1.5].map(seconds);
    let trace = network
        .run(&network.rest(), seconds(1.5), &asked, &tolerance(1e-6))
        .expect("the run ends");
    for (time_s, travel_m) in [
        (0.2, 0.005),
        (0.4, 0.01),
        (0.8, 0.005),
        (1.2, 0.0),
        (1.5, 0.0),
    ] {
        let sample = trace.at(seconds(time_s)).expect("it was asked for");
        let found_pa = sample.gauge(node).expect("known").get::<pascal>();
        assert!(
            (found_pa - 1e8 * travel_m).abs() < 1e-3,
            "{time_s} s: {found_pa} Pa"
        );
    }
}

#[test]
fn what_the_equations_do_not_describe_is_said() {
    let mut network = air();
    let shut = network.add_node(1e-14, None).expect("sound");
    let outlet = network.add_end(Pressure::default()).expect("sound");
    let screw = network
        .add_branch(shut, outlet, laminar(1e9), None)
        .expect("sound");
    network
        .add_piston(
            shut,
            square_meters(1e-4),
            press_hold_release(0.01, 0.5, 0.1, 0.5),
        )
        .expect("sound");
    let run = |network: &StrokeNetwork| {
        let trace = network
            .run(&network.rest(), seconds(1.2), &[], &tolerance(1e-5))
            .expect("the run ends");
        trace.warnings().to_vec()
    };
    assert_eq!(run(&network), []);
    // 1 ml pressed into a shut node makes a thousand bar.
    network.shut_at(screw, seconds(0.0)).expect("known");
    let above = run(&network);
    assert!(
        matches!(above[..], [StrokeWarning::AbovePedal { node, highest }]
            if node == shut && (highest.value / 1e8 - 1.0).abs() < 1e-6)
    );
    // 1 ml drawn out of a node that was shut with the pedal down tears the fluid.
    network.leave_open(screw).expect("known");
    network.shut_at(screw, seconds(0.55)).expect("known");
    let below = run(&network);
    assert!(
        matches!(below[..], [StrokeWarning::BelowVacuum { node, lowest }]
            if node == shut && lowest.value < 0.0)
    );
}

#[test]
fn what_cannot_be_is_refused() {
    let mut network = air();
    let node = network.add_node(1e-14, None).expect("sound");
    let end = network.add_end(Pressure::default()).expect("sound");
    for compliance in [-1e-15, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            network.add_node(compliance, None),
            Err(StrokeError::ComplianceOutOfRange { .. })
        ));
    }
    for linear in [0.0, -1.0, f64::NAN] {
        assert!(matches!(
            network.add_branch(node, end, laminar(linear), None),
            Err(StrokeError::LinearOutOfRange { .. })
        ));
    }
    for inertance in [0.0, f64::NAN] {
        assert!(matches!(
            network.add_branch(node, end, laminar(1e9), Some(inertance)),
            Err(StrokeError::InertanceOutOfRange { .. })
        ));
    }
    assert_eq!(
        network.add_branch(end, end, laminar(1e9), None),
        Err(StrokeError::BranchToItself)
    );
    let still = Motion::resting_at(Length::default()).expect("sound");
    assert_eq!(
        network.add_piston(end, square_meters(1e-4), still.clone()),
        Err(StrokeError::PistonAtEnd)
    );
    assert!(matches!(
        network.add_piston(node, square_meters(0.0), still),
        Err(StrokeError::AreaOutOfRange { .. })
    ));
    assert!(matches!(
        network.add_end(pascals(-2e5)),
        Err(StrokeError::GaugePressureOutOfRange { .. })
    ));
    let rest = network.rest();
    assert!(matches!(
        network.run(&rest, seconds(-1.0), &[], &tolerance(1e-5)),
        Err(StrokeError::TimeOutOfRange { .. })
    ));
    assert!(matches!(
        network.run(&rest, seconds(1.0), &[seconds(2.0)], &tolerance(1e-5)),
        Err(StrokeError::AskedAfterEnd { .. })
    ));
    network.add_node(1e-14, None).expect("sound");
    assert_eq!(
        network.run(&rest, seconds(1.0), &[], &tolerance(1e-5)),
        Err(StrokeError::ForeignState)
    );
}

/// Two full turns of a sine: what the method's own quadrature misses is made up for in every step.
#[test]
fn nothing_is_missing_after_many_coarse_steps() {
    let course = |time: uom::si::f64::Time| {
        let (sine, cosine) = (2.0 * PI * time.value).sin_cos();
        MotionPoint {
            travel: Length::new::<meter>(0.005 * sine),
            speed: Velocity::new::<meter_per_second>(0.01 * PI * cosine),
            acceleration: Acceleration::new::<meter_per_second_squared>(-0.02 * PI * PI * sine),
        }
    };
    let mut network = air();
    let node = network.add_node(1e-14, None).expect("sound");
    let outlet = network.add_end(Pressure::default()).expect("sound");
    let screw = network
        .add_branch(node, outlet, laminar(1e9), None)
        .expect("sound");
    let motion = Motion::following(course, &[]).expect("sound");
    network
        .add_piston(node, square_meters(3e-4), motion)
        .expect("sound");
    let trace = network
        .run(&network.rest(), seconds(1.75), &[], &tolerance(1e-2))
        .expect("the run ends");
    let end = trace.end();
    let held_ml = 1e-14 * end.gauge(node).expect("known").value * 1e6;
    let out_ml = end.delivered(screw).expect("known").get::<milliliter>();
    assert!((held_ml + out_ml + 1.5).abs() < 1e-12, "{held_ml} {out_ml}");
}
