//! Laminar flow through a pipe or a hose.

use crate::fluid::Liquid;
use crate::geometry::bore_area;
use crate::range::{OutOfRange, positive};
use crate::resistance::HydraulicResistance;
use std::f64::consts::PI;
use uom::si::f64::{
    DynamicViscosity, KinematicViscosity, Length, MassDensity, Pressure, Ratio, Velocity,
    VolumeRate,
};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

/// Above this Reynolds number nothing is said about the flow.
const LAMINAR_REYNOLDS: f64 = 2000.0;

/// A straight or bent piece of round pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipe {
    bore: Length,
    length: Length,
}

/// The flow through a pipe and what is needed to judge whether the equation holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeFlow {
    /// The flow, in the direction of the falling pressure.
    pub flow: VolumeRate,
    /// Its mean velocity.
    pub mean_velocity: Velocity,
    /// Its Reynolds number, never negative.
    pub reynolds_number: Ratio,
    /// The length over which the profile becomes parabolic; short against the pipe, or the resistance is too low.
    pub entry_length: Length,
    /// Whether the flow is laminar. Where it is not, the true flow is smaller than the one given.
    pub is_laminar: bool,
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

    /// Its length.
    pub fn length(&self) -> Length {
        self.length
    }

    /// The resistance of a pipe to laminar flow (Hagen and Poiseuille).
    ///
    /// Formula: `R = 128 mu L / (pi D^4)`.
    ///
    /// Symbols: `R` resistance (Pa s/m3); `mu` dynamic viscosity (Pa s); `L` length (m); `D` bore (m).
    ///
    /// Range: Reynolds number below 2000, pipe long against its [`entry_length`], steady flow (changes slower than
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

    /// The flow that a pressure difference drives, with its Reynolds number and whether that is laminar.
    ///
    /// Formula, symbols, range, source: [`Pipe::resistance`], [`mean_velocity`], [`reynolds_number`],
    /// [`entry_length`].
    ///
    /// ```
    /// use bleedwright_hydraulics::{fluid::Liquid, pipe::Pipe};
    /// use uom::si::f64::{KinematicViscosity, Length, MassDensity, Pressure, SurfaceTension};
    /// use uom::si::kinematic_viscosity::square_millimeter_per_second;
    /// use uom::si::length::{meter, millimeter};
    /// use uom::si::mass_density::kilogram_per_cubic_meter;
    /// use uom::si::{pressure::bar, ratio::ratio, surface_tension::millinewton_per_meter};
    ///
    /// let thin_and_warm = Liquid::new(
    ///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
    ///     KinematicViscosity::new::<square_millimeter_per_second>(3.0),
    ///     SurfaceTension::new::<millinewton_per_meter>(33.0),
    /// )?;
    /// let pipe = Pipe::new(Length::new::<millimeter>(3.3), Length::new::<meter>(2.0))?;
    /// let flow = pipe.flow(Pressure::new::<bar>(1.0), &thin_and_warm);
    /// assert!(flow.reynolds_number.get::<ratio>() > 2000.0 && !flow.is_laminar);
    /// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
    /// ```
    pub fn flow(&self, pressure: Pressure, liquid: &Liquid) -> PipeFlow {
        let flow = self.resistance(liquid.dynamic_viscosity()).flow(pressure);
        let mean_velocity = mean_velocity(flow, self.bore);
        let reynolds_number =
            reynolds_number(mean_velocity, self.bore, liquid.kinematic_viscosity());
        PipeFlow {
            flow,
            mean_velocity,
            reynolds_number,
            entry_length: entry_length(reynolds_number, self.bore),
            is_laminar: is_laminar(reynolds_number),
        }
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
/// Range: any; see [`is_laminar`].
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

/// Whether a flow is laminar.
///
/// Formula: `Re < 2000`.
///
/// Symbols: `Re` Reynolds number (dimensionless).
///
/// Range: pipe flow. Turbulence was seen to persist from about 2040 on; the limit stays a little below. What is not a
/// number is not laminar.
///
/// Source: [White2006](crate#sources); 2040 by [Avila2011](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::pipe::is_laminar;
/// use uom::si::{f64::Ratio, ratio::ratio};
///
/// assert!(is_laminar(Ratio::new::<ratio>(97.7)));
/// assert!(!is_laminar(Ratio::new::<ratio>(2000.0)));
/// ```
pub fn is_laminar(reynolds_number: Ratio) -> bool {
    reynolds_number.get::<ratio>() < LAMINAR_REYNOLDS
}

/// The length over which the profile of the flow becomes parabolic.
///
/// Formula: `Le = 0.06 Re D`.
///
/// Symbols: `Le` entry length (m); `Re` Reynolds number (dimensionless); `D` bore (m).
///
/// Range: laminar flow, `Re` well above 1. Texts give 0.05 to 0.065 for the factor.
///
/// Source: [White2006](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::pipe::entry_length;
/// use uom::si::{f64::{Length, Ratio}, length::millimeter, ratio::ratio};
///
/// let entry = entry_length(Ratio::new::<ratio>(98.0), Length::new::<millimeter>(3.33));
/// assert!((entry.get::<millimeter>() - 19.6).abs() < 0.05);
/// ```
pub fn entry_length(reynolds_number: Ratio, bore: Length) -> Length {
    bore * reynolds_number * Ratio::new::<ratio>(0.06)
}

/// What the developing profile behind an entrance costs beyond the head that accelerates the fluid.
///
/// Formula: `dp = K rho U^2 / 2` with `K = 1.28`.
///
/// Symbols: `dp` pressure (Pa); `K` loss factor (dimensionless); `rho` density (kg/m3); `U` mean velocity (m/s).
///
/// Range: laminar flow in a pipe longer than its entry length. Texts give 1.25 to 1.33. Together with the kinetic
/// energy that is lost in the jet, `2.28 rho U^2 / 2` from vessel to vessel.
///
/// Source: [Langhaar1942](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::pipe::excess_entrance_loss;
/// use uom::si::f64::{MassDensity, Velocity};
/// use uom::si::{mass_density::kilogram_per_cubic_meter, pressure::pascal, velocity::meter_per_second};
///
/// let loss = excess_entrance_loss(
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     Velocity::new::<meter_per_second>(0.44),
/// );
/// assert!((loss.get::<pascal>() - 130.1).abs() < 0.05);
/// ```
pub fn excess_entrance_loss(density: MassDensity, velocity: Velocity) -> Pressure {
    Pressure::new::<pascal>(1.28 * 0.5 * density.value * velocity.value * velocity.value)
}
