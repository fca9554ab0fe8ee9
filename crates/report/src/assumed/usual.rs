//! The words of what is taken where the file is silent.

use super::within;
use crate::said::{Said, figure, say};
use bleedwright_network::Usual;

/// A millimetre's share of an inch.
const MM_IN_AN_INCH: f64 = 25.4;

/// What is taken.
pub(crate) fn usual_text(usual: Usual) -> Said {
    let figures = usual.figures();
    let [low, nominal, high] = figures;
    let ends = |unit| figure(format!("{low}-{high}{unit}"));
    let wear_travel = |whose, of| say!("{} wear travel {}{}", whose, within(figures, " mm"), of);
    let dead_volume = |whose| say!("{} dead volume {}", whose, within(figures, " ml"));
    let extension = |whose| {
        say!(
            "{} {} out, linings unknown ({})",
            whose,
            figure(format!("{nominal} mm")),
            ends("")
        )
    };
    let worn = |linings| say!("{} linings {} worn", linings, ends(" %"));
    match usual {
        Usual::SlidingWearTravel => wear_travel("sliding caliper's", ", of both linings"),
        Usual::FixedWearTravel => wear_travel("fixed caliper's", ""),
        Usual::CaliperWearTravel => wear_travel("caliper", ""),
        Usual::WheelCylinderWearTravel => wear_travel("wheel-cylinder", ""),
        Usual::SlidingExtension => extension("sliding caliper's pistons"),
        Usual::FixedExtension => extension("fixed caliper's pistons"),
        Usual::CaliperExtension => extension("caliper pistons"),
        Usual::WheelCylinderExtension => extension("wheel-cylinder pistons"),
        Usual::ClutchExtension => say!(
            "clutch piston {} out ({})",
            figure(format!("{nominal} mm")),
            ends("")
        ),
        Usual::CaliperDeadVolume => dead_volume("caliper"),
        Usual::WheelCylinderDeadVolume => dead_volume("wheel-cylinder"),
        Usual::ClutchDeadVolume => dead_volume("clutch"),
        Usual::NewLinings => worn("new"),
        Usual::HalfWornLinings => worn("half-worn"),
        Usual::WornLinings => worn("worn"),
        Usual::WheelCylinderPistons => "two pistons a wheel cylinder".into(),
        Usual::PedalRatio => say!("pedal ratio {}", within(figures, "")),
        Usual::FreePlay => say!("pedal free play {}", within(figures, " mm")),
        Usual::CutOff => say!("cut-off {}", within(figures, " mm")),
        Usual::BarShare => say!(
            "balance bar in its middle, {} to each cylinder ({})",
            figure(format!("{nominal} %")),
            ends("")
        ),
        Usual::LeftBySyringe => say!(
            "a syringe leaves {} ({})",
            figure(format!("{nominal} %")),
            ends(" %")
        ),
        Usual::HoseBore => say!(
            "hose bore 1/{} in ({})",
            figure(format!("{:.0}", MM_IN_AN_INCH / nominal)),
            ends(" mm")
        ),
        Usual::ScrewBore => say!("screw drilling {}", within(figures, " mm")),
        Usual::PartContents => "tees, unions and valves hold nothing".into(),
        Usual::PipeBore => "pipe bores within their tolerance".into(),
    }
}
