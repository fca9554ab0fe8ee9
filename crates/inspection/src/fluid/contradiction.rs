//! Water and boiling point that no fluid has together.

use super::car::Car;
use super::estimate::believed;
use super::judgement::Contradiction;
use bleedwright_network::Fluid;

impl Car<'_> {
    /// Why the two readings cannot both be true. What nobody says is in the car, or was mixed, may be of any glycol grade.
    pub(super) fn contradiction(&self) -> Option<Contradiction> {
        let (moisture, boiling) = (self.reading.moisture?, self.reading.boiling?);
        if self.is_wrong_family {
            return None;
        }
        let is_known = self.reading.mixed_with.is_empty();
        let known = self.reading.grade.filter(|_| is_known);
        let grades = Fluid::ALL.iter().copied();
        let [low, high] = grades
            .filter(|grade| known.is_none_or(|known| known == *grade))
            .filter_map(|grade| believed(grade, moisture))
            .reduce(|[low, high], [least, most]| [low.min(least), high.max(most)])?;
        if boiling.low <= high && boiling.high >= low {
            return None;
        }
        Some(Contradiction {
            moisture,
            leaves: [low, high],
            boiling,
        })
    }
}
