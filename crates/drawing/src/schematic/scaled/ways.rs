//! The ways of all lines and feeds between symbols that stand where they stand.

use super::super::arrange::Arrangement;
use super::super::frame::Frame;
use super::feeds::Feed;
use super::finder::{Finder, Gate};
use super::grid::{CLEAR, Grid};
use super::numbers::Number;
use super::search::Search;
use super::sign::{Facing, Port, Serves, Sign};
use crate::picture::Point;
use bleedwright_network::LineKind;

/// One way that is asked for: the ports at which it may begin and end.
pub(super) struct Job {
    pub(super) from: Vec<usize>,
    pub(super) to: Vec<usize>,
}

/// The ways found: of the lines, then of the feeds.
pub(super) struct Ways {
    pub(super) lines: Vec<Vec<Point>>,
    pub(super) numbers: Vec<Number>,
    pub(super) feeds: Vec<Vec<Point>>,
}

/// A port with the place at the edge of its symbol's zone where its line is free to bend.
pub(super) struct Exit {
    pub(super) port: Port,
    sign: usize,
    at: Point,
}

/// A way that failed is tried first the next time, so often for each way.
const MOST_ROUNDS: usize = 12;

/// Finds all ways; else the number of one that is not found, feeds after lines.
pub(super) fn ways(
    arrangement: &Arrangement<'_>,
    feeds: &[Feed],
    signs: &[Sign],
    names: &[Frame],
    finder: &mut Finder,
) -> Result<Ways, usize> {
    let exits = exits(signs);
    let jobs = jobs(arrangement, feeds, signs, &exits);
    let places: Vec<Point> = exits
        .iter()
        .flat_map(|exit| [exit.port.at, exit.at])
        .collect();
    let mut obstacles: Vec<Frame> = signs.iter().flat_map(Sign::frames).collect();
    obstacles.extend(names);
    let grid = Grid::new(&places, &obstacles);
    let gates: Vec<Gate> = exits
        .iter()
        .map(|exit| (grid.node(exit.at), !exit.port.facing.is_level()))
        .collect();
    // What is screwed in goes straight there; then the shortest first: they have the least choice.
    let is_screwed_in = |nth: usize| {
        let wire = arrangement.wires.get(nth);
        wire.is_some_and(|wire| {
            let line = &arrangement.network.layout().lines[wire.line];
            matches!(line.kind, LineKind::Direct)
        })
    };
    let mut order: Vec<(bool, f64, usize)> = jobs
        .iter()
        .enumerate()
        .map(|(nth, job)| (!is_screwed_in(nth), distance(job, &exits), nth))
        .collect();
    order.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
    let mut order: Vec<usize> = order.into_iter().map(|(.., nth)| nth).collect();
    let lines = arrangement.wires.len();
    let mut last = 0;
    for _ in 0..MOST_ROUNDS.min(jobs.len() + 1) {
        let mut search = Search {
            exits: &exits,
            gates: &gates,
            grid: grid.clone(),
            finder,
            taken: obstacles.clone(),
            pieces: Vec::new(),
            is_used: vec![false; exits.len()],
        };
        match search.all(&jobs, &order, lines) {
            Ok((mut ways, mut numbers)) => {
                numbers.truncate(lines);
                let feeds = ways.split_off(lines);
                return Ok(Ways {
                    lines: ways,
                    numbers,
                    feeds,
                });
            }
            Err(job) => {
                last = job;
                if order[0] == job || finder.left == 0 {
                    break;
                }
                order.retain(|other| *other != job);
                order.insert(0, job);
            }
        }
    }
    Err(last)
}

/// Ports with the way out of the zone that all lines keep from a symbol.
fn exits(signs: &[Sign]) -> Vec<Exit> {
    let mut exits = Vec::new();
    for (sign, found) in signs.iter().enumerate() {
        let zone = found.frame.grown(CLEAR);
        for port in &found.ports {
            let at = match port.facing {
                Facing::Up => Point::new(port.at.x, zone.top),
                Facing::Down => Point::new(port.at.x, zone.bottom),
                Facing::Left => Point::new(zone.left, port.at.y),
                Facing::Right => Point::new(zone.right, port.at.y),
            };
            exits.push(Exit {
                port: *port,
                sign,
                at,
            });
        }
    }
    exits
}

fn jobs(arrangement: &Arrangement<'_>, feeds: &[Feed], signs: &[Sign], exits: &[Exit]) -> Vec<Job> {
    let mut of_sign: Vec<Vec<usize>> = vec![Vec::new(); signs.len()];
    for (nth, exit) in exits.iter().enumerate() {
        of_sign[exit.sign].push(nth);
    }
    let serving = |sign: usize, asked: [Serves; 2]| -> Vec<usize> {
        let here = of_sign[sign].iter().copied();
        here.filter(|nth| asked.contains(&exits[*nth].port.serves))
            .collect()
    };
    let mut jobs = Vec::new();
    for (wire, found) in arrangement.wires.iter().enumerate() {
        let ends = [found.near, found.far].map(|cell| {
            let sign = arrangement.body_of_cell[cell.index()];
            serving(sign, [Serves::Wire(wire), Serves::Cell(cell)])
        });
        let [from, to] = ends;
        // A line from a symbol to itself takes one port of its first cell and any other one.
        let to = if from == to && to.len() > 1 {
            to[1..].to_vec()
        } else {
            to
        };
        let from = if to.len() + 1 == from.len() && from[1..] == to[..] {
            from[..1].to_vec()
        } else {
            from
        };
        jobs.push(Job { from, to });
    }
    let first_reservoir = arrangement.bodies.len();
    for (nth, feed) in feeds.iter().enumerate() {
        let reservoir = feed.intake.compartment.map_or(0, |found| found.0);
        let cylinder = arrangement.body_of_cell[feed.cell.index()];
        let asked = Serves::Feed(nth);
        jobs.push(Job {
            from: serving(first_reservoir + reservoir, [asked; 2]),
            to: serving(cylinder, [Serves::Cell(feed.cell); 2]),
        });
    }
    jobs
}

fn distance(job: &Job, exits: &[Exit]) -> f64 {
    let ports = |ports: &[usize]| ports.iter().map(|nth| exits[*nth].at).collect::<Vec<_>>();
    let (from, to) = (ports(&job.from), ports(&job.to));
    let pairs = from.iter().flat_map(|a| to.iter().map(move |b| (a, b)));
    pairs
        .map(|(a, b)| (a.x - b.x).abs() + (a.y - b.y).abs())
        .fold(f64::INFINITY, f64::min)
}
