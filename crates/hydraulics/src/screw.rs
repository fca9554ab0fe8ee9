//! Flow through the drilling of an open bleed screw.

use crate::fluid::Liquid;
use crate::geometry::bore_area;
use crate::pipe::Pipe;
use crate::range::OutOfRange;
use crate::stroke::BranchLaw;
use uom::si::f64::Length;
use uom::si::length::meter;

/// The drilling of a bleed screw, taken for one straight bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drilling {
    bore: Pipe,
}

impl Drilling {
    /// A drilling of this bore and length, both above zero.
    pub fn new(bore: Length, length: Length) -> Result<Self, OutOfRange> {
        Ok(Self {
            bore: Pipe::new(bore, length)?,
        })
    }

    /// Its bore.
    pub fn bore(&self) -> Length {
        self.bore.bore()
    }

    /// What the drilling costs, from the cavity before it to the jet behind it.
    ///
    /// Formula: `dp = a Q + b Q |Q|`, `a = 128 mu L / (pi D^4) + 3 mu / R^3`, `b = 1.14 rho / A^2`.
    ///
    /// Symbols: `dp` pressure difference (Pa); `Q` flow (m3/s); `mu` dynamic viscosity (Pa s); `L` length (m);
    /// `D` bore (m); `R` half of it (m); `rho` density (kg/m3); `A` area of the bore (m2).
    ///
    /// Range: laminar in the drilling. The ends in creeping flow (`3 mu / R^3`) and in fast flow (`b`) are both
    /// counted, although neither is full where the other is: for 1.5 mm x 8 mm at 3 ml/s the sum is 10 % more than
    /// [Shah1978](crate#sources) gives for the developing flow. Only a straight drilling; no gap at the seat.
    ///
    /// Source: creeping ends [Sampson1891](crate#sources), [Dagan1982](crate#sources); fast ends
    /// [Langhaar1942](crate#sources); bore [White2006](crate#sources).
    ///
    /// ```
    /// use bleedwright_hydraulics::{fluid::Liquid, screw::Drilling};
    /// use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension, VolumeRate};
    /// use uom::si::kinematic_viscosity::square_millimeter_per_second;
    /// use uom::si::mass_density::kilogram_per_cubic_meter;
    /// use uom::si::volume_rate::milliliter_per_second;
    /// use uom::si::{length::millimeter, pressure::pascal, surface_tension::millinewton_per_meter};
    ///
    /// let liquid = Liquid::new(
    ///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
    ///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
    ///     SurfaceTension::new::<millinewton_per_meter>(33.0),
    /// )?;
    /// let drilling = Drilling::new(Length::new::<millimeter>(1.5), Length::new::<millimeter>(8.0))?;
    /// let loss = drilling.loss(&liquid).pressure(VolumeRate::new::<milliliter_per_second>(3.0));
    /// assert!((loss.get::<pascal>() - 6828.0).abs() < 1.0);
    /// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
    /// ```
    pub fn loss(&self, liquid: &Liquid) -> BranchLaw {
        let viscosity = liquid.dynamic_viscosity();
        let radius_m = 0.5 * self.bore().get::<meter>();
        let ends = 3.0 * viscosity.value / radius_m.powi(3);
        let area_m2 = bore_area(self.bore()).value;
        let bore = self.bore.resistance(viscosity);
        BranchLaw {
            linear_pa_s_per_m3: bore.pascal_seconds_per_cubic_metre() + ends,
            quadratic_pa_s2_per_m6: 1.14 * liquid.density().value / (area_m2 * area_m2),
        }
    }
}
