//! Parts that need attention before or during bleeding.

use crate::code::Code;
use crate::finding::Finding;
use crate::graph::Owner;
use crate::layout::{BrakeKind, Compartment, PartKind, ValveKind, Works, is_less};
use crate::network::{CircuitId, Element, Network};
use crate::place::{PathStep, Place};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::f64::{Pressure, Volume};
use uom::si::pressure::bar;
use uom::si::volume::milliliter;

/// What a residual valve may keep in a line to a disc brake.
///
/// ASSUMPTION: twice the 2 psi (0.14 bar) that is usual with discs, second-hand.
const MOST_KEPT_ON_DISC_BAR: f64 = 0.28;

/// A caliper whose fluid comes through a part, by name.
fn caliper_behind(network: &Network, part: usize) -> Option<&str> {
    let comes_through = |element: &Element| {
        matches!(element, Element::Cell(cell)
            if matches!(network.cell(*cell).owner, Owner::Part(owner, _) if owner == part))
    };
    network.screws().find_map(|(id, _)| {
        let brake = network.part(network.screw_place(id).owner)?;
        let is_caliper = matches!(
            &brake.kind,
            PartKind::Brake(brake) if matches!(brake.kind, BrakeKind::Caliper { .. })
        );
        (is_caliper && network.run(id).iter().any(comes_through)).then_some(brake.id.as_str())
    })
}

pub(crate) fn valves_and_units(network: &Network, findings: &mut Vec<Finding>) {
    for (index, part) in network.layout.parts.iter().enumerate() {
        let place = Place::item("parts", index);
        match &part.kind {
            PartKind::Valve(valve) if valve.kind == ValveKind::LoadSensing => {
                findings.push(Finding::new(
                    Code::SetLaden,
                    place,
                    format!(
                        "the load-sensing valve `{}` throttles the rear line when unladen",
                        part.id
                    ),
                    "tie its lever toward laden while bleeding, and take the tie off afterwards",
                ));
            }
            PartKind::Valve(valve) if valve.kind == ValveKind::Residual => {
                let holds = valve.holds.map_or(String::new(), |holds| {
                    format!(" (holds {:.2} bar)", holds.nominal.get::<bar>())
                });
                let help = "expect a spurt when a screw behind it is opened; bleeding by gravity \
                            may not open it";
                let kept = valve
                    .holds
                    .map_or(Pressure::default(), |holds| holds.nominal);
                let help = match caliper_behind(network, index) {
                    Some(caliper) if kept > Pressure::new::<bar>(MOST_KEPT_ON_DISC_BAR) => format!(
                        "{help}. So much makes the pads of `{caliper}` drag and run hot: about \
                         0.14 bar is usual with discs, and only where the master cylinder lies \
                         lower; check that the valve and its place are the maker's"
                    ),
                    _ => help.to_owned(),
                };
                findings.push(Finding::new(
                    Code::ResidualValve,
                    place,
                    format!(
                        "the residual valve `{}` keeps pressure in the line{holds}",
                        part.id
                    ),
                    help,
                ));
            }
            PartKind::AntiLock { circuits, routine } => {
                let trapped: f64 = circuits
                    .iter()
                    .map(|circuit| circuit.trapped.nominal.get::<milliliter>())
                    .sum();
                if trapped > 0.0 {
                    let routine = routine.as_deref().unwrap_or("the maker's manual has it");
                    findings.push(Finding::new(
                        Code::NeedsRoutine,
                        place,
                        format!(
                            "the anti-lock unit `{}` keeps {trapped:.1} ml behind its closed valves",
                            part.id
                        ),
                        format!(
                            "bleeding does not reach it: run the maker's routine if air or old \
                             fluid is in the unit, then bleed once more ({routine})"
                        ),
                    ));
                }
            }
            _ => {}
        }
        if part.accumulator.is_some() {
            stored_pressure(
                Place::item("parts", index).field("accumulator"),
                &part.id,
                findings,
            );
        }
    }
    for (index, cylinder) in network.layout.cylinders.iter().enumerate() {
        let has_store = cylinder
            .booster
            .as_ref()
            .is_some_and(|booster| booster.accumulator.is_some());
        if has_store {
            let place = Place::item("cylinders", index)
                .field("booster")
                .field("accumulator");
            stored_pressure(place, &cylinder.id, findings);
        }
    }
}

