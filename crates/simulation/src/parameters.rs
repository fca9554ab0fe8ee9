//! How the people work and how the air behaves.

use bleedwright_hydraulics::gas::standard_atmosphere;
use uom::si::f64::{Length, Pressure, Ratio, Time};
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::ratio;
use uom::si::time::second;

/// How far air may reach into a line from an opened joint, in millimetres.
///
/// ASSUMPTION: from nothing to a hand's length and a half, no source.
pub const POCKET_RANGE_MM: [f64; 2] = [0.0, 300.0];

/// When the screw is shut in a stroke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScrewHandling {
    /// While the pedal is held down: nothing comes back.
    ShutBeforeRelease,
    /// After the last stroke only: what the chamber sucks comes back out of the hose.
    LeftOpen,
}

/// What a simulation assumes beside the layout and the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parameters {
    /// How long the pedal takes down to its block, at least.
    pub press: Time,
    /// How long it is held there before the screw is shut; none for as long as the plan says.
    pub hold: Option<Time>,
    /// How long the pedal takes up again.
    pub release: Time,
    /// The rest of a cycle, for shutting and opening the screw.
    pub pause: Time,
    /// When the screw is shut.
    pub screw: ScrewHandling,
    /// Whether the gravity filling that a plan asks for is done.
    pub is_filled_by_gravity: bool,
    /// How far air reaches into each line from a joint that was opened, see
    /// [`POCKET_RANGE_MM`].
    pub pocket: Length,
    /// How far below the atmosphere the chamber falls while the pedal comes up,
    /// before fluid passes the cup from the reservoir.
    pub suction: Pressure,
    /// The most that a foot makes in the line; thick fluid slows the pedal.
    pub foot: Pressure,
    /// Polytropic index of the air: 1 slow, 1.4 fast.
    pub polytropic_index: Ratio,
    /// The pressure of the air outside.
    pub atmosphere: Pressure,
    /// The share of a brake cavity above the hole by which fluid goes on to the next one.
    pub passage_height: Ratio,
}

impl Default for Parameters {
    /// ASSUMPTION: all of them, no source: press 2 s, release 3 s, pause 1 s, screw shut before the release,
    /// air 100 mm into each line at an opened joint, suction 0.1 bar, foot 10 bar, index 1.2, holes to the next cavity at mid-height. The
    /// atmosphere is the standard one.
    fn default() -> Self {
        let s = Time::new::<second>;
        Self {
            press: s(2.0),
            hold: None,
            release: s(3.0),
            pause: s(1.0),
            screw: ScrewHandling::ShutBeforeRelease,
            is_filled_by_gravity: true,
            pocket: Length::new::<millimeter>(100.0),
            suction: Pressure::new::<bar>(0.1),
            foot: Pressure::new::<bar>(10.0),
            polytropic_index: Ratio::new::<ratio>(1.2),
            atmosphere: standard_atmosphere(),
            passage_height: Ratio::new::<ratio>(0.5),
        }
    }
}
