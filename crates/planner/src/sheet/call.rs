//! The two-person call sequence.

use super::Sheet;
use crate::options::Method;
use crate::plan::Call;
use bleedwright_network::Control;
use uom::si::time::second;

/// Who says and does what at each stroke. The screw is shut before the pedal
/// is released, or air is drawn back past its thread; and not before a count, or more of the
/// stroke stays in the circuit that is shut.
pub(crate) fn calls(sheet: &Sheet<'_, '_>) -> Vec<Call> {
    match sheet.method() {
        Method::Pedal => strokes(sheet),
        method => alone(method)
            .iter()
            .map(|does| Call {
                who: "screw",
                says: "",
                does: (*does).to_owned(),
            })
            .collect(),
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
    held: &'static str,
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
    press: "slowly down to the block",
    held: "pedal held",
    goes: "the pedal still goes down",
    stop: "block",
    calls: ["down", "up"],
    back: "slowly up, 3 s",
};

const LEVER: Words = Words {
    who: "lever",
    press: "slowly to the stop",
    held: "lever held",
    goes: "the lever still moves",
    stop: "stop",
    ..PEDAL
};

const EITHER: Words = Words {
    who: "pedal or lever",
    press: "slowly to its block",
    held: "pedal or lever held",
    goes: "it still moves",
    ..PEDAL
};

const COUPLER: Words = Words {
    who: "shaft",
    press: "pushed slowly in to the stop",
    held: "shaft held in",
    goes: "the shaft still goes in",
    stop: "stop",
    calls: ["in", "out"],
    back: "slowly out, 3 s",
};

fn strokes(sheet: &Sheet<'_, '_>) -> Vec<Call> {
    let words = match sheet.controls().as_slice() {
        [Control::HandLever] => LEVER,
        [Control::Coupler] => COUPLER,
        [_] | [] => PEDAL,
        [..] => EITHER,
    };
    let call = |who, says, does: String| Call { who, says, does };
    let Words { who, press, .. } = words;
    let [down, up] = words.calls;
    if sheet.has_screw_above_its_fluid() {
        return under_pressure(&words);
    }
    let seconds = sheet.hold.map_or(0.0, |hold| hold.get::<second>()) as usize;
    let shut = format!("count to {}, then shut, {}", count(seconds), words.held);
    vec![
        call("screw", "press", "opened half a turn".to_owned()),
        call(who, down, press.to_owned()),
        call("screw", "shut", shut),
        call(who, up, words.back.to_owned()),
    ]
}

/// The same where a screw stands higher than the fluid that feeds it: open without pressure it draws air.
fn under_pressure(words: &Words) -> Vec<Call> {
    let call = |who, says, does: &str| Call {
        who,
        says,
        does: does.to_owned(),
    };
    let [down, up] = words.calls;
    let shut = format!("shut while {}, before the {}", words.goes, words.stop);
    vec![
        call(words.who, "on", "pressed lightly, held"),
        call("screw", "press", "only then opened half a turn"),
        call(words.who, down, words.press),
        call("screw", "shut", &shut),
        call(words.who, up, words.back),
    ]
}

/// A number to count to, as it is said.
fn count(seconds: usize) -> String {
    const WORDS: [&str; 11] = [
        "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    ];
    (WORDS.get(seconds)).map_or_else(|| seconds.to_string(), |word| (*word).to_owned())
}
