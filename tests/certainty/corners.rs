//! The certainty of an order against every corner of the tolerances.
//!
//! A comparison of two runs is the sign of a sum of lengths with factors +1,
//! 0 and -1. Over a box of lengths such a sum takes its least and its largest
//! value at corners, so that whatever sign it takes anywhere it takes at one,
//! and it is nothing inside the box only if it is negative at one corner and
//! positive at another (or nothing throughout). An order that is the same at
//! all corners is therefore the same everywhere.

use crate::generated::{Choices, cases};
use bleedwright_network::{Bounds, LineKind, Network, load};
use bleedwright_planner::{
    Begin, Certainty, Options, Purpose, UncertainPair, derived_order, order_certainty,
};
use proptest::prelude::*;
use uom::si::f64::Length;

/// More lines than this would have too many corners.
const MOST_OPEN: usize = 8;

/// A small layout, and options that fit it.
#[derive(Debug)]
struct Small {
    text: String,
    options: Options,
}

const WHEELS: [&str; 4] = ["front_left", "front_right", "rear_left", "rear_right"];

/// Two circuits or one, each a random tree with two to four brakes.
fn small(numbers: Vec<u16>) -> Small {
    let mut choices = Choices::new(numbers);
    let is_tandem = choices.chance(50);
    let chambers: &[&str] = if is_tandem {
        &["master.primary", "master.secondary"]
    } else {
        &["master"]
    };
    let (mut parts, mut lines) = (String::new(), String::new());
    let mut open = 0;
    let has_positions = choices.chance(33);
    for (circuit, chamber) in chambers.iter().enumerate() {
        // Parts that a line may start from.
        let mut trunks = vec![(*chamber).to_owned()];
        let mut free = 1;
        for nth in 0..=choices.below(2) {
            let tee = format!("tee {circuit}{nth}");
            parts.push_str(&format!("(id: \"{tee}\", kind: tee), "));
            let from = trunks.last().expect("there is the chamber").clone();
            lines.push_str(&line(&mut choices, &from, &tee, &mut open));
            trunks.push(tee);
            free = trunks.len() - 1;
        }
        let mut upstream: Option<String> = None;
        let mut has_levels = false;
        for nth in 0..2 + choices.below(3) {
            let brake = format!("brake {circuit}{nth}");
            // Two on one wheel: one may feed the other, or carry a level.
            let wheel = WHEELS[(2 * circuit + nth / 2) % 4];
            let is_second = nth % 2 == 1;
            if !is_second {
                has_levels = choices.chance(40);
            }
            let place = match (has_levels, is_second) {
                (false, _) => "",
                (true, false) => "place: upper, ",
                (true, true) => "place: lower, ",
            };
            // Whole metres, so that wheels may be equally far.
            let position = if has_positions {
                let axle_m = if wheel.starts_with("front") { 3 } else { 0 };
                let x_m = axle_m + choices.below(2);
                let y_m = 1 + choices.below(2);
                let sign = if wheel.ends_with("left") { "" } else { "-" };
                format!("position: (x: \"{x_m} m\", y: \"{sign}{y_m} m\"), ")
            } else {
                String::new()
            };
            parts.push_str(&format!(
                "(id: \"{brake}\", kind: wheel_cylinder(bore: \"20 mm\"), wheel: {wheel}, {place}\
                 {position}screws: [(id: \"screw {circuit}{nth}\", at_top: true)]), "
            ));
            let from = match upstream.take() {
                Some(brake) if is_second && choices.chance(33) => brake,
                _ => trunks[1 + choices.below(free)].clone(),
            };
            lines.push_str(&line(&mut choices, &from, &brake, &mut open));
            upstream = Some(brake);
        }
    }
    let kind = if is_tandem {
        "tandem(bore: \"20 mm\", primary: (stroke: \"15 mm\"), secondary: (stroke: \"15 mm\"))"
    } else {
        "single(bore: \"20 mm\", stroke: \"25 mm\")"
    };
    let position = if has_positions {
        "position: (x: \"3 m\", y: \"0.5 m\"), "
    } else {
        ""
    };
    let feeds: Vec<String> = chambers
        .iter()
        .enumerate()
        .map(|(nth, chamber)| format!("(id: \"pot {nth}\", max: \"300 ml\", feeds: \"{chamber}\")"))
        .collect();
    let text = format!(
        "(format: 1, name: \"Small\", steering: left, fluid: dot4,
          reservoirs: [(id: \"pot\", compartments: [{}])],
          cylinders: [(id: \"master\", {position}kind: {kind})],
          parts: [{parts}], lines: [{lines}])",
        feeds.join(", ")
    );
    let purposes = [None, Some(Purpose::Fill), Some(Purpose::Air)];
    let options = Options {
        begin: if choices.chance(33) {
            Begin::Nearest
        } else {
            Begin::Farthest
        },
        purpose: purposes[choices.below(purposes.len())],
        opened: if choices.chance(25) {
            vec!["brake 00".to_owned()]
        } else {
            Vec::new()
        },
        ..Options::default()
    };
    Small { text, options }
}

/// A pipe: open within a tolerance, or exact, or exact and as long as others.
fn line(choices: &mut Choices, from: &str, to: &str, open: &mut usize) -> String {
    let length_um = 200_000 + 37 * choices.below(30_000);
    let length = if *open < MOST_OPEN && !choices.chance(33) {
        *open += 1;
        let share = [2, 10, 30][choices.below(3)];
        let tolerance_um = length_um * share / 100 + choices.below(1_000);
        format!("{length_um}e-6 m ± {tolerance_um}e-6 m")
    } else if choices.chance(50) {
        "0.7 m".to_owned()
    } else {
        format!("{length_um}e-6 m")
    };
    format!(
        "(id: \"to {to}\", from: \"{from}\", to: \"{to}\", \
         kind: pipe(size: \"3/16 in\", length: \"{length}\")), "
    )
}

/// The same pipework with exact lengths, each as chosen.
fn with_lengths(network: &Network, mut choose: impl FnMut(Bounds<Length>) -> Length) -> Network {
    network.with_values(|layout| {
        for line in &mut layout.lines {
            if let LineKind::Pipe { length, .. } | LineKind::Hose { length, .. } = &mut line.kind {
                *length = Bounds::exact(choose(*length));
            }
        }
    })
}

fn is_open(length: Bounds<Length>) -> bool {
    length.low < length.high
}

/// Every corner of the lengths, one after the other.
fn corners(network: &Network) -> impl Iterator<Item = Network> + '_ {
    let lines = &network.layout().lines;
    let open = lines.iter().filter(|line| is_open(line.length())).count();
    assert!(open <= MOST_OPEN, "{open}");
    (0..1_u32 << open).map(|corner| {
        let mut nth = 0;
        with_lengths(network, |length| {
            if !is_open(length) {
                return length.nominal;
            }
            nth += 1;
            if corner >> (nth - 1) & 1 == 1 {
                length.high
            } else {
                length.low
            }
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_000, ..ProptestConfig::default() })]

    /// Certain exactly if all corners and the nominal lengths give the derived
    /// order; and then so do lengths between them.
    #[test]
    fn certain_exactly_if_all_corners_agree(
        numbers in prop::collection::vec(any::<u16>(), 120),
        shares in prop::collection::vec(0.0..1.0_f64, 60),
    ) {
        let small = small(numbers);
        let loaded = load(small.text.as_bytes());
        let network = loaded.sound_network();
        prop_assert!(network.is_some(), "{:#?}\n{}", loaded.findings, small.text);
        let network = network.expect("it was just looked at");
        let options = &small.options;
        let derived = derived_order(network, options);
        let agrees = |network: &Network| derived_order(network, options) == derived;
        let all_agree = agrees(&with_lengths(network, |length| length.nominal))
            && corners(network).all(|corner| agrees(&corner));
        let certainty = order_certainty(network, options).expect("the options name nothing else");
        prop_assert_eq!(
            certainty.verdict == Certainty::Certain,
            all_agree,
            "{:#?}\n{:?}\n{}", certainty, options, small.text
        );
        prop_assert_eq!(certainty.uncertain.is_empty(), all_agree);
        if all_agree {
            for shares in shares.chunks(20) {
                let mut shares = shares.iter().cycle();
                let between = with_lengths(network, |length| {
                    let share = *shares.next().expect("a cycle never ends");
                    length.low + (length.high - length.low) * share
                });
                prop_assert!(agrees(&between), "{}", small.text);
            }
        }
        // Measuring what is said to settle a pair settles which run is longer.
        for pair in certainty.uncertain.iter().filter(|pair| !pair.measure.is_empty()) {
            let measured = network.with_values(|layout| {
                for line in &mut layout.lines {
                    if pair.measure.contains(&line.id)
                        && let LineKind::Pipe { length, .. } = &mut line.kind
                    {
                        *length = length.collapsed();
                    }
                }
            });
            let after = order_certainty(&measured, options).expect("as before");
            let of_same = |other: &&UncertainPair| {
                let (a, b) = (&other.first, &other.then);
                [a, b] == [&pair.first, &pair.then] || [b, a] == [&pair.first, &pair.then]
            };
            let nothing = Length::default();
            let is_still_open = after.uncertain.iter().filter(of_same).any(|other| {
                other.difference.low <= nothing && other.difference.high >= nothing
            });
            prop_assert!(!is_still_open, "{pair:#?}\n{after:#?}\n{}", small.text);
        }
    }

    /// On layouts of every kind, with options of every kind: a certain order
    /// is found again at whatever corner.
    #[test]
    fn a_certain_order_is_found_at_random_corners(case in cases()) {
        let network = &case.load();
        let options = &case.options;
        let Some(certainty) = order_certainty(network, options) else {
            return Ok(());
        };
        if certainty.verdict == Certainty::Certain {
            let derived = derived_order(network, options);
            let mut bits = case.spare.iter().copied().cycle();
            for _ in 0..4 {
                let corner = with_lengths(network, |length| {
                    if bits.next().unwrap_or(0) % 2 == 1 {
                        length.high
                    } else {
                        length.low
                    }
                });
                prop_assert_eq!(&derived_order(&corner, options), &derived);
            }
        }
    }
}
