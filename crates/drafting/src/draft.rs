//! A whole layout file from measurements.

use crate::circuit::{DraftCircuit, Impossible, WHEELS, circuits};
use crate::measures::{MasterKind, Measures, PipeSort, WheelBrake, is_front};
use crate::pipework::{CircuitPipework, LineSort, pipe_sort, pipework, wheel_list};
use crate::text::{Quantities, volume};
use bleedwright_network::{Loaded, Wheel, load, quoted};
use std::fmt::Write;

/// A layout file and what it holds.
#[derive(Clone, Debug)]
pub struct Draft {
    /// The file.
    pub text: String,
    /// The same as read; it has no error.
    pub loaded: Loaded,
}

/// Drafts a layout file.
///
/// # Errors
///
/// When no such vehicle can be, with the reason.
pub fn draft(measures: &Measures) -> Result<Draft, Impossible> {
    let circuits = circuits(measures)?;
    let made: Vec<CircuitPipework> = circuits
        .iter()
        .map(|circuit| pipework(measures, circuit, &circuits))
        .collect();
    let text = Writer {
        measures,
        circuits: &circuits,
        made: &made,
        quantities: Quantities(measures.units),
    }
    .text();
    let loaded = load(text.as_bytes());
    match loaded.findings.iter().find(|finding| finding.is_error()) {
        Some(finding) => Err(Impossible::Unsound {
            finding: Box::new(finding.clone()),
        }),
        None => Ok(Draft { text, loaded }),
    }
}

struct Writer<'d> {
    measures: &'d Measures,
    circuits: &'d [DraftCircuit],
    made: &'d [CircuitPipework],
    quantities: Quantities,
}

