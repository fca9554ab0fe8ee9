//! The way of every line, once everything has its height.

use super::arrange::{Arrangement, Seat, Way};
use super::lanes::{Request, assign};
use super::measure::{
    BRAKE_MARGIN, BRAKE_WIDTH, BRIDGE, COLUMN, GRID, HALF, LEAD_IN, PITCH, TAG_ROOM, on_grid,
};
use super::place::{Placed, is_level};
use crate::picture::Point;
use bleedwright_network::{CellId, Steering};
use std::collections::BTreeMap;

/// Where things are across the picture.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Across {
    /// The edges of the zones of the wheels, left and right.
    pub(super) inner: [f64; 2],
    pub(super) to_brake: [f64; 2],
    /// The middle of the middle column, and half of its width.
    pub(super) core: f64,
    pub(super) core_half: f64,
    /// The left side of the first cylinder.
    pub(super) head: f64,
    pub(super) right: f64,
}

impl Across {
    /// So far outward from the edge of a zone.
    pub(super) fn out(&self, is_right: bool, outward: f64) -> f64 {
        let edge = self.inner[usize::from(is_right)];
        if is_right {
            edge + outward
        } else {
            edge - outward
        }
    }

    /// The inner face of the brakes of a side.
    pub(super) fn face(&self, is_right: bool) -> f64 {
        self.out(is_right, self.to_brake[usize::from(is_right)])
    }

    /// A joint so many columns before its brake.
    pub(super) fn joint(&self, is_right: bool, column: usize) -> f64 {
        self.out(
            is_right,
            self.to_brake[usize::from(is_right)] - COLUMN * column as f64,
        )
    }
}

/// The way of a line.
#[derive(Clone, Debug, Default)]
pub(super) struct Route {
    pub(super) points: Vec<Point>,
    /// Where its number stands.
    pub(super) tag: Point,
    /// The piece around the number that no other line touches: a hose is wavy there.
    pub(super) free: Option<(Point, Point)>,
}

pub(super) struct Routes {
    pub(super) across: Across,
    pub(super) routes: Vec<Route>,
    pub(super) bottom: f64,
}

impl Routes {
    pub(super) fn new(
        arrangement: &Arrangement<'_>,
        placed: &Placed,
        core_half: f64,
        least_width: f64,
    ) -> Self {
        let mut across = Across {
            core_half,
            ..Across::default()
        };
        let mut router = Router {
            arrangement,
            placed,
            across,
            lanes: BTreeMap::new(),
            crossings: BTreeMap::new(),
        };
        let counts = router.assign_lanes();
        let mut zones = [0.0; 2];
        for side in [0, 1] {
            let is_right = side == 1;
            let here = || {
                placed
                    .units
                    .iter()
                    .filter(|unit| unit.site.is_right == is_right)
            };
            let cells = here().flat_map(|unit| router.columns_before(unit.body));
            let columns = cells.max().unwrap_or(0);
            // Without a joint there is still room for a wavy hose, or for a bridge pipe.
            let least = if columns == 0 { BRIDGE } else { 0.0 };
            across.to_brake[side] = LEAD_IN + COLUMN * columns as f64 + least;
            if here().next().is_some() {
                zones[side] = across.to_brake[side] + BRAKE_WIDTH + BRAKE_MARGIN;
            }
        }
        let head_width = placed
            .head
            .last()
            .map_or(0.0, |(_, left, shape)| left + shape.width);
        let lanes = [0, 1].map(|side: usize| GRID * (counts[side] + 1) as f64);
        let width = zones[0] + lanes[0] + 2.0 * core_half + lanes[1] + zones[1];
        let missing = (least_width.max(head_width) - width).max(0.0) / 2.0;
        across.inner[0] = on_grid(missing + zones[0]);
        across.core = across.inner[0] + lanes[0] + core_half;
        across.inner[1] = across.core + core_half + lanes[1];
        across.right = across.inner[1] + zones[1] + missing;
        across.head = match arrangement.network.layout().steering {
            Some(Steering::Left) => 0.0,
            Some(Steering::Right) => ((across.right - head_width) / GRID).floor() * GRID,
            _ => ((across.right - head_width) / 2.0 / GRID).floor() * GRID,
        };
        router.across = across;
        let routes = (0..arrangement.wires.len())
            .map(|wire| router.route(wire))
            .collect();
        let crossings = router.crossings.len();
        let bottom = placed.bottom + GRID * (crossings + crossings.min(1)) as f64;
        Self {
            across,
            routes,
            bottom,
        }
    }
}

