//! Which circuits a split has, and the wheels of each.

use crate::draft::Impossible;
use crate::measures::{Half, MasterKind, Measures, RearAxle, WheelBrake};
use bleedwright_network::{Side, Split};

/// A wheel of a car.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct CarWheel {
    pub(crate) is_front: bool,
    pub(crate) side: Side,
}

impl CarWheel {
    /// `front left`.
    pub(crate) fn text(self) -> String {
        format!("{} {}", self.axle(), side_text(self.side))
    }

    /// `front_left`.
    pub(crate) fn word(self) -> String {
        self.text().replace(' ', "_")
    }

    pub(crate) fn axle(self) -> &'static str {
        if self.is_front { "front" } else { "rear" }
    }
}

pub(crate) fn side_text(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// Wheels in the order in which a draft names them.
pub(crate) const WHEELS: [CarWheel; 4] = [
    wheel(true, Side::Left),
    wheel(true, Side::Right),
    wheel(false, Side::Left),
    wheel(false, Side::Right),
];

const fn wheel(is_front: bool, side: Side) -> CarWheel {
    CarWheel { is_front, side }
}

/// A circuit: the chamber that feeds it and the wheels it works.
#[derive(Clone, Debug)]
pub(crate) struct DraftCircuit {
    /// The chamber's end in a layout file: `master.primary`.
    pub(crate) port: &'static str,
    /// The circuit's name for parts of its own: `primary`.
    pub(crate) name: &'static str,
    pub(crate) wheels: Vec<CarWheel>,
}

impl DraftCircuit {
    pub(crate) fn has(&self, wheel: CarWheel) -> bool {
        self.wheels.contains(&wheel)
    }

    /// Whether one hose on a rigid axle feeds both rear wheels of this circuit.
    pub(crate) fn has_axle_hose(&self, measures: &Measures) -> bool {
        measures.rear_axle == RearAxle::Rigid
            && self.wheels.iter().filter(|it| !it.is_front).count() == 2
    }
}

/// The circuits of a split, or why it cannot be.
pub(crate) fn circuits(measures: &Measures) -> Result<Vec<DraftCircuit>, Impossible> {
    let [left, right] = [Side::Left, Side::Right];
    let front = || vec![wheel(true, left), wheel(true, right)];
    let rear = || vec![wheel(false, left), wheel(false, right)];
    let all = || WHEELS.to_vec();
    let mut wheels: Vec<Vec<CarWheel>> = match measures.split {
        Split::Single => vec![all()],
        Split::II => vec![front(), rear()],
        Split::X => vec![
            vec![wheel(true, left), wheel(false, right)],
            vec![wheel(true, right), wheel(false, left)],
        ],
        Split::HI => vec![all(), front()],
        Split::LL => {
            let with = |one| front().into_iter().chain([one]).collect();
            vec![with(wheel(false, right)), with(wheel(false, left))]
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
        let brake = if wheel.is_front {
            measures.front
        } else {
            measures.rear
        };
        if served > 1 && brake == WheelBrake::Drum {
            return Err(Impossible::OneChamber {
                split: measures.split.word(),
                axle: wheel.axle(),
            });
        }
    }
    Ok(ports
        .iter()
        .zip(wheels)
        .map(|((port, name), wheels)| DraftCircuit { port, name, wheels })
        .collect())
}
