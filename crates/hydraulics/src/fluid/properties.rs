//! Everything that is known about a fluid at one temperature.

use super::figures::Figures;
use super::grade::Grade;
use super::liquid::Liquid;
use super::walther::Walther;
use crate::known::{Evidence, Known};
use crate::range::{OutOfRange, between};
use uom::si::f64::{
    KinematicViscosity, MassDensity, Pressure, SurfaceTension, ThermodynamicTemperature,
};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::surface_tension::newton_per_meter;
use uom::si::thermodynamic_temperature::degree_celsius;

/// The temperatures in degC for which anything is said: between the two points of the viscosity limits.
const RANGE_CELSIUS: (f64, f64) = (-40.0, 100.0);

/// The temperature in degC to which the figures other than viscosity belong.
const REFERENCE_CELSIUS: f64 = 20.0;

/// A viscosity that was measured or printed for one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViscosityPoint {
    /// The temperature.
    pub temperature: ThermodynamicTemperature,
    /// The viscosity there.
    pub viscosity: Known<KinematicViscosity>,
}

/// What is known about a fluid at all temperatures.
///
/// Formula: `rho = rho20 + s (t - 20)`; `nu` by [`Walther`]; `sigma = sigma20 + k (t - 20)`;
/// `K = K20 exp(-f (t - 20))`. The bounds take the corner of figure and slope that is worse.
///
/// Symbols: `t` temperature (degC); `rho` density (kg/m3), `s` its slope (kg/(m3 K)); `nu` kinematic viscosity
/// (mm2/s); `sigma` surface tension (N/m), `k` its slope (N/(m K)); `K` bulk modulus (Pa), `f` its relative fall
/// (1/K).
///
/// Range: -40 to 100 degC, an error outside; fresh fluid at atmospheric pressure. Water makes it thicker in the cold.
///
/// Source: limits of viscosity [FMVSS116](crate#sources), [ISO4925](crate#sources); viscosity over temperature
/// [ASTMD341](crate#sources). What has no source carries [`Evidence::Guess`].
///
/// ```
/// use bleedwright_hydraulics::{Evidence, fluid::{Grade, Properties}};
/// use uom::si::f64::ThermodynamicTemperature;
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let fluid = Properties::of(Grade::Dot4)?;
/// let state = fluid.at(ThermodynamicTemperature::new::<degree_celsius>(20.0))?;
/// let viscosity = state.kinematic_viscosity;
/// assert!((viscosity.nominal.get::<square_millimeter_per_second>() - 18.226).abs() < 5e-4);
/// assert_eq!(viscosity.standing, Evidence::Typical);
/// assert_eq!(state.surface_tension.standing, Evidence::Guess);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    grade: Grade,
    viscosity: Known<Walther>,
}

/// What is known about a fluid at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Density.
    pub density: Known<MassDensity>,
    /// Kinematic viscosity.
    pub kinematic_viscosity: Known<KinematicViscosity>,
    /// Surface tension against air.
    pub surface_tension: Known<SurfaceTension>,
    /// Bulk modulus without air.
    pub bulk_modulus: Known<Pressure>,
    /// A warning: the temperature lies outside the two points of viscosity that were given.
    pub is_viscosity_extrapolated: bool,
}

impl Properties {
    /// A fluid of which only the grade is known.
    pub fn of(grade: Grade) -> Result<Self, OutOfRange> {
        let figures = Figures::of(grade);
        let point = |celsius: f64, viscosity: Known<f64>| ViscosityPoint {
            temperature: ThermodynamicTemperature::new::<degree_celsius>(celsius),
            viscosity: viscosity.map(KinematicViscosity::new::<square_millimeter_per_second>),
        };
        let viscosity = curves([
            point(RANGE_CELSIUS.0, figures.cold_mm2_s),
            point(RANGE_CELSIUS.1, figures.hot_mm2_s),
        ])?;
        Ok(Self { grade, viscosity })
    }

