//! A long bubble pushed along by the flow: the film it leaves on the wall, and how much faster it travels.

use crate::fluid::Liquid;
use crate::range::{OutOfRange, between, positive, rising_root};
use uom::si::f64::{Length, Pressure, Ratio, Velocity};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// The largest capillary number for which the film law was measured.
const LARGEST_CAPILLARY: f64 = 1.4;

/// The largest capillary number for which the law of thin films is right to 10 %.
const LARGEST_SMALL_CAPILLARY: f64 = 5e-3;

/// The capillary number: viscous force against surface tension.
///
/// Formula: `Ca = mu |U| / sigma`.
///
/// Symbols: `Ca` capillary number (dimensionless); `mu` dynamic viscosity (Pa s); `U` velocity (m/s); `sigma` surface
/// tension (N/m).
///
/// Range: any.
///
/// Source: [Bretherton1961](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::{bubble::film::capillary_number, fluid::Liquid};
/// use uom::si::f64::{KinematicViscosity, MassDensity, SurfaceTension, Velocity};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::mass_density::kilogram_per_cubic_meter;
/// use uom::si::{ratio::ratio, surface_tension::millinewton_per_meter, velocity::meter_per_second};
///
/// let liquid = Liquid::new(
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
///     SurfaceTension::new::<millinewton_per_meter>(35.0),
/// )?;
/// let number = capillary_number(Velocity::new::<meter_per_second>(0.44), &liquid);
/// assert!((number.get::<ratio>() - 0.198).abs() < 5e-4);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn capillary_number(velocity: Velocity, liquid: &Liquid) -> Ratio {
    Ratio::new::<ratio>(
        liquid.dynamic_viscosity().value * velocity.value.abs() / liquid.surface_tension().value,
    )
}

/// How thick a film a long bubble leaves on the wall, as a share of the radius.
///
/// Formula: `h / R = 1.34 Ca^(2/3) / (1 + 3.35 Ca^(2/3))`.
///
/// Symbols: `h` film (m); `R` half of the bore (m); `Ca` capillary number of the **bubble's** velocity
/// (dimensionless).
///
/// Range: `0 <= Ca <= 1.4`, an error above. Inertia is left out; at Reynolds numbers of some hundreds the film is
/// thicker, so the bubble is faster still.
///
/// Source: [Aussillous2000](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::bubble::film::film_share;
/// use uom::si::{f64::Ratio, ratio::ratio};
///
/// let share = film_share(Ratio::new::<ratio>(0.35))?;
/// assert!((share.get::<ratio>() - 0.2499).abs() < 5e-4);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn film_share(capillary_number: Ratio) -> Result<Ratio, OutOfRange> {
    let capillary = between(
        "capillary number of the bubble",
        capillary_number.get::<ratio>(),
        (0.0, LARGEST_CAPILLARY),
        "",
    )?;
    Ok(Ratio::new::<ratio>(thickness(capillary)))
}

fn thickness(capillary: f64) -> f64 {
    let power = capillary.cbrt().powi(2);
    1.34 * power / (1.0 + 3.35 * power)
}