impl Writer<'_> {
    fn text(&self) -> String {
        let mut text = self.head();
        text += "\n    // ---------------------------------------------------------------- under the bonnet\n\n";
        text += &self.reservoir();
        text += &self.cylinders();
        text += "\n    parts: [\n";
        text += "        // A valve on the way to the rear is not drafted. If there is one, describe it here.\n";
        text += &self.anti_lock();
        for made in self.made {
            for joint in &made.joints {
                let (id, kind) = (quoted(&joint.id), joint.kind);
                let _ = writeln!(text, "        (id: {id}, kind: {kind}),");
            }
        }
        text += "\n        // ------------------------------------------------------------ at the wheels\n\n";
        for wheel in WHEELS {
            text += &self.brake(wheel);
        }
        text += "    ],\n\n    lines: [\n";
        for (circuit, made) in self.circuits.iter().zip(self.made) {
            let (port, wheels) = (circuit.port, wheel_list(&circuit.wheels));
            let _ = writeln!(text, "        // From {port}: {wheels}.");
            let is_guessed = self.measures.first_wheels().is_some() && self.measures.half.is_none();
            if is_guessed {
                text += "        // Not known: whether the other half feeds these wheels; follow the pipes, and take the ? away.\n";
            }
            for line in &made.lines {
                let is_marked = is_guessed && line.from == port;
                let mark = if is_marked { " ?" } else { "" };
                let from = quoted(&format!("{}{mark}", line.from));
                let [id, to] = [&line.id, &line.to].map(|name| quoted(name));
                let kind = self.line_kind(&line.sort);
                let _ = writeln!(
                    text,
                    "        (id: {id}, from: {from}, to: {to},\n         kind: {kind}),"
                );
            }
        }
        text += "    ],\n)\n";
        text
    }

    fn head(&self) -> String {
        let measures = self.measures;
        let mut text = String::from(
            "// A draft from a few measurements. Figures that end in ? are guesses that nobody measured: lengths follow the
// body from cylinder to wheel, 1.1 times the way along, the ways across and up, and 0.15 m for bends, within
// 15 %. Measure what `bleedwright plan` names first, write the figure and take its ? away.
//
",
        );
        let figures = [
            ("wheelbase", measures.wheelbase_m()),
            ("track", measures.track_m()),
            ("cylinder behind the front axle", measures.cylinder_m()),
        ];
        for (what, figure) in figures {
            let how = if figure.is_measured {
                "as measured"
            } else {
                "not known"
            };
            let length = self.quantities.plain_length(figure.length);
            let _ = writeln!(text, "// {what}: {length} ({how})");
        }
        text += "\n(\n    format: 1,\n";
        let _ = writeln!(text, "    name: {},", quoted(&measures.name));
        match measures.steering {
            Some(steering) => {
                let _ = writeln!(text, "    steering: {},", steering.word());
            }
            None => text += "    // Not known: steering: left or right.\n",
        }
        match measures.fluid {
            Some(fluid) => {
                let _ = writeln!(text, "    fluid: {},", fluid.word());
            }
            None => {
                text += "    // Not known: the cap of the reservoir says it, fluid: dot4 for example.\n";
            }
        }
        if measures.is_split_guessed {
            let _ = writeln!(
                text,
                "    // Not known: this draft has the split {}. Count pipes and hoses before you plan anything by it.",
                measures.split.word()
            );
        } else {
            let _ = writeln!(text, "    split: {},", measures.split.word());
        }
        text
    }

    fn reservoir(&self) -> String {
        let mut text = String::from(
            "    // Guessed: fill it with a measured jug once, and write the contents at both marks.
    reservoirs: [\n        (id: \"reservoir\", compartments: [\n",
        );
        for circuit in self.circuits {
            let _ = writeln!(
                text,
                "            (id: {}, max: {}, min: {}, feeds: {}),",
                quoted(&format!("{} half", circuit.name)),
                volume(180.0, 40.0),
                volume(80.0, 15.0),
                quoted(circuit.port)
            );
        }
        text + "        ]),\n    ],\n"
    }

    fn cylinders(&self) -> String {
        let q = self.quantities;
        let bore = q.small_length(22.2, 3.5);
        let booster = self.booster();
        let single = |id: &str, stroke: f64| {
            format!(
                "        (id: {}, kind: single(bore: {bore}, stroke: {}){booster}),\n",
                quoted(id),
                q.small_length(stroke, 5.0)
            )
        };
        let mut text = String::from(
            "    // The bore is cast or stamped on many cylinders; the stroke is in the manual. Both guessed.\n",
        );
        if self.measures.has_booster.is_none() {
            text += if booster.is_empty() {
                "    // Not known: a booster. None is drafted beside a balance bar.\n"
            } else {
                "    // Not known: a booster. Nearly every car has one, so it is drafted; take it away if there is none.\n"
            };
        }
        text += "    cylinders: [\n";
        match self.measures.cylinder {
            MasterKind::Single => text += &single("master", 28.0),
            MasterKind::Twin => {
                text += &single("front cylinder", 28.0);
                text += &single("rear cylinder", 28.0);
            }
            MasterKind::Tandem => {
                let _ = writeln!(
                    text,
                    "        (id: \"master\", kind: tandem(bore: {bore},\n            primary: (stroke: {stroke}), secondary: (stroke: {stroke})){booster}),",
                    stroke = q.small_length(16.0, 4.0)
                );
            }
        }
        text += "    ],\n";
        if self.measures.cylinder == MasterKind::Twin {
            text += "    balance_bars: [(cylinders: [\"front cylinder\", \"rear cylinder\"])],\n";
        }
        text
    }

    /// The booster behind each cylinder, as a field of it.
    fn booster(&self) -> &'static str {
        // ASSUMPTION: where nobody looked a pedal has one, but not with a balance bar.
        let is_usual = self.measures.cylinder != MasterKind::Twin;
        if self.measures.has_booster.unwrap_or(is_usual) {
            ", booster: (kind: vacuum)"
        } else {
            ""
        }
    }

    fn anti_lock(&self) -> String {
        if !self.measures.has_anti_lock {
            return String::new();
        }
        let mut text = String::from(
            "        // Its volumes are guesses; the maker's routine is in the manual. Its screws, if any, are not drafted.
        (id: \"anti-lock unit\", kind: anti_lock(circuits: [\n",
        );
        for (circuit, made) in self.circuits.iter().zip(self.made) {
            let outlets: Vec<String> = made
                .lines
                .iter()
                .filter_map(|line| line.from.strip_prefix("anti-lock unit."))
                .map(quoted)
                .collect();
            let _ = writeln!(
                text,
                "            (inlet: {}, outlets: [{}],\n             through: {}, trapped: {}),",
                quoted(&format!("{} in", circuit.name)),
                outlets.join(", "),
                volume(4.0, 2.0),
                volume(2.5, 1.5)
            );
        }
        text + "        ])),\n"
    }

    fn brake(&self, wheel: Wheel) -> String {
        let q = self.quantities;
        let serving: Vec<&DraftCircuit> = self.circuits.iter().filter(|it| it.has(wheel)).collect();
        let bore_mm = if is_front(wheel) {
            [54.0, 20.0]
        } else {
            [40.0, 16.0]
        };
        let text = wheel.text();
        let word = wheel.word();
        let screw = |id: &str, rest: &str| format!("(id: {}{rest})", quoted(id));
        match self.measures.brake(wheel) {
            WheelBrake::Disc => {
                let pistons = format!(
                    "pistons: [(bore: {})]",
                    q.small_length(bore_mm[0], bore_mm[1])
                );
                let (kind, screws) = if serving.len() == 1 {
                    (format!("caliper({pistons})"), vec![screw(text, "")])
                } else {
                    let chamber =
                        |it: &&DraftCircuit| format!("(id: {}, {pistons})", quoted(it.name));
                    let chambers: Vec<String> = serving.iter().map(chamber).collect();
                    let screws = serving
                        .iter()
                        .map(|it| {
                            screw(
                                &format!("{text} {}", it.name),
                                &format!(", chamber: {}", quoted(it.name)),
                            )
                        })
                        .collect();
                    (
                        format!("caliper(chambers: [{}])", chambers.join(", ")),
                        screws,
                    )
                };
                format!(
                    "        (id: {}, kind: {kind},\n         wheel: {word}, screws: [{}]),\n",
                    quoted(&format!("{text} caliper")),
                    screws.join(", ")
                )
            }
            WheelBrake::Drum => self.wheel_cylinder(wheel, &format!("{text} cylinder"), text, ""),
            WheelBrake::DoubleDrum => ["upper", "lower"]
                .map(|place| {
                    self.wheel_cylinder(
                        wheel,
                        &format!("{text} {place} cylinder"),
                        &format!("{text} {place}"),
                        &format!(" place: {place},"),
                    )
                })
                .concat(),
        }
    }

    fn wheel_cylinder(&self, wheel: Wheel, id: &str, screw: &str, place: &str) -> String {
        format!(
            "        (id: {}, kind: wheel_cylinder(bore: {}), wheel: {},{place}\n         screws: [(id: {})]),\n",
            quoted(id),
            self.quantities.small_length(22.2, 4.5),
            wheel.word(),
            quoted(screw)
        )
    }

    fn line_kind(&self, sort: &LineSort) -> String {
        let (LineSort::Pipe(run) | LineSort::RearPipe(run) | LineSort::Hose(run)) = sort;
        let length = self.quantities.length(*run);
        if matches!(sort, LineSort::Hose(_)) {
            return format!("hose(length: {length})");
        }
        match pipe_sort(self.measures, sort) {
            Some(PipeSort { size, wall: None }) => {
                format!("pipe(size: {}, length: {length})", quoted(size))
            }
            Some(PipeSort {
                size,
                wall: Some(wall),
            }) => format!(
                "pipe(size: {}, wall: {}, length: {length})",
                quoted(size),
                quoted(wall)
            ),
            None => format!(
                "pipe(bore: {}, length: {length})",
                self.quantities.small_length(3.3, 0.4)
            ),
        }
    }
}
