//! What opening a part asks of every screw behind it, summed here from lengths,
//! bores and cavities.

use crate::asked::opening;
use crate::demo::{ALL, load_demo};
use crate::generated::{Case, Choices, cases};
use bleedwright_network::{CellId, Element, LinkId, LinkKind, Network, Owner, PartKind, ScrewId};
use bleedwright_planner::{Method, Options, Plan, Purpose, StepScrew, Verdict, plan};
use bleedwright_report::Card;
use proptest::prelude::*;
use std::collections::{BTreeSet, HashSet};
use std::f64::consts::FRAC_PI_4;
use uom::si::length::meter;
use uom::si::volume::milliliter;

/// Contents at the upper corner, from the figures of the layout alone.
pub(super) fn contents_ml(network: &Network, element: Element) -> f64 {
    let layout = network.layout();
    let round_ml = |bore_m: f64, length_m: f64| FRAC_PI_4 * bore_m * bore_m * length_m * 1e6;
    match element {
        Element::Link(link) => match network.link(link).kind {
            LinkKind::Line(index) => {
                let line = &layout.lines[index];
                let bore_m = line.bore().map_or(0.0, |bore| bore.high.get::<meter>());
                round_ml(bore_m, line.length().high.get::<meter>())
            }
            LinkKind::Crossover(part) => match &layout.parts[part].kind {
                PartKind::Brake(brake) => {
                    (brake.crossover).map_or(0.0, |contents| contents.high.get::<milliliter>())
                }
                _ => 0.0,
            },
        },
        Element::Cell(cell) => match network.cell(cell).owner {
            Owner::Cylinder(index, nth) => {
                let chamber = &layout.cylinders[index].chambers[nth];
                let bore_m = chamber.bore.high.get::<meter>();
                round_ml(bore_m, chamber.stroke.high.get::<meter>())
            }
            Owner::Part(index, nth) => {
                let part = &layout.parts[index];
                match &part.kind {
                    PartKind::Brake(brake) => {
                        let cavity = &brake.cavities[nth];
                        let behind = cavity.pistons.iter().map(|piston| {
                            let bore_m = piston.bore.high.get::<meter>();
                            let way_m = piston.extension.bounds.high.get::<meter>();
                            round_ml(bore_m, way_m) * f64::from(piston.count)
                        });
                        cavity.dead_volume.bounds.high.get::<milliliter>() + behind.sum::<f64>()
                    }
                    PartKind::AntiLock { circuits, .. } => {
                        circuits[nth].through.high.get::<milliliter>()
                    }
                    _ => part.contents.bounds.high.get::<milliliter>(),
                }
            }
        },
    }
}

/// Every joint of what was opened: a line and the cell at one end of it.
fn joints(network: &Network, opened: &[String]) -> BTreeSet<(LinkId, CellId)> {
    let layout = network.layout();
    let is_opened = |name: &str| opened.iter().any(|opened| opened == name);
    let mut joints = BTreeSet::new();
    for (link, data) in network.all_links() {
        let LinkKind::Line(index) = data.kind else {
            continue;
        };
        for cell in network.link_ends(link) {
            let at = match network.cell(cell).owner {
                Owner::Cylinder(index, _) => &layout.cylinders[index].id,
                Owner::Part(index, _) => &layout.parts[index].id,
            };
            if is_opened(at) || is_opened(&layout.lines[index].id) {
                joints.insert((link, cell));
            }
        }
    }
    joints
}

fn height_m(network: &Network, cell: CellId) -> Option<f64> {
    let height = network.height_of(network.cell(cell).owner)?;
    Some(height.nominal.get::<meter>())
}

/// The points of a line whose height is known, the one nearest to the screw
/// first: height, and the share of the line on the cylinder's side of it at the
/// corner that leaves most to push.
fn points(network: &Network, link: LinkId, near: CellId) -> Vec<(f64, f64)> {
    let LinkKind::Line(index) = network.link(link).kind else {
        return Vec::new();
    };
    let line = &network.layout().lines[index];
    let is_from_near = network.link_ends(link)[0] == near;
    let length = line.length();
    let mut points: Vec<(f64, f64, f64)> = (line.via.iter().enumerate())
        .map(|(nth, via)| {
            let (order, share) = match via.at {
                None => (nth as f64, 0.0),
                Some(at) => {
                    let low_m = if is_from_near {
                        at.low.get::<meter>()
                    } else {
                        (length.low - at.high).get::<meter>()
                    };
                    let share = (low_m / length.high.get::<meter>()).clamp(0.0, 1.0);
                    (at.nominal.get::<meter>(), share)
                }
            };
            (order, via.height.nominal.get::<meter>(), share)
        })
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    if is_from_near {
        points.reverse();
    }
    points
        .into_iter()
        .map(|(_, height_m, share)| (height_m, share))
        .collect()
}

