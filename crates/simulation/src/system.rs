//! The contents of all circuits.

use crate::slug::{Direction, Matter, Row, Slug};
use crate::vessel::{Cavity, Vessel};
use bleedwright_network::{CellId, CellKind, CircuitId, Element, LinkId, Network, ScrewId};
use std::collections::{HashMap, HashSet};
use uom::si::f64::Length;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// Every element of the circuits with what it holds.
#[derive(Clone, Debug)]
pub(crate) struct System<'n> {
    pub(crate) network: &'n Network,
    vessels: HashMap<Element, Vessel>,
}

/// An element on the way of a flow, with the share of it that keeps its air.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Passed {
    pub(crate) element: Element,
    keeps: f64,
}

impl<'n> System<'n> {
    /// Nominal contents, empty where the job finds them empty, with air from
    /// each opened joint as far into its line as `pocket`.
    pub(crate) fn new(
        network: &'n Network,
        empty: &HashSet<Element>,
        joints: &[(LinkId, CellId)],
        pocket: Length,
    ) -> Self {
        let mut vessels = HashMap::new();
        for (circuit, _) in network.circuits() {
            for element in elements_of(network, circuit) {
                let capacity_ml = network.contents(element).nominal.get::<milliliter>();
                let is_empty = empty.contains(&element);
                let vessel = if is_cavity(network, element) {
                    Vessel::Cavity(Cavity {
                        capacity_ml,
                        air_ml: if is_empty { capacity_ml } else { 0.0 },
                    })
                } else {
                    let matter = if is_empty {
                        Matter::Air
                    } else {
                        Matter::Liquid
                    };
                    Vessel::Line(Row::of(matter, capacity_ml))
                };
                vessels.insert(element, vessel);
            }
        }
        let mut system = Self { network, vessels };
        for (line, cell) in joints {
            system.let_air_in(*line, *cell, pocket);
        }
        system
    }

    /// Air from a joint into its line, which gives up as much fluid in exchange.
    fn let_air_in(&mut self, line: LinkId, cell: CellId, pocket: Length) {
        let network = self.network;
        let Some(Vessel::Line(row)) = self.vessels.get_mut(&Element::Link(line)) else {
            return;
        };
        let length = network.link(line).length.nominal;
        let share = if length > Length::default() {
            (pocket / length).get::<ratio>().min(1.0)
        } else {
            0.0
        };
        let volume_ml = row.volume_ml() * share;
        // The end on the cylinder's side is where fluid comes in.
        let is_far = (network.step_to(cell)).is_some_and(|(_, step)| step == line);
        let (inward, outward) = if is_far {
            (Direction::Back, Direction::Out)
        } else {
            (Direction::Out, Direction::Back)
        };
        row.take(volume_ml, outward);
        row.append(
            Slug {
                matter: Matter::Air,
                volume_ml,
            },
            inward,
        );
    }

    /// The way of the fluid that leaves by a screw, chamber first. The screw is
    /// the top of its cavity: the plan has the brake tilted where it is not.
    pub(crate) fn way(
        &self,
        screw: ScrewId,
        passage_height: f64,
        direction: Direction,
    ) -> Vec<Passed> {
        let network = self.network;
        let place = network.screw_place(screw);
        let chamber = place
            .circuit
            .map(|circuit| Element::Cell(network.circuit(circuit).chamber));
        let mut way: Vec<Passed> = chamber
            .into_iter()
            .chain(network.run(screw))
            .map(|element| Passed {
                element,
                // The port of a chamber is at its top.
                keeps: if network.is_cavity(element) {
                    passage_height
                } else {
                    0.0
                },
            })
            .collect();
        if direction == Direction::Out
            && let Some(last) = way.last_mut()
        {
            last.keeps = 0.0;
        }
        way
    }

    /// Sends liquid along a way; what comes out at its end.
    pub(crate) fn push(
        &mut self,
        way: &[Passed],
        volume_ml: f64,
        direction: Direction,
    ) -> Vec<Slug> {
        let liquid = Slug {
            matter: Matter::Liquid,
            volume_ml,
        };
        self.push_slugs(way, vec![liquid], direction)
    }

    /// Sends slugs along a way; what comes out at its end.
    pub(crate) fn push_slugs(
        &mut self,
        way: &[Passed],
        mut slugs: Vec<Slug>,
        direction: Direction,
    ) -> Vec<Slug> {
        let mut pass = |passed: &Passed| {
            if let Some(vessel) = self.vessels.get_mut(&passed.element) {
                slugs = vessel.pass(std::mem::take(&mut slugs), passed.keeps, direction);
            }
        };
        match direction {
            Direction::Out => way.iter().for_each(&mut pass),
            Direction::Back => way.iter().rev().for_each(&mut pass),
        }
        slugs
    }

    pub(crate) fn air_in(&self, element: Element) -> f64 {
        self.vessels.get(&element).map_or(0.0, Vessel::air_ml)
    }

    pub(crate) fn capacity_of(&self, element: Element) -> f64 {
        self.vessels.get(&element).map_or(0.0, Vessel::capacity_ml)
    }

    pub(crate) fn air_of_circuit(&self, circuit: CircuitId) -> f64 {
        elements_of(self.network, circuit)
            .map(|element| self.air_in(element))
            .sum()
    }

    /// Air and contents of everything, summed in a fixed order.
    pub(crate) fn totals(&self) -> (f64, f64) {
        let mut totals = (0.0, 0.0);
        for (circuit, _) in self.network.circuits() {
            for element in elements_of(self.network, circuit) {
                totals.0 += self.air_in(element);
                totals.1 += self.capacity_of(element);
            }
        }
        totals
    }

    /// Lets the air in a line climb by a volume of it toward an end.
    pub(crate) fn climb(&mut self, element: Element, volume_ml: f64, toward: Direction) {
        if let Some(Vessel::Line(row)) = self.vessels.get_mut(&element) {
            row.climb(volume_ml, toward);
        }
    }

    /// Elements that hold air, by name, most first.
    pub(crate) fn air_places(&self) -> Vec<(String, f64)> {
        let mut places: Vec<(String, f64)> = Vec::new();
        for (circuit, _) in self.network.circuits() {
            for element in elements_of(self.network, circuit) {
                let air_ml = self.air_in(element);
                if air_ml > 1e-9 {
                    places.push((self.network.element_name(element), air_ml));
                }
            }
        }
        places.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
        places
    }
}

/// Every element of a circuit: each cell and the link to it, chamber first.
pub(crate) fn elements_of(
    network: &Network,
    circuit: CircuitId,
) -> impl Iterator<Item = Element> + '_ {
    network.cells_of(circuit).iter().flat_map(|cell| {
        let above = network.step_to(*cell).map(|(_, link)| Element::Link(link));
        above.into_iter().chain([Element::Cell(*cell)])
    })
}

/// Chambers and brakes hold air at their top; everything else is passed like
/// a line.
fn is_cavity(network: &Network, element: Element) -> bool {
    match element {
        Element::Cell(cell) => {
            network.is_cavity(element) || matches!(network.cell(cell).kind, CellKind::Chamber)
        }
        Element::Link(_) => false,
    }
}
