//! Gravity never over a high point once air was let in, and never upwards.

use super::config;
use crate::asked::with_purpose;
use crate::demo::network_of;
use bleedwright_network::load;
use bleedwright_planner::{Method, Options, Purpose, plan};
use proptest::collection::vec;
use proptest::option::weighted;
use proptest::prelude::*;
use std::fmt::Write;

/// A height in centimetres, where it is given.
type Height = Option<u16>;

/// A line and the part at its end away from the cylinder.
#[derive(Clone, Debug)]
struct Piece {
    /// Points inside the line, in the order in which the fluid meets them.
    via: Vec<u16>,
    /// Whether the file has the line from the brake's side.
    is_backward: bool,
    is_residual_valve: bool,
    height: Height,
}

/// One cylinder, a way to a tee, and from there a way to each brake.
#[derive(Clone, Debug)]
struct Pipework {
    reservoir: Height,
    cylinder: Height,
    trunk: Vec<Piece>,
    branches: Vec<Vec<Piece>>,
}

fn piece() -> impl Strategy<Value = Piece> {
    (
        vec(5_u16..110, 0..3),
        any::<bool>(),
        weighted(0.05, Just(())),
        weighted(0.8, 10_u16..110),
    )
        .prop_map(|(via, is_backward, residual, height)| Piece {
            via,
            is_backward,
            is_residual_valve: residual.is_some(),
            height,
        })
}

/// Heights that fall all the way, but for a few: else every way would have a high point.
fn falling(mut pieces: Vec<Piece>, from: u16, is_falling: bool) -> Vec<Piece> {
    if is_falling {
        let mut height = from;
        for piece in &mut pieces {
            for via in &mut piece.via {
                height = height.saturating_sub(*via % 8).max(1);
                *via = height;
            }
            if let Some(own) = &mut piece.height {
                height = height.saturating_sub(*own % 8).max(1);
                *own = height;
            }
        }
    }
    pieces
}

fn pipework() -> impl Strategy<Value = Pipework> {
    (
        weighted(0.8, 30_u16..130),
        weighted(0.8, 30_u16..110),
        (vec(piece(), 1..4), any::<bool>()),
        vec((vec(piece(), 1..4), any::<bool>()), 2..4),
    )
        .prop_map(|(reservoir, cylinder, trunk, branches)| {
            let top = cylinder.unwrap_or(60);
            let trunk = falling(trunk.0, top, trunk.1);
            let tee = trunk.iter().rev().find_map(|piece| piece.height);
            let tee = tee.unwrap_or(top).saturating_sub(24).max(1);
            let branches = branches
                .into_iter()
                .map(|(pieces, is_falling)| falling(pieces, tee, is_falling))
                .collect();
            Pipework {
                reservoir,
                cylinder,
                trunk,
                branches,
            }
        })
}

fn options(parts: usize) -> impl Strategy<Value = Options> {
    (
        prop_oneof![
            Just(None),
            Just(Some(Purpose::Renew)),
            Just(Some(Purpose::Air)),
            Just(Some(Purpose::Fill))
        ],
        weighted(0.4, 0..parts),
        any::<bool>(),
    )
        .prop_map(|(purpose, opened, is_by_gravity)| Options {
            purpose,
            opened: opened
                .map(|part| format!("part {part}"))
                .into_iter()
                .collect(),
            method: if is_by_gravity {
                Method::Gravity
            } else {
                Method::Pedal
            },
            ..Options::default()
        })
}

fn height_field(height: Height) -> String {
    height.map_or(String::new(), |height| format!("height: \"{height} cm\","))
}

impl Pipework {
    fn parts(&self) -> usize {
        self.trunk.len() + self.branches.iter().map(Vec::len).sum::<usize>()
    }

