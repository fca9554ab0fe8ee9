//! The words of what a check found.

use crate::said::{Said, bare, figure, say};
use bleedwright_inspection::readings::Found;
use bleedwright_inspection::record::{Answer, StepEnd};
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;

/// What was found; nothing where nobody looked.
pub(crate) fn found(found: &Found) -> Said {
    match found {
        Found::Nothing => Said::default(),
        Found::Written(text) => bare(text),
        Found::Answer(answer) => answer.word().into(),
        Found::Level(level) => bare(&level.word().replace('_', " ")),
        Found::Day(day) => figure(day),
        Found::Grade(grade) => grade.text().into(),
        Found::Step(end, pushed) => listed([
            end.map(|end| end_text(end).into()),
            written(pushed.as_ref()),
        ]),
        Found::Travel {
            free,
            depressed,
            used,
            force,
        } => {
            let free = free.as_ref().map(|free| say!("A {}, ", figure(free)));
            let share =
                |used: Ratio| say!(": {} %", figure(format!("{:.1}", used.get::<percent>())));
            say!(
                "{}B {}{}{}",
                free.unwrap_or_default(),
                figure(depressed),
                used.map(share).unwrap_or_default(),
                written(force.as_ref())
                    .map(|force| say!(" at {}", force))
                    .unwrap_or_default()
            )
        }
        Found::Hold {
            force,
            time,
            dropped,
        } => {
            let dropped = dropped.map(|dropped| match dropped {
                Answer::Yes => "went on sinking".into(),
                Answer::No => "no further drop".into(),
            });
            listed([written(force.as_ref()), written(time.as_ref()), dropped])
        }
        Found::Fluid {
            moisture,
            boiling,
            estimated,
        } => {
            let estimate = |point: ThermodynamicTemperature| {
                let point = format!("{:.0} degC", point.get::<degree_celsius>());
                say!("estimated to boil at {}", figure(point))
            };
            listed([
                written(moisture.as_ref()).map(|water| say!("water read: {}", water)),
                written(boiling.as_ref()).map(|point| say!("boils at {}", point)),
                estimated.map(estimate),
            ])
        }
    }
}

fn written(text: Option<&String>) -> Option<Said> {
    text.map(figure)
}

fn listed<const N: usize>(parts: [Option<Said>; N]) -> Said {
    Said::joined(parts.into_iter().flatten(), ", ")
}

fn end_text(end: StepEnd) -> &'static str {
    match end {
        StepEnd::Counted => "counted",
        StepEnd::ByJar => "by the jar, not counted",
        StepEnd::ByStrokes => "by strokes, not counted",
        StepEnd::LeftOut => "LEFT OUT",
    }
}
