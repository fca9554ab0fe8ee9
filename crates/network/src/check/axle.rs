//! Left against right: brakes that were forgotten, and figures of one axle that do not go together.

use crate::code::Code;
use crate::finding::Finding;
use crate::graph::Owner;
use crate::layout::{Part, PartKind, Screw, Side, Wheel, Works, bore_area};
use crate::network::{Circuit, CircuitId, Network};
use crate::place::Place;
use std::collections::{BTreeMap, BTreeSet};
use uom::si::area::square_millimeter;
use uom::si::f64::Torque;
use uom::si::torque::newton_meter;

/// How far the piston areas of two wheels of one axle may differ, in percent of the larger.
///
/// ASSUMPTION: sizes written in inches and in millimetres differ by less, and the next size of a maker by twice as much.
const SAME_AREA_PERCENT: f64 = 5.0;

/// How many times the torque of one screw another one of its axle may have.
///
/// ASSUMPTION: two screw sizes on one axle differ by less.
const SAME_TORQUE_TIMES: f64 = 2.0;

/// Torques of bleed screws.
///
/// ASSUMPTION: common practice, no source: threads from M6 and 1/4 in to M12, rounded outward.
pub const USUAL_TORQUE_NM: [f64; 2] = [3.0, 20.0];

/// The brakes that name a wheel, by wheel, each with its place in the list of parts.
type Braked<'n> = BTreeMap<Wheel, Vec<(usize, &'n Part)>>;

fn braked(network: &Network) -> Braked<'_> {
    let mut braked = Braked::new();
    for (index, part) in network.layout.parts.iter().enumerate() {
        if let Some(wheel) = part.wheel.filter(|_| part.kind.is_wheel_brake()) {
            braked.entry(wheel).or_default().push((index, part));
        }
    }
    braked
}

/// Wheels whose partner has no brake, on a vehicle that brakes wheels on both sides: one with a sidecar does not.
fn without_partner(braked: &Braked<'_>) -> Vec<Wheel> {
    let has = |side| braked.keys().any(|wheel| wheel.side() == Some(side));
    if !(has(Side::Left) && has(Side::Right)) {
        return Vec::new();
    }
    let is_alone = |wheel: &Wheel| wheel.partner().is_some_and(|it| !braked.contains_key(&it));
    braked.keys().copied().filter(is_alone).collect()
}

pub(crate) fn partners(network: &Network, findings: &mut Vec<Finding>) {
    let braked = braked(network);
    for wheel in without_partner(&braked) {
        let (index, part) = braked[&wheel][0];
        let partner = wheel.partner().map_or("", Wheel::text);
        findings.push(Finding::new(
            Code::NoPartner,
            Place::item("parts", index).field("wheel"),
            format!(
                "`{}` brakes the {} wheel, but nothing brakes the {partner} one",
                part.id,
                wheel.text()
            ),
            "add the brake that is missing with its line, or correct the wheel; leave it if the vehicle has none there",
        ));
    }
}

/// Circuits that end at one wheel of a vehicle with wheels on both sides.
pub(crate) fn one_brake(network: &Network, findings: &mut Vec<Finding>) {
    let braked = braked(network);
    let told: BTreeSet<Wheel> = without_partner(&braked).into_iter().collect();
    for (id, circuit) in network.circuits() {
        let [wheel] = circuit.wheels[..] else {
            continue;
        };
        let Some(partner) = wheel.partner() else {
            continue;
        };
        if circuit.purpose != Works::Brake
            || told.contains(&wheel)
            || !braked.contains_key(&partner)
            || brakes_of(network, id).any(|part| part.wheel.is_none())
            || is_steered_by(network, circuit, partner)
        {
            continue;
        }
        let (index, part) = braked[&wheel][0];
        findings.push(Finding::new(
            Code::OneBrake,
            Place::item("parts", index).field("wheel"),
            format!(
                "the circuit {} works the {} wheel alone, by `{}`",
                circuit.name,
                wheel.text(),
                part.id
            ),
            "follow its line back to the cylinder for a tee that was left out; leave it if the circuit has no second brake",
        ));
    }
}

fn brakes_of(network: &Network, circuit: CircuitId) -> impl Iterator<Item = &Part> {
    let owners = network.cells_of(circuit).iter();
    let parts = owners.filter_map(|cell| network.part(network.cell(*cell).owner));
    parts.filter(|part| part.kind.is_wheel_brake())
}

/// Whether the partner is alone on a cylinder of its own, as on a vehicle that is steered by its brakes.
fn is_steered_by(network: &Network, circuit: &Circuit, partner: Wheel) -> bool {
    let mut circuits = network.circuits();
    circuits.any(|(_, other)| other.cylinder != circuit.cylinder && other.wheels == [partner])
}

