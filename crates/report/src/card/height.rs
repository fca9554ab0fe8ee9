//! The words of what heights mean at a step.

use bleedwright_planner::{AboveFluid, Method, StepHeight};
use uom::si::length::millimeter;
use uom::si::pressure::bar;

/// Said with the reasons of a step: a high point that no finding warns of.
pub(crate) fn height_reason(height: &StepHeight) -> Option<String> {
    match height {
        StepHeight::Over(high) if !high.is_warned_of() => Some(format!(
            "its way rises {:.0} mm at `{}`, no matter while it is full",
            high.rise.nominal.get::<millimeter>(),
            high.name
        )),
        StepHeight::Over(_) | StepHeight::Above(_) => None,
    }
}

/// Said with what else there is to know at a step.
pub(crate) fn height_note(height: &StepHeight, method: Method) -> Option<String> {
    match height {
        StepHeight::Over(_) => None,
        StepHeight::Above(above) => Some(above_text(above, method)),
    }
}

fn above_text(above: &AboveFluid, method: Method) -> String {
    let AboveFluid { screw, lower, .. } = above;
    let higher = format!(
        "`{screw}` up to {:.0} mm higher than `{lower}` ({:.3} bar of head)",
        above.by.high.get::<millimeter>(),
        above.head.high.get::<bar>()
    );
    let held = above.residual.as_ref().map_or(String::new(), |residual| {
        let valve = &residual.valve;
        match residual.holds {
            Some(holds) if holds.low > above.head_to_top.high => format!(
                "; `{valve}`, while it is sound, holds the line full ({:.2} bar against {:.3})",
                holds.nominal.get::<bar>(),
                above.head_to_top.high.get::<bar>()
            ),
            Some(holds) => format!(
                "; `{valve}` holds {:.2} bar, which may be too little against {:.3}",
                holds.nominal.get::<bar>(),
                above.head_to_top.high.get::<bar>()
            ),
            None => format!("; what `{valve}` holds is not given"),
        }
    });
    if !above.may_draw_air {
        return format!("{higher}: air rises to here and not to the cylinder{held}");
    }
    let does = match method {
        Method::Pedal => {
            "press lightly, only then open, shut before the block; left open it may draw air; not by \
             gravity; air rises to here"
        }
        Method::Pressure | Method::Vacuum => {
            "open only while it is driven, shut while it still runs; left open it draws air; air \
             rises to here"
        }
        Method::Gravity => "left open it draws air: not by gravity",
        Method::Reverse => {
            "air rises to here and not to the reservoir: finish by the pedal; left open it draws air"
        }
    };
    format!("{higher}: {does}{held}")
}
