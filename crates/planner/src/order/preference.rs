//! What comes first where nothing forces it: suspect branch, then the longest
//! run; where lengths do not differ beyond their tolerance the far axle, then the
//! longer nominal run, then the far side.

use crate::options::Begin;
use crate::request::Request;
use bleedwright_network::{
    Bounds, CellId, CircuitId, Element, Network, Owner, Position, ScrewId, Side, Steering,
};
use std::cmp::Ordering;
use std::collections::HashSet;
use uom::si::f64::{Area, Length};
use uom::si::length::{meter, millimeter};

/// Where a screw stands among the others of its circuit.
#[derive(Clone, Debug)]
pub(crate) struct Rank {
    /// Whether something on its run was opened.
    pub(crate) is_suspect: bool,
    /// Screws of one group have runs that do not differ beyond tolerance.
    pub(crate) group: usize,
    /// Distance of the wheel from the cylinder, where it can be told.
    pub(crate) distance: Option<i64>,
    /// Whether it is on the side away from the steering wheel.
    pub(crate) is_far_side: bool,
    /// Length of the run.
    pub(crate) length: Bounds<Length>,
}

/// Lengths are sums of floats: a nanometre is no difference.
pub(super) const NO_DIFFERENCE_M: f64 = 1e-9;

/// Length of the way from the chamber to every cell of a circuit.
pub(crate) struct Lengths {
    pub(super) to_cell: Vec<Bounds<Length>>,
}

impl Lengths {
    /// All circuits at once; parents come before children.
    pub(crate) fn new(network: &Network) -> Self {
        let count = network.all_cells().count();
        let mut to_cell = vec![Bounds::exact(Length::default()); count];
        for (circuit, _) in network.circuits() {
            for cell in network.cells_of(circuit) {
                if let Some((parent, link)) = network.step_to(*cell) {
                    to_cell[cell.index()] = to_cell[parent.index()] + network.link(link).length;
                }
            }
        }
        Self { to_cell }
    }

    pub(crate) fn run(&self, network: &Network, screw: ScrewId) -> Bounds<Length> {
        self.to_cell[network.screw_place(screw).cell.index()]
    }
}

/// Ranks the screws of one circuit, in the order of preference.
pub(crate) fn rank(
    request: &Request<'_>,
    lengths: &Lengths,
    circuit: CircuitId,
    mut screws: Vec<ScrewId>,
    begin: Begin,
) -> Vec<(ScrewId, Rank)> {
    let network = request.network;
    let suspects = suspect_elements(request);
    let name = |screw: ScrewId| network.screw(screw).id.as_str();
    let nominal = |screw: ScrewId| lengths.run(network, screw).nominal;
    let has_positions = has_positions(network);
    screws.sort_by(|a, b| {
        by_length(begin, nominal(*a), nominal(*b)).then_with(|| name(*a).cmp(name(*b)))
    });
    let mut ranked = Vec::with_capacity(screws.len());
    let mut leader: Option<Leader> = None;
    let mut group = 0;
    for screw in screws {
        let cell = network.screw_place(screw).cell;
        let is_tied = leader
            .as_ref()
            .is_some_and(|leader| leader.ties_with(network, lengths, cell));
        if !is_tied {
            group += 1;
            leader = Some(Leader::new(network, cell));
        }
        ranked.push((
            screw,
            Rank {
                is_suspect: !suspects.is_empty()
                    && network
                        .run(screw)
                        .iter()
                        .any(|element| suspects.contains(element)),
                group,
                distance: distance(network, circuit, screw, has_positions),
                is_far_side: is_far_side(network, screw),
                length: lengths.run(network, screw),
            },
        ));
    }
    ranked.sort_by(|(a, x), (b, y)| {
        (y.is_suspect.cmp(&x.is_suspect))
            .then(x.group.cmp(&y.group))
            .then(by_distance(begin, x.distance, y.distance))
            .then(by_length(begin, x.length.nominal, y.length.nominal))
            .then(by_side(begin, x, y))
            .then_with(|| name(*a).cmp(name(*b)))
    });
    ranked
}

/// Which of two runs goes first by its length.
///
/// Compared in whole picometres: equal runs are sums of other pieces, and what
/// such sums differ by in their last digit must not decide anything.
pub(super) fn by_length(begin: Begin, a: Length, b: Length) -> Ordering {
    let picometres = |length: Length| (length.get::<meter>() * 1e12).round();
    let longer = picometres(b).total_cmp(&picometres(a));
    match begin {
        Begin::Farthest => longer,
        Begin::Nearest => longer.reverse(),
    }
}

/// Which of two wheels goes first where their runs are equally long.
pub(super) fn by_distance(begin: Begin, a: Option<i64>, b: Option<i64>) -> Ordering {
    match begin {
        Begin::Farthest => b.cmp(&a),
        Begin::Nearest => a.cmp(&b),
    }
}

