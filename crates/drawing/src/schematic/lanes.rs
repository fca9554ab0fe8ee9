//! Lanes beside the middle column: every line that must change its height there gets a piece of one for itself.

use super::order::Order;
use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};

/// A line that changes its height beside the middle column.
#[derive(Clone, Copy, Debug)]
pub(super) struct Request {
    /// What the answer is filed under.
    pub(super) wire: usize,
    pub(super) from: f64,
    pub(super) to: f64,
    /// Whether one of its ends is at a wheel: then its lane is farther out than those between parts of the column.
    pub(super) leads_out: bool,
}

/// Which lane each request gets, counted from the wheels, and how many lanes that takes.
///
/// Lines that come from above and lead down get lanes before those that lead up, the upper ones farther out: then
/// neighbours do not cross. A lane is used again below the end of a line (the left-edge rule).
pub(super) fn assign(requests: &[Request]) -> (Vec<(usize, usize)>, usize) {
    let mut answers = Vec::with_capacity(requests.len());
    let mut used = 0;
    for (leads_out, leads_down) in [(true, true), (true, false), (false, true), (false, false)] {
        let mut group: Vec<&Request> = requests
            .iter()
            .filter(|request| {
                request.leads_out == leads_out && (request.to >= request.from) == leads_down
            })
            .collect();
        // Lines that lead up are the same picture upside down.
        let turned = if leads_down { 1.0 } else { -1.0 };
        let top = |request: &Request| (request.from * turned).min(request.to * turned);
        let bottom = |request: &Request| (request.from * turned).max(request.to * turned);
        group.sort_by(|a, b| top(a).total_cmp(&top(b)).then(a.wire.cmp(&b.wire)));
        let mut busy: BinaryHeap<Reverse<(Order, usize)>> = BinaryHeap::new();
        let mut free: BTreeSet<usize> = BTreeSet::new();
        let mut opened = 0;
        for request in group {
            while let Some(Reverse((end, lane))) = busy.peek().copied() {
                if end.0 > top(request) - super::measure::GRID {
                    break;
                }
                busy.pop();
                free.insert(lane);
            }
            let lane = free.pop_first().unwrap_or_else(|| {
                opened += 1;
                opened - 1
            });
            busy.push(Reverse((Order(bottom(request)), lane)));
            answers.push((request.wire, used + lane));
        }
        used += opened;
    }
    (answers, used)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_lines_share_a_piece_of_a_lane() {
        let requests: Vec<Request> = (0..200_u32)
            .map(|nth| {
                let from = f64::from(nth * 37 % 101) * 3.0;
                let to = f64::from(nth * 53 % 97) * 3.0 + 1.5;
                Request {
                    wire: nth as usize,
                    from,
                    to,
                    leads_out: nth % 3 == 0,
                }
            })
            .collect();
        let (answers, count) = assign(&requests);
        assert_eq!(answers.len(), requests.len());
        for (a, lane_a) in &answers {
            assert!(*lane_a < count);
            for (b, lane_b) in answers.iter().filter(|other| other.0 < *a) {
                let (a, b) = (requests[*a], requests[*b]);
                let is_apart =
                    a.from.max(a.to) < b.from.min(b.to) || b.from.max(b.to) < a.from.min(a.to);
                assert!(lane_a != lane_b || is_apart, "{a:?} and {b:?}");
            }
        }
    }
}
