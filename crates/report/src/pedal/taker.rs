//! The words of what takes up fluid.

use bleedwright_pedal::Taker;

/// What takes it up.
pub(crate) fn taker_text(taker: Taker) -> &'static str {
    match taker {
        Taker::CutOff => "closing the port",
        Taker::Clearance => "clearances of the brakes",
        Taker::Brakes => "flexing of the brakes",
        Taker::Hoses => "swelling of the hoses",
        Taker::Pipes => "stretching of the pipes",
        Taker::Fluid => "compression of the fluid",
        Taker::Air => "trapped air",
    }
}
