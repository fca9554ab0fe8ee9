//! Layouts of cars with positions: drawn at random, but as cars are built.

use std::fmt::Write;

/// Numbers that look random and are the same on every run: a linear congruential generator.
pub(super) struct Dice(u64);

impl Dice {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 40) as f64 / (1_u64 << 24) as f64
    }

    /// A length in metres, to the centimetre.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        ((low + (high - low) * self.next()) * 100.0).round() / 100.0
    }

    fn chance(&mut self, share: f64) -> bool {
        self.next() < share
    }
}

/// What is wrong with the positions of a car.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Flaw {
    None,
    /// Two parts of one wheel sit a centimetre apart.
    TooNear,
    /// One part has no position.
    Missing,
}

/// The text of a layout: tandem cylinder, joints before the wheels, brakes, with or without tee, valves and anti-lock.
pub(super) fn car(seed: u64, flaw: Flaw) -> String {
    let mut dice = Dice::new(seed);
    let (base, track) = (dice.between(2.1, 3.2), dice.between(0.55, 0.85));
    let has_anti_lock = dice.chance(0.4);
    let has_valve = !has_anti_lock && dice.chance(0.5);
    let has_joints = dice.chance(0.6);
    let side = if dice.chance(0.5) { 1.0 } else { -1.0 };
    let steering = if side > 0.0 { "left" } else { "right" };
    let mut parts = String::new();
    let mut lines = String::new();
    let at = |x: f64, y: f64| format!("position: (x: \"{x:.2} m\", y: \"{y:.2} m\")");
    let master = at(
        base - dice.between(0.25, 0.6),
        side * dice.between(0.1, 0.4),
    );
    let pipe = |from: &str, to: &str| {
        format!(
            "        (id: \"{to} pipe\", from: \"{from}\", to: \"{to}\", \
             kind: pipe(size: \"4.75 mm\", length: \"1.5 m\")),\n"
        )
    };
    let hose = |from: &str, to: &str| {
        format!(
            "        (id: \"{to} hose\", from: \"{from}\", to: \"{to}\", \
             kind: hose(length: \"0.4 m\")),\n"
        )
    };
    let mut rear = "master.secondary".to_owned();
    let mut fronts = ["master.primary".to_owned(), "master.primary".to_owned()];
    if has_anti_lock {
        let place = at(
            base + dice.between(0.1, 0.4),
            -side * dice.between(0.05, 0.3),
        );
        let passages = ["fl", "fr", "r"].map(|name| {
            format!("(inlet: \"{name}.in\", outlets: [\"{name}.out\"], through: \"4.0 ml\", trapped: \"2.5 ml\")")
        });
        let passages = passages.join(", ");
        let _ = writeln!(
            parts,
            "        (id: \"unit\", kind: anti_lock(circuits: [{passages}]), {place}),"
        );
        for (from, to) in [("primary", "fl"), ("primary", "fr"), ("secondary", "r")] {
            lines += &format!(
                "        (id: \"to {to}\", from: \"master.{from}\", to: \"unit.{to}.in\", \
                 kind: pipe(size: \"4.75 mm\", length: \"0.6 m\")),\n"
            );
        }
        fronts = ["unit.fl.out".to_owned(), "unit.fr.out".to_owned()];
        rear = "unit.r.out".to_owned();
    }
    if has_valve {
        let place = if dice.chance(0.5) {
            String::new()
        } else {
            at(base - dice.between(0.9, 1.2), side * dice.between(0.1, 0.3))
        };
        let joint = if place.is_empty() {
            "direct".to_owned()
        } else {
            "pipe(size: \"4.75 mm\", length: \"0.5 m\")".to_owned()
        };
        let _ = writeln!(
            parts,
            "        (id: \"valve\", kind: proportioning(cut_in: \"30 bar\", ratio: 0.4), {place}),"
        );
        lines += &format!(
            "        (id: \"to valve\", from: \"{rear}\", to: \"valve\", kind: {joint}),\n"
        );
        rear = "valve".to_owned();
    }
    let place = at(dice.between(0.3, 0.6), dice.between(-0.1, 0.1));
    let _ = writeln!(parts, "        (id: \"rear tee\", kind: tee, {place}),");
    lines += &pipe(&rear, "rear tee");
    for (nth, (end, word)) in [(1.0, "left"), (-1.0, "right")].into_iter().enumerate() {
        for (x, axle, kind) in [
            (
                base,
                "front",
                "caliper(pistons: [(bore: \"54 mm\")], lining: half_worn)",
            ),
            (
                0.0,
                "rear",
                "wheel_cylinder(bore: \"19 mm\", lining: half_worn)",
            ),
        ] {
            let brake = format!("{axle} {word} brake");
            let from = if axle == "front" {
                fronts[nth].as_str()
            } else {
                "rear tee"
            };
            let is_flawed = axle == "front" && word == "left";
            let place = match flaw {
                Flaw::Missing if is_flawed => String::new(),
                _ => at(x, end * track),
            };
            let _ = writeln!(
                parts,
                "        (id: \"{brake}\", kind: {kind}, wheel: {axle}_{word}, {place}{}\
                 screws: [(id: \"{axle} {word}\", at_top: true)]),",
                if place.is_empty() { "" } else { ", " }
            );
            if has_joints || is_flawed && flaw == Flaw::TooNear {
                let joint = format!("{axle} {word} joint");
                let place = match flaw {
                    Flaw::TooNear if is_flawed => at(x - 0.01, end * track),
                    _ => at(
                        x - dice.between(0.08, 0.3),
                        end * (track - dice.between(0.22, 0.35)),
                    ),
                };
                let _ = writeln!(parts, "        (id: \"{joint}\", kind: union, {place}),");
                lines += &pipe(from, &joint);
                lines += &hose(&joint, &brake);
            } else {
                lines += &pipe(from, &brake);
            }
        }
    }
    format!(
        "(\n    format: 1,\n    name: \"Car {seed}\",\n    steering: {steering},\n    fluid: dot4,\n    split: II,\n    \
         reservoirs: [(id: \"reservoir\", compartments: [\n        \
         (id: \"front half\", max: \"150 ml\", min: \"70 ml\", feeds: \"master.primary\"),\n        \
         (id: \"rear half\", max: \"150 ml\", min: \"70 ml\", feeds: \"master.secondary\"),\n    ])],\n    \
         cylinders: [(id: \"master\", kind: tandem(bore: \"20.6 mm\", primary: (stroke: \"16 mm\"), \
         secondary: (stroke: \"15 mm\")), {master})],\n    parts: [\n{parts}    ],\n    lines: [\n{lines}    ],\n)\n"
    )
}
