//! The units a layout file or a record may use, per quantity.

use crate::spelling::is_same_unit;
use uom::si::f64::{
    Force, KinematicViscosity, Length, Pressure, Ratio, ThermodynamicTemperature, Time, Torque,
    Volume,
};
use uom::si::{
    force, kinematic_viscosity, length, pressure, ratio, thermodynamic_temperature, time, torque,
    volume,
};

/// One unit: the spellings accepted, and how a number in it becomes a quantity.
pub struct Unit<Q> {
    /// Accepted spellings; the first is the one printed. Case, hyphens, dots
    /// and the `s` of a plural do not matter.
    pub names: &'static [&'static str],
    /// From a number in this unit.
    pub make: fn(f64) -> Q,
    /// Back to a number in this unit.
    pub read: fn(&Q) -> f64,
}

/// A physical quantity that can stand in a layout file.
pub trait Quantity: Copy + PartialOrd + 'static {
    /// What it is called in a message, such as "a length".
    const NAME: &'static str;
    /// How one writes it, such as `"3.3 mm"`.
    const EXAMPLE: &'static str;
    /// Whether a bare number without a unit is meant (a ratio).
    const UNITLESS: bool = false;
    /// Whether zero on the unit's scale is the absence of the quantity.
    /// A temperature of 0 degC is not.
    const FROM_ZERO: bool = true;

    /// Every unit, the usual one first.
    fn units() -> &'static [Unit<Self>]
    where
        Self: Sized;
}

macro_rules! unit {
    ($quantity:ty, $unit:ty, $($name:literal),+) => {
        Unit {
            names: &[$($name),+],
            make: |number| <$quantity>::new::<$unit>(number),
            read: |quantity| quantity.get::<$unit>(),
        }
    };
}

impl Quantity for Length {
    const NAME: &'static str = "a length";
    const EXAMPLE: &'static str = "\"3.3 mm\"";

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<Length>] = &[
            unit!(Length, length::millimeter, "mm", "millimetre", "millimeter"),
            unit!(Length, length::meter, "m", "metre", "meter"),
            unit!(Length, length::centimeter, "cm", "centimetre", "centimeter"),
            unit!(Length, length::inch, "in", "inch", "inches", "\""),
            unit!(Length, length::foot, "ft", "foot", "feet"),
            unit!(Length, length::mil, "thou"),
        ];
        UNITS
    }
}

impl Quantity for Volume {
    const NAME: &'static str = "a volume";
    const EXAMPLE: &'static str = "\"250 ml\"";

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<Volume>] = &[
            unit!(Volume, volume::milliliter, "ml", "millilitre", "milliliter"),
            unit!(Volume, volume::liter, "l", "litre", "liter"),
            unit!(
                Volume,
                volume::cubic_centimeter,
                "cm3",
                "cm³",
                "cc",
                "cu cm"
            ),
            unit!(Volume, volume::cubic_millimeter, "mm3", "mm³", "cu mm"),
            unit!(Volume, volume::centiliter, "cl", "centilitre", "centiliter"),
            unit!(
                Volume,
                volume::cubic_inch,
                "in3",
                "in³",
                "cu in",
                "cubic inch",
                "cubic inches"
            ),
            unit!(Volume, volume::fluid_ounce, "us fl oz"),
            unit!(Volume, volume::fluid_ounce_imperial, "imp fl oz"),
        ];
        UNITS
    }
}

impl Quantity for Pressure {
    const NAME: &'static str = "a pressure";
    const EXAMPLE: &'static str = "\"35 bar\"";

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<Pressure>] = &[
            unit!(Pressure, pressure::bar, "bar"),
            unit!(Pressure, pressure::millibar, "mbar"),
            unit!(Pressure, pressure::kilopascal, "kPa"),
            unit!(Pressure, pressure::megapascal, "MPa"),
            unit!(Pressure, pressure::pascal, "Pa"),
            unit!(Pressure, pressure::pound_force_per_square_inch, "psi"),
        ];
        UNITS
    }
}

