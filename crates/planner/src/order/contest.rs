//! Two runs compared for every choice of lengths at once.
//!
//! The runs of two screws share the lines up to the place where they part;
//! these cancel. The difference is a sum over the other lines, each free
//! between its bounds, so that its least value is the least of the one sum
//! minus the most of the other: reached when every line stands at one of its
//! ends. Circuits share nothing, and the longest run of a circuit is least
//! when all of its lines are.

use super::preference::{NO_DIFFERENCE_M, Rank, by_distance, by_length};
use super::sequence::Derived;
use super::standing::Standing;
use crate::certainty::{DecidingLine, UncertainPair};
use crate::options::Begin;
use crate::request::Request;
use bleedwright_network::{Bounds, CellId, LinkId, Network, ScrewId};
use std::cmp::Ordering;
use std::collections::BTreeMap;
use uom::si::f64::Length;
use uom::si::length::meter;

/// So many steps up the pipework are made for one order. A vehicle takes some
/// hundreds; a chain of thousands of parts in a row could take millions.
const MOST_STEPS: usize = 1_000_000;

/// A list of more measurements than this is no advice.
const MOST_MEASURED: usize = 3;

/// Two of which the first is opened earlier.
#[derive(Clone, Debug)]
pub(crate) enum Contest {
    /// Two screws of one circuit.
    Screws(ScrewId, ScrewId),
    /// Two circuits.
    Circuits(Standing, Standing),
}

/// Judges contests, and counts what that takes.
pub(crate) struct Contests<'a, 'n> {
    network: &'n Network,
    derived: &'a Derived,
    begin: Begin,
    /// Number of links between the chamber and every cell.
    depth: Vec<u32>,
    steps: usize,
}

/// Where one of two runs may be: the lines that it does not share.
struct OwnWay {
    links: Vec<LinkId>,
}

impl<'a, 'n> Contests<'a, 'n> {
    pub(crate) fn new(request: &Request<'n>, derived: &'a Derived) -> Self {
        let network = request.network;
        let mut depth = vec![0; derived.lengths.to_cell.len()];
        for (circuit, _) in &derived.circuits {
            for cell in network.cells_of(*circuit) {
                if let Some((parent, _)) = network.step_to(*cell) {
                    depth[cell.index()] = depth[parent.index()] + 1;
                }
            }
        }
        Self {
            network,
            derived,
            begin: request.options.begin,
            depth,
            steps: 0,
        }
    }

