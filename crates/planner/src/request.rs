//! The options with their names looked up in the network.

mod lookup;
mod replaced;

use crate::options::{Options, TEMPERATURES_DEGC};
use bleedwright_network::{
    CellId, CircuitId, Code, Element, Finding, LinkId, Network, Place, ScrewId, most_visits,
};
use lookup::{Lookup, screws_by_name};
use std::collections::BTreeSet;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Something of the layout that an option names.
#[derive(Clone, Debug)]
pub(crate) enum Target {
    Part(usize),
    Cylinder(usize),
    Line(usize),
    Reservoir(usize),
}

impl Target {
    /// The part, by its place in the layout.
    pub(crate) fn part(&self) -> Option<usize> {
        match self {
            Self::Part(index) => Some(*index),
            _ => None,
        }
    }
}

/// The options, looked up.
#[derive(Debug)]
pub(crate) struct Request<'n> {
    pub(crate) network: &'n Network,
    pub(crate) options: &'n Options,
    /// What was opened, what is new included.
    pub(crate) opened: Vec<Target>,
    /// Parts that are new, by their places in the layout.
    pub(crate) new_parts: BTreeSet<usize>,
    /// New anti-lock units that came filled, by their places in the layout.
    pub(crate) filled_units: BTreeSet<usize>,
    /// New anti-lock units that came dry, by their place in the layout.
    pub(crate) dry_units: BTreeSet<usize>,
    /// Units whose routine has been run, by their places in the layout: what they kept stands in their passages.
    pub(crate) freed_units: BTreeSet<usize>,
    pub(crate) drained: Vec<Target>,
    pub(crate) clamped: BTreeSet<LinkId>,
    /// What held a plug.
    pub(crate) plugged: Vec<Target>,
    /// Lines that a clamp or a plug kept full, with all that lies above them.
    pub(crate) kept_full: BTreeSet<LinkId>,
    /// Circuits whose compartment ran dry.
    pub(crate) dry_circuits: BTreeSet<CircuitId>,
    pub(crate) circuit_first: Option<CircuitId>,
    pub(crate) order: Option<Vec<ScrewId>>,
    pub(crate) maker_order: Option<Vec<ScrewId>>,
    pub(crate) skip: BTreeSet<ScrewId>,
    pub(crate) done: BTreeSet<ScrewId>,
}

impl<'n> Request<'n> {
    /// Looks every name up; unknown ones become findings.
    pub(crate) fn new(
        network: &'n Network,
        options: &'n Options,
        findings: &mut Vec<Finding>,
    ) -> Self {
        let mut look = Lookup { network, findings };
        let clamped = look.clamped(&options.clamped);
        let (replaced, [dry_units, filled_units]) = look.replaced(&options.replaced);
        let mut opened = look.targets("--opened", &options.opened);
        let new_parts = replaced.iter().filter_map(Target::part).collect();
        opened.extend(replaced);
        let mut request = Self {
            network,
            options,
            opened,
            new_parts,
            dry_units,
            filled_units,
            freed_units: BTreeSet::new(),
            drained: look.targets("--drained", &options.drained),
            kept_full: clamped.clone(),
            clamped,
            plugged: look.targets("--plugged", &options.plugged),
            dry_circuits: look.dry_circuits(&options.ran_dry),
            circuit_first: options
                .circuit_first
                .as_deref()
                .and_then(|name| look.circuit(name)),
            order: options
                .order
                .as_ref()
                .map(|names| look.screws("--order", names)),
            // Unknown names in the maker's order are findings of the layout.
            maker_order: network.layout().maker_order.as_ref().map(|names| {
                let screws = screws_by_name(network);
                let known = names.iter().filter_map(|name| screws.get(name.as_str()));
                known.copied().collect()
            }),
            skip: look.screws("--skip", &options.skip).into_iter().collect(),
            done: look.screws("--done", &options.done).into_iter().collect(),
        };
        temperature(options, findings);
        order_too_long(&request, findings);
        // A reservoir that was off the vehicle is as empty as one that ran dry.
        let off = request.opened.iter();
        let off = off.filter(|target| matches!(target, Target::Reservoir(_)));
        let emptied: Vec<CircuitId> = off.flat_map(|target| request.circuits_of(target)).collect();
        request.dry_circuits.extend(emptied);
        let plugged = request.plugged.iter();
        let plugged: Vec<LinkId> = plugged.flat_map(|at| request.links_above(at)).collect();
        request.kept_full.extend(plugged);
        request
    }

