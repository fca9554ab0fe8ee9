//! Heights: of the head, of the middle column, of the brakes beside it.

use super::arrange::{Arrangement, Seat, Site};
use super::boxes::{Shape, UnitShape};
use super::measure::{GRID, HALF, PITCH, TAG_ROOM, on_grid};
use std::collections::BTreeMap;

/// Everything with its height; zero is the lower edge of the head.
#[derive(Default)]
pub(super) struct Placed {
    /// The cylinders from left to right, each with its left side.
    pub(super) head: Vec<(usize, f64, Shape)>,
    pub(super) core: BTreeMap<usize, CoreBox>,
    /// In the order of their bodies.
    pub(super) units: Vec<UnitBox>,
    /// The track below its body that a line from a cylinder or a valve takes, by body and line.
    pub(super) out_tracks: BTreeMap<(usize, usize), f64>,
    /// The track above its body.
    pub(super) in_tracks: BTreeMap<usize, f64>,
    /// Where a line leaves a joint of the middle column sideways, by joint and line.
    pub(super) side_ports: BTreeMap<(usize, usize), f64>,
    /// Lines that go straight down to the next body of the column.
    pub(super) straight: Vec<usize>,
    /// Lines that need no lane, since they lead to the next body of the column.
    pub(super) direct: Vec<usize>,
    /// Where lines enter the brakes, by line and brake.
    pub(super) rows: BTreeMap<(usize, usize), f64>,
    pub(super) bottom: f64,
}

/// A body of the middle column.
pub(super) struct CoreBox {
    pub(super) shape: Shape,
    pub(super) top: f64,
    pub(super) height: f64,
    pub(super) label_lines: usize,
}

pub(super) struct UnitBox {
    pub(super) site: Site,
    pub(super) body: usize,
    pub(super) top: f64,
    pub(super) shape: UnitShape,
    pub(super) leads_on: bool,
}

/// Between the brakes of one axle and those of the next.
const AXLE_GAP: f64 = 3.0;
/// Between one cylinder and the next.
const CYLINDER_GAP: f64 = 6.0;

impl Placed {
    pub(super) fn new(
        arrangement: &Arrangement<'_>,
        label_lines: impl Fn(usize, &Shape) -> usize,
    ) -> Self {
        let mut placed = Self::default();
        placed.line_up_cylinders(arrangement);
        placed.find_short_ways(arrangement);
        placed.stack(arrangement, label_lines);
        placed.units.sort_by_key(|unit| unit.body);
        placed
    }

    fn line_up_cylinders(&mut self, arrangement: &Arrangement<'_>) {
        let mut left = 0.0;
        for body in (0..arrangement.bodies.len())
            .filter(|body| arrangement.bodies[*body].seat == Seat::Head)
        {
            let shape = arrangement.cylinder_shape(body);
            let next = left + shape.width + CYLINDER_GAP;
            self.head.push((body, left, shape));
            left = next;
        }
    }

    /// Lines between a body and the next one of the column.
    fn find_short_ways(&mut self, arrangement: &Arrangement<'_>) {
        let mut above: Vec<usize> = self.head.iter().map(|head| head.0).collect();
        for (body, _) in &arrangement.core {
            let cells = &arrangement.bodies[*body].cells;
            let inlets: Vec<usize> = cells
                .iter()
                .flat_map(|cell| arrangement.inlets(*cell))
                .collect();
            let from_above = |wire: &usize| {
                let near = arrangement.near_body(*wire);
                above.contains(&near).then_some(near)
            };
            for wire in &inlets {
                let Some(near) = from_above(wire) else {
                    continue;
                };
                let is_single = inlets.len() == 1 && cells.len() == 1;
                let leaves_in_the_middle = arrangement.is_junction(near)
                    || arrangement.bodies[near].seat == Seat::Core
                        && arrangement.bodies[near].cells.len() == 1
                        && arrangement.outlets(arrangement.bodies[near].cells[0]).len() == 1;
                if is_single && leaves_in_the_middle {
                    self.straight.push(*wire);
                } else if !arrangement.is_junction(near) {
                    self.direct.push(*wire);
                }
            }
            above = vec![*body];
        }
        self.straight.sort_unstable();
        self.direct.sort_unstable();
    }

