//! What to know about a check, or to do.

use crate::fluid::{BottleReason, FluidError, Item, Reason, Verdict};
use crate::record::BrakeType;

/// What to know or to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Remark {
    /// The record does not say what the plan asked for.
    NoPlan,
    /// A step is open.
    StepOpen,
    /// A step was left out.
    StepLeftOut,
    /// What the plan wants is not given.
    WantedNotGiven,
    /// Less was pushed than the plan wants.
    LessThanWanted,
    /// What was pushed is not given.
    PushedNotGiven,
    /// More was pushed than where to give up.
    BeyondGiveUp,
    /// A compartment may have run dry.
    MayHaveRunDry,
    /// A task is not done.
    TaskOpen,
    /// What kind of task it is is not given.
    TaskKindNotGiven,
    /// A routine was not run shortly before the readings.
    NotLately,
    /// The vehicle's list is empty.
    NoneListed,
    /// A foot's force is not for a hand lever.
    ManualForHandLever,
    /// The rule is not one for an overrun coupler.
    ManualForCoupler,
    /// What kind of control it is is not given.
    ControlNotGiven,
    /// The pedal touches the floor.
    TouchesFloor,
    /// Both distances are to be measured.
    MeasureTravel,
    /// The distances do not fit together.
    TravelDoesNotFit,
    /// The force of the travel is not given.
    TravelForceNotGiven,
    /// With a booster the engine has to run.
    EngineHasToRun,
    /// Whether the engine ran is not given.
    EngineNotGiven,
    /// Whether there is a booster is not given.
    BoosterNotGiven,
    /// Too far, at more force than the rule's.
    TooFarAtMore,
    /// Too far.
    TooFar,
    /// A smaller force than the rule's.
    TravelForceTooSmall,
    /// The pedal has hardly moved.
    HasNotMoved,
    /// The pedal went on sinking.
    Sinks,
    /// Whether it did is not given.
    SinkingNotGiven,
    /// The force of the hard press is not given.
    HoldForceNotGiven,
    /// The time of the hard press is not given.
    HoldTimeNotGiven,
    /// The press was not hard enough.
    HoldForceTooSmall,
    /// It was too short.
    HoldTimeTooShort,
    /// The record has no readings of a brake.
    NoReadings,
    /// The figure is to be read off the part.
    ReadFigure(BrakeType),
    /// The part is to be replaced.
    Replace(BrakeType),
    /// No part wears so far from its figure.
    WornBeyondBelief(BrakeType),
    /// The linings of the axle are to be replaced.
    ReplaceLinings,
    /// A lining above the maker's figure, but under [`crate::limit::lining_floor`].
    UnderFloor,
    /// A lining above that, without a maker's figure.
    FloorIsKept,
    /// A screw is too loose.
    TooLoose,
    /// A screw is too tight.
    TooTight,
    /// A torque with a tolerance that is too wide.
    ToleranceTooWide,
    /// A torque that bleed screws hardly have.
    UnusualTorque,
    /// A dust cap is missing.
    FitDustCap,
    /// Far from the figure of the other side.
    FarFromSister {
        /// Here.
        here: String,
        /// There.
        there: String,
        /// Where that is.
        sister: String,
    },
    /// The level is too low.
    FillUp,
    /// The level is too high.
    DrawOff,
    /// The level is under the minimum.
    LookWhereItWent,
    /// What is written says nothing.
    SaysNothing,
    /// One person did the work and checked it.
    SamePerson,
    /// The day is none on which anybody worked on the vehicle.
    NoSuchDay,
    /// What is said of the fluid.
    Fluid(Vec<OfFluid>),
}

/// What [`crate::fluid`] says of the fluid of a record.
#[derive(Clone, Debug, PartialEq)]
pub enum OfFluid {
    /// Of one thing that was looked at.
    Car(Item<Verdict, Reason>),
    /// Of the bottle.
    Bottle(BottleReason),
    /// A reading that is not judged.
    Refused(FluidError),
}
