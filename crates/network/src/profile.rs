//! How high the pipework stands along a run, and where on it air would stay.

use crate::bounds::Bounds;
use crate::graph::{CellId, LinkId, LinkKind};
use crate::network::{Element, Network, ScrewId};
use std::collections::HashMap;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// What is clearly higher is higher by more than this.
///
/// ASSUMPTION: 5 mm, no source: about a bore, and less than a tape tells.
pub(crate) fn clearly() -> Length {
    Length::new::<millimeter>(5.0)
}

/// Something whose height is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Spot {
    /// A chamber, a part, or one passage or cavity of it.
    Cell(CellId),
    /// A point inside a line, by its place in the line's `via` as written.
    Via(LinkId, usize),
}

/// A point of a run whose height is known.
#[derive(Clone, Copy, Debug)]
pub struct ProfilePoint {
    /// What it is.
    pub spot: Spot,
    /// Its height above the ground.
    pub height: Bounds<Length>,
    /// The element of the screw's [`Network::run`] that it is, or that it lies in; none for the chamber, which the
    /// run leaves out.
    pub element: Option<usize>,
    /// For a point inside a line whose place is stated: how far from the line's end on the cylinder's side.
    pub into: Option<Bounds<Length>>,
}

/// The heights of a run from the chamber to the screw's cell, as far as the layout gives them.
#[derive(Clone, Debug)]
pub struct Profile {
    /// The fluid in the reservoir, which stands above the chamber and is no part of the run.
    pub reservoir: Option<Bounds<Length>>,
    /// The points, the one nearest to the chamber first.
    pub points: Vec<ProfilePoint>,
}

/// How certain it must be, within the tolerances, that one point is higher than another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Judged {
    /// At the nominal heights.
    Nominally,
    /// Wherever the tolerances leave it open.
    Possibly,
}

/// A point that is clearly higher than known points on both sides of it: air in a line that lets it climb gathers there.
#[derive(Clone, Copy, Debug)]
pub struct HighPoint {
    /// What it is.
    pub spot: Spot,
    /// Its height above the ground.
    pub height: Bounds<Length>,
    /// How far it rises above the higher of the two dips beside it.
    pub rise: Bounds<Length>,
    before: Bounds<Length>,
    after: Bounds<Length>,
    /// The high point before it on the way from the chamber.
    previous: Option<usize>,
}

/// The high points of a whole network.
#[derive(Clone, Debug)]
pub struct HighPoints {
    points: Vec<HighPoint>,
    /// The last one on the way to each cell.
    last: Vec<Option<usize>>,
}

impl Network {
    /// The heights along the run of a screw; as long as the run.
    pub fn profile(&self, screw: ScrewId) -> Profile {
        let place = self.screw_place(screw);
        let run = self.run(screw);
        let mut points = Vec::with_capacity(run.len() + 1);
        let cell_at = |points: &mut Vec<ProfilePoint>, cell, element| {
            points.extend(
                self.height_of(self.cell(cell).owner)
                    .map(|height| ProfilePoint {
                        spot: Spot::Cell(cell),
                        height,
                        element,
                        into: None,
                    }),
            );
        };
        if let Some(circuit) = place.circuit {
            cell_at(&mut points, self.circuit(circuit).chamber, None);
        }
        for (index, element) in run.iter().enumerate() {
            match *element {
                Element::Cell(cell) => cell_at(&mut points, cell, Some(index)),
                Element::Link(link) => self.for_each_via(link, |nth, height, into| {
                    points.push(ProfilePoint {
                        spot: Spot::Via(link, nth),
                        height,
                        element: Some(index),
                        into,
                    });
                }),
            }
        }
        let compartment = place.circuit.and_then(|id| self.circuit(id).compartment);
        Profile {
            reservoir: compartment.and_then(|(index, _)| self.layout.reservoirs[index].height),
            points,
        }
    }

    /// The high points of all runs at once, in one walk over the shortest ways.
    pub fn high_points(&self, judged: Judged) -> HighPoints {
        let mut found = Found::new(judged);
        let mut walks = vec![Walk::default(); self.cells.graph.node_count()];
        for (id, _) in self.circuits() {
            for cell in self.cells_of(id) {
                let mut walk = Walk::default();
                if let Some((parent, link)) = self.step_to(*cell) {
                    walk = walks[parent.index()];
                    self.for_each_via(link, |nth, height, _| {
                        walk.pass(Spot::Via(link, nth), height, &mut found);
                    });
                }
                if let Some(height) = self.height_of(self.cell(*cell).owner) {
                    walk.pass(Spot::Cell(*cell), height, &mut found);
                }
                walks[cell.index()] = walk;
            }
        }
        HighPoints {
            points: found.points,
            last: walks.into_iter().map(|walk| walk.last).collect(),
        }
    }

