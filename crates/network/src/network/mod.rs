//! The network of a layout: circuits, runs, contents. What the planner reads.

mod circuit;
mod dominator;
mod height;
mod screw;
mod split;

pub use circuit::Circuit;
pub use height::{BelowBrake, Lower};
pub use screw::ScrewPlace;
pub(crate) use split::pair_of;

use crate::bounds::Bounds;
use crate::finding::Finding;
use crate::graph::{self, Cell, CellId, CellKind, Cells, Link, LinkId, LinkKind, Owner};
use crate::layout::{Chamber, Cylinder, Layout, Part, Split, Wheel};
use crate::tree::{self, Forest};
use circuit::{circuits_of, feed_circuits, name_circuits, wheels_of};
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use screw::{count_screws, place_screws};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::f64::{Length, Volume};

/// A circuit, by its place in the list of circuits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct CircuitId(pub(crate) u32);

/// A bleed screw, by its place in the list of screws.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ScrewId(pub(crate) u32);

macro_rules! indexed {
    ($($id:ty),+) => { $(impl $id {
        /// The place in its list.
        pub fn index(self) -> usize {
            self.0 as usize
        }
    })+ };
}
indexed!(CircuitId, ScrewId, CellId, LinkId);

/// One element of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Element {
    /// A pipe, a hose or a crossover.
    Link(LinkId),
    /// A tee, a valve, a cavity.
    Cell(CellId),
}

/// A layout as a hydraulic network.
#[derive(Clone, Debug)]
pub struct Network {
    pub(crate) layout: Layout,
    pub(crate) cells: Cells,
    pub(crate) forest: Forest,
    circuits: Vec<Circuit>,
    screws: Vec<ScrewPlace>,
    split: Split,
    /// Per cell: screws behind it, itself included.
    screws_behind: Vec<u32>,
    /// Screws by the cell they open.
    screws_by_cell: Vec<(CellId, ScrewId)>,
    /// Links that are part of a loop, by circuit.
    loops: BTreeMap<CircuitId, Vec<LinkId>>,
}

impl Network {
    /// Builds the network; problems of names and ports are added to the
    /// findings, and what is wrong with the pipework as a whole is for
    /// [`crate::check`] to say.
    pub(crate) fn new(layout: Layout, findings: &mut Vec<Finding>) -> Self {
        let cells = graph::build(&layout, findings);
        let mut circuits = circuits_of(&layout, &cells);
        let chambers: Vec<CellId> = circuits.iter().map(|circuit| circuit.chamber).collect();
        let forest = tree::grow(&cells, &chambers, &layout);
        name_circuits(&layout, &mut circuits);
        feed_circuits(&layout, &mut circuits, findings);
        let screws = place_screws(&layout, &cells, &forest, findings);
        for (index, screw) in screws.iter().enumerate() {
            if let Some(circuit) = screw.circuit {
                circuits[circuit.index()].screws.push(ScrewId(index as u32));
            }
        }
        for (circuit, order) in circuits.iter_mut().zip(&forest.order) {
            circuit.wheels = wheels_of(&layout, &cells, order);
        }
        let split = split::recognise(&layout, &circuits);
        let loops = dominator::loops_of(&forest, &cells);
        let screws_behind = count_screws(&forest, &screws, cells.graph.node_count());
        let mut screws_by_cell: Vec<(CellId, ScrewId)> = (0..)
            .map(ScrewId)
            .zip(&screws)
            .map(|(id, screw)| (screw.cell, id))
            .collect();
        screws_by_cell.sort_unstable();
        Self {
            layout,
            cells,
            forest,
            circuits,
            screws,
            split,
            screws_behind,
            screws_by_cell,
            loops,
        }
    }

    /// The same pipework with other values. The change may touch values only
    /// (not names, ends or numbers of parts), and within the bounds of a sound
    /// layout: what it brings is not checked again.
    #[must_use]
    pub fn with_values(&self, change: impl FnOnce(&mut Layout)) -> Self {
        let mut layout = self.layout.clone();
        change(&mut layout);
        // Findings of names and ports were the loader's.
        Self::new(layout, &mut Vec::new())
    }

    /// The layout it was built from.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// The circuits, in the order of cylinders and chambers.
    pub fn circuits(&self) -> impl Iterator<Item = (CircuitId, &Circuit)> {
        (0..).map(CircuitId).zip(&self.circuits)
    }

