//! Lines, tees and valves between a chamber and its brakes.

use super::brake;
use super::layout::Layout;
use crate::generated::Choices;
use std::f64::consts::FRAC_PI_4;

/// A place where a line can end: as it is written, and the body of fluid.
#[derive(Clone)]
pub(crate) struct Target {
    pub(crate) end: String,
    pub(crate) body: String,
}

impl Target {
    pub(crate) fn plain(name: &str) -> Self {
        Self {
            end: name.to_owned(),
            body: name.to_owned(),
        }
    }
}

/// A layout that is being drawn.
pub(crate) struct Pipework<'c> {
    pub(crate) choices: &'c mut Choices,
    pub(crate) layout: Layout,
    names: usize,
}

/// Screws beyond which no more are put on the way.
const MOST_SCREWS: usize = 22;

impl<'c> Pipework<'c> {
    pub(crate) fn new(choices: &'c mut Choices) -> Self {
        Self {
            choices,
            layout: Layout::default(),
            names: 0,
        }
    }

    /// A name that nothing else has.
    pub(crate) fn name(&mut self, what: &str) -> String {
        self.names += 1;
        let number = self.names;
        match self.choices.below(12) {
            9 => format!("{number} {what}, größer"),
            10 => format!("({what}) №{number} 'x'"),
            11 => format!("{what}/{number}: a rather long name for something so small"),
            _ => format!("{what} {number}"),
        }
    }

    /// A name for a part that belongs to these circuits.
    pub(crate) fn part(&mut self, what: &str, circuits: &[usize]) -> String {
        let id = self.name(what);
        let known = &mut self.layout.known;
        known.parts.push(id.clone());
        known
            .circuits_of
            .insert(id.clone(), circuits.iter().copied().collect());
        id
    }

    pub(crate) fn hold(&mut self, text: String, screws: Vec<String>) {
        self.layout.parts.push(brake::holder(text, screws));
    }

    /// Joins two ends by a line of any kind.
    pub(crate) fn line(&mut self, circuit: usize, from: &Target, to: &Target) {
        let id = self.name("line");
        let kind = self.line_kind(&id);
        let (from_end, to_end) = (&from.end, &to.end);
        self.layout.lines.push(format!(
            "(id: \"{id}\", from: \"{from_end}\", to: \"{to_end}\", kind: {kind})"
        ));
        let known = &mut self.layout.known;
        known.joints.push([from.body.clone(), to.body.clone()]);
        known.circuits_of.insert(id.clone(), [circuit].into());
        known.lines.push(id);
    }

    fn line_kind(&mut self, id: &str) -> String {
        let length_m = match self.choices.below(4) {
            0 => *self.choices.pick(&[0.5, 1.0, 2.0]),
            1 => self.choices.between(0.05, 0.60, 11),
            _ => self.choices.between(0.10, 4.4, 86),
        };
        let tolerance_m = match self.choices.below(3) {
            0 => 0.0,
            1 => 0.02,
            _ => length_m * 0.1,
        };
        let length = if tolerance_m > 0.0 {
            format!("{length_m:.3} m ± {tolerance_m:.4} m")
        } else {
            format!("{length_m:.3} m")
        };
        match self.choices.below(9) {
            5 | 6 => {
                let bore_mm = *self.choices.pick(&[3.2, 2.5, 4.8]);
                self.expect_contents(id, [bore_mm; 3], length_m, tolerance_m);
                let material = *self.choices.pick(&["rubber", "braided", ""]);
                let mut kind = format!("bore: \"{bore_mm} mm\", length: \"{length}\"");
                if material == "rubber" {
                    self.layout.known.rubber_hoses.push(id.to_owned());
                }
                if !material.is_empty() {
                    kind += &format!(", material: {material}");
                }
                if self.choices.chance(50) {
                    kind += ", expansion: regular";
                }
                format!("hose({kind})")
            }
            7 => {
                let bore_mm = self.choices.between(2.0, 6.0, 20);
                let corners = [bore_mm - 0.1, bore_mm, bore_mm + 0.1];
                self.expect_contents(id, corners, length_m, tolerance_m);
                format!("pipe(bore: \"{bore_mm:.2} mm ± 0.1 mm\", length: \"{length}\")")
            }
            8 => {
                self.expect_contents(id, [0.0; 3], 0.0, 0.0);
                "direct".to_owned()
            }
            _ => {
                let size = *self.choices.pick(&[
                    "size: \"3/16 in\"",
                    "size: \"4.75 mm\", wall: \"0.70 mm\"",
                    "size: \"4.75 mm\"",
                    "size: \"6 mm\", wall: \"1.0 mm\"",
                    "size: \"5 mm\"",
                    "size: \"1/4 in\"",
                ]);
                format!("pipe({size}, length: \"{length}\")")
            }
        }
    }

