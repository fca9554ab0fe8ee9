//! Candidate master cylinders and levers side by side.

use crate::equilibrium::Press;
use crate::feel::{Feel, OnStop};
use crate::mechanism::Mechanism;
use bleedwright_mechanism::Range;
use uom::si::f64::{Length, Ratio};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;

/// What is changed against the layout; what is left out stays as it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Candidate {
    /// The bore of every chamber, or of each cylinder of a balance bar.
    pub bores: Vec<Length>,
    /// The lever's ratio.
    pub pedal_ratio: Option<Ratio>,
    /// The share of the force that the first cylinder of a balance bar gets.
    pub bar_share: Option<Ratio>,
}

/// A candidate and how its pedal feels.
#[derive(Clone, Debug, PartialEq)]
pub struct Sized {
    /// What was changed.
    pub candidate: Candidate,
    /// Both circuits whole.
    pub whole: Feel,
    /// The circuits one by one, each lost.
    pub lost: Vec<(String, Feel)>,
}

impl Sized {
    /// The circuits whose loss leaves the other one without travel: nominally, or perhaps. None where there is no other.
    pub fn without_travel(&self) -> impl Iterator<Item = (&str, OnStop)> {
        let has_other = self.lost.len() > 1;
        self.lost
            .iter()
            .filter(move |_| has_other)
            .filter_map(|(name, feel)| {
                let state = feel.survivors_on_stop();
                (state != OnStop::Never).then_some((name.as_str(), state))
            })
    }
}

impl Feel {
    /// Whether a circuit that was not lost runs out of stroke: never, in the worst case, or nominally. A vehicle with one
    /// circuit that is lost has nothing left.
    pub fn survivors_on_stop(&self) -> OnStop {
        let survivors: Vec<_> = self
            .circuits
            .iter()
            .filter(|circuit| !circuit.is_lost)
            .collect();
        let reaches = |pick: fn(&bleedwright_network::Bounds<Ratio>) -> Ratio| {
            survivors.is_empty()
                || survivors
                    .iter()
                    .any(|circuit| pick(&circuit.stroke_share).get::<ratio>() >= 1.0 - 1e-9)
        };
        if reaches(|share| share.nominal) {
            OnStop::Yes
        } else if reaches(|share| share.high) {
            OnStop::Perhaps
        } else {
            OnStop::Never
        }
    }
}

impl Mechanism {
    /// The same with a candidate's sizes.
    #[must_use]
    pub fn with(&self, candidate: &Candidate) -> Self {
        let mut changed = self.clone();
        let exactly = |range: &mut Range, value: f64| {
            *range = Range::new(value, value, value, range.unknown);
        };
        if let Some(lever) = candidate.pedal_ratio {
            exactly(&mut changed.ratio, lever.get::<ratio>());
        }
        if let (Some(share), Some(range)) = (candidate.bar_share, &mut changed.bar_share) {
            exactly(range, share.get::<ratio>());
        }
        for (index, cylinder) in changed.cylinders.iter_mut().enumerate() {
            let bore = candidate.bores.get(index).or(candidate.bores.last());
            let Some(bore_mm) = bore.map(Length::get::<millimeter>) else {
                continue;
            };
            for chamber in &mut cylinder.chambers {
                exactly(
                    &mut chamber.area_mm2,
                    std::f64::consts::FRAC_PI_4 * bore_mm * bore_mm,
                );
            }
        }
        changed
    }

    /// How the pedal of a candidate feels under the same press, whole and with each circuit lost.
    pub fn size(&self, candidate: &Candidate, press: &Press) -> Sized {
        let changed = self.with(candidate);
        Sized {
            candidate: candidate.clone(),
            whole: changed.feel(press),
            lost: changed.feel_each_lost(press),
        }
    }

    /// The same press with each circuit lost in turn.
    pub fn feel_each_lost(&self, press: &Press) -> Vec<(String, Feel)> {
        self.chambers()
            .zip(self.places())
            .map(|(chamber, place)| {
                let lost = Press {
                    lost: Some(place),
                    ..press.clone()
                };
                (chamber.name.clone(), self.feel(&lost))
            })
            .collect()
    }
}
