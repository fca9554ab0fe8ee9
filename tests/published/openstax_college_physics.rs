//! College Physics (`OpenStax`), section on Pascal's principle, example of a
//! hydraulic brake system (read): 500 N on a master cylinder of 0.500 cm; each
//! of the four slave cylinders, 2.50 cm, gives 1.25 x 10^4 N.

use bleedwright_hydraulics::press::{Press, force_from_pressure, pressure_from_force};
use uom::si::f64::{Force, Length};
use uom::si::force::newton;
use uom::si::length::centimeter;
use uom::si::pressure::pascal;

#[test]
fn five_hundred_newtons_on_the_master_cylinder() {
    let master = Length::new::<centimeter>(0.5);
    let slave = Length::new::<centimeter>(2.5);
    let push = Force::new::<newton>(500.0);
    let press = Press::new(master, slave).expect("both are above zero");
    let force = press.force_on_second(push).get::<newton>();
    assert!((force - 1.25e4).abs() <= 1e-6, "{force}");
    let pressure = pressure_from_force(push, master).expect("above zero");
    let same = force_from_pressure(pressure, slave).get::<newton>();
    assert!((same - 1.25e4).abs() <= 1e-6, "{same}");
    // Printed with two digits: 2.5 x 10^7 Pa.
    assert!((pressure.get::<pascal>() - 2.5e7).abs() <= 0.05e7);
}
