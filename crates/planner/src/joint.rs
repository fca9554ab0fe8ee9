//! The joints that were opened, and the least that each screw must push because
//! air may sit at them.

use crate::bubble::Bubbles;
use crate::options::Method;
use crate::plan::{AtLeast, LeastFrom, OpenedJoint};
use crate::request::{Request, Target};
use bleedwright_hydraulics::bubble::Verdict;
use bleedwright_network::{
    CellId, CircuitId, Element, LinkId, LinkKind, Network, ProfilePoint, ScrewId, Spot,
};
use std::collections::{BTreeMap, HashSet};
use uom::si::f64::Volume;
use uom::si::ratio::ratio;

/// One end of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Joint {
    line: LinkId,
    cell: CellId,
    /// What was opened, by its place in the request.
    opened: usize,
}

/// The joints that were opened.
#[derive(Debug, Default)]
pub(crate) struct Joints {
    at: BTreeMap<CellId, Vec<Joint>>,
}

/// The least that a screw must push, whatever ran out and came back before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Least {
    /// At the upper corner of the tolerances.
    pub(crate) volume: Volume,
    /// At nominal contents.
    pub(crate) nominal: Volume,
    joint: Joint,
    from: From,
    /// The element of the run where the way begins.
    start: usize,
}

/// Where the way begins that must be pushed through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum From {
    Joint,
    HighPoint(Spot),
    Swept,
    /// At the screw, and on to the reservoir.
    Screw,
}

/// What earlier screws of the order have pushed through for the same reason.
#[derive(Clone, Debug, Default)]
pub(crate) struct Swept(HashSet<Element>);

impl Swept {
    pub(crate) fn remember(&mut self, least: Option<Least>, run: &[Element]) {
        if let Some(least) = least {
            self.0.extend(run.iter().skip(least.start).copied());
        }
    }
}

/// A place on the way from the chamber: before an element of the run, or in it.
#[derive(Clone, Copy)]
struct Start {
    element: usize,
    /// The share of the element that lies on the cylinder's side.
    share: f64,
    high: Option<Spot>,
}

impl Joints {
    /// Opening a part opens every joint it has: the end of each line at it.
    /// Opening a line opens both its ends, and a cylinder its outlets.
    pub(crate) fn new(request: &Request<'_>) -> Self {
        let network = request.network;
        let mut cells: BTreeMap<CellId, usize> = BTreeMap::new();
        let mut lines: BTreeMap<usize, usize> = BTreeMap::new();
        for (index, target) in request.opened.iter().enumerate() {
            if let Target::Line(line) = target {
                lines.entry(*line).or_insert(index);
            }
            for element in request.elements_of(target) {
                if let Element::Cell(cell) = element {
                    cells.entry(cell).or_insert(index);
                }
            }
        }
        let mut joints = Self::default();
        if cells.is_empty() && lines.is_empty() {
            return joints;
        }
        for (link, data) in network.all_links() {
            let LinkKind::Line(index) = data.kind else {
                continue;
            };
            for cell in network.link_ends(link) {
                if let Some(opened) = cells.get(&cell).or_else(|| lines.get(&index)) {
                    joints.at.entry(cell).or_default().push(Joint {
                        line: link,
                        cell,
                        opened: *opened,
                    });
                }
            }
        }
        // Of several at one place the one that is named does not depend on the order of the file.
        for at in joints.at.values_mut() {
            at.sort_by_cached_key(|joint| network.link_name(joint.line));
        }
        joints
    }

    pub(crate) fn all(&self) -> Vec<(LinkId, CellId)> {
        let joints = self.at.values().flatten();
        let mut all: Vec<_> = joints.map(|joint| (joint.line, joint.cell)).collect();
        all.sort_unstable();
        all
    }

    /// The opened joint on a run that is nearest to the cylinder, with the
    /// element that it lies before, not counting what lies before `from`. A joint
    /// of a line beside the run opens the cell that both meet at, so that cell
    /// counts.
    fn nearest(&self, chamber: CellId, run: &[Element], from: usize) -> Option<(usize, Joint)> {
        let cells = run.iter().enumerate();
        let cells = cells.filter_map(|(place, element)| match element {
            Element::Cell(cell) => Some((place, place + 1, *cell)),
            Element::Link(_) => None,
        });
        std::iter::once((0, 0, chamber))
            .chain(cells)
            .find_map(|(before, behind, cell)| {
                let joints = self.at.get(&cell)?;
                let on = |place: Option<usize>| {
                    let line = place.and_then(|place| run.get(place));
                    let is_on = |joint: &&Joint| line == Some(&Element::Link(joint.line));
                    joints.iter().find(is_on).copied()
                };
                let next = on(Some(behind));
                let beside = on(before.checked_sub(1))
                    .or_else(|| joints.iter().copied().find(|joint| Some(*joint) != next));
                let found = beside.map(|joint| (before, joint)).into_iter();
                let mut found = found.chain(next.map(|joint| (behind, joint)));
                found.find(|(place, _)| *place >= from)
            })
    }