    pub(super) fn is_straight(&self, wire: usize) -> bool {
        self.straight.binary_search(&wire).is_ok()
    }

    pub(super) fn is_direct(&self, wire: usize) -> bool {
        self.direct.binary_search(&wire).is_ok()
    }

    fn stack(
        &mut self,
        arrangement: &Arrangement<'_>,
        label_lines: impl Fn(usize, &Shape) -> usize,
    ) {
        let mut ends = [0.0_f64; 2];
        let head = self.head.iter().flat_map(|(body, left, shape)| {
            let outlets = shape.cells.iter().flat_map(|cell| &cell.outlets);
            outlets.map(move |(wire, x)| (*body, *wire, left + x))
        });
        let head: Vec<_> = head.collect();
        let mut core_end = self.add_out_tracks(arrangement, head, 0.0, true);
        let mut axles: Vec<u8> = arrangement.core.iter().map(|(_, axle)| *axle).collect();
        axles.extend(arrangement.sites.keys().map(|site| site.axle));
        axles.sort_unstable();
        axles.dedup();
        let mut core = arrangement.core.iter().peekable();
        for axle in axles {
            let gap = if self.units.is_empty() { 0.0 } else { AXLE_GAP };
            let start = on_grid(core_end.max(ends[0]).max(ends[1]) + gap);
            let mut here = Vec::new();
            while let Some((body, _)) = core.next_if(|(_, other)| *other == axle) {
                here.push(*body);
            }
            let shapes =
                [false, true].map(|is_right| unit_shapes(arrangement, Site { axle, is_right }));
            let heights =
                [0, 1].map(|side: usize| shapes[side].iter().map(UnitShape::height).sum::<f64>());
            let tallest = heights[0].max(heights[1]);
            if !here.is_empty() {
                let before = core_end;
                core_end = self.stack_core(arrangement, &here, before, &label_lines);
                // Parts stand in the middle of their axle, not at its upper end.
                let spare = (tallest - (core_end - before)).max(0.0);
                let shift = on_grid(start - before + spare / 2.0);
                self.shift_core(arrangement, &here, shift);
                core_end += shift;
            }
            let block_end = core_end.max(start + tallest);
            for (side, shapes) in shapes.into_iter().enumerate() {
                let site = Site {
                    axle,
                    is_right: side == 1,
                };
                ends[side] =
                    self.place_units(arrangement, site, shapes, start, block_end - tallest);
            }
        }
        self.bottom = on_grid(core_end.max(ends[0]).max(ends[1]));
    }

    /// Puts bodies below each other, from `start` on; gives where the last one ends, its tracks included.
    fn stack_core(
        &mut self,
        arrangement: &Arrangement<'_>,
        bodies: &[usize],
        start: f64,
        label_lines: &impl Fn(usize, &Shape) -> usize,
    ) -> f64 {
        let mut y = start;
        for body in bodies {
            let shape = arrangement.core_shape(*body);
            let mut arriving: Vec<(usize, f64)> = shape
                .cells
                .iter()
                .flat_map(|cell| cell.inlets.iter().copied())
                .filter(|(wire, _)| !self.is_straight(*wire) && !self.is_direct(*wire))
                .collect();
            // The outermost one has the lowest track, so that the others pass above it.
            arriving.sort_by(|a, b| {
                let key = |wire: usize, x: f64| {
                    if arrangement.runs_right(wire) {
                        (1, x)
                    } else {
                        (0, -x)
                    }
                };
                let (a, b) = (key(a.0, a.1), key(b.0, b.1));
                a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
            });
            if !arriving.is_empty() {
                y += GRID;
            }
            for (wire, _) in arriving {
                self.in_tracks.insert(wire, y);
                y += GRID;
            }
            let is_hose = |wire: &usize| {
                let line = &arrangement.network.layout().lines[arrangement.wires[*wire].line];
                self.is_straight(*wire)
                    && matches!(line.kind, bleedwright_network::LineKind::Hose { .. })
            };
            if shape
                .cells
                .iter()
                .flat_map(|cell| &cell.inlets)
                .any(|(wire, _)| is_hose(wire))
            {
                // Room for waves.
                y += GRID;
            }
            let lines = label_lines(*body, &shape);
            y += if lines > 1 { TAG_ROOM + GRID } else { TAG_ROOM };
            let top = on_grid(y);
            let height = self.add_ports(arrangement, *body, top);
            y = top + height;
            let outlets = shape.cells.iter().flat_map(|cell| &cell.outlets);
            let leaving = outlets
                .filter(|(wire, _)| !self.is_straight(*wire))
                .map(|(wire, x)| (*body, *wire, *x));
            let leaving: Vec<_> = leaving.collect();
            y = self.add_out_tracks(arrangement, leaving, y, false);
            self.core.insert(
                *body,
                CoreBox {
                    shape,
                    top,
                    height,
                    label_lines: lines,
                },
            );
        }
        y
    }

