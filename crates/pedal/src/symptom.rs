//! What a pedal that is not right points to, cause by cause, each with the check that tells it from the others.
//!
//! Source: [TB9-2300-426](crate#sources) for sinking and spongy pedals; the rest is common practice, no source.

use crate::cause::Cause;
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
    // Each with whether what it needs is there.
    let all: &[(Cause, bool)] = match symptom {
        Symptom::Low => &[
            (Cause::FluidLost, true),
            (Cause::ShoesFarLow, has.drums),
            (Cause::PistonsPushedBack, has.discs),
            (Cause::AirLow, true),
            (Cause::FreePlay, true),
            (Cause::BarAtStop, has.bar),
        ],
        Symptom::RisesWhenPumped => &[
            (Cause::ShoesFar, has.drums),
            (Cause::KnockedBack, has.discs),
            (Cause::ServiceMode, has.electric_parking_brake),
            (Cause::ResidualValve, has.residual),
            (Cause::AirAsWell, true),
        ],
        Symptom::Springy => &[
            (Cause::Air, true),
            (Cause::AirInUnit, has.anti_lock),
            (Cause::HoseSwells, has.hoses),
            (Cause::PadsAndSlides, has.discs),
            (Cause::ShoesNotBedded, has.drums),
            (Cause::Boiled, true),
        ],
        Symptom::Sinking => &[
            (Cause::Leak, true),
            (Cause::CylinderSeals, true),
            (Cause::UnitValve, has.anti_lock),
            (Cause::BoosterComesIn, has.booster),
        ],
        Symptom::Hard => &[
            (Cause::NoHelp, has.booster),
            (Cause::Sticking, true),
            (Cause::HoseClosed, has.hoses),
            (Cause::PortsShut, true),
        ],
        Symptom::SoftAgain => &[
            (Cause::LeakAgain, true),
            (Cause::AirRose, true),
            (Cause::AirFromUnit, has.anti_lock),
            (Cause::CylinderDrawsAir, has.drums),
            (Cause::KnockedBackDriving, true),
        ],
    };
    let there = all.iter().filter(|(_, is_there)| *is_there);
    there.map(|(cause, _)| *cause).collect()
}
