//! The words of what works the cylinders, and of pressing it.

use super::instruction::{Instruction, line};
use crate::said::{Said, name, names, say};
use bleedwright_network::Control;
use bleedwright_planner::Worked;

/// The cylinder of a pedal or lever, or the two under its balance bar, as one name.
pub(super) fn of_one(cylinders: &[String]) -> Said {
    name(&cylinders.join(" + "))
}

/// What is pressed, in one or two words.
pub(super) fn pressed(controls: &[Control]) -> &'static str {
    match controls {
        [Control::HandLever] => "lever",
        [Control::Coupler] => "shaft",
        [_] | [] => "pedal",
        [..] => "pedal and lever",
    }
}

/// What it is, with its cylinder.
pub(super) fn worked_text(worked: &Worked) -> Said {
    say!(
        "{} of {}",
        pressed(&[worked.control]),
        of_one(&worked.cylinders)
    )
}

/// Brakes as their driver works them: by the foot alone, by levers as well, or by nobody.
enum Worker {
    Foot,
    /// Each control, named.
    Hands(Said),
    Coupler,
}

impl Worker {
    fn of(worked: &[Worked]) -> Self {
        let has = |control| worked.iter().any(|worked| worked.control == control);
        if has(Control::Coupler) {
            Self::Coupler
        } else if has(Control::HandLever) {
            Self::Hands(Said::joined(worked.iter().map(worked_text), " and "))
        } else {
            Self::Foot
        }
    }
}

pub(super) fn pumped(worked: &[Worked], has_discs: bool) -> Instruction {
    match Worker::of(worked) {
        Worker::Foot => line!("Topped up; pumped gently until firm"),
        Worker::Hands(each) => line!(
            "Topped up; pumped gently until firm, each control by itself";
            say!(
                "{}, before anybody rides or drives: the {}.",
                each.capitalised(),
                if has_discs { "pads come out to the disc" } else { "shoes come out to the drum" }
            )
        ),
        Worker::Coupler => {
            line!("Shaft pushed in and let out gently until firm; it comes out by itself")
        }
    }
}

pub(super) fn held_lightly(worked: &[Worked]) -> Instruction {
    match Worker::of(worked) {
        Worker::Foot => line!(
            "Engine off, held lightly a minute: no sinking";
            "A seal may pass only then."
        ),
        Worker::Hands(each) => line!(
            "Engine off, each control held lightly a minute: no sinking";
            say!("{}; a seal may pass only then.", each.capitalised())
        ),
        Worker::Coupler => line!(
            "Shaft held in lightly a minute: no creeping";
            "A seal may pass only then."
        ),
    }
}

pub(super) fn hard_press(worked: &[Worked], joints: &[String]) -> Instruction {
    let (press, each) = match Worker::of(worked) {
        Worker::Foot => (
            "Pressed HARD, held 10 s: no sinking, no spring, not higher when pumped",
            Said::default(),
        ),
        Worker::Hands(each) => (
            "Each control HARD, held 10 s: no sinking, no spring, no shorter when pumped",
            say!("{}. ", each.capitalised()),
        ),
        Worker::Coupler => (
            "Shaft pushed in HARD, held 10 s: no creeping, no spring, no shorter when pumped",
            say!("Pushed by the bar. "),
        ),
    };
    let joints = if joints.is_empty() {
        Said::default()
    } else {
        say!(", joints opened at {}", names(joints))
    };
    line!(
        say!(
            "{}; a second person sees all DRY: cylinder, unions, hoses, screws, brakes{}",
            press,
            joints
        );
        say!("{}Drums: the backplate's edge.", each)
    )
}

pub(super) fn wheels_free(worked: &[Worked]) -> Instruction {
    match Worker::of(worked) {
        Worker::Foot => line!("Foot on: every wheel held; foot off: every wheel free"),
        Worker::Hands(each) => line!(
            "Each control on: its wheel held; let go: every wheel free";
            say!("One by one: {}.", each)
        ),
        Worker::Coupler => {
            line!("Shaft in: every wheel held, turned forwards; shaft out: every wheel free")
        }
    }
}

/// Pedal or lever, of a clutch.
fn by_what(worked: &[Worked]) -> &'static str {
    let is_lever = |worked: &Worked| worked.control == Control::HandLever;
    if worked.iter().any(is_lever) {
        "lever"
    } else {
        "pedal"
    }
}

pub(super) fn clutch_held(worked: &[Worked], slaves: &[String]) -> Instruction {
    line!(
        say!(
            "Clutch {} held down a minute: {} does not creep; cylinder, hose, slave DRY",
            by_what(worked),
            names(slaves)
        );
        say!(
            "Pumped gently first, engine off; it travels as far as the maker says to release; a second person looks, at the \
             screw too; its {} comes back by itself.",
            by_what(worked)
        )
    )
}

pub(super) fn clutch_works(worked: &[Worked]) -> Instruction {
    line!(
        say!("Gears only now, on the ground: {} down, every gear without grating", by_what(worked));
        "Brake pumped, firm, held hard 10 s first; chocked, parking brake on, nobody before or behind."
    )
}
