//! The words of what may be wrong with a pedal, and of how to tell.
//!
//! Source: `TB9-2300-426` for sinking and spongy pedals; the rest is common practice, no source.

use crate::said::Said;
use bleedwright_pedal::Cause;

/// What may be wrong, and how to tell.
#[expect(clippy::too_many_lines, reason = "a table with a row for each cause")]
pub(crate) fn cause_and_check(cause: Cause) -> [Said; 2] {
    let (cause, check) = match cause {
        Cause::FluidLost => (
            "fluid lost: level low in one compartment, a leak, or a circuit that has no pressure",
            "look at every compartment and for wetness at every union, hose, caliper and cylinder before anything else; do not drive",
        ),
        Cause::ShoesFarLow => (
            "shoes too far from their drums",
            "pump: the pedal comes up at once; adjust the shoes, then feel again",
        ),
        Cause::PistonsPushedBack => (
            "pistons pushed back: a loose wheel bearing, a warped disc, pads just changed and not pumped up",
            "with no fluid lost, pump to a firm pedal, turn the wheels by hand on stands, feel again: low again means knock-back; measure run-out and bearing play",
        ),
        Cause::AirLow => (
            "air in a circuit",
            "compare first push and pumped push: what stays springy after pumping is air; give both readings to --measured and --pumped",
        ),
        Cause::FreePlay => (
            "too much free play, or a rod set too short",
            "move the pedal by hand until the piston is felt; compare with the maker's free play",
        ),
        Cause::BarAtStop => (
            "the balance bar cocks and stands against its stop",
            "watch the bar while a helper presses: it must stay within the tilt that its maker allows",
        ),
        Cause::ShoesFar => (
            "shoes too far from their drums",
            "adjust the shoes, then feel the first push again: this comes before looking for air",
        ),
        Cause::KnockedBack => (
            "pistons knocked back by play or run-out, or pads not settled",
            "pump to a firm pedal, turn the wheels by hand on stands, feel the first push again: one that stays high clears it; measure run-out and bearing play",
        ),
        Cause::ServiceMode => (
            "the electric parking brake is still in service mode",
            "leave service mode by the maker's routine, then feel again",
        ),
        Cause::ResidualValve => (
            "a residual valve that holds no pressure any more, so that the shoes go back too far",
            "after releasing, eyes protected and a hose from screw to jar, open a screw of that circuit a crack: a short spurt shows that it holds",
        ),
        Cause::AirAsWell => (
            "air as well, if the pumped pedal is still springy",
            "hold the pumped pedal: firm means clearance only, springy means air too",
        ),
        Cause::Air => (
            "trapped air",
            "give the readings of first and pumped push to --measured and --pumped, then find the circuit by the trials listed",
        ),
        Cause::AirInUnit => (
            "air in the closed part of the anti-lock unit",
            "only the maker's routine moves it",
        ),
        Cause::HoseSwells => (
            "a hose that swells, perhaps about to burst",
            "look at every hose, eyes protected and hands away, while a helper presses hard: one that grows or blisters is renewed before the vehicle moves",
        ),
        Cause::PadsAndSlides => (
            "pads worn to a wedge, pads on rust, caliper slides that stick",
            "look at the pads and move the slides; a caliper that tilts under pressure gives like a spring",
        ),
        Cause::ShoesNotBedded => (
            "shoes that do not lie in their drums",
            "new shoes in worn drums touch at one place only until they have bedded in",
        ),
        Cause::Boiled => (
            "fluid that boiled, if it came on after long braking",
            "let it cool: a pedal that comes back was vapour; measure the boiling point and renew the fluid",
        ),
        Cause::Leak => (
            "a leak outside",
            "hold the pedal hard and look, never feel, at every union, hose, caliper, cylinder and screw; a level that falls says the same; do not drive",
        ),
        Cause::CylinderSeals => (
            "seals of the master cylinder that let fluid pass back",
            "no leak outside and the level stays, but the pedal creeps: plug the outlets at the cylinder with plugs made for it; if it still creeps, it is the cylinder",
        ),
        Cause::UnitValve => (
            "a valve of the anti-lock unit that does not shut",
            "with the outlets of the cylinder plugged the pedal holds; with the unit's outlets plugged it creeps",
        ),
        Cause::BoosterComesIn => (
            "the booster's help coming in as the engine starts, which is no fault",
            "pump the booster empty, hold the pedal, start the engine: it goes down a little once and then stays",
        ),
        Cause::NoHelp => (
            "the booster does not help: hose, non-return valve, pump or diaphragm",
            "pump it empty with the engine off, hold the pedal, start: a pedal that does not go down a little has no help",
        ),
        Cause::Sticking => (
            "pistons or slides that stick, or linings with oil or glaze on them",
            "on stands, turn every wheel while a helper presses lightly and lets go: each must brake and come free",
        ),
        Cause::HoseClosed => (
            "a hose closed inside or crushed, or a clamp left on it",
            "open the screw behind it: fluid must run as freely as on the other side",
        ),
        Cause::PortsShut => (
            "a rod without free play that keeps the ports shut",
            "brakes that drag more and more while driving: slacken the cylinder's nuts by a turn; if the wheels come free, that is it; torque the nuts again and set the free play before anything moves",
        ),
        Cause::LeakAgain => (
            "a leak that lets air in or fluid out",
            "a pedal that goes soft again after bleeding means a leak: check levels and every union that was opened; do not drive",
        ),
        Cause::AirRose => (
            "air that has risen together since, from a cavity whose screw is not at its top or a high point",
            "bleed again after it has stood; look at what `check` says of those places",
        ),
        Cause::AirFromUnit => (
            "air that came out of the anti-lock unit when it first worked",
            "do the maker's routine, then bleed again",
        ),
        Cause::CylinderDrawsAir => (
            "a wheel cylinder whose seals draw in air as the pedal comes back",
            "lift its dust boots: wet inside means new cylinders",
        ),
        Cause::KnockedBackDriving => (
            "pistons knocked back while driving",
            "pump: what comes up at once was clearance and no air",
        ),
    };
    [cause.into(), check.into()]
}
