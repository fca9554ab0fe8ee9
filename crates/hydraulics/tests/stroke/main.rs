//! Pedal strokes against computations that share no code with them.

mod closed_forms;
mod properties;
mod stroke_case;

use bleedwright_hydraulics::gas::standard_atmosphere;
use bleedwright_hydraulics::stroke::{BranchLaw, Motion, Pocket, StrokeNetwork, StrokeState};
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Pressure, Ratio, Time, Volume};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::milliliter;

const ATMOSPHERE_PA: f64 = 101_325.0;

fn seconds(time_s: f64) -> Time {
    Time::new::<second>(time_s)
}

fn pascals(pressure_pa: f64) -> Pressure {
    Pressure::new::<pascal>(pressure_pa)
}

fn square_meters(area_m2: f64) -> Area {
    Area::new::<square_meter>(area_m2)
}

fn air() -> StrokeNetwork {
    StrokeNetwork::new(standard_atmosphere()).expect("the atmosphere has a pressure")
}

/// A pocket that has this volume under the atmosphere.
fn pocket(volume_ml: f64, index: f64) -> Pocket {
    Pocket::new(
        Volume::new::<milliliter>(volume_ml),
        standard_atmosphere(),
        Ratio::new::<ratio>(index),
    )
    .expect("the pocket is sound")
}

fn laminar(linear_pa_s_per_m3: f64) -> BranchLaw {
    BranchLaw {
        linear_pa_s_per_m3,
        quadratic_pa_s2_per_m6: 0.0,
    }
}

fn run(network: &StrokeNetwork, until_s: f64, tolerance: f64) -> StrokeState {
    network
        .run(seconds(until_s), Ratio::new::<ratio>(tolerance))
        .expect("the run ends")
}

fn press_hold_release(stroke_m: f64, press_s: f64, hold_s: f64, release_s: f64) -> Motion {
    let (m, s) = (Length::new::<meter>, seconds);
    let press = Motion::default().then_move(m(stroke_m), s(press_s));
    let hold = press.and_then(|motion| motion.then_hold(s(hold_s)));
    hold.and_then(|motion| motion.then_move(m(0.0), s(release_s)))
        .expect("the motion is sound")
}
