//! The blank record of a job on a vehicle, from its layout.

use super::{
    Answer, BrakeReadings, BrakeType, CompartmentReadings, ControlReadings, Entry, Measured,
    Record, ScrewReadings, StepReadings, TaskReadings,
};
use bleedwright_network::{
    BrakeKind, Cylinder, Layout, Network, Owner, Part, PartKind, ScrewId, Wheel, Works,
};
use std::collections::BTreeSet;

/// What is done on the vehicle: nobody is asked for more, and nothing less is enough.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Job {
    /// The vehicle's registration, where it is known.
    pub registration: String,
    /// The screws that are opened, now or earlier.
    pub screws: Vec<ScrewId>,
    /// The steps of the plan.
    pub steps: Vec<StepReadings>,
    /// What it leaves to be finished.
    pub tasks: Vec<TaskReadings>,
    /// Parts and lines that are new.
    pub replaced: Vec<String>,
    /// Compartments that ran dry.
    pub ran_dry: Vec<String>,
    /// The screws that were finished earlier.
    pub bled_earlier: Vec<String>,
}

/// A record in which every brake and screw of the job, every control and every compartment stands, and nothing was
/// checked yet. The torques wanted and the fluid are taken from the layout.
pub fn blank_record(network: &Network, job: &Job) -> Record {
    let layout = network.layout();
    let mut record = Record::default();
    record.vehicle.name.clone_from(&layout.name);
    record.vehicle.registration.clone_from(&job.registration);
    record.vehicle.fluid = layout.fluid.map_or(Entry::NotChecked, Entry::Found);
    record.controls = controls(layout);
    record.brakes = brakes(&layout.parts, &worked_on(network, &job.screws));
    record.screws = network
        .screws()
        .filter(|(id, _)| job.screws.contains(id))
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
    record.steps.clone_from(&job.steps);
    record.tasks.clone_from(&job.tasks);
    record.work.replaced.clone_from(&job.replaced);
    record.work.ran_dry.clone_from(&job.ran_dry);
    record.work.bled_earlier.clone_from(&job.bled_earlier);
    let vehicle = &mut record.vehicle;
    vehicle.controls = names(&record.controls, |it| &it.name);
    vehicle.brakes = names(&record.brakes, |it| &it.name);
    vehicle.screws = names(&record.screws, |it| &it.name);
    vehicle.compartments = names(&record.compartments, |it| &it.name);
    vehicle.steps = names(&record.steps, |it| &it.name);
    vehicle.tasks = names(&record.tasks, |it| &it.name);
    record
}

fn names<T>(items: &[T], name: impl Fn(&T) -> &String) -> Vec<String> {
    items.iter().map(|item| name(item).clone()).collect()
}

/// The brakes whose screws are opened: by part, and by wheel, since a drum may have two cylinders and one screw.
fn worked_on(network: &Network, screws: &[ScrewId]) -> BTreeSet<usize> {
    let parts = &network.layout().parts;
    let owners: BTreeSet<usize> = screws
        .iter()
        .filter_map(|screw| match network.screw_place(*screw).owner {
            Owner::Part(index, _) => Some(index),
            Owner::Cylinder(..) => None,
        })
        .collect();
    let wheels: BTreeSet<Wheel> = owners
        .iter()
        .filter_map(|&index| parts[index].wheel)
        .collect();
    (0..parts.len())
        .filter(|index| {
            owners.contains(index)
                || parts[*index]
                    .wheel
                    .is_some_and(|wheel| wheels.contains(&wheel))
        })
        .collect()
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
        .filter(|cylinder| cylinder.purpose == Works::Brake && !pushed_beside_another(cylinder))
        .collect();
    brakes
        .iter()
        .map(|cylinder| {
            let same = brakes
                .iter()
                .filter(|other| other.control == cylinder.control);
            let is_boosted = cylinder.booster.is_some();
            let word = cylinder.control.word().replace('_', " ");
            ControlReadings {
                name: if same.count() == 1 {
                    word
                } else {
                    format!("{} {word}", cylinder.id)
                },
                kind: Entry::Found(cylinder.control),
                booster: Entry::Found(if is_boosted { Answer::Yes } else { Answer::No }),
                ..ControlReadings::default()
            }
        })
        .collect()
}

/// One entry for each caliper that was worked on, and one for each drum, in which two cylinders may work.
fn brakes(parts: &[Part], worked_on: &BTreeSet<usize>) -> Vec<BrakeReadings> {
    let calipers_on = |part: &Part| {
        let same = |other: &&Part| other.wheel == part.wheel && is_caliper(other);
        parts.iter().filter(same).count()
    };
    let mut drums = BTreeSet::new();
    parts
        .iter()
        .enumerate()
        .filter(|(index, part)| part.kind.is_wheel_brake() && worked_on.contains(index))
        .filter_map(|(_, part)| {
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
