//! What a node stores: compressed fluid, stretched pipe, and gas.

use crate::range::{OutOfRange, between, positive};
use uom::si::f64::{Pressure, Ratio, Volume};

/// A gas pocket at a node.
///
/// Formula: `p V^n = p0 V0^n`.
///
/// Symbols: `p` absolute pressure (Pa); `V` volume (m3); `p0`, `V0` the same at the start; `n` polytropic index.
///
/// Range: an ideal gas that neither dissolves nor leaves; `n` from 1 (slow) to 1.4 (fast), the same on the way up and
/// down, so that a pocket that returns to its pressure returns to its volume.
///
/// Source: [Merritt1967](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::gas::standard_atmosphere;
/// use bleedwright_hydraulics::stroke::Pocket;
/// use uom::si::{f64::{Ratio, Volume}, ratio::ratio, volume::milliliter};
///
/// let slow = Ratio::new::<ratio>(1.0);
/// Pocket::new(Volume::new::<milliliter>(0.5), standard_atmosphere(), slow)?;
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pocket {
    volume_m3: f64,
    pressure_pa: f64,
    index: f64,
}

impl Pocket {
    /// A pocket that has this volume at this absolute pressure.
    pub fn new(volume: Volume, absolute: Pressure, index: Ratio) -> Result<Self, OutOfRange> {
        Ok(Self {
            volume_m3: positive("volume of a pocket", volume.value, "m3")?,
            pressure_pa: positive("absolute pressure", absolute.value, "Pa")?,
            index: between("polytropic index", index.value, (1.0, 1.4), "")?,
        })
    }

    fn absolute_pa(&self, volume_m3: f64) -> f64 {
        let ratio = self.volume_m3 / volume_m3;
        // The slow law is the usual one, and a power is dear.
        if self.index > 1.0 {
            self.pressure_pa * ratio.powf(self.index)
        } else {
            self.pressure_pa * ratio
        }
    }

    fn volume_at(&self, absolute_pa: f64) -> f64 {
        self.volume_m3 * (self.pressure_pa / absolute_pa).powf(self.index.recip())
    }
}

/// What one node stores at a pressure.
///
/// The stored volume is what came in since the pressure was the atmosphere's and the pocket had the volume it was
/// described with. It is linear in what flows, so that volume is conserved to the last digit; the pressure is not.
#[derive(Debug, Clone)]
pub(super) struct Store {
    pub(super) compliance_m3_per_pa: f64,
    pub(super) pocket: Option<Pocket>,
}

/// The pressure of a node and the volume of its pocket.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Level {
    pub(super) gauge_pa: f64,
    /// Nothing where there is no pocket.
    pub(super) gas_m3: f64,
}

/// Newton steps after which the gas law counts as unsolved; a handful is the rule.
const MOST_ITERATIONS: usize = 100;

impl Store {
    pub(super) fn level_at(&self, gauge_pa: f64, atmosphere_pa: f64) -> Level {
        let gas_m3 = self
            .pocket
            .map_or(0.0, |pocket| pocket.volume_at(gauge_pa + atmosphere_pa));
        Level { gauge_pa, gas_m3 }
    }

    pub(super) fn stored_m3(&self, level: Level) -> f64 {
        let squeezed_m3 = self
            .pocket
            .map_or(0.0, |pocket| pocket.volume_m3 - level.gas_m3);
        self.compliance_m3_per_pa * level.gauge_pa + squeezed_m3
    }

    /// How much more is stored for a little more pressure (m3/Pa): `C + V / (n p)`.
    pub(super) fn capacity_m3_per_pa(&self, level: Level, atmosphere_pa: f64) -> f64 {
        self.compliance_m3_per_pa + self.gas_capacity_m3_per_pa(level, atmosphere_pa)
    }

    /// The pocket's part of the capacity (m3/Pa).
    pub(super) fn gas_capacity_m3_per_pa(&self, level: Level, atmosphere_pa: f64) -> f64 {
        self.pocket.map_or(0.0, |pocket| {
            level.gas_m3 / (pocket.index * (level.gauge_pa + atmosphere_pa))
        })
    }

