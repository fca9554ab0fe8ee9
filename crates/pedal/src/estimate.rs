//! How much air the measured travel of a pedal implies, and in which circuit it can be.

use crate::mechanism::Mechanism;
use crate::profile::{Fit, Profile, Surroundings};
use crate::root::rising_root;
use crate::tangent::PlainReading;
use crate::whereabouts::Whereabouts;
use uom::si::f64::{Force, Length, Volume};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// A travel measured at the pedal, from rest, under a force.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The force on the pedal.
    pub force: Force,
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

/// A misfit that one in a thousand readings of a sound model shows, for each reading beyond the first.
const CONTRADICTION: f64 = 10.83;

/// Readings deviate by half of the tolerance that nineteen in twenty keep to.
const DEVIATIONS_IN_TOLERANCE: f64 = 2.0;

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
        let plain: Vec<PlainReading> = readings.iter().map(plain).collect();
        for reading in &plain {
            self.check_force(reading)?;
        }
        let around = Surroundings::new(self, &plain);
        let most_ml = MOST_DISPLACEMENTS * self.displacement_ml();
        let anywhere = Profile::new(&around, Whereabouts::new(self, |_| true));
        let best = best_of(&anywhere, most_ml);
        let limit = best.misfit + WITHIN;
        let air = bounds_of(&anywhere, best, limit, most_ml).unwrap_or_default();
        let circuits = self
            .chambers()
            .zip(self.places())
            .map(|(chamber, place)| {
                let alone = Profile::new(&around, Whereabouts::new(self, |it| it == place));
                let best = best_of(&alone, most_ml);
                (
                    chamber.name.clone(),
                    bounds_of(&alone, best, limit, most_ml),
                )
            })
            .collect();
        let misfit = best.misfit;
        // With one reading any travel can be explained, if only by unlikely unknowns.
        let freedom = plain.len().saturating_sub(1).max(1) as f64;
        Ok(Estimate {
            air,
            circuits,
            misfit,
            is_contradiction: misfit > CONTRADICTION * freedom,
        })
    }

    fn check_force(&self, reading: &PlainReading) -> Result<(), EstimateError> {
        let press = crate::Press {
            force_n: reading.force_n,
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
            force: format!("{:.0}", reading.force_n),
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
        force_n: reading.force.get::<newton>(),
        travel_mm: reading.travel.get::<millimeter>(),
        deviation_mm: reading.tolerance.get::<millimeter>() / DEVIATIONS_IN_TOLERANCE,
        is_pumped: reading.is_pumped,
        is_boosted: reading.is_boosted,
    }
}

/// The amount with the least misfit.
#[derive(Clone, Copy)]
struct Best {
    air_ml: f64,
    misfit: f64,
    is_hidden: bool,
}

fn best_of(profile: &Profile<'_>, most_ml: f64) -> Best {
    let look = |air_ml: f64| {
        let Fit { misfit, is_hidden } = profile.fit(air_ml);
        Best {
            air_ml,
            misfit,
            is_hidden,
        }
    };
    // Small amounts are looked at more closely than those that put everything on its stop.
    let at = |nth: u32| most_ml * (f64::from(nth) / f64::from(STEPS)).powi(2);
    let looks: Vec<Best> = (0..=STEPS).map(|nth| look(at(nth))).collect();
    let better = |one: &Best, other: &Best| one.misfit.total_cmp(&other.misfit);
    let nth = (0..=STEPS)
        .min_by(|a, b| better(&looks[*a as usize], &looks[*b as usize]))
        .unwrap_or(0);
    let mut best = looks[nth as usize];
    let [mut low, mut high] = [at(nth.saturating_sub(1)), at((nth + 1).min(STEPS))];
    // Golden section: one of the two inner amounts serves again in the next narrowing.
    let inner = |low: f64, high: f64| {
        let part = GOLDEN * (high - low);
        [high - part, low + part]
    };
    let [mut left, mut right] = inner(low, high).map(look);
    for _ in 0..NARROWINGS {
        for here in [left, right] {
            if here.misfit < best.misfit {
                best = here;
            }
        }
        if left.misfit <= right.misfit {
            high = right.air_ml;
            right = left;
            left = look(inner(low, high)[0]);
        } else {
            low = left.air_ml;
            left = right;
            right = look(inner(low, high)[1]);
        }
    }
    best
}

/// The amounts whose misfit is within the limit; none if the best one is not.
fn bounds_of(profile: &Profile<'_>, best: Best, limit: f64, most_ml: f64) -> Option<AirBounds> {
    if best.misfit > limit {
        return None;
    }
    let beyond = |air_ml: f64| profile.fit(air_ml).misfit - limit;
    let edge = |outside: f64| {
        (beyond(outside) > 0.0)
            .then(|| rising_root([best.air_ml, outside], TOLERANCE_ML, beyond))
            .map(Volume::new::<milliliter>)
    };
    let high = if best.is_hidden {
        None
    } else {
        let near = (2.0 * best.air_ml + 1.0).min(most_ml);
        edge(near).or_else(|| edge(most_ml))
    };
    Some(AirBounds {
        low: edge(0.0).unwrap_or_default(),
        nominal: Volume::new::<milliliter>(best.air_ml),
        high,
    })
}
