//! The words of what to know about a check, or to do.

use super::wanted::{newtons, tenths};
use crate::fluid::{bottle_reason, reason};
use crate::said::{Said, bare, figure, say};
use bleedwright_inspection::limit::{
    hold_force, hold_time, lining_floor, reserve_force, widest_torque_tolerance,
};
use bleedwright_inspection::readings::{OfFluid, Remark};
use bleedwright_inspection::record::BrakeType;
use bleedwright_network::USUAL_TORQUE_NM;
use uom::si::ratio::percent;
use uom::si::time::second;

/// What to know or to do.
#[expect(clippy::too_many_lines, reason = "one table of words")]
pub(crate) fn remark(remark: &Remark) -> Said {
    match remark {
        Remark::NoPlan => "this record does not say what the plan asked for: start it from the plan".into(),
        Remark::StepOpen => "NOT FINISHED: this step is open".into(),
        Remark::StepLeftOut => "NOT FINISHED: bleed what was left out".into(),
        Remark::WantedNotGiven => "how much the plan wants is not given".into(),
        Remark::LessThanWanted => "NOT FINISHED: less than the plan wants".into(),
        Remark::PushedNotGiven => "how much was pushed is not given".into(),
        Remark::BeyondGiveUp => "beyond where to give up: find where air enters".into(),
        Remark::MayHaveRunDry => "a compartment may have run dry: plan again with it run dry".into(),
        Remark::TaskOpen => "NOT FINISHED before this is done".into(),
        Remark::TaskKindNotGiven => "what kind of task it is the record does not say".into(),
        Remark::NotLately => "not within a month before the readings".into(),
        Remark::NoneListed => "the vehicle's list in `readings_of` names none".into(),
        Remark::ManualForHandLever => {
            "go by the maker's manual, and never use a foot's force on a lever".into()
        }
        Remark::ManualForCoupler => "go by the maker's manual for the travel of the shaft".into(),
        Remark::ControlNotGiven => {
            "whether it is a pedal, a hand lever or a coupler is not given".into()
        }
        Remark::TouchesFloor => "the pedal touches the floor".into(),
        Remark::MeasureTravel => "measure A free pedal to floor and B depressed pedal to floor".into(),
        Remark::TravelDoesNotFit => "A and B do not fit together".into(),
        Remark::TravelForceNotGiven => "the force at which B was measured is not given".into(),
        Remark::EngineHasToRun => "with a booster the engine has to run: measure again".into(),
        Remark::EngineNotGiven => "whether the engine ran is not given; a booster needs it".into(),
        Remark::BoosterNotGiven => "whether it has a booster is not given".into(),
        Remark::TooFarAtMore => say!(
            "too far, at more than the {} of the rule: repeat at {}",
            newtons(reserve_force()),
            newtons(reserve_force())
        ),
        Remark::TooFar => "air, clearance or a leak takes the travel".into(),
        Remark::TravelForceTooSmall => say!(
            "a smaller force than {} shows nothing: repeat at {}",
            newtons(reserve_force()),
            newtons(reserve_force())
        ),
        Remark::HasNotMoved => {
            "a pedal moves by its free play and its cylinder's first travel: it may be seized, or B copied from A".into()
        }
        Remark::Sinks => "something leaks, outward or past a seal".into(),
        Remark::SinkingNotGiven => "whether the pedal went on sinking is not given".into(),
        Remark::HoldForceNotGiven => "the force is not given".into(),
        Remark::HoldTimeNotGiven => "the time is not given".into(),
        Remark::HoldForceTooSmall => say!(
            "a smaller force than {} shows nothing: repeat",
            newtons(hold_force())
        ),
        Remark::HoldTimeTooShort => say!(
            "less than {} shows nothing: repeat",
            figure(format!("{:.0} s", hold_time().get::<second>()))
        ),
        Remark::NoReadings => "this brake has no readings in the record".into(),
        Remark::ReadFigure(kind) => {
            say!("read the figure off the {}, else from the manual", kind.word())
        }
        Remark::Replace(kind) => say!("replace the {}", kind.word()),
        Remark::WornBeyondBelief(BrakeType::Disc) => {
            "no disc wears down so far: read its least thickness again".into()
        }
        Remark::WornBeyondBelief(BrakeType::Drum) => {
            "no drum wears out so far: read its largest diameter again".into()
        }
        Remark::ReplaceLinings => "replace the linings of both wheels of the axle".into(),
        Remark::UnderFloor => say!(
            "above the maker's figure, but under {} (49 CFR 393.47(d), commercial vehicles)",
            tenths(lining_floor())
        ),
        Remark::FloorIsKept => say!(
            "{} (49 CFR 393.47(d)) is kept, which is not enough to say",
            tenths(lining_floor())
        ),
        Remark::TooLoose => "too loose: it may weep or draw air".into(),
        Remark::TooTight => "too tight: the screw may shear or its seat may be spoilt".into(),
        Remark::ToleranceTooWide => say!(
            "a tolerance of more than {} is no torque to hold against: read the maker's figure",
            figure(format!("{:.0} %", widest_torque_tolerance().get::<percent>()))
        ),
        Remark::UnusualTorque => {
            let [least, most] = USUAL_TORQUE_NM;
            say!(
                "bleed screws take {} to {} N m as a rule: read the maker's figure again",
                figure(least),
                figure(most)
            )
        }
        Remark::FitDustCap => "fit a dust cap: dirt shuts the drilling".into(),
        Remark::FarFromSister {
            here,
            there,
            sister,
        } => say!(
            "{} here and {} at {}: measure both again",
            figure(here),
            figure(there),
            bare(sister)
        ),
        Remark::FillUp => "fill up to the maximum mark".into(),
        Remark::DrawOff => "draw off to the maximum mark".into(),
        Remark::LookWhereItWent => "fill up, and look where it went".into(),
        Remark::SaysNothing => "this says nobody and nothing".into(),
        Remark::SamePerson => "the same as done by: a second pair of eyes is asked for".into(),
        Remark::NoSuchDay => "nobody worked on this vehicle on such a day".into(),
        Remark::Fluid(said) => Said::joined(said.iter().map(of_fluid), "; "),
    }
}

fn of_fluid(said: &OfFluid) -> Said {
    match said {
        OfFluid::Car(item) => reason(item),
        OfFluid::Bottle(why) => bottle_reason(*why),
        OfFluid::Refused(error) => bare(&error.to_string()),
    }
}
