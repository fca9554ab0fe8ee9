//! How much new fluid is drawn, and the sealed bottles to buy for it.

use crate::plan::{Shopping, Use};
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// Share added for what is spilt, left in hoses or lost while topping up.
///
/// ASSUMPTION: a tenth.
pub(crate) const SPILL_SHARE: f64 = 0.10;

/// Bottles are compared in whole millilitres up to this many fillings of the
/// largest bottle; what exceeds it is bought in the largest.
const EXACT_FILLINGS: u64 = 8;

impl Shopping {
    /// Adds up what is drawn, `least` at least, and chooses the bottles.
    pub(crate) fn new(
        drawn: Vec<(Use, Volume)>,
        least: Volume,
        catch: Volume,
        sizes: &[Volume],
    ) -> Self {
        let mut parts: Vec<(Use, Volume)> = drawn
            .into_iter()
            .filter(|(_, volume)| *volume > Volume::default())
            .collect();
        let drawn = parts
            .iter()
            .fold(Volume::default(), |sum, (_, volume)| sum + *volume);
        parts.push((Use::Spilt, drawn * SPILL_SHARE));
        let needed = drawn * (1.0 + SPILL_SHARE);
        let bottles = choose_bottles(needed, sizes);
        let bought = bottles
            .iter()
            .fold(Volume::default(), |sum, (size, count)| {
                sum + *size * *count as f64
            });
        Self {
            needed,
            needed_at_least: least * (1.0 + SPILL_SHARE),
            parts,
            bottles,
            bought,
            catch,
            if_routine: None,
        }
    }

    /// With what a bleed would push that is only done if somebody runs a routine: nothing where it is nothing.
    pub(crate) fn with_routine(mut self, pushed: Volume) -> Self {
        let is_any = pushed > Volume::default();
        self.if_routine = is_any.then(|| pushed * (1.0 + SPILL_SHARE));
        self
    }
}

/// The set of bottles that holds enough with the least left over; among equal
/// sets the one with the fewest bottles. Opened bottles do not keep, so what
/// is left over is waste.
fn choose_bottles(needed: Volume, sizes: &[Volume]) -> Vec<(Volume, u64)> {
    let mut sizes_ml: Vec<u64> = sizes
        .iter()
        .map(|size| size.get::<milliliter>().round() as u64)
        .filter(|size| *size > 0)
        .collect();
    sizes_ml.sort_unstable_by(|a, b| b.cmp(a));
    sizes_ml.dedup();
    let Some(&largest) = sizes_ml.first() else {
        return Vec::new();
    };
    let needed_ml = needed.get::<milliliter>().ceil() as u64;
    let in_bulk = (needed_ml / largest).saturating_sub(EXACT_FILLINGS);
    let rest = needed_ml - in_bulk * largest;
    let mut counts: Vec<u64> = fewest_bottles(rest, &sizes_ml);
    counts[0] += in_bulk;
    sizes_ml
        .into_iter()
        .zip(counts)
        .filter(|(_, count)| *count > 0)
        .map(|(size, count)| (Volume::new::<milliliter>(size as f64), count))
        .collect()
}

/// Fewest bottles for every total up to what surely suffices (the coin
/// problem), then the smallest total that holds enough.
fn fewest_bottles(needed_ml: u64, sizes_ml: &[u64]) -> Vec<u64> {
    let smallest = *sizes_ml.last().expect("the caller has at least one size");
    let unit = sizes_ml.iter().copied().fold(0, greatest_common_divisor);
    let top = (needed_ml + smallest).div_ceil(unit) as usize;
    let mut fewest: Vec<Option<(u32, usize)>> = vec![None; top + 1];
    fewest[0] = Some((0, usize::MAX));
    for total in 1..=top {
        fewest[total] = sizes_ml
            .iter()
            .enumerate()
            .filter_map(|(nth, size)| {
                let before = total.checked_sub((size / unit) as usize)?;
                fewest[before].map(|(count, _)| (count + 1, nth))
            })
            .min();
    }
    let mut counts = vec![0; sizes_ml.len()];
    let enough = needed_ml.div_ceil(unit) as usize;
    let mut total = (enough..=top)
        .find(|total| fewest[*total].is_some())
        .expect("a multiple of the smallest bottle lies in the range");
    while let Some((count, nth)) = fewest[total] {
        if count == 0 {
            break;
        }
        counts[nth] += 1;
        total -= (sizes_ml[nth] / unit) as usize;
    }
    counts
}

fn greatest_common_divisor(a: u64, b: u64) -> u64 {
    if b == 0 {
        a
    } else {
        greatest_common_divisor(b, a % b)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bottles(needed_ml: f64, sizes_ml: &[f64]) -> Vec<(u64, u64)> {
        let ml = Volume::new::<milliliter>;
        let sizes: Vec<Volume> = sizes_ml.iter().map(|size| ml(*size)).collect();
        choose_bottles(ml(needed_ml), &sizes)
            .into_iter()
            .map(|(size, count)| (size.get::<milliliter>().round() as u64, count))
            .collect()
    }

    #[test]
    fn least_left_over_then_fewest_bottles() {
        let usual = [250.0, 500.0, 1000.0, 5000.0];
        assert_eq!(bottles(940.0, &usual), [(1000, 1)]);
        assert_eq!(bottles(1010.0, &usual), [(1000, 1), (250, 1)]);
        assert_eq!(bottles(250.0, &usual), [(250, 1)]);
        assert_eq!(bottles(1.0, &usual), [(250, 1)]);
        assert_eq!(bottles(0.0, &usual), []);
        assert_eq!(bottles(700.0, &[300.0, 400.0]), [(400, 1), (300, 1)]);
        assert_eq!(bottles(52_010.0, &usual), [(5000, 10), (1000, 2), (250, 1)]);
    }
}
