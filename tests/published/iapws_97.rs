//! IAPWS R7-97 (2012), Industrial Formulation 1997, table 35: vapour pressure of water at 300, 500 and 600 K, printed with
//! nine figures; and ITS-90: water boils at 99.974 degC under 101.325 kPa. Both from memory. The coefficients are from
//! memory too: an error in one of them would not leave nine figures right three times.

use bleedwright_inspection::fluid::{FluidError, water_saturation_pressure};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::pressure::{kilopascal, megapascal};
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

#[test]
fn table_35() {
    for (t_k, printed_mpa, last_digit) in [
        (300.0, 0.353_658_941e-2, 1e-11),
        (500.0, 0.263_889_776e1, 1e-8),
        (600.0, 0.123_443_146e2, 1e-7),
    ] {
        let temperature = ThermodynamicTemperature::new::<kelvin>(t_k);
        let found = water_saturation_pressure(temperature)
            .expect("water has a vapour pressure here")
            .get::<megapascal>();
        assert!(
            (found - printed_mpa).abs() < 0.6 * last_digit,
            "{t_k} K: {found}"
        );
    }
}

#[test]
fn boiling_water() {
    let temperature = ThermodynamicTemperature::new::<degree_celsius>(99.974);
    let found = water_saturation_pressure(temperature)
        .expect("water boils")
        .get::<kilopascal>();
    // A thousandth of a degree is 0.0036 kPa; the formulation differs from ITS-90 by less than one.
    assert!((found - 101.325).abs() < 0.005, "{found}");
}

#[test]
fn nothing_beyond_the_critical_point() {
    for t_k in [273.0, 647.2, f64::NAN] {
        let refused = water_saturation_pressure(ThermodynamicTemperature::new::<kelvin>(t_k));
        assert!(
            matches!(refused, Err(FluidError::WaterTemperature { .. })),
            "{t_k}"
        );
    }
}
