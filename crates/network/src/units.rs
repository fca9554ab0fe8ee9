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

/// A quantity with its name, how one writes it, what sets it apart, and its
/// units with their spellings.
macro_rules! quantity {
    ($quantity:ident: $name:literal, $example:literal $(, $question:ident = $answer:literal)? {
        $($unit:ty: $($spelling:literal),+;)+
    }) => {
        impl Quantity for $quantity {
            const NAME: &'static str = $name;
            const EXAMPLE: &'static str = $example;
            $(const $question: bool = $answer;)?

            fn units() -> &'static [Unit<Self>] {
                const UNITS: &[Unit<$quantity>] = &[$(Unit {
                    names: &[$($spelling),+],
                    make: |number| <$quantity>::new::<$unit>(number),
                    read: |quantity| quantity.get::<$unit>(),
                }),+];
                UNITS
            }
        }
    };
}

quantity!(Length: "a length", "\"3.3 mm\"" {
    length::millimeter: "mm", "millimetre", "millimeter";
    length::meter: "m", "metre", "meter";
    length::centimeter: "cm", "centimetre", "centimeter";
    length::inch: "in", "inch", "inches", "\"";
    length::foot: "ft", "foot", "feet";
    length::mil: "thou";
});

quantity!(Volume: "a volume", "\"250 ml\"" {
    volume::milliliter: "ml", "millilitre", "milliliter";
    volume::liter: "l", "litre", "liter";
    volume::cubic_centimeter: "cm3", "cm³", "cc", "cu cm";
    volume::cubic_millimeter: "mm3", "mm³", "cu mm";
    volume::centiliter: "cl", "centilitre", "centiliter";
    volume::cubic_inch: "in3", "in³", "cu in", "cubic inch", "cubic inches";
    volume::fluid_ounce: "us fl oz";
    volume::fluid_ounce_imperial: "imp fl oz";
});

quantity!(Pressure: "a pressure", "\"35 bar\"" {
    pressure::bar: "bar";
    pressure::millibar: "mbar";
    pressure::kilopascal: "kPa";
    pressure::megapascal: "MPa";
    pressure::pascal: "Pa";
    pressure::pound_force_per_square_inch: "psi";
});

quantity!(Torque: "a torque", "\"8 N m\"" {
    torque::newton_meter: "N m", "Nm", "N·m", "N*m", "newton metre", "newton meter";
    torque::pound_force_foot: "lbf ft", "lb ft", "ft lbf", "ft lb", "foot pound", "pound foot";
    torque::pound_force_inch: "lbf in", "lb in", "in lbf", "in lb", "inch pound", "pound inch";
    torque::newton_centimeter: "N cm";
    torque::decanewton_meter: "daN m";
});

quantity!(Force: "a force", "\"222 N\"" {
    force::newton: "N", "newton", "newtons";
    force::kilonewton: "kN", "kilonewton";
    force::pound_force: "lbf", "lb", "pound-force";
    force::kilogram_force: "kgf";
});

quantity!(Time: "a time", "\"10 s\"" {
    time::second: "s", "sec", "second", "seconds";
    time::minute: "min", "minute", "minutes";
});

quantity!(KinematicViscosity: "a kinematic viscosity", "\"15 mm2/s\"" {
    kinematic_viscosity::square_millimeter_per_second: "mm2/s", "mm²/s", "cSt";
});

quantity!(ThermodynamicTemperature: "a temperature", "\"20 degC\"", FROM_ZERO = false {
    thermodynamic_temperature::degree_celsius:
        "degC", "°C", "C", "degree C", "Celsius", "degree Celsius";
    thermodynamic_temperature::degree_fahrenheit:
        "degF", "°F", "F", "degree F", "Fahrenheit", "degree Fahrenheit";
    thermodynamic_temperature::kelvin: "K";
});

quantity!(Ratio: "a ratio", "4.2 or \"30 %\"", UNITLESS = true {
    ratio::ratio: "", ":1", "to 1";
    ratio::percent: "%", "percent";
});

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
