//! Where lines leave and enter bodies.

use super::arrange::Seat;
use super::measure::HEAD_FOOT;
use super::route::{Router, row_of_joint};
use crate::picture::Point;
use bleedwright_network::CellId;

/// One end of a line that uses the lanes: its points, the last of them where it leaves for its lane.
pub(super) struct End {
    pub(super) points: Vec<Point>,
    /// The side of the wheel that it is at; none in the middle.
    pub(super) is_right: Option<bool>,
}

impl End {
    fn at_wheel(is_right: bool, place: Point) -> Self {
        Self {
            points: vec![place],
            is_right: Some(is_right),
        }
    }

    fn in_the_middle(points: Vec<Point>) -> Self {
        Self {
            points,
            is_right: None,
        }
    }

    /// Where it leaves for its lane.
    pub(super) fn height(&self) -> f64 {
        self.points.last().map_or(0.0, |point| point.y)
    }

    pub(super) fn leads_out(&self) -> bool {
        self.is_right.is_some()
    }
}

impl Router<'_, '_> {
    pub(super) fn near_end(&self, wire: usize) -> End {
        self.end(wire, self.arrangement.wires[wire].near, true)
    }

    pub(super) fn far_end(&self, wire: usize) -> End {
        self.end(wire, self.arrangement.wires[wire].far, false)
    }

    fn end(&self, wire: usize, cell: CellId, is_near: bool) -> End {
        let index = self.arrangement.body_of_cell[cell.index()];
        let across = &self.across;
        match self.arrangement.bodies[index].seat {
            Seat::Brake(site) => {
                let y = self
                    .placed
                    .rows
                    .get(&(wire, index))
                    .copied()
                    .unwrap_or_default();
                End::at_wheel(site.is_right, Point::new(across.face(site.is_right), y))
            }
            Seat::Joint(site) => {
                let x = across.joint(site.is_right, self.arrangement.column[cell.index()]);
                let y = row_of_joint(self.arrangement, self.placed, cell);
                End::at_wheel(site.is_right, Point::new(x, y))
            }
            Seat::Head => {
                // Cylinders are the first bodies.
                let x = self.placed.head.get(index).and_then(|(_, left, shape)| {
                    let outlets = shape.cells.iter().flat_map(|cell| &cell.outlets);
                    outlets
                        .into_iter()
                        .find(|(other, _)| *other == wire)
                        .map(|(_, x)| left + x)
                });
                let x = across.head + x.unwrap_or_default();
                self.outlet(index, wire, x, -HEAD_FOOT)
            }
            Seat::Core => self.core_end(index, wire, is_near),
        }
    }

    fn outlet(&self, body: usize, wire: usize, x: f64, bottom: f64) -> End {
        let track = self
            .placed
            .out_tracks
            .get(&(body, wire))
            .copied()
            .unwrap_or(bottom);
        End::in_the_middle(vec![Point::new(x, bottom), Point::new(x, track)])
    }

    fn core_end(&self, index: usize, wire: usize, is_near: bool) -> End {
        let found = &self.placed.core[&index];
        if !is_near && let Some(track) = self.placed.in_tracks.get(&wire) {
            let x = self.inlet_x(index, wire);
            return End::in_the_middle(vec![Point::new(x, found.top), Point::new(x, *track)]);
        }
        if let Some(y) = self.placed.side_ports.get(&(index, wire)) {
            return End::in_the_middle(vec![Point::new(self.across.core, *y)]);
        }
        let outlets = found.shape.cells.iter().flat_map(|cell| &cell.outlets);
        let x = outlets
            .into_iter()
            .find(|(other, _)| *other == wire)
            .map_or(0.0, |(_, x)| *x);
        self.outlet(index, wire, self.across.core + x, found.top + found.height)
    }

    pub(super) fn inlet_x(&self, body: usize, wire: usize) -> f64 {
        let inlets = self.placed.core[&body]
            .shape
            .cells
            .iter()
            .flat_map(|cell| &cell.inlets);
        let found = inlets.into_iter().find(|(other, _)| *other == wire);
        self.across.core + found.map_or(0.0, |(_, x)| *x)
    }
}
