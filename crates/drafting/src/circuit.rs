//! Which circuits a split has, and the wheels of each.

use crate::measures::{Half, MasterKind, Measures, RearAxle, WheelBrake, is_front};
use bleedwright_network::Wheel::{self, FrontLeft, FrontRight, RearLeft, RearRight};
use bleedwright_network::{Finding, Split};
use thiserror::Error;

/// Wheels in the order in which a draft names them.
pub(crate) const WHEELS: [Wheel; 4] = [FrontLeft, FrontRight, RearLeft, RearRight];

/// Why there is no such vehicle.
#[derive(Clone, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum Impossible {
    /// More circuits than chambers, or fewer.
    #[error(
        "the split `{split}` wants a master cylinder with as many chambers as circuits, {circuits}, and this one has {chambers}"
    )]
    Chambers {
        /// The split.
        split: &'static str,
        /// Its circuits.
        circuits: usize,
        /// The cylinder's chambers.
        chambers: usize,
    },
    /// A wheel cylinder has one chamber and cannot be on two circuits.
    #[error(
        "with the split `{split}` two circuits work each {axle} wheel, and a drum brake with one wheel cylinder has one chamber: two circuits in it would be joined. Look again how many hoses lead to the wheel; give `double_drum` for two cylinders a wheel"
    )]
    OneChamber {
        /// The split.
        split: &'static str,
        /// The axle.
        axle: &'static str,
    },
    /// A split that says nothing of where its circuits go.
    #[error(
        "`other` says nothing of which wheels each circuit works; start from the split that is nearest, and change the file by hand"
    )]
    NoShape,
    /// The loader finds fault with the draft, which is a fault of this program.
    #[error("the draft is not a sound layout: {}", finding.message)]
    Unsound {
        /// The first thing that is wrong.
        finding: Box<Finding>,
    },
}

/// A circuit: the chamber that feeds it and the wheels it works.
#[derive(Clone, Debug)]
pub(crate) struct DraftCircuit {
    /// The chamber's end in a layout file: `master.primary`.
    pub(crate) port: &'static str,
    /// The circuit's name for parts of its own: `primary`.
    pub(crate) name: &'static str,
    pub(crate) wheels: Vec<Wheel>,
}

impl DraftCircuit {
    pub(crate) fn has(&self, wheel: Wheel) -> bool {
        self.wheels.contains(&wheel)
    }

    /// Whether one hose on a rigid axle feeds both rear wheels of this circuit.
    pub(crate) fn has_axle_hose(&self, measures: &Measures) -> bool {
        measures.rear_axle == RearAxle::Rigid
            && self.wheels.iter().filter(|it| !is_front(**it)).count() == 2
    }
}

/// The circuits of a split, or why it cannot be.
pub(crate) fn circuits(measures: &Measures) -> Result<Vec<DraftCircuit>, Impossible> {
    let front = || vec![FrontLeft, FrontRight];
    let rear = || vec![RearLeft, RearRight];
    let all = || WHEELS.to_vec();
    let mut wheels: Vec<Vec<Wheel>> = match measures.split {
        Split::Single => vec![all()],
        Split::II => vec![front(), rear()],
        Split::X => vec![vec![FrontLeft, RearRight], vec![FrontRight, RearLeft]],
        Split::HI => vec![all(), front()],
        Split::LL => {
            let with = |one| front().into_iter().chain([one]).collect();
            vec![with(RearRight), with(RearLeft)]
        }
        Split::HH => vec![all(), all()],
        Split::Other => return Err(Impossible::NoShape),
    };
    // ASSUMPTION: where nobody looked the half nearest the pedal feeds the first wheels; the draft marks it as a guess.
    if measures.first_wheels().is_some() && measures.half == Some(Half::Farthest) {
        wheels.reverse();
    }
    let ports: &[(&str, &str)] = match measures.cylinder {
        MasterKind::Single => &[("master", "only")],
        MasterKind::Tandem => &[
            ("master.primary", "primary"),
            ("master.secondary", "secondary"),
        ],
        MasterKind::Twin => &[("front cylinder", "first"), ("rear cylinder", "second")],
    };
    if ports.len() != wheels.len() {
        return Err(Impossible::Chambers {
            split: measures.split.word(),
            circuits: wheels.len(),
            chambers: ports.len(),
        });
    }
    for wheel in WHEELS {
        let served = wheels.iter().filter(|it| it.contains(&wheel)).count();
        if served > 1 && measures.brake(wheel) == WheelBrake::Drum {
            return Err(Impossible::OneChamber {
                split: measures.split.word(),
                axle: if is_front(wheel) { "front" } else { "rear" },
            });
        }
    }
    Ok(ports
        .iter()
        .zip(wheels)
        .map(|((port, name), wheels)| DraftCircuit { port, name, wheels })
        .collect())
}
