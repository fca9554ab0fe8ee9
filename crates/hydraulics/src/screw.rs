//! Flow through the drilling of an open bleed screw.

use crate::fluid::Liquid;
use crate::geometry::bore_area;
use crate::known::{Known, Standing};
use crate::pipe::{Pipe, is_laminar, mean_velocity, reynolds_number};
use crate::range::OutOfRange;
use crate::resistance::HydraulicResistance;
use uom::si::f64::{Length, Pressure, Ratio, VolumeRate};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

/// The drilling of a bleed screw, taken for one straight bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drilling {
    bore: Pipe,
}

/// What a drilling costs: a part that grows with the flow and one that grows with its square.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrillingLoss {
    /// The part that grows with the flow.
    pub linear: HydraulicResistance,
    /// The factor of the square of the flow in Pa s2/m6.
    pub quadratic_pa_s2_per_m6: f64,
}

/// The flow through a drilling, and what is needed to judge it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrillingFlow {
    /// The flow, in the direction of the falling pressure.
    pub flow: VolumeRate,
    /// The Reynolds number in the drilling.
    pub reynolds_number: Ratio,
    /// Whether it is laminar there. Where it is not, the loss is not known.
    pub is_laminar: bool,
}

impl Drilling {
    /// A drilling of this bore and length, both above zero.
    pub fn new(bore: Length, length: Length) -> Result<Self, OutOfRange> {
        Ok(Self {
            bore: Pipe::new(bore, length)?,
        })
    }

    /// The drilling of a screw of which nothing is known. "Low" is the narrowest.
    ///
    /// ASSUMPTION: 1.5 mm bore (1.0 to 2.0 mm), 8 mm long. Most screws have an axial and a cross drilling, and until
    /// they are half a turn to one turn open the gap at the seat is narrower still; a measured flow is worth more.
    pub fn assumed() -> Result<Known<Self>, OutOfRange> {
        let drilling = |bore_mm| {
            Self::new(
                Length::new::<millimeter>(bore_mm),
                Length::new::<millimeter>(8.0),
            )
        };
        Ok(Known {
            low: drilling(1.0)?,
            nominal: drilling(1.5)?,
            high: drilling(2.0)?,
            standing: Standing::Guess,
        })
    }

    /// Its bore.
    pub fn bore(&self) -> Length {
        self.bore.bore()
    }

    /// Its length.
    pub fn length(&self) -> Length {
        self.bore.length()
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
    pub fn loss(&self, liquid: &Liquid) -> DrillingLoss {
        let viscosity = liquid.dynamic_viscosity();
        let radius_m = 0.5 * self.bore().get::<meter>();
        let ends = HydraulicResistance::new(3.0 * viscosity.value / radius_m.powi(3));
        let area_m2 = bore_area(self.bore()).value;
        DrillingLoss {
            linear: self.bore.resistance(viscosity) + ends,
            quadratic_pa_s2_per_m6: 1.14 * liquid.density().value / (area_m2 * area_m2),
        }
    }

    /// The flow through a drilling and the pipework before it, which together take up a pressure difference.
    ///
    /// Formula: the root of `dp = (a + R) Q + b Q |Q|`, which is
    /// `Q = 2 dp / ((a + R) + sqrt((a + R)^2 + 4 b |dp|))`.
    ///
    /// Symbols: `R` resistance of the pipework (Pa s/m3); the others as for [`Drilling::loss`].
    ///
    /// Range: as for [`Drilling::loss`]; the result tells whether the drilling is laminar. The pipework has to be
    /// looked at by itself.
    ///
    /// Source: algebra, [Bronshtein2007](crate#sources), in the form that loses no digits at small pressures.
    ///
    /// ```
    /// use bleedwright_hydraulics::{HydraulicResistance, fluid::Liquid, screw::Drilling};
    /// use uom::si::f64::{KinematicViscosity, Length, MassDensity, Pressure, SurfaceTension};
    /// use uom::si::kinematic_viscosity::square_millimeter_per_second;
    /// use uom::si::mass_density::kilogram_per_cubic_meter;
    /// use uom::si::volume_rate::milliliter_per_second;
    /// use uom::si::{length::millimeter, pressure::bar, surface_tension::millinewton_per_meter};
    ///
    /// let liquid = Liquid::new(
    ///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
    ///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
    ///     SurfaceTension::new::<millinewton_per_meter>(33.0),
    /// )?;
    /// let drilling = Drilling::new(Length::new::<millimeter>(1.5), Length::new::<millimeter>(8.0))?;
    /// let pipework = HydraulicResistance::new(2.609e10);
    /// let found = drilling.flow_behind(pipework, Pressure::new::<bar>(1.0), &liquid);
    /// assert!(found.is_laminar && found.flow.get::<milliliter_per_second>() < 3.833);
    /// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
    /// ```
    pub fn flow_behind(
        &self,
        pipework: HydraulicResistance,
        pressure: Pressure,
        liquid: &Liquid,
    ) -> DrillingFlow {
        let flow = self.loss(liquid).flow_behind(pipework, pressure);
        let velocity = mean_velocity(flow, self.bore());
        let number = reynolds_number(velocity, self.bore(), liquid.kinematic_viscosity());
        DrillingFlow {
            flow,
            reynolds_number: number,
            is_laminar: is_laminar(number),
        }
    }
}

impl DrillingLoss {
    /// The pressure difference that a flow needs; it has the sign of the flow.
    pub fn pressure(&self, flow: VolumeRate) -> Pressure {
        let flow_m3_s = flow.get::<cubic_meter_per_second>();
        self.linear.pressure(flow)
            + Pressure::new::<pascal>(self.quadratic_pa_s2_per_m6 * flow_m3_s * flow_m3_s.abs())
    }

    /// The flow that a pressure difference drives through this and a resistance before it, without a judgement.
    pub fn flow_behind(&self, pipework: HydraulicResistance, pressure: Pressure) -> VolumeRate {
        let pressure_pa = pressure.get::<pascal>();
        let linear = (self.linear + pipework).pascal_seconds_per_cubic_metre();
        let root = (linear * linear + 4.0 * self.quadratic_pa_s2_per_m6 * pressure_pa.abs()).sqrt();
        VolumeRate::new::<cubic_meter_per_second>(2.0 * pressure_pa / (linear + root))
    }
}
