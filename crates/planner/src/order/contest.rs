//! Two runs compared for every choice of lengths at once.
//!
//! The runs of two screws share the lines up to the place where they part;
//! these cancel. The difference is a sum over the other lines, each free
//! between its bounds, so that its least value is the least of the one sum
//! minus the most of the other: reached when every line stands at one of its
//! ends. Circuits share nothing, and the longest run of a circuit is least
//! when all of its lines are.

use super::preference::{NO_DIFFERENCE_M, Rank, by_distance, by_side};
use super::sequence::Derived;
use super::standing::CircuitStanding;
use crate::certainty::MOST_STEPS;
use crate::corner::against;
use crate::options::Begin;
use crate::request::Request;
use bleedwright_network::{Bounds, CellId, Network, ScrewId};
use std::cmp::Ordering;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Two of which the first is opened earlier.
#[derive(Clone, Debug)]
pub(crate) enum Contest {
    /// Two screws of one circuit.
    Screws(ScrewId, ScrewId),
    Circuits(CircuitStanding, CircuitStanding),
}

/// Judges contests, and counts what that takes.
pub(crate) struct Contests<'a, 'n> {
    pub(super) network: &'n Network,
    derived: &'a Derived,
    pub(super) begin: Begin,
    steps: usize,
}

impl<'a, 'n> Contests<'a, 'n> {
    pub(crate) fn new(request: &Request<'n>, derived: &'a Derived) -> Self {
        Self {
            network: request.network,
            derived,
            begin: request.options.begin,
            steps: 0,
        }
    }

    /// Whether the first one goes first whatever the lengths are; none when
    /// that takes too many steps.
    pub(crate) fn is_sure(&mut self, contest: &Contest) -> Option<bool> {
        match contest {
            Contest::Screws(first, then) => {
                let (a, b) = (self.rank(*first), self.rank(*then));
                // An opened branch goes first whatever its length.
                if a.is_suspect != b.is_suspect {
                    return Some(true);
                }
                let by_place = self.by_place(a, b);
                let difference = self.difference(*first, *then)?;
                let by_name = || self.name(*first).cmp(self.name(*then));
                Some(self.is_first(difference, || by_place.then_with(by_name)))
            }
            Contest::Circuits(first, then) => {
                let (a, b) = (self.deciding(first), self.deciding(then));
                let difference = minus(a, b);
                Some(self.is_first(difference, || self.tie(first, a, then, b)))
            }
        }
    }

    /// Whether a difference always speaks for the first one. Where it may be
    /// nothing the tie must; where it can only be nothing, the derived order
    /// has seen the tie.
    fn is_first(&self, difference: Bounds<f64>, tie: impl FnOnce() -> Ordering) -> bool {
        let (least, most) = match self.begin {
            Begin::Farthest => (difference.low, difference.high),
            Begin::Nearest => (-difference.high, -difference.low),
        };
        least > NO_DIFFERENCE_M
            || (least >= -NO_DIFFERENCE_M && (most <= NO_DIFFERENCE_M || tie() == Ordering::Less))
    }

    /// The exact range of the difference of two runs of one circuit.
    fn difference(&mut self, a: ScrewId, b: ScrewId) -> Option<Bounds<f64>> {
        let (a, b) = (self.cell(a), self.cell(b));
        let fork = self.fork(a, b)?;
        let beyond = |cell: CellId| {
            let (whole, shared) = (self.to_cell(cell), self.to_cell(fork));
            Bounds {
                low: (whole.low - shared.low).value,
                nominal: (whole.nominal - shared.nominal).value,
                high: (whole.high - shared.high).value,
            }
        };
        Some(minus(beyond(a), beyond(b)))
    }

    /// The cell where two runs part.
    fn fork(&mut self, mut a: CellId, mut b: CellId) -> Option<CellId> {
        while a != b {
            self.steps += 1;
            if self.steps > MOST_STEPS {
                return None;
            }
            let deeper = if self.network.depth(a) >= self.network.depth(b) {
                &mut a
            } else {
                &mut b
            };
            *deeper = self.network.step_to(*deeper)?.0;
        }
        Some(a)
    }

    /// The range of the run that decides a circuit's place.
    fn deciding(&self, standing: &CircuitStanding) -> Bounds<f64> {
        let runs = standing.screws.iter().map(|screw| {
            self.to_cell(self.cell(*screw))
                .map(|length| length.get::<meter>())
        });
        let pick = match self.begin {
            Begin::Farthest => f64::max,
            Begin::Nearest => f64::min,
        };
        runs.reduce(|a, b| a.zip(b, pick))
            .expect("circuits without screws have no standing")
    }

    /// Which circuit goes first where their deciding runs are equally long:
    /// the wheel's distance says so, of whichever screws may decide then.
    fn tie(
        &self,
        first: &CircuitStanding,
        a: Bounds<f64>,
        then: &CircuitStanding,
        b: Bounds<f64>,
    ) -> Ordering {
        let equal = match self.begin {
            Begin::Farthest => a.low.max(b.low),
            Begin::Nearest => a.high.min(b.high),
        };
        let ranks = |standing: &CircuitStanding| -> Vec<&Rank> {
            let may_decide = |screw: &&ScrewId| {
                let run = self.to_cell(self.cell(**screw));
                run.low.value <= equal + NO_DIFFERENCE_M
                    && run.high.value >= equal - NO_DIFFERENCE_M
            };
            let screws = standing.screws.iter().filter(may_decide);
            screws.map(|screw| self.rank(*screw)).collect()
        };
        let (a, b) = (ranks(first), ranks(then));
        let all = |wanted: Ordering| {
            a.iter()
                .all(|a| b.iter().all(|b| self.by_place(a, b) == wanted))
        };
        if all(Ordering::Less) {
            Ordering::Less
        } else if all(Ordering::Equal) {
            let name =
                |standing: &CircuitStanding| self.network.circuit(standing.circuit).name.as_str();
            name(first).cmp(name(then))
        } else {
            Ordering::Greater
        }
    }

    /// Which of two equally long runs goes first: by the axle, then by the side.
    fn by_place(&self, a: &Rank, b: &Rank) -> Ordering {
        by_distance(self.begin, a.distance, b.distance).then(by_side(self.begin, a, b))
    }

    pub(super) fn rank(&self, screw: ScrewId) -> &'a Rank {
        &self.derived.ranks[&screw]
    }

    pub(super) fn name(&self, screw: ScrewId) -> &'n str {
        self.network.screw(screw).id.as_str()
    }

    pub(super) fn cell(&self, screw: ScrewId) -> CellId {
        self.network.screw_place(screw).cell
    }

    pub(super) fn to_cell(&self, cell: CellId) -> Bounds<Length> {
        self.derived.lengths.to_cell[cell.index()]
    }
}

/// The exact range of `a - b` where the two share nothing.
pub(super) fn minus(a: Bounds<f64>, b: Bounds<f64>) -> Bounds<f64> {
    a.zip(against(b), |a, b| a - b)
}
