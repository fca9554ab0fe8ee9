//! Layouts at the limits of what a plan can say: nothing inside a part, marks
//! that are not exact, one pot for two cylinders.

use crate::asked::opening;
use crate::demo::{network_of, plan_of, screws};
use bleedwright_network::{Finding, Network, load};
use bleedwright_planner::{Before, Block, Made, Options, Purpose, Rhythm, StepNote};
use uom::si::f64::{Length, Volume};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

fn ml(volume: Volume) -> f64 {
    volume.get::<milliliter>()
}

/// A screw on a tee for which the layout gives no contents, beside a run that
/// was pushed through before: even there something must come out before it can
/// be said to run clear.
#[test]
fn a_screw_on_a_part_without_contents_gets_fluid() {
    let network = network_of(
        r#"(format: 1, name: "Screw on a tee", fluid: dot4,
          reservoirs: [(id: "pot", compartments: [(id: "all", max: "300 ml", feeds: "master")])],
          cylinders: [(id: "master", kind: single(bore: "20 mm", stroke: "25 mm"))],
          parts: [
            (id: "tee", kind: tee),
            (id: "end tee", kind: tee, screws: [(id: "screw on the tee", at_top: true)]),
            (id: "caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left,
             screws: [(id: "wheel", at_top: true)]),
          ],
          lines: [
            (id: "pipe", from: "master", to: "tee", kind: pipe(size: "3/16 in", length: "1 m")),
            (id: "joint", from: "tee", to: "end tee", kind: direct),
            (id: "hose", from: "tee", to: "caliper", kind: hose(bore: "3.2 mm", length: "0.5 m")),
          ])"#,
    );
    for purpose in [Purpose::Renew, Purpose::Air, Purpose::Fill] {
        for opened in [&[][..], &["hose".to_owned()]] {
            let options = Options {
                purpose: Some(purpose),
                opened: opened.to_vec(),
                ..Options::default()
            };
            let plan = plan_of(&network, &options);
            let mut jar_ml = 0;
            for step in &plan.steps {
                let screw = &step.screws[0];
                let what = format!("{purpose:?}, {opened:?}, `{}`", screw.screw);
                assert!(ml(step.push.nominal) > 0.0, "{what}: nothing is pushed");
                assert!(
                    ml(step.stop_rule.at_least) > 0.0,
                    "{what}: at least nothing"
                );
                assert!(
                    ml(step.stop_rule.give_up) > 0.0,
                    "{what}: give up at nothing"
                );
                assert!(step.jar_mark_ml >= jar_ml, "{what}: the jar does not fill");
                jar_ml = step.jar_mark_ml;
                if let Some(old) = screw.old_fraction_out {
                    let old = old.get::<ratio>();
                    assert!(old <= 0.05 + 1e-6, "{what}: {old} of what leaves is old");
                }
            }
        }
    }
}

/// Clamps are put on and taken off in an order that does not depend on which
/// hose stands first in the file.
#[test]
fn two_clamps_in_either_order_of_the_file() {
    let plan_with = |hoses: [&str; 2]| {
        let hose = |side: &str| {
            format!(
                "(id: \"{side} hose\", from: \"tee\", to: \"{side} caliper\", \
                 kind: hose(bore: \"3.2 mm\", length: \"0.5 m\", material: rubber))"
            )
        };
        let text = format!(
            r#"(format: 1, name: "Two clamps", fluid: dot4,
              reservoirs: [(id: "pot", compartments: [(id: "all", max: "300 ml", feeds: "master")])],
              cylinders: [(id: "master", kind: single(bore: "20 mm", stroke: "25 mm"))],
              parts: [
                (id: "tee", kind: tee),
                (id: "left caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left,
                 screws: [(id: "left", at_top: true)]),
                (id: "right caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_right,
                 screws: [(id: "right", at_top: true)]),
              ],
              lines: [
                (id: "pipe", from: "master", to: "tee", kind: pipe(size: "3/16 in", length: "1 m")),
                {}, {},
              ])"#,
            hose(hoses[0]),
            hose(hoses[1])
        );
        let options = Options {
            opened: vec!["pipe".to_owned()],
            clamped: vec!["left hose".to_owned(), "right hose".to_owned()],
            ..Options::default()
        };
        let plan = plan_of(&network_of(&text), &options);
        (plan.preparations, plan.checks_after)
    };
    let (one, other) = (plan_with(["left", "right"]), plan_with(["right", "left"]));
    assert_eq!(one.0, other.0);
    assert_eq!(one.1, other.1);
}

