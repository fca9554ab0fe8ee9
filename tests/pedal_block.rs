//! The block under the pedal, by the lever rule at every corner of the
//! tolerances, and what a stroke to it takes from the reservoir.

use crate::demo::{ALL, drafted, load_demo, network_of, plan_of};
use bleedwright_network::{Bounds, CircuitId, Network};
use bleedwright_planner::{Block, Drive, Method, Options, Plan, Rhythm, Step, StepNote, plan};
use bleedwright_report::{Pages, Paper, plan_text};
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::millimeter;
use uom::si::pressure::bar as bars;
use uom::si::ratio::{percent, ratio};

fn ends(bounds: Bounds<Length>) -> [f64; 2] {
    [bounds.low, bounds.high].map(|length| length.get::<millimeter>())
}

/// How far the piston of an open circuit goes at every corner until the pedal
/// stands at its block, the other circuit being shut and firm, in millimetres.
pub(crate) fn pistons_mm(
    network: &Network,
    open: &[CircuitId],
    circuit: CircuitId,
    block_mm: f64,
) -> Vec<f64> {
    let layout = network.layout();
    let cylinder = network.cylinder_of(circuit);
    let is_secondary = cylinder.chambers.len() == 2 && network.circuit(circuit).chamber_index == 1;
    let bar = network
        .balance_bar(circuit)
        .map(|index| &layout.balance_bars[index]);
    let partner = network.bar_partner(circuit);
    let other = partner.map(|partner| network.chamber_of(partner));
    let shut = match other {
        Some(other) => ends(other.cut_off.bounds),
        None if is_secondary => ends(cylinder.chambers[0].cut_off.bounds),
        None => [0.0; 2],
    };
    let shares = bar.map_or([1.0; 2], |bar| {
        let is_first = bar.cylinders[0] == cylinder.id;
        [bar.share.bounds.low, bar.share.bounds.high].map(|share| {
            let share = share.get::<ratio>();
            if is_first { share } else { 1.0 - share }
        })
    });
    // A bar hangs on one pedal: what its first cylinder says of it holds.
    let named = bar.map_or(&cylinder.id, |bar| &bar.cylinders[0]);
    let pedal = (layout.cylinders.iter())
        .find(|cylinder| cylinder.id == *named)
        .expect("a sound layout has every cylinder of its bars");
    let lever = pedal.pedal_ratio.bounds;
    let mut pistons = Vec::new();
    for lever in [lever.low, lever.high].map(|lever| lever.get::<ratio>()) {
        for play in ends(pedal.free_play.bounds) {
            let rod = (block_mm - play) / lever;
            for shut in shut {
                for share in shares {
                    if open.len() < 2 {
                        pistons.push(match bar {
                            Some(_) => shut + (rod - shut) / share,
                            None => rod - shut,
                        });
                        continue;
                    }
                    // Both move the same share of their strokes.
                    let other = other.expect("two circuits are open under a bar only");
                    for own in ends(network.chamber_of(circuit).stroke) {
                        for other in ends(other.stroke) {
                            pistons.push(own * rod / (own * share + other * (1.0 - share)));
                        }
                    }
                }
            }
        }
    }
    pistons
}

pub(crate) fn open(step: &Step) -> Vec<CircuitId> {
    step.screws.iter().map(|screw| screw.circuit_id).collect()
}

/// The most that a stroke to the block takes from the reservoir for a circuit,
/// in millilitres; a whole stroke where no travel is known.
pub(crate) fn most_ml(network: &Network, step: &Step, circuit: CircuitId) -> f64 {
    let chamber = network.chamber_of(circuit);
    let bore_mm = chamber.bore.high.get::<millimeter>();
    let area_mm2 = std::f64::consts::FRAC_PI_4 * bore_mm * bore_mm;
    let Some(Block::At(block)) = step.block() else {
        return area_mm2 * chamber.stroke.high.get::<millimeter>() / 1000.0;
    };
    let block_mm = block.get::<millimeter>();
    let pistons = pistons_mm(network, &open(step), circuit, block_mm);
    let farthest_mm = pistons.into_iter().fold(0.0, f64::max);
    let cut_off_mm = chamber.cut_off.bounds.low.get::<millimeter>();
    area_mm2 * (farthest_mm - cut_off_mm).max(0.0) / 1000.0
}

