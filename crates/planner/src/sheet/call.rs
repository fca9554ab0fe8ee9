//! The two-person call sequence.

use super::Sheet;
use crate::options::Method;
use crate::plan::Call;
use bleedwright_network::Control;

/// Who says and does what at each stroke. The screw is shut before the pedal
/// is released, or air is drawn back past its thread.
pub(crate) fn calls(sheet: &Sheet<'_, '_>) -> Vec<Call> {
    match sheet.method() {
        Method::Pedal => strokes(sheet),
        method => alone(method)
            .iter()
            .map(|does| Call {
                who: "screw",
                says: "",
                does,
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
            "shut, pedal or lever held",
        ),
        (false, true) => ("lever", "slowly to the stop", "shut, lever held"),
        (_, false) => ("pedal", "slowly down to the block", "shut, pedal held"),
    };
    if sheet.has_screw_above_its_fluid() {
        return under_pressure(who, press);
    }
    vec![
        Call {
            who: "screw",
            says: "press",
            does: "opened half a turn",
        },
        Call {
            who,
            says: "down",
            does: press,
        },
        Call {
            who: "screw",
            says: "shut",
            does: held,
        },
        Call {
            who,
            says: "up",
            does: "slowly up, 3 s",
        },
    ]
}

/// The same where a screw stands higher than the fluid that feeds it: open without pressure it draws air.
fn under_pressure(who: &'static str, press: &'static str) -> Vec<Call> {
    let call = |who, says, does| Call { who, says, does };
    vec![
        call(who, "on", "pressed lightly, held"),
        call("screw", "press", "only then opened half a turn"),
        call(who, "down", press),
        call("screw", "shut", "shut before the end of the stroke"),
        call(who, "up", "slowly up, 3 s"),
    ]
}
