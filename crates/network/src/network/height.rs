//! How high things stand.

use super::Network;
use crate::bounds::Bounds;
use crate::graph::{CellId, LinkId, LinkKind, Owner};
use crate::layout::Position;
use crate::place::Place;
use crate::profile::{Spot, clearly, less};
use uom::si::f64::Length;

/// What feeds a brake and stands lower.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lower {
    /// A reservoir, by its place in the layout.
    Reservoir(usize),
    /// A cylinder, by its place in the layout.
    Cylinder(usize),
}

/// That a brake stands higher than what feeds it.
#[derive(Clone, Copy, Debug)]
pub struct BelowBrake {
    /// What stands lower.
    pub what: Lower,
    /// How much lower.
    pub by: Bounds<Length>,
    /// Whether the fluid itself may stand lower, so that an open screw draws air: not where the reservoir is known to
    /// stand above the brake, though its cylinder does not.
    pub may_draw_air: bool,
}

impl Network {
    /// The height above the ground of what a cell belongs to: as stated, else
    /// from its position; none where the layout gives neither.
    pub fn height_of(&self, owner: Owner) -> Option<Bounds<Length>> {
        let stated = |height: Option<Bounds<Length>>, position: Option<Position>| {
            height.or(position.and_then(|position| position.z))
        };
        match owner {
            Owner::Part(part, _) => {
                let part = &self.layout.parts[part];
                stated(part.height, part.position)
            }
            Owner::Cylinder(cylinder, _) => {
                let cylinder = &self.layout.cylinders[cylinder];
                stated(cylinder.height, cylinder.position)
            }
        }
    }

    /// How steeply a line rises from the cylinder's side to the other: the sine
    /// of its mean slope, between -1 and 1; none where the layout does not give
    /// the heights of both ends, or the link is no pipe or hose.
    pub fn slope_of(&self, link: LinkId) -> Option<f64> {
        let LinkKind::Line(index) = self.link(link).kind else {
            return None;
        };
        let length = self.layout.lines[index].length().nominal;
        let [a, b] = self.link_ends(link);
        let is_far = |cell| self.step_to(cell).is_some_and(|(_, step)| step == link);
        let (near, far) = if is_far(b) { (a, b) } else { (b, a) };
        let height = |cell| Some(self.height_of(self.cell(cell).owner)?.nominal);
        let rise = height(far)? - height(near)?;
        (length > Length::default()).then(|| (rise / length).value.clamp(-1.0, 1.0))
    }

    /// What feeds a cell and stands clearly lower, as far as tolerances leave that open: the reservoir, else the
    /// cylinder. None where it does not, or where the heights are not given.
    pub fn below_brake(&self, cell: CellId) -> Option<BelowBrake> {
        let circuit = self.circuit(self.circuit_of_cell(cell)?);
        let upper = self.height_of(self.cell(cell).owner)?;
        let above = |lower: Bounds<Length>| {
            let by = less(upper, lower);
            (by.high > clearly()).then_some(by)
        };
        let reservoir = circuit.compartment.and_then(|(reservoir, _)| {
            Some((reservoir, self.layout.reservoirs[reservoir].height?))
        });
        if let Some((reservoir, height)) = reservoir
            && let Some(by) = above(height)
        {
            return Some(BelowBrake {
                what: Lower::Reservoir(reservoir),
                by,
                may_draw_air: true,
            });
        }
        let height = self.height_of(self.cell(circuit.chamber).owner)?;
        above(height).map(|by| BelowBrake {
            what: Lower::Cylinder(circuit.cylinder),
            by,
            may_draw_air: reservoir.is_none(),
        })
    }

    /// The name of what stands at a height: the part, or the line that the point lies in.
    pub fn spot_name(&self, spot: Spot) -> String {
        match spot {
            Spot::Cell(cell) => self.cell_name(cell),
            Spot::Via(link, _) => self.link_name(link),
        }
    }

    /// Where the layout file says how high something stands.
    pub fn place_of_spot(&self, spot: Spot) -> Place {
        match spot {
            Spot::Cell(cell) => match self.cell(cell).owner {
                Owner::Part(index, _) => {
                    let is_stated = self.layout.parts[index].height.is_some();
                    let field = if is_stated { "height" } else { "position" };
                    Place::item("parts", index).field(field)
                }
                Owner::Cylinder(index, _) => Place::item("cylinders", index).field("height"),
            },
            Spot::Via(link, nth) => match self.link(link).kind {
                LinkKind::Line(index) => Place::item("lines", index)
                    .field("via")
                    .nth(nth)
                    .field("height"),
                LinkKind::Crossover(part) => Place::item("parts", part).field("id"),
            },
        }
    }
}
