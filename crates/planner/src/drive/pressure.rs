//! What drives the fluid by each method.

use crate::options::{Method, Options};
use bleedwright_network::Bounds;
use uom::si::f64::Pressure;
use uom::si::pressure::{bar, inch_of_mercury_32, psi};

/// The gauge pressure at the driven end: the reservoir, the screw for the
/// reverse method, or the pump's jar, where it is below zero. Heights come on
/// top.
pub(crate) fn driving(options: &Options) -> Bounds<Pressure> {
    match options.method {
        Method::Pedal => foot(),
        Method::Pressure => tank(options),
        Method::Vacuum => {
            let Bounds { low, nominal, high } = pump().map(|below| -below);
            Bounds {
                low: high,
                nominal,
                high: low,
            }
        }
        Method::Gravity => Bounds::exact(Pressure::new::<bar>(0.0)),
        Method::Reverse => syringe(),
    }
}

/// The pressure in the tank: its maker's figure, or the usual one.
pub(crate) fn tank(options: &Options) -> Bounds<Pressure> {
    options.tank_pressure.map_or_else(usual_tank, Bounds::exact)
}

/// A tank whose maker's figure is not given: 12 to 15 psi are enough, which is
/// 83 to 103 kPa (TB 9-2320-335-13&P; the 103 to 138 kPa that it prints beside
/// them are wrong).
pub(crate) fn usual_tank() -> Bounds<Pressure> {
    Bounds {
        low: Pressure::new::<psi>(12.0),
        nominal: Pressure::new::<psi>(13.5),
        high: Pressure::new::<psi>(15.0),
    }
}

/// A vacuum pump: 17 to 20 inches of mercury below the atmosphere, second-hand.
pub(crate) fn pump() -> Bounds<Pressure> {
    Bounds {
        low: Pressure::new::<inch_of_mercury_32>(17.0),
        nominal: Pressure::new::<inch_of_mercury_32>(18.5),
        high: Pressure::new::<inch_of_mercury_32>(20.0),
    }
}

/// A hand syringe or oil can at the screw.
///
/// ASSUMPTION: 0.5 bar (0.2 to 1), no source.
pub(crate) fn syringe() -> Bounds<Pressure> {
    Bounds {
        low: Pressure::new::<bar>(0.2),
        nominal: Pressure::new::<bar>(0.5),
        high: Pressure::new::<bar>(1.0),
    }
}

/// What a foot that presses slowly brings about in the line.
///
/// ASSUMPTION: 10 bar (5 to 20), no source; it matters only for fluid so thick
/// that the pedal cannot follow.
fn foot() -> Bounds<Pressure> {
    Bounds {
        low: Pressure::new::<bar>(5.0),
        nominal: Pressure::new::<bar>(10.0),
        high: Pressure::new::<bar>(20.0),
    }
}