    /// The level at which this much is stored, if there is one. `guess` is a level not far from it.
    pub(super) fn level(&self, stored_m3: f64, atmosphere_pa: f64, guess: Level) -> Option<Level> {
        let Some(pocket) = self.pocket else {
            return Some(Level {
                gauge_pa: stored_m3 / self.compliance_m3_per_pa,
                gas_m3: 0.0,
            });
        };
        // With the pocket's volume v: C (p(v) - atmosphere) + V0 - v = stored.
        let excess_m3 = stored_m3 + self.compliance_m3_per_pa * atmosphere_pa - pocket.volume_m3;
        let gas_m3 = if self.compliance_m3_per_pa <= 0.0 {
            -excess_m3
        } else if pocket.index > 1.0 {
            self.gas_by_newton(&pocket, excess_m3, guess.gas_m3)?
        } else {
            // The slow law makes it a quadratic equation, solved without cancellation.
            let product_m6 = self.compliance_m3_per_pa * pocket.pressure_pa * pocket.volume_m3;
            let root_m3 = excess_m3.hypot(2.0 * product_m6.sqrt());
            if excess_m3 > 0.0 {
                2.0 * product_m6 / (root_m3 + excess_m3)
            } else {
                0.5 * (root_m3 - excess_m3)
            }
        };
        if !(gas_m3 > 0.0 && gas_m3.is_finite()) {
            return None;
        }
        Some(Level {
            gauge_pa: pocket.absolute_pa(gas_m3) - atmosphere_pa,
            gas_m3,
        })
    }

    /// The zero of `F(v) = C p(v) - v - excess`, which falls and is convex: from below Newton never steps past it, and
    /// from above it lands below.
    fn gas_by_newton(&self, pocket: &Pocket, excess_m3: f64, guess_m3: f64) -> Option<f64> {
        let mut gas_m3 = if guess_m3 > 0.0 {
            guess_m3
        } else {
            pocket.volume_m3
        };
        for _ in 0..MOST_ITERATIONS {
            let stretched_m3 = self.compliance_m3_per_pa * pocket.absolute_pa(gas_m3);
            let slope = -pocket.index * stretched_m3 / gas_m3 - 1.0;
            let change_m3 = -(stretched_m3 - gas_m3 - excess_m3) / slope;
            if !change_m3.is_finite() {
                return None;
            }
            // A step from far above could leave the positive volumes.
            gas_m3 = (gas_m3 + change_m3).max(0.1 * gas_m3);
            // Newton squares the error, so that after a step this small nothing is left of it.
            if change_m3.abs() < 1e-9 * gas_m3 {
                return Some(gas_m3);
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::pressure::pascal;
    use uom::si::ratio::ratio;
    use uom::si::volume::milliliter;

    const ATMOSPHERE_PA: f64 = 101_325.0;

    fn store(compliance_m3_per_pa: f64, index: f64) -> Store {
        let pocket = Pocket::new(
            Volume::new::<milliliter>(0.5),
            Pressure::new::<pascal>(ATMOSPHERE_PA),
            Ratio::new::<ratio>(index),
        );
        Store {
            compliance_m3_per_pa,
            pocket: Some(pocket.expect("the pocket is sound")),
        }
    }

    /// The gas law there and back, from the vacuum's side to a thousand bar.
    #[test]
    fn level_and_stored_volume_are_inverse() {
        for compliance in [0.0, 1e-18, 8e-15, 1e-12] {
            for index in [1.0, 1.2, 1.4] {
                let store = store(compliance, index);
                for gauge_pa in [-9e4, -1e3, 0.0, 1e3, 3e5, 1e7, 1e8] {
                    let there = store.level_at(gauge_pa, ATMOSPHERE_PA);
                    let stored_m3 = store.stored_m3(there);
                    let guess = store.level_at(0.0, ATMOSPHERE_PA);
                    let back = store
                        .level(stored_m3, ATMOSPHERE_PA, guess)
                        .expect("there is such a level");
                    // The volume is the difference of stored volumes, and has their rounding.
                    let capacity = store.capacity_m3_per_pa(there, ATMOSPHERE_PA);
                    let rounding_pa = 1e-21 / capacity + 1e-9;
                    let allowed_pa = rounding_pa + 1e-14 * (gauge_pa + ATMOSPHERE_PA);
                    assert!(
                        (back.gauge_pa - gauge_pa).abs() < allowed_pa,
                        "C {compliance}, n {index}: {gauge_pa} Pa became {} Pa",
                        back.gauge_pa
                    );
                }
            }
        }
    }

    #[test]
    fn a_pocket_cannot_give_more_than_it_holds() {
        let store = store(0.0, 1.0);
        let guess = store.level_at(0.0, ATMOSPHERE_PA);
        assert_eq!(store.level(0.5e-6, ATMOSPHERE_PA, guess), None);
        assert_eq!(store.level(0.6e-6, ATMOSPHERE_PA, guess), None);
    }

    #[test]
    fn bad_numbers_are_refused() {
        let (ml, pa) = (Volume::new::<milliliter>, Pressure::new::<pascal>);
        let index = Ratio::new::<ratio>;
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(Pocket::new(ml(bad), pa(1e5), index(1.0)).is_err());
            assert!(Pocket::new(ml(1.0), pa(bad), index(1.0)).is_err());
        }
        for n in [0.99, 1.41, f64::NAN] {
            assert!(Pocket::new(ml(1.0), pa(1e5), index(n)).is_err());
        }
    }
}
