//! The words of what to beware of at a pedal.

use bleedwright_pedal::PedalCaution;

/// What to beware of.
pub(crate) fn caution_text(caution: PedalCaution) -> &'static str {
    match caution {
        PedalCaution::Model => {
            "Figures here are those of a model with assumptions. They do not say that the brakes are safe: the maker's manual governs, and work on brakes is done or checked by a competent, where required licensed, person."
        }
        PedalCaution::BeforePressing => {
            "Before any pressing: every caliper on its disc, every drum on its shoes, the vehicle supported, nobody's fingers at linkage or linings."
        }
        PedalCaution::Leak => {
            "A pedal that sinks, a level that falls or a wet place anywhere: do not drive, find the leak first."
        }
        PedalCaution::Clamps => {
            "Clamp only hoses of plain rubber, with a clamp made for the purpose, for seconds, and take it off; never pipes, never braided hoses. A hose that keeps the mark is renewed."
        }
        PedalCaution::Plugs => {
            "A plugged outlet means an opened system: plugs made for the thread, eyes protected, no driving; afterwards bleed, torque, top up and look for leaks while holding hard."
        }
        PedalCaution::OtherCylinder => {
            "A cylinder is chosen for force and travel together, with one circuit lost as well, and the finished vehicle is tested and approved as the local rules require."
        }
    }
}
