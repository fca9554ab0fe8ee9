//! The resistance of a run and the flow through it.

use crate::corner::Corner;
use crate::options::Method;
use crate::scope::circuit_of;
use bleedwright_hydraulics::fluid::Liquid;
use bleedwright_hydraulics::pipe::{Pipe, mean_velocity, reynolds_number};
use bleedwright_hydraulics::screw::Drilling;
use bleedwright_hydraulics::stroke::BranchLaw;
use bleedwright_hydraulics::{Branch, HydraulicResistance, effective_resistance};
use bleedwright_network::{Bounds, CircuitId, Element, LinkId, LinkKind, Network, ScrewId};
use uom::si::f64::{Length, Pressure, VolumeRate};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;

/// Length of the drilling in a bleed screw.
///
/// ASSUMPTION: 8 mm, no source.
const SCREW_LENGTH_MM: f64 = 8.0;

/// The port between reservoir and chamber, open while the pedal is home.
///
/// ASSUMPTION: a hole of 1 mm (0.7 to 1.5), 2 mm long, no source.
pub(crate) const PORT_MM: Bounds<f64> = Bounds {
    low: 0.7,
    nominal: 1.0,
    high: 1.5,
};

const PORT_LENGTH_MM: f64 = 2.0;

/// A flow at one corner.
#[derive(Clone, Copy, Debug)]
pub(super) struct RunFlow {
    pub(super) flow: VolumeRate,
    pub(super) reynolds: f64,
}

/// The flow through one open screw under a pressure difference between its
/// outside and the reservoir; by the pedal method, and the chamber.
pub(super) fn run_flow(
    network: &Network,
    method: Method,
    screw: ScrewId,
    corner: Corner,
    liquid: &Liquid,
    pressure: Pressure,
) -> RunFlow {
    let run = network.run(screw);
    let mut holes = loss_of_screw(network, screw, corner, liquid);
    if method != Method::Pedal {
        let port = drilling(corner.of(PORT_MM), PORT_LENGTH_MM).loss(liquid);
        holes = in_series(holes, port);
    }
    let circuit = circuit_of(network, screw);
    let pipes: HydraulicResistance = if network.has_loops(circuit) {
        through_loops(network, circuit, screw, corner, liquid)
    } else {
        links(&run)
            .filter_map(|link| pipe(network, link, corner))
            .map(|pipe| pipe.resistance(liquid.dynamic_viscosity()))
            .sum()
    };
    let flow = holes.flow_behind(pipes, pressure);
    // With a loop the run carries a part of it only.
    let reynolds = links(&run)
        .filter_map(|link| pipe(network, link, corner))
        .map(|pipe| {
            let velocity = mean_velocity(flow, pipe.bore());
            reynolds_number(velocity, pipe.bore(), liquid.kinematic_viscosity()).get::<ratio>()
        })
        .fold(0.0, f64::max);
    RunFlow { flow, reynolds }
}

fn links(run: &[Element]) -> impl Iterator<Item = LinkId> + '_ {
    run.iter().filter_map(|element| match element {
        Element::Link(link) => Some(*link),
        Element::Cell(_) => None,
    })
}

/// The pipe or hose of a link; direct joints and drillings between cavities
/// are taken to resist nothing.
fn pipe(network: &Network, link: LinkId, corner: Corner) -> Option<Pipe> {
    let LinkKind::Line(index) = network.link(link).kind else {
        return None;
    };
    let line = &network.layout().lines[index];
    Pipe::new(corner.of(line.bore()?), corner.opposite().of(line.length())).ok()
}

/// The resistance of a link at the nominal size of its pipe or hose; direct
/// joints and drillings between cavities resist nothing.
pub fn line_resistance(network: &Network, link: LinkId, liquid: &Liquid) -> HydraulicResistance {
    pipe(network, link, Corner::Nominal).map_or(HydraulicResistance::default(), |pipe| {
        pipe.resistance(liquid.dynamic_viscosity())
    })
}

/// What an open screw takes at the nominal size of its drilling.
pub fn screw_loss(network: &Network, screw: ScrewId, liquid: &Liquid) -> BranchLaw {
    loss_of_screw(network, screw, Corner::Nominal, liquid)
}

fn drilling(bore_mm: f64, length_mm: f64) -> Drilling {
    Drilling::new(
        Length::new::<millimeter>(bore_mm),
        Length::new::<millimeter>(length_mm),
    )
    .expect("bores and lengths of drillings are above zero")
}

fn loss_of_screw(network: &Network, screw: ScrewId, corner: Corner, liquid: &Liquid) -> BranchLaw {
    let bore = corner.of(network.screw(screw).bore.bounds);
    drilling(bore.get::<millimeter>(), SCREW_LENGTH_MM).loss(liquid)
}

fn in_series(one: BranchLaw, other: BranchLaw) -> BranchLaw {
    BranchLaw {
        linear_pa_s_per_m3: one.linear_pa_s_per_m3 + other.linear_pa_s_per_m3,
        quadratic_pa_s2_per_m6: one.quadratic_pa_s2_per_m6 + other.quadratic_pa_s2_per_m6,
    }
}

/// What the run and every loop of its circuit resist together: both ways round a
/// loop carry their share. What leads off to shut screws passes nothing.
fn through_loops(
    network: &Network,
    circuit: CircuitId,
    screw: ScrewId,
    corner: Corner,
    liquid: &Liquid,
) -> HydraulicResistance {
    let run = network.run(screw);
    let mut passed: Vec<LinkId> = links(&run)
        .chain(network.loop_links(circuit).iter().copied())
        .collect();
    passed.sort_unstable();
    passed.dedup();
    let branches: Vec<Branch> = passed
        .into_iter()
        .map(|link| {
            let [a, b] = network.link_ends(link);
            let pipe = pipe(network, link, corner);
            let resistance = pipe.map(|pipe| pipe.resistance(liquid.dynamic_viscosity()));
            (a.index(), b.index(), resistance.unwrap_or_default())
        })
        .collect();
    let chamber = network.circuit(circuit).chamber;
    let foot = network.screw_place(screw).cell;
    effective_resistance(&branches, chamber.index(), foot.index())
        .expect("the run leads from the chamber to its screw")
}