    /// One circuit.
    pub fn circuit(&self, id: CircuitId) -> &Circuit {
        &self.circuits[id.index()]
    }

    /// How the circuits are shared among the wheels.
    pub fn split(&self) -> Split {
        self.split
    }

    /// The wheels that a brake names, front ones first.
    pub fn wheels(&self) -> BTreeSet<Wheel> {
        let brakes = self.layout.parts.iter();
        let brakes = brakes.filter(|part| part.kind.is_wheel_brake());
        brakes.filter_map(|part| part.wheel).collect()
    }

    /// The cylinder of a circuit.
    pub fn cylinder_of(&self, id: CircuitId) -> &Cylinder {
        &self.layout.cylinders[self.circuit(id).cylinder]
    }

    /// The chamber that feeds a circuit.
    pub fn chamber_of(&self, id: CircuitId) -> &Chamber {
        &self.cylinder_of(id).chambers[self.circuit(id).chamber_index]
    }

    /// The part a screw or cell belongs to; none for a cylinder.
    pub fn part(&self, owner: Owner) -> Option<&Part> {
        match owner {
            Owner::Part(index, _) => Some(&self.layout.parts[index]),
            Owner::Cylinder(..) => None,
        }
    }

    /// The wheel a screw belongs to.
    pub fn wheel(&self, id: ScrewId) -> Option<Wheel> {
        self.part(self.screw_place(id).owner)?.wheel
    }

    /// A cell.
    pub fn cell(&self, id: CellId) -> &Cell {
        self.cells.cell(id)
    }

    /// A link.
    pub fn link(&self, id: LinkId) -> &Link {
        self.cells.link(id)
    }

    /// The name of a cell: the part, and the chamber where it has several.
    pub fn cell_name(&self, id: CellId) -> String {
        graph::cell_name(&self.layout, self.cell(id).owner)
    }

    /// The name of a link.
    pub fn link_name(&self, id: LinkId) -> String {
        match self.link(id).kind {
            LinkKind::Line(index) => self.layout.lines[index].id.clone(),
            LinkKind::Crossover(part) => format!("crossover of {}", self.layout.parts[part].id),
        }
    }

    /// What the end of a link at one of its cells is connected to, as the layout
    /// writes it.
    pub fn end_name(&self, link: LinkId, cell: CellId) -> String {
        let LinkKind::Line(index) = self.link(link).kind else {
            return self.cell_name(cell);
        };
        let line = &self.layout.lines[index];
        let is_from = self.link_ends(link)[0] == cell;
        (if is_from { &line.from } else { &line.to }).text()
    }

    /// The name of an element of a run.
    pub fn element_name(&self, element: Element) -> String {
        match element {
            Element::Link(id) => self.link_name(id),
            Element::Cell(id) => self.cell_name(id),
        }
    }

