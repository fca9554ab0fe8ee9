//! The parts and lines of a draft: from each chamber to its screws.

use crate::circuit::{DraftCircuit, WHEELS};
use crate::measures::{Measures, PipeSort, Run, WheelBrake, is_front};
use crate::route::{Spot, route};
use bleedwright_network::{Side, Steering, Wheel};

/// A joint between two lines.
#[derive(Clone, Debug)]
pub(crate) struct Joint {
    pub(crate) id: String,
    pub(crate) kind: &'static str,
}

#[derive(Clone, Debug)]
pub(crate) enum LineSort {
    Pipe(Run),
    /// The long pipe to the rear.
    RearPipe(Run),
    Hose(Run),
}

/// A line from one end to another.
#[derive(Clone, Debug)]
pub(crate) struct DraftLine {
    pub(crate) id: String,
    pub(crate) from: String,
    pub(crate) to: String,
    pub(crate) sort: LineSort,
}

/// The joints and lines of one circuit.
#[derive(Clone, Debug, Default)]
pub(crate) struct CircuitPipework {
    pub(crate) joints: Vec<Joint>,
    pub(crate) lines: Vec<DraftLine>,
}

/// ASSUMPTION: hoses at front wheels 0.30 to 0.54 m long, at the rear 0.23 to 0.45 m.
const FRONT_HOSE_M: Run = Run {
    low: 0.30,
    nominal: 0.42,
    high: 0.54,
};
/// See [`FRONT_HOSE_M`].
const REAR_HOSE_M: Run = Run {
    low: 0.23,
    nominal: 0.34,
    high: 0.45,
};
/// ASSUMPTION: the pipe that joins two wheel cylinders of a wheel.
const BRIDGE_M: Run = Run {
    low: 0.24,
    nominal: 0.30,
    high: 0.36,
};

/// The pipework of a circuit; `is_shared` says whether another one works a wheel too, and names are told apart.
pub(crate) fn pipework(
    measures: &Measures,
    circuit: &DraftCircuit,
    circuits: &[DraftCircuit],
) -> CircuitPipework {
    let mut builder = Builder {
        measures,
        circuit,
        circuits,
        made: CircuitPipework::default(),
    };
    builder.build();
    builder.made
}

struct Builder<'m> {
    measures: &'m Measures,
    circuit: &'m DraftCircuit,
    circuits: &'m [DraftCircuit],
    made: CircuitPipework,
}

/// Where a branch begins: the end of its line, and the spot.
#[derive(Clone)]
struct Source {
    end: String,
    spot: Spot,
}

