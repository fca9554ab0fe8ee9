//! How long people take: the two at pedal and screw.

use bleedwright_network::Bounds;
use uom::si::f64::Time;
use uom::si::time::second;

/// The screw is opened and "press" is called.
///
/// ASSUMPTION: 1 s (0.5 to 2), no source.
const OPEN_S: [f64; 3] = [0.5, 1.0, 2.0];

/// The pedal goes slowly down to its block.
///
/// ASSUMPTION: 2 s (1 to 3), no source; longer where the fluid is too thick
/// for that.
const PRESS_S: [f64; 3] = [1.0, 2.0, 3.0];

/// The screw is shut while the pedal is held.
///
/// ASSUMPTION: 1 s (0.5 to 2), no source.
const SHUT_S: [f64; 3] = [0.5, 1.0, 2.0];

/// The pedal comes slowly up, as the call sequence asks.
///
/// ASSUMPTION: 3 s (2 to 4), no source.
const UP_S: [f64; 3] = [2.0, 3.0, 4.0];

/// One stroke from "press" to "press". `least_press` is what the fluid needs
/// under the foot, at each bound.
pub(crate) fn cycle(least_press: Bounds<Time>) -> Bounds<Time> {
    let bound = |nth: usize, least: Time| {
        let press = Time::new::<second>(PRESS_S[nth]).max(least);
        press + Time::new::<second>(OPEN_S[nth] + SHUT_S[nth] + UP_S[nth])
    };
    Bounds {
        low: bound(0, least_press.low),
        nominal: bound(1, least_press.nominal),
        high: bound(2, least_press.high),
    }
}
