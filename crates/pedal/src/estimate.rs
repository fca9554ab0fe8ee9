//! How much air the measured travel of a pedal implies, and in which circuit it can be.

use crate::mechanism::Mechanism;
use crate::profile::{Fit, Profile, Surroundings};
use crate::tangent::PlainReading;
use crate::whereabouts::Whereabouts;
use bleedwright_hydraulics::rising_root;
use bleedwright_network::Bounds;
use uom::si::f64::{Force, Length, Volume};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// A travel measured at the pedal, from rest, under a force.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The force on the pedal; where nobody measured it, between its bounds.
    pub force: Bounds<Force>,
    /// The travel.
    pub travel: Length,
    /// How far the travel is trusted: nineteen readings in twenty lie within.
    pub tolerance: Length,
    /// Whether the pedal was pumped just before.
    pub is_pumped: bool,
    /// Whether the booster helped.
    pub is_boosted: bool,
}

/// An amount of air with bounds.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AirBounds {
    /// The least that explains the readings.
    pub low: Volume,
    /// The amount that explains them best.
    pub nominal: Volume,
    /// The most; none where a piston is at the end of its stroke and more would not show.
    pub high: Option<Volume>,
}

/// What the readings imply.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// The air at atmospheric pressure, wherever it is.
    pub air: AirBounds,
    /// The same if all of it is in one circuit; none where that cannot be.
    pub circuits: Vec<(String, Option<AirBounds>)>,
    /// Whether a piston stands at the end of its stroke or near it, or may: how much air there is cannot be told, and the
    /// vehicle is not to be driven.
    pub is_at_end: bool,
    /// By how much the best amount misses the readings: the sum of squares in standard deviations.
    pub misfit: f64,
    /// Whether that is more than chance explains: the layout, the readings or an assumption is wrong.
    pub is_contradiction: bool,
}

/// Why nothing can be estimated.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum EstimateError {
    /// There is no reading.
    #[error("no reading was given")]
    NoReading,
    /// The force moves no piston.
    #[error(
        "a reading at {force} N says nothing about air: the pistons hardly move against their springs"
    )]
    TooLittleForce {
        /// The force, in newtons.
        force: String,
    },
}

/// The misfit above the least at which an amount is left out: 1.96 standard deviations, 95 in 100.
const WITHIN: f64 = 3.84;

/// Amounts that would not show are left out only if they miss by as much more: of unknowns that lie evenly in their ranges
/// the ends are likelier than the filter takes them to be, and a pedal on its stop must not be called one with a little air.
///
/// ASSUMPTION: 7, together with the 3.84 above about one in a thousand.
const HIDDEN: f64 = 7.0;

/// A misfit that one in a thousand readings of a sound model shows, for each reading beyond the first.
const CONTRADICTION: f64 = 10.83;

/// How well a travel is known that is given without a tolerance, in mm.
///
/// ASSUMPTION: it is trusted to 2 mm.
pub const USUAL_TOLERANCE_MM: f64 = 2.0;

/// Readings deviate by half of the tolerance that nineteen in twenty keep to.
const DEVIATIONS_IN_TOLERANCE: f64 = 2.0;

/// A piston so near to its stop counts as one that may stand on it, in mm.
///
/// ASSUMPTION: 2 mm at the piston, about what a reading of 2 mm and a lever leave open there, with room to spare.
const NEAR_STOP_MM: f64 = 2.0;

/// Steps of the first look at the amounts.
const STEPS: u32 = 12;

/// Narrowings of the best amount.
const NARROWINGS: u32 = 10;

/// What an interval keeps in a golden section.
const GOLDEN: f64 = 0.618_033_988_749_895;

/// How closely the bounds are found.
const TOLERANCE_ML: f64 = 1e-3;

/// How many whole displacements of the cylinder are looked at.
const MOST_DISPLACEMENTS: f64 = 3.0;

/// The least pressure in bar at which a reading is taken: below it, springs decide.
const LEAST_PRESSURE_BAR: f64 = 1.0;

impl Mechanism {
    /// The air that readings imply.
    ///
    /// Every unknown may stand anywhere in its range; what is left out are amounts that would need readings or unknowns
    /// to be off by more than 95 in 100 are. Air in any circuit, or shared, before or behind a valve that holds pressure.
    ///
    /// # Errors
    ///
    /// Without a reading, or with one whose force is too small.
    pub fn air_from_readings(&self, readings: &[Reading]) -> Result<Estimate, EstimateError> {
        if readings.is_empty() {
            return Err(EstimateError::NoReading);
        }
        let mut plain: Vec<PlainReading> = readings.iter().map(plain).collect();
        let rough = plain.iter_mut().filter(|it| it.force_n[0] < it.force_n[1]);
        for (from_end, reading) in rough.enumerate() {
            reading.force_from_end = Some(from_end);
        }
        for reading in &plain {
            self.check_force(reading)?;
        }
        let around = Surroundings::new(self, &plain);
        let most_ml = MOST_DISPLACEMENTS * self.displacement_ml();
        let anywhere = Profile::new(&around, Whereabouts::new(self, |_| true));
        let looks = Looks::new(&anywhere, most_ml);
        let Fit {
            misfit, left_mm, ..
        } = looks.best.fit;
        let limit = misfit + WITHIN;
        let mut air = looks.bounds(&anywhere, limit).unwrap_or_default();
        let circuits: Vec<(String, Option<AirBounds>)> = self
            .chambers()
            .zip(self.places())
            .map(|(chamber, place)| {
                let alone = Profile::new(&around, Whereabouts::new(self, |it| it == place));
                let bounds = Looks::new(&alone, most_ml).bounds(&alone, limit);
                (chamber.name.clone(), bounds)
            })
            .collect();
        // One circuit alone is one of the ways to share the air: what is possible there is possible.
        for bounds in circuits.iter().filter_map(|(_, bounds)| *bounds) {
            air = air.or(bounds);
        }
        // With one reading any travel can be explained, if only by unlikely unknowns.
        let freedom = plain.len().saturating_sub(1).max(1) as f64;
        Ok(Estimate {
            air,
            circuits,
            is_at_end: air.high.is_none() || left_mm < NEAR_STOP_MM,
            misfit,
            is_contradiction: misfit > CONTRADICTION * freedom,
        })
    }

