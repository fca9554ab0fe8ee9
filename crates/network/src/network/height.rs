//! How high things stand.

use super::Network;
use crate::bounds::Bounds;
use crate::graph::{LinkId, LinkKind, Owner};
use crate::layout::Position;
use uom::si::f64::Length;

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
}
