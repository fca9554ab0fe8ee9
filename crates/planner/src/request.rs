//! The options with their names looked up in the network.

mod replaced;

use crate::options::{Options, TEMPERATURES_DEGC};
use bleedwright_network::{
    CellId, CircuitId, Code, Element, Finding, LinkId, Network, PartKind, Place, ScrewId,
    most_visits, suggest,
};
use replaced::{new_unit_unsaid, opens_nothing, said_both, state_said};
use std::cell::LazyCell;
use std::collections::{BTreeSet, HashMap};
use uom::si::thermodynamic_temperature::degree_celsius;

/// Something of the layout that an option names.
#[derive(Clone, Debug)]
pub(crate) enum Target {
    /// A part: its cells.
    Part(usize),
    /// A cylinder.
    Cylinder(usize),
    /// A line.
    Line(usize),
    /// A reservoir.
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
        let mut look = Lookup {
            network,
            names: LazyCell::new(Box::new(|| Names::new(network))),
            findings,
        };
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
                names
                    .iter()
                    .filter_map(|name| look.names.screws.get(name.as_str()).copied())
                    .collect()
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

    /// The circuits a target belongs to.
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

    /// The elements a target consists of.
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

/// Every name an option may use.
struct Names<'n> {
    /// A line may carry the name of a part: then both are meant.
    targets: HashMap<&'n str, Vec<Target>>,
    screws: HashMap<&'n str, ScrewId>,
}

impl<'n> Names<'n> {
    fn new(network: &'n Network) -> Self {
        let layout = network.layout();
        let mut targets: HashMap<&str, Vec<Target>> = HashMap::new();
        let mut add = |name: &'n str, target| targets.entry(name).or_default().push(target);
        for (index, line) in layout.lines.iter().enumerate() {
            add(line.id.as_str(), Target::Line(index));
        }
        for (index, reservoir) in layout.reservoirs.iter().enumerate() {
            add(reservoir.id.as_str(), Target::Reservoir(index));
        }
        for (index, cylinder) in layout.cylinders.iter().enumerate() {
            add(cylinder.id.as_str(), Target::Cylinder(index));
        }
        for (index, part) in layout.parts.iter().enumerate() {
            add(part.id.as_str(), Target::Part(index));
        }
        let screws = network
            .screws()
            .map(|(id, _)| (network.screw(id).id.as_str(), id))
            .collect();
        Self { targets, screws }
    }
}

struct Lookup<'n, 'f> {
    network: &'n Network,
    /// Gathered for the first option that names anything: most name nothing.
    names: LazyCell<Names<'n>, Box<dyn FnOnce() -> Names<'n> + 'n>>,
    findings: &'f mut Vec<Finding>,
}

impl Lookup<'_, '_> {
    fn targets(&mut self, option: &'static str, names: &[String]) -> Vec<Target> {
        let mut found = Vec::new();
        for name in names {
            if let Some(targets) = self.names.targets.get(name.as_str()) {
                found.extend(targets.iter().cloned());
                continue;
            }
            if let Some(screw) = self.names.screws.get(name.as_str()) {
                let network = self.network;
                let part = network.cell_name(network.screw_place(*screw).cell);
                self.findings.push(Finding::new(
                    Code::OptionName,
                    Place::Option(option),
                    format!("`{option}` names the bleed screw `{name}`, not a part or a line"),
                    format!("name the part that it is on: `{part}`"),
                ));
                continue;
            }
            if let Some(finding) = opens_nothing(option, name) {
                self.findings.push(finding);
                continue;
            }
            let mut known: Vec<&str> = self.names.targets.keys().copied().collect();
            known.sort_unstable();
            self.unknown(option, name, "part or line", &known);
        }
        found
    }

