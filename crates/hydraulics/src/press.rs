//! Two pistons joined by a liquid, and the lever before them.

use crate::geometry::bore_area;
use crate::range::{OutOfRange, positive};
use uom::si::area::square_meter;
use uom::si::f64::{Force, Length, Pressure, Ratio};
use uom::si::length::meter;

/// The force at a lever's short end.
///
/// Formula: `F2 = r F1`.
///
/// Symbols: `F1`, `F2` forces at the long and the short end (N); `r` ratio of the arms (dimensionless).
///
/// Range: no friction, forces square to the arms.
///
/// Source: lever rule, [Limpert2011](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::press::lever_force;
/// use uom::si::{f64::{Force, Ratio}, force::newton, ratio::ratio};
///
/// let rod = lever_force(Force::new::<newton>(360.0), Ratio::new::<ratio>(8.0));
/// assert!((rod.get::<newton>() - 2880.0).abs() < 1e-9);
/// ```
pub fn lever_force(force: Force, lever_ratio: Ratio) -> Force {
    force * lever_ratio
}

/// The pressure that a force makes behind a piston.
///
/// Formula: `p = F / A` with `A = pi D^2 / 4`.
///
/// Symbols: `p` gauge pressure (Pa); `F` force (N); `A` area (m2); `D` diameter of the piston (m).
///
/// Range: a diameter above zero; no friction of seals, no return spring.
///
/// Source: [Openstax2012](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::press::pressure_from_force;
/// use uom::si::{f64::{Force, Length}, force::newton, length::centimeter, pressure::megapascal};
///
/// let pressure = pressure_from_force(Force::new::<newton>(500.0), Length::new::<centimeter>(0.5))?;
/// assert!((pressure.get::<megapascal>() - 25.46).abs() < 0.005);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn pressure_from_force(force: Force, diameter: Length) -> Result<Pressure, OutOfRange> {
    positive("diameter", diameter.get::<meter>(), "m")?;
    // A diameter so small that its square vanishes has no area either.
    positive("area", bore_area(diameter).get::<square_meter>(), "m2")?;
    Ok(force / bore_area(diameter))
}

/// The force with which a pressure pushes a piston.
///
/// Formula: `F = p A` with `A = pi D^2 / 4`.
///
/// Symbols: `F` force (N); `p` gauge pressure (Pa); `A` area (m2); `D` diameter of the piston (m).
///
/// Range: no friction of seals.
///
/// Source: [Openstax2012](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::press::force_from_pressure;
/// use uom::si::{f64::{Length, Pressure}, force::newton, length::centimeter, pressure::megapascal};
///
/// let force = force_from_pressure(Pressure::new::<megapascal>(25.0), Length::new::<centimeter>(2.5));
/// assert!((force.get::<newton>() - 12_272.0).abs() < 1.0);
/// ```
pub fn force_from_pressure(pressure: Pressure, diameter: Length) -> Force {
    pressure * bore_area(diameter)
}

/// Two pistons joined by a liquid (Pascal's press): a master cylinder and what it works.
///
/// Formula: `F2 / F1 = A2 / A1`, `x2 / x1 = A1 / A2`.
///
/// Symbols: `F` force (N), `x` travel (m), `A` area (m2), of the first piston (1) and the second (2).
///
/// Range: no friction; a stiff liquid in stiff pipework, all of what the one displaces moving the other.
///
/// Source: [Openstax2012](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::press::Press;
/// use uom::si::{f64::Length, length::{centimeter, millimeter}};
///
/// let press = Press::new(Length::new::<centimeter>(1.04), Length::new::<centimeter>(2.10))?;
/// let travel = press.travel_of_second(Length::new::<millimeter>(8.80));
/// assert!((travel.get::<millimeter>() - 2.158).abs() < 5e-4);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Press {
    first: Length,
    second: Length,
}

impl Press {
    /// A press with pistons of these diameters, both above zero.
    pub fn new(first: Length, second: Length) -> Result<Self, OutOfRange> {
        positive("diameter of the first piston", first.get::<meter>(), "m")?;
        positive("diameter of the second piston", second.get::<meter>(), "m")?;
        Ok(Self { first, second })
    }

    /// The force on the second piston when the first is pushed.
    pub fn force_on_second(&self, on_first: Force) -> Force {
        on_first * self.second_over_first()
    }

    /// How far the second piston moves when the first moves.
    pub fn travel_of_second(&self, of_first: Length) -> Length {
        of_first / self.second_over_first()
    }

    fn second_over_first(&self) -> Ratio {
        let ratio = self.second / self.first;
        ratio * ratio
    }
}