/// At no corner a piston goes beyond the share that was asked for of the
/// shortest stroke that it may have.
pub(crate) fn find_piston_beyond(network: &Network, plan: &Plan) -> Option<String> {
    let share = plan.head.stroke.get::<ratio>();
    for step in &plan.steps {
        let Some(Block::At(block)) = step.block() else {
            continue;
        };
        let block_mm = block.get::<millimeter>();
        let open = open(step);
        for circuit in &open {
            let stroke_mm = network.chamber_of(*circuit).stroke.low.get::<millimeter>();
            // The strokes of two cylinders under a bar are at their own corners.
            let [_, longest_mm] = ends(network.chamber_of(*circuit).stroke);
            let held_mm = if open.len() > 1 {
                longest_mm
            } else {
                stroke_mm
            };
            for piston_mm in pistons_mm(network, &open, *circuit, block_mm) {
                if piston_mm > share * held_mm + 1e-6 {
                    return Some(format!(
                        "step {}: at {block_mm} mm the piston is {piston_mm} mm of {stroke_mm} mm",
                        step.number
                    ));
                }
            }
        }
    }
    None
}

fn at_share(percents: f64) -> Options {
    Options {
        stroke: Ratio::new::<percent>(percents),
        ..Options::default()
    }
}

#[test]
fn no_piston_of_a_demo_goes_beyond_its_share_at_any_corner() {
    for name in ALL {
        let network = &load_demo(name);
        for percents in [30.0, 60.0, 90.0] {
            let options = Options {
                depressurised: true,
                ..at_share(percents)
            };
            let Some(plan) = plan(network, &options).plan else {
                continue;
            };
            assert_eq!(
                find_piston_beyond(network, &plan),
                None,
                "{name} {percents} %"
            );
        }
    }
}

/// What `draft` writes without a measurement is wide: the nominal travel would
/// let the piston run to its stop at the low corner.
#[test]
fn a_drafted_car_never_bottoms() {
    let network = &drafted("II");
    let plan = plan_of(network, &Options::default());
    assert_eq!(find_piston_beyond(network, &plan), None);
    for step in &plan.steps {
        let circuit = step.screws[0].circuit_id;
        let stop_mm = network.chamber_of(circuit).stroke.low.get::<millimeter>();
        let Some(Block::At(block)) = step.block() else {
            continue;
        };
        for piston_mm in pistons_mm(network, &open(step), circuit, block.get::<millimeter>()) {
            assert!(piston_mm < stop_mm, "{piston_mm} mm, stop at {stop_mm} mm");
        }
    }
}

/// By hand: both chambers of the cylinder under the pedal are bled with one
/// block, at `4.2 x (0.6 x 14 + 1.2) + 4 = 44.3` mm for the secondary one.
#[test]
fn one_block_for_one_job() {
    let plan = plan_of(&load_demo("lapwing"), &Options::default());
    for step in &plan.steps {
        let travel = step.pedal_travel().expect("a travel is known");
        assert!(
            (travel.get::<millimeter>() - 44.0).abs() < 1e-9,
            "{travel:?}"
        );
        assert!(
            !step
                .notes
                .iter()
                .any(|note| matches!(note, StepNote::BlockTo(_)))
        );
    }
    let text = plan_text(&plan, Pages::Both, Paper::new(80, false));
    assert!(text.contains("Pedal block after 44 mm of travel"), "{text}");
}

/// The rear chamber by hand: `(44 - 4) / 4.2 - 1.2 - 1.0 = 7.32` mm of 444.9
/// mm2 are 3.26 ml, and 110 ml of room 33 of them; whole strokes of 6.23 ml
/// allow twice 17. Front: 130 ml allow 35 of 3.70 ml, but twice 7.56 ml goes
/// 34 times into 260 ml.
#[test]
fn top_ups_are_counted_with_the_block() {
    let plan = plan_of(&load_demo("lapwing"), &Options::default());
    let found: Vec<(&str, Rhythm)> = plan
        .steps
        .iter()
        .flat_map(|step| &step.level_rules)
        .filter_map(|rule| Some((rule.compartment.as_str(), rule.every?)))
        .collect();
    assert!(!found.is_empty());
    for (compartment, every) in found {
        let (every_by_hand, without_by_hand) = match compartment {
            "rear brakes" => (33, 16),
            _ => (34, 17),
        };
        let by_hand = Rhythm::Strokes {
            every: every_by_hand,
            without_block: Some(without_by_hand),
        };
        assert_eq!(every, by_hand, "{compartment}");
    }
    let text = plan_text(&plan, Pages::Both, Paper::new(200, false));
    for wanted in ["  every 33\n", "No block: TOP UP at half."] {
        assert!(text.contains(wanted), "{text}");
    }
}

