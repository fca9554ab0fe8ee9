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

fn strokes(sheet: &Sheet<'_, '_>) -> Vec<Call> {
    let controls: Vec<Control> = sheet
        .cylinders_in_use()
        .into_iter()
        .map(|index| sheet.network().layout().cylinders[index].control)
        .collect();
    let has = |control| controls.contains(&control);
    let (who, press, held) = match (has(Control::Pedal), has(Control::HandLever)) {
        (true, true) => (
            "pedal or lever",
            "slowly to its block",
            "pedal or lever held",
        ),
        (false, true) => ("lever", "slowly to the stop", "lever held"),
        (_, false) => ("pedal", "slowly down to the block", "pedal held"),
    };
    if sheet.has_screw_above_its_fluid() {
        return under_pressure(who, press);
    }
    let seconds = sheet.hold.map_or(0.0, |hold| hold.get::<second>()) as usize;
    vec![
        Call {
            who: "screw",
            says: "press",
            does: "opened half a turn".to_owned(),
        },
        Call {
            who,
            says: "down",
            does: press.to_owned(),
        },
        Call {
            who: "screw",
            says: "shut",
            does: format!("count to {}, then shut, {held}", count(seconds)),
        },
        Call {
            who,
            says: "up",
            does: "slowly up, 3 s".to_owned(),
        },
    ]
}

/// The same where a screw stands higher than the fluid that feeds it: open without pressure it draws air.
fn under_pressure(who: &'static str, press: &'static str) -> Vec<Call> {
    let call = |who, says, does: &str| Call {
        who,
        says,
        does: does.to_owned(),
    };
    vec![
        call(who, "on", "pressed lightly, held"),
        call("screw", "press", "only then opened half a turn"),
        call(who, "down", press),
        call(
            "screw",
            "shut",
            "shut while the pedal still goes down, before the block",
        ),
        call(who, "up", "slowly up, 3 s"),
    ]
}

/// A number to count to, as it is said.
fn count(seconds: usize) -> String {
    const WORDS: [&str; 11] = [
        "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    ];
    (WORDS.get(seconds)).map_or_else(|| seconds.to_string(), |word| (*word).to_owned())
}