impl Builder<'_> {
    fn build(&mut self) {
        let [front, rear]: [Vec<Wheel>; 2] = [true, false].map(|of_front| {
            let of_axle = |wheel: &Wheel| is_front(*wheel) == of_front && self.circuit.has(*wheel);
            WHEELS.into_iter().filter(of_axle).collect()
        });
        let is_one_branch_rear = rear.len() < 2
            || !self.measures.has_anti_lock
            || self.circuit.has_axle_hose(self.measures);
        let branches = front.len()
            + if is_one_branch_rear {
                rear.len().min(1)
            } else {
                rear.len()
            };
        let root = self.root(branches);
        for wheel in front {
            let source = self.outlet(&root, wheel.text());
            self.front_branch(&source, wheel);
        }
        if self.circuit.has_axle_hose(self.measures) {
            let source = self.outlet(&root, "rear axle");
            self.axle_branch(&source, &rear);
        } else if rear.len() == 2 && !self.measures.has_anti_lock {
            let tee = self.joint("rear tee", "tee");
            self.rear_pipe(&root, &tee, Spot::REAR_TEE);
            let source = Source {
                end: tee,
                spot: Spot::REAR_TEE,
            };
            for wheel in rear {
                self.wheel_branch(&source, wheel, false);
            }
        } else {
            for wheel in rear {
                let source = self.outlet(&root, wheel.text());
                self.wheel_branch(&source, wheel, true);
            }
        }
    }

    /// Where the branches begin: at the chamber, at a tee or block below it, or at the anti-lock unit.
    fn root(&mut self, branches: usize) -> Source {
        let chamber = Source {
            end: self.circuit.port.to_owned(),
            spot: Spot::CYLINDER,
        };
        if self.measures.has_anti_lock {
            let inlet = format!("anti-lock unit.{} in", self.circuit.name);
            self.pipe(
                &format!("{} feed pipe", self.circuit.name),
                &chamber,
                &inlet,
                &[Spot::ANTI_LOCK],
            );
            return Source {
                end: "anti-lock unit".to_owned(),
                spot: Spot::ANTI_LOCK,
            };
        }
        // A diagonal circuit's two pipes leave the cylinder itself.
        if branches < 2 || self.measures.split == bleedwright_network::Split::X {
            return chamber;
        }
        let kind = if branches > 2 { "block" } else { "tee" };
        let block = self.joint(kind, kind);
        self.pipe("cylinder pipe", &chamber, &block, &[Spot::BLOCK]);
        Source {
            end: block,
            spot: Spot::BLOCK,
        }
    }

    /// The end of a branch at its root; an anti-lock unit has an outlet for each.
    fn outlet(&self, root: &Source, branch: &str) -> Source {
        let end = if self.measures.has_anti_lock {
            format!("{}.{}", root.end, self.own(branch))
        } else {
            root.end.clone()
        };
        Source {
            end,
            ..root.clone()
        }
    }

    fn front_branch(&mut self, source: &Source, wheel: Wheel) {
        let joint = self.joint(&format!("{} joint", wheel.text()), "union");
        self.pipe(
            &format!("{} pipe", wheel.text()),
            source,
            &joint,
            &self.spots(wheel, Spot::front_joint),
        );
        self.hose(
            &format!("{} hose", wheel.text()),
            &joint,
            wheel,
            FRONT_HOSE_M,
        );
    }

    /// A rear wheel with a hose of its own.
    fn wheel_branch(&mut self, source: &Source, wheel: Wheel, is_long: bool) {
        let joint = self.joint(&format!("{} joint", wheel.text()), "union");
        let run = self.run(source.spot, &self.spots(wheel, Spot::rear_joint));
        let sort = if is_long {
            LineSort::RearPipe(run)
        } else {
            LineSort::Pipe(run)
        };
        self.line(&format!("{} pipe", wheel.text()), &source.end, &joint, sort);
        self.hose(
            &format!("{} hose", wheel.text()),
            &joint,
            wheel,
            REAR_HOSE_M,
        );
    }

    /// Both rear wheels behind one hose to the axle.
    fn axle_branch(&mut self, source: &Source, wheels: &[Wheel]) {
        let joint = self.joint("axle joint", "union");
        self.rear_pipe(source, &joint, Spot::AXLE_JOINT);
        let tee = self.joint("axle tee", "tee");
        self.line("axle hose", &joint, &tee, LineSort::Hose(REAR_HOSE_M));
        for wheel in wheels {
            let run = self.run(Spot::AXLE_TEE, &self.spots(*wheel, Spot::axle_end));
            let brake = self.brake_end(*wheel);
            self.line(
                &format!("{} pipe", wheel.text()),
                &tee,
                &brake,
                LineSort::Pipe(run),
            );
            self.bridge(*wheel);
        }
    }

    fn hose(&mut self, id: &str, joint: &str, wheel: Wheel, length: Run) {
        let brake = self.brake_end(wheel);
        self.line(id, joint, &brake, LineSort::Hose(length));
        self.bridge(wheel);
    }

    /// From the lower to the upper cylinder of a wheel that one circuit works.
    fn bridge(&mut self, wheel: Wheel) {
        let brake = self.measures.brake(wheel);
        if brake == WheelBrake::DoubleDrum && !self.is_shared(wheel) {
            let text = wheel.text();
            self.line(
                &format!("{text} bridge"),
                &format!("{text} lower cylinder"),
                &format!("{text} upper cylinder"),
                LineSort::Pipe(BRIDGE_M),
            );
        }
    }

    fn brake_end(&self, wheel: Wheel) -> String {
        let text = wheel.text();
        let brake = self.measures.brake(wheel);
        let is_first = self
            .circuits
            .iter()
            .find(|it| it.has(wheel))
            .is_some_and(|it| it.name == self.circuit.name);
        match (brake, self.is_shared(wheel)) {
            (WheelBrake::Disc, false) => format!("{text} caliper"),
            (WheelBrake::Disc, true) => format!("{text} caliper.{}", self.circuit.name),
            (WheelBrake::Drum, _) => format!("{text} cylinder"),
            (WheelBrake::DoubleDrum, true) if is_first => format!("{text} upper cylinder"),
            (WheelBrake::DoubleDrum, _) => format!("{text} lower cylinder"),
        }
    }

    fn is_shared(&self, wheel: Wheel) -> bool {
        self.circuits.iter().filter(|it| it.has(wheel)).count() > 1
    }

    /// A name of this circuit, told apart where the other one has something of that name too.
    fn own(&self, name: &str) -> String {
        let of_wheel = WHEELS
            .into_iter()
            .find(|wheel| name.starts_with(wheel.text()));
        let is_twice = match of_wheel {
            Some(wheel) => self.is_shared(wheel),
            None if name.starts_with("axle") || name.starts_with("rear") => {
                let works_rear =
                    |it: &&DraftCircuit| it.wheels.iter().any(|wheel| !is_front(*wheel));
                self.circuits.iter().filter(works_rear).count() > 1
            }
            None => self.circuits.len() > 1,
        };
        if is_twice && !name.starts_with(self.circuit.name) {
            format!("{} {name}", self.circuit.name)
        } else {
            name.to_owned()
        }
    }

    fn joint(&mut self, name: &str, kind: &'static str) -> String {
        let id = self.own(name);
        self.made.joints.push(Joint {
            id: id.clone(),
            kind,
        });
        id
    }

    fn rear_pipe(&mut self, from: &Source, to: &str, spot: Spot) {
        let run = self.run(from.spot, &[spot]);
        self.line("rear pipe", &from.end, to, LineSort::RearPipe(run));
    }

    fn pipe(&mut self, id: &str, from: &Source, to: &str, spots: &[Spot]) {
        let run = self.run(from.spot, spots);
        self.line(id, &from.end, to, LineSort::Pipe(run));
    }

    fn line(&mut self, id: &str, from: &str, to: &str, sort: LineSort) {
        self.made.lines.push(DraftLine {
            id: self.own(id),
            from: from.to_owned(),
            to: to.to_owned(),
            sort,
        });
    }

    /// Where a wheel's part may sit: on the cylinder's side or across, or either where the side is not known.
    fn spots(&self, wheel: Wheel, spot: impl Fn(f64) -> Spot) -> Vec<Spot> {
        let near = match self.measures.steering {
            Some(Steering::Left) => Some(Side::Left),
            Some(Steering::Right) => Some(Side::Right),
            _ => None,
        };
        match near {
            Some(_) if near == wheel.side() => vec![spot(1.0)],
            Some(_) => vec![spot(-1.0)],
            None => vec![spot(1.0), spot(-1.0)],
        }
    }

    /// The run to a spot, or to either of two.
    fn run(&self, from: Spot, to: &[Spot]) -> Run {
        let runs = to.iter().map(|to| route(self.measures, from, *to));
        runs.reduce(|one, other| Run {
            low: one.low.min(other.low),
            nominal: f64::midpoint(one.nominal, other.nominal),
            high: one.high.max(other.high),
        })
        .unwrap_or(BRIDGE_M)
    }
}

pub(crate) fn pipe_sort<'m>(measures: &'m Measures, sort: &LineSort) -> Option<&'m PipeSort> {
    match sort {
        LineSort::RearPipe(_) => measures.rear_pipe.as_ref().or(measures.pipe.as_ref()),
        _ => measures.pipe.as_ref(),
    }
}

/// The wheels' names in a sentence.
pub(crate) fn wheel_list(wheels: &[Wheel]) -> String {
    let names: Vec<&str> = wheels.iter().map(|wheel| wheel.text()).collect();
    names.join(", ")
}
