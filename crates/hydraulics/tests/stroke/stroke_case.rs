//! One press into three lines with a pocket at the end of a dead leg.
//!
//! A piston of 20.64 mm goes 20 mm in 0.5 s as a half cosine and holds. Pipe of 3.3 mm: 1.0 m to a tee; from there 2.0 m
//! and a screw of 1.5 mm x 8 mm by Hagen-Poiseuille, and a dead leg of 0.4 m with 0.5 ml of air. Fluid of 1050 kg/m3,
//! 15 mm2/s and 1.8e9 Pa. The values were computed with `SciPy` 1.16.3 in pressures and the pocket's volume (Radau, BDF and
//! LSODA agree to 1e-11 ml); the crate integrates what each node stores.

use crate::{air, laminar, pocket, press_hold_release, seconds, square_meters};
use bleedwright_hydraulics::stroke::{BranchId, Motion, NodeId, StrokeNetwork, StrokeState};
use std::f64::consts::PI;
use uom::si::f64::{Length, Pressure};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::volume::milliliter;

const PISTON_M: f64 = 0.020_64;
const BORE_M: f64 = 0.003_3;
const DENSITY_KG_PER_M3: f64 = 1050.0;
const VISCOSITY_PA_S: f64 = DENSITY_KG_PER_M3 * 15e-6;
const MASTER_M3_PER_PA: f64 = 6.820_273_889e-15;
const TEE_M3_PER_PA: f64 = 8.077_820_111e-15;
const TIMES_S: [f64; 5] = [0.05, 0.1, 0.25, 0.5, 1.0];
/// Half of the last printed digit of the pressures, and what volumes may differ by.
const HALF_DIGIT_PA: f64 = 0.5e-4;
const VOLUME_ML: f64 = 1e-6;

struct Case {
    network: StrokeNetwork,
    master: NodeId,
    tee: NodeId,
    air: NodeId,
    screw: BranchId,
}

/// What makes one case different from another.
#[derive(Clone, Copy)]
struct Choice {
    index: f64,
    /// The share of the compliances that is counted.
    compliance: f64,
}

const SLOW: Choice = Choice {
    index: 1.0,
    compliance: 1.0,
};
const FAST: Choice = Choice { index: 1.4, ..SLOW };

fn area_m2(diameter_m: f64) -> f64 {
    PI / 4.0 * diameter_m * diameter_m
}

fn resistance(length_m: f64, bore_m: f64) -> f64 {
    128.0 * VISCOSITY_PA_S * length_m / (PI * bore_m.powi(4))
}

fn case(choice: Choice) -> Case {
    case_moved(choice, press_hold_release(0.02, 0.5, 1.0, 0.5))
}

fn case_moved(choice: Choice, motion: Motion) -> Case {
    let mut network = air();
    let mut node = |compliance, pocket| network.add_node(compliance, pocket).expect("sound");
    let master = node(choice.compliance * MASTER_M3_PER_PA, None);
    let tee = node(choice.compliance * TEE_M3_PER_PA, None);
    let air = node(0.0, Some(pocket(0.5, choice.index)));
    let outlet = network.add_end(Pressure::default()).expect("sound");
    let mut join = |from, to, lines: &[(f64, f64)]| {
        let total = lines.iter().map(|&(l, d)| resistance(l, d)).sum();
        network.add_branch(from, to, laminar(total)).expect("sound")
    };
    join(master, tee, &[(1.0, BORE_M)]);
    let screw = join(tee, outlet, &[(2.0, BORE_M), (0.008, 0.0015)]);
    join(tee, air, &[(0.4, BORE_M)]);
    network
        .add_piston(master, square_meters(area_m2(PISTON_M)), motion)
        .expect("sound");
    Case {
        network,
        master,
        tee,
        air,
        screw,
    }
}

impl Case {
    fn run(&self, until_s: f64, relative: f64) -> StrokeState {
        crate::run(&self.network, until_s, relative)
    }

    fn gas_ml(&self, state: &StrokeState) -> f64 {
        let gas = state.pocket(self.air).expect("known").expect("a pocket");
        gas.get::<milliliter>()
    }

    fn out_ml(&self, state: &StrokeState) -> f64 {
        let out = state.delivered(self.screw).expect("known");
        out.get::<milliliter>()
    }
}

fn gauge_pa(state: &StrokeState, node: NodeId) -> f64 {
    state.gauge(node).expect("known").get::<pascal>()
}

/// `SciPy`: pressures to their four printed digits, volumes to nine.
#[test]
fn a_slow_pocket_follows_the_table() {
    let case = case(SLOW);
    for (time_s, master_pa, tee_pa, gas_ml, out_ml) in [
        (
            0.05,
            69_958.269_2,
            34_875.177_8,
            0.394_060_105,
            0.057_059_866,
        ),
        (
            0.1,
            186_885.078_6,
            120_112.573_9,
            0.233_762_667,
            0.370_522_421,
        ),
        (
            0.25,
            362_282.242_1,
            248_528.213_0,
            0.144_832_916,
            2.986_226_060,
        ),
        (
            0.5,
            33_665.760_0,
            33_595.967_9,
            0.359_267_702,
            6.550_509_859,
        ),
        (1.0, 13.329_0, 13.321_9, 0.499_922_283, 6.691_665_233),
    ] {
        let state = case.run(time_s, 1e-11);
        for (node, expected_pa) in [(case.master, master_pa), (case.tee, tee_pa)] {
            let found_pa = gauge_pa(&state, node);
            // Half of the last printed digit, and what both integrations leave.
            let allowed_pa = HALF_DIGIT_PA + 1e-10 * expected_pa;
            assert!(
                (found_pa - expected_pa).abs() < allowed_pa,
                "{time_s} s: {found_pa} Pa"
            );
        }
        let (gas, out) = (case.gas_ml(&state), case.out_ml(&state));
        assert!((gas - gas_ml).abs() < 1e-9, "{time_s} s: pocket {gas} ml");
        assert!((out - out_ml).abs() < 1e-9, "{time_s} s: out {out} ml");
    }
}

