//! The swelling of a metal pipe.

use crate::range::{OutOfRange, between, positive};
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

/// A thick round tube whose ends are closed: the pressure on them stretches it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeWall {
    inner_m: f64,
    outer_m: f64,
    modulus_pa: f64,
    poisson: f64,
}

impl TubeWall {
    /// A tube of this outside diameter and wall, of a material with this modulus of elasticity and Poisson's ratio.
    ///
    /// Range: a wall above zero and thinner than half of the diameter, a modulus above zero, a ratio from 0 to 0.5.
    pub fn new(
        outside_diameter: Length,
        wall: Length,
        modulus_of_elasticity: Pressure,
        poisson_ratio: Ratio,
    ) -> Result<Self, OutOfRange> {
        let outer_m = 0.5 * positive("outside diameter", outside_diameter.get::<meter>(), "m")?;
        let wall_m = positive("wall", wall.get::<meter>(), "m")?;
        if wall_m >= outer_m {
            return Err(OutOfRange::NotOrdered {
                smaller: "wall",
                larger: "half of the outside diameter",
                smaller_value: wall_m,
                larger_value: outer_m,
                unit: "m",
            });
        }
        Ok(Self {
            inner_m: outer_m - wall_m,
            outer_m,
            modulus_pa: positive(
                "modulus of elasticity",
                modulus_of_elasticity.get::<pascal>(),
                "Pa",
            )?,
            poisson: between(
                "Poisson's ratio",
                poisson_ratio.get::<ratio>(),
                (0.0, 0.5),
                "",
            )?,
        })
    }

    /// By which share the contents of the tube grow under a pressure.
    ///
    /// Formula: with `q = p / (E (b^2 - a^2))`, the growth is `2 e_t + e_z` with
    /// `e_t = q ((1 - 2v) a^2 + (1 + v) b^2)` and `e_z = q (1 - 2v) a^2`.
    ///
    /// Symbols: `e_t` strain around the bore and `e_z` along it (dimensionless); `p` gauge pressure (Pa); `E` modulus
    /// of elasticity (Pa); `v` Poisson's ratio (dimensionless); `a`, `b` inner and outer radius (m).
    ///
    /// Range: small strains, elastic, far from the ends. For a negative pressure the tube shrinks.
    ///
    /// Source: Lame's solution in [Timoshenko1970](crate#sources).
    ///
    /// ```
    /// use bleedwright_hydraulics::elastic::wall::TubeWall;
    /// use uom::si::f64::{Length, Pressure, Ratio};
    /// use uom::si::{length::millimeter, pressure::{gigapascal, bar}, ratio::ratio};
    ///
    /// let pipe = TubeWall::new(
    ///     Length::new::<millimeter>(4.75),
    ///     Length::new::<millimeter>(0.7112),
    ///     Pressure::new::<gigapascal>(207.0),
    ///     Ratio::new::<ratio>(0.3),
    /// )?;
    /// let growth = pipe.growth(Pressure::new::<bar>(100.0));
    /// assert!((growth.get::<ratio>() - 3.0252e-4).abs() < 5e-9);
    /// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
    /// ```
    pub fn growth(&self, pressure: Pressure) -> Ratio {
        let (a2, b2, v) = (self.inner_m.powi(2), self.outer_m.powi(2), self.poisson);
        let unit = pressure.get::<pascal>() / (self.modulus_pa * (b2 - a2));
        let around = (1.0 - 2.0 * v) * a2 + (1.0 + v) * b2;
        let along = (1.0 - 2.0 * v) * a2;
        Ratio::new::<ratio>(unit * (2.0 * around + along))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::length::millimeter;
    use uom::si::pressure::gigapascal;

    fn tube(wall_mm: f64, poisson: f64) -> Result<TubeWall, OutOfRange> {
        TubeWall::new(
            Length::new::<millimeter>(10.0),
            Length::new::<millimeter>(wall_mm),
            Pressure::new::<gigapascal>(200.0),
            Ratio::new::<ratio>(poisson),
        )
    }

    /// A thin tube follows the formulas of vessels with thin walls: `D (5/4 - v) / (w E)` with closed ends.
    #[test]
    fn a_thin_wall_follows_the_thin_formula() {
        let wall_mm = 0.001;
        let growth = tube(wall_mm, 0.3)
            .expect("the tube is sound")
            .growth(Pressure::new::<pascal>(1.0));
        let thin = (10.0 - 2.0 * wall_mm) / wall_mm * (1.25 - 0.3) / 200e9;
        // The two differ by the share that the wall has of the radius.
        assert!((growth.get::<ratio>() / thin - 1.0).abs() < 1e-3);
    }

    #[test]
    fn impossible_tubes_are_refused() {
        for (wall_mm, poisson) in [
            (5.0, 0.3),
            (0.0, 0.3),
            (f64::NAN, 0.3),
            (1.0, 0.6),
            (1.0, -0.1),
        ] {
            assert!(tube(wall_mm, poisson).is_err());
        }
    }
}
