//! The words of what works the cylinders.

use bleedwright_network::Control;
use bleedwright_planner::Worked;

/// What it is, with its cylinder.
pub(super) fn worked_text(worked: &Worked) -> String {
    let what = match worked.control {
        Control::Pedal => "pedal",
        Control::HandLever => "lever",
        Control::Coupler => "shaft",
    };
    format!("{what} of `{}`", worked.cylinders)
}

/// Brakes as their driver works them: by the foot alone, by levers as well, or by nobody.
pub(super) enum Worker {
    Foot,
    /// Each control, named.
    Hands(String),
    Coupler,
}

impl Worker {
    pub(super) fn of(worked: &[Worked]) -> Self {
        let has = |control| worked.iter().any(|worked| worked.control == control);
        if has(Control::Coupler) {
            Self::Coupler
        } else if has(Control::HandLever) {
            let each: Vec<String> = worked.iter().map(worked_text).collect();
            Self::Hands(each.join(" and "))
        } else {
            Self::Foot
        }
    }
}