/// Where the air of a joint gathers: the element that the way begins with, and
/// the share of it that is not pushed through. As far up as the heights lead, and
/// no further than the bores let it.
fn climbed(
    network: &Network,
    plan: &Plan,
    chamber: CellId,
    run: &[Element],
    place: usize,
) -> (usize, f64) {
    let lets_climb = |element: &Element| match element {
        Element::Cell(_) => true,
        Element::Link(link) => {
            let name = network.link_name(*link);
            let mut bubbles = plan.bubbles.iter();
            bubbles.any(|bubble| bubble.line == name && bubble.verdict != Verdict::Stuck)
        }
    };
    let held = (run[..place].iter()).rposition(|element| !lets_climb(element));
    let by_bore = held.map_or(0, |held| held + 1);
    // Everything of known height from the joint's own cell up to the chamber.
    let own = if matches!(run[place], Element::Link(_)) && place > 0 {
        place - 1
    } else {
        place
    };
    let mut known: Vec<(Option<f64>, usize, f64)> = Vec::new();
    for index in (0..=own).rev() {
        match run[index] {
            Element::Cell(cell) => known.push((height_m(network, cell), index, 0.0)),
            Element::Link(link) if index < own => {
                let above = match index.checked_sub(1).map(|above| run[above]) {
                    Some(Element::Cell(cell)) => cell,
                    _ => chamber,
                };
                let points = points(network, link, above).into_iter();
                known.extend(points.map(|(height, share)| (Some(height), index, share)));
            }
            Element::Link(_) => return (place, 0.0),
        }
    }
    known.push((height_m(network, chamber), 0, 0.0));
    let Some((Some(mut height), _, _)) = known.first().copied() else {
        return (place, 0.0);
    };
    let mut by_height = (place, 0.0);
    for (point, element, share) in known.into_iter().skip(1) {
        match point {
            Some(point) if point < height => break,
            Some(point) => {
                height = point;
                by_height = (element, share);
            }
            None => {}
        }
    }
    if by_height.0 < by_bore {
        (by_bore, 0.0)
    } else {
        by_height
    }
}

/// The least for every screw of a plan, in its order.
fn expected_ml(network: &Network, options: &Options, plan: &Plan) -> Vec<Option<f64>> {
    let joints = joints(network, &options.opened);
    let mut swept: HashSet<Element> = HashSet::new();
    let mut expected = Vec::new();
    for screw in plan.steps.iter().flat_map(|step| &step.screws) {
        let run = network.run(screw.id);
        let chamber = network.circuit(screw.circuit_id).chamber;
        let least = least_of(network, plan, &joints, &swept, (chamber, &run));
        expected.push(least.map(|(_, ml)| ml));
        if let Some((start, _)) = least {
            swept.extend(run.iter().skip(start));
        }
    }
    expected
}

fn least_of(
    network: &Network,
    plan: &Plan,
    joints: &BTreeSet<(LinkId, CellId)>,
    swept: &HashSet<Element>,
    (chamber, run): (CellId, &[Element]),
) -> Option<(usize, f64)> {
    let mut places: BTreeSet<usize> = BTreeSet::new();
    for (line, cell) in joints {
        if *cell == chamber {
            places.insert(0);
        } else if let Some(at) = run.iter().position(|it| *it == Element::Cell(*cell)) {
            let is_onward = run.get(at + 1) == Some(&Element::Link(*line));
            places.insert(if is_onward { at + 1 } else { at });
        }
    }
    let place = *places.first()?;
    let ml =
        |elements: &[Element]| -> f64 { elements.iter().map(|it| contents_ml(network, *it)).sum() };
    let whole = ml(run) + contents_ml(network, Element::Cell(chamber));
    if plan.head.method == Method::Reverse {
        let is_done = !run.is_empty() && run.iter().all(|it| swept.contains(it));
        return (!is_done).then_some((0, whole));
    }
    if run.is_empty() {
        return Some((0, whole));
    }
    let (mut start, mut share) = climbed(network, plan, chamber, run, place);
    while run.get(start).is_some_and(|it| swept.contains(it)) {
        (start, share) = (start + 1, 0.0);
    }
    let first = run.get(start)?;
    Some((
        start,
        ml(&run[start..]) - contents_ml(network, *first) * share,
    ))
}

/// A network with what is opened, and the plan for it.
pub(super) struct Triple {
    pub(super) what: String,
    pub(super) network: Network,
    pub(super) options: Options,
    pub(super) plan: Plan,
}

