//! Heights of the brakes of one site.

use super::arrange::{Arrangement, Site, Way};
use super::boxes::UnitShape;
use super::measure::beside_grid;
use super::place::{Placed, UnitBox};
use std::collections::BTreeSet;

/// How much longer than needed an axle may become so that a line runs straight to its brake.
const LEEWAY: f64 = 24.0;

impl Placed {
    /// Puts the brakes of a site below each other, each where its line runs straight if there is room.
    pub(super) fn place_units(
        &mut self,
        arrangement: &Arrangement<'_>,
        site: Site,
        shapes: Vec<UnitShape>,
        start: f64,
        mut latest: f64,
    ) -> f64 {
        let Some(units) = arrangement.sites.get(&site) else {
            return start;
        };
        let taken: BTreeSet<i64> = self.side_ports.range(..).map(|(_, y)| halves(*y)).collect();
        let mut y = start;
        for (unit, shape) in units.iter().zip(shapes) {
            let mut room = y;
            let mut is_level = false;
            if let Some((row, port)) =
                unit.entries
                    .iter()
                    .zip(&shape.rows)
                    .find_map(|(entry, row)| {
                        self.port_before(arrangement, unit.body, entry.wire)
                            .map(|port| (*row, port))
                    })
            {
                let wished = port - row - shape.above;
                let is_free = shape.rows[1..]
                    .iter()
                    .all(|other| !taken.contains(&halves(port - row + other)));
                is_level = wished >= y && wished <= latest + LEEWAY && is_free;
                room = if is_level {
                    wished
                } else {
                    wished.clamp(y, latest.max(y))
                };
            }
            let first = shape.rows.first().copied().unwrap_or_default();
            if !is_level {
                room = beside_grid(room + shape.above + first) - first - shape.above;
            }
            let top = room + shape.above;
            for (entry, row) in unit.entries.iter().zip(&shape.rows) {
                self.rows.insert((entry.wire, unit.body), top + row);
            }
            y = top + shape.body + shape.below;
            latest += shape.height();
            self.units.push(UnitBox {
                site,
                body: unit.body,
                top,
                shape,
                leads_on: unit.leads_on,
            });
        }
        y
    }

    /// The height of the side port that the line to a brake's row comes from.
    fn port_before(&self, arrangement: &Arrangement<'_>, body: usize, wire: usize) -> Option<f64> {
        let mut wire = wire;
        if arrangement.far_body(wire) != body {
            return None;
        }
        while arrangement.wires[wire].way == Way::Rib {
            let joint = arrangement.wires[wire].near;
            if arrangement.leading_on[joint.index()].first() != Some(&wire) {
                return None;
            }
            wire = arrangement.ending[joint.index()][0];
        }
        let near = arrangement.near_body(wire);
        self.side_ports.get(&(near, wire)).copied()
    }
}

/// A height in steps that can be compared.
fn halves(height: f64) -> i64 {
    (height * 2.0).round() as i64
}
