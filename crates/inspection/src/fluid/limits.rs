//! The limits of the grades, each with its clause and with how surely it is known.

use crate::words::words;
use bleedwright_network::{Fluid, FluidFamily};
use uom::si::f64::{KinematicViscosity, Ratio, ThermodynamicTemperature, Time};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::thermodynamic_temperature::degree_celsius;

words! {
    /// How surely a figure is known.
    #[derive(PartialOrd, Ord)]
    Certainty {
        /// Read at the source: the law itself, a government's own paper, the report that measured it, the label.
        Read = "read";
        /// The law as somebody else quotes it.
        Quoted = "quoted";
        /// Read where the trade repeats it.
        SecondHand = "second_hand";
        /// From memory, not looked up.
        FromMemory = "from_memory";
        /// Common practice of the trade; no source was found.
        CommonPractice = "common_practice";
        /// An assumption of this program.
        Assumption = "assumption";
    }
}

words! {
    /// What a limit is about.
    Property {
        /// Boiling point of new, dry fluid.
        DryBoiling = "dry_boiling_point";
        /// Boiling point after the moistening of the law, nominally 3.7 % of water.
        WetBoiling = "wet_boiling_point";
        /// Kinematic viscosity at -40 degC.
        ColdViscosity = "viscosity_at_minus_40_degc";
        /// Kinematic viscosity at 100 degC.
        HotViscosity = "viscosity_at_100_degc";
        /// pH.
        Acidity = "ph";
        /// Colour of new fluid.
        Colour = "colour";
        /// Water in the fluid in a car; from here on it is renewed.
        Moisture = "moisture";
        /// Time in the car.
        Age = "age";
    }
}

/// A figure with its direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LimitValue {
    /// A least temperature.
    TemperatureAtLeast(ThermodynamicTemperature),
    /// A greatest viscosity.
    ViscosityAtMost(KinematicViscosity),
    /// A least viscosity.
    ViscosityAtLeast(KinematicViscosity),
    /// A range of pH.
    AcidityWithin {
        /// The lowest.
        low_ph: f64,
        /// The highest.
        high_ph: f64,
    },
    /// A share that must not be reached.
    ShareBelow(Ratio),
    /// A time that must not be passed.
    TimeAtMost(Time),
    /// A colour.
    Colour(Colour),
}

/// The colour of new fluid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colour {
    /// Green.
    Green,
    /// Purple.
    Purple,
    /// Colourless to amber.
    Pale,
}

/// One limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// What it is about.
    pub property: Property,
    /// The figure.
    pub value: LimitValue,
    /// Law or standard with its clause; none for a rule of the trade.
    pub clause: Option<&'static str>,
    /// How surely the figure is known.
    pub certainty: Certainty,
}

/// The limits for new fluid of a grade, the law's first.
///
/// Source: [FMVSS116](crate#sources) S5.1.1 to S5.1.4 and S5.1.14, [ISO4925](crate#sources). Each limit says how it was
/// read. Low-viscosity DOT 4 has the limits of DOT 4 and those of ISO 4925 class 6. Mineral oil has none but its colour.
///
/// ```
/// use bleedwright_inspection::fluid::{Property, limits_of};
/// use bleedwright_network::Fluid;
///
/// let wet = limits_of(Fluid::Dot4).into_iter().find(|limit| limit.property == Property::WetBoiling);
/// assert_eq!(wet.and_then(|limit| limit.clause), Some("FMVSS 116 S5.1.2"));
/// ```
pub fn limits_of(grade: Fluid) -> Vec<Limit> {
    let mut limits = of_the_law(grade);
    limits.extend(of_the_standard(grade));
    limits
}

/// The least dry boiling point: the highest that one of the texts asks for.
pub(super) fn least_dry(grade: Fluid) -> Option<ThermodynamicTemperature> {
    highest(grade, Property::DryBoiling)
}

/// The least wet boiling point: the highest that one of the texts asks for.
pub(crate) fn least_wet(grade: Fluid) -> Option<ThermodynamicTemperature> {
    highest(grade, Property::WetBoiling)
}

/// The least dry boiling point of the law alone.
pub(super) fn least_dry_of_the_law(grade: Fluid) -> Option<ThermodynamicTemperature> {
    temperatures(&of_the_law(grade), Property::DryBoiling).next()
}

