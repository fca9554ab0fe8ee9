//! What an uncertain contest turns on: its lines, and which of them to measure.

use super::contest::{Contest, Contests, minus};
use super::preference::{NO_DIFFERENCE_M, by_length};
use super::standing::CircuitStanding;
use crate::certainty::{DecidingLine, UncertainPair};
use crate::options::Begin;
use bleedwright_network::{Bounds, LinkId, ScrewId};
use std::collections::BTreeMap;
use uom::si::f64::Length;
use uom::si::length::meter;

/// A list of more measurements than this is no advice.
const MOST_MEASURED: usize = 3;

/// Where one of two runs may be: the lines that it does not share.
type Way = Vec<LinkId>;

impl Contests<'_, '_> {
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
        let ways = |standing: &CircuitStanding| {
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
            .into_iter()
            .map(|link| (link, (length(link).nominal - length(link).low).value))
            .chain(
                shorter
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
        standing: &CircuitStanding,
        measured: &[LinkId],
        end: fn(Bounds<f64>) -> f64,
    ) -> Way {
        let ways = standing.screws.iter().map(|screw| self.whole_way(*screw));
        let at = |way: &Way| end(self.length(way, measured));
        let deciding = match self.begin {
            Begin::Farthest => ways.max_by(|a, b| at(a).total_cmp(&at(b))),
            Begin::Nearest => ways.min_by(|a, b| at(a).total_cmp(&at(b))),
        };
        deciding.expect("circuits without screws have no standing")
    }

    /// The screw that stands for its circuit, at nominal lengths.
    fn head(&self, standing: &CircuitStanding) -> ScrewId {
        let length = |screw: &ScrewId| self.to_cell(self.cell(*screw)).nominal;
        let ordered = |a: &&ScrewId, b: &&ScrewId| {
            by_length(self.begin, length(a), length(b))
                .then_with(|| self.name(**a).cmp(self.name(**b)))
        };
        let head = standing.screws.iter().min_by(ordered);
        *head.expect("circuits without screws have no standing")
    }

    fn lines(&self, contest: &Contest) -> Vec<DecidingLine> {
        let ways: Vec<Way> = match contest {
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
            .flatten()
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
    fn own_ways(&self, a: ScrewId, b: ScrewId) -> [Way; 2] {
        let (mut a, mut b) = (self.cell(a), self.cell(b));
        let mut ways = [Vec::new(), Vec::new()];
        while a != b {
            let is_first = self.network.depth(a) >= self.network.depth(b);
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
        ways
    }

    fn whole_way(&self, screw: ScrewId) -> Way {
        let mut links = Vec::new();
        let mut here = self.cell(screw);
        while let Some((parent, link)) = self.network.step_to(here) {
            links.push(link);
            here = parent;
        }
        links
    }

    fn length(&self, way: &[LinkId], measured: &[LinkId]) -> Bounds<f64> {
        let lengths = way.iter().map(|link| {
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
}