    /// The least that a screw must push now; none where no opened joint lies on
    /// its run, or where all of it was pushed through before.
    pub(crate) fn least(
        &self,
        network: &Network,
        bubbles: &Bubbles<'_>,
        swept: &Swept,
        (screw, circuit): (ScrewId, CircuitId),
        (run, method): (&[Element], Method),
    ) -> Option<Least> {
        if self.at.is_empty() {
            return None;
        }
        let chamber = network.circuit(circuit).chamber;
        let (place, mut joint) = self.nearest(chamber, run, 0)?;
        let is_swept = |element: &Element| swept.0.contains(element);
        if method == Method::Reverse {
            // What comes in at the screw takes the air along all the way up.
            if !run.is_empty() && run.iter().all(is_swept) {
                return None;
            }
            let way = run.iter().copied().chain([Element::Cell(chamber)]);
            let [volume, nominal] = sums(network, way);
            return Some(Least {
                volume,
                nominal,
                joint,
                from: From::Screw,
                start: 0,
            });
        }
        if run.is_empty() {
            // The screw is on the chamber, and what was opened is its outlet.
            let [volume, nominal] = sums(network, [Element::Cell(chamber)]);
            return Some(Least {
                volume,
                nominal,
                joint,
                from: From::Joint,
                start: 0,
            });
        }
        let mut start = climbed(network, bubbles, screw, run, place);
        let mut from = start.high.map_or(From::Joint, From::HighPoint);
        if run.get(start.element).is_some_and(is_swept) {
            let left = run.iter().skip(start.element);
            start.element += left.take_while(|element| is_swept(element)).count();
            start.share = 0.0;
            from = From::Swept;
            if let Some((place, next)) = self.nearest(chamber, run, start.element) {
                joint = next;
                if place == start.element {
                    from = From::Joint;
                }
            }
        }
        if start.element == run.len() {
            return None;
        }
        let [mut volume, mut nominal] = sums(network, run[start.element..].iter().copied());
        let first = network.contents(run[start.element]);
        volume -= first.high * start.share;
        nominal -= first.nominal * start.share;
        Some(Least {
            volume,
            nominal,
            joint,
            from,
            start: start.element,
        })
    }

    /// What the plan says of it.
    pub(crate) fn at_least(request: &Request<'_>, least: Least) -> AtLeast {
        let network = request.network;
        AtLeast {
            volume: least.volume,
            joint: OpenedJoint {
                opened: request
                    .name_of(&request.opened[least.joint.opened])
                    .to_owned(),
                line: network.link_name(least.joint.line),
                at: network.end_name(least.joint.line, least.joint.cell),
            },
            from: match least.from {
                From::Joint => LeastFrom::Joint,
                From::HighPoint(Spot::Cell(cell)) => LeastFrom::HighPoint(network.cell_name(cell)),
                From::HighPoint(Spot::Via(line, _)) => {
                    LeastFrom::HighPoint(network.link_name(line))
                }
                From::Swept => LeastFrom::Swept,
                From::Screw => LeastFrom::Screw,
            },
        }
    }
}

/// The contents of a way at the upper corner, and at nominal sizes.
fn sums(network: &Network, way: impl IntoIterator<Item = Element>) -> [Volume; 2] {
    let mut sums = [Volume::default(); 2];
    for element in way {
        let contents = network.contents(element);
        sums[0] += contents.high;
        sums[1] += contents.nominal;
    }
    sums
}

/// Where the air of a joint gathers: at the next high point on the cylinder's
/// side, as far as the bores let it climb. Between points of known height a line
/// is taken to lead straight.
///
/// ASSUMPTION: where the height of the joint itself is unknown the air stays
/// there.
fn climbed(
    network: &Network,
    bubbles: &Bubbles<'_>,
    screw: ScrewId,
    run: &[Element],
    place: usize,
) -> Start {
    let mut start = Start {
        element: place,
        share: 0.0,
        high: None,
    };
    let lets_climb = |element: &Element| match element {
        Element::Cell(_) => true,
        // Where it is in doubt the longer way is pushed.
        Element::Link(link) => bubbles
            .verdict_of(*link)
            .is_some_and(|verdict| verdict != Verdict::Stuck),
    };
    let open = run[..place].iter().rev().take_while(|it| lets_climb(it));
    let reached = place - open.count();
    if reached == place {
        return start;
    }
    let points = network.profile(screw).points;
    let behind = |point: &ProfilePoint| point.element.map_or(0, |element| element + 1);
    // The joint is at the cell before its place, or at the one behind it.
    let at_joint = points.iter().rposition(|point| {
        let is_cell = matches!(point.spot, Spot::Cell(_));
        let is_before = matches!(run.get(place), Some(Element::Link(_)));
        is_cell
            && (if is_before {
                behind(point) == place
            } else {
                behind(point) == place + 1
            })
    });
    let Some(at_joint) = at_joint else {
        return start;
    };
    let mut height = points[at_joint].height.nominal;
    for point in points[..at_joint].iter().rev() {
        if point.height.nominal < height {
            break;
        }
        height = point.height.nominal;
        let element = point.element.unwrap_or(0);
        if element < reached {
            // A bore in between holds the air back.
            if start.element > reached {
                start = Start {
                    element: reached,
                    share: 0.0,
                    high: match run[reached] {
                        Element::Cell(cell) => Some(Spot::Cell(cell)),
                        Element::Link(_) => None,
                    },
                };
            }
            break;
        }
        let share = match (point.into, run[element]) {
            (Some(into), Element::Link(link)) => {
                let length = network.link(link).length.high;
                (into.low / length).get::<ratio>().clamp(0.0, 1.0)
            }
            _ => 0.0,
        };
        start = Start {
            element,
            share,
            high: Some(point.spot),
        };
    }
    start
}
