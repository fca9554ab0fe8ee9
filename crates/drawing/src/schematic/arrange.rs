//! Which part of the picture each part of the vehicle belongs to: the cylinders at its head, the wheels at its sides,
//! everything else in its middle column.

use bleedwright_network::{CellId, LinkId, LinkKind, Network, Owner, Part, PartKind};
use std::collections::BTreeMap;

/// A place beside the vehicle where brakes sit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Site {
    /// Counted from the front.
    pub(super) axle: u8,
    pub(super) is_right: bool,
}

/// Where a body is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Seat {
    /// At the head: a cylinder.
    Head,
    /// In the middle column.
    Core,
    Joint(Site),
    Brake(Site),
}

/// A cylinder or a part, with its cells.
#[derive(Clone, Debug)]
pub(super) struct Body {
    pub(super) owner: Owner,
    pub(super) cells: Vec<CellId>,
    pub(super) seat: Seat,
}

/// A line of the layout.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wire {
    /// Its place in the layout.
    pub(super) line: usize,
    pub(super) link: LinkId,
    /// The end toward the cylinder.
    pub(super) near: CellId,
    pub(super) far: CellId,
    /// Whether it closes a loop, so that it is on no run.
    pub(super) closes: bool,
    pub(super) way: Way,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// Through the lanes.
    Net,
    /// Between a joint of a wheel and what follows it there.
    Rib,
    /// From one brake to the next one of the same wheel.
    Bridge,
}

/// A brake with the lines that end at it, in the order in which they stand below each other.
#[derive(Clone, Debug)]
pub(super) struct Unit {
    pub(super) body: usize,
    pub(super) entries: Vec<Entry>,
    /// Whether a bridge leads on to the next brake.
    pub(super) leads_on: bool,
}

/// The end of a line at a brake.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) wire: usize,
    /// The cavity, counted from the first one of the brake.
    pub(super) cavity: usize,
}

/// Everything in its part of the picture.
pub(super) struct Arrangement<'n> {
    pub(super) network: &'n Network,
    pub(super) bodies: Vec<Body>,
    pub(super) body_of_cell: Vec<usize>,
    /// In the order of their numbers in the picture.
    pub(super) wires: Vec<Wire>,
    /// Lines that lead on from each cell, and those that close a loop at it.
    pub(super) leading_on: Vec<Vec<usize>>,
    /// Lines that end at each cell.
    pub(super) ending: Vec<Vec<usize>>,
    /// The middle column from its upper end, each body with the first axle that it feeds.
    pub(super) core: Vec<(usize, u8)>,
    /// The brakes of every site, from the upper end.
    pub(super) sites: BTreeMap<Site, Vec<Unit>>,
    /// Columns that a joint of a wheel stands before its brake; zero for other cells.
    pub(super) column: Vec<usize>,
}

/// More joints than these in a row go to the middle column.
const MOST_COLUMNS: usize = 3;

impl<'n> Arrangement<'n> {
    pub(super) fn new(network: &'n Network) -> Self {
        let mut arrangement = Self::with_bodies(network);
        arrangement.seat_brakes();
        arrangement.add_wires();
        arrangement.seat();
        arrangement.stack_core();
        arrangement.fill_sites();
        arrangement
    }

    fn with_bodies(network: &'n Network) -> Self {
        let mut bodies: Vec<Body> = Vec::new();
        let mut body_of_cell = Vec::new();
        let mut last = None;
        for (id, cell) in network.all_cells() {
            let key = match cell.owner {
                Owner::Cylinder(index, _) => (false, index),
                Owner::Part(index, _) => (true, index),
            };
            if last != Some(key) {
                let seat = match cell.owner {
                    Owner::Cylinder(..) => Seat::Head,
                    Owner::Part(..) => Seat::Core,
                };
                bodies.push(Body {
                    owner: cell.owner,
                    cells: Vec::new(),
                    seat,
                });
                last = Some(key);
            }
            body_of_cell.push(bodies.len() - 1);
            bodies
                .last_mut()
                .expect("one was just added")
                .cells
                .push(id);
        }
        let cells = body_of_cell.len();
        Self {
            network,
            bodies,
            body_of_cell,
            wires: Vec::new(),
            leading_on: vec![Vec::new(); cells],
            ending: vec![Vec::new(); cells],
            core: Vec::new(),
            sites: BTreeMap::new(),
            column: vec![0; cells],
        }
    }

    pub(super) fn body(&self, cell: CellId) -> &Body {
        &self.bodies[self.body_of_cell[cell.index()]]
    }

