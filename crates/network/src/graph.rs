//! The hydraulic network: cells that hold fluid, links that join them.

use crate::bounds::Bounds;
use crate::code::Code;
use crate::finding::Finding;
use crate::layout::{Cavity, Layout, Line, LineEnd, PartKind};
use crate::place::Place;
use crate::port::Names;
use petgraph::graph::{EdgeIndex, NodeIndex, UnGraph};
use uom::si::f64::{Length, Volume};

/// A body of fluid without inner walls: a chamber, a cavity, the inside of a
/// tee, one passage of a valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct CellId(pub(crate) u32);

/// A connection between two cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct LinkId(pub(crate) u32);

/// The part of the layout that a cell belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Owner {
    /// Index into the layout's cylinders, and the chamber.
    Cylinder(usize, usize),
    /// Index into the layout's parts, and the cavity, passage or section.
    Part(usize, usize),
}

impl Owner {
    /// Its place in the layout file.
    pub(crate) fn place(self) -> Place {
        match self {
            Self::Cylinder(index, _) => Place::item("cylinders", index),
            Self::Part(index, _) => Place::item("parts", index),
        }
    }
}

/// What a cell is, as far as bleeding it is concerned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CellKind {
    /// A chamber of a master cylinder.
    Chamber,
    /// The fluid behind brake or clutch pistons: a stirred tank.
    Cavity,
    /// A tee, block, union, valve or anti-lock passage on the way.
    Passage,
}

/// A cell of the network.
#[derive(Clone, Debug)]
pub struct Cell {
    /// Where it comes from.
    pub owner: Owner,
    /// What it is.
    pub kind: CellKind,
    /// Its fluid.
    pub contents: Bounds<Volume>,
}

/// What joins two cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LinkKind {
    /// Index into the layout's lines.
    Line(usize),
    /// The drilling between two cavities of one brake; index of the part.
    Crossover(usize),
}

/// A link of the network.
#[derive(Clone, Debug)]
pub struct Link {
    /// What it is.
    pub kind: LinkKind,
    /// Its length; crossovers count none.
    pub length: Bounds<Length>,
    /// Its fluid.
    pub contents: Bounds<Volume>,
    /// The side of the valve it is connected to, at each end.
    pub(crate) sides: [Side; 2],
}

/// Which side of a directed part a line is connected to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    Any,
    Inlet,
    Outlet,
}

pub(crate) type Graph = UnGraph<Cell, Link, u32>;

/// The graph and the way from parts to their cells.
#[derive(Clone, Debug)]
pub(crate) struct Cells {
    pub(crate) graph: Graph,
    /// First cell of each cylinder.
    cylinders: Vec<u32>,
    /// First cell of each part.
    parts: Vec<u32>,
    /// Whether every name a line end can carry means one thing only.
    pub(crate) are_names_clear: bool,
}

impl Cells {
    pub(crate) fn chamber(&self, cylinder: usize, chamber: usize) -> CellId {
        CellId(self.cylinders[cylinder] + chamber as u32)
    }

    pub(crate) fn part(&self, part: usize, nth: usize) -> CellId {
        CellId(self.parts[part] + nth as u32)
    }

    pub(crate) fn cell(&self, id: CellId) -> &Cell {
        &self.graph[NodeIndex::new(id.0 as usize)]
    }

    pub(crate) fn link(&self, id: LinkId) -> &Link {
        &self.graph[EdgeIndex::new(id.0 as usize)]
    }

    pub(crate) fn ends(&self, id: LinkId) -> [CellId; 2] {
        let (a, b) = self
            .graph
            .edge_endpoints(EdgeIndex::new(id.0 as usize))
            .expect("links are made with the graph and never removed");
        [CellId(a.index() as u32), CellId(b.index() as u32)]
    }
}