/// How fast a flow carries a long bubble that fills the bore.
///
/// Formula: `U_b = U / (1 - h/R)^2` with `h/R` by [`film_share`] at `Ca = mu U_b / sigma`, solved for `U_b`.
///
/// Symbols: `U_b` velocity of the bubble (m/s); `U` mean velocity of the flow (m/s); the others as for
/// [`film_share`].
///
/// Range: as for [`film_share`]; an error where the bubble's capillary number exceeds 1.4. Gravity is left out: in thin
/// pipe it matters little, and the direction of the pipe then plays no part. A bubble is never slower than the mean
/// flow, so pushing the contents of the pipe once carries it out.
///
/// Source: [Aussillous2000](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::{bubble::film::pushed_speed, fluid::Liquid};
/// use uom::si::f64::{KinematicViscosity, MassDensity, SurfaceTension, Velocity};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::mass_density::kilogram_per_cubic_meter;
/// use uom::si::{ratio::ratio, surface_tension::millinewton_per_meter, velocity::meter_per_second};
///
/// let liquid = Liquid::new(
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
///     SurfaceTension::new::<millinewton_per_meter>(35.0),
/// )?;
/// let mean = Velocity::new::<meter_per_second>(0.44);
/// let bubble = pushed_speed(mean, &liquid)?;
/// assert!(((bubble / mean).get::<ratio>() - 1.7789).abs() < 5e-5);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn pushed_speed(mean_velocity: Velocity, liquid: &Liquid) -> Result<Velocity, OutOfRange> {
    let mean = between(
        "capillary number of the flow",
        capillary_number(mean_velocity, liquid).get::<ratio>(),
        (0.0, LARGEST_CAPILLARY),
        "",
    )?;
    if mean == 0.0 {
        return Ok(mean_velocity);
    }
    // The film never exceeds 0.4 of the radius, so the bubble is never faster than the mean over 0.6 squared.
    let bubble = rising_root(mean, mean / 0.36, |capillary| {
        capillary * (1.0 - thickness(capillary)).powi(2) - mean
    });
    film_share(Ratio::new::<ratio>(bubble))?;
    Ok(mean_velocity * Ratio::new::<ratio>(bubble / mean))
}

/// A long bubble that is pushed slowly: its film, its lead over the fluid, and what pushing it costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlowBubble {
    /// The film as a share of the radius.
    pub film_share: Ratio,
    /// Its velocity.
    pub velocity: Velocity,
    /// The pressure difference between its ends.
    pub pressure: Pressure,
}

/// A long bubble that is pushed slowly.
///
/// Formula: with `x = (3 Ca)^(2/3)` and `Ca = mu U / sigma`: `h / R = 0.643 x`, `U_b = U (1 + 1.29 x)`,
/// `dp = 3.58 x sigma / R`.
///
/// Symbols: `h` film (m); `R` half of the bore (m); `U` mean velocity of the flow and `U_b` of the bubble (m/s); `dp`
/// pressure difference (Pa); `mu` dynamic viscosity (Pa s); `sigma` surface tension (N/m).
///
/// Range: `Ca` at most 0.005, where it is right to 10 %; an error above. Bleeding by pedal is at 0.2: use
/// [`pushed_speed`].
///
/// Source: [Bretherton1961](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::{bubble::film::slow_bubble, fluid::Liquid};
/// use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension, Velocity};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::mass_density::kilogram_per_cubic_meter;
/// use uom::si::{length::millimeter, pressure::pascal, surface_tension::millinewton_per_meter};
/// use uom::si::velocity::millimeter_per_second;
///
/// let liquid = Liquid::new(
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
///     SurfaceTension::new::<millinewton_per_meter>(35.0),
/// )?;
/// let speed = Velocity::new::<millimeter_per_second>(1.0);
/// let bubble = slow_bubble(speed, Length::new::<millimeter>(3.3), &liquid)?;
/// assert!((bubble.pressure.get::<pascal>() - 0.928).abs() < 0.001);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn slow_bubble(
    mean_velocity: Velocity,
    bore: Length,
    liquid: &Liquid,
) -> Result<SlowBubble, OutOfRange> {
    let bore_m = positive("bore", bore.get::<meter>(), "m")?;
    let capillary = between(
        "capillary number",
        capillary_number(mean_velocity, liquid).get::<ratio>(),
        (0.0, LARGEST_SMALL_CAPILLARY),
        "",
    )?;
    let power = (3.0 * capillary).cbrt().powi(2);
    Ok(SlowBubble {
        film_share: Ratio::new::<ratio>(0.643 * power),
        velocity: Velocity::new::<meter_per_second>(mean_velocity.value * (1.0 + 1.29 * power)),
        pressure: Pressure::new::<pascal>(
            3.58 * power * liquid.surface_tension().value / (0.5 * bore_m),
        ),
    })
}
