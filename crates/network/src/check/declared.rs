//! What the file declares, held against what the pipework says.

use crate::code::Code;
use crate::finding::Finding;
use crate::graph::Owner;
use crate::guess::{Guesses, ticked};
use crate::layout::{
    Control, Cylinder, CylinderKind, Level, PartKind, Side, Steering, Wheel, Works,
};
use crate::network::Network;
use crate::place::{PathStep, Place};
use std::collections::{HashMap, HashSet};
use uom::si::f64::Length;
use uom::si::length::millimeter;
use uom::si::ratio::ratio;

/// A wheel that contradicts the part's position.
pub(crate) fn positions(network: &Network, findings: &mut Vec<Finding>) {
    let clearly = Length::new::<millimeter>(50.0);
    for (index, part) in network.layout.parts.iter().enumerate() {
        let (Some(wheel), Some(position)) = (part.wheel, part.position) else {
            continue;
        };
        let is_wrong = match wheel.side() {
            Some(Side::Left) => position.y.nominal < -clearly,
            Some(Side::Right) => position.y.nominal > clearly,
            None => false,
        };
        if is_wrong {
            findings.push(
                Finding::new(
                    Code::WheelContradicted,
                    Place::item("parts", index).field("wheel"),
                    format!(
                        "`{}` is said to be at the {} wheel, but its y is {:.0} mm",
                        part.id,
                        wheel.text(),
                        position.y.nominal.get::<millimeter>()
                    ),
                    "y counts to the left of the direction of travel (ISO 8855)",
                )
                .also_at(
                    Place::item("parts", index).field("position"),
                    "its position",
                ),
            );
        }
    }
}

/// Two brakes that name one wheel, and nothing says which is which: more often
/// a line that was copied than a second caliper. Each wheel is told once.
pub(crate) fn brakes_of_one_wheel(network: &Network, findings: &mut Vec<Finding>) {
    let mut first_at: HashMap<(Wheel, Option<Level>), usize> = HashMap::new();
    let mut told: HashSet<Wheel> = HashSet::new();
    for (index, part) in network.layout.parts.iter().enumerate() {
        let Some(wheel) = part.wheel.filter(|_| part.kind.is_wheel_brake()) else {
            continue;
        };
        // A motorcycle's wheel has a caliper on either side, and a trailer
        // several wheels on one.
        if wheel.side().is_none() || matches!(wheel, Wheel::TrailerLeft | Wheel::TrailerRight) {
            continue;
        }
        let first = *first_at.entry((wheel, part.place)).or_insert(index);
        if first != index && told.insert(wheel) {
            findings.push(
                Finding::new(
                    Code::OneWheelTwice,
                    Place::item("parts", index).field("wheel"),
                    format!(
                        "`{}` and `{}` both brake the {} wheel",
                        network.layout.parts[first].id,
                        part.id,
                        wheel.text()
                    ),
                    "correct the wheel of one; if both sit there, write `place: upper` and \
                     `place: lower`",
                )
                .also_at(
                    Place::item("parts", first).field("wheel"),
                    "the first one is here",
                ),
            );
        }
    }
}

/// Wheels with a side where a hand lever brakes and nobody sits left or right:
/// a motorcycle's two discs are often written down as two wheels.
pub(crate) fn car_wheels(network: &Network, findings: &mut Vec<Finding>) {
    let layout = &network.layout;
    let is_lever = |cylinder: &Cylinder| {
        cylinder.control == Control::HandLever && cylinder.purpose == Works::Brake
    };
    if layout.steering != Some(Steering::Centre) || !layout.cylinders.iter().any(is_lever) {
        return;
    }
    let is_of_a_car = |wheel: Wheel| {
        let is_of_trailer = matches!(wheel, Wheel::TrailerLeft | Wheel::TrailerRight);
        wheel.side().is_some() && !is_of_trailer
    };
    let place = |index| Place::item("parts", index).field("wheel");
    let mut brakes = layout.parts.iter().enumerate().filter_map(|(index, part)| {
        let wheel = part.wheel.filter(|wheel| is_of_a_car(*wheel))?;
        part.kind.is_wheel_brake().then_some((index, wheel))
    });
    let Some((first, wheel)) = brakes.next() else {
        return;
    };
    let finding = Finding::new(
        Code::CarWheels,
        place(first),
        format!(
            "`{}` is at the {} wheel, but this vehicle has a hand lever and its steering in the \
             centre, as a motorcycle has",
            layout.parts[first].id,
            wheel.text()
        ),
        "a motorcycle's wheels are `front` and `rear`, for two discs of one wheel as well; leave \
         it if the vehicle has a wheel on each side",
    );
    findings.push(brakes.fold(finding, |finding, (index, _)| {
        finding.also_at(place(index), "and here")
    }));
}

/// A brake fed in series sits on the same wheel as the one before it.
pub(crate) fn series_wheels(network: &Network, findings: &mut Vec<Finding>) {
    // The last brake at or before each cell on its way from the chamber.
    let mut brake_at: Vec<Option<usize>> = vec![None; network.cells.graph.node_count()];
    for (circuit, _) in network.circuits() {
        for cell in network.cells_of(circuit) {
            let before = network
                .step_to(*cell)
                .and_then(|(parent, _)| brake_at[parent.index()]);
            brake_at[cell.index()] = before;
            let Owner::Part(index, _) = network.cell(*cell).owner else {
                continue;
            };
            let part = &network.layout.parts[index];
            if !matches!(part.kind, PartKind::Brake(_)) {
                continue;
            }
            brake_at[cell.index()] = Some(index);
            if let Some(before) = before.filter(|before| *before != index) {
                findings.extend(two_wheels(network, before, index));
            }
        }
    }
}

