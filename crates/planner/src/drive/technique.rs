//! How long people take: the two at pedal and screw.

use bleedwright_network::Bounds;
use uom::si::f64::{ThermodynamicTemperature, Time};
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;

/// Strokes that must run clear before a screw is finished.
///
/// ASSUMPTION: three.
pub(crate) const CLEAR_STROKES: u32 = 3;

/// Without strokes to count, this much must run clear.
///
/// ASSUMPTION: 10 ml, about three strokes' worth.
pub(crate) const CLEAR_ML: f64 = 10.0;

/// The screw is opened and "press" is called.
///
/// ASSUMPTION: 1 s (0.5 to 2), no source.
const OPEN_S: [f64; 3] = [0.5, 1.0, 2.0];

/// The pedal goes slowly down to its block.
///
/// ASSUMPTION: 2 s (1 to 3), no source; longer where the fluid is too thick
/// for that.
const PRESS_S: [f64; 3] = [1.0, 2.0, 3.0];

/// The pedal is held on its block before the screw is shut: what the flow squeezed into a shut circuit comes back as long
/// as the screw is open.
///
/// ASSUMPTION: a count of two, no source; a person's count may take half as long again.
const HOLD_S: f64 = 2.0;

/// See [`HOLD_S`]; where the fluid is cold.
///
/// ASSUMPTION: a count of five, no source.
const COLD_HOLD_S: f64 = 5.0;

/// See [`COLD_HOLD_S`].
///
/// ASSUMPTION: 10 degC, no source; where the time constant is known it decides as well.
const COLD_BELOW_DEGC: f64 = 10.0;

/// After so many time constants 5 % are left to come back.
const SETTLED_AFTER: f64 = 3.0;

/// A person's slow count against the clock.
const SLOW_COUNT: f64 = 1.5;

/// The screw is shut while the pedal is held.
///
/// ASSUMPTION: 1 s (0.5 to 2), no source.
const SHUT_S: [f64; 3] = [0.5, 1.0, 2.0];

/// The pedal comes slowly up, as the call sequence asks.
///
/// ASSUMPTION: 3 s (2 to 4), no source.
const UP_S: [f64; 3] = [2.0, 3.0, 4.0];

/// How long the pedal is held before the screw is shut, in whole seconds to count. What the flow squeezed into a shut
/// circuit settles with a time constant, where there is one.
pub(crate) fn hold(settles_in: Option<Time>, temperature: ThermodynamicTemperature) -> Time {
    let settled_s = settles_in
        .map(|time| (time.get::<second>() * SETTLED_AFTER).ceil())
        .filter(|time| time.is_finite())
        .unwrap_or_default();
    let is_cold = temperature.get::<degree_celsius>() < COLD_BELOW_DEGC || settled_s > HOLD_S;
    let least_s = if is_cold { COLD_HOLD_S } else { HOLD_S };
    Time::new::<second>(settled_s.max(least_s))
}

/// A hold as people count it.
pub(crate) fn counted(hold: Time) -> Bounds<Time> {
    Bounds {
        low: hold,
        nominal: hold,
        high: hold * SLOW_COUNT,
    }
}

/// One stroke from "press" to "press" with its hold, in a fluid that any foot presses in time.
pub(crate) fn usual_cycle(hold: Time) -> Bounds<Time> {
    cycle(Bounds::exact(Time::default())).zip(counted(hold), |stroke, held| stroke + held)
}

/// One stroke from "press" to "press", without what it is held for. `least_press` is what the fluid needs
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