fn highest(grade: Fluid, property: Property) -> Option<ThermodynamicTemperature> {
    let limits = limits_of(grade);
    temperatures(&limits, property).reduce(ThermodynamicTemperature::max)
}

fn temperatures(
    limits: &[Limit],
    property: Property,
) -> impl Iterator<Item = ThermodynamicTemperature> {
    limits
        .iter()
        .filter(move |limit| limit.property == property)
        .filter_map(|limit| match limit.value {
            LimitValue::TemperatureAtLeast(least) => Some(least),
            _ => None,
        })
}

fn of_the_law(grade: Fluid) -> Vec<Limit> {
    use Certainty::{FromMemory, Quoted, Read, SecondHand};
    let (dry_degc, wet_degc, cold_mm2_s, wet_certainty) = match grade {
        Fluid::Dot3 => (205.0, 140.0, 1500.0, Quoted),
        Fluid::Dot4 | Fluid::Dot4LowViscosity => (230.0, 155.0, 1800.0, Read),
        Fluid::Dot5 | Fluid::Dot51 => (260.0, 180.0, 900.0, Quoted),
        Fluid::Mineral => {
            return vec![Limit {
                property: Property::Colour,
                value: LimitValue::Colour(Colour::Green),
                clause: Some("FMVSS 116 S5.1.14"),
                certainty: Read,
            }];
        }
    };
    let mut limits = figures(
        ["FMVSS 116 S5.1.1", "FMVSS 116 S5.1.2", "FMVSS 116 S5.1.3"],
        [dry_degc, wet_degc, cold_mm2_s],
        [Quoted, wet_certainty, SecondHand],
    );
    if grade.family() != FluidFamily::Silicone {
        limits.push(Limit {
            property: Property::Acidity,
            value: LimitValue::AcidityWithin {
                low_ph: 7.0,
                high_ph: 11.5,
            },
            clause: Some("FMVSS 116 S5.1.4"),
            certainty: SecondHand,
        });
    }
    let (colour, certainty) = match grade {
        Fluid::Dot5 => (Colour::Purple, Read),
        Fluid::Dot51 => (Colour::Pale, FromMemory),
        _ => (Colour::Pale, Read),
    };
    limits.push(Limit {
        property: Property::Colour,
        value: LimitValue::Colour(colour),
        clause: Some("FMVSS 116 S5.1.14"),
        certainty,
    });
    limits
}

/// ISO 4925; silicone fluid and mineral oil have no class there.
fn of_the_standard(grade: Fluid) -> Vec<Limit> {
    let (clause, values) = match grade {
        Fluid::Dot3 => ("ISO 4925 class 3", [205.0, 140.0, 1500.0]),
        Fluid::Dot4 => ("ISO 4925 class 4", [230.0, 155.0, 1500.0]),
        Fluid::Dot4LowViscosity => ("ISO 4925 class 6", [250.0, 165.0, 750.0]),
        Fluid::Dot51 => ("ISO 4925 class 5-1", [260.0, 180.0, 900.0]),
        Fluid::Dot5 | Fluid::Mineral => return Vec::new(),
    };
    figures([clause; 3], values, [Certainty::FromMemory; 3])
}

/// The limits that every class has: dry and wet boiling point (degC), viscosity at -40 degC (mm2/s), and at least 1.5 mm2/s
/// at 100 degC.
fn figures(
    [dry_clause, wet_clause, viscosity_clause]: [&'static str; 3],
    [dry_degc, wet_degc, cold_mm2_s]: [f64; 3],
    [dry, wet, viscosity]: [Certainty; 3],
) -> Vec<Limit> {
    let boiling = |degc| {
        LimitValue::TemperatureAtLeast(ThermodynamicTemperature::new::<degree_celsius>(degc))
    };
    let mm2_s = KinematicViscosity::new::<square_millimeter_per_second>;
    let limit = |property, value, clause, certainty| Limit {
        property,
        value,
        clause: Some(clause),
        certainty,
    };
    vec![
        limit(Property::DryBoiling, boiling(dry_degc), dry_clause, dry),
        limit(Property::WetBoiling, boiling(wet_degc), wet_clause, wet),
        limit(
            Property::ColdViscosity,
            LimitValue::ViscosityAtMost(mm2_s(cold_mm2_s)),
            viscosity_clause,
            viscosity,
        ),
        limit(
            Property::HotViscosity,
            LimitValue::ViscosityAtLeast(mm2_s(1.5)),
            viscosity_clause,
            viscosity,
        ),
    ]
}