fn two_wheels(network: &Network, before: usize, index: usize) -> Option<Finding> {
    let (part, other) = (&network.layout.parts[index], &network.layout.parts[before]);
    let wheel = part.wheel?;
    if other.wheel? == wheel {
        return None;
    }
    Some(
        Finding::new(
            Code::WheelContradicted,
            Place::item("parts", index).field("wheel"),
            format!(
                "`{}` at the {} wheel is fed through `{}` of another wheel",
                part.id,
                wheel.text(),
                other.id
            ),
            "correct the wheel, or the line that joins the two; an axle is fed by a tee",
        )
        .also_at(
            Place::item("parts", before).field("wheel"),
            "the other wheel",
        ),
    )
}

/// How often an order may open the screws of a layout in all.
///
/// ASSUMPTION: ten times each; routines that are known open a screw twice.
pub fn most_visits(screws: usize) -> usize {
    screws.max(1).saturating_mul(10)
}

/// The maker's order may only name screws that exist; whether it is a safe
/// order is for the planner to say.
pub(crate) fn maker_order(network: &Network, findings: &mut Vec<Finding>) {
    let Some(order) = &network.layout.maker_order else {
        return;
    };
    let names = || {
        network
            .screws()
            .map(|(id, _)| network.screw(id).id.as_str())
    };
    let known: HashSet<&str> = names().collect();
    let most = most_visits(network.screws().count());
    if order.len() > most {
        findings.push(
            Finding::new(
                Code::Implausible,
                Place::Path(vec![PathStep::Field("maker_order")]),
                format!("the maker's order opens screws {} times", order.len()),
                "copy it from the manual: each screw once, or twice where it is bled again",
            )
            .allowing(format!("up to {most} times for this layout")),
        );
        return;
    }
    let mut guesses = Guesses::new();
    for (nth, name) in order.iter().enumerate() {
        if !known.contains(name.as_str()) {
            findings.push(Finding::new(
                Code::UnknownScrew,
                Place::Path(vec![PathStep::Field("maker_order"), PathStep::Item(nth)]),
                format!("the maker's order names `{name}`, but no screw has that name"),
                guesses.suggest(name, || names().collect()),
            ));
        }
    }
}

/// A bar shares one pedal between two brake cylinders, and no cylinder hangs
/// on two bars.
pub(crate) fn balance_bars(network: &Network, findings: &mut Vec<Finding>) {
    let layout = &network.layout;
    let cylinder = |name: &str| layout.cylinders.iter().find(|cylinder| cylinder.id == name);
    let can_hang = |name: &str| {
        cylinder(name).is_some_and(|cylinder| {
            cylinder.kind == CylinderKind::Single && cylinder.purpose == Works::Brake
        })
    };
    let mut bars: HashMap<&str, usize> = HashMap::new();
    for (index, bar) in layout.balance_bars.iter().enumerate() {
        let place = Place::item("balance_bars", index).field("cylinders");
        let are_two = match bar.cylinders.as_slice() {
            [a, b] => a != b && can_hang(a) && can_hang(b),
            _ => false,
        };
        if !are_two {
            let names = layout.cylinders.iter().map(|cylinder| cylinder.id.as_str());
            let names: Vec<&str> = names.filter(|name| can_hang(name)).collect();
            let help = if names.len() < 2 {
                "take the bar out: it needs two single brake cylinders".to_owned()
            } else {
                format!("name two different ones of {}", ticked(names, ", "))
            };
            findings.push(
                Finding::new(
                    Code::BalanceBar,
                    place,
                    format!("the balance bar joins {}", listed(&bar.cylinders)),
                    help,
                )
                .allowing("two different single brake cylinders"),
            );
            continue;
        }
        let twice = bar
            .cylinders
            .iter()
            .find_map(|name| Some((name, *bars.get(name.as_str())?)));
        if let Some((name, first)) = twice {
            findings.push(
                Finding::new(
                    Code::BalanceBar,
                    place,
                    format!("`{name}` hangs on two balance bars"),
                    "name each cylinder in one bar only",
                )
                .also_at(Place::item("balance_bars", first), "the other bar"),
            );
        }
        let ratios: Vec<_> = (bar.cylinders.iter().filter_map(|name| cylinder(name)))
            .map(|cylinder| cylinder.pedal_ratio.bounds)
            .collect();
        if let [one, other] = ratios[..]
            && (one.low > other.high || other.low > one.high)
        {
            let place = Place::item("balance_bars", index).field("cylinders");
            let message = format!(
                "{} hang on one bar and have pedal ratios of {} and {}",
                listed(&bar.cylinders),
                one.nominal.get::<ratio>(),
                other.nominal.get::<ratio>()
            );
            let help = "one pedal has one ratio: measure it to the bar and write it for both";
            findings.push(
                Finding::new(Code::BarRatios, place, message, help).allowing("the same ratio"),
            );
        }
        bars.extend(bar.cylinders.iter().map(|name| (name.as_str(), index)));
    }
}

fn listed(names: &[String]) -> String {
    if names.is_empty() {
        "nothing".to_owned()
    } else {
        ticked(names.iter().map(String::as_str), " and ")
    }
}
