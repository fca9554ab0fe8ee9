//! What a hand needs of a step, in columns.

use super::level::when;
use super::tools::tools;
use crate::said::{Said, figure, say};
use bleedwright_network::Bounds;
use bleedwright_planner::{
    Drive, JarMark, LevelRule, Method, Step, StepScrew, Strokes, nothing_to_speak_of,
};
use uom::si::f64::Time;
use uom::si::time::minute;

/// What stands above the columns, in two lines: what to push, how many strokes or minutes that takes, what the jar holds
/// afterwards, the mark at which to stop and look, when to see to the level.
pub type Titles = [[&'static str; 2]; 5];

pub(super) fn titles(method: Method) -> Titles {
    let push = match method {
        Method::Pedal => "PUSH",
        Method::Reverse => "PUSH IN",
        Method::Pressure | Method::Vacuum | Method::Gravity => "LET OUT",
    };
    let effort = match method {
        Method::Pedal => "STROKES",
        _ => "MINUTES",
    };
    let over = match method {
        Method::Pedal => "(STROKES)",
        _ => "(ml)",
    };
    let [jar, stop, level] = match method {
        Method::Reverse => [
            ["IN ALL", "SO FAR"],
            ["STOP, LOOK", "IN ALL"],
            ["DRAW OFF", over],
        ],
        _ => [
            ["JAR ABOVE", "ZERO"],
            ["STOP, LOOK", "ABOVE ZERO"],
            ["TOP UP", over],
        ],
    };
    [["", push], ["", effort], jar, stop, level]
}

/// One line of a step: what it is of, and what stands in each column.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Row {
    /// The screw; nothing for the step as a whole.
    pub screw: Option<String>,
    /// In the order of [`Titles`] but for the last.
    pub cells: [Said; 4],
    /// When to see to each compartment, by its name in the file.
    pub levels: Vec<(String, Said)>,
    /// Spanner and torque of the screw.
    pub tool: Option<Said>,
}

/// The lines of a step: one for a screw alone; of two that are open at once one each, and before them one for both.
pub(super) fn rows(step: &Step) -> Vec<Row> {
    let effort = match step.drive {
        Drive::Strokes {
            strokes, brought, ..
        } => strokes_text(strokes, brought.low < nothing_to_speak_of()),
        Drive::Steady { .. } => minutes(step.time),
    };
    let levels = |of: &dyn Fn(&LevelRule) -> bool| -> Vec<_> {
        let rules = step.level_rules.iter().filter(|rule| of(rule));
        rules
            .map(|rule| (rule.compartment.clone(), when(rule)))
            .collect()
    };
    let row = |jar: &JarMark, screw: &StepScrew, effort: Said, levels| Row {
        screw: Some(jar.screw.clone()),
        cells: [
            whole(jar.push_ml),
            effort,
            whole(jar.mark_ml),
            whole(jar.stop_ml),
        ],
        levels,
        tool: Some(tools(screw)),
    };
    match (step.jars.as_slice(), step.screws.as_slice()) {
        ([jar], [screw]) => vec![row(jar, screw, effort, levels(&|_| true))],
        (jars, screws) => {
            let none = Said::default;
            let both = Row {
                screw: None,
                cells: [none(), effort, none(), none()],
                levels: levels(&|rule| rule.circuit.is_none()),
                tool: None,
            };
            let each = jars.iter().zip(screws).map(|(jar, screw)| {
                let is_its = |rule: &LevelRule| rule.circuit == Some(screw.circuit_id);
                row(jar, screw, none(), levels(&is_its))
            });
            std::iter::once(both).chain(each).collect()
        }
    }
}

fn whole(ml: u64) -> Said {
    figure(format_args!("{ml} ml"))
}

/// What it most likely takes up to what it may take, where these are far apart: then the jar decides.
fn strokes_text(strokes: Strokes, is_boundless: bool) -> Said {
    let Strokes {
        low, nominal, high, ..
    } = strokes;
    if is_boundless {
        figure(format_args!("{low}+"))
    } else if high > low + low / 2 + 2 {
        figure(format_args!("{low}-{high}"))
    } else {
        figure(nominal)
    }
}

fn minutes(time: Bounds<Time>) -> Said {
    let nominal = time.nominal.get::<minute>();
    if !nominal.is_finite() {
        return say!("does not run");
    }
    let whole = |time: Time| time.get::<minute>().ceil();
    let (low, high) = (whole(time.low), whole(time.high));
    if !high.is_finite() {
        figure(format_args!("{low:.0}+"))
    } else if high > low {
        figure(format_args!("{low:.0}-{high:.0}"))
    } else {
        figure(format_args!("{high:.0}"))
    }
}
