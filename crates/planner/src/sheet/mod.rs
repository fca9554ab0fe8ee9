//! What the sheet says around the steps: preparations, calls, checks,
//! cautions, assumptions.

mod aftercare;
mod assumption;
mod call;
mod caution;
mod equipment;
mod height;
mod job;
mod opened;
mod otherwise;
mod preparation;
mod reservoir;
mod unfinished;
mod unit;

pub(crate) use aftercare::{checks_after, is_wanted_again};
pub(crate) use assumption::assumptions;
pub(crate) use call::calls;
pub(crate) use caution::cautions;
pub(crate) use otherwise::otherwise;
pub(crate) use preparation::preparations;
pub(crate) use unit::units;

use crate::joint::Joints;
use crate::options::{Method, Purpose};
use crate::plan::{LeftInUnit, PedalBlock};
use crate::request::{Request, Target};
use crate::reservoir::DrawOff;
use bleedwright_mechanism::TakeUp;
use bleedwright_network::{
    BoosterKind, BrakeKind, CircuitId, CylinderKind, Network, Owner, ParkingBrake, Part, PartKind,
    ScrewId, ValveKind,
};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::f64::{Time, Volume};

pub(crate) struct Sheet<'a, 'n> {
    pub(crate) request: &'a Request<'n>,
    /// The joints that were opened.
    pub(crate) joints: &'a Joints,
    /// Screws in scope that the user left out.
    pub(crate) left_out: &'a BTreeSet<ScrewId>,
    /// Screws to be opened now, in their order.
    pub(crate) order: &'a [ScrewId],
    /// Circuits of these screws.
    pub(crate) circuits: BTreeSet<CircuitId>,
    /// Parts that fluid passes on the runs in use, by name.
    pub(crate) parts: Vec<&'n Part>,
    /// Screws that are opened by gravity before the pedal is used.
    pub(crate) gravity_first: &'a [ScrewId],
    /// What anti-lock units keep.
    pub(crate) units: Vec<LeftInUnit>,
    /// Screws of the bleed after their routine; none where it is not needed.
    pub(crate) second: Vec<ScrewId>,
    /// Unions that are the highest point of a way with air in it, by name.
    pub(crate) unions: Vec<String>,
    /// What stays above the minimum marks by the reverse method.
    pub(crate) kept: &'a BTreeMap<(usize, usize), Volume>,
    /// What is pushed in all, at most.
    pub(crate) pushed: Volume,
    /// The reservoir work of a renewal.
    pub(crate) draw_offs: &'a [DrawOff],
    pub(crate) pedal_blocks: Vec<PedalBlock>,
    /// What shut circuits take up of a stroke, by the circuit that is bled.
    pub(crate) taken_up: BTreeMap<CircuitId, TakeUp>,
    /// How long the pedal is held before a screw is shut; none where none is used.
    pub(crate) hold: Option<Time>,
}

/// Parts that fluid passes in these circuits, by name.
pub(crate) fn parts_of<'n>(network: &'n Network, circuits: &BTreeSet<CircuitId>) -> Vec<&'n Part> {
    let mut is_passed = vec![false; network.layout().parts.len()];
    for (cell, data) in network.all_cells() {
        if let Owner::Part(index, _) = data.owner
            && network
                .circuit_of_cell(cell)
                .is_some_and(|circuit| circuits.contains(&circuit))
        {
            is_passed[index] = true;
        }
    }
    let mut parts: Vec<&Part> = (network.layout().parts.iter())
        .zip(is_passed)
        .filter_map(|(part, is_passed)| is_passed.then_some(part))
        .collect();
    parts.sort_by(|a, b| a.id.cmp(&b.id));
    parts
}

