//! Laminar flow through a pipe or a hose.

use crate::geometry::bore_area;
use crate::range::{OutOfRange, positive};
use crate::resistance::HydraulicResistance;
use std::f64::consts::PI;
use uom::si::f64::{DynamicViscosity, KinematicViscosity, Length, Ratio, Velocity, VolumeRate};
use uom::si::length::meter;
use uom::si::ratio::ratio;

/// A straight or bent piece of round pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipe {
    bore: Length,
    length: Length,
}

impl Pipe {
    /// A pipe of this bore and length, both above zero.
    pub fn new(bore: Length, length: Length) -> Result<Self, OutOfRange> {
        positive("bore", bore.get::<meter>(), "m")?;
        positive("length", length.get::<meter>(), "m")?;
        Ok(Self { bore, length })
    }

    /// Its bore.
    pub fn bore(&self) -> Length {
        self.bore
    }

    /// The resistance of a pipe to laminar flow (Hagen and Poiseuille).
    ///
    /// Formula: `R = 128 mu L / (pi D^4)`.
    ///
    /// Symbols: `R` resistance (Pa s/m3); `mu` dynamic viscosity (Pa s); `L` length (m); `D` bore (m).
    ///
    /// Range: Reynolds number below 2000, pipe long against its entry length `0.06 Re D`, steady flow (changes slower than
    /// `D^2 / (23 nu)`, about 30 ms in thin pipe). Bends of 40 mm radius add 5 to 10 % over their own length only.
    ///
    /// Source: [White2006](crate#sources).
    ///
    /// ```
    /// use bleedwright_hydraulics::pipe::Pipe;
    /// use uom::si::dynamic_viscosity::millipascal_second;
    /// use uom::si::f64::{DynamicViscosity, Length, Pressure};
    /// use uom::si::{length::{meter, millimeter}, pressure::bar, volume_rate::milliliter_per_second};
    ///
    /// let pipe = Pipe::new(Length::new::<millimeter>(3.33), Length::new::<meter>(5.0))?;
    /// let resistance = pipe.resistance(DynamicViscosity::new::<millipascal_second>(15.75));
    /// let flow = resistance.flow(Pressure::new::<bar>(1.0));
    /// assert!((flow.get::<milliliter_per_second>() - 3.832_360).abs() < 5e-7);
    /// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
    /// ```
    pub fn resistance(&self, viscosity: DynamicViscosity) -> HydraulicResistance {
        let (bore_m, length_m) = (self.bore.get::<meter>(), self.length.get::<meter>());
        HydraulicResistance::new(128.0 * viscosity.value * length_m / (PI * bore_m.powi(4)))
    }
}

/// The mean velocity of a flow.
///
/// Formula: `U = Q / A` with `A = pi D^2 / 4`.
///
/// Symbols: `U` mean velocity (m/s); `Q` flow (m3/s); `A` area of the bore (m2); `D` bore (m).
///
/// Range: a bore above zero; without one the velocity is not finite.
///
/// Source: continuity, [White2006](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::pipe::mean_velocity;
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::millimeter, velocity::meter_per_second, volume_rate::milliliter_per_second};
///
/// let flow = VolumeRate::new::<milliliter_per_second>(3.832_360);
/// let velocity = mean_velocity(flow, Length::new::<millimeter>(3.33));
/// assert!((velocity.get::<meter_per_second>() - 0.440_036).abs() < 5e-7);
/// ```
pub fn mean_velocity(flow: VolumeRate, bore: Length) -> Velocity {
    flow / bore_area(bore)
}

/// The Reynolds number of a pipe flow.
///
/// Formula: `Re = |U| D / nu`.
///
/// Symbols: `Re` Reynolds number (dimensionless); `U` mean velocity (m/s); `D` bore (m); `nu` kinematic viscosity
/// (m2/s).
///
/// Range: any. A flow is laminar below 2000; turbulence was seen to persist from about 2040 on
/// ([Avila2011](crate#sources)).
///
/// Source: [White2006](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::pipe::reynolds_number;
/// use uom::si::f64::{KinematicViscosity, Length, Velocity};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::{length::millimeter, ratio::ratio, velocity::meter_per_second};
///
/// let number = reynolds_number(
///     Velocity::new::<meter_per_second>(0.440_036),
///     Length::new::<millimeter>(3.33),
///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
/// );
/// assert!((number.get::<ratio>() - 97.688).abs() < 5e-4);
/// ```
pub fn reynolds_number(velocity: Velocity, bore: Length, viscosity: KinematicViscosity) -> Ratio {
    Ratio::new::<ratio>(velocity.value.abs() * bore.value / viscosity.value)
}