    /// The same fluid with two points of viscosity of its own, in either order, in place of the grade's.
    ///
    /// Range: low, nominal and high of a point in their order, and each of the three falling from the colder to the
    /// warmer point. [`State::is_viscosity_extrapolated`] warns outside the points.
    ///
    /// ```
    /// use bleedwright_hydraulics::{Known, Evidence, fluid::{Grade, Properties, ViscosityPoint}};
    /// use uom::si::f64::{KinematicViscosity, ThermodynamicTemperature};
    /// use uom::si::kinematic_viscosity::square_millimeter_per_second;
    /// use uom::si::thermodynamic_temperature::degree_celsius;
    ///
    /// let point = |celsius: f64, mm2_s: f64| ViscosityPoint {
    ///     temperature: ThermodynamicTemperature::new::<degree_celsius>(celsius),
    ///     viscosity: Known { low: 0.95 * mm2_s, nominal: mm2_s, high: 1.05 * mm2_s, standing: Evidence::Typical }
    ///         .map(KinematicViscosity::new::<square_millimeter_per_second>),
    /// };
    /// let fluid = Properties::of(Grade::Dot4)?.with_viscosity([point(0.0, 40.0), point(40.0, 8.0)])?;
    /// let warm = fluid.at(ThermodynamicTemperature::new::<degree_celsius>(60.0))?;
    /// assert!(warm.is_viscosity_extrapolated);
    /// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
    /// ```
    pub fn with_viscosity(self, points: [ViscosityPoint; 2]) -> Result<Self, OutOfRange> {
        Ok(Self {
            viscosity: curves(points)?,
            ..self
        })
    }

    /// Everything at one temperature.
    pub fn at(&self, temperature: ThermodynamicTemperature) -> Result<State, OutOfRange> {
        let celsius = temperature.get::<degree_celsius>();
        // A temperature that is written as an end may be converted to a hair beyond it.
        let written = (celsius * 1e6).round() / 1e6;
        between("temperature", written, RANGE_CELSIUS, "degC")?;
        let figures = Figures::of(self.grade);
        let warmer_k = celsius - REFERENCE_CELSIUS;
        let density = sloped(
            figures.density_kg_m3,
            figures.density_slope_kg_m3_k,
            warmer_k,
        );
        let tension = sloped(
            figures.surface_tension_n_m,
            figures.surface_tension_slope_n_m_k,
            warmer_k,
        );
        Ok(State {
            density: density.map(MassDensity::new::<kilogram_per_cubic_meter>),
            kinematic_viscosity: self.viscosity_at(temperature)?,
            surface_tension: tension.map(SurfaceTension::new::<newton_per_meter>),
            bulk_modulus: stiffness(&figures, warmer_k).map(Pressure::new::<pascal>),
            is_viscosity_extrapolated: !self.viscosity.nominal.covers(temperature),
        })
    }

    fn viscosity_at(
        &self,
        temperature: ThermodynamicTemperature,
    ) -> Result<Known<KinematicViscosity>, OutOfRange> {
        let Known {
            low,
            nominal,
            high,
            standing,
        } = self.viscosity;
        let mut values = [
            low.viscosity_at(temperature)?,
            nominal.viscosity_at(temperature)?,
            high.viscosity_at(temperature)?,
        ];
        let middle = values[1];
        // Outside their points the three curves may cross.
        values.sort_by(|one, other| one.value.total_cmp(&other.value));
        Ok(Known {
            low: values[0],
            nominal: middle,
            high: values[2],
            standing,
        })
    }
}

impl State {
    /// The liquid with every figure at its nominal value.
    pub fn nominal(&self) -> Result<Liquid, OutOfRange> {
        Liquid::new(
            self.density.nominal,
            self.kinematic_viscosity.nominal,
            self.surface_tension.nominal,
        )
    }
}