    /// The cells of a part, by its place in the layout.
    pub fn cells_of_part(&self, part: usize) -> impl Iterator<Item = CellId> + '_ {
        let first = self.cells.part(part, 0);
        (first.0..).map(CellId).take_while(move |cell| {
            cell.index() < self.cells.graph.node_count()
                && matches!(self.cell(*cell).owner, Owner::Part(owner, _) if owner == part)
        })
    }

    /// The link of a line, by its place in the layout; none when its ends are
    /// wrong.
    pub fn link_of_line(&self, line: usize) -> Option<LinkId> {
        self.all_links()
            .find(|(_, link)| link.kind == LinkKind::Line(line))
            .map(|(id, _)| id)
    }

    /// The balance bar that a circuit's cylinder hangs on, by its place in the
    /// layout.
    pub fn balance_bar(&self, id: CircuitId) -> Option<usize> {
        let own = &self.cylinder_of(id).id;
        let mut bars = self.layout.balance_bars.iter();
        bars.position(|bar| bar.cylinders.contains(own))
    }

    /// The circuit at the other end of a balance bar.
    pub fn bar_partner(&self, id: CircuitId) -> Option<CircuitId> {
        let bar = &self.layout.balance_bars[self.balance_bar(id)?];
        self.circuits()
            .map(|(other, _)| other)
            .find(|other| *other != id && bar.cylinders.contains(&self.cylinder_of(*other).id))
    }

    /// The circuits of a cylinder.
    pub fn circuits_of_cylinder(&self, cylinder: usize) -> impl Iterator<Item = CircuitId> + '_ {
        self.circuits()
            .filter(move |(_, circuit)| circuit.cylinder == cylinder)
            .map(|(id, _)| id)
    }

    /// The cells of a circuit, each after the one it is reached from.
    pub fn cells_of(&self, id: CircuitId) -> &[CellId] {
        &self.forest.order[id.index()]
    }

    /// Every cell with its number.
    pub fn all_cells(&self) -> impl Iterator<Item = (CellId, &Cell)> {
        self.cells
            .graph
            .node_indices()
            .map(|index| (CellId(index.index() as u32), &self.cells.graph[index]))
    }

    /// Every link with its number.
    pub fn all_links(&self) -> impl Iterator<Item = (LinkId, &Link)> {
        self.cells
            .graph
            .edge_indices()
            .map(|index| (LinkId(index.index() as u32), &self.cells.graph[index]))
    }

    /// The two cells of a link.
    pub fn link_ends(&self, id: LinkId) -> [CellId; 2] {
        self.cells.ends(id)
    }

    /// The links that end at a cell.
    pub fn links_at(&self, id: CellId) -> impl Iterator<Item = LinkId> + '_ {
        let edges = self.cells.graph.edges(NodeIndex::new(id.index()));
        edges.map(|edge| LinkId(edge.id().index() as u32))
    }

    /// The circuit that reaches a cell.
    pub fn circuit_of_cell(&self, id: CellId) -> Option<CircuitId> {
        self.forest.circuit[id.index()].map(CircuitId)
    }

    /// The circuit a link belongs to.
    pub fn circuit_of_link(&self, id: LinkId) -> Option<CircuitId> {
        self.circuit_of_cell(self.cells.ends(id)[0])
    }

    /// The cell before this one on its run, and the link between them.
    pub fn step_to(&self, id: CellId) -> Option<(CellId, LinkId)> {
        self.forest.step[id.index()].map(|step| (step.parent, step.link))
    }

    /// How many links lie between a cell and its chamber: the length of a run
    /// without walking it.
    pub fn depth(&self, id: CellId) -> u32 {
        self.forest.depth[id.index()]
    }

    /// The run of a screw: from the first link behind the chamber to the cell
    /// that the screw opens, links and cells in turn. Empty for a screw on the
    /// chamber itself.
    pub fn run(&self, id: ScrewId) -> Vec<Element> {
        self.way_to(self.screw_place(id).cell)
    }

    /// The elements from the chamber, which is left out, to a cell.
    pub fn way_to(&self, cell: CellId) -> Vec<Element> {
        let step_from = |cell| self.step_to(cell).map(|(parent, _)| parent);
        let steps = std::iter::successors(step_from(cell), |cell| step_from(*cell)).count();
        let mut run = Vec::with_capacity(2 * steps);
        let mut here = cell;
        while let Some((parent, link)) = self.step_to(here) {
            run.push(Element::Cell(here));
            run.push(Element::Link(link));
            here = parent;
        }
        run.reverse();
        run
    }

    /// Length of the pipes and hoses of a run.
    pub fn run_length(&self, id: ScrewId) -> Bounds<Length> {
        self.run(id)
            .into_iter()
            .filter_map(|element| match element {
                Element::Link(link) => Some(self.link(link).length),
                Element::Cell(_) => None,
            })
            .sum()
    }

    /// The fluid in an element.
    pub fn contents(&self, element: Element) -> Bounds<Volume> {
        match element {
            Element::Link(id) => self.link(id).contents,
            Element::Cell(id) => self.cell(id).contents,
        }
    }

    /// Whether an element is a brake cavity, which mixes like a stirred tank.
    pub fn is_cavity(&self, element: Element) -> bool {
        matches!(element, Element::Cell(id) if self.cell(id).kind == CellKind::Cavity)
    }

    /// How many screws lie behind an element, its own included.
    pub fn screws_behind(&self, element: Element) -> u32 {
        let cell = match element {
            Element::Cell(id) => id,
            Element::Link(id) => {
                let [a, b] = self.cells.ends(id);
                let is_step_to = |cell: CellId| {
                    self.forest.step[cell.index()].is_some_and(|step| step.link == id)
                };
                if is_step_to(b) { b } else { a }
            }
        };
        self.screws_behind[cell.index()]
    }
}