/// Which side goes first where axle and length do not tell.
pub(super) fn by_side(begin: Begin, a: &Rank, b: &Rank) -> Ordering {
    let far_first = b.is_far_side.cmp(&a.is_far_side);
    match begin {
        Begin::Farthest => far_first,
        Begin::Nearest => far_first.reverse(),
    }
}

/// The first screw of a group; the cells of its run are kept so that the
/// place where another run leaves it is found quickly.
struct Leader {
    cell: CellId,
    on_run: HashSet<CellId>,
}

impl Leader {
    fn new(network: &Network, cell: CellId) -> Self {
        let mut on_run = HashSet::new();
        let mut here = Some(cell);
        while let Some(cell) = here {
            on_run.insert(cell);
            here = network.step_to(cell).map(|(parent, _)| parent);
        }
        Self { cell, on_run }
    }

    /// Whether the two runs may be equally long. Only what they do not share
    /// counts: a tolerance of the shared part moves both alike.
    fn ties_with(&self, network: &Network, lengths: &Lengths, cell: CellId) -> bool {
        let mut fork = cell;
        while !self.on_run.contains(&fork) {
            match network.step_to(fork) {
                Some((parent, _)) => fork = parent,
                None => return false,
            }
        }
        let beyond = |cell: CellId| {
            let (whole, shared) = (lengths.to_cell[cell.index()], lengths.to_cell[fork.index()]);
            (whole.low - shared.low, whole.high - shared.high)
        };
        let (a, b) = (beyond(self.cell), beyond(cell));
        let nothing = Length::new::<meter>(NO_DIFFERENCE_M);
        a.0 <= b.1 + nothing && b.0 <= a.1 + nothing
    }
}

/// Elements that were opened; a screw behind one is suspect.
fn suspect_elements(request: &Request<'_>) -> HashSet<Element> {
    request
        .opened
        .iter()
        .flat_map(|target| request.elements_of(target))
        .collect()
}

/// Whether every cylinder and every brake has a position. Centimetres of one
/// wheel cannot be compared with the axle of another.
fn has_positions(network: &Network) -> bool {
    let layout = network.layout();
    let mut brakes = layout.parts.iter().filter(|part| part.wheel.is_some());
    layout.cylinders.iter().all(|it| it.position.is_some())
        && brakes.all(|part| part.position.is_some())
}

/// How far the wheel is from the cylinder: in centimetres where all positions
/// are given, else by its axle.
fn distance(
    network: &Network,
    circuit: CircuitId,
    screw: ScrewId,
    has_positions: bool,
) -> Option<i64> {
    let Owner::Part(part, _) = network.screw_place(screw).owner else {
        return None;
    };
    let part = &network.layout().parts[part];
    match (network.cylinder_of(circuit).position, part.position) {
        (Some(from), Some(to)) if has_positions => {
            Some((straight(from, to).get::<millimeter>() / 10.0).round() as i64)
        }
        _ => part.wheel.map(|wheel| i64::from(wheel.axle())),
    }
}

fn is_far_side(network: &Network, screw: ScrewId) -> bool {
    let far_side = match network.layout().steering {
        Some(Steering::Left) => Side::Right,
        Some(Steering::Right) => Side::Left,
        Some(Steering::Centre) | None => return false,
    };
    let Owner::Part(part, _) = network.screw_place(screw).owner else {
        return false;
    };
    let wheel = network.layout().parts[part].wheel;
    wheel.is_some_and(|wheel| wheel.side() == Some(far_side))
}

fn straight(a: Position, b: Position) -> Length {
    let square = |a: Bounds<Length>, b: Bounds<Length>| {
        let difference = a.nominal - b.nominal;
        difference * difference
    };
    let height = match (a.z, b.z) {
        (Some(a), Some(b)) => square(a, b),
        _ => Area::default(),
    };
    (square(a.x, b.x) + square(a.y, b.y) + height).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two runs of 6.23 m, one made of three pieces and one of four, of which
    /// the shared one stands at an end of its tolerance.
    #[test]
    fn equal_runs_of_other_pieces_are_equal() {
        let sum = |pieces: &[f64]| {
            let lengths = pieces.iter().map(|piece| Length::new::<meter>(*piece));
            lengths.fold(Length::default(), |sum, length| sum + length)
        };
        let (one, other) = (sum(&[1.48, 3.7, 0.55, 0.5]), sum(&[1.48, 0.5, 0.5, 3.75]));
        assert!(one != other, "the sums differ in their last digit");
        for begin in [Begin::Farthest, Begin::Nearest] {
            assert_eq!(by_length(begin, one, other), Ordering::Equal);
            let longer = one + Length::new::<meter>(1e-9);
            assert_ne!(by_length(begin, one, longer), Ordering::Equal);
        }
    }
}