/// One compartment with marks of these contents, under one cylinder that draws
/// 10 ml with a whole stroke.
fn with_marks(marks: &str) -> Network {
    // Bore and stroke whose product is 10 ml: area 5 cm2, stroke 2 cm.
    let bore_mm = (500.0 / std::f64::consts::FRAC_PI_4).sqrt();
    network_of(&format!(
        r#"(format: 1, name: "Marks", fluid: dot4,
          reservoirs: [(id: "pot", compartments: [(id: "all", {marks}, feeds: "master")])],
          cylinders: [(id: "master", kind: single(bore: "{bore_mm:.9} mm", stroke: "20 mm"))],
          parts: [(id: "caliper", kind: caliper(pistons: [(bore: "54 mm", extension: "10 mm")]),
                   wheel: front_left, screws: [(id: "screw", at_top: true)])],
          lines: [(id: "pipe", from: "master", to: "caliper",
                   kind: pipe(size: "1/4 in", length: "8 m"))])"#
    ))
}

/// The level rule (TM 10-3930-618-20: at least half full) with marks whose
/// contents are known to a tolerance: filled to a mark that holds less than
/// written, the compartment must not fall under a limit that lies higher.
#[test]
fn marks_that_are_not_exact_count_at_their_worst() {
    for (marks, max_low_ml, lowest_ml) in [
        ("max: \"100 ml\"", 100.0_f64, 50.0_f64),
        ("max: \"100 ml ± 20 ml\"", 80.0, 40.0),
        ("max: \"100 ml\", min: \"60 ml ± 10 ml\"", 100.0, 70.0),
        ("max: \"100 ml ± 10 ml\", min: \"60 ml ± 5 ml\"", 90.0, 65.0),
        // A clutch draws from higher up than either.
        (
            "max: \"100 ml\", min: \"60 ml\", take_off: \"74 ml ± 2 ml\"",
            100.0,
            76.0,
        ),
    ] {
        let plan = plan_of(&with_marks(marks), &Options::default());
        let step = &plan.steps[0];
        let every = step.level_rules[0].every;
        let Some(Rhythm::Strokes {
            without_block: Some(without_block),
            ..
        }) = every
        else {
            panic!("{marks}: {every:?}");
        };
        // Whole strokes up to where the step is given up.
        let strokes = (ml(step.stop_rule.give_up) / 10.0).ceil() as u64;
        assert!(strokes > 10, "{marks}: {strokes}");
        let mut level_ml = max_low_ml;
        for stroke in 0..strokes {
            if stroke.is_multiple_of(without_block) {
                level_ml = max_low_ml;
            }
            level_ml -= 10.0;
            assert!(
                level_ml >= lowest_ml - 1e-6,
                "{marks}: {level_ml} ml after stroke {}, allowed {lowest_ml} ml",
                stroke + 1
            );
        }
    }
}

