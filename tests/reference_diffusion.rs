//! The tube with diffusion across its bore against the equation, solved apart
//! from this project's code.
//!
//! `reference/diffusion/generate.py` solves it; `reference/regenerate.sh` says
//! whether the committed values are still what it gives.

use bleedwright_hydraulics::{Diffusion, Tank, Tube, Washout};
use serde::Deserialize;
use std::sync::LazyLock;
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

const TUBE: &str = include_str!("reference/diffusion/tube.json");

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Reference {
    tau: Vec<f64>,
    theta: Vec<f64>,
    root: Vec<Vec<f64>>,
    exit: Vec<Exit>,
    push: Vec<Push>,
    tank: Vec<BehindTank>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Exit {
    tau: f64,
    theta: Vec<f64>,
    out: Vec<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Push {
    tau: f64,
    residual: f64,
    theta: f64,
    inside: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BehindTank {
    tau: f64,
    kappa: f64,
    theta: f64,
}

static REFERENCE: LazyLock<Reference> = LazyLock::new(|| {
    serde_json::from_str(TUBE).expect("generate.py writes what these structures hold")
});

fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

/// One millilitre of tube, so that volumes are multiples of its contents.
fn run(diffusion: Diffusion, tank: Option<f64>) -> Washout {
    let ml = Volume::new::<milliliter>;
    let tube = Tube::fresh(ml(1.0)).expect("finite");
    let tanks = tank
        .map(|volume| Tank::full_of_old(ml(volume)).expect("finite"))
        .into_iter()
        .collect();
    Washout::new(tube, tanks, share(0.0))
        .expect("finite")
        .with_diffusion(diffusion)
}

fn of(tau: f64) -> Diffusion {
    Diffusion::of(share(tau))
}

fn out(run: &Washout, theta: f64) -> f64 {
    run.old_fraction_out(Volume::new::<milliliter>(theta))
        .get::<ratio>()
}

fn theta_for(run: &Washout, residual: f64) -> f64 {
    let push = run.push_until(share(residual)).expect("reachable");
    push.volume.get::<milliliter>()
}

/// At its own places the table gives its own numbers.
#[test]
fn the_table_holds_what_was_computed() {
    for (tau, roots) in REFERENCE.tau.iter().zip(&REFERENCE.root) {
        let run = run(of(*tau), None);
        for (theta, root) in REFERENCE.theta.iter().zip(roots) {
            let found = out(&run, *theta).powf(-0.5);
            assert!(
                (found / root - 1.0).abs() < 1e-6,
                "{tau} {theta}: {found} {root}"
            );
        }
    }
}

/// Between them what leaves is right to 0.7 % of itself, where more than 2 in
/// 1,000 of it is old.
#[test]
fn between_its_places_the_table_is_right_to_a_hundredth() {
    for exit in &REFERENCE.exit {
        let run = run(of(exit.tau), None);
        for (theta, exact) in exit.theta.iter().zip(&exit.out) {
            let found = out(&run, *theta);
            assert!(
                (found - exact).abs() < (0.007 * exact).max(5e-5),
                "{} {theta}: {found} {exact}",
                exit.tau
            );
        }
    }
}

/// Theta for 10, 5 and 3 %, and what is then inside.
#[test]
fn pushes_and_what_stays() {
    for push in &REFERENCE.push {
        let run = run(of(push.tau), None);
        let found = theta_for(&run, push.residual);
        let case = format!("{} {}", push.tau, push.residual);
        assert!(
            (found - push.theta).abs() < 2e-3,
            "{case}: {found} {}",
            push.theta
        );
        let inside = run
            .old_left_in_tube(Volume::new::<milliliter>(push.theta))
            .get::<ratio>();
        assert!(
            (inside - push.inside).abs() < 4e-4,
            "{case}: {inside} {}",
            push.inside
        );
    }
}

/// The diffused outflow is fed into the cavity; the push is not that of the
/// tube times a ratio.
#[test]
fn a_tube_with_a_cavity() {
    for behind in &REFERENCE.tank {
        let found = theta_for(&run(of(behind.tau), Some(behind.kappa)), 0.05);
        assert!(
            (found - behind.theta).abs() < 3e-3,
            "{} {}: {found} {}",
            behind.tau,
            behind.kappa,
            behind.theta
        );
    }
}

/// More diffusion is not always more push: the high bound is the most for any
/// `tau` of a range, which neither of its ends asks for, and the low bound the
/// least. Where the curves of two `tau` cross, the cubic between two places is
/// right to 0.01 of theta.
#[test]
fn bounds_take_the_range_and_not_its_ends() {
    let (low, high) = (1e-3, 2e-2);
    for tank in [None, Some(0.2)] {
        let most = theta_for(
            &run(Diffusion::at_most(share(low), share(high)), tank),
            0.05,
        );
        let least = theta_for(
            &run(Diffusion::at_least(share(low), share(high)), tank),
            0.05,
        );
        let ends = [low, high].map(|tau| theta_for(&run(of(tau), tank), 0.05));
        assert!(most > ends[0].max(ends[1]) + 0.1, "{most} {ends:?}");
        for i in 0..=40 {
            let tau = low * (high / low).powf(f64::from(i) / 40.0);
            let theta = theta_for(&run(of(tau), tank), 0.05);
            let is_between = theta <= most + 0.01 && theta >= least - 0.01;
            assert!(is_between, "{tau}: {theta}, {least} to {most}");
        }
    }
}
