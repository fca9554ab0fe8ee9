//! The cheapest way between two ports on the grid: short, with few bends and few crossings (A* search).

use super::super::order::Order;
use super::grid::{Grid, Node};
use crate::picture::Point;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// What a bend costs, in millimetres of line.
const BEND: f64 = 5.0;
/// What a crossing costs.
const CROSSING: f64 = 9.0;
/// How much dearer a line is right beside a symbol.
const NEAR: f64 = 0.6;

/// Where a search begins or ends: a node, and whether the line runs upright there.
pub(super) type Gate = (Node, bool);

/// Remembers its tables from one search to the next.
pub(super) struct Finder {
    cost: Vec<f64>,
    before: Vec<u32>,
    round: Vec<u32>,
    this_round: u32,
    /// How many more nodes all searches together may look at: a bound on their time.
    pub(super) left: usize,
}

impl Finder {
    pub(super) fn new(left: usize) -> Self {
        Self {
            cost: Vec::new(),
            before: Vec::new(),
            round: Vec::new(),
            this_round: 0,
            left,
        }
    }

    /// The bends of the cheapest way, its ends included, with the gates it leaves and enters by.
    pub(super) fn find(
        &mut self,
        grid: &Grid,
        from: &[Gate],
        to: &[Gate],
    ) -> Option<(Gate, Vec<Point>, Gate)> {
        let states = grid.ground.len() * 2;
        if self.cost.len() < states {
            self.cost.resize(states, 0.0);
            self.before.resize(states, 0);
            self.round.resize(states, 0);
        }
        self.this_round += 1;
        let open = |gate: &&Gate| {
            let ground = &grid.ground[gate.0];
            !ground.is_blocked && !ground.is_shut[usize::from(gate.1)]
        };
        let goals: Vec<Gate> = to.iter().filter(open).copied().collect();
        let ends: Vec<Point> = goals.iter().map(|gate| grid.place(gate.0)).collect();
        let rest = |node: Node| {
            let here = grid.place(node);
            ends.iter()
                .map(|end| (end.x - here.x).abs() + (end.y - here.y).abs())
                .fold(f64::INFINITY, f64::min)
        };
        if goals.is_empty() {
            return None;
        }
        let mut heap = BinaryHeap::new();
        for gate in from.iter().filter(open) {
            let state = gate.0 * 2 + usize::from(gate.1);
            self.reach(state, 0.0, state);
            heap.push(Reverse((Order(rest(gate.0)), state)));
        }
        while let Some(Reverse((Order(estimate), state))) = heap.pop() {
            let (node, is_upright) = (state / 2, state % 2 == 1);
            let cost = self.cost[state];
            if estimate > cost + rest(node) + 1e-9 {
                continue;
            }
            if goals.contains(&(node, is_upright)) {
                return Some(self.way(grid, state));
            }
            self.left = self.left.checked_sub(1)?;
            if !grid.ground[node].is_straight_only {
                self.step(&mut heap, state, state ^ 1, cost + BEND, rest(node));
            }
            for next in grid.neighbours(node, is_upright).into_iter().flatten() {
                let ground = &grid.ground[next];
                if ground.is_blocked || ground.is_shut[usize::from(is_upright)] {
                    continue;
                }
                let (here, there) = (grid.place(node), grid.place(next));
                let mut length = (here.x - there.x).abs() + (here.y - there.y).abs();
                if ground.is_near {
                    length *= 1.0 + NEAR;
                }
                if ground.is_used[usize::from(!is_upright)] {
                    length += CROSSING;
                }
                let next_state = next * 2 + usize::from(is_upright);
                self.step(&mut heap, state, next_state, cost + length, rest(next));
            }
        }
        None
    }

    fn reach(&mut self, state: usize, cost: f64, before: usize) {
        self.cost[state] = cost;
        self.before[state] = u32::try_from(before).unwrap_or(u32::MAX);
        self.round[state] = self.this_round;
    }

    fn step(
        &mut self,
        heap: &mut BinaryHeap<Reverse<(Order, usize)>>,
        state: usize,
        next: usize,
        cost: f64,
        rest: f64,
    ) {
        if self.round[next] != self.this_round || cost < self.cost[next] - 1e-9 {
            self.reach(next, cost, state);
            heap.push(Reverse((Order(cost + rest), next)));
        }
    }

    fn way(&self, grid: &Grid, last: usize) -> (Gate, Vec<Point>, Gate) {
        let mut points = vec![grid.place(last / 2)];
        let mut state = last;
        loop {
            let before = self.before[state] as usize;
            if before == state {
                break;
            }
            // A change of direction is a step on the spot.
            if before / 2 == state / 2 {
                points.push(grid.place(state / 2));
            }
            state = before;
        }
        points.push(grid.place(state / 2));
        points.reverse();
        let gate = |state: usize| (state / 2, state % 2 == 1);
        (gate(state), points, gate(last))
    }
}
