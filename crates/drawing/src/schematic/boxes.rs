//! How large the bodies are, and where lines leave and enter them, before they have a place.

use super::arrange::{Arrangement, Seat, Unit};
use super::label;
use super::measure::{
    BRAKE_WIDTH, BRIDGE, CHAMBER, COLUMN, GRID, HALF, LEADING, PASSAGE, PITCH, ROD, SCREW_ROOM,
    beside_grid, on_grid,
};
use bleedwright_network::{BrakeKind, CellId, Part, PartKind};

/// A cylinder, or a body of the middle column.
#[derive(Clone, Debug)]
pub(super) struct Shape {
    pub(super) width: f64,
    /// For each of its cells: its left side, its width, where lines enter at the top and leave at the bottom. From the
    /// left side of a cylinder, from the middle of other bodies.
    pub(super) cells: Vec<CellShape>,
}

/// From one screw above a passage to the next.
pub(super) const SCREW_PITCH: f64 = 5.4;

#[derive(Clone, Debug)]
pub(super) struct CellShape {
    pub(super) left: f64,
    pub(super) width: f64,
    pub(super) inlets: Vec<(usize, f64)>,
    pub(super) outlets: Vec<(usize, f64)>,
}

impl Arrangement<'_> {
    /// Lines that enter a cell.
    pub(super) fn inlets(&self, cell: CellId) -> Vec<usize> {
        self.ending[cell.index()]
            .iter()
            .copied()
            .filter(|wire| !self.wires[*wire].closes)
            .collect()
    }

    /// Lines that leave a cell, those to the left first; lines that close a loop count here at both ends.
    pub(super) fn outlets(&self, cell: CellId) -> Vec<usize> {
        let closing = self.ending[cell.index()]
            .iter()
            .filter(|wire| self.wires[**wire].closes);
        let mut outlets: Vec<usize> = self.leading_on[cell.index()]
            .iter()
            .chain(closing)
            .copied()
            .collect();
        outlets.sort_by_key(|wire| (self.runs_right(*wire), *wire));
        outlets
    }

    /// The side that a line takes on its way.
    pub(super) fn runs_right(&self, wire: usize) -> bool {
        let wire = &self.wires[wire];
        for cell in [wire.far, wire.near] {
            if let Seat::Joint(site) | Seat::Brake(site) = self.body(cell).seat {
                return site.is_right;
            }
        }
        self.network
            .circuit_of_cell(wire.near)
            .is_some_and(|circuit| circuit.index() % 2 == 1)
    }

    /// A cylinder: rod and booster, then its chambers.
    pub(super) fn cylinder_shape(&self, body: usize) -> Shape {
        let mut left = ROD;
        let mut cells = Vec::new();
        for cell in &self.bodies[body].cells {
            let outlets = self.outlets(*cell);
            // Screws hang from its lower edge, before the outlets.
            let screws = self.network.screws_on(*cell).count() as f64;
            let needed = outlets.len() as f64 * PITCH + GRID + 2.0 * SCREW_PITCH * screws;
            let width = CHAMBER.max(on_grid(needed));
            cells.push(CellShape {
                left,
                width,
                inlets: Vec::new(),
                outlets: spread(outlets, beside_grid, left + width / 2.0),
            });
            left += width;
        }
        Shape { width: left, cells }
    }

    /// A body of the middle column.
    pub(super) fn core_shape(&self, body: usize) -> Shape {
        let cells = &self.bodies[body].cells;
        if self.is_junction(body) {
            let inlets = self
                .inlets(cells[0])
                .into_iter()
                .map(|wire| (wire, 0.0))
                .collect();
            let cell = CellShape {
                left: -HALF,
                width: GRID,
                inlets,
                outlets: Vec::new(),
            };
            return Shape {
                width: GRID,
                cells: vec![cell],
            };
        }
        let ports: Vec<(Vec<usize>, Vec<usize>)> = cells
            .iter()
            .map(|cell| (self.inlets(*cell), self.outlets(*cell)))
            .collect();
        if let [(inlets, outlets)] = &ports[..]
            && inlets.len() <= 1
            && outlets.len() <= 1
        {
            let middle = |wires: &[usize]| wires.iter().map(|wire| (*wire, 0.0)).collect();
            let cell = CellShape {
                left: -PASSAGE / 2.0,
                width: PASSAGE,
                inlets: middle(inlets),
                outlets: middle(outlets),
            };
            return Shape {
                width: PASSAGE,
                cells: vec![cell],
            };
        }
        let widths = ports.iter().map(|(inlets, outlets)| {
            let most = inlets.len().max(outlets.len());
            PASSAGE.max(on_grid(most as f64 * PITCH + GRID))
        });
        let screws = cells
            .iter()
            .map(|cell| self.network.screws_on(*cell).count() as f64);
        let widths = widths
            .zip(screws)
            .map(|(width, screws)| on_grid(width + SCREW_PITCH * screws));
        let widths: Vec<f64> = widths.collect();
        let width: f64 = widths.iter().sum();
        let mut left = -(width / 2.0 / GRID).floor() * GRID;
        let mut shapes = Vec::new();
        for ((inlets, outlets), width) in ports.into_iter().zip(widths) {
            let middle = left + width / 2.0;
            shapes.push(CellShape {
                left,
                width,
                inlets: spread(inlets, on_grid, middle),
                outlets: spread(outlets, beside_grid, middle),
            });
            left += width;
        }
        Shape {
            width,
            cells: shapes,
        }
    }
}

