//! Figures that layouts do not give, with their bounds. Every one that is used is shown among the assumptions.

use crate::unknown::{Range, Unknown};
use bleedwright_network::Mounting;

/// Clearance of a disc brake with one side of pistons and a sliding frame: its pistons take up that of both pads.
/// Where pistons stand on both sides each takes up half of it, see [`FIXED_SHARE`].
///
/// ASSUMPTION: 0.1 to 0.3 mm of roll-back, from memory.
pub const DISC_CLEARANCE_MM: [f64; 3] = [0.1, 0.2, 0.3];

/// Clearance of a drum brake, as travel of each piston.
///
/// ASSUMPTION: a guess for adjusted shoes, whose ends move about twice as far as their middle.
pub const DRUM_CLEARANCE_MM: [f64; 3] = [0.3, 0.7, 1.2];

/// Pressure that closes a clearance: seals at a disc, the shoes' return springs in a drum.
///
/// ASSUMPTION: a guess.
pub const DISC_TOUCH_BAR: [f64; 3] = [0.2, 0.5, 1.0];
/// See [`DISC_TOUCH_BAR`].
pub const DRUM_TOUCH_BAR: [f64; 3] = [1.5, 3.0, 5.0];

/// What the pistons of a fixed caliper travel, against those of a sliding one: there are as many again on the other
/// side to share the clearance and the flexing.
pub const FIXED_SHARE: f64 = 0.5;

/// Travel of a sliding disc brake's pistons under 100 bar, from the flexing of caliper, pads and seals; of a fixed one
/// half of it.
///
/// ASSUMPTION: 0.3 to 1.0 ml for a front caliper, from memory; divided by the area of a 54 mm piston.
pub const DISC_GIVE_MM: [f64; 3] = [0.13, 0.26, 0.44];

/// Travel of each piston of a drum brake under 100 bar, from the flexing of drum, shoes and linings.
///
/// ASSUMPTION: a guess.
pub const DRUM_GIVE_MM: [f64; 3] = [0.3, 0.6, 1.2];

/// Force that springs and seals of a piston take: the one that the rod pushes, and a floating one.
///
/// ASSUMPTION: a guess.
pub const DRAG_N: [f64; 3] = [20.0, 50.0, 80.0];
/// See [`DRAG_N`].
pub const FLOATING_DRAG_N: [f64; 3] = [0.0, 15.0, 30.0];

/// Flexing of pedal and bulkhead under 500 N, at the pedal.
///
/// ASSUMPTION: a guess.
pub const PEDAL_FLEX_MM: [f64; 3] = [1.5, 4.0, 8.0];

/// Flexing of the shaft of an overrun coupler and its drawbar under 500 N.
///
/// ASSUMPTION: a guess; there is no leg and no bulkhead.
pub const COUPLER_FLEX_MM: [f64; 3] = [0.1, 0.5, 2.0];

/// Help of a running booster.
///
/// ASSUMPTION: a guess that covers usual vacuum boosters.
pub const BOOSTER_RATIO: [f64; 3] = [2.5, 4.0, 6.0];

/// The most that a vacuum booster adds to the force on the rod.
///
/// ASSUMPTION: the area of usual diaphragms, 200 to 280 mm, one or two of them, under 0.7 bar.
pub const VACUUM_HELP_N: [f64; 3] = [2_000.0, 3_500.0, 6_000.0];

/// The pedal is held still while it is measured, so that air is squeezed slowly.
///
/// ASSUMPTION: a pocket of a few millilitres takes about a second to come back to the fluid's temperature.
pub const POLYTROPIC_INDEX: [f64; 3] = [1.0, 1.0, 1.1];

/// The share of a clearance that is left when quick pumping raises the pedal no further.
///
/// ASSUMPTION: a guess.
pub const LEFT_AFTER_PUMPING: [f64; 3] = [0.0, 0.05, 0.1];

/// Wall of a pipe whose bore alone is known, and the elasticity of steel.
///
/// ASSUMPTION: 0.7 mm is the usual wall of brake pipe; a pipe swells by a twentieth of what its fluid gives.
pub const PIPE_WALL_MM: f64 = 0.7;
/// See [`PIPE_WALL_MM`]; steel, from memory.
pub const STEEL_PA: f64 = 207e9;
/// See [`PIPE_WALL_MM`]; steel, from memory.
pub const STEEL_POISSON: f64 = 0.3;

/// What a braided hose swells, as a share of a rubber one.
///
/// ASSUMPTION: braided fluoropolymer hoses hardly swell; the share is a guess.
pub const BRAIDED_SHARE: [f64; 3] = [0.0, 0.3, 1.0];

/// A figure of this page as a range.
pub fn range([low, nominal, high]: [f64; 3], unknown: Unknown) -> Range {
    Range::new(low, nominal, high, unknown)
}

/// A travel of a sliding caliper for one of this mounting; where the mounting is not known, it may be either.
pub fn of_mounting(travel_mm: [f64; 3], mounting: Option<Mounting>) -> [f64; 3] {
    match mounting {
        Some(Mounting::Sliding) => travel_mm,
        Some(Mounting::Fixed) => travel_mm.map(|travel| FIXED_SHARE * travel),
        None => [FIXED_SHARE * travel_mm[0], travel_mm[1], travel_mm[2]],
    }
}