/// Pistons of another size on the other side: the vehicle would pull to one side.
pub(crate) fn pistons(network: &Network, findings: &mut Vec<Finding>) {
    let braked = braked(network);
    for (wheel, brakes) in &braked {
        let partner = wheel.partner().filter(|_| wheel.side() == Some(Side::Left));
        let Some((other, others)) = partner.and_then(|wheel| braked.get_key_value(&wheel)) else {
            continue;
        };
        let [own, its] = [brakes, others]
            .map(|brakes| brakes.iter().map(|(_, part)| area_mm2(part)).sum::<f64>());
        let least = own.max(its) * (1.0 - SAME_AREA_PERCENT / 100.0);
        if own.min(its) >= least {
            continue;
        }
        let (index, part) = brakes[0];
        let (other_index, other_part) = others[0];
        findings.push(
            Finding::new(
                Code::UnequalPistons,
                Place::item("parts", index).field("kind"),
                format!(
                    "the pistons of the {} wheel have {own:.0} mm2 ({}), those of the {} one {its:.0} mm2 ({})",
                    wheel.text(),
                    bores(brakes),
                    other.text(),
                    bores(others)
                ),
                format!(
                    "measure `{}` and `{}`: unequal pistons pull to one side",
                    part.id, other_part.id
                ),
            )
            .allowing(format!(
                "areas that differ by less than {SAME_AREA_PERCENT:.0} % (assumption)"
            ))
            .also_at(
                Place::item("parts", other_index).field("kind"),
                "the other side",
            ),
        );
    }
}

fn area_mm2(part: &Part) -> f64 {
    let PartKind::Brake(brake) = &part.kind else {
        return 0.0;
    };
    let pistons = brake.cavities.iter().flat_map(|cavity| &cavity.pistons);
    pistons
        .map(|piston| {
            let area = bore_area(piston.bore).nominal.get::<square_millimeter>();
            f64::from(piston.count) * area
        })
        .sum()
}

/// `2 x 45 mm, 34 mm`.
fn bores(brakes: &[(usize, &Part)]) -> String {
    use uom::si::length::millimeter;
    let mut bores = Vec::new();
    for (_, part) in brakes {
        let PartKind::Brake(brake) = &part.kind else {
            continue;
        };
        for piston in brake.cavities.iter().flat_map(|cavity| &cavity.pistons) {
            let bore = (piston.bore.nominal.get::<millimeter>() * 10.0).round() / 10.0;
            bores.push(match piston.count {
                1 => format!("{bore} mm"),
                count => format!("{count} x {bore} mm"),
            });
        }
    }
    bores.join(", ")
}

/// Torques that are unusual for a bleed screw, or of two screws of one axle that do not go together.
pub(crate) fn torques(network: &Network, findings: &mut Vec<Finding>) {
    let mut axles: BTreeMap<u8, Vec<(Place, &Screw, Torque)>> = BTreeMap::new();
    for (id, at) in network.screws() {
        let screw = network.screw(id);
        let Some(torque) = screw.torque.map(|torque| torque.nominal) else {
            continue;
        };
        let place = network.place_of_screw(id).field("torque");
        let nm = torque.get::<newton_meter>();
        let [least, most] = USUAL_TORQUE_NM;
        if !(least..=most).contains(&nm) {
            findings.push(
                Finding::new(
                    Code::TorqueUnusual,
                    place.clone(),
                    format!("{nm:.1} N m is unusual for the bleed screw `{}`", screw.id),
                    "look it up in the maker's manual, whose figure governs: the screw shears, or it leaks",
                )
                .allowing(format!(
                    "usually {least:.0} to {most:.0} N m (common practice, no source)"
                )),
            );
        } else if let Owner::Part(index, _) = at.owner
            && let Some(wheel) = network.layout.parts[index].wheel
        {
            axles
                .entry(wheel.axle())
                .or_default()
                .push((place, screw, torque));
        }
    }
    for mut screws in axles.into_values() {
        screws.sort_by(|(.., a), (.., b)| a.value.total_cmp(&b.value));
        let (Some((low_place, low, least)), Some((place, screw, most))) =
            (screws.first(), screws.last())
        else {
            continue;
        };
        if *most > *least * SAME_TORQUE_TIMES {
            findings.push(
                Finding::new(
                    Code::TorqueUnusual,
                    place.clone(),
                    format!(
                        "the bleed screw `{}` is tightened with {:.1} N m, `{}` of the same axle with {:.1} N m",
                        screw.id,
                        most.get::<newton_meter>(),
                        low.id,
                        least.get::<newton_meter>()
                    ),
                    "look both up in the maker's manual, whose figures govern",
                )
                .allowing(format!(
                    "up to {SAME_TORQUE_TIMES:.0} times as much on one axle (assumption)"
                ))
                .also_at(low_place.clone(), "the other screw"),
            );
        }
    }
}