fn spread(wires: Vec<usize>, snap: fn(f64) -> f64, middle: f64) -> Vec<(usize, f64)> {
    let first = snap(middle - (wires.len().max(1) - 1) as f64 * PITCH / 2.0 - HALF);
    wires
        .into_iter()
        .enumerate()
        .map(|(nth, wire)| (wire, first + nth as f64 * PITCH))
        .collect()
}

/// A brake from its upper end to its lower one.
#[derive(Clone, Debug)]
pub(super) struct UnitShape {
    /// From the upper edge of its room to that of its body.
    pub(super) above: f64,
    pub(super) body: f64,
    /// From the lower edge of its body to that of its room.
    pub(super) below: f64,
    /// Where each of its lines enters, from the upper edge of its body.
    pub(super) rows: Vec<f64>,
    /// Each cavity: its upper edge and its height, from the upper edge of its body.
    pub(super) cavities: Vec<(f64, f64)>,
    /// Where the disc lies between the cavities of a caliper.
    pub(super) slot: f64,
    /// Screws at the upper and at the lower edge, by their place in the part's list.
    pub(super) screws: [Vec<usize>; 2],
}

/// How far the name of a brake may reach from the brake's inner face, outward and inward.
pub(super) fn label_reach(leads_on: bool) -> (f64, f64) {
    (
        BRAKE_WIDTH + 6.5,
        if leads_on { BRIDGE - 2.0 } else { COLUMN - 2.5 },
    )
}

/// How high the room for the first line of a cavity is.
const ROW: f64 = 9.0;
/// How high the room for the disc is.
const SLOT: f64 = 3.0;

impl UnitShape {
    pub(super) fn of(unit: &Unit, part: &Part) -> Self {
        let PartKind::Brake(brake) = &part.kind else {
            unreachable!("only brakes stand at wheels");
        };
        let is_caliper = matches!(brake.kind, BrakeKind::Caliper { .. });
        let count = brake.cavities.len().max(1);
        let mut rows = vec![0.0; unit.entries.len()];
        let mut cavities = Vec::new();
        let (mut y, mut slot) = (0.0, 0.0);
        for cavity in 0..count {
            let top = y;
            let mut row = top + ROW / 2.0;
            let mut bottom = top + ROW;
            for (nth, _) in unit
                .entries
                .iter()
                .enumerate()
                .filter(|(_, entry)| entry.cavity == cavity)
            {
                rows[nth] = row;
                bottom = bottom.max(row + ROW / 2.0);
                row += ROW;
            }
            cavities.push((top, bottom - top));
            y = bottom;
            if is_caliper && cavity + 1 == count.div_ceil(2) {
                slot = y;
                y += SLOT;
            }
        }
        if is_caliper && count == 1 {
            // The claw that reaches around the disc.
            y += SLOT;
        }
        let mut screws = [Vec::new(), Vec::new()];
        for (nth, screw) in part.screws.iter().enumerate() {
            let named =
                |cavity: &bleedwright_network::Cavity| Some(&cavity.id) == screw.chamber.as_ref();
            let cavity = brake.cavities.iter().position(named).unwrap_or(0);
            screws[usize::from(cavity >= count.div_ceil(2))].push(nth);
        }
        let (outward, inward) = label_reach(unit.leads_on);
        let lines = label::wrapped(&part.id, outward + inward, 2).len() as f64;
        let room =
            |screws: &Vec<usize>, least: f64| if screws.is_empty() { least } else { SCREW_ROOM };
        Self {
            above: room(&screws[0], GRID),
            body: y,
            below: room(&screws[1], HALF) + lines * LEADING + HALF,
            rows,
            cavities,
            slot,
            screws,
        }
    }

    pub(super) fn height(&self) -> f64 {
        self.above + self.body + self.below
    }
}