    /// Why nothing is said of an order that takes too many steps.
    pub(crate) fn limit() -> String {
        format!("more than {MOST_STEPS} steps along the pipework would be needed")
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
                let by_distance = by_distance(self.begin, a.distance, b.distance);
                let difference = self.difference(*first, *then)?;
                let by_name = || self.name(*first).cmp(self.name(*then));
                Some(self.is_first(difference, || by_distance.then_with(by_name)))
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
            let deeper = if self.depth[a.index()] >= self.depth[b.index()] {
                &mut a
            } else {
                &mut b
            };
            *deeper = self.network.step_to(*deeper)?.0;
        }
        Some(a)
    }

    /// The range of the run that decides a circuit's place.
    fn deciding(&self, standing: &Standing) -> Bounds<f64> {
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
    fn tie(&self, first: &Standing, a: Bounds<f64>, then: &Standing, b: Bounds<f64>) -> Ordering {
        let equal = match self.begin {
            Begin::Farthest => a.low.max(b.low),
            Begin::Nearest => a.high.min(b.high),
        };
        let distances = |standing: &Standing| -> Vec<Option<i64>> {
            let may_decide = |screw: &&ScrewId| {
                let run = self.to_cell(self.cell(**screw));
                run.low.value <= equal + NO_DIFFERENCE_M
                    && run.high.value >= equal - NO_DIFFERENCE_M
            };
            let screws = standing.screws.iter().filter(may_decide);
            screws.map(|screw| self.rank(*screw).distance).collect()
        };
        let (a, b) = (distances(first), distances(then));
        let all = |wanted: Ordering| {
            a.iter()
                .all(|a| b.iter().all(|b| by_distance(self.begin, *a, *b) == wanted))
        };
        if all(Ordering::Less) {
            Ordering::Less
        } else if all(Ordering::Equal) {
            let name = |standing: &Standing| self.network.circuit(standing.circuit).name.as_str();
            name(first).cmp(name(then))
        } else {
            Ordering::Greater
        }
    }

    /// The contest in words and figures.
    pub(crate) fn describe(&self, contest: &Contest) -> UncertainPair {
        let nothing = &[];
        let difference = self.with_measured(contest, nothing);
        let (first, then) = match contest {
            Contest::Screws(first, then) => (*first, *then),
            Contest::Circuits(first, then) => (self.head(first), self.head(then)),
        };
        UncertainPair {
            first: self.name(first).to_owned(),
            then: self.name(then).to_owned(),
            circuits: match contest {
                Contest::Screws(..) => None,
                Contest::Circuits(first, then) => Some(
                    [first, then]
                        .map(|standing| self.network.circuit(standing.circuit).name.clone()),
                ),
            },
            difference: difference.map(Length::new::<meter>),
            lines: self.lines(contest),
            measure: self
                .settling(contest, difference.nominal)
                .into_iter()
                .map(|link| self.network.link_name(link))
                .collect(),
        }
    }

    /// The difference once some lines are measured and found nominal.
    fn with_measured(&self, contest: &Contest, measured: &[LinkId]) -> Bounds<f64> {
        let ways = |standing: &Standing| {
            let runs = standing.screws.iter().map(|screw| self.whole_way(*screw));
            let pick = match self.begin {
                Begin::Farthest => f64::max,
                Begin::Nearest => f64::min,
            };
            runs.map(|way| self.length(&way, measured))
                .reduce(|a, b| a.zip(b, pick))
                .expect("circuits without screws have no standing")
        };
        match contest {
            Contest::Screws(first, then) => {
                let [a, b] = self.own_ways(*first, *then);
                minus(self.length(&a, measured), self.length(&b, measured))
            }
            Contest::Circuits(first, then) => minus(ways(first), ways(then)),
        }
    }

    /// The fewest lines that settle a contest if they are found nominal: of
    /// the run that is nominally the longer one what may be missing counts, of
    /// the other what may be added, and the largest of it is measured first.
    fn settling(&self, contest: &Contest, nominal: f64) -> Vec<LinkId> {
        let sign = if nominal > NO_DIFFERENCE_M {
            1.0
        } else if nominal < -NO_DIFFERENCE_M {
            -1.0
        } else {
            return Vec::new();
        };
        let is_settled = |measured: &[LinkId]| {
            let left = self.with_measured(contest, measured);
            let least = if sign > 0.0 { left.low } else { -left.high };
            least > NO_DIFFERENCE_M
        };
        let mut measured: Vec<LinkId> = Vec::new();
        // There is no doubt which run is longer: both were tied with a third.
        if is_settled(&measured) {
            return measured;
        }
        while measured.len() < MOST_MEASURED {
            let Some(next) = self.slackest(contest, sign > 0.0, &measured) else {
                return Vec::new();
            };
            measured.push(next);
            if is_settled(&measured) {
                return measured;
            }
        }
        Vec::new()
    }

    /// The line that leaves most open which of two runs is the longer one.
    fn slackest(
        &self,
        contest: &Contest,
        is_first_longer: bool,
        measured: &[LinkId],
    ) -> Option<LinkId> {
        let [a, b] = match contest {
            Contest::Screws(first, then) => self.own_ways(*first, *then),
            Contest::Circuits(first, then) => {
                let (longer, shorter) = if is_first_longer {
                    (first, then)
                } else {
                    (then, first)
                };
                let longer = self.deciding_at(longer, measured, |run| run.low);
                let shorter = self.deciding_at(shorter, measured, |run| run.high);
                if is_first_longer {
                    [longer, shorter]
                } else {
                    [shorter, longer]
                }
            }
        };
        let (longer, shorter) = if is_first_longer { (a, b) } else { (b, a) };
        let length = |link: LinkId| self.network.link(link).length;
        let slack = longer
            .links
            .into_iter()
            .map(|link| (link, (length(link).nominal - length(link).low).value))
            .chain(
                shorter
                    .links
                    .into_iter()
                    .map(|link| (link, (length(link).high - length(link).nominal).value)),
            )
            .filter(|(link, slack)| *slack > 0.0 && !measured.contains(link));
        slack
            .min_by(|(a, x), (b, y)| {
                let by_name = || self.network.link_name(*a).cmp(&self.network.link_name(*b));
                y.total_cmp(x).then_with(by_name)
            })
            .map(|(link, _)| link)
    }

    /// The run of a circuit that decides at one end of the bounds.
    fn deciding_at(
        &self,
        standing: &Standing,
        measured: &[LinkId],
        end: fn(Bounds<f64>) -> f64,
    ) -> OwnWay {
        let ways = standing.screws.iter().map(|screw| self.whole_way(*screw));
        let at = |way: &OwnWay| end(self.length(way, measured));
        let deciding = match self.begin {
            Begin::Farthest => ways.max_by(|a, b| at(a).total_cmp(&at(b))),
            Begin::Nearest => ways.min_by(|a, b| at(a).total_cmp(&at(b))),
        };
        deciding.expect("circuits without screws have no standing")
    }

    /// The screw that stands for its circuit, at nominal lengths.
    fn head(&self, standing: &Standing) -> ScrewId {
        let length = |screw: &ScrewId| self.to_cell(self.cell(*screw)).nominal;
        let ordered = |a: &&ScrewId, b: &&ScrewId| {
            by_length(self.begin, length(a), length(b))
                .then_with(|| self.name(**a).cmp(self.name(**b)))
        };
        let head = standing.screws.iter().min_by(ordered);
        *head.expect("circuits without screws have no standing")
    }

    fn lines(&self, contest: &Contest) -> Vec<DecidingLine> {
        let ways: Vec<OwnWay> = match contest {
            Contest::Screws(first, then) => self.own_ways(*first, *then).into(),
            Contest::Circuits(first, then) => [first, then]
                .into_iter()
                .flat_map(|standing| {
                    let end = |end| self.deciding_at(standing, &[], end);
                    [end(|run| run.low), end(|run| run.high)]
                })
                .collect(),
        };
        let ranges: BTreeMap<LinkId, Length> = ways
            .iter()
            .flat_map(|way| &way.links)
            .map(|link| {
                let length = self.network.link(*link).length;
                (*link, length.high - length.low)
            })
            .filter(|(_, range)| range.value > 0.0)
            .collect();
        let mut lines: Vec<DecidingLine> = ranges
            .into_iter()
            .map(|(link, range)| DecidingLine {
                line: self.network.link_name(link),
                range,
            })
            .collect();
        lines.sort_by(|a, b| {
            let wider = b.range.value.total_cmp(&a.range.value);
            wider.then_with(|| a.line.cmp(&b.line))
        });
        lines
    }

    /// What two runs of one circuit do not share.
    fn own_ways(&self, a: ScrewId, b: ScrewId) -> [OwnWay; 2] {
        let (mut a, mut b) = (self.cell(a), self.cell(b));
        let mut ways = [Vec::new(), Vec::new()];
        while a != b {
            let is_first = self.depth[a.index()] >= self.depth[b.index()];
            let (deeper, way) = if is_first {
                (&mut a, &mut ways[0])
            } else {
                (&mut b, &mut ways[1])
            };
            let Some((parent, link)) = self.network.step_to(*deeper) else {
                break;
            };
            way.push(link);
            *deeper = parent;
        }
        ways.map(|links| OwnWay { links })
    }

    fn whole_way(&self, screw: ScrewId) -> OwnWay {
        let mut links = Vec::new();
        let mut here = self.cell(screw);
        while let Some((parent, link)) = self.network.step_to(here) {
            links.push(link);
            here = parent;
        }
        OwnWay { links }
    }

    fn length(&self, way: &OwnWay, measured: &[LinkId]) -> Bounds<f64> {
        let lengths = way.links.iter().map(|link| {
            let length = self.network.link(*link).length;
            if measured.contains(link) {
                length.collapsed()
            } else {
                length
            }
        });
        let sum: Bounds<Length> = lengths.sum();
        sum.map(|length| length.get::<meter>())
    }

    fn rank(&self, screw: ScrewId) -> &'a Rank {
        &self.derived.ranks[&screw]
    }

    fn name(&self, screw: ScrewId) -> &'n str {
        self.network.screw(screw).id.as_str()
    }

    fn cell(&self, screw: ScrewId) -> CellId {
        self.network.screw_place(screw).cell
    }

    fn to_cell(&self, cell: CellId) -> Bounds<Length> {
        self.derived.lengths.to_cell[cell.index()]
    }
}

/// The exact range of `a - b` where the two share nothing.
fn minus(a: Bounds<f64>, b: Bounds<f64>) -> Bounds<f64> {
    Bounds {
        low: a.low - b.high,
        nominal: a.nominal - b.nominal,
        high: a.high - b.low,
    }
}