    /// Bore area times length, worked out here.
    fn expect_contents(&mut self, id: &str, bores_mm: [f64; 3], length_m: f64, tolerance_m: f64) {
        let lengths_m = [length_m - tolerance_m, length_m, length_m + tolerance_m];
        let contents_ml = [0, 1, 2].map(|corner| {
            // Square millimetres times metres are millilitres.
            FRAC_PI_4 * bores_mm[corner] * bores_mm[corner] * lengths_m[corner]
        });
        self.layout
            .known
            .line_contents_ml
            .insert(id.to_owned(), contents_ml);
    }

    /// Leads from a place to all of these brakes.
    pub(crate) fn lead(&mut self, circuit: usize, from: Target, mut targets: Vec<Target>) {
        let mut from = from;
        while self.choices.chance(30) {
            let on_the_way = self.on_the_way(circuit);
            self.line(circuit, &from, &on_the_way);
            from = on_the_way;
        }
        if targets.len() == 1 {
            let target = targets.remove(0);
            if self.choices.chance(40) {
                let union = self.junction("union", circuit);
                self.line(circuit, &from, &union);
                self.line(circuit, &union, &target);
                // Two lines between the same parts: a loop inside the circuit.
                if self.choices.chance(4) {
                    self.line(circuit, &union, &target);
                }
            } else {
                self.line(circuit, &from, &target);
            }
            return;
        }
        // Several lines may start at the chamber itself, or at a tee.
        if self.choices.chance(85) || self.choices.below(2) == 0 {
            let kind = *self.choices.pick(&["tee", "block"]);
            let tee = self.junction(kind, circuit);
            self.line(circuit, &from, &tee);
            from = tee;
        }
        for group in self.groups(targets) {
            self.lead(circuit, from.clone(), group);
        }
    }

    /// Two or more groups, none of them empty.
    pub(crate) fn groups(&mut self, targets: Vec<Target>) -> Vec<Vec<Target>> {
        let count = targets.len();
        if count < 2 {
            return vec![targets];
        }
        let groups = 2 + self.choices.below(count.min(3) - 1);
        let mut split: Vec<Vec<Target>> = vec![Vec::new(); groups];
        for (nth, target) in targets.into_iter().enumerate() {
            let into = if nth < groups {
                nth
            } else {
                self.choices.below(groups)
            };
            split[into].push(target);
        }
        split
    }

    fn junction(&mut self, kind: &str, circuit: usize) -> Target {
        let id = self.part(kind, &[circuit]);
        let contents = *self.choices.pick(&["", ", contents: \"1.2 ml ± 0.2 ml\""]);
        let mut screws = Vec::new();
        if kind != "union" && self.layout.known.screws.len() < MOST_SCREWS && self.choices.chance(5)
        {
            screws.push(brake::screw_on_the_way(self, &id, None, circuit));
        }
        self.hold(format!("id: \"{id}\", kind: {kind}{contents}"), screws);
        Target::plain(&id)
    }

    fn on_the_way(&mut self, circuit: usize) -> Target {
        if self.choices.chance(50) {
            return self.junction("union", circuit);
        }
        let id = self.part("valve", &[circuit]);
        let kind = *self.choices.pick(&[
            "pressure_limiting(cut_in: \"35 bar\")",
            "proportioning(cut_in: \"30 bar\", ratio: 0.4)",
            "load_sensing(cut_in: \"15 bar\", cut_in_laden: \"60 bar\")",
            "metering(hold_off: \"6 bar\")",
            "residual(holds: \"0.7 bar\")",
            "check()",
            "differential_switch",
        ]);
        self.layout.known.holds_back |= kind.starts_with("residual") || kind.starts_with("check");
        let contents = *self.choices.pick(&[", contents: \"0.8 ml\"", ""]);
        let mut screws = Vec::new();
        if self.layout.known.screws.len() < MOST_SCREWS && self.choices.chance(10) {
            screws.push(brake::screw_on_the_way(self, &id, None, circuit));
        }
        self.hold(format!("id: \"{id}\", kind: {kind}{contents}"), screws);
        Target::plain(&id)
    }
}