    /// The layout file; brakes are numbered like the branches.
    fn text(&self) -> String {
        let (mut parts, mut lines) = (String::new(), String::new());
        let mut number = 0;
        let mut add = |from: &str, piece: &Piece, kind: &str| -> String {
            let name = format!("part {number}");
            let (a, b) = if piece.is_backward {
                (name.as_str(), from)
            } else {
                (from, name.as_str())
            };
            let mut via = String::new();
            for (nth, height) in piece.via.iter().enumerate() {
                let met = 0.2 + 0.3 * nth as f64;
                let at = if piece.is_backward { 1.0 - met } else { met };
                let _ = write!(via, "(at: \"{at:.1} m\", height: \"{height} cm\"),");
            }
            let _ = writeln!(
                lines,
                "(id: \"line {number}\", from: \"{a}\", to: \"{b}\", via: [{via}], \
                 kind: pipe(bore: \"3 mm\", length: \"1 m\")),"
            );
            let kind = if piece.is_residual_valve && kind == "kind: union" {
                "kind: residual(holds: \"0.7 bar\")"
            } else {
                kind
            };
            let height = height_field(piece.height);
            let _ = writeln!(parts, "(id: \"{name}\", {height} {kind}),");
            number += 1;
            name
        };
        let mut tee = "cylinder".to_owned();
        for (nth, piece) in self.trunk.iter().enumerate() {
            let is_last = nth + 1 == self.trunk.len();
            tee = add(
                &tee,
                piece,
                if is_last { "kind: tee" } else { "kind: union" },
            );
        }
        for (branch, pieces) in self.branches.iter().enumerate() {
            let mut from = tee.clone();
            for (nth, piece) in pieces.iter().enumerate() {
                let wheel = ["trailer_left", "trailer_right", "middle_left"][branch];
                let brake = format!(
                    "kind: wheel_cylinder(bore: \"20 mm\"), wheel: {wheel}, \
                     screws: [(id: \"screw {branch}\", at_top: true)]"
                );
                let is_last = nth + 1 == pieces.len();
                from = add(&from, piece, if is_last { &brake } else { "kind: union" });
            }
        }
        format!(
            "(format: 1, name: \"heights\", fluid: dot4,
            reservoirs: [(id: \"pot\", {} \
                compartments: [(id: \"pot\", max: \"250 ml\", feeds: \"cylinder\")])],
            cylinders: [(id: \"cylinder\", {} kind: single(bore: \"22 mm\", stroke: \"30 mm\"))],
            parts: [{parts}],
            lines: [{lines}])",
            height_field(self.reservoir),
            height_field(self.cylinder)
        )
    }

    fn pieces_to(&self, branch: usize) -> impl Iterator<Item = &Piece> {
        self.trunk.iter().chain(&self.branches[branch])
    }

    /// The known heights on the way to a brake, cylinder first.
    fn way(&self, branch: usize) -> Vec<u16> {
        let pieces = self.pieces_to(branch);
        let behind = pieces.flat_map(|piece| piece.via.iter().copied().chain(piece.height));
        self.cylinder.into_iter().chain(behind).collect()
    }

    /// Whether somewhere the way is higher than before and behind; all heights differ by whole centimetres.
    fn has_hump(&self, branch: usize) -> bool {
        let way = self.way(branch);
        (0..way.len()).any(|top| {
            way[..top].iter().any(|height| *height < way[top])
                && way[top + 1..].iter().any(|height| *height < way[top])
        })
    }

    fn branch_of(screw: &str) -> usize {
        let number = screw.rsplit(' ').next().and_then(|word| word.parse().ok());
        number.expect("screws are numbered")
    }
}

proptest! {
    #![proptest_config(config())]

    /// By gravity alone, and by gravity before the pedal, no way with air in it leads over a high point or above the
    /// reservoir, and nothing is asked to run through a residual valve.
    #[test]
    fn no_gravity_over_a_hump_after_opening(
        (pipework, options) in pipework().prop_flat_map(|pipework| {
            let options = options(pipework.parts());
            (Just(pipework), options)
        })
    ) {
        let text = pipework.text();
        let loaded = load(text.as_bytes());
        let network = loaded.sound_network().ok_or_else(|| {
            TestCaseError::fail(format!("{:#?}\n{text}", loaded.findings))
        })?;
        let planned = plan(network, &options);
        // A spongy pedal has full lines but for bubbles.
        let lets_in_air = !options.opened.is_empty() || options.purpose == Some(Purpose::Fill);
        let Some(made) = planned.plan else {
            // Refused, and for a reason that the heights give.
            prop_assert_eq!(options.method, Method::Gravity);
            let branches = 0..pipework.branches.len();
            let is_steep = |branch: usize| {
                let brake = pipework.way(branch).last().copied();
                brake.zip(pipework.reservoir).is_some_and(|(brake, reservoir)| brake >= reservoir)
            };
            // A low cylinder whose fluid nobody knows the height of.
            let is_unknown = |branch: usize| {
                let brake = pipework.branches[branch].last().and_then(|piece| piece.height);
                pipework.reservoir.is_none()
                    && brake.zip(pipework.cylinder).is_some_and(|(brake, low)| brake > low)
            };
            let is_refusable = |branch: usize| {
                is_steep(branch) || is_unknown(branch) || lets_in_air && pipework.has_hump(branch)
            };
            prop_assert!(branches.clone().any(is_refusable), "{:#?}\n{text}", planned.findings);
            return Ok(());
        };
        let gravity_first = made.gravity_first.iter().map(|screw| network.screw(*screw).id.as_str());
        let steps = made.steps.iter().flat_map(|step| &step.screws);
        let by_gravity: Vec<&str> = if options.method == Method::Gravity {
            steps.map(|screw| screw.screw.as_str()).collect()
        } else {
            gravity_first.clone().collect()
        };
        for screw in by_gravity.into_iter().filter(|_| lets_in_air) {
            prop_assert!(!pipework.has_hump(Pipework::branch_of(screw)), "{screw}\n{text}");
        }
        for screw in gravity_first {
            let branch = Pipework::branch_of(screw);
            let highest = pipework.way(branch).into_iter().max();
            if let (Some(highest), Some(reservoir)) = (highest, pipework.reservoir) {
                prop_assert!(highest <= reservoir, "{screw}\n{text}");
            }
            let mut joints = pipework.trunk[..pipework.trunk.len() - 1]
                .iter()
                .chain(&pipework.branches[branch][..pipework.branches[branch].len() - 1]);
            prop_assert!(!joints.any(|piece| piece.is_residual_valve), "{screw}\n{text}");
        }
    }
}

/// The property above would hold for a planner that never proposes gravity.
#[test]
fn gravity_is_proposed_downhill() {
    let piece = |height: u16| Piece {
        via: vec![height + 2],
        is_backward: false,
        is_residual_valve: false,
        height: Some(height),
    };
    let mut pipework = Pipework {
        reservoir: Some(100),
        cylinder: Some(90),
        trunk: vec![piece(80), piece(70)],
        branches: vec![vec![piece(60), piece(50)], vec![piece(40)]],
    };
    let options = with_purpose(Purpose::Fill);
    let first = |pipework: &Pipework| -> Vec<String> {
        let network = &network_of(&pipework.text());
        let plan = plan(network, &options).plan.expect("it can be planned");
        let screws = plan.gravity_first.iter();
        screws
            .map(|screw| network.screw(*screw).id.clone())
            .collect()
    };
    assert_eq!(first(&pipework), ["screw 0", "screw 1"]);
    // A joint between the tee and the first brake is lifted above the tee.
    pipework.branches[0][0].height = Some(75);
    assert_eq!(first(&pipework), ["screw 1"]);
    // The reservoir sinks below the cylinder.
    pipework.reservoir = Some(85);
    assert!(first(&pipework).is_empty());
}