    pub(super) fn part(&self, body: usize) -> Option<&'n Part> {
        self.network.part(self.bodies[body].owner)
    }

    pub(super) fn is_junction(&self, body: usize) -> bool {
        self.part(body)
            .is_some_and(|part| matches!(part.kind, PartKind::Junction { .. }))
    }

    /// Lines by circuit, and in each circuit as they are met on the way from the cylinder.
    fn add_wires(&mut self) {
        let mut numbered = vec![usize::MAX; self.network.all_links().count()];
        let mut found = Vec::new();
        for (id, _) in self.network.circuits() {
            for cell in self.network.cells_of(id) {
                if let Some((near, link)) = self.network.step_to(*cell) {
                    found.push((link, near, *cell, false));
                    numbered[link.index()] = 0;
                }
            }
        }
        for (link, _) in self.network.all_links() {
            if numbered[link.index()] == usize::MAX {
                let [a, b] = self.network.link_ends(link);
                found.push((link, a, b, true));
            }
        }
        for (link, near, far, closes) in found {
            let LinkKind::Line(line) = self.network.link(link).kind else {
                continue;
            };
            self.leading_on[near.index()].push(self.wires.len());
            self.ending[far.index()].push(self.wires.len());
            self.wires.push(Wire {
                line,
                link,
                near,
                far,
                closes,
                way: Way::Net,
            });
        }
    }

    /// Joints that lead to the brakes of one wheel only stand beside that wheel.
    fn seat(&mut self) {
        let circuits: Vec<_> = self.network.circuits().map(|(id, _)| id).collect();
        for circuit in circuits {
            for cell in self.network.cells_of(circuit).iter().rev() {
                let body = self.body_of_cell[cell.index()];
                if let Some((site, column)) = self.joint(*cell, body) {
                    self.bodies[body].seat = Seat::Joint(site);
                    self.column[cell.index()] = column;
                    for wire in self.leading_on[cell.index()].clone() {
                        self.wires[wire].way = Way::Rib;
                    }
                }
            }
        }
    }

    fn joint(&self, cell: CellId, body: usize) -> Option<(Site, usize)> {
        let (on, ending) = (&self.leading_on[cell.index()], &self.ending[cell.index()]);
        let is_plain = self.is_junction(body) && ending.len() == 1 && !on.is_empty();
        if !is_plain || on.iter().chain(ending).any(|wire| self.wires[*wire].closes) {
            return None;
        }
        let mut site = None;
        let mut column = 0;
        for wire in on {
            let far = self.wires[*wire].far;
            let here = match self.body(far).seat {
                Seat::Joint(here) => here,
                Seat::Brake(here) if on.len() == 1 || self.has_one_line_in(far) => here,
                _ => return None,
            };
            if site.is_some_and(|site| site != here) || (on.len() > 1 && !self.is_alone_behind(far))
            {
                return None;
            }
            site = Some(here);
            column = column.max(self.column[far.index()] + 1);
        }
        site.filter(|_| column <= MOST_COLUMNS)
            .map(|site| (site, column))
    }

    fn has_one_line_in(&self, cell: CellId) -> bool {
        self.ending_at(self.body_of_cell[cell.index()]).count() == 1
    }

    pub(super) fn ending_at(&self, body: usize) -> impl Iterator<Item = usize> {
        let cells = self.bodies[body].cells.iter();
        cells.flat_map(|cell| self.ending[cell.index()].iter().copied())
    }

    /// The body at the end of a line toward the cylinder.
    pub(super) fn near_body(&self, wire: usize) -> usize {
        self.body_of_cell[self.wires[wire].near.index()]
    }

    pub(super) fn far_body(&self, wire: usize) -> usize {
        self.body_of_cell[self.wires[wire].far.index()]
    }

    /// Whether every brake behind a joint has no other line.
    fn is_alone_behind(&self, cell: CellId) -> bool {
        match self.body(cell).seat {
            Seat::Joint(_) => {
                let on = &self.leading_on[cell.index()];
                on.iter()
                    .all(|wire| self.is_alone_behind(self.wires[*wire].far))
            }
            _ => self.has_one_line_in(cell),
        }
    }

    /// Front first, then by circuit, then outward, so that what follows each other stands below each other.
    fn stack_core(&mut self) {
        const NOWHERE: u8 = u8::MAX;
        let mut axle = vec![NOWHERE; self.body_of_cell.len()];
        let mut rank = vec![(usize::MAX, usize::MAX); self.body_of_cell.len()];
        for (id, _) in self.network.circuits() {
            let cells = self.network.cells_of(id);
            for (nth, cell) in cells.iter().enumerate() {
                rank[cell.index()] = (id.index(), nth);
            }
            for cell in cells.iter().rev() {
                if let Seat::Brake(site) = self.body(*cell).seat {
                    axle[cell.index()] = axle[cell.index()].min(site.axle);
                }
                if let Some((near, _)) = self.network.step_to(*cell) {
                    axle[near.index()] = axle[near.index()].min(axle[cell.index()]);
                }
            }
        }
        let key = |body: &usize| {
            let cells = &self.bodies[*body].cells;
            let axle = cells.iter().map(|cell| axle[cell.index()]).min();
            let rank = cells.iter().map(|cell| rank[cell.index()]).min();
            (axle.unwrap_or(NOWHERE), rank)
        };
        let mut core: Vec<usize> = (0..self.bodies.len())
            .filter(|body| self.bodies[*body].seat == Seat::Core)
            .collect();
        core.sort_by_cached_key(key);
        self.core = core.into_iter().map(|body| (body, key(&body).0)).collect();
    }
}
