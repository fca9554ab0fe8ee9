//! The words of who says and does what at each screw.

use crate::number::spelt;
use crate::said::{Said, figure, say};
use bleedwright_network::Control;
use bleedwright_planner::{Calls, Method};
use uom::si::time::second;

/// One line of the sequence.
pub(crate) struct Call {
    /// What is worked: the screw, or pedal, lever or coupler.
    pub(crate) who: &'static str,
    /// What is called out; nothing where one person works alone.
    pub(crate) says: &'static str,
    /// What is done.
    pub(crate) does: Said,
}

impl Call {
    fn new(who: &'static str, says: &'static str, does: impl Into<Said>) -> Self {
        let does = does.into();
        Self { who, says, does }
    }
}

/// The lines as a sheet says them, and what must never be.
pub(super) fn each(calls: &Calls) -> Vec<Said> {
    let lines = call_lines(calls).into_iter();
    let mut each: Vec<Said> = lines
        .map(|call| match call.says {
            "" => call.does,
            says => say!("{}: {}, \"{}\"", call.who, call.does, says),
        })
        .collect();
    if let Calls::Strokes { controls, .. } = calls {
        each.push(say!(
            "NEVER let the {} back while any screw is open.",
            words(controls).who
        ));
    }
    each
}

/// The lines in their order.
pub(crate) fn call_lines(calls: &Calls) -> Vec<Call> {
    match calls {
        Calls::Alone(method) => {
            let lines = alone(*method).iter();
            lines.map(|does| Call::new("screw", "", *does)).collect()
        }
        Calls::Strokes {
            controls,
            hold,
            may_draw_air,
        } => {
            let words = words(controls);
            if *may_draw_air {
                under_pressure(&words)
            } else {
                strokes(&words, hold.get::<second>() as usize)
            }
        }
    }
}

fn words(controls: &[Control]) -> Words {
    match controls {
        [Control::HandLever] => LEVER,
        [Control::Coupler] => COUPLER,
        [_] | [] => PEDAL,
        [..] => EITHER,
    }
}

/// What one person does at each screw.
fn alone(method: Method) -> &'static [&'static str] {
    match method {
        Method::Pedal => &[],
        Method::Pressure => &[
            "half a turn open",
            "let run",
            "shut while it still runs under pressure",
        ],
        Method::Vacuum => &[
            "pump drawing first",
            "then half a turn open",
            "shut before the pump stops",
        ],
        Method::Gravity => &[
            "half a turn open",
            "wait until it runs without bubbles",
            "shut before the hose leaves the fluid",
        ],
        Method::Reverse => &[
            "hose on, no air in it",
            "half a turn open",
            "push slowly and evenly",
            "then draw back what is said, until no bubble comes",
            "shut before the hose comes off",
        ],
    }
}

/// The words for what works the cylinders of a job.
struct Words {
    who: &'static str,
    press: &'static str,
    /// What it does while it is pressed.
    goes: &'static str,
    /// Where it is stopped.
    stop: &'static str,
    /// Called for a stroke, and for its end.
    calls: [&'static str; 2],
    back: &'static str,
}

const PEDAL: Words = Words {
    who: "pedal",
    press: "slowly to the block",
    goes: "the pedal still goes down",
    stop: "block",
    calls: ["down", "up"],
    back: "slowly up in 3 s",
};

const LEVER: Words = Words {
    who: "lever",
    press: "slowly to the stop",
    goes: "the lever still moves",
    stop: "stop",
    ..PEDAL
};

const EITHER: Words = Words {
    who: "pedal or lever",
    press: "slowly to its block",
    goes: "it still moves",
    ..PEDAL
};

const COUPLER: Words = Words {
    who: "shaft",
    press: "pushed slowly in to the stop",
    goes: "the shaft still goes in",
    stop: "stop",
    calls: ["in", "out"],
    back: "slowly out in 3 s",
};

fn strokes(words: &Words, hold_s: usize) -> Vec<Call> {
    let [down, up] = words.calls;
    let count = figure(spelt(hold_s as f64));
    let shut = say!("count {}, then shut", count);
    vec![
        Call::new("screw", "press", "opened half a turn"),
        Call::new(words.who, down, words.press),
        Call::new("screw", "shut", shut),
        Call::new(words.who, up, words.back),
    ]
}

fn under_pressure(words: &Words) -> Vec<Call> {
    let [down, up] = words.calls;
    let shut = say!("shut while {}, before the {}", words.goes, words.stop);
    vec![
        Call::new(words.who, "on", "pressed lightly, held"),
        Call::new("screw", "press", "only then opened half a turn"),
        Call::new(words.who, down, words.press),
        Call::new("screw", "shut", shut),
        Call::new(words.who, up, words.back),
    ]
}
