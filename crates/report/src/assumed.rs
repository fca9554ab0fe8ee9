//! The words of what a plan rests on beside the layout.

mod usual;

pub(crate) use usual::usual_text;

use crate::number::plain;
use crate::said::{Said, figure, say};
use bleedwright_network::Bounds;
use bleedwright_pedal::assumed;
use bleedwright_planner::{Assumed, Plan, ViscosityFrom};
use uom::si::diffusion_coefficient::square_meter_per_second;
use uom::si::f64::Pressure;
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::length::{meter, millimeter};
use uom::si::pressure::{bar, psi};
use uom::si::ratio::percent;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// An assumption in words.
pub(crate) struct AssumedText {
    /// What is assumed.
    pub(crate) text: Said,
    /// The parts, lines and circuits concerned.
    pub(crate) of: Vec<String>,
    /// Which assumption it is, for programs.
    pub(crate) kind: &'static str,
    /// Whether it is what the file marks as a guess.
    pub(crate) is_guess: bool,
}

/// All that a plan rests on: what was found of the layout by its words, then the job's in its order. What is said in the
/// same words is said once.
pub(crate) fn assumptions(plan: &Plan) -> Vec<AssumedText> {
    let told = plan.assumptions.iter().map(|it| {
        let text = assumed_text(&it.what);
        let place = match it.what {
            Assumed::Usual(_)
            | Assumed::ScrewsAtTop
            | Assumed::NoneAbove
            | Assumed::Guesses
            | Assumed::Connected
            | Assumed::AirAtJoint
            | Assumed::ReservoirHeight(_) => (0, text.to_string()),
            Assumed::FirmPedal(_) | Assumed::Viscosity(..) => (1, String::new()),
            Assumed::TakenUp(_) => (2, text.to_string()),
            _ => (3, String::new()),
        };
        let told = AssumedText {
            text,
            of: it.of.clone(),
            kind: (&it.what).into(),
            is_guess: it.what == Assumed::Guesses,
        };
        (place, told)
    });
    let mut told: Vec<_> = told.collect();
    told.sort_by(|(a, _), (b, _)| a.cmp(b));
    told.dedup_by(|(_, next), (_, kept)| {
        let is_same = next.text == kept.text;
        if is_same {
            kept.of.append(&mut next.of);
            kept.of.sort_unstable();
            kept.of.dedup();
        }
        is_same
    });
    told.into_iter().map(|(_, told)| told).collect()
}