/// One caliper on a single cylinder whose pedal ratio is hardly known.
fn with_ratio(pedal_ratio: &str) -> Network {
    let text = format!(
        r#"(format: 1, name: "Vague", fluid: dot4,
          reservoirs: [(id: "pot", compartments: [(id: "all", max: "200 ml", feeds: "master")])],
          cylinders: [(id: "master", kind: single(bore: "20 mm", stroke: "30 mm"),
                       pedal_ratio: "{pedal_ratio}", free_play: "5 mm ± 4 mm")],
          parts: [(id: "caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left,
                   screws: [(id: "screw", at_top: true)])],
          lines: [(id: "pipe", from: "master", to: "caliper",
                   kind: pipe(size: "3/16 in", length: "3 m"))])"#
    );
    network_of(&text)
}

/// A block at which no piston of any cylinder within the tolerances bottoms
/// would leave less than half of the way: then the firm pedal sets it.
#[test]
fn where_too_little_is_known_the_firm_pedal_sets_the_block() {
    let vague = plan_of(&with_ratio("5 ± 3"), &Options::default());
    let step = &vague.steps[0];
    assert_eq!(step.block(), Some(Block::FirmPedal));
    let text = plan_text(&vague, Pages::Both, Paper::new(200, false));
    for wanted in [
        "Pedal block at the travel where `master` was firm before work: ____ mm, never beyond.",
        "Never find the bottom with the foot",
        "strokes counted as if the block let the piston go 60 % of its stroke (master)",
    ] {
        assert!(text.contains(wanted), "{wanted}: {text}");
    }
    let known = plan_of(&with_ratio("5 ± 0.1"), &Options::default());
    assert!(matches!(known.steps[0].block(), Some(Block::At(_))));
}

/// The maker's figure drives the fluid: nothing else of a plan by a tank says
/// how fast it runs.
#[test]
fn the_tank_has_the_pressure_that_its_maker_states() {
    let by_tank = |tank: Option<f64>| {
        let options = Options {
            method: Method::Pressure,
            tank_pressure: tank.map(Pressure::new::<bars>),
            ..Options::default()
        };
        plan_of(&load_demo("lapwing"), &options)
    };
    let said = |plan: &Plan, wanted: &str| {
        let text = plan_text(plan, Pages::Both, Paper::new(200, false));
        assert!(text.contains(wanted), "{wanted}: {text}");
    };
    // 12 and 15 psi of 6894.757 Pa.
    let usual = by_tank(None);
    said(&usual, "tight; 0.83-1.03 bar (12-15 psi); goggles on");
    said(&usual, "tank 0.83-1.03 bar (12-15 psi, TB");
    let given = by_tank(Some(0.5));
    said(&given, "tight; 0.50 bar as given; goggles on");
    let drives = |plan: &Plan| match plan.steps[0].drive {
        Drive::Steady { pressure, .. } => pressure.nominal.get::<bars>(),
        Drive::Strokes { .. } => f64::NAN,
    };
    let difference = drives(&usual) - drives(&given);
    assert!(
        (difference - (0.930_792 - 0.5)).abs() < 1e-5,
        "{difference}"
    );
    let codes = |tank| {
        let options = Options {
            method: Method::Pressure,
            tank_pressure: Some(Pressure::new::<bars>(tank)),
            ..Options::default()
        };
        let found = plan(&load_demo("lapwing"), &options).findings;
        found.iter().any(|finding| finding.code.text() == "BW416")
    };
    assert!(!codes(1.0) && codes(1.1));
}

/// Half of 250 ml are 125 ml and the minimum mark 130 ml, but the clutch draws
/// from 160 ml at most 170: 80 ml of room.
#[test]
fn a_take_off_holds_the_level_up() {
    let network = &load_demo("ruff");
    let plan = plan_of(network, &Options::default());
    let text = plan_text(&plan, Pages::Both, Paper::new(200, false));
    assert!(
        text.contains("the min mark or the clutch's outlet of rear half (170 ml), the highest."),
        "{text}"
    );
    let mut seen = 0;
    for step in &plan.steps {
        let rules = (step.level_rules.iter()).filter(|rule| rule.compartment == "rear half");
        for every in rules.filter_map(|rule| rule.every) {
            let Rhythm::Strokes { every, .. } = every else {
                panic!("{every:?}");
            };
            let drawn_ml = every as f64 * most_ml(network, step, step.screws[0].circuit_id);
            assert!(drawn_ml <= 80.0 + 1e-9, "{drawn_ml} ml");
            seen += 1;
        }
    }
    assert!(seen > 0);
}
