//! What a pedal does under a force: travel, pressures, and what takes up the fluid.

use crate::equilibrium::Press;
use crate::mechanism::Mechanism;
use crate::output::Corners;
use bleedwright_mechanism::Choice;
use bleedwright_network::Bounds;
use uom::si::f64::{Length, Pressure, Ratio, Volume};
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// A pressed pedal.
#[derive(Clone, Debug, PartialEq)]
pub struct Feel {
    /// Travel at the pedal.
    pub travel: Bounds<Length>,
    /// The share of the pedal's whole travel, from rest to all pistons at the end of their strokes.
    pub stroke_share: Bounds<Ratio>,
    /// Whether a piston stands at the end of its stroke: never, in the worst case, or in the nominal one.
    pub on_stop: OnStop,
    /// The circuits, in the order of cylinders and chambers.
    pub circuits: Vec<CircuitFeel>,
    /// What takes up the fluid, largest first.
    pub contributions: Vec<Contribution>,
}

/// Whether a piston comes to the end of its stroke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnStop {
    /// In no case.
    Never,
    /// In the case of the longest travel.
    Perhaps,
    /// Nominally.
    Yes,
}

/// One circuit under the pedal.
#[derive(Clone, Debug, PartialEq)]
pub struct CircuitFeel {
    /// Its name.
    pub name: String,
    /// Pressure in the chamber.
    pub pressure: Bounds<Pressure>,
    /// The share of its piston's own stroke.
    pub stroke_share: Bounds<Ratio>,
    /// Whether it was taken as lost.
    pub is_lost: bool,
    /// Pressure at each of its brakes.
    pub brakes: Vec<BrakeFeel>,
}

/// One brake under the pedal.
#[derive(Clone, Debug, PartialEq)]
pub struct BrakeFeel {
    /// Its name.
    pub name: String,
    /// The part, by its place in the layout.
    pub part: usize,
    /// Pressure behind its pistons.
    pub pressure: Bounds<Pressure>,
}

/// Something that takes up fluid.
#[derive(Clone, Debug, PartialEq)]
pub struct Contribution {
    /// The circuit.
    pub circuit: String,
    /// What it is.
    pub what: Taker,
    /// What it takes up.
    pub volume: Bounds<Volume>,
}

/// The things that take up fluid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Taker {
    /// The piston's travel that only closes the port.
    CutOff,
    /// Clearances of the brakes.
    Clearance,
    /// Flexing of the brakes.
    Brakes,
    /// Swelling of the hoses.
    Hoses,
    /// Stretching of the pipes.
    Pipes,
    /// The fluid itself.
    Fluid,
    /// Trapped air.
    Air,
}

impl Taker {
    /// In JSON.
    pub fn word(self) -> &'static str {
        match self {
            Self::CutOff => "cut_off",
            Self::Clearance => "clearance",
            Self::Brakes => "brakes",
            Self::Hoses => "hoses",
            Self::Pipes => "pipes",
            Self::Fluid => "fluid",
            Self::Air => "air",
        }
    }
}

impl Mechanism {
    /// What the pedal does under a force. Bounds are corners.
    pub fn feel(&self, press: &Press) -> Feel {
        let corners = Corners::new(self, press);
        let stop = corners.bounds(|outputs| outputs.nearest_stop);
        Feel {
            travel: corners
                .bounds(|outputs| outputs.travel_mm)
                .map(Length::new::<millimeter>),
            stroke_share: corners
                .bounds(|outputs| outputs.stroke_share)
                .map(Ratio::new::<ratio>),
            on_stop: if stop.nominal >= 1.0 {
                OnStop::Yes
            } else if stop.high >= 1.0 {
                OnStop::Perhaps
            } else {
                OnStop::Never
            },
            circuits: self.circuit_feels(&corners),
            contributions: self.contributions(&corners),
        }
    }

    fn circuit_feels(&self, corners: &Corners<'_>) -> Vec<CircuitFeel> {
        let places = self.places();
        self.chambers()
            .enumerate()
            .map(|(index, chamber)| {
                let names = chamber.zones.iter().flat_map(|zone| &zone.brakes);
                CircuitFeel {
                    name: chamber.name.clone(),
                    pressure: corners
                        .bounds(|outputs| outputs.chambers[index].pressure_bar)
                        .map(Pressure::new::<bar>),
                    stroke_share: corners
                        .bounds(|outputs| outputs.chambers[index].stroke_share)
                        .map(Ratio::new::<ratio>),
                    is_lost: corners.press.lost == Some(places[index]),
                    brakes: names
                        .enumerate()
                        .map(|(nth, brake)| BrakeFeel {
                            name: brake.name.clone(),
                            part: brake.part,
                            pressure: corners
                                .bounds(|outputs| outputs.chambers[index].brakes_bar[nth])
                                .map(Pressure::new::<bar>),
                        })
                        .collect(),
                }
            })
            .collect()
    }

    fn contributions(&self, corners: &Corners<'_>) -> Vec<Contribution> {
        const TAKERS: [Taker; 7] = [
            Taker::CutOff,
            Taker::Clearance,
            Taker::Brakes,
            Taker::Hoses,
            Taker::Pipes,
            Taker::Fluid,
            Taker::Air,
        ];
        let mut all = Vec::new();
        for (index, chamber) in self.chambers().enumerate() {
            for (nth, what) in TAKERS.into_iter().enumerate() {
                let volume = corners.bounds(|outputs| outputs.chambers[index].taken_ml[nth]);
                if volume.high > 0.0 {
                    all.push(Contribution {
                        circuit: chamber.name.clone(),
                        what,
                        volume: volume.map(Volume::new::<milliliter>),
                    });
                }
            }
        }
        all.sort_by(|a, b| {
            b.volume
                .nominal
                .value
                .total_cmp(&a.volume.nominal.value)
                .then_with(|| (&a.circuit, a.what).cmp(&(&b.circuit, b.what)))
        });
        all
    }

    /// Travel of the pedal with one choice of the unknowns, in mm.
    pub fn travel_mm(&self, choice: &Choice, press: &Press) -> f64 {
        self.settle(choice).press(press).travel_mm
    }

    /// The pressures in the chambers with one choice of the unknowns, in bar, in the order of [`Mechanism::chambers`].
    pub fn pressures_bar(&self, choice: &Choice, press: &Press) -> Vec<f64> {
        let rest = self.settle(choice).press(press);
        rest.chambers()
            .map(|chamber| chamber.pressure_bar)
            .collect()
    }

    /// What is left of the stroke of the piston that comes nearest to its stop, with one choice of the unknowns, in mm.
    pub fn stroke_left_mm(&self, choice: &Choice, press: &Press) -> f64 {
        let settled = self.settle(choice);
        settled.stroke_left_mm(&settled.press(press))
    }
}