/// Valves that hold pressure back from front brakes alone.
pub(crate) fn limited_front_brakes(network: &Network, findings: &mut Vec<Finding>) {
    // Whether all brakes at or behind a cell are front ones; none without a brake.
    let mut are_front: Vec<Option<bool>> = vec![None; network.all_cells().count()];
    let add = |known: &mut Option<bool>, more: bool| *known = Some(known.unwrap_or(true) && more);
    let mut told: BTreeSet<usize> = BTreeSet::new();
    for (circuit, _) in network.circuits() {
        for cell in network.cells_of(circuit).iter().rev() {
            let owner = network.cell(*cell).owner;
            let part = network.part(owner);
            if let Some(brake) = part.filter(|part| matches!(part.kind, PartKind::Brake(_))) {
                let is_front = brake.wheel.is_some_and(|wheel| wheel.axle() == 0);
                add(&mut are_front[cell.index()], is_front);
            }
            let Some(here) = are_front[cell.index()] else {
                continue;
            };
            if let Some((parent, _)) = network.step_to(*cell) {
                add(&mut are_front[parent.index()], here);
            }
            if let (Owner::Part(index, _), Some(part), true) = (owner, part, here)
                && let PartKind::Valve(valve) = &part.kind
                && valve.kind.holds_rear_back()
                && told.insert(index)
            {
                findings.push(Finding::new(
                    Code::FrontLimited,
                    Place::item("parts", index).field("kind"),
                    format!(
                        "the {} `{}` holds pressure back from front brakes alone",
                        valve.kind.text(),
                        part.id
                    ),
                    "such a valve belongs to the rear brakes: follow its outlet on the vehicle, and correct the lines or \
                     the wheels behind it; leave it if the maker put it there",
                ));
            }
        }
    }
}

fn stored_pressure(place: Place, owner: &str, findings: &mut Vec<Finding>) {
    findings.push(Finding::new(
        Code::StoredPressure,
        place,
        format!("`{owner}` stores pressure: opening a screw on it injures"),
        "release it by the maker's routine, then plan with `--depressurised`",
    ));
}

pub(crate) fn shared_reservoirs(network: &Network, findings: &mut Vec<Finding>) {
    each_compartment(network, |place, compartment, fed| {
        let serves = |purpose| fed.iter().any(|id| network.circuit(*id).purpose == purpose);
        if serves(Works::Clutch) && serves(Works::Brake) {
            findings.push(Finding::new(
                Code::SharedReservoir,
                place.field("feeds"),
                format!(
                    "the compartment `{}` serves brakes and clutch",
                    compartment.id
                ),
                "bleeding the clutch lowers the brakes' level too, and air may have entered \
                 both if it ran dry",
            ));
        }
    });
}

pub(crate) fn small_reservoirs(network: &Network, findings: &mut Vec<Finding>) {
    each_compartment(network, |place, compartment, fed| {
        let usable = compartment.usable();
        for id in fed {
            // A balance bar draws for both of its circuits at once.
            let partner = network
                .bar_partner(*id)
                .filter(|partner| fed.contains(partner));
            let stroke: Volume = std::iter::once(*id)
                .chain(partner)
                .map(|id| network.chamber_of(id).contents().high)
                .fold(Volume::default(), |sum, stroke| sum + stroke);
            if usable > Volume::default() && is_less(usable, stroke) {
                findings.push(Finding::new(
                    Code::SmallReservoir,
                    place.clone(),
                    format!(
                        "one full stroke of {} ({:.1} ml) draws more than the {:.1} ml between \
                         the maximum and the lowest level allowed",
                        network.circuit(*id).name,
                        stroke.get::<milliliter>(),
                        usable.get::<milliliter>()
                    ),
                    "use short strokes and top up after each one, or fit a feed bottle",
                ));
            }
        }
    });
}

/// Visits every compartment with its place and the circuits it feeds.
fn each_compartment(network: &Network, mut visit: impl FnMut(Place, &Compartment, &[CircuitId])) {
    let mut fed: BTreeMap<(usize, usize), Vec<CircuitId>> = BTreeMap::new();
    for (id, circuit) in network.circuits() {
        if let Some(compartment) = circuit.compartment {
            fed.entry(compartment).or_default().push(id);
        }
    }
    for ((r, c), circuits) in fed {
        let place = Place::item("reservoirs", r).field("compartments").nth(c);
        visit(
            place,
            &network.layout.reservoirs[r].compartments[c],
            &circuits,
        );
    }
}

pub(crate) fn fluid(network: &Network, findings: &mut Vec<Finding>) {
    if network.layout.fluid.is_none() {
        findings.push(Finding::new(
            Code::FluidUnknown,
            Place::Path(vec![PathStep::Field("name")]),
            "the layout does not say which fluid the system is made for",
            "add `fluid: dot4` or the like; the cap of the reservoir names it",
        ));
    }
}

/// Values that the file marks as guesses: one finding for all of them.
pub(super) fn guesses(network: &Network, findings: &mut Vec<Finding>) {
    let guesses = &network.layout().guesses;
    let Some(first) = guesses.first() else { return };
    let message = match guesses.len() {
        1 => "1 value is marked with `?`: a guess that nobody measured".to_owned(),
        count => format!("{count} values are marked with `?`: guesses that nobody measured"),
    };
    findings.push(Finding::new(
        Code::Guessed,
        first.place(),
        message,
        "measure what the plan names first, then write the figure and take its mark away",
    ));
}
