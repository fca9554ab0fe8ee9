//! Amounts that one screw leaves to the next, and the old fluid of the
//! reservoir.

use crate::asked::by;
use crate::demo::{network_of, plan_of};
use bleedwright_hydraulics::diffusion::{diffusivity, radial_time};
use bleedwright_hydraulics::tank::washout_share;
use bleedwright_hydraulics::{Diffusion, Segment, Tank, Tube, Washout};
use bleedwright_network::Network;
use bleedwright_planner::{Before, DrawnOff, Drive, Method, Options, Plan, liquid};
use std::f64::consts::FRAC_PI_4;
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::{percent, ratio};
use uom::si::volume::milliliter;

/// The cylinder's chamber: as small as one may be, so that it hardly counts.
const CHAMBER_BORE_MM: f64 = 5.0;
const CHAMBER_STROKE_MM: f64 = 10.0;

/// A pipe of 40 ml to a tee, from there 20 ml to a cavity of 15 ml and 5 ml to
/// one of 3 ml; nothing has a tolerance.
fn forty_shared(left_when_drawn_off: &str) -> Network {
    // 10 m of this bore hold 40 ml, 5 m hold 20 ml.
    let bore_mm = (4.0_f64 / FRAC_PI_4).sqrt();
    let caliper = |name: &str, dead: &str, wheel: &str| {
        format!(
            "(id: \"{name} caliper\", kind: caliper(pistons: [(bore: \"20 mm\", \
             extension: \"0 mm\")], dead_volume: \"{dead}\"), wheel: {wheel}, \
             screws: [(id: \"{name}\", at_top: true)])"
        )
    };
    let pipe = |name: &str, from: &str, to: &str, length: &str| {
        format!(
            "(id: \"{name}\", from: \"{from}\", to: \"{to}\", \
             kind: pipe(bore: \"{bore_mm:.12} mm\", length: \"{length}\"))"
        )
    };
    let text = format!(
        "(format: 1, name: \"Forty shared\", fluid: dot4,
          reservoirs: [(id: \"pot\", compartments: [(id: \"all\", max: \"500 ml\",
                        left_when_drawn_off: \"{left_when_drawn_off}\", feeds: \"master\")])],
          cylinders: [(id: \"master\", kind: single(bore: \"{CHAMBER_BORE_MM} mm\",
                       stroke: \"{CHAMBER_STROKE_MM} mm\", cut_off: \"0 mm\"))],
          parts: [(id: \"tee\", kind: tee), {}, {}],
          lines: [{}, {}, {}])",
        caliper("far", "15 ml", "rear_left"),
        caliper("near", "3 ml", "rear_right"),
        pipe("shared pipe", "master", "tee", "10 m"),
        pipe("far pipe", "tee", "far caliper", "5 m"),
        pipe("near pipe", "tee", "near caliper", "1.25 m"),
    );
    network_of(&text)
}

fn ml(value: f64) -> Volume {
    Volume::new::<milliliter>(value)
}

fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

/// The second screw gets what the history of the shared pipe says: less than
/// through fresh pipe, more than its own contents.
#[test]
fn the_second_screw_gets_what_the_history_says() {
    let network = forty_shared("0 ml");
    let options = by(Method::Pressure);
    let plan = plan_of(&network, &options);
    let viscosity = liquid(&network, &options).nominal.dynamic_viscosity();
    let diffusions: Vec<Diffusion> = plan
        .steps
        .iter()
        .map(|step| {
            let Drive::Steady { flow, .. } = step.drive else {
                panic!("a tank drives steadily")
            };
            let length = step.screws[0].run_length.nominal;
            let coefficient = diffusivity(options.temperature, viscosity).nominal;
            Diffusion::of(radial_time(coefficient, length, flow.nominal))
        })
        .collect();
    let steps: Vec<_> = plan.steps.iter().map(|step| &step.screws[0]).collect();
    assert_eq!(steps[0].screw, "far");
    let chamber_ml = FRAC_PI_4 * CHAMBER_BORE_MM.powi(2) * CHAMBER_STROKE_MM / 1000.0;
    let tank = |volume_ml: f64| Tank::full_of_old(ml(volume_ml)).expect("a volume");
    let push_ml = |nth: usize, segments: Vec<Segment>, tanks: Vec<Tank>, inlet: f64| {
        let tube = Tube::new(segments).expect("volumes");
        let run = Washout::new(tube, tanks, share(inlet))
            .expect("finite")
            .with_diffusion(diffusions[nth]);
        let push = run.push_until(share(0.05)).expect("5 % can be reached");
        push.volume.get::<milliliter>()
    };
    let segment = |contents_ml: f64, before_ml: f64| Segment {
        contents: ml(contents_ml),
        pushed_before: ml(before_ml),
    };
    // The first screw: everything is old, the chamber in front of it too.
    let first_ml = push_ml(
        0,
        vec![segment(40.0, 0.0), segment(20.0, 0.0)],
        vec![tank(chamber_ml), tank(15.0)],
        0.0,
    );
    let found_ml = steps[0].push.nominal.get::<milliliter>();
    assert!(
        (found_ml - first_ml).abs() < 1e-3,
        "{found_ml} and {first_ml}"
    );
    // The second: what went through the shared pipe before counts, less the
    // chamberful that was not new; the chamber itself is all but clean.
    let chamber_old = washout_share(ml(chamber_ml), ml(found_ml)).get::<ratio>();
    let second_ml = push_ml(
        1,
        vec![segment(40.0, found_ml - chamber_ml), segment(5.0, 0.0)],
        vec![tank(3.0)],
        chamber_old,
    );
    let found_ml = steps[1].push.nominal.get::<milliliter>();
    assert!(
        (found_ml - second_ml).abs() < 1e-3,
        "{found_ml} and {second_ml}"
    );
    let fresh_ml = push_ml(
        1,
        vec![segment(40.0, 0.0), segment(5.0, 0.0)],
        vec![tank(chamber_ml), tank(3.0)],
        0.0,
    );
    assert!(
        found_ml < fresh_ml * 0.75,
        "{found_ml} ml, fresh {fresh_ml} ml"
    );
    assert!(found_ml > 5.0 + 3.0, "{found_ml} ml");
    let old = steps[1].old_fraction_out.expect("renewal gives a fraction");
    assert!((old.get::<ratio>() - 0.05).abs() < 1e-6, "{old:?}");
}

fn with_residual(value_percent: f64) -> Options {
    Options {
        residual: Ratio::new::<percent>(value_percent),
        ..Options::default()
    }
}

/// How the one compartment is drawn off.
fn drawn_off(plan: &Plan) -> &DrawnOff {
    let mut drawn_off = plan.preparations.iter().filter_map(|before| match before {
        Before::DrawnOff(compartments) => compartments.first(),
        _ => None,
    });
    drawn_off.next().expect("old fluid is drawn off")
}

/// A tenth of the old fluid left in the reservoir comes out of every screw:
/// what leaves is never said to be cleaner.
#[test]
fn a_tenth_of_old_fluid_in_the_reservoir_comes_out() {
    let dirty = forty_shared("50 ml");
    let plan = plan_of(&dirty, &with_residual(25.0));
    // A tenth is less than half of the residual, so nobody rinses.
    let drawn_off = drawn_off(&plan);
    assert_eq!(drawn_off.rinses, 0);
    assert!((drawn_off.old.get::<percent>() - 10.0).abs() < 1e-9);
    let clean = plan_of(&forty_shared("0 ml"), &with_residual(25.0));
    for (dirty, clean) in plan.steps.iter().zip(&clean.steps) {
        let old = |step: &bleedwright_planner::Step| {
            let old = step.screws[0].old_fraction_out;
            old.expect("renewal gives a fraction").get::<ratio>()
        };
        assert!((0.10..=0.25 + 1e-6).contains(&old(dirty)), "{}", old(dirty));
        assert!((0.0..=0.25 + 1e-6).contains(&old(clean)), "{}", old(clean));
        assert!(dirty.push.nominal > clean.push.nominal);
    }
}

/// With a residual under what the reservoir would hold, the plan says how far
/// to draw off and rinse first, and keeps the residual.
#[test]
fn a_dirty_reservoir_is_rinsed_until_the_residual_can_be_reached() {
    let dirty = forty_shared("50 ml");
    let plan = plan_of(&dirty, &with_residual(5.0));
    let drawn_off = drawn_off(&plan);
    assert!(drawn_off.rinses > 0, "a tenth of old fluid is too much");
    assert!((drawn_off.left - ml(50.0)).abs() < ml(1e-9));
    for step in &plan.steps {
        let old = step.screws[0]
            .old_fraction_out
            .expect("renewal gives a fraction");
        // One rinse of three times what is left thins a tenth to a fortieth.
        assert!(
            (0.025..=0.05 + 1e-6).contains(&old.get::<ratio>()),
            "{old:?}"
        );
    }
}
