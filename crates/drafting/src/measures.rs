//! What somebody measured or saw on the vehicle, and what is taken where nothing is known.

use bleedwright_network::{Bounds, Fluid, Split, Steering, Wheel};
use uom::si::f64::Length;
use uom::si::length::meter;

/// Everything a draft is made from.
#[derive(Clone, Debug, PartialEq)]
pub struct Measures {
    /// What the vehicle is called.
    pub name: String,
    /// Which wheels each circuit works.
    pub split: Split,
    /// Whether nobody looked how the circuits are shared out.
    pub is_split_guessed: bool,
    /// Which half of a tandem cylinder feeds the wheels of [`Measures::first_wheels`]; none where nobody looked.
    pub half: Option<Half>,
    /// The side of the steering wheel, and so of the master cylinder; none where it is not known.
    pub steering: Option<Steering>,
    /// From the front axle to the rear one.
    pub wheelbase: Option<Bounds<Length>>,
    /// From the middle of one tyre to the other's.
    pub track: Option<Bounds<Length>>,
    /// How far the master cylinder stands behind the front axle; ahead of it is negative.
    pub cylinder_behind_axle: Option<Bounds<Length>>,
    /// Single, tandem, or two with a balance bar.
    pub cylinder: MasterKind,
    /// Whether a vacuum booster stands behind the cylinder; none where nobody looked.
    pub has_booster: Option<bool>,
    /// The front brakes.
    pub front: WheelBrake,
    /// The rear brakes.
    pub rear: WheelBrake,
    /// How the rear axle's brakes are fed.
    pub rear_axle: RearAxle,
    /// The pipes, as they are sold or as measured; none where it is not known.
    pub pipe: Option<PipeSort>,
    /// The long pipe to the rear, where it is another one.
    pub rear_pipe: Option<PipeSort>,
    /// Whether an anti-lock unit stands between cylinder and wheels.
    pub has_anti_lock: bool,
    /// The fluid on the reservoir's cap.
    pub fluid: Option<Fluid>,
    /// The units to write in.
    pub units: Units,
}

impl Measures {
    /// A draft of a split, with everything else unknown.
    pub fn of_split(split: Split) -> Self {
        Self {
            name: "drafted vehicle".to_owned(),
            split,
            is_split_guessed: false,
            half: None,
            steering: None,
            wheelbase: None,
            track: None,
            cylinder_behind_axle: None,
            cylinder: if split == Split::Single {
                MasterKind::Single
            } else {
                MasterKind::Tandem
            },
            has_booster: None,
            front: WheelBrake::Disc,
            rear: WheelBrake::Drum,
            rear_axle: match split {
                Split::X | Split::LL => RearAxle::Independent,
                _ => RearAxle::Rigid,
            },
            pipe: None,
            rear_pipe: None,
            has_anti_lock: false,
            fluid: None,
            units: Units::Millimetres,
        }
    }

    /// The wheels that tell the circuits of a tandem cylinder apart: whichever half feeds these, the other feeds the
    /// rest. None where nothing tells them apart, or a name does.
    pub fn first_wheels(&self) -> Option<FirstWheels> {
        match (self.cylinder, self.split) {
            (MasterKind::Tandem, Split::II) => Some(FirstWheels::Front),
            (MasterKind::Tandem, Split::X) => Some(FirstWheels::FrontLeft),
            (MasterKind::Tandem, Split::HI) => Some(FirstWheels::Rear),
            (MasterKind::Tandem, Split::LL) => Some(FirstWheels::RearRight),
            _ => None,
        }
    }

    pub(crate) fn brake(&self, wheel: Wheel) -> WheelBrake {
        if is_front(wheel) {
            self.front
        } else {
            self.rear
        }
    }

    /// ASSUMPTION: 2.2 to 3.4 m, from small cars to vans.
    pub(crate) fn wheelbase_m(&self) -> Guessable {
        Guessable::of(self.wheelbase, [2.2, 2.7, 3.4])
    }

    /// ASSUMPTION: 1.3 to 1.7 m.
    pub(crate) fn track_m(&self) -> Guessable {
        Guessable::of(self.track, [1.3, 1.5, 1.7])
    }

    /// ASSUMPTION: from the front axle to 0.5 m behind it, where most bulkheads are.
    pub(crate) fn cylinder_m(&self) -> Guessable {
        Guessable::of(self.cylinder_behind_axle, [0.0, 0.25, 0.5])
    }
}

pub(crate) fn is_front(wheel: Wheel) -> bool {
    wheel.axle() == 0
}

/// A half of a tandem cylinder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Half {
    /// The primary, nearest the pedal.
    Nearest,
    /// The secondary, farthest from it.
    Farthest,
}

/// The wheels by which the circuits of a split are told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FirstWheels {
    /// Both front wheels.
    Front,
    /// The front left wheel.
    FrontLeft,
    /// Both rear wheels.
    Rear,
    /// The rear right wheel.
    RearRight,
}

/// A length in metres.
pub(crate) type Run = Bounds<f64>;

/// The same, and whether somebody measured it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Guessable {
    pub(crate) length: Run,
    pub(crate) is_measured: bool,
}

impl Guessable {
    fn of(measured: Option<Bounds<Length>>, [low, nominal, high]: [f64; 3]) -> Self {
        let guess = Run { low, nominal, high };
        Self {
            length: measured.map_or(guess, |length| length.map(|it| it.get::<meter>())),
            is_measured: measured.is_some(),
        }
    }
}

/// How many pistons the pedal pushes, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MasterKind {
    /// One piston, one circuit.
    Single,
    /// Two pistons in one bore.
    Tandem,
    /// Two single cylinders and a bar that shares the force.
    Twin,
}

/// The brake of a wheel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WheelBrake {
    /// A caliper; with two unlinked chambers where two circuits work the wheel.
    Disc,
    /// A drum with one wheel cylinder.
    Drum,
    /// A drum with two wheel cylinders.
    DoubleDrum,
}

/// How pipes reach the rear brakes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RearAxle {
    /// One hose to the axle, a tee on it, a pipe to each wheel.
    Rigid,
    /// A hose at each wheel.
    Independent,
}

/// A pipe by the size it is sold by, `3/16 in` or `4.75 mm`: as a layout file writes it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PipeSort {
    /// The outside diameter.
    pub size: String,
    /// The wall, where it is known.
    pub wall: Option<String>,
}

/// The units that a draft writes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Metres and millimetres.
    Millimetres,
    /// Inches.
    Inches,
}
