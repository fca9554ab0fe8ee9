//! Amounts, strokes, top-ups, checks.

use super::{assert_ordered, config, plan_of};
use crate::generated::{Case, cases};
use crate::pedal_block::{find_piston_beyond, most_ml};
use bleedwright_network::Network;
use bleedwright_planner::{
    Before, Change, Check, JAR_ML, Method, Options, Plan, Progress, Purpose, Rhythm, Step, plan,
};
use bleedwright_report::json::{PlanJson, pretty};
use bleedwright_report::{Pages, Paper, plan_text};
use proptest::prelude::*;
use std::collections::BTreeMap;
use uom::si::f64::{ThermodynamicTemperature, Volume};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// Where a step ends: anywhere that the plan allows.
#[derive(Clone, Copy, Debug)]
enum End {
    Soonest,
    Expected,
    /// Just before the last stop for the level.
    AtLastStop,
    Latest,
}

/// How the person at the pedal works.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Foot {
    /// To the block, with the largest stroke that it may allow; tops up where
    /// the list of the card says so.
    ByTheList,
    /// The same; tops up where the rule says so.
    ToTheBlock,
    /// To the stop of the piston, topping up at half the number.
    WithoutBlock,
}

impl End {
    /// How much a step pushes, in millilitres or in strokes; never less than it
    /// may.
    fn of(self, [soonest, expected, latest]: [f64; 3], stops: impl Iterator<Item = f64>) -> f64 {
        match self {
            Self::Soonest => soonest,
            Self::Expected => expected,
            Self::AtLastStop => stops.fold(soonest, f64::max),
            Self::Latest => latest,
        }
    }
}

/// Does every step of the plan and fills up only where it says so. Steps end
/// one after the other where `ends` says.
fn lowest_levels(
    case: &Case,
    network: &Network,
    plan: &Plan,
    ends: &[End],
    foot: Foot,
) -> Result<(), TestCaseError> {
    let known = &case.layout.known;
    let mut levels_ml: BTreeMap<&str, f64> = known
        .levels_ml
        .iter()
        .map(|(name, [max_ml, _])| (name.as_str(), *max_ml))
        .collect();
    for (step, end) in plan.steps.iter().zip(ends.iter().cycle()) {
        let mut draws_ml: BTreeMap<&str, f64> = BTreeMap::new();
        for screw in &step.screws {
            let circuit = known.screw(&screw.screw).circuit;
            let compartment = known
                .compartments
                .iter()
                .find(|name| known.circuits_of[*name].contains(&circuit))
                .expect("every circuit is fed");
            *draws_ml.entry(compartment).or_default() += match foot {
                Foot::WithoutBlock => known.circuits[circuit].full_stroke_ml,
                _ => most_ml(network, step, screw.circuit_id),
            };
        }
        if step.strokes().is_none() {
            lowest_of_a_run(case, step, *end, &draws_ml, &mut levels_ml)?;
            continue;
        }
        let every = |name: &str| {
            let rule = step
                .level_rules
                .iter()
                .find(|rule| rule.compartment == name)?;
            match (rule.every?, foot) {
                (Rhythm::Strokes { every, .. }, Foot::ToTheBlock) => Some(every),
                (Rhythm::Strokes { without_block, .. }, _) => without_block,
                (Rhythm::Volume(_), _) => None,
            }
        };
        let is_due = |name: &str, stroke: u64| match foot {
            Foot::ByTheList => (step.level_stops.iter())
                .any(|stop| stop.compartment == name && stop.after == Progress::Strokes(stroke)),
            _ if stroke == 0 => (step.level_rules.iter())
                .any(|rule| rule.compartment == name && rule.is_before_start),
            _ => every(name).is_some_and(|every| stroke.is_multiple_of(every)),
        };
        // The jars fill stroke by stroke; the last one begins before the amount
        // is reached.
        let stroke_ml: f64 = draws_ml.values().sum();
        let strokes = |volume: Volume| (volume.get::<milliliter>() / stroke_ml).ceil();
        let counts = [step.push.low, step.push.nominal, step.stop_rule.give_up].map(strokes);
        let latest = counts[2] as u64;
        let stops = (1..latest)
            .filter(|stroke| draws_ml.keys().any(|name| is_due(name, *stroke)))
            .map(|stroke| stroke as f64);
        for stroke in 0..end.of(counts, stops) as u64 {
            for (name, draw_ml) in &draws_ml {
                let [max_ml, lowest_ml] = known.levels_ml[*name];
                let level_ml = levels_ml
                    .get_mut(name)
                    .expect("every compartment has a level");
                if is_due(name, stroke) {
                    *level_ml = max_ml;
                }
                *level_ml -= draw_ml;
                prop_assert!(
                    *level_ml >= lowest_ml - 1e-6,
                    "{foot:?}: `{name}` falls to {level_ml:.3} ml in stroke {} of step {}, allowed {lowest_ml:.3} ml",
                    stroke + 1,
                    step.number
                );
            }
        }
    }
    Ok(())
}

