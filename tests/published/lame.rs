//! Lame's thick tube, in Timoshenko and Goodier, Theory of Elasticity, 3rd
//! edition (1970), from memory; the form for plane strain was read elsewhere.
//!
//! Steel pipe 4.75 x 0.7112 mm, modulus of elasticity 2.07e11 Pa, Poisson's ratio
//! 0.3 (common values of steel, from memory): the growth of the contents for
//! one pascal, from the formulas by hand.

use bleedwright_hydraulics::elastic::wall::TubeWall;
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::millimeter;
use uom::si::pressure::{gigapascal, pascal};
use uom::si::ratio::ratio;

#[test]
fn steel_pipe_with_closed_ends() {
    let pipe = TubeWall::new(
        Length::new::<millimeter>(4.75),
        Length::new::<millimeter>(0.7112),
        Pressure::new::<gigapascal>(207.0),
        Ratio::new::<ratio>(0.3),
    )
    .expect("the pipe is sound");
    let found = pipe.growth(Pressure::new::<pascal>(1.0)).get::<ratio>();
    assert!((found - 3.0252e-11).abs() <= 5e-16, "{found}");
}