    /// What is new, and which of it are anti-lock units that came dry, and filled.
    fn replaced(&mut self, names: &[String]) -> (Vec<Target>, [BTreeSet<usize>; 2]) {
        let layout = self.network.layout();
        let (mut replaced, mut dry, mut filled) = (Vec::new(), BTreeSet::new(), BTreeSet::new());
        for given in names {
            // A name of the layout may hold the sign itself.
            let is_name = self.names.targets.contains_key(given.as_str());
            let (name, said) = match state_said(given) {
                Some((name, said)) if !is_name => (name, Some(said)),
                _ => (given.as_str(), None),
            };
            for target in self.targets("--replaced", &[name.to_owned()]) {
                let unit = match target {
                    Target::Part(part) => {
                        let kind = &layout.parts[part].kind;
                        matches!(kind, PartKind::AntiLock { .. }).then_some(part)
                    }
                    _ => None,
                };
                match new_unit_unsaid(name, unit.is_some(), said) {
                    Ok(came_filled) if came_filled => filled.extend(unit),
                    Ok(_) => dry.extend(unit),
                    Err(finding) => self.findings.push(*finding),
                }
                replaced.push(target);
            }
        }
        for unit in dry.intersection(&filled) {
            self.findings.push(said_both(&layout.parts[*unit].id));
        }
        (replaced, [dry, filled])
    }

    fn screws(&mut self, option: &'static str, names: &[String]) -> Vec<ScrewId> {
        names
            .iter()
            .filter_map(|name| {
                let screw = self.names.screws.get(name.as_str()).copied();
                if screw.is_none() {
                    let mut known: Vec<&str> = self.names.screws.keys().copied().collect();
                    known.sort_unstable();
                    self.unknown(option, name, "bleed screw", &known);
                }
                screw
            })
            .collect()
    }

    fn circuit(&mut self, name: &str) -> Option<CircuitId> {
        let network = self.network;
        let found = network
            .circuits()
            .find(|(_, circuit)| circuit.name == name)
            .map(|(id, _)| id);
        if found.is_none() {
            let known: Vec<&str> = network
                .circuits()
                .map(|(_, circuit)| circuit.name.as_str())
                .collect();
            self.unknown("--circuit-first", name, "circuit", &known);
        }
        found
    }

    fn dry_circuits(&mut self, names: &[String]) -> BTreeSet<CircuitId> {
        let network = self.network;
        let mut dry = BTreeSet::new();
        for name in names {
            let mut known = Vec::new();
            let mut is_known = false;
            for (r, reservoir) in network.layout().reservoirs.iter().enumerate() {
                for (c, compartment) in reservoir.compartments.iter().enumerate() {
                    known.push(compartment.id.as_str());
                    let full = format!("{}.{}", reservoir.id, compartment.id);
                    if compartment.id == *name || full == *name {
                        is_known = true;
                        dry.extend(
                            network
                                .circuits()
                                .filter(|(_, circuit)| circuit.compartment == Some((r, c)))
                                .map(|(id, _)| id),
                        );
                    }
                }
            }
            if !is_known {
                self.unknown("--ran-dry", name, "reservoir compartment", &known);
            }
        }
        dry
    }

    fn clamped(&mut self, names: &[String]) -> BTreeSet<LinkId> {
        let network = self.network;
        let lines = &network.layout().lines;
        let mut clamped = BTreeSet::new();
        for name in names {
            let Some(index) = lines.iter().position(|line| line.id == *name) else {
                let known: Vec<&str> = lines.iter().map(|line| line.id.as_str()).collect();
                self.unknown("--clamped", name, "line", &known);
                continue;
            };
            if lines[index].may_be_clamped() {
                clamped.extend(network.link_of_line(index));
            } else {
                self.findings.push(
                    Finding::new(
                        Code::CannotClamp,
                        Place::Option("--clamped"),
                        format!("`{name}` must not be clamped"),
                        "a clamp kinks a pipe and cuts a braided hose: leave it out and take the \
                         line for drained; a rubber hose is marked `material: rubber`",
                    )
                    .allowing("rubber hoses")
                    .also_at(Place::item("lines", index).field("kind"), "this line"),
                );
            }
        }
        clamped
    }

    fn unknown(&mut self, option: &'static str, name: &str, what: &str, known: &[&str]) {
        self.findings.push(Finding::new(
            Code::OptionName,
            Place::Option(option),
            format!("`{option}` names `{name}`, but no {what} has that name"),
            suggest(name, known),
        ));
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