    fn check_force(&self, reading: &PlainReading) -> Result<(), EstimateError> {
        let press = crate::Press {
            force_n: reading.force_n[0],
            is_boosted: reading.is_boosted,
            ..crate::Press::default()
        };
        let rest = self
            .settle(&bleedwright_mechanism::Choice::nominal())
            .press(&press);
        if rest
            .chambers()
            .any(|chamber| chamber.pressure_bar >= LEAST_PRESSURE_BAR)
        {
            return Ok(());
        }
        Err(EstimateError::TooLittleForce {
            force: format!("{:.0}", reading.force_n[0]),
        })
    }

    fn displacement_ml(&self) -> f64 {
        self.chambers()
            .map(|chamber| chamber.area_mm2.nominal * chamber.stroke_mm.nominal / 1000.0)
            .sum()
    }
}

fn plain(reading: &Reading) -> PlainReading {
    PlainReading {
        force_n: [reading.force.low, reading.force.high].map(|force| force.get::<newton>()),
        force_from_end: None,
        travel_mm: reading.travel.get::<millimeter>(),
        deviation_mm: reading.tolerance.get::<millimeter>() / DEVIATIONS_IN_TOLERANCE,
        is_pumped: reading.is_pumped,
        is_boosted: reading.is_boosted,
    }
}

/// An amount and how well it fits.
#[derive(Clone, Copy)]
struct Look {
    air_ml: f64,
    fit: Fit,
}

/// The amounts that were looked at, rising, the best one among them.
struct Looks {
    all: Vec<Look>,
    best: Look,
}

impl Looks {
    fn new(profile: &Profile<'_>, most_ml: f64) -> Self {
        let look = |air_ml: f64| Look {
            air_ml,
            fit: profile.fit(air_ml),
        };
        // Small amounts are looked at more closely than those that put everything on its stop.
        let at = |nth: u32| most_ml * (f64::from(nth) / f64::from(STEPS)).powi(2);
        let mut all: Vec<Look> = (0..=STEPS).map(|nth| look(at(nth))).collect();
        let better = |one: &Look, other: &Look| one.fit.misfit.total_cmp(&other.fit.misfit);
        let nth = (0..=STEPS)
            .min_by(|a, b| better(&all[*a as usize], &all[*b as usize]))
            .unwrap_or(0);
        let mut best = all[nth as usize];
        let [mut low, mut high] = [at(nth.saturating_sub(1)), at((nth + 1).min(STEPS))];
        // Golden section: one of the two inner amounts serves again in the next narrowing.
        let inner = |low: f64, high: f64| {
            let part = GOLDEN * (high - low);
            [high - part, low + part]
        };
        let [mut left, mut right] = inner(low, high).map(look);
        for _ in 0..NARROWINGS {
            for here in [left, right] {
                if here.fit.misfit < best.fit.misfit {
                    best = here;
                }
            }
            if left.fit.misfit <= right.fit.misfit {
                high = right.air_ml;
                right = left;
                left = look(inner(low, high)[0]);
            } else {
                low = left.air_ml;
                left = right;
                right = look(inner(low, high)[1]);
            }
        }
        let place = all.partition_point(|it| it.air_ml < best.air_ml);
        if all.get(place).is_none_or(|it| it.air_ml > best.air_ml) {
            all.insert(place, best);
        }
        Self { all, best }
    }

    /// The amounts whose misfit is within the limit, from the least of them to the most; none if the best one is not.
    fn bounds(&self, profile: &Profile<'_>, limit: f64) -> Option<AirBounds> {
        let beyond = |fit: Fit| fit.misfit - limit - if fit.is_hidden { HIDDEN } else { 0.0 };
        let is_within = |it: &Look| beyond(it.fit) <= 0.0;
        let first = self.all.iter().position(is_within)?;
        let last = self.all.iter().rposition(is_within)?;
        let edge = |from: usize, outside: Option<usize>| {
            let (from, outside) = (self.all[from].air_ml, self.all[outside?].air_ml);
            let edge = rising_root([from, outside], TOLERANCE_ML, |air_ml| {
                beyond(profile.fit(air_ml))
            });
            Some(Volume::new::<milliliter>(edge))
        };
        // Air that would not show has no upper bound, and neither has what still fits at the end of the search.
        let is_open = self.all.iter().any(|it| is_within(it) && it.fit.is_hidden);
        let behind = (last + 1 < self.all.len()).then_some(last + 1);
        Some(AirBounds {
            low: edge(first, first.checked_sub(1)).unwrap_or_default(),
            nominal: Volume::new::<milliliter>(self.best.air_ml),
            high: if is_open { None } else { edge(last, behind) },
        })
    }
}

impl AirBounds {
    /// What holds whichever of the two is right.
    fn or(self, other: Self) -> Self {
        Self {
            low: self.low.min(other.low),
            nominal: self.nominal,
            high: self.high.zip(other.high).map(|(one, other)| one.max(other)),
        }
    }
}
