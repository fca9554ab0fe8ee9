//! The words of what works the cylinders, and of pressing it.

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

pub(super) fn pumped(worked: &[Worked], has_discs: bool) -> Said {
    match Worker::of(worked) {
        Worker::Foot => say!("Pumped gently until firm."),
        Worker::Hands(each) => say!(
            "Pumped gently before anybody rides or drives, {}: {} firm, each by itself.",
            if has_discs {
                "pads out to the disc"
            } else {
                "shoes out to the drum"
            },
            each
        ),
        Worker::Coupler => {
            say!("Shaft pushed in and let out, gently, until firm; it comes right out by itself.")
        }
    }
}

pub(super) fn held_lightly(worked: &[Worked]) -> Said {
    match Worker::of(worked) {
        Worker::Foot => {
            say!("Engine off, held lightly a minute: no sinking (a seal may pass only then).")
        }
        Worker::Hands(each) => say!(
            "Engine off, {} held lightly a minute: no sinking (a seal may pass only then).",
            each
        ),
        Worker::Coupler => {
            say!("Shaft held in lightly a minute: no creeping (a seal may pass only then).")
        }
    }
}

pub(super) fn hard_press(worked: &[Worked], joints: &[String]) -> Said {
    let press = match Worker::of(worked) {
        Worker::Foot => {
            say!("Pressed hard, held 10 s: no sinking, no spring, not higher when pumped")
        }
        Worker::Hands(each) => {
            say!(
                "Hard hold, 10 s, on {}: no sinking, no spring, no shorter way when pumped",
                each
            )
        }
        Worker::Coupler => {
            say!(
                "Shaft pushed in hard by the bar, held 10 s: no creeping, no spring, no shorter way when \
                 pumped"
            )
        }
    };
    let joints = if joints.is_empty() {
        Said::default()
    } else {
        say!(", every joint opened at {}", names(joints))
    };
    say!(
        "{}; a second person sees cylinder, unions, hoses, screws, brakes (drums: backplate \
         edge){} dry.",
        press,
        joints
    )
}

pub(super) fn wheels_free(worked: &[Worked]) -> Said {
    match Worker::of(worked) {
        Worker::Foot => say!("Foot on: every wheel held. Foot off: every wheel turns free."),
        Worker::Hands(each) => {
            say!(
                "{} on, one by one: its wheel held. Let go: every wheel turns free.",
                each.capitalised()
            )
        }
        Worker::Coupler => {
            say!("Shaft in: every wheel held, turned forwards. Shaft out: every wheel turns free.")
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

pub(super) fn clutch_held(worked: &[Worked], slaves: &[String]) -> Said {
    say!(
        "Clutch {} pumped gently, then held down a minute, engine off: {} travels as far as the \
         maker says to release and does not creep back; a second person sees cylinder, hose, slave and \
         screw dry. Clutch: its {} comes back by itself.",
        by_what(worked),
        names(slaves),
        by_what(worked)
    )
}

pub(super) fn clutch_works(worked: &[Worked]) -> Said {
    say!(
        "Gears only now, on the ground: brake pumped, firm, held hard 10 s; chocked, parking brake on, \
         nobody before or behind: {} down, every gear goes in without grating.",
        by_what(worked)
    )
}
