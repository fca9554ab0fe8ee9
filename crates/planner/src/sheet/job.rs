//! What a job has of its own: long standing, a clutch, a motorcycle, a trailer.

use super::Sheet;
use crate::build::Pedal;
use crate::options::Method;
use crate::plan::{Before, Fed, Look, Made, Standing, Worked};
use bleedwright_network::{
    BrakeKind, CircuitId, Control, Cylinder, Network, PartKind, Wheel, Works,
};
use std::collections::{BTreeMap, BTreeSet};

impl<'n> Sheet<'_, 'n> {
    pub(super) fn standing(&self) -> Standing {
        let circuits = self.network().circuits();
        let mut wheels = circuits.flat_map(|(_, circuit)| circuit.wheels.iter());
        if self.coupler().is_some() {
            Standing::TrailerOnStands
        } else if self.has_axles() {
            if self.has_brakes() {
                Standing::CarOnStands
            } else {
                Standing::WheelsOn
            }
        } else if self.has_brakes() || wheels.next().is_some() {
            Standing::MotorcycleOnStand
        } else {
            Standing::WheelsOn
        }
    }

    pub(super) fn fed(&self) -> Fed {
        Fed {
            has_discs: self.has_calipers(),
            has_drums: self.has_drums(),
            has_clutch: self.has_clutch(),
        }
    }

    /// What works the circuits of this purpose, by the names of the cylinders.
    pub(super) fn worked(&self, purpose: Works) -> Vec<Worked> {
        let network = self.network();
        let circuits = self.circuits.iter();
        worked_of(
            network,
            circuits.filter(|circuit| network.circuit(**circuit).purpose == purpose),
        )
    }

    /// The kinds of what works the circuits, each once.
    pub(super) fn controls(&self) -> Vec<Control> {
        let layout = self.network().layout();
        let used = self.cylinders_in_use();
        let used: Vec<Control> = (used.into_iter())
            .map(|index| layout.cylinders[index].control)
            .collect();
        let all = Control::ALL.iter().copied();
        all.filter(|control| used.contains(control)).collect()
    }

    /// The slave cylinders of the clutch, by name.
    pub(super) fn slaves(&self) -> Vec<String> {
        let is_slave = |kind: &PartKind| matches!(kind, PartKind::Brake(brake) if brake.kind == BrakeKind::ClutchSlave);
        let slaves = self.parts.iter().filter(|part| is_slave(&part.kind));
        slaves.map(|part| part.id.clone()).collect()
    }

    /// What was opened beside the screws, by name.
    pub(super) fn joints(&self) -> Vec<String> {
        let request = self.request;
        let names = request.opened.iter().map(|target| request.name_of(target));
        let names: BTreeSet<String> = names.map(str::to_owned).collect();
        names.into_iter().collect()
    }

    /// The cylinder that a coupler pushes.
    fn coupler(&self) -> Option<&'n Cylinder> {
        let mut cylinders = self.cylinders_worked_by(Control::Coupler);
        cylinders.next()
    }

    fn cylinders_worked_by(&self, control: Control) -> impl Iterator<Item = &'n Cylinder> {
        let layout = self.network().layout();
        let used = self.cylinders_in_use().into_iter();
        used.map(|index| &layout.cylinders[index])
            .filter(move |cylinder| cylinder.control == control)
    }
}

fn worked_of<'c>(network: &Network, circuits: impl Iterator<Item = &'c CircuitId>) -> Vec<Worked> {
    let each = circuits.map(|circuit| {
        let name = Pedal::of(network, *circuit).cylinders(network);
        (name, network.cylinder_of(*circuit).control)
    });
    let each: BTreeMap<Vec<String>, Control> = each.collect();
    each.into_iter()
        .map(|(cylinders, control)| Worked { control, cylinders })
        .collect()
}

/// What stood for long is looked at before anything is poured or pressed.
pub(super) fn laid_up(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    if sheet.request.options.is_laid_up {
        let freed = Before::Look(Look::Freed(sheet.fed()));
        list.extend([freed, Before::Look(Look::HosesByDate), Before::ShortStrokes]);
    }
}

/// Pressed without its place the slave's piston comes out.
pub(super) fn clutch(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let slaves = sheet.slaves();
    if !slaves.is_empty() {
        list.push(Before::SlavesInPlace(slaves));
    }
}

/// The reservoir of a lever stands level before it is opened; who shares a wheel is said.
pub(super) fn bar(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    if sheet.standing() != Standing::MotorcycleOnStand {
        return;
    }
    let names = on_the_bar(sheet).into_iter();
    let names: Vec<String> = names.map(|cylinder| cylinder.id.clone()).collect();
    if !names.is_empty() {
        list.push(Before::BarTurned(names));
    }
    let linked = linked(sheet);
    if !linked.is_empty() {
        list.push(Before::Linked(linked));
    }
}

/// Air climbs to the lever, the highest point of its brake. By the other methods the lever is left alone, and nobody holds
/// pressure on the open banjo.
pub(super) fn banjo(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    if sheet.standing() != Standing::MotorcycleOnStand || sheet.method() != Method::Pedal {
        return;
    }
    let without_screw = on_the_bar(sheet).into_iter();
    for cylinder in without_screw.filter(|cylinder| cylinder.screws.is_empty()) {
        list.push(Before::Made(Made::BanjoFirst(cylinder.id.clone())));
    }
}

/// The cylinders of hand levers, by name.
fn on_the_bar<'n>(sheet: &Sheet<'_, 'n>) -> Vec<&'n Cylinder> {
    let mut cylinders: Vec<&Cylinder> = sheet.cylinders_worked_by(Control::HandLever).collect();
    cylinders.sort_by(|a, b| a.id.cmp(&b.id));
    cylinders
}

/// Pedals and levers whose circuits brake the front wheel and the rear one.
fn linked(sheet: &Sheet<'_, '_>) -> Vec<Worked> {
    let network = sheet.network();
    let mut linked = sheet.worked(Works::Brake);
    linked.retain(|worked| {
        let of_it = network
            .circuits()
            .filter(|(id, _)| Pedal::of(network, *id).cylinders(network) == worked.cylinders);
        let wheels: BTreeSet<Wheel> = of_it
            .flat_map(|(_, circuit)| circuit.wheels.iter().copied())
            .collect();
        [Wheel::Front, Wheel::Rear]
            .iter()
            .all(|wheel| wheels.contains(wheel))
    });
    linked
}

/// A coupler brakes only when its shaft may go in; tried while the wheels still stand on the ground.
pub(super) fn trailer(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let Some(coupler) = sheet.coupler() else {
        return;
    };
    list.push(Before::Made(Made::BreakawayOff));
    list.push(Before::Made(Made::ReverseLockSet(coupler.id.clone())));
}

/// Nobody's foot reaches a coupler.
pub(super) fn shaft(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    if let (Some(coupler), Method::Pedal) = (sheet.coupler(), sheet.method()) {
        list.push(Before::ShaftByLever(coupler.id.clone()));
    }
}