    /// The line on the cylinder's side of a target; a line itself.
    fn links_above(&self, target: &Target) -> Vec<LinkId> {
        match target {
            Target::Line(line) => self.network.link_of_line(*line).into_iter().collect(),
            Target::Part(part) => (self.network.cells_of_part(*part))
                .filter_map(|cell| self.network.step_to(cell).map(|(_, link)| link))
                .collect(),
            Target::Cylinder(_) | Target::Reservoir(_) => Vec::new(),
        }
    }

    /// What a target is called in the layout.
    pub(crate) fn name_of(&self, target: &Target) -> &'n str {
        let layout = self.network.layout();
        match target {
            Target::Part(part) => &layout.parts[*part].id,
            Target::Cylinder(cylinder) => &layout.cylinders[*cylinder].id,
            Target::Line(line) => &layout.lines[*line].id,
            Target::Reservoir(reservoir) => &layout.reservoirs[*reservoir].id,
        }
    }

    pub(crate) fn circuits_of(&self, target: &Target) -> BTreeSet<CircuitId> {
        let network = self.network;
        match target {
            Target::Part(part) => network
                .cells_of_part(*part)
                .filter_map(|cell| network.circuit_of_cell(cell))
                .collect(),
            Target::Cylinder(cylinder) => network.circuits_of_cylinder(*cylinder).collect(),
            Target::Line(line) => network
                .link_of_line(*line)
                .and_then(|link| network.circuit_of_link(link))
                .into_iter()
                .collect(),
            Target::Reservoir(reservoir) => network
                .circuits()
                .filter(|(_, circuit)| circuit.compartment.is_some_and(|(r, _)| r == *reservoir))
                .map(|(id, _)| id)
                .collect(),
        }
    }

    /// Cylinders that were opened, by their place in the layout: they are bled
    /// on the bench.
    pub(crate) fn opened_cylinders(&self) -> BTreeSet<usize> {
        self.opened
            .iter()
            .filter_map(|target| match target {
                Target::Cylinder(index) => Some(*index),
                _ => None,
            })
            .collect()
    }

    pub(crate) fn elements_of(&self, target: &Target) -> Vec<Element> {
        let network = self.network;
        match target {
            Target::Part(part) => network.cells_of_part(*part).map(Element::Cell).collect(),
            Target::Cylinder(cylinder) => network
                .circuits_of_cylinder(*cylinder)
                .map(|circuit| Element::Cell(network.circuit(circuit).chamber))
                .collect(),
            Target::Line(line) => network
                .link_of_line(*line)
                .into_iter()
                .map(Element::Link)
                .collect(),
            Target::Reservoir(_) => Vec::new(),
        }
    }
}

/// No fluid is known outside of a range of temperatures.
fn temperature(options: &Options, findings: &mut Vec<Finding>) {
    if options.has_usual_temperature() {
        return;
    }
    let [coldest, warmest] = TEMPERATURES_DEGC;
    findings.push(
        Finding::new(
            Code::Temperature,
            Place::Option("--temperature"),
            format!(
                "the fluid cannot be {} degC",
                options.temperature.get::<degree_celsius>()
            ),
            "give the temperature of the fluid while it is bled",
        )
        .allowing(format!("{coldest} degC to {warmest} degC")),
    );
}

/// An order that names its screws again and again.
fn order_too_long(request: &Request<'_>, findings: &mut Vec<Finding>) {
    let count = request.order.as_ref().map_or(0, Vec::len);
    let most = most_visits(request.network.screws().count());
    if count > most {
        findings.push(
            Finding::new(
                Code::OrderTooLong,
                Place::Option("--order"),
                format!("the order opens screws {count} times"),
                "name each screw once, or twice where it is bled again",
            )
            .allowing(format!("up to {most} times for this layout")),
        );
    }
}

/// The cell below a link, seen from the chamber.
pub(crate) fn cell_below(network: &Network, link: LinkId) -> CellId {
    let [a, b] = network.link_ends(link);
    if network.step_to(b).is_some_and(|(_, step)| step == link) {
        b
    } else {
        a
    }
}
