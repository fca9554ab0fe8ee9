//! The numbers that are read off a press, and their bounds.

use crate::equilibrium::{Press, Rest};
use crate::mechanism::{Mechanism, SettledMechanism};
use bleedwright_mechanism::{Choice, Unknown};
use bleedwright_network::Bounds;

/// All that is read off one press, as one list of numbers.
pub(crate) struct Outputs {
    pub(crate) travel_mm: f64,
    pub(crate) stroke_share: f64,
    /// How near a piston is to the end of its stroke; 1 on it.
    pub(crate) nearest_stop: f64,
    /// By chambers: pressure in bar, share of the stroke, pressures of the brakes in bar, volumes in ml by takers.
    pub(crate) chambers: Vec<ChamberOutputs>,
}

#[derive(Default)]
pub(crate) struct ChamberOutputs {
    pub(crate) pressure_bar: f64,
    pub(crate) stroke_share: f64,
    pub(crate) brakes_bar: Vec<f64>,
    pub(crate) taken_ml: [f64; 7],
}

/// Strokes this many times as long keep every piston off its stop.
const NO_STOP: f64 = 100.0;

/// Strokes this many times as long bring every pressed piston to its stop.
const ON_STOP: f64 = 0.3;

/// Where an unknown that does not act the same way all the time is tried.
const TRIED: [f64; 9] = [0.0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1.0];

/// Changes below this share are rounding.
const ROUNDING: f64 = 1e-12;

/// How often all of those are gone through.
const SWEEPS: usize = 2;

/// The corners of every output: each unknown stands where it makes that output smallest or largest.
pub(crate) struct Corners<'m> {
    mechanism: &'m Mechanism,
    pub(crate) press: &'m Press,
    nominal: Outputs,
    /// For each unknown what it alone leads to at its low and its high bound; the second pair without stops, the third with
    /// all pistons on them.
    ends: Vec<(Unknown, [[Outputs; 2]; 3])>,
}

impl<'m> Corners<'m> {
    pub(crate) fn new(mechanism: &'m Mechanism, press: &'m Press) -> Self {
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
                    (unknown, [pair(1.0), pair(NO_STOP), pair(ON_STOP)])
                })
                .collect(),
        }
    }

    /// The bounds of one output. As long as no piston comes to its stop every output rises or falls with each unknown all the
    /// way, so that the direction it has alone is the direction it has together with the others. A stop can turn it round:
    /// a small bore makes more pressure until its piston has no stroke left. Such unknowns are tried one after the other at
    /// places all over their range, so that a bound may be missed by what lies between two places.
    pub(crate) fn bounds(&self, read: impl Fn(&Outputs) -> f64) -> Bounds<f64> {
        // How each unknown acts before the stops, and on them where it does nothing before.
        let (mut free, mut on_stop) = (Vec::with_capacity(self.ends.len()), Vec::new());
        let mut turning = Vec::new();
        for (unknown, ends) in &self.ends {
            let rises = ends.each_ref().map(|[low, high]| {
                let (low, high) = (read(low), read(high));
                let is_change = (high - low).abs() > ROUNDING * low.abs().max(high.abs());
                is_change.then_some(high > low)
            });
            match rises[0].or(rises[1]) {
                Some(rises) => free.push((*unknown, rises)),
                None => on_stop.extend(rises[2].map(|rises| (*unknown, rises))),
            }
            if rises.contains(&Some(true)) && rises.contains(&Some(false)) {
                turning.push(*unknown);
            }
        }
        let at = |choice: &Choice| read(&self.mechanism.outputs(choice, self.press, 1.0));
        let corner = |is_high: bool| {
            let is_better = |new: f64, old: f64| if is_high { new > old } else { new < old };
            let with = |choice: Choice, directed: &[(Unknown, bool)]| {
                let share = |rises: bool| if rises == is_high { 1.0 } else { 0.0 };
                (directed.iter()).fold(choice, |choice, (unknown, rises)| {
                    choice.with(*unknown, share(*rises))
                })
            };
            let before = with(Choice::nominal(), &free);
            let beyond = with(before.clone(), &on_stop);
            // What is best from one start may be out of reach from the other.
            let ends = [before, beyond].map(|mut choice| {
                let mut best = at(&choice);
                for unknown in std::iter::repeat_n(&turning, SWEEPS).flatten() {
                    for share in TRIED {
                        let other = choice.clone().with(*unknown, share);
                        let found = at(&other);
                        if is_better(found, best) {
                            (choice, best) = (other, found);
                        }
                    }
                }
                best
            });
            if is_better(ends[1], ends[0]) {
                ends[1]
            } else {
                ends[0]
            }
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
                let air = bleedwright_mechanism::of_chamber(&press.air, place);
                let taken = if press.lost == Some(place) {
                    bleedwright_mechanism::TakenUp::default()
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
    pub fn unknowns(&self) -> Vec<Unknown> {
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
    /// What is left of the stroke of the piston that is nearest to its stop, in mm.
    pub(crate) fn stroke_left_mm(&self, rest: &Rest) -> f64 {
        let strokes = self.cylinders.iter().flatten().map(|it| it.stroke_mm);
        let left = rest.chambers().zip(strokes);
        left.map(|(chamber, stroke_mm)| stroke_mm - chamber.travel_mm)
            .fold(f64::INFINITY, f64::min)
    }

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