impl Triple {
    /// A demo or a generated layout, one or two of its parts and lines, and a
    /// method; the pedal where the method is refused.
    pub(super) fn draw(case: &Case) -> Self {
        let mut choices = Choices::new(case.spare.clone());
        let (what, network) = if choices.chance(50) {
            let name = *choices.pick(&ALL);
            (name.to_owned(), load_demo(name))
        } else {
            (format!("{:?}", case.layout), case.load())
        };
        let layout = network.layout();
        let mut things: Vec<String> = layout.parts.iter().map(|part| part.id.clone()).collect();
        things.extend(layout.lines.iter().map(|line| line.id.clone()));
        things.extend(layout.cylinders.iter().map(|it| it.id.clone()));
        let count = 1 + usize::from(choices.chance(20));
        let mut options = Options {
            depressurised: true,
            opened: (0..count).map(|_| choices.pick(&things).clone()).collect(),
            method: *choices.pick(&[
                Method::Pedal,
                Method::Pressure,
                Method::Vacuum,
                Method::Gravity,
                Method::Reverse,
            ]),
            purpose: *choices.pick(&[None, None, Some(Purpose::Renew)]),
            ..Options::default()
        };
        let mut planned = plan(&network, &options).plan;
        if planned.is_none() {
            options.method = Method::Pedal;
            planned = plan(&network, &options).plan;
        }
        let plan = planned.unwrap_or_else(|| panic!("{what}: no plan with {options:#?}"));
        Self {
            what,
            network,
            options,
            plan: *plan,
        }
    }
}

fn ml(screw: &StepScrew) -> Option<f64> {
    (screw.at_least.as_ref()).map(|least| least.volume.get::<milliliter>())
}

proptest! {
    #![proptest_config(super::config())]

    #[test]
    fn every_screw_behind_an_opened_joint_pushes_what_lies_between(case in cases()) {
        let Triple { what, network, options, plan } = Triple::draw(&case);
        let expected = expected_ml(&network, &options, &plan);
        let card = Card::new(&plan);
        let mut expected = expected.into_iter();
        let mut mark_ml = 0.0;
        for (step, printed) in plan.steps.iter().zip(&card.steps) {
            let mut sum_ml = 0.0;
            for (screw, jar) in step.screws.iter().zip(&printed.jars) {
                let wanted = expected.next().expect("one for every screw");
                let least = ml(screw);
                let about = || format!(
                    "`{}`: {least:?} ml, expected {wanted:?}\n{:?}\n{options:#?}\n{what}",
                    screw.screw, screw.at_least
                );
                let is_same = match (least, wanted) {
                    (Some(least), Some(wanted)) => (least - wanted).abs() <= 1e-9 * wanted.max(1.0),
                    (least, wanted) => least.is_none() && wanted.is_none(),
                };
                prop_assert!(is_same, "{}", about());
                super::assert_ordered(&screw.screw, &screw.push)?;
                let wanted = wanted.unwrap_or(0.0);
                let low_ml = screw.push.low.get::<milliliter>();
                prop_assert!(low_ml >= wanted - 1e-9, "{low_ml}: {}", about());
                prop_assert!(jar.push_ml as f64 >= wanted - 1e-6, "{jar:?}: {}", about());
                sum_ml += wanted;
            }
            let rule = step.stop_rule;
            prop_assert!(rule.at_least.get::<milliliter>() >= sum_ml - 1e-9, "{rule:?} {sum_ml}");
            prop_assert!(rule.give_up >= rule.at_least, "{rule:?}");
            let next_ml = step.jar_mark_ml as f64;
            let pushed_ml: u64 = step.jars.iter().map(|jar| jar.push_ml).sum();
            prop_assert!(pushed_ml as f64 >= sum_ml - 1e-9, "{pushed_ml} ml, {sum_ml} wanted");
            // A jar that is emptied counts from zero again.
            let is_emptied = step.jars.iter().any(|jar| jar.is_emptied);
            prop_assert!(is_emptied || next_ml - mark_ml >= sum_ml - 1e-9, "{next_ml} after {mark_ml}");
            mark_ml = next_ml;
        }
    }
}

/// Nothing between the joint and the screw lowers it, and nothing on the
/// cylinder's side either; these end the drain-back alone.
#[test]
fn a_clamp_a_plug_or_a_propped_pedal_lowers_no_least_amount() {
    let network = &load_demo("lapwing");
    let plain = opening(&["front left caliper"]);
    let hose = vec!["front left hose".to_owned()];
    let others = [
        Options {
            clamped: hose.clone(),
            ..plain.clone()
        },
        Options {
            plugged: hose,
            ..plain.clone()
        },
        Options {
            plugged: vec!["front left caliper".to_owned()],
            ..plain.clone()
        },
        Options {
            propped: true,
            ..plain.clone()
        },
    ];
    let of = |options: &Options| {
        let plan = plan(network, options).plan.expect("it can be planned");
        let least: Vec<(ScrewId, Option<f64>)> = (plan.steps.iter())
            .flat_map(|step| &step.screws)
            .map(|screw| (screw.id, ml(screw)))
            .collect();
        let pushed: f64 = (plan.steps.iter())
            .map(|step| step.push.nominal.get::<milliliter>())
            .sum();
        (least, pushed)
    };
    let (least, pushed) = of(&plain);
    assert!(least.iter().any(|(_, least)| least.is_some()));
    for other in &others {
        let (kept, less) = of(other);
        assert_eq!(kept, least, "{other:?}");
        assert!(less < pushed - 1.0, "{less} against {pushed}: {other:?}");
    }
}