/// Lets a step run, or pushes it in, to its end; the level moves only between
/// the stops.
fn lowest_of_a_run(
    case: &Case,
    step: &Step,
    end: End,
    draws_ml: &BTreeMap<&str, f64>,
    levels_ml: &mut BTreeMap<&str, f64>,
) -> Result<(), TestCaseError> {
    let name = *draws_ml.keys().next().expect("a step has a screw");
    let [max_ml, lowest_ml] = case.layout.known.levels_ml[name];
    if case.options.method == Method::Pressure {
        prop_assert!(step.level_stops.is_empty(), "the tank fills up");
        return Ok(());
    }
    // By the reverse method the level stands this far above the lowest at the
    // start and after every drawing off, so that some can be drawn back.
    let back_ml = step.draw_back.map_or(0.0, |back| back.get::<milliliter>());
    prop_assert!(
        back_ml <= (max_ml - lowest_ml) / 2.0 + 1e-9,
        "{back_ml} ml drawn back"
    );
    let ends = step.level_stops.iter().map(|stop| match stop.after {
        Progress::Volume(after) => after.get::<milliliter>(),
        Progress::Strokes(_) => f64::NAN,
    });
    let amounts =
        [step.push.low, step.push.nominal, step.stop_rule.give_up].map(|it| it.get::<milliliter>());
    let most_ml = end.of(amounts, ends.clone());
    let mut done_ml = 0.0;
    for end_ml in ends.filter(|end_ml| *end_ml < most_ml).chain([most_ml]) {
        prop_assert!(end_ml >= done_ml, "{end_ml} ml after {done_ml} ml");
        let level_ml = levels_ml.get_mut(name).expect("every compartment has one");
        // What comes back by the reverse method takes as much room.
        *level_ml -= end_ml - done_ml;
        prop_assert!(
            *level_ml >= lowest_ml + back_ml - 1e-6,
            "`{name}` is {level_ml:.3} ml at {end_ml:.3} ml of step {}, allowed {lowest_ml:.3} ml",
            step.number
        );
        if end_ml < most_ml {
            *level_ml = max_ml;
        }
        done_ml = end_ml;
    }
    Ok(())
}

/// The old share of the refilled reservoir, where all screws draw from one
/// compartment.
fn old_share(plan: &Plan) -> f64 {
    let mut old = plan.preparations.iter().filter_map(|before| match before {
        Before::DrawnOff(compartments) => Some(compartments[0].old.get::<ratio>()),
        _ => None,
    });
    old.next().unwrap_or_default()
}