/// `SciPy`, with the inertance of every line, `rho L / A`: what the mass of the fluid, which is left out here, does to what
/// is delivered. It is under one part in a hundred once fluid flows.
#[test]
fn delivered_volumes_are_right_to_one_per_cent_without_inertance() {
    let case = case(SLOW);
    for (time_s, with_inertance_ml) in [(0.25, 2.985_118_73), (0.5, 6.598_871_96)] {
        let found_ml = case.out_ml(&case.run(time_s, 1e-8));
        assert!(
            (found_ml / with_inertance_ml - 1.0).abs() < 0.01,
            "{found_ml}"
        );
    }
}

#[test]
fn the_volume_balance_closes_at_every_tolerance() {
    for choice in [SLOW, FAST] {
        let case = case(choice);
        for relative in [1e-3, 1e-5, 1e-8] {
            // All that the piston pushed is out, in the pocket's place, or compressed.
            let end = case.run(1.0, relative);
            let pushed_ml = area_m2(PISTON_M) * 0.02 * 1e6;
            let stored_ml = 1e6
                * (MASTER_M3_PER_PA * gauge_pa(&end, case.master)
                    + TEE_M3_PER_PA * gauge_pa(&end, case.tee));
            let found_ml = case.out_ml(&end) + 0.5 - case.gas_ml(&end) + stored_ml;
            assert!(
                (found_ml - pushed_ml).abs() < 1e-12 * pushed_ml,
                "{relative}: {found_ml}"
            );
        }
    }
}

/// Without compliances one equation is left: the pocket's, with the tee's pressure from the flows that meet there. It is
/// integrated here with the classical Runge-Kutta method in small steps.
#[test]
fn nodes_without_compliance_leave_one_equation() {
    let resistances = (
        resistance(2.0, BORE_M) + resistance(0.008, 0.0015),
        resistance(0.4, BORE_M),
    );
    let pushed =
        |time_s: f64| area_m2(PISTON_M) * 0.01 * (PI / 0.5) * (PI * time_s.min(0.5) / 0.5).sin();
    let flow_in = |time_s: f64, gas_m3: f64| {
        let gas_pa = crate::ATMOSPHERE_PA * (0.5e-6 / gas_m3 - 1.0);
        // What is pushed in goes out through the screw or into the pocket.
        let tee_pa = (pushed(time_s) + gas_pa / resistances.1)
            / (resistances.0.recip() + resistances.1.recip());
        (tee_pa - gas_pa) / resistances.1
    };
    let reduced = case(Choice {
        compliance: 0.0,
        ..SLOW
    });
    let full = case(SLOW);
    let step_s = 1e-5;
    let mut gas_m3 = 0.5e-6;
    for step in 0..100_000_u32 {
        let time_s = f64::from(step) * step_s;
        let k1 = -flow_in(time_s, gas_m3);
        let k2 = -flow_in(time_s + 0.5 * step_s, gas_m3 + 0.5 * step_s * k1);
        let k3 = -flow_in(time_s + 0.5 * step_s, gas_m3 + 0.5 * step_s * k2);
        let k4 = -flow_in(time_s + step_s, gas_m3 + step_s * k3);
        gas_m3 += step_s / 6.0 * (k1 + 2.0 * (k2 + k3) + k4);
        for asked_s in TIMES_S {
            if (asked_s - f64::from(step + 1) * step_s).abs() > 1e-9 {
                continue;
            }
            let found_ml = reduced.gas_ml(&reduced.run(asked_s, 1e-8));
            assert!((found_ml - gas_m3 * 1e6).abs() < VOLUME_ML, "{asked_s} s");
            // SciPy: the reduced model stays within 0.4 % of the full one.
            let whole_ml = full.gas_ml(&full.run(asked_s, 1e-8));
            assert!((found_ml / whole_ml - 1.0).abs() < 4e-3, "{asked_s} s");
        }
    }
}

/// Compressing a pocket in a dead leg removes nothing, stroke after stroke.
#[test]
fn the_pocket_ends_at_its_volume_again() {
    let mut motion = Motion::default();
    for _ in 0..5 {
        for (travel_m, hold_s) in [(0.02, 0.2), (0.0, 4.8)] {
            motion = motion
                .then_move(Length::new::<meter>(travel_m), seconds(0.5))
                .and_then(|moved| moved.then_hold(seconds(hold_s)))
                .expect("sound");
        }
    }
    let case = case_moved(SLOW, motion);
    for until_s in [6.0, 12.0, 18.0, 24.0, 30.0] {
        assert!((case.gas_ml(&case.run(until_s, 1e-7)) - 0.5).abs() < 1e-6);
    }
}
