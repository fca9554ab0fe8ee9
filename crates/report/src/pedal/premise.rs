//! The words of what an answer about a pedal rests on.

use crate::assumed::{usual_text, within};
use crate::number::plain;
use crate::said::{Said, bare, figure, say};
use bleedwright_network::Usual;
use bleedwright_pedal::{FLEX_FORCE_N, Guessed, Premise, USUAL_TOLERANCE_MM, assumed};
use std::collections::BTreeSet;
use uom::si::force::newton;

/// What an answer rests on: that of the pedal by its words, then that of the readings.
pub(crate) fn premise_texts(premises: &[Premise]) -> Vec<String> {
    let (readings, pedal): (Vec<&Premise>, Vec<&Premise>) = (premises.iter())
        .partition(|it| matches!(it, Premise::MeasuredTravel | Premise::RoughForces(_)));
    let text = |premise: &&Premise| premise_text(premise).to_string();
    let pedal: BTreeSet<String> = pedal.iter().map(text).collect();
    pedal.into_iter().chain(readings.iter().map(text)).collect()
}

/// What was taken where the file is silent, by its words.
pub(crate) fn usual_texts(usual: &BTreeSet<Usual>) -> BTreeSet<String> {
    let texts = usual.iter().map(|usual| usual_text(*usual).to_string());
    texts.collect()
}

fn premise_text(premise: &Premise) -> Said {
    match premise {
        Premise::Guessed(guessed) => guessed_text(guessed),
        Premise::BarAtCylinder(cylinder) => say!(
            "the pedal of the balance bar has the lever ratio, free play, flexing and booster that are given for {}",
            bare(cylinder)
        ),
        Premise::BarTilts => {
            "with one circuit lost the bar tilts until that cylinder's piston stands at its end, and no stop of its own holds it before, a guess".into()
        }
        Premise::FluidAndAir => {
            "the fluid at 20 degC, its bulk modulus a guess; trapped air at 1.013 bar and squeezed slowly".into()
        }
        Premise::HeldAndPumped => {
            let [least, _, most] = assumed::LEFT_AFTER_PUMPING.map(|share| share * 100.0);
            say!(
                "the pedal held still while it is read; pumped until it rises no further, which leaves {} of the clearances (a guess)",
                figure(format!("{least:.0} to {most:.0} %"))
            )
        }
        Premise::CouplerFlex => say!(
            "shaft and drawbar flex {}, a guess",
            flexing(assumed::COUPLER_FLEX_MM)
        ),
        Premise::PedalFlex => say!(
            "pedal and bulkhead flex {}, a guess",
            flexing(assumed::PEDAL_FLEX_MM)
        ),
        Premise::BoosterRatio => say!("booster ratio {}, a guess", within(assumed::BOOSTER_RATIO, "")),
        Premise::VacuumHelp => {
            let [low, nominal, high] = assumed::VACUUM_HELP_N.map(|newtons| plain(newtons / 1000.0));
            say!(
                "a vacuum booster adds {} at most ({}), a guess; beyond that the pressure rises with the foot alone",
                figure(format!("{nominal} kN")),
                figure(format!("{low}-{high}"))
            )
        }
        Premise::HelpWithoutEnd => {
            "the booster's help has no end that is known: high pressures may not be reached".into()
        }
        Premise::MeasuredTravel => say!(
            "a measured travel lies within its tolerance nineteen times in twenty; within {} where none was given",
            figure(format!("{USUAL_TOLERANCE_MM} mm"))
        ),
        Premise::RoughForces(forces) => {
            let ends = forces.iter().map(|force| {
                let newtons = force.map(|end| end.get::<newton>());
                format!("{:.0}-{:.0} N", newtons.low, newtons.high)
            });
            let ends: BTreeSet<String> = ends.collect();
            say!(
                "a force that no gauge showed lies anywhere in {}, a guess",
                Said::joined(ends.iter().map(figure), " or ")
            )
        }
    }
}

fn guessed_text(guessed: &Guessed) -> Said {
    match guessed {
        Guessed::Usual(usual) => usual_text(*usual),
        Guessed::Drag => say!(
            "springs and seals of a master piston take {}, a floating one, held between two springs, {}, a guess",
            within(assumed::DRAG_N, " N"),
            within(assumed::FLOATING_DRAG_N, " N")
        ),
        Guessed::PipeWall => say!(
            "pipes of steel with a wall of {}",
            figure(format!("{} mm", assumed::PIPE_WALL_MM))
        ),
        Guessed::BraidedHoses => {
            "braided hoses swell between nothing and what a rubber hose does, a guess".into()
        }
        Guessed::RubberHoses => {
            "rubber hoses swell as one that was tested (second-hand), between nothing and the legal limit of FMVSS 106 (partly from memory)".into()
        }
        Guessed::DrumClearance => say!(
            "drum brakes adjusted: each piston moves {} until the shoes touch, a guess",
            within(assumed::DRUM_CLEARANCE_MM, " mm")
        ),
        Guessed::DiscClearance => say!(
            "pistons of sliding calipers roll back {}, from memory; of fixed ones half of it, of unknown ones either",
            within(assumed::DISC_CLEARANCE_MM, " mm")
        ),
        Guessed::DrumGive => {
            let [low, nominal, high] = assumed::DRUM_GIVE_MM;
            say!(
                "drum brakes flex by {} of piston travel at 100 bar ({}), a guess",
                figure(format!("{nominal} mm")),
                figure(format!("{low}-{high}"))
            )
        }
        Guessed::DiscGive => {
            let [low, nominal, high] = assumed::DISC_GIVE_MM;
            say!(
                "sliding calipers flex by {} of piston travel at 100 bar ({}: 0.3 to 1 ml behind a 54 mm piston), from memory; fixed ones by half of it, unknown ones by either",
                figure(format!("{nominal} mm")),
                figure(format!("{low}-{high}"))
            )
        }
        Guessed::DrumTouch => say!(
            "return springs of drum brakes give way by {}, a guess",
            within(assumed::DRUM_TOUCH_BAR, " bar")
        ),
        Guessed::DiscTouch => say!(
            "disc brakes close their clearance by {}, a guess",
            within(assumed::DISC_TOUCH_BAR, " bar")
        ),
        Guessed::Unladen(valve) => say!("{} as it is set for an empty vehicle", bare(valve)),
        Guessed::TakenAsOpen(valve) => say!(
            "{} has no settings in the layout and is taken as open: the pressure behind it is too high",
            bare(valve)
        ),
    }
}

/// What flexes under the force for which it is given.
fn flexing([low, nominal, high]: [f64; 3]) -> Said {
    figure(format!("{nominal} mm at {FLEX_FORCE_N} N ({low}-{high})"))
}