fn text_and_json(case: &Case) -> Result<(String, String), TestCaseError> {
    let network = &case.load();
    let plan = plan_of(network, case)?;
    let source = case.layout.text();
    Ok((
        plan_text(&plan, Pages::Both, Paper::new(80, false)),
        pretty(&PlanJson::new(&plan, &source)),
    ))
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn bounds_of_a_plan_are_ordered(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        for step in &plan.steps {
            assert_ordered("push of a step", &step.push)?;
            for screw in &step.screws {
                if let Some(piston) = screw.piston_travel {
                    assert_ordered("travel of the piston", &piston)?;
                }
            }
            let strokes = step.strokes();
            if let Some(strokes) = strokes {
                prop_assert!(
                    1 <= strokes.low && strokes.low <= strokes.nominal && strokes.nominal <= strokes.high,
                    "{strokes:?}"
                );
            }
            assert_ordered("time", &step.time)?;
            prop_assert!(step.time.low.get::<second>() > 0.0, "{:?}", step.time);
            prop_assert!(step.stop_rule.give_up >= step.push.high);
            for screw in &step.screws {
                assert_ordered("push", &screw.push)?;
                assert_ordered("run", &screw.run_length)?;
                assert_ordered("shared", &screw.contents.shared)?;
                assert_ordered("own", &screw.contents.own)?;
                assert_ordered("cavities", &screw.contents.cavities)?;
                prop_assert!(screw.push.low > Volume::default(), "{screw:?}");
            }
        }
        for remains in &plan.remains {
            assert_ordered(&remains.part, &remains.volume)?;
        }
        prop_assert!(plan.buy.bought >= plan.buy.needed);
        let high = plan.steps.iter().fold(Volume::default(), |sum, step| sum + step.push.high);
        prop_assert!(plan.buy.needed >= high * (1.0 - 1e-12));
        prop_assert!(plan.buy.catch >= high * (1.0 - 1e-12));
    }

    #[test]
    fn jar_marks_are_the_running_sum(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        let is_reverse = plan.head.method == Method::Reverse;
        let mut jars: BTreeMap<&Option<String>, u64> = BTreeMap::new();
        for step in &plan.steps {
            let mut screws_ml = 0.0;
            for (screw, jar) in step.screws.iter().zip(&step.jars) {
                let push_ml = screw.push.nominal.get::<milliliter>();
                screws_ml += push_ml;
                let least_ml = screw.at_least.as_ref().map_or(0.0, |it| it.volume.get::<milliliter>());
                // Half a millilitre of rounding; the least is rounded up.
                prop_assert!(jar.push_ml as f64 >= least_ml - 1e-6);
                prop_assert!(jar.push_ml as f64 >= push_ml - 0.5);
                prop_assert!(jar.push_ml as f64 <= (push_ml + 0.5).max(least_ml + 1.0), "{jar:?} {push_ml}");
                let mark = jars.entry(&jar.circuit).or_default();
                // It holds what the step may come to, or was emptied; and is not emptied where it would.
                prop_assert_eq!(jar.is_emptied && *mark == 0, false);
                let give_up_ml = jar.stop_ml - if jar.is_emptied { 0 } else { *mark };
                let is_too_full = *mark > 0 && !is_reverse && *mark + give_up_ml > JAR_ML;
                prop_assert_eq!(jar.is_emptied, is_too_full, "{} ml in {:?}", mark, jar);
                if jar.is_emptied {
                    *mark = 0;
                }
                *mark += jar.push_ml;
                prop_assert_eq!(jar.mark_ml, *mark);
                prop_assert!(jar.stop_ml >= jar.mark_ml, "{jar:?}");
            }
            prop_assert_eq!(step.jar_mark_ml, jars.values().sum::<u64>());
            prop_assert!((step.push.nominal.get::<milliliter>() - screws_ml).abs() <= 1e-9 * screws_ml);
        }
    }

    #[test]
    fn nobody_can_run_the_reservoir_dry(
        case in cases(),
        ends in prop::collection::vec(
            prop::sample::select(&[End::Soonest, End::Expected, End::AtLastStop, End::Latest][..]),
            1..6,
        ),
    ) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        for foot in [Foot::ByTheList, Foot::ToTheBlock, Foot::WithoutBlock] {
            lowest_levels(&case, network, &plan, &ends, foot)?;
        }
    }

    #[test]
    fn no_piston_goes_beyond_its_share_at_any_corner(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        prop_assert_eq!(find_piston_beyond(network, &plan), None);
    }

    #[test]
    fn every_change_is_undone_before_the_hard_press(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        let at = |wanted: &Check| plan.checks_after.iter().position(|check| check == wanted);
        let press = plan.checks_after.iter().position(Check::is_hard_press);
        let Some(press) = press else {
            return Err(TestCaseError::fail("no hard press"));
        };
        for change in plan.preparations.iter().filter_map(Before::change) {
            // Wheels are in the way of looking for leaks, and a cap hides a screw that weeps.
            match change {
                Change::OnSupports(_) | Change::CapsOff => {
                    prop_assert!(at(&Check::Undo(change.clone())) > Some(press));
                }
                _ => {
                    let undone = at(&Check::Undo(change.clone()));
                    let mut checks = plan.checks_after.iter();
                    let pumped = checks.position(|check| matches!(check, Check::PumpedFirm { .. }));
                    prop_assert!(undone.is_some() && undone < pumped && pumped < Some(press), "{change:?}");
                }
            }
        }
    }

    #[test]
    fn what_leaves_is_within_the_residual(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        let residual = case.options.residual.get::<ratio>();
        let is_renewal = case.options.purpose() == Purpose::Renew;
        // With one compartment its share is that of every screw.
        let reservoir = if case.layout.known.compartments.len() == 1 {
            old_share(&plan) - 1e-9
        } else {
            0.0
        };
        for screw in plan.steps.iter().flat_map(|step| &step.screws) {
            prop_assert_eq!(screw.old_fraction_out.is_some(), is_renewal);
            if let Some(old) = screw.old_fraction_out {
                let old = old.get::<ratio>();
                prop_assert!(old <= residual + 1e-6, "`{}`: {old}", screw.screw);
                prop_assert!(old >= reservoir, "`{}`: {old} under {reservoir}", screw.screw);
            }
            if let Some(left) = screw.old_left {
                let [low, nominal, high] =
                    [left.low, left.nominal, left.high].map(|left| left.get::<ratio>());
                let is_ordered = 0.0 <= low && low <= nominal && nominal <= high && high <= 1.0;
                prop_assert!(is_ordered, "`{}`: {left:?}", screw.screw);
            }
        }
    }

    /// A screw needs no more after others than if it were the first one.
    #[test]
    fn what_was_pushed_before_never_asks_for_more(case in cases()) {
        prop_assume!(!case.layout.known.has_bar);
        let network = &case.load();
        let derived = Options {
            skip: Vec::new(),
            done: Vec::new(),
            ..case.options.clone()
        };
        let Some(after_others) = plan(network, &derived).plan else {
            return Err(TestCaseError::fail("no plan"));
        };
        let screws: Vec<_> = after_others.steps.iter().flat_map(|step| &step.screws).collect();
        let nth = case.spare.first().map_or(0, |number| usize::from(*number)) % screws.len();
        let screw = screws[nth];
        let options = Options {
            order: Some(vec![screw.screw.clone()]),
            ..derived.clone()
        };
        let Some(first) = plan(network, &options).plan else {
            return Err(TestCaseError::fail("no plan with an order"));
        };
        let alone = &first.steps[0].screws[0];
        prop_assert_eq!(&alone.screw, &screw.screw);
        for (later, first) in [
            (screw.push.nominal, alone.push.nominal),
            (screw.push.high, alone.push.high),
        ] {
            prop_assert!(
                later.get::<milliliter>() <= first.get::<milliliter>() * (1.0 + 1e-6),
                "`{}` takes {} ml, but {} ml as the first one",
                screw.screw, later.get::<milliliter>(), first.get::<milliliter>()
            );
        }
    }

    /// A thicker fluid takes at least as long through every screw.
    #[test]
    fn colder_fluid_never_takes_less_time(case in cases()) {
        let network = &case.load();
        let method = match case.options.method {
            Method::Pedal => Method::Pressure,
            other => other,
        };
        let at = |celsius: f64| {
            let options = Options {
                method,
                temperature: ThermodynamicTemperature::new::<degree_celsius>(celsius),
                ..case.options.clone()
            };
            plan(network, &options).plan.ok_or_else(|| TestCaseError::fail("no plan"))
        };
        let (cold, warm) = (at(-5.0)?, at(35.0)?);
        for (cold, warm) in cold.steps.iter().zip(&warm.steps) {
            // For each millilitre: cold fluid diffuses less and can need less of it.
            let each = |step: &bleedwright_planner::Step| {
                [
                    step.time.low / step.push.low,
                    step.time.nominal / step.push.nominal,
                    step.time.high / step.push.high,
                ]
            };
            for (cold, warm) in each(cold).into_iter().zip(each(warm)) {
                let is_slower = cold.value >= warm.value * (1.0 - 1e-9);
                prop_assert!(is_slower, "{cold:?} at -5 degC, {warm:?} at 35 degC");
            }
        }
    }

    #[test]
    fn text_and_json_come_out_the_same_twice(case in cases()) {
        prop_assert_eq!(text_and_json(&case)?, text_and_json(&case)?);
    }

    #[test]
    fn nothing_is_planned_on_stored_pressure(case in cases()) {
        let network = &case.load();
        let options = Options { depressurised: false, ..case.options.clone() };
        let planned = plan(network, &options);
        let codes: Vec<&str> = planned.findings.iter().map(|finding| finding.code.text()).collect();
        let is_refused = codes.contains(&"BW408");
        prop_assert_eq!(is_refused, case.layout.known.has_accumulator, "{:?}", codes);
        prop_assert_eq!(planned.plan.is_none(), is_refused, "{:?}", codes);
    }
}