/// What is assumed.
fn assumed_text(what: &Assumed) -> Said {
    match what {
        Assumed::Usual(usual) => usual_text(*usual),
        Assumed::ScrewsAtTop => "screws at the top of their cavity".into(),
        Assumed::NoneAbove => "no brake above its reservoir (these heights decide)".into(),
        Assumed::Guesses => "guesses of the layout (`?`), not measured".into(),
        Assumed::Connected => {
            "where these lines are connected is a guess (`?`): follow them, and swap their ends if they are".into()
        }
        Assumed::AirAtJoint => "air stays at an opened joint of unknown height".into(),
        Assumed::ReservoirHeight(height) => say!(
            "reservoir {} above the screw",
            of_bounds(height.map(|it| it.get::<meter>()), " m")
        ),
        Assumed::FirmPedal(share) => say!(
            "strokes counted as if the block let the piston go {} of its stroke",
            figure(format!("{:.0} %", share.get::<percent>()))
        ),
        Assumed::Viscosity(viscosity, from) => {
            let viscosity = viscosity.map(|it| it.get::<square_millimeter_per_second>());
            let from = match from {
                ViscosityFrom::BeyondPoints => "measured, beyond its points",
                ViscosityFrom::Measured => "measured",
                ViscosityFrom::Typical => "typical",
                ViscosityFrom::Guess => "a guess",
            };
            say!("viscosity {}, {}", whole(viscosity, " mm2/s"), from)
        }
        Assumed::TakenUp(volume) => {
            let Bounds { low, nominal, high } = volume.map(|it| it.get::<milliliter>());
            say!(
                "the shut circuit takes up {} of a stroke",
                figure(format!("{nominal:.2} ml ({low:.2}-{high:.2})"))
            )
        }
        Assumed::Takers => say!(
            "master pistons move at {} N, floating ones at {} N; brakes without a clearance in the layout: discs {} mm closed \
             by {} bar, adjusted drums {} mm by {} bar; all of it back when the pedal comes up",
            within(assumed::DRAG_N, ""),
            within(assumed::FLOATING_DRAG_N, ""),
            within(assumed::DISC_CLEARANCE_MM, ""),
            within(assumed::DISC_TOUCH_BAR, ""),
            within(assumed::DRUM_CLEARANCE_MM, ""),
            within(assumed::DRUM_TOUCH_BAR, ""),
        ),
        Assumed::Stirring(share) => say!(
            "pipes flow laminar, cavities stir but for {}",
            of_bounds(share.map(|it| it.get::<percent>()), " %")
        ),
        Assumed::Diffusion(diffusivity) => say!(
            "diffusion {}, Stokes-Einstein",
            of_bounds(
                diffusivity.map(|it| it.get::<square_meter_per_second>() * 1e10),
                "e-10 m2/s"
            )
        ),
        Assumed::Spilt(share) => say!("{} spilt", figure(format!("{:.0} %", share.get::<percent>()))),
        Assumed::CavityAfterAir => "one cavity of fluid after the last bubble".into(),
        Assumed::AirAhead => "air leaves ahead of the fluid".into(),
        Assumed::ClearStrokes(strokes) => say!("{} clear strokes", figure(strokes)),
        Assumed::ClearVolume(volume) => say!(
            "{} clear",
            figure(format!("{:.0} ml", volume.get::<milliliter>()))
        ),
        Assumed::ShortStrokes => {
            "strokes half as long as usual after long standing (common practice, no source)".into()
        }
        Assumed::Ports(bore) => say!(
            "ports {}",
            of_bounds(bore.map(|it| it.get::<millimeter>()), " mm")
        ),
        Assumed::JarAtScrew => "jar at the screw's height".into(),
        Assumed::Syringe(pressure) => say!(
            "syringe {}",
            of_bounds(pressure.map(|it| it.get::<bar>()), " bar")
        ),
        Assumed::Tank(pressure) => {
            let ends = |of: fn(&Pressure) -> f64, decimals: usize| {
                let [low, high] = [of(&pressure.low), of(&pressure.high)];
                figure(format!("{low:.decimals$}-{high:.decimals$}"))
            };
            say!(
                "tank {} bar ({} psi, TB 9-2320-335-13&P)",
                ends(Pressure::get::<bar>, 2),
                ends(Pressure::get::<psi>, 0)
            )
        }
        Assumed::Cycle { stroke, held } => {
            let Bounds { low, nominal, high } = stroke.map(|it| it.get::<second>());
            say!(
                "{} s a stroke ({}), {} of it held",
                figure(format!("{nominal:.0}")),
                figure(format!("{low:.0}-{high:.0}")),
                figure(format!("{:.0} s", held.get::<second>()))
            )
        }
    }
}

/// A figure with its unit, which begins with a blank where one belongs between, and its bounds behind it.
pub(crate) fn within([low, nominal, high]: [f64; 3], unit: &str) -> Said {
    of_bounds(Bounds { low, nominal, high }, unit)
}

/// The same of bounds.
fn of_bounds(bounds: Bounds<f64>, unit: &str) -> Said {
    let Bounds { low, nominal, high } = bounds.map(plain);
    figure(format!("{nominal}{unit} ({low}-{high})"))
}

/// The same in whole numbers.
fn whole(bounds: Bounds<f64>, unit: &str) -> Said {
    let Bounds { low, nominal, high } = bounds;
    figure(format!("{nominal:.0}{unit} ({low:.0}-{high:.0})"))
}
