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
    let master = at(
        base - dice.between(0.25, 0.6),
        side * dice.between(0.1, 0.4),
    );
    let mut car = Car {
        dice,
        base,
        track,
        side,
        parts: String::new(),
        lines: String::new(),
        fronts: ["master.primary"; 2],
        rear: "master.secondary",
    };
    if has_anti_lock {
        car.add_anti_lock();
    }
    if has_valve {
        car.add_valve();
    }
    let place = at(car.dice.between(0.3, 0.6), car.dice.between(-0.1, 0.1));
    car.part(&format!("(id: \"rear tee\", kind: tee, {place})"));
    car.pipe(car.rear, "rear tee");
    for is_left in [true, false] {
        for is_front in [true, false] {
            car.add_wheel(is_front, is_left, has_joints, flaw);
        }
    }
    let (parts, lines) = (car.parts, car.lines);
    format!(
        "(\n    format: 1,\n    name: \"Car {seed}\",\n    steering: {steering},\n    fluid: dot4,\n    split: II,\n    \
         reservoirs: [(id: \"reservoir\", compartments: [\n        \
         (id: \"front half\", max: \"150 ml\", min: \"70 ml\", feeds: \"master.primary\"),\n        \
         (id: \"rear half\", max: \"150 ml\", min: \"70 ml\", feeds: \"master.secondary\"),\n    ])],\n    \
         cylinders: [(id: \"master\", kind: tandem(bore: \"20.6 mm\", primary: (stroke: \"16 mm\"), \
         secondary: (stroke: \"15 mm\")), {master})],\n    parts: [\n{parts}    ],\n    lines: [\n{lines}    ],\n)\n"
    )
}

fn at(x: f64, y: f64) -> String {
    format!("position: (x: \"{x:.2} m\", y: \"{y:.2} m\")")
}

/// A car that is being built.
struct Car {
    dice: Dice,
    base: f64,
    track: f64,
    /// To which side its driver sits.
    side: f64,
    parts: String,
    lines: String,
    /// Where the lines to the front wheels and to the rear begin.
    fronts: [&'static str; 2],
    rear: &'static str,
}

impl Car {
    fn part(&mut self, text: &str) {
        let _ = writeln!(self.parts, "        {text},");
    }

    fn line(&mut self, id: &str, from: &str, to: &str, kind: &str) {
        let _ = writeln!(
            self.lines,
            "        (id: \"{id}\", from: \"{from}\", to: \"{to}\", kind: {kind}),"
        );
    }

    fn pipe(&mut self, from: &str, to: &str) {
        let kind = "pipe(size: \"4.75 mm\", length: \"1.5 m\")";
        self.line(&format!("{to} pipe"), from, to, kind);
    }

    fn add_anti_lock(&mut self) {
        let place = at(
            self.base + self.dice.between(0.1, 0.4),
            -self.side * self.dice.between(0.05, 0.3),
        );
        let passages = ["fl", "fr", "r"].map(|name| {
            format!(
                "(inlet: \"{name}.in\", outlets: [\"{name}.out\"], through: \"4.0 ml\", trapped: \"2.5 ml\")"
            )
        });
        let passages = passages.join(", ");
        self.part(&format!(
            "(id: \"unit\", kind: anti_lock(circuits: [{passages}]), {place})"
        ));
        for (from, to) in [("primary", "fl"), ("primary", "fr"), ("secondary", "r")] {
            let (from, inlet) = (format!("master.{from}"), format!("unit.{to}.in"));
            let kind = "pipe(size: \"4.75 mm\", length: \"0.6 m\")";
            self.line(&format!("to {to}"), &from, &inlet, kind);
        }
        self.fronts = ["unit.fl.out", "unit.fr.out"];
        self.rear = "unit.r.out";
    }

    /// On a pipe with a place of its own, or screwed straight into the cylinder.
    fn add_valve(&mut self) {
        let (place, kind) = if self.dice.chance(0.5) {
            (String::new(), "direct")
        } else {
            let place = at(
                self.base - self.dice.between(0.9, 1.2),
                self.side * self.dice.between(0.1, 0.3),
            );
            (place, "pipe(size: \"4.75 mm\", length: \"0.5 m\")")
        };
        self.part(&format!(
            "(id: \"valve\", kind: proportioning(cut_in: \"30 bar\", ratio: 0.4), {place})"
        ));
        self.line("to valve", self.rear, "valve", kind);
        self.rear = "valve";
    }

    fn add_wheel(&mut self, is_front: bool, is_left: bool, has_joints: bool, flaw: Flaw) {
        let (end, word) = if is_left {
            (1.0, "left")
        } else {
            (-1.0, "right")
        };
        let (x, axle, kind, from) = if is_front {
            let kind = "caliper(pistons: [(bore: \"54 mm\")], lining: half_worn)";
            (self.base, "front", kind, self.fronts[usize::from(!is_left)])
        } else {
            let kind = "wheel_cylinder(bore: \"19 mm\", lining: half_worn)";
            (0.0, "rear", kind, "rear tee")
        };
        let brake = format!("{axle} {word} brake");
        let is_flawed = is_front && is_left;
        let place = match flaw {
            Flaw::Missing if is_flawed => String::new(),
            _ => at(x, end * self.track) + ", ",
        };
        self.part(&format!(
            "(id: \"{brake}\", kind: {kind}, wheel: {axle}_{word}, {place}\
             screws: [(id: \"{axle} {word}\", at_top: true)])"
        ));
        let has_joint = has_joints || is_flawed && flaw == Flaw::TooNear;
        if !has_joint {
            self.pipe(from, &brake);
            return;
        }
        let joint = format!("{axle} {word} joint");
        let place = match flaw {
            Flaw::TooNear if is_flawed => at(x - 0.01, end * self.track),
            _ => at(
                x - self.dice.between(0.08, 0.3),
                end * (self.track - self.dice.between(0.22, 0.35)),
            ),
        };
        self.part(&format!("(id: \"{joint}\", kind: union, {place})"));
        self.pipe(from, &joint);
        let id = format!("{brake} hose");
        self.line(&id, &joint, &brake, "hose(length: \"0.4 m\")");
    }
}
