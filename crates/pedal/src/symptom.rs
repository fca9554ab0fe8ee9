//! What a pedal that is not right points to, cause by cause, each with the check that tells it from the others.
//!
//! Source: [TB9-2300-426](crate#sources) for sinking and spongy pedals; the rest is common practice, no source.

use bleedwright_mechanism::Control;
use bleedwright_network::{
    BrakeKind, LineKind, LinkId, LinkKind, Network, ParkingBrake, PartKind, ValveKind,
};

/// What is wrong with the pedal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Symptom {
    /// It goes far down before it gets firm, also after pumping.
    Low,
    /// It is higher and firmer after pumping.
    RisesWhenPumped,
    /// It gives like a spring, also after pumping.
    Springy,
    /// It creeps down under a steady force.
    Sinking,
    /// It needs much force and hardly moves.
    Hard,
    /// It was firm after bleeding and is soft again.
    SoftAgain,
}

/// A cause, and the check that tells it from the others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cause {
    /// What may be wrong.
    pub cause: String,
    /// How to tell.
    pub check: String,
}

/// What hangs on a pedal that matters for a diagnosis.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each says whether one kind of part is there"
)]
struct Has {
    booster: bool,
    drums: bool,
    discs: bool,
    residual: bool,
    anti_lock: bool,
    hoses: bool,
    bar: bool,
    electric_parking_brake: bool,
}

impl Has {
    fn of(network: &Network, control: &Control) -> Self {
        let layout = network.layout();
        let cells: Vec<_> = control
            .circuits(network)
            .flat_map(|circuit| network.cells_of(circuit))
            .copied()
            .collect();
        let parts: Vec<&PartKind> = cells
            .iter()
            .filter_map(|cell| network.part(network.cell(*cell).owner))
            .map(|part| &part.kind)
            .collect();
        let brake = |kind: fn(&BrakeKind) -> bool| {
            parts
                .iter()
                .any(|part| matches!(part, PartKind::Brake(brake) if kind(&brake.kind)))
        };
        Self {
            booster: control
                .cylinders
                .iter()
                .any(|index| layout.cylinders[*index].booster.is_some()),
            drums: brake(|kind| *kind == BrakeKind::WheelCylinder),
            discs: brake(|kind| matches!(kind, BrakeKind::Caliper { .. })),
            residual: parts.iter().any(
                |part| matches!(part, PartKind::Valve(valve) if valve.kind == ValveKind::Residual),
            ),
            anti_lock: parts
                .iter()
                .any(|part| matches!(part, PartKind::AntiLock { .. })),
            hoses: cells
                .iter()
                .filter_map(|cell| network.step_to(*cell))
                .any(|(_, link)| is_hose(network, link)),
            bar: control.bar.is_some(),
            electric_parking_brake: cells
                .iter()
                .filter_map(|cell| network.part(network.cell(*cell).owner))
                .any(|part| part.parking_brake == Some(ParkingBrake::Electric)),
        }
    }
}

fn is_hose(network: &Network, link: LinkId) -> bool {
    match network.link(link).kind {
        LinkKind::Line(index) => {
            matches!(network.layout().lines[index].kind, LineKind::Hose { .. })
        }
        LinkKind::Crossover(_) => false,
    }
}

/// The causes of a symptom on this vehicle, most likely first.
pub fn causes(network: &Network, control: &Control, symptom: Symptom) -> Vec<Cause> {
    let has = Has::of(network, control);
    let mut list = List::default();
    match symptom {
        Symptom::Low => low(&has, &mut list),
        Symptom::RisesWhenPumped => rises(&has, &mut list),
        Symptom::Springy => springy(&has, &mut list),
        Symptom::Sinking => sinking(&has, &mut list),
        Symptom::Hard => hard(&has, &mut list),
        Symptom::SoftAgain => soft_again(&has, &mut list),
    }
    list.causes
}

#[derive(Default)]
struct List {
    causes: Vec<Cause>,
}

impl List {
    fn add(&mut self, cause: &str, check: &str) {
        self.causes.push(Cause {
            cause: cause.to_owned(),
            check: check.to_owned(),
        });
    }

    fn add_if(&mut self, is_there: bool, cause: &str, check: &str) {
        if is_there {
            self.add(cause, check);
        }
    }
}

fn low(has: &Has, list: &mut List) {
    list.add(
        "fluid lost: level low in one compartment, a leak, or a circuit that has no pressure",
        "look at every compartment and for wetness at every union, hose, caliper and cylinder before anything else; do not drive",
    );
    list.add_if(
        has.drums,
        "shoes too far from their drums",
        "pump: the pedal comes up at once; adjust the shoes, then feel again",
    );
    list.add_if(
        has.discs,
        "pistons pushed back: a loose wheel bearing, a warped disc, pads just changed and not pumped up",
        "with no fluid lost, pump to a firm pedal, turn the wheels by hand on stands, feel again: low again means knock-back; measure run-out and bearing play",
    );
    list.add(
        "air in a circuit",
        "compare first push and pumped push: what stays springy after pumping is air; give both readings to --measured and --pumped",
    );
    list.add(
        "too much free play, or a rod set too short",
        "move the pedal by hand until the piston is felt; compare with the maker's free play",
    );
    list.add_if(
        has.bar,
        "the balance bar cocks and stands against its stop",
        "watch the bar while a helper presses: it must stay within the tilt that its maker allows",
    );
}