    /// Side ports of a joint; gives the height of the body.
    fn add_ports(&mut self, arrangement: &Arrangement<'_>, body: usize, top: f64) -> f64 {
        if !arrangement.is_junction(body) {
            return 9.0;
        }
        let mut counts = [0_usize; 2];
        for wire in arrangement.outlets(arrangement.bodies[body].cells[0]) {
            if self.is_straight(wire) {
                continue;
            }
            let side = usize::from(arrangement.runs_right(wire));
            self.side_ports
                .insert((body, wire), top + GRID + PITCH * counts[side] as f64);
            counts[side] += 1;
        }
        PITCH * counts[0].max(counts[1]).max(1) as f64
    }

    /// Tracks below a body; gives the lower end of their room.
    fn add_out_tracks(
        &mut self,
        arrangement: &Arrangement<'_>,
        mut leaving: Vec<(usize, usize, f64)>,
        bottom: f64,
        is_head: bool,
    ) -> f64 {
        use bleedwright_network::Steering;
        if leaving.is_empty() {
            return bottom;
        }
        let steering = arrangement.network.layout().steering;
        leaving.sort_by(|a, b| {
            let key = |wire: usize, x: f64| {
                let is_direct = !is_head && self.is_direct(wire);
                let goes_right = match (is_head, steering) {
                    (true, Some(Steering::Left)) => true,
                    (true, Some(Steering::Right)) => false,
                    _ => arrangement.runs_right(wire),
                };
                (is_direct, if goes_right { -x } else { x })
            };
            let (a, b) = (key(a.1, a.2), key(b.1, b.2));
            a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
        });
        // Where a loop is closed, the number of the line stands here.
        let closes = leaving
            .iter()
            .any(|(_, wire, _)| arrangement.wires[*wire].closes);
        let mut y = bottom + if closes { TAG_ROOM } else { GRID };
        for (body, wire, _) in leaving {
            self.out_tracks.insert((body, wire), y);
            y += GRID;
        }
        y
    }

    fn shift_core(&mut self, arrangement: &Arrangement<'_>, bodies: &[usize], shift: f64) {
        for body in bodies {
            let found = self.core.get_mut(body).expect("it was just stacked");
            found.top += shift;
            for cell in &arrangement.bodies[*body].cells {
                for wire in arrangement.inlets(*cell) {
                    self.in_tracks.entry(wire).and_modify(|y| *y += shift);
                }
                for wire in arrangement.outlets(*cell) {
                    self.out_tracks
                        .entry((*body, wire))
                        .and_modify(|y| *y += shift);
                    self.side_ports
                        .entry((*body, wire))
                        .and_modify(|y| *y += shift);
                }
            }
        }
    }
}

fn unit_shapes(arrangement: &Arrangement<'_>, site: Site) -> Vec<UnitShape> {
    let units = arrangement.sites.get(&site);
    units
        .into_iter()
        .flatten()
        .map(|unit| {
            UnitShape::of(
                unit,
                arrangement.part(unit.body).expect("a brake is a part"),
            )
        })
        .collect()
}

/// How far two heights may differ and still be one.
pub(super) fn is_level(a: f64, b: f64) -> bool {
    (a - b).abs() < HALF / 10.0
}