pub(super) struct Router<'a, 'n> {
    pub(super) arrangement: &'a Arrangement<'n>,
    pub(super) placed: &'a Placed,
    pub(super) across: Across,
    /// The lane of a line on a side.
    lanes: BTreeMap<(bool, usize), usize>,
    /// The track under everything of a line that changes sides.
    crossings: BTreeMap<usize, f64>,
}

impl Router<'_, '_> {
    fn assign_lanes(&mut self) -> [usize; 2] {
        let mut requests: [Vec<Request>; 2] = [Vec::new(), Vec::new()];
        for index in 0..self.arrangement.wires.len() {
            let wire = self.arrangement.wires[index];
            if wire.way != Way::Net
                || self.placed.is_straight(index)
                || self.placed.is_direct(index)
            {
                continue;
            }
            let (near, far) = (self.near_end(index), self.far_end(index));
            let (from, to) = (near.height(), far.height());
            let own = self.arrangement.runs_right(index);
            let (a, b) = (near.is_right.unwrap_or(own), far.is_right.unwrap_or(own));
            let mut ask = |side: bool, from, to, leads_out| {
                requests[usize::from(side)].push(Request {
                    wire: index,
                    from,
                    to,
                    leads_out,
                });
            };
            if a == b {
                if !is_level(from, to) {
                    ask(a, from, to, near.leads_out() || far.leads_out());
                }
            } else {
                let y = self.placed.bottom + GRID * (self.crossings.len() + 1) as f64;
                self.crossings.insert(index, y);
                ask(a, from, y, near.leads_out());
                ask(b, y, to, far.leads_out());
            }
        }
        let mut counts = [0; 2];
        for (side, requests) in requests.iter().enumerate() {
            let (answers, count) = assign(requests);
            counts[side] = count;
            self.lanes.extend(
                answers
                    .into_iter()
                    .map(|(wire, lane)| ((side == 1, wire), lane)),
            );
        }
        counts
    }

    /// The columns of the joints before a brake.
    fn columns_before(&self, body: usize) -> Vec<usize> {
        let mut columns = Vec::new();
        for mut wire in self.arrangement.ending_at(body) {
            while self.arrangement.wires[wire].way == Way::Rib {
                let joint = self.arrangement.wires[wire].near;
                columns.push(self.arrangement.column[joint.index()]);
                wire = self.arrangement.ending[joint.index()][0];
            }
        }
        columns
    }

    fn route(&self, index: usize) -> Route {
        let wire = self.arrangement.wires[index];
        match wire.way {
            Way::Rib => self.rib(index),
            Way::Bridge => self.bridge(index),
            Way::Net if self.placed.is_straight(index) => self.straight(index),
            Way::Net => self.net(index),
        }
    }

    fn straight(&self, index: usize) -> Route {
        let near_body = self.arrangement.near_body(index);
        let near = &self.placed.core[&near_body];
        let far = &self.placed.core[&self.arrangement.far_body(index)];
        let x = self.across.core;
        // From the lowest dot of a joint, from the lower edge of anything else.
        let is_junction = self.arrangement.is_junction(near_body);
        let above = if is_junction { GRID } else { 0.0 };
        let from = Point::new(x, near.top + near.height - above);
        let to = Point::new(x, far.top);
        Route {
            points: vec![from, to],
            tag: to.moved(0.0, -TAG_ROOM / 2.0),
            free: Some((from, to)),
        }
    }

    fn rib(&self, index: usize) -> Route {
        let start = self.near_end(index).points[0];
        let end = self.far_end(index).points[0];
        let corner = Point::new(start.x, end.y);
        let mut points = vec![start];
        if !is_level(start.y, end.y) {
            points.push(corner);
        }
        points.push(end);
        levelled(points, corner, end)
    }

