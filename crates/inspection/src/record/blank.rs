//! The blank record of a vehicle, from its layout.

use super::{
    Answer, BrakeReadings, BrakeType, CompartmentReadings, ControlReadings, ControlType, Entry,
    Measured, Record, ScrewReadings,
};
use bleedwright_network::{BrakeKind, Control, Cylinder, Layout, Network, Part, PartKind, Purpose};
use std::collections::BTreeSet;

/// A record in which every brake, screw and compartment of the layout stands and nothing was checked yet. The torques
/// wanted and the fluid are taken from the layout.
pub fn blank_record(network: &Network) -> Record {
    let layout = network.layout();
    let mut record = Record::default();
    record.vehicle.name.clone_from(&layout.name);
    record.vehicle.fluid = layout.fluid.map_or(Entry::NotChecked, Entry::Found);
    record.controls = controls(layout);
    record.brakes = brakes(&layout.parts);
    record.screws = network
        .screws()
        .map(|(id, _)| {
            let screw = network.screw(id);
            let wanted = screw.torque.zip(screw.torque_text.clone());
            ScrewReadings {
                name: screw.id.clone(),
                torque_wanted: wanted.map_or(Entry::NotChecked, |(bounds, text)| {
                    Entry::Found(Measured { bounds, text })
                }),
                ..ScrewReadings::default()
            }
        })
        .collect();
    let compartments = layout.reservoirs.iter().flat_map(|reservoir| {
        reservoir
            .compartments
            .iter()
            .map(|compartment| compartment.id.clone())
    });
    record.compartments = compartments
        .map(|name| CompartmentReadings {
            name,
            ..CompartmentReadings::default()
        })
        .collect();
    let vehicle = &mut record.vehicle;
    vehicle.controls = record
        .controls
        .iter()
        .map(|control| control.name.clone())
        .collect();
    vehicle.brakes = record
        .brakes
        .iter()
        .map(|brake| brake.name.clone())
        .collect();
    vehicle.screws = record
        .screws
        .iter()
        .map(|screw| screw.name.clone())
        .collect();
    vehicle.compartments = record
        .compartments
        .iter()
        .map(|compartment| compartment.name.clone())
        .collect();
    record
}

/// One entry for each pedal and lever that works brakes. A balance bar makes one pedal of two cylinders.
fn controls(layout: &Layout) -> Vec<ControlReadings> {
    let pushed_beside_another = |cylinder: &Cylinder| {
        layout.balance_bars.iter().any(|bar| {
            let behind_the_first = bar.cylinders.iter().skip(1);
            behind_the_first
                .into_iter()
                .any(|name| *name == cylinder.id)
        })
    };
    let brakes: Vec<&Cylinder> = layout
        .cylinders
        .iter()
        .filter(|cylinder| cylinder.purpose == Purpose::Brake && !pushed_beside_another(cylinder))
        .collect();
    let word = |cylinder: &Cylinder| match cylinder.control {
        Control::Pedal => "pedal",
        Control::HandLever => "hand lever",
    };
    brakes
        .iter()
        .map(|cylinder| {
            let same = brakes
                .iter()
                .filter(|other| other.control == cylinder.control);
            let is_boosted = cylinder.booster.is_some();
            ControlReadings {
                name: if same.count() == 1 {
                    word(cylinder).to_owned()
                } else {
                    format!("{} {}", cylinder.id, word(cylinder))
                },
                kind: Entry::Found(match cylinder.control {
                    Control::Pedal => ControlType::Pedal,
                    Control::HandLever => ControlType::HandLever,
                }),
                booster: Entry::Found(if is_boosted { Answer::Yes } else { Answer::No }),
                ..ControlReadings::default()
            }
        })
        .collect()
}

/// One entry for each caliper, and one for each drum, in which two cylinders may work.
fn brakes(parts: &[Part]) -> Vec<BrakeReadings> {
    let calipers_on = |part: &Part| {
        let same = |other: &&Part| other.wheel == part.wheel && is_caliper(other);
        parts.iter().filter(same).count()
    };
    let mut drums = BTreeSet::new();
    parts
        .iter()
        .filter(|part| part.kind.is_wheel_brake())
        .filter_map(|part| {
            let kind = if is_caliper(part) {
                BrakeType::Disc
            } else {
                BrakeType::Drum
            };
            let has_the_wheel_alone = kind == BrakeType::Drum || calipers_on(part) == 1;
            let name = match part.wheel {
                Some(wheel) if has_the_wheel_alone => wheel.text().to_owned(),
                _ => part.id.clone(),
            };
            let is_seen = kind == BrakeType::Drum && !drums.insert(name.clone());
            (!is_seen).then(|| BrakeReadings {
                name,
                kind: Entry::Found(kind),
                ..BrakeReadings::default()
            })
        })
        .collect()
}

fn is_caliper(part: &Part) -> bool {
    matches!(&part.kind, PartKind::Brake(brake) if matches!(brake.kind, BrakeKind::Caliper { .. }))
}