/// The three curves through two points.
fn curves([first, second]: [ViscosityPoint; 2]) -> Result<Known<Walther>, OutOfRange> {
    for point in [first, second] {
        if !point.viscosity.is_ordered() {
            return Err(OutOfRange::NotOrdered {
                smaller: "low viscosity of a point",
                larger: "high viscosity of the point, with the nominal one between",
                smaller_value: point.viscosity.low.get::<square_millimeter_per_second>(),
                larger_value: point.viscosity.high.get::<square_millimeter_per_second>(),
                unit: "mm2/s",
            });
        }
    }
    let curve =
        |one, other| Walther::through((first.temperature, one), (second.temperature, other));
    let (one, other) = (first.viscosity, second.viscosity);
    Ok(Known {
        low: curve(one.low, other.low)?,
        nominal: curve(one.nominal, other.nominal)?,
        high: curve(one.high, other.high)?,
        standing: one.standing.weaker(other.standing),
    })
}

/// A figure and its slope, away from the reference temperature.
fn sloped(figure: Known<f64>, slope: Known<f64>, warmer_k: f64) -> Known<f64> {
    let changes = [slope.low * warmer_k, slope.high * warmer_k];
    Known {
        low: figure.low + changes[0].min(changes[1]),
        nominal: figure.nominal + slope.nominal * warmer_k,
        high: figure.high + changes[0].max(changes[1]),
        standing: if warmer_k.abs() < 1e-9 {
            figure.standing
        } else {
            figure.standing.weaker(slope.standing)
        },
    }
}

/// The bulk modulus away from the reference temperature. The exponential keeps it above zero.
fn stiffness(figures: &Figures, warmer_k: f64) -> Known<f64> {
    let factor = |fall: f64| (-fall * warmer_k).exp();
    let (modulus, fall) = (figures.bulk_modulus_pa, figures.bulk_modulus_fall_per_k);
    let factors = [factor(fall.low), factor(fall.high)];
    Known {
        low: modulus.low * factors[0].min(factors[1]),
        nominal: modulus.nominal * factor(fall.nominal),
        high: modulus.high * factors[0].max(factors[1]),
        standing: Evidence::Guess,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn celsius(value: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(value)
    }

    #[test]
    fn every_grade_has_ordered_figures_at_every_temperature() {
        for grade in Grade::ALL {
            let fluid = Properties::of(grade).expect("the table is sound");
            for step in 0..=28 {
                let state = fluid
                    .at(celsius(-40.0 + 5.0 * f64::from(step)))
                    .expect("inside the range");
                assert!(state.density.is_ordered(), "{grade:?}");
                assert!(state.kinematic_viscosity.is_ordered(), "{grade:?}");
                assert!(state.surface_tension.is_ordered(), "{grade:?}");
                assert!(state.bulk_modulus.is_ordered(), "{grade:?}");
                assert!(state.surface_tension.low.value > 0.005, "{grade:?}");
                assert!(!state.is_viscosity_extrapolated, "{grade:?}");
                assert!(state.nominal().is_ok(), "{grade:?}");
            }
        }
    }

    #[test]
    fn outside_the_range_nothing_is_said() {
        let fluid = Properties::of(Grade::Dot4).expect("the table is sound");
        for value in [-40.1, 100.1, f64::NAN, f64::INFINITY] {
            assert!(fluid.at(celsius(value)).is_err());
        }
    }

    #[test]
    fn points_out_of_order_are_refused() {
        let point = |at: f64, low: f64, nominal: f64, high: f64| ViscosityPoint {
            temperature: celsius(at),
            viscosity: Known {
                low,
                nominal,
                high,
                standing: Evidence::Typical,
            }
            .map(KinematicViscosity::new::<square_millimeter_per_second>),
        };
        let fluid = Properties::of(Grade::Dot4).expect("the table is sound");
        let good = point(0.0, 30.0, 40.0, 50.0);
        for bad in [
            point(40.0, 9.0, 8.0, 10.0),
            point(0.0, 7.0, 8.0, 9.0),
            point(40.0, 7.0, 8.0, 60.0),
        ] {
            assert!(fluid.with_viscosity([good, bad]).is_err());
        }
        assert!(
            fluid
                .with_viscosity([good, point(40.0, 7.0, 8.0, 9.0)])
                .is_ok()
        );
    }
}