/// Builds the graph; lines whose ends lead nowhere are reported and left out.
pub(crate) fn build(layout: &Layout, findings: &mut Vec<Finding>) -> Cells {
    let mut graph = Graph::with_capacity(layout.parts.len() * 2, layout.lines.len());
    let mut cylinders = Vec::with_capacity(layout.cylinders.len());
    let mut parts = Vec::with_capacity(layout.parts.len());
    for (index, cylinder) in layout.cylinders.iter().enumerate() {
        cylinders.push(graph.node_count() as u32);
        for (nth, chamber) in cylinder.chambers.iter().enumerate() {
            graph.add_node(Cell {
                owner: Owner::Cylinder(index, nth),
                kind: CellKind::Chamber,
                contents: chamber.contents(),
            });
        }
    }
    for (index, part) in layout.parts.iter().enumerate() {
        parts.push(graph.node_count() as u32);
        let (kind, contents): (CellKind, Vec<Bounds<Volume>>) = match &part.kind {
            PartKind::Junction { .. } => (CellKind::Passage, vec![part.contents.bounds]),
            PartKind::Valve(_) => (
                CellKind::Passage,
                vec![part.contents.bounds; part.sections.len().max(1)],
            ),
            PartKind::AntiLock { circuits, .. } => (
                CellKind::Passage,
                circuits.iter().map(|circuit| circuit.through).collect(),
            ),
            PartKind::Brake(brake) => (
                CellKind::Cavity,
                brake.cavities.iter().map(Cavity::contents).collect(),
            ),
        };
        let first = graph.node_count();
        for (nth, contents) in contents.into_iter().enumerate() {
            graph.add_node(Cell {
                owner: Owner::Part(index, nth),
                kind,
                contents,
            });
        }
        if let PartKind::Brake(brake) = &part.kind
            && let Some(crossover) = brake.crossover
        {
            for nth in 1..brake.cavities.len() {
                let (a, b) = (NodeIndex::new(first + nth - 1), NodeIndex::new(first + nth));
                graph.add_edge(
                    a,
                    b,
                    Link {
                        kind: LinkKind::Crossover(index),
                        length: Bounds::exact(Length::default()),
                        contents: crossover,
                        sides: [Side::Any; 2],
                    },
                );
            }
        }
    }
    let mut names = Names::new(layout);
    let mut cells = Cells {
        graph,
        cylinders,
        parts,
        are_names_clear: names.are_clear(),
    };
    for (index, line) in layout.lines.iter().enumerate() {
        connect(layout, &mut cells, &mut names, index, line, findings);
    }
    cells
}

fn connect(
    layout: &Layout,
    cells: &mut Cells,
    names: &mut Names<'_>,
    index: usize,
    line: &Line,
    findings: &mut Vec<Finding>,
) {
    let mut end = |end: &LineEnd, field: &'static str| {
        let place = Place::item("lines", index).field(field);
        let side = if field == "to" {
            Side::Inlet
        } else {
            Side::Outlet
        };
        names
            .port(layout, cells, end, side)
            .map_err(|problem| findings.push(problem.finding(place)))
            .ok()
    };
    let (from, to) = (end(&line.from, "from"), end(&line.to, "to"));
    let (Some((from, from_side)), Some((to, to_side))) = (from, to) else {
        return;
    };
    if from == to {
        findings.push(
            Finding::new(
                Code::LineToItself,
                Place::item("lines", index).field("to"),
                format!(
                    "the line `{}` leads from `{}` back to itself",
                    line.id, line.from.part
                ),
                "name the part at the other end",
            )
            .also_at(Place::item("lines", index).field("from"), "it starts here"),
        );
        return;
    }
    cells.graph.add_edge(
        NodeIndex::new(from.0 as usize),
        NodeIndex::new(to.0 as usize),
        Link {
            kind: LinkKind::Line(index),
            length: line.length(),
            contents: line.contents(),
            sides: [from_side, to_side],
        },
    );
}

/// The name of a cell for people: the part, and the chamber where it has
/// several.
pub(crate) fn cell_name(layout: &Layout, owner: Owner) -> String {
    match owner {
        Owner::Cylinder(index, nth) => {
            let cylinder = &layout.cylinders[index];
            match cylinder.chambers[nth].port {
                "" => cylinder.id.clone(),
                port => format!("{}.{port}", cylinder.id),
            }
        }
        Owner::Part(index, nth) => {
            let part = &layout.parts[index];
            let port = match &part.kind {
                PartKind::Valve(_) => part.sections.get(nth).map_or("", String::as_str),
                PartKind::AntiLock { circuits, .. } => circuits[nth].inlet.as_str(),
                PartKind::Brake(brake) => brake.cavities[nth].id.as_str(),
                PartKind::Junction { .. } => "",
            };
            if port.is_empty() {
                part.id.clone()
            } else {
                format!("{}.{port}", part.id)
            }
        }
    }
}
