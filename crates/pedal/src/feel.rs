//! What a pedal does under a force: travel, pressures, and what takes up the fluid.

use crate::equilibrium::{Press, Rest};
use crate::mechanism::{Mechanism, SettledMechanism};
use crate::unknown::{Choice, Unknown};
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
    /// In words.
    pub fn text(self) -> &'static str {
        match self {
            Self::CutOff => "closing the port",
            Self::Clearance => "clearances of the brakes",
            Self::Brakes => "flexing of the brakes",
            Self::Hoses => "swelling of the hoses",
            Self::Pipes => "stretching of the pipes",
            Self::Fluid => "compression of the fluid",
            Self::Air => "trapped air",
        }
    }

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

/// All that is read off one press, as one list of numbers.
struct Outputs {
    travel_mm: f64,
    stroke_share: f64,
    /// How near a piston is to the end of its stroke; 1 on it.
    nearest_stop: f64,
    /// By chambers: pressure in bar, share of the stroke, pressures of the brakes in bar, volumes in ml by takers.
    chambers: Vec<ChamberOutputs>,
}

#[derive(Default)]
struct ChamberOutputs {
    pressure_bar: f64,
    stroke_share: f64,
    brakes_bar: Vec<f64>,
    taken_ml: [f64; 7],
}

/// Strokes this many times as long keep every piston off its stop.
const NO_STOP: f64 = 100.0;

/// The corners of every output: each unknown stands where it makes that output smallest or largest.
struct Corners<'m> {
    mechanism: &'m Mechanism,
    press: &'m Press,
    nominal: Outputs,
    /// For each unknown what it alone leads to at its low and its high bound; the second pair without stops.
    ends: Vec<(Unknown, [[Outputs; 2]; 2])>,
}

impl<'m> Corners<'m> {
    fn new(mechanism: &'m Mechanism, press: &'m Press) -> Self {
        let at = |unknown, share, stops| {
            mechanism.outputs(&Choice::nominal().with(unknown, share), press, stops)
        };
        Self {
            mechanism,
            press,
            nominal: mechanism.outputs(&Choice::nominal(), press, 1.0),
            ends: mechanism
                .unknowns()
                .into_iter()
                .map(|unknown| {
                    let pair = |stops| [at(unknown, 0.0, stops), at(unknown, 1.0, stops)];
                    (unknown, [pair(1.0), pair(NO_STOP)])
                })
                .collect(),
        }
    }

