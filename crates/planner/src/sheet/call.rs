//! How the steps go.

use super::Sheet;
use crate::options::Method;
use crate::plan::Calls;

/// The screw is shut before the pedal is released, or air is drawn back past its thread; and not before a count, or more of
/// the stroke stays in the circuit that is shut.
pub(crate) fn calls(sheet: &Sheet<'_, '_>) -> Calls {
    match sheet.method() {
        Method::Pedal => Calls::Strokes {
            controls: sheet.controls(),
            hold: sheet.hold.unwrap_or_default(),
            may_draw_air: sheet.has_screw_above_its_fluid(),
        },
        method => Calls::Alone(method),
    }
}
