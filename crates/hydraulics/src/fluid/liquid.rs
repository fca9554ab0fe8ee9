//! One definite liquid.

use crate::range::{OutOfRange, positive};
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{DynamicViscosity, KinematicViscosity, MassDensity, SurfaceTension};

/// A liquid with definite properties, as the equations of flow and of bubbles take it.
///
/// ```
/// use bleedwright_hydraulics::fluid::Liquid;
/// use uom::si::dynamic_viscosity::millipascal_second;
/// use uom::si::f64::{KinematicViscosity, MassDensity, SurfaceTension};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::{mass_density::kilogram_per_cubic_meter, surface_tension::millinewton_per_meter};
///
/// let liquid = Liquid::new(
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
///     SurfaceTension::new::<millinewton_per_meter>(35.0),
/// )?;
/// assert!((liquid.dynamic_viscosity().get::<millipascal_second>() - 15.75).abs() < 1e-9);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Liquid {
    density: MassDensity,
    kinematic_viscosity: KinematicViscosity,
    surface_tension: SurfaceTension,
}

impl Liquid {
    /// A liquid of this density, viscosity and surface tension, all of them above zero.
    pub fn new(
        density: MassDensity,
        kinematic_viscosity: KinematicViscosity,
        surface_tension: SurfaceTension,
    ) -> Result<Self, OutOfRange> {
        positive("density", density.value, "kg/m3")?;
        positive("kinematic viscosity", kinematic_viscosity.value, "m2/s")?;
        positive("surface tension", surface_tension.value, "N/m")?;
        Ok(Self {
            density,
            kinematic_viscosity,
            surface_tension,
        })
    }

    /// Its density.
    pub fn density(&self) -> MassDensity {
        self.density
    }

    /// Its kinematic viscosity.
    pub fn kinematic_viscosity(&self) -> KinematicViscosity {
        self.kinematic_viscosity
    }

    /// Its surface tension against air.
    pub fn surface_tension(&self) -> SurfaceTension {
        self.surface_tension
    }

    /// Its dynamic viscosity: the kinematic one times the density.
    pub fn dynamic_viscosity(&self) -> DynamicViscosity {
        DynamicViscosity::new::<pascal_second>(self.density.value * self.kinematic_viscosity.value)
    }
}