impl Quantity for Torque {
    const NAME: &'static str = "a torque";
    const EXAMPLE: &'static str = "\"8 N m\"";

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<Torque>] = &[
            unit!(
                Torque,
                torque::newton_meter,
                "N m",
                "Nm",
                "N·m",
                "N*m",
                "newton metre",
                "newton meter"
            ),
            unit!(
                Torque,
                torque::pound_force_foot,
                "lbf ft",
                "lb ft",
                "ft lbf",
                "ft lb",
                "foot pound",
                "pound foot"
            ),
            unit!(
                Torque,
                torque::pound_force_inch,
                "lbf in",
                "lb in",
                "in lbf",
                "in lb",
                "inch pound",
                "pound inch"
            ),
            unit!(Torque, torque::newton_centimeter, "N cm"),
            unit!(Torque, torque::decanewton_meter, "daN m"),
        ];
        UNITS
    }
}

impl Quantity for Force {
    const NAME: &'static str = "a force";
    const EXAMPLE: &'static str = "\"222 N\"";

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<Force>] = &[
            unit!(Force, force::newton, "N", "newton", "newtons"),
            unit!(Force, force::kilonewton, "kN", "kilonewton"),
            unit!(Force, force::pound_force, "lbf", "lb", "pound-force"),
            unit!(Force, force::kilogram_force, "kgf"),
        ];
        UNITS
    }
}

impl Quantity for Time {
    const NAME: &'static str = "a time";
    const EXAMPLE: &'static str = "\"10 s\"";

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<Time>] = &[
            unit!(Time, time::second, "s", "sec", "second", "seconds"),
            unit!(Time, time::minute, "min", "minute", "minutes"),
        ];
        UNITS
    }
}

impl Quantity for KinematicViscosity {
    const NAME: &'static str = "a kinematic viscosity";
    const EXAMPLE: &'static str = "\"15 mm2/s\"";

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<KinematicViscosity>] = &[unit!(
            KinematicViscosity,
            kinematic_viscosity::square_millimeter_per_second,
            "mm2/s",
            "mm²/s",
            "cSt"
        )];
        UNITS
    }
}

impl Quantity for ThermodynamicTemperature {
    const NAME: &'static str = "a temperature";
    const EXAMPLE: &'static str = "\"20 degC\"";
    const FROM_ZERO: bool = false;

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<ThermodynamicTemperature>] = &[
            unit!(
                ThermodynamicTemperature,
                thermodynamic_temperature::degree_celsius,
                "degC",
                "°C",
                "C",
                "degree C",
                "Celsius",
                "degree Celsius"
            ),
            unit!(
                ThermodynamicTemperature,
                thermodynamic_temperature::degree_fahrenheit,
                "degF",
                "°F",
                "F",
                "degree F",
                "Fahrenheit",
                "degree Fahrenheit"
            ),
            unit!(
                ThermodynamicTemperature,
                thermodynamic_temperature::kelvin,
                "K"
            ),
        ];
        UNITS
    }
}

impl Quantity for Ratio {
    const NAME: &'static str = "a ratio";
    const EXAMPLE: &'static str = "4.2 or \"30 %\"";
    const UNITLESS: bool = true;

    fn units() -> &'static [Unit<Self>] {
        const UNITS: &[Unit<Ratio>] = &[
            unit!(Ratio, ratio::ratio, "", ":1", "to 1"),
            unit!(Ratio, ratio::percent, "%", "percent"),
        ];
        UNITS
    }
}

/// The printed spellings of a quantity's units, for messages.
pub fn unit_list<Q: Quantity>() -> String {
    let names: Vec<&str> = Q::units()
        .iter()
        .map(|unit| unit.names[0])
        .filter(|name| !name.is_empty())
        .collect();
    names.join(", ")
}

/// Finds a unit by one of its spellings.
pub(crate) fn find_unit<Q: Quantity>(name: &str) -> Option<&'static Unit<Q>> {
    let find = |is_meant: &dyn Fn(&str) -> bool| {
        Q::units()
            .iter()
            .find(|unit| unit.names.iter().any(|known| is_meant(known)))
    };
    // Nearly all are written as the table has them.
    find(&|known| known.eq_ignore_ascii_case(name))
        .or_else(|| find(&|known| is_same_unit(known, name)))
}