/// Two cylinders under one balance bar draw together from one compartment that
/// has room for a stroke of each, but not of both: the check must say so.
#[test]
fn a_pot_too_small_for_both_cylinders_of_a_balance_bar() {
    let text = |max_ml: u32| {
        format!(
            r#"(format: 1, name: "One pot", fluid: dot4,
              reservoirs: [(id: "pot", compartments: [
                (id: "all", max: "{max_ml} ml", feeds: ["front cylinder", "rear cylinder"])])],
              cylinders: [
                (id: "front cylinder", kind: single(bore: "20 mm", stroke: "25 mm")),
                (id: "rear cylinder", kind: single(bore: "20 mm", stroke: "25 mm")),
              ],
              balance_bars: [(cylinders: ["front cylinder", "rear cylinder"])],
              parts: [
                (id: "front caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left,
                 screws: [(id: "front", at_top: true)]),
                (id: "rear caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: rear_left,
                 screws: [(id: "rear", at_top: true)]),
              ],
              lines: [
                (id: "front pipe", from: "front cylinder", to: "front caliper",
                 kind: pipe(size: "3/16 in", length: "1 m")),
                (id: "rear pipe", from: "rear cylinder", to: "rear caliper",
                 kind: pipe(size: "3/16 in", length: "3 m")),
              ])"#
        )
    };
    let is_small = |max_ml| {
        let findings = load(text(max_ml).as_bytes()).findings;
        assert!(!findings.iter().any(Finding::is_error), "{findings:#?}");
        findings.iter().any(|found| found.code.text() == "BW314")
    };
    // A whole stroke of each is 7.85 ml; half of the maximum may be drawn.
    assert!(is_small(15), "7.5 ml are too little for either");
    assert!(is_small(24), "12 ml are too little for both");
    assert!(!is_small(40), "20 ml are enough for both");
}

/// A name that a part and a line have both means nothing certain after
/// `--opened`: it opens both, or it is refused; it never quietly means one.
#[test]
fn a_name_of_a_part_and_a_line() {
    let text = r#"(format: 1, name: "One name", fluid: dot4,
          reservoirs: [(id: "pot", compartments: [
            (id: "front half", max: "300 ml", feeds: "master.primary"),
            (id: "rear half", max: "300 ml", feeds: "master.secondary")])],
          cylinders: [(id: "master", kind: tandem(bore: "20 mm", primary: (stroke: "20 mm"),
                       secondary: (stroke: "20 mm")))],
          parts: [
            (id: "left", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left,
             screws: [(id: "front", at_top: true)]),
            (id: "right", kind: caliper(pistons: [(bore: "54 mm")]), wheel: rear_left,
             screws: [(id: "rear", at_top: true)]),
          ],
          lines: [
            (id: "right", from: "master.primary", to: "left",
             kind: pipe(size: "3/16 in", length: "1 m")),
            (id: "other", from: "master.secondary", to: "right",
             kind: pipe(size: "3/16 in", length: "3 m")),
          ])"#;
    let loaded = load(text.as_bytes());
    let Some(network) = loaded.sound_network() else {
        return;
    };
    let options = opening(&["right"]);
    let Some(plan) = bleedwright_planner::plan(network, &options).plan else {
        return;
    };
    let mut found = screws(&plan);
    found.sort_unstable();
    assert_eq!(found, ["front", "rear"]);
}