fn rises(has: &Has, list: &mut List) {
    list.add_if(
        has.drums,
        "shoes too far from their drums",
        "adjust the shoes, then feel the first push again: this comes before looking for air",
    );
    list.add_if(
        has.discs,
        "pistons knocked back by play or run-out, or pads not settled",
        "pump to a firm pedal, turn the wheels by hand on stands, feel the first push again: one that stays high clears it; measure run-out and bearing play",
    );
    list.add_if(
        has.electric_parking_brake,
        "the electric parking brake is still in service mode",
        "leave service mode by the maker's routine, then feel again",
    );
    list.add_if(
        has.residual,
        "a residual valve that holds no pressure any more, so that the shoes go back too far",
        "after releasing, eyes protected and a hose from screw to jar, open a screw of that circuit a crack: a short spurt shows that it holds",
    );
    list.add(
        "air as well, if the pumped pedal is still springy",
        "hold the pumped pedal: firm means clearance only, springy means air too",
    );
}

fn springy(has: &Has, list: &mut List) {
    list.add(
        "trapped air",
        "give the readings of first and pumped push to --measured and --pumped, then find the circuit by the trials listed",
    );
    list.add_if(
        has.anti_lock,
        "air in the closed part of the anti-lock unit",
        "only the maker's routine moves it",
    );
    list.add_if(
        has.hoses,
        "a hose that swells, perhaps about to burst",
        "look at every hose, eyes protected and hands away, while a helper presses hard: one that grows or blisters is renewed before the vehicle moves",
    );
    list.add_if(
        has.discs,
        "pads worn to a wedge, pads on rust, caliper slides that stick",
        "look at the pads and move the slides; a caliper that tilts under pressure gives like a spring",
    );
    list.add_if(
        has.drums,
        "shoes that do not lie in their drums",
        "new shoes in worn drums touch at one place only until they have bedded in",
    );
    list.add(
        "fluid that boiled, if it came on after long braking",
        "let it cool: a pedal that comes back was vapour; measure the boiling point and renew the fluid",
    );
}

fn sinking(has: &Has, list: &mut List) {
    list.add(
        "a leak outside",
        "hold the pedal hard and look, never feel, at every union, hose, caliper, cylinder and screw; a level that falls says the same; do not drive",
    );
    list.add(
        "seals of the master cylinder that let fluid pass back",
        "no leak outside and the level stays, but the pedal creeps: plug the outlets at the cylinder with plugs made for it; if it still creeps, it is the cylinder",
    );
    list.add_if(
        has.anti_lock,
        "a valve of the anti-lock unit that does not shut",
        "with the outlets of the cylinder plugged the pedal holds; with the unit's outlets plugged it creeps",
    );
    list.add_if(
        has.booster,
        "the booster's help coming in as the engine starts, which is no fault",
        "pump the booster empty, hold the pedal, start the engine: it goes down a little once and then stays",
    );
}

fn hard(has: &Has, list: &mut List) {
    list.add_if(
        has.booster,
        "the booster does not help: hose, non-return valve, pump or diaphragm",
        "pump it empty with the engine off, hold the pedal, start: a pedal that does not go down a little has no help",
    );
    list.add(
        "pistons or slides that stick, or linings with oil or glaze on them",
        "on stands, turn every wheel while a helper presses lightly and lets go: each must brake and come free",
    );
    list.add_if(
        has.hoses,
        "a hose closed inside or crushed, or a clamp left on it",
        "open the screw behind it: fluid must run as freely as on the other side",
    );
    list.add(
        "a rod without free play that keeps the ports shut",
        "brakes that drag more and more while driving: slacken the cylinder's nuts by a turn; if the wheels come free, that is it; torque the nuts again and set the free play before anything moves",
    );
}

fn soft_again(has: &Has, list: &mut List) {
    list.add(
        "a leak that lets air in or fluid out",
        "a pedal that goes soft again after bleeding means a leak: check levels and every union that was opened; do not drive",
    );
    list.add(
        "air that has risen together since, from a cavity whose screw is not at its top or a high point",
        "bleed again after it has stood; look at what `check` says of those places",
    );
    list.add_if(
        has.anti_lock,
        "air that came out of the anti-lock unit when it first worked",
        "do the maker's routine, then bleed again",
    );
    list.add_if(
        has.drums,
        "a wheel cylinder whose seals draw in air as the pedal comes back",
        "lift its dust boots: wet inside means new cylinders",
    );
    list.add(
        "pistons knocked back while driving",
        "pump: what comes up at once was clearance and no air",
    );
}