    /// The bounds of one output. Every output rises or falls with each unknown all the way, so that the direction it has
    /// alone is the direction it has together with the others; on a stop that direction does not show, and is that
    /// without stops.
    fn bounds(&self, read: impl Fn(&Outputs) -> f64) -> Bounds<f64> {
        let rises = |[[low, high], [free_low, free_high]]: &[[Outputs; 2]; 2]| {
            let with_stops = read(high) - read(low);
            let without = read(free_high) - read(free_low);
            [with_stops, without]
                .into_iter()
                .find(|change| change.abs() > 0.0)
                .map(|change| change > 0.0)
        };
        let corner = |is_high: bool| {
            let choice = self
                .ends
                .iter()
                .fold(Choice::nominal(), |choice, (unknown, ends)| {
                    match rises(ends) {
                        Some(rises) if rises == is_high => choice.with(*unknown, 1.0),
                        Some(_) => choice.with(*unknown, 0.0),
                        None => choice,
                    }
                });
            read(&self.mechanism.outputs(&choice, self.press, 1.0))
        };
        let value = read(&self.nominal);
        Bounds {
            low: corner(false).min(value),
            nominal: value,
            high: corner(true).max(value),
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

    /// Cylinder and chamber of every chamber, in order.
    pub(crate) fn places(&self) -> Vec<(usize, usize)> {
        self.cylinders
            .iter()
            .enumerate()
            .flat_map(|(index, cylinder)| (0..cylinder.chambers.len()).map(move |nth| (index, nth)))
            .collect()
    }

    /// One press; with `stops` above 1 every stroke is that many times as long.
    fn outputs(&self, choice: &Choice, press: &Press, stops: f64) -> Outputs {
        let mut settled = self.settle(choice);
        let whole_mm = settled.whole_travel_mm();
        for chamber in settled.cylinders.iter_mut().flatten() {
            chamber.stroke_mm *= stops;
        }
        let rest = settled.press(press);
        let nearest = rest
            .cylinders
            .iter()
            .flatten()
            .zip(settled.cylinders.iter().flatten())
            .map(|(at_rest, chamber)| at_rest.travel_mm / chamber.stroke_mm)
            .fold(0.0, f64::max);
        Outputs {
            travel_mm: rest.travel_mm,
            // What pedal and bulkhead flex is no stroke.
            stroke_share: (rest.travel_mm - settled.flex_mm_per_n * press.force_n) / whole_mm,
            nearest_stop: if rest.is_on_stop() {
                1.0
            } else {
                nearest.min(0.999_999)
            },
            chambers: self.chamber_outputs(&settled, &rest, press),
        }
    }

    fn chamber_outputs(
        &self,
        settled: &SettledMechanism,
        rest: &Rest,
        press: &Press,
    ) -> Vec<ChamberOutputs> {
        let clearance = if press.is_pumped {
            settled.left_after_pumping
        } else {
            1.0
        };
        self.places()
            .into_iter()
            .map(|place| {
                let at_rest = rest.cylinders[place.0][place.1];
                let chamber = &settled.cylinders[place.0][place.1];
                let zones = &self.cylinders[place.0].chambers[place.1].zones;
                let pressures = chamber.pressures(at_rest.pressure_bar);
                let air = crate::air::of_chamber(&press.air, place);
                let taken = if press.lost == Some(place) {
                    crate::mechanism::TakenUp::default()
                } else {
                    chamber.taken_up(at_rest.pressure_bar, clearance, &air)
                };
                // Where there is pressure the port is shut, even if the floating piston of a stepped cylinder has gone
                // farther than the one behind it.
                let cut_off_mm = if at_rest.pressure_bar > 0.0 {
                    chamber.cut_off_mm
                } else {
                    chamber.cut_off_mm.min(at_rest.travel_mm).max(0.0)
                };
                let cut_off = cut_off_mm * chamber.area_mm2 / 1000.0;
                ChamberOutputs {
                    pressure_bar: at_rest.pressure_bar,
                    stroke_share: (at_rest.travel_mm / chamber.stroke_mm).max(0.0),
                    brakes_bar: zones
                        .iter()
                        .zip(pressures)
                        .flat_map(|(zone, pressure)| zone.brakes.iter().map(move |_| pressure))
                        .collect(),
                    taken_ml: [
                        cut_off,
                        taken.clearance,
                        taken.brakes,
                        taken.hoses,
                        taken.pipes,
                        taken.fluid,
                        taken.air,
                    ],
                }
            })
            .collect()
    }

    /// The unknowns that leave anything to vary.
    pub(crate) fn unknowns(&self) -> Vec<Unknown> {
        let mut is_open = [false; Unknown::ALL.len()];
        self.for_each_range(&mut |range| {
            if !range.is_exact() {
                is_open[range.unknown.index()] = true;
            }
        });
        Unknown::ALL
            .into_iter()
            .filter(|unknown| is_open[unknown.index()])
            .collect()
    }
}

impl SettledMechanism {
    /// From rest to all pistons at the end of their strokes.
    pub(crate) fn whole_travel_mm(&self) -> f64 {
        let strokes: Vec<f64> = self
            .cylinders
            .iter()
            .map(|chambers| chambers.iter().map(|chamber| chamber.stroke_mm).sum())
            .collect();
        let rod = match strokes[..] {
            [one] => one,
            [first, second] => self.bar_share * first + (1.0 - self.bar_share) * second,
            _ => strokes.iter().sum(),
        };
        self.free_play_mm + self.ratio * rod
    }
}
