//! What a sheet warns of before the work begins.

use crate::number::{ml, ml_within};
use crate::said::{Said, figure, finding as told, name, say};
use bleedwright_network::{Code, Finding, Severity};
use bleedwright_planner::{AirLeft, Kept, LeftInUnit, Plan};
use uom::si::f64::Volume;

/// One line for each kind of warning, then what bleeding does not reach.
pub(super) fn warnings(plan: &Plan) -> Vec<Said> {
    let mut texts = Vec::new();
    // What stays is said with its volume below.
    let is_said = |code| matches!(code, Code::NeedsRoutine | Code::NotAtTop);
    let mut codes: Vec<Code> = Vec::new();
    for finding in &plan.findings {
        if finding.severity != Severity::Warning
            || is_said(finding.code)
            || codes.contains(&finding.code)
        {
            continue;
        }
        // What is left out must be bled before anybody drives: each by name,
        // with what to do.
        if finding.code == Code::Skipped {
            let (message, help) = (told(&finding.message), told(&finding.help));
            texts.push(say!("{} {}: {}", code(finding), message, help));
            continue;
        }
        // The worst may be the last of them.
        if finding.code == Code::HighPoint {
            texts.push(say!("{} {}", code(finding), told(&finding.message)));
            continue;
        }
        codes.push(finding.code);
        let more = plan
            .findings
            .iter()
            .filter(|other| other.code == finding.code)
            .count()
            - 1;
        let more = match more {
            0 => Said::default(),
            more => say!(" (and {} more like it)", figure(more)),
        };
        texts.push(say!("{} {}{}", code(finding), told(&finding.message), more));
    }
    texts.extend(plan.units().map(unit_text));
    for remains in &plan.remains {
        texts.push(say!(
            "stays in {}: {} {}",
            name(&remains.part),
            figure(ml_within(remains.volume)),
            air_text(&remains.why)
        ));
    }
    texts
}

fn code(finding: &Finding) -> Said {
    figure(finding.code.text())
}

/// Why air stays, and what to do.
pub(crate) fn air_text(why: &AirLeft) -> Said {
    match why {
        AirLeft::AboveScrew(screw) => say!(
            "air above the screw {}, unless the brake is tilted",
            name(screw)
        ),
        AirLeft::MayClimb { are_heights_known } => say!(
            "air may climb back{}: tap it, press quicker or by a tank; else loosen its upper \
             union with no pressure on it, goggles on, let it run, tighten before the pedal \
             comes up, torque again",
            if *are_heights_known {
                ""
            } else {
                ", if it leads down"
            }
        ),
    }
}

/// Air behind the valves is worse than old fluid, and nothing that a
/// technician sees at the screws tells of it.
pub(crate) fn unit_text(unit: &LeftInUnit) -> Said {
    let part = &unit.part;
    let stay = match unit.kept {
        Kept::OldFluid => {
            return say!(
                "stays in {}: {} of old fluid behind its valves: only the maker's routine \
                 moves it",
                name(part),
                figure(ml_within(unit.volume))
            );
        }
        Kept::MaybeAir => "may stay",
        Kept::Air => "stay",
    };
    // Of a new dry unit nobody may have said how much that is.
    let how_much = if unit.volume.high > Volume::default() {
        say!("up to {} ml of", figure(ml(unit.volume.high)))
    } else {
        say!("an unknown amount of")
    };
    say!(
        "{} AIR {} in {} behind its valves: the job is NOT FINISHED and the \
         vehicle NOT ROADWORTHY until the maker's routine has been run and the circuits bled again",
        how_much,
        stay,
        name(part)
    )
}