impl<'n> Sheet<'_, 'n> {
    fn network(&self) -> &'n Network {
        self.request.network
    }

    fn method(&self) -> Method {
        self.request.options.method
    }

    fn purpose(&self) -> Purpose {
        self.request.options.purpose()
    }

    /// Whether brakes are among what is bled: a clutch alone has other ends.
    fn has_brakes(&self) -> bool {
        self.has_purpose(bleedwright_network::Works::Brake)
    }

    fn has_clutch(&self) -> bool {
        self.has_purpose(bleedwright_network::Works::Clutch)
    }

    fn has_purpose(&self, purpose: bleedwright_network::Works) -> bool {
        let mut circuits = self.circuits.iter();
        circuits.any(|circuit| self.network().circuit(*circuit).purpose == purpose)
    }

    fn has_drums(&self) -> bool {
        self.has_brake(|kind| kind == BrakeKind::WheelCylinder)
    }

    fn has_calipers(&self) -> bool {
        self.has_brake(|kind| matches!(kind, BrakeKind::Caliper { .. }))
    }

    fn has_brake(&self, is_wanted: fn(BrakeKind) -> bool) -> bool {
        self.parts
            .iter()
            .any(|part| matches!(&part.kind, PartKind::Brake(brake) if is_wanted(brake.kind)))
    }

    /// Whether it has a left and a right, so that it stands by itself.
    fn has_axles(&self) -> bool {
        let mut circuits = self.network().circuits();
        circuits.any(|(_, circuit)| circuit.wheels.iter().any(|wheel| wheel.side().is_some()))
    }

    /// What the layout says of the parking brake on the circuits of the job.
    fn parking_brake(&self) -> Option<ParkingBrake> {
        self.parts.iter().find_map(|part| part.parking_brake)
    }

    /// Whether a brake with a motor comes off its place.
    fn needs_service_mode(&self) -> bool {
        let is_electric = |part: &Part| part.parking_brake == Some(ParkingBrake::Electric);
        let parts = &self.network().layout().parts;
        let mut opened = self.request.opened.iter().filter_map(Target::part);
        let is_opened = opened.any(|index| is_electric(&parts[index]));
        is_opened || self.tilted(self.order).any(is_electric)
    }

    /// Brakes that are unbolted and tilted until a screw of these is on top.
    fn tilted<'s>(
        &'s self,
        screws: impl IntoIterator<Item = &'s ScrewId>,
    ) -> impl Iterator<Item = &'n Part> {
        let network = self.network();
        screws
            .into_iter()
            .filter(|screw| network.screw(**screw).at_top == Some(false))
            .filter_map(|screw| network.part(network.screw_place(*screw).owner))
            .filter(|part| matches!(part.kind, PartKind::Brake(_)))
    }

    fn valves_in_use(&self, kind: ValveKind) -> Vec<&'n Part> {
        (self.parts.iter().copied())
            .filter(|part| matches!(&part.kind, PartKind::Valve(valve) if valve.kind == kind))
            .collect()
    }

    /// Cylinders whose circuits are bled, by their place in the layout.
    fn cylinders_in_use(&self) -> BTreeSet<usize> {
        self.circuits
            .iter()
            .map(|circuit| self.network().circuit(*circuit).cylinder)
            .collect()
    }

    /// Whether the runs in use pass an anti-lock unit.
    fn has_unit(&self) -> bool {
        let is_unit = |part: &&Part| matches!(part.kind, PartKind::AntiLock { .. });
        self.parts.iter().any(is_unit)
    }

    /// The compartments that feed the circuits in use, by their places in the layout.
    fn compartments(&self) -> BTreeSet<(usize, usize)> {
        let circuits = self.circuits.iter();
        circuits
            .filter_map(|circuit| self.network().circuit(*circuit).compartment)
            .collect()
    }

    /// The kinds of booster on the cylinders in use, each once.
    fn boosters(&self) -> impl Iterator<Item = BoosterKind> {
        let kinds = BoosterKind::ALL.iter().copied();
        kinds.filter(|kind| self.has_booster(*kind))
    }

    fn has_booster(&self, kind: BoosterKind) -> bool {
        self.cylinders_in_use().into_iter().any(|index| {
            self.network().layout().cylinders[index]
                .booster
                .as_ref()
                .is_some_and(|booster| booster.kind == kind)
        })
    }

    /// Whether a tandem cylinder has a circuit that stays shut while the
    /// other is bled, or both in turn: its warning switch may trip.
    fn has_tandem(&self) -> bool {
        self.cylinders_in_use()
            .into_iter()
            .any(|index| self.network().layout().cylinders[index].kind == CylinderKind::Tandem)
    }

    /// Cylinders that were dry inside and are bled on the bench: those to be
    /// bled there now, and those that must have been, since a screw behind
    /// them is done.
    fn dry_cylinders(&self) -> [BTreeSet<usize>; 2] {
        let mut dry = self.request.opened_cylinders();
        if self.purpose() == Purpose::Fill {
            dry.extend(self.cylinders_in_use());
        }
        let network = self.network();
        let done: BTreeSet<usize> = (self.request.done.iter())
            .filter_map(|screw| network.screw_place(*screw).circuit)
            .map(|circuit| network.circuit(circuit).cylinder)
            .collect();
        let (done, dry) = dry.into_iter().partition(|index| done.contains(index));
        [dry, done]
    }

    /// What stores pressure, by name, with the maker's routine if given.
    fn pressure_stores(&self) -> Vec<(&'n str, Option<&'n str>)> {
        pressure_stores(self.network())
    }
}

/// Parts and cylinders with a pressure accumulator, by name.
pub fn pressure_stores(network: &Network) -> Vec<(&str, Option<&str>)> {
    let layout = network.layout();
    let parts = layout.parts.iter().filter_map(|part| {
        let store = part.accumulator.as_ref()?;
        Some((part.id.as_str(), store.routine.as_deref()))
    });
    let cylinders = layout.cylinders.iter().filter_map(|cylinder| {
        let store = cylinder.booster.as_ref()?.accumulator.as_ref()?;
        Some((cylinder.id.as_str(), store.routine.as_deref()))
    });
    let mut stores: Vec<_> = parts.chain(cylinders).collect();
    stores.sort_unstable();
    stores
}