    fn bridge(&self, index: usize) -> Route {
        let start = self.near_end(index).points[0];
        let end = self.far_end(index).points[0];
        let is_right = self.arrangement.runs_right(index);
        let x = if is_right {
            start.x - BRIDGE
        } else {
            start.x + BRIDGE
        };
        let corner = Point::new(x, end.y);
        levelled(
            vec![start, Point::new(x, start.y), corner, end],
            corner,
            end,
        )
    }

    fn net(&self, index: usize) -> Route {
        let wire = self.arrangement.wires[index];
        let (near, far) = (self.near_end(index), self.far_end(index));
        let mut points = near.points.clone();
        let (Some(from), Some(to)) = (near.points.last().copied(), far.points.last().copied())
        else {
            return Route::default();
        };
        let own = self.arrangement.runs_right(index);
        let sides = [near.is_right.unwrap_or(own), far.is_right.unwrap_or(own)];
        if self.placed.is_direct(index) {
            let x = self.inlet_x(self.arrangement.far_body(index), index);
            points.push(Point::new(x, from.y));
        } else if let Some(y) = self.crossings.get(&index) {
            for (side, from, to) in [(sides[0], from.y, *y), (sides[1], *y, to.y)] {
                let x = self.lane(side, index);
                points.extend([Point::new(x, from), Point::new(x, to)]);
            }
        } else if !is_level(from.y, to.y) {
            let x = self.lane(sides[0], index);
            points.extend([Point::new(x, from.y), Point::new(x, to.y)]);
        }
        let far_body = self.arrangement.far_body(index);
        if self.placed.is_direct(index) {
            points.push(Point::new(
                points[points.len() - 1].x,
                self.placed.core[&far_body].top,
            ));
        } else {
            points.extend(far.points.iter().rev());
        }
        points.dedup_by(|a, b| is_level(a.x, b.x) && is_level(a.y, b.y));
        let end = points[points.len() - 1];
        let at_wheel = [&far, &near]
            .into_iter()
            .find_map(|end| Some((end.points[0], end.is_right?)));
        if let Some((end, is_right)) = at_wheel {
            let edge = Point::new(self.across.out(is_right, HALF), end.y);
            return levelled(points, edge, end);
        }
        let ends_sideways =
            self.placed.side_ports.contains_key(&(far_body, index)) && !far.points.is_empty();
        let mut free = None;
        let tag = if ends_sideways && !self.placed.in_tracks.contains_key(&index) {
            let outward = f64::midpoint(PITCH / 2.0, self.across.core_half);
            Point::new(
                if sides[1] {
                    end.x + outward
                } else {
                    end.x - outward
                },
                end.y,
            )
        } else if wire.closes {
            // Below a valve or a cylinder.
            Point::new(end.x, end.y + TAG_ROOM / 2.0)
        } else {
            free = Some((end.moved(0.0, -TAG_ROOM), end));
            Point::new(end.x, end.y - TAG_ROOM / 2.0)
        };
        Route { points, tag, free }
    }

    fn lane(&self, is_right: bool, wire: usize) -> f64 {
        let lane = self
            .lanes
            .get(&(is_right, wire))
            .copied()
            .unwrap_or_default();
        let inward = GRID * (lane + 1) as f64;
        self.across.out(is_right, -inward)
    }
}

/// A way that ends in a level piece which no other line touches.
fn levelled(points: Vec<Point>, from: Point, to: Point) -> Route {
    Route {
        points,
        tag: Point::new(f64::midpoint(from.x, to.x), from.y),
        free: Some((from, to)),
    }
}

/// A joint stands in the row of the first brake behind it.
pub(super) fn row_of_joint(arrangement: &Arrangement<'_>, placed: &Placed, cell: CellId) -> f64 {
    let mut cell = cell;
    loop {
        let wire = arrangement.leading_on[cell.index()][0];
        let far = arrangement.wires[wire].far;
        let body = arrangement.body_of_cell[far.index()];
        if let Seat::Joint(_) = arrangement.bodies[body].seat {
            cell = far;
        } else {
            return placed.rows.get(&(wire, body)).copied().unwrap_or_default();
        }
    }
}