/// Two cylinders under one pedal with a balance bar of equal shares. By hand:
/// both pistons at 60 % of 30 mm move the rod by 18 mm; with one of them shut
/// once its port is closed (1 mm) the bar tilts about it, and (18 + 1) / 2 mm
/// do the same work. A pedal ratio of 5 and 5 mm of free play make 95 mm and
/// 52.5 mm at the pedal. The share of a bar is 45 to 55 % unless it is given:
/// one cylinder alone is safe up to `5 x (0.45 x 18 + 0.55 x 1) + 5 = 48.25` mm,
/// in whole millimetres 48.
#[test]
fn a_bar_that_tilts_wants_its_block_earlier() {
    let side = |side: &str, wheel: &str| {
        format!(
            "(id: \"{side} caliper\", kind: caliper(pistons: [(bore: \"40 mm\")]), wheel: {wheel}, \
             screws: [(id: \"{side}\", at_top: true)]),"
        )
    };
    let cylinder = |name: &str| {
        format!(
            "(id: \"{name}\", kind: single(bore: \"16 mm\", stroke: \"30 mm\", \
             cut_off: \"1 mm\"), pedal_ratio: 5, free_play: \"5 mm\"),"
        )
    };
    let network = network_of(&format!(
        r#"(format: 1, name: "Bar", fluid: dot4,
          reservoirs: [(id: "pots", compartments: [
            (id: "front pot", max: "200 ml", feeds: "front"),
            (id: "rear pot", max: "200 ml", feeds: "rear")])],
          cylinders: [{}{}],
          balance_bars: [(cylinders: ["front", "rear"])],
          parts: [(id: "front tee", kind: tee), {}{}{}],
          lines: [
            (id: "a", from: "front", to: "front tee", kind: pipe(size: "3/16 in", length: "1 m")),
            (id: "b", from: "front tee", to: "fl caliper", kind: pipe(size: "3/16 in", length: "1 m")),
            (id: "c", from: "front tee", to: "fr caliper", kind: pipe(size: "3/16 in", length: "2 m")),
            (id: "d", from: "rear", to: "rl caliper", kind: pipe(size: "3/16 in", length: "4 m")),
          ])"#,
        cylinder("front"),
        cylinder("rear"),
        side("fl", "front_left"),
        side("fr", "front_right"),
        side("rl", "rear_left"),
    ));
    let plan = plan_of(&network, &Options::default());
    let mut seen = [0; 2];
    for step in &plan.steps {
        let travel = step.pedal_travel().expect("by the pedal");
        let is_alone = step.screws.len() == 1;
        let wanted_mm = if is_alone { 48.0 } else { 95.0 };
        let found_mm = travel.get::<millimeter>();
        assert!(
            (found_mm - wanted_mm).abs() < 1e-9,
            "{found_mm} for {:?}",
            step.screws
        );
        let is_said = step.notes.contains(&StepNote::BarTilts);
        assert_eq!(is_said, is_alone, "{:?}", step.notes);
        seen[usize::from(is_alone)] += 1;
    }
    assert_eq!(seen, [1, 1]);
    // One block for both would cost the pair more than a tenth more strokes.
    let mut blocks = plan.preparations.iter().filter_map(|before| match before {
        Before::Made(Made::PedalBlock(block)) => Some(block),
        _ => None,
    });
    let block = blocks.next().expect("the pedal is blocked");
    for travel_mm in [95.0, 48.0] {
        let travel = Block::At(Length::new::<millimeter>(travel_mm));
        let is_said = block.stops.iter().any(|(stop, _)| *stop == travel);
        assert!(is_said, "{block:?}");
    }
}

/// A reservoir that was taken off comes back empty: it is filled and bled as
/// one that ran dry, and as much is bought.
#[test]
fn a_reservoir_that_was_off_is_as_empty_as_a_dry_one() {
    let network = crate::demo::load_demo("lapwing");
    let off = opening(&["reservoir"]);
    let dry = Options {
        ran_dry: vec!["front brakes".to_owned(), "rear brakes".to_owned()],
        ..Options::default()
    };
    let (off, dry) = (plan_of(&network, &off), plan_of(&network, &dry));
    assert_eq!(screws(&off), screws(&dry));
    assert_eq!(off.buy.needed, dry.buy.needed);
    // The reservoir alone takes 260 and 220 ml, and a tenth is spilt.
    assert!(ml(off.buy.needed) > 1.1 * 480.0, "{:?}", off.buy.needed);
    // Nothing can be drawn off from it, and what is filled in is all new.
    let renewed = Options {
        purpose: Some(Purpose::Renew),
        opened: vec!["reservoir".to_owned()],
        ..Options::default()
    };
    let renewed = plan_of(&network, &renewed);
    let is_drawn_off = |before: &Before| matches!(before, Before::DrawnOff(_));
    assert!(!renewed.preparations.iter().any(is_drawn_off));
    assert!(ml(renewed.drawn_off()).abs() < 1e-9);
}