    /// The points of a line, the one nearest to the cylinder first: by their distances where all have one, else in the
    /// order in which they are written. With the place in the file, the height and the distance from that end.
    fn for_each_via(
        &self,
        link: LinkId,
        mut each: impl FnMut(usize, Bounds<Length>, Option<Bounds<Length>>),
    ) {
        let LinkKind::Line(index) = self.link(link).kind else {
            return;
        };
        let line = &self.layout.lines[index];
        if line.via.is_empty() {
            return;
        }
        let mut order: Vec<usize> = (0..line.via.len()).collect();
        if line.via.iter().all(|via| via.at.is_some()) {
            let at = |nth: &usize| line.via[*nth].at.map_or(0.0, |at| at.nominal.value);
            order.sort_by(|a, b| at(a).total_cmp(&at(b)));
        }
        let [_, to] = self.link_ends(link);
        let is_with_flow = self.step_to(to).is_some_and(|(_, step)| step == link);
        if !is_with_flow {
            order.reverse();
        }
        let length = line.length();
        for nth in order {
            let via = &line.via[nth];
            let into = via.at.map(|at| {
                if is_with_flow {
                    at
                } else {
                    less(length, at).map(|rest| rest.max(Length::default()))
                }
            });
            each(nth, via.height, into);
        }
    }
}

impl Profile {
    /// The high points of the run, the one nearest to the chamber first, each with its place in [`Self::points`].
    pub fn high_points(&self, judged: Judged) -> Vec<(usize, HighPoint)> {
        let mut found = Found::new(judged);
        let mut walk = Walk::default();
        for point in &self.points {
            walk.pass(point.spot, point.height, &mut found);
        }
        let place = |spot| self.points.iter().position(|point| point.spot == spot);
        let found = found.points.into_iter();
        found
            .filter_map(|high| Some((place(high.spot)?, high)))
            .collect()
    }
}

impl HighPoints {
    /// All of them, parents before children.
    pub fn all(&self) -> &[HighPoint] {
        &self.points
    }

    /// Those on the way from the chamber to a cell, the nearest to the cell first.
    pub fn on_way_to(&self, cell: CellId) -> impl Iterator<Item = &HighPoint> {
        let first = self.last.get(cell.index()).copied().flatten();
        std::iter::successors(first.map(|index| &self.points[index]), |high| {
            high.previous.map(|index| &self.points[index])
        })
    }
}

/// The high points found so far.
struct Found {
    judged: Judged,
    points: Vec<HighPoint>,
    by_spot: HashMap<Spot, usize>,
}

impl Found {
    fn new(judged: Judged) -> Self {
        Self {
            judged,
            points: Vec::new(),
            by_spot: HashMap::new(),
        }
    }

    fn as_top(&self, height: Bounds<Length>) -> Length {
        match self.judged {
            Judged::Nominally => height.nominal,
            Judged::Possibly => height.high,
        }
    }

    fn as_dip(&self, height: Bounds<Length>) -> Length {
        match self.judged {
            Judged::Nominally => height.nominal,
            Judged::Possibly => height.low,
        }
    }

    fn is_clearly_above(&self, top: Bounds<Length>, dip: Bounds<Length>) -> bool {
        self.as_top(top) - self.as_dip(dip) > clearly()
    }

    /// Notes a high point with what lies behind it; behind a tee that may be several dips, the lowest counts.
    fn add(
        &mut self,
        top: (Spot, Bounds<Length>),
        before: Bounds<Length>,
        after: Bounds<Length>,
        previous: Option<usize>,
    ) -> usize {
        let (spot, height) = top;
        if let Some(&index) = self.by_spot.get(&spot) {
            self.lower(index, after);
            return index;
        }
        let index = self.points.len();
        self.by_spot.insert(spot, index);
        self.points.push(HighPoint {
            spot,
            height,
            rise: rise(height, before, after),
            before,
            after,
            previous,
        });
        index
    }

    fn lower(&mut self, index: usize, after: Bounds<Length>) {
        if self.as_dip(after) < self.as_dip(self.points[index].after) {
            let high = &mut self.points[index];
            high.after = after;
            high.rise = rise(high.height, high.before, after);
        }
    }
}

/// What has been seen on the way from the chamber.
#[derive(Clone, Copy, Default)]
struct Walk {
    /// The lowest point since the last high point.
    low: Option<Bounds<Length>>,
    /// The highest point since, once one is clearly above `low`.
    top: Option<(Spot, Bounds<Length>)>,
    /// The last high point.
    last: Option<usize>,
}

impl Walk {
    fn pass(&mut self, spot: Spot, height: Bounds<Length>, found: &mut Found) {
        let Some(low) = self.low else {
            self.low = Some(height);
            return;
        };
        if let Some(top) = self.top {
            if found.is_clearly_above(top.1, height) {
                self.last = Some(found.add(top, low, height, self.last));
                self.low = Some(height);
                self.top = None;
            } else if found.as_top(height) > found.as_top(top.1) {
                self.top = Some((spot, height));
            }
        } else if found.is_clearly_above(height, low) {
            self.top = Some((spot, height));
        } else if found.as_dip(height) < found.as_dip(low) {
            self.low = Some(height);
            if let Some(last) = self.last {
                found.lower(last, height);
            }
        }
    }
}

fn rise(height: Bounds<Length>, before: Bounds<Length>, after: Bounds<Length>) -> Bounds<Length> {
    less(height, before.zip(after, Length::max))
}

/// The difference, its bounds at the corners.
pub(crate) fn less(from: Bounds<Length>, taken: Bounds<Length>) -> Bounds<Length> {
    Bounds {
        low: from.low - taken.high,
        nominal: from.nominal - taken.nominal,
        high: from.high - taken.low,
    }
}

#[cfg(test)]
mod tests;
