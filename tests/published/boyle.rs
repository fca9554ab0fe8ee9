//! Boyle's law, from first principles: no printed figure is known for air behind a brake pedal, so the arithmetic is
//! written out here and the program has to arrive at it.
//!
//! One millilitre of air at one atmosphere (101325 Pa, exact by definition), pressed slowly to 70 bar above it, behind a
//! piston of 7/8 in = 22.225 mm (exact):
//!
//! ```text
//! left      1 ml x 101325 / (101325 + 7000000) = 0.01426846 ml
//! absorbed  1 - 0.01426846                     = 0.98573154 ml
//! area      pi / 4 x 22.225^2                  = 387.9479 mm2
//! piston    985.73154 mm3 / 387.9479 mm2       = 2.54089 mm
//! pedal     4 x 2.540886 mm                    = 10.16354 mm
//! ```

use crate::pedal::Stint;
use bleedwright_pedal::{AirPocket, Choice, Press};
use uom::si::pressure::bar;

/// By hand, to the last digit written.
const PEDAL_MM: f64 = 10.163_54;

/// What the air adds to the pedal's travel at 70 bar, whatever else gives way.
#[test]
fn one_millilitre_moves_the_pedal_by_four_times_as_much() {
    let mechanism = Stint::default().without_drag();
    // 7 N/mm2 on the area above, by a lever of 4.
    let force_n = 7.0 * 387.947_9 / 4.0;
    let press = |air_ml: f64| Press {
        force_n,
        air: vec![AirPocket {
            chamber: (0, 0),
            zone: 0,
            volume_ml: air_ml,
        }],
        ..Press::default()
    };
    let pressure = mechanism.feel(&press(1.0)).circuits[0].pressure.nominal;
    assert!((pressure.get::<bar>() - 70.0).abs() <= 5e-5, "{pressure:?}");
    let travel = |air_ml: f64| mechanism.travel_mm(&Choice::nominal(), &press(air_ml));
    let added = travel(1.0) - travel(0.0);
    assert!((added - PEDAL_MM).abs() <= 1e-5, "{added}");
}
