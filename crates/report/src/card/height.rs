//! The words of what heights mean at a step.

use crate::number::mm;
use crate::said::{Said, figure, name, say};
use bleedwright_planner::{AboveFluid, Method, StepHeight};
use uom::si::f64::Pressure;
use uom::si::pressure::bar;

/// Said with the reasons of a step: a high point that no finding warns of.
pub(crate) fn height_reason(height: &StepHeight) -> Option<Said> {
    match height {
        StepHeight::Over(high) if !high.is_warned_of() => Some(say!(
            "its way rises {} at {}, no matter while it is full",
            figure(mm(high.rise.nominal)),
            name(&high.name)
        )),
        StepHeight::Over(_) | StepHeight::Above(_) => None,
    }
}

/// Said with what else there is to know at a step.
pub(crate) fn height_note(height: &StepHeight, method: Method) -> Option<Said> {
    match height {
        StepHeight::Over(_) => None,
        StepHeight::Above(above) => Some(above_text(above, method)),
    }
}

/// The same in so few words that they stand at the step.
pub(crate) fn height_does(height: &StepHeight, method: Method) -> Option<Said> {
    let StepHeight::Above(above) = height else {
        return None;
    };
    let does = match method {
        _ if !above.may_draw_air => return None,
        Method::Pedal => {
            "press lightly, only then open; shut before the block: left open it may draw air"
        }
        Method::Pressure | Method::Vacuum => {
            "open only while it is driven, shut while it still runs: else it draws air"
        }
        Method::Gravity => "NOT by gravity: left open it draws air",
        Method::Reverse => "finish by the pedal; left open it draws air",
    };
    Some(does.into())
}

fn above_text(above: &AboveFluid, method: Method) -> Said {
    let AboveFluid { screw, lower, .. } = above;
    let higher = say!(
        "{} up to {} higher than {} ({} bar of head)",
        name(screw),
        figure(mm(above.by.high)),
        name(lower),
        bars(above.head.high, 3)
    );
    let held = above.residual.as_ref().map_or(Said::default(), |residual| {
        let valve = name(&residual.valve);
        match residual.holds {
            Some(holds) if holds.low > above.head_to_top.high => say!(
                "; {}, while it is sound, holds the line full ({} bar against {})",
                valve,
                bars(holds.nominal, 2),
                bars(above.head_to_top.high, 3)
            ),
            Some(holds) => say!(
                "; {} holds {} bar, which may be too little against {}",
                valve,
                bars(holds.nominal, 2),
                bars(above.head_to_top.high, 3)
            ),
            None => say!("; what {} holds is not given", valve),
        }
    });
    if !above.may_draw_air {
        return say!(
            "{}: air rises to here and not to the cylinder{}",
            higher,
            held
        );
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
    say!("{}: {}{}", higher, does, held)
}

fn bars(pressure: Pressure, decimals: usize) -> Said {
    figure(format_args!("{:.decimals$}", pressure.get::<bar>()))
}
