//! Old fluid: along laminar streamlines in lines, stirred in chambers and brakes.
//!
//! A parabolic profile spreads the streamlines' speeds evenly from 0 to 2 times the mean, as in
//! [`bleedwright_hydraulics::tube`]. On each of them new fluid reaches from the chamber so far along the way; a push `v`
//! moves that front on by `u v`, through every line in turn, so that a branch starts where the shared line already was.
//! What a push clears from the lines comes out at their end. Old fluid that the chamber or the reservoir still sends in
//! waits behind it.

use crate::system::{Passed, System, elements_of};
use bleedwright_network::{CircuitId, Element, Network};
use std::collections::HashMap;

/// The old fluid of all circuits.
#[derive(Clone, Debug)]
pub(crate) struct OldFluid {
    lines: HashMap<Element, OldLine>,
    /// Old fraction of each chamber and brake.
    cavities: HashMap<Element, OldCavity>,
    /// Sent into the lines by chamber and reservoir and not yet out again.
    on_the_way_ml: HashMap<CircuitId, f64>,
    /// Old fraction of what the reservoir gives.
    reservoir: f64,
}

/// Streamlines followed; what a line keeps is right to a thousandth of its contents.
const STREAMLINES: usize = 256;

#[derive(Clone, Debug)]
struct OldLine {
    volume_ml: f64,
    /// The share of the line that is new, streamline by streamline, slowest first.
    new: Box<[f64; STREAMLINES]>,
}

#[derive(Clone, Copy, Debug)]
struct OldCavity {
    volume_ml: f64,
    fraction: f64,
}

impl OldLine {
    fn new(volume_ml: f64, is_old: bool) -> Self {
        let share = if is_old { 0.0 } else { 1.0 };
        Self {
            volume_ml,
            new: Box::new([share; STREAMLINES]),
        }
    }

    fn old_ml(&self) -> f64 {
        let new: f64 = self.new.iter().sum();
        self.volume_ml * (1.0 - new / STREAMLINES as f64)
    }

    /// Every streamline carries on new fluid as far as it still has to go; what of the old one that clears.
    fn pass(&mut self, left_ml: &mut [f64; STREAMLINES]) -> f64 {
        let before_ml = self.old_ml();
        for (new, left_ml) in self.new.iter_mut().zip(left_ml) {
            let moved_ml = ((1.0 - *new) * self.volume_ml).min(*left_ml);
            *new += moved_ml / self.volume_ml;
            // A line that is not all new yet keeps the front.
            *left_ml -= moved_ml;
        }
        before_ml - self.old_ml()
    }
}

/// How far a push moves the fluid on each streamline.
fn distances(volume_ml: f64) -> [f64; STREAMLINES] {
    std::array::from_fn(|nth| 2.0 * (nth as f64 + 0.5) / STREAMLINES as f64 * volume_ml)
}

impl OldFluid {
    /// Every circuit full of old fluid, the reservoir refilled.
    pub(crate) fn new(system: &System<'_>, network: &Network, reservoir: f64) -> Self {
        let mut lines: HashMap<Element, OldLine> = HashMap::new();
        let mut cavities = HashMap::new();
        for (circuit, data) in network.circuits() {
            for element in elements_of(network, circuit) {
                let volume_ml = system.capacity_of(element);
                // What is empty holds nothing old.
                let is_old = system.air_in(element) < 0.5 * volume_ml;
                if network.is_cavity(element) || element == Element::Cell(data.chamber) {
                    let fraction = if is_old { 1.0 } else { 0.0 };
                    cavities.insert(
                        element,
                        OldCavity {
                            volume_ml,
                            fraction,
                        },
                    );
                } else {
                    lines.insert(element, OldLine::new(volume_ml, is_old));
                }
            }
        }
        Self {
            lines,
            cavities,
            on_the_way_ml: HashMap::new(),
            reservoir,
        }
    }

    /// A push along a way.
    pub(crate) fn push(&mut self, circuit: CircuitId, way: &[Passed], volume_ml: f64) {
        if volume_ml <= 0.0 {
            return;
        }
        let mut sent_ml = self.reservoir * volume_ml;
        let mut passed = way.iter().map(|passed| passed.element).peekable();
        if let Some(chamber) = passed.next_if(|element| self.cavities.contains_key(element)) {
            sent_ml = self.stir(chamber, sent_ml, volume_ml);
        }
        let mut cleared_ml = 0.0;
        let mut behind = Vec::new();
        let mut left_ml = distances(volume_ml);
        for element in passed {
            let Some(line) = self.lines.get_mut(&element) else {
                behind.push(element);
                continue;
            };
            if line.volume_ml <= 0.0 {
                continue;
            }
            cleared_ml += line.pass(&mut left_ml);
        }
        let waiting = self.on_the_way_ml.entry(circuit).or_default();
        *waiting += sent_ml;
        let late_ml = waiting.min((volume_ml - cleared_ml).max(0.0));
        *waiting -= late_ml;
        let mut sent_ml = cleared_ml + late_ml;
        for element in behind {
            sent_ml = self.stir(element, sent_ml, volume_ml);
        }
    }

    /// Sends a push with its old fluid through a cavity; the old fluid that
    /// leaves.
    fn stir(&mut self, element: Element, sent_ml: f64, volume_ml: f64) -> f64 {
        let Some(cavity) = self.cavities.get_mut(&element) else {
            return sent_ml;
        };
        if cavity.volume_ml <= 0.0 {
            return sent_ml;
        }
        let inflow = sent_ml / volume_ml;
        let before = cavity.fraction;
        cavity.fraction = inflow + (before - inflow) * (-volume_ml / cavity.volume_ml).exp();
        sent_ml + (before - cavity.fraction) * cavity.volume_ml
    }

    /// Old fluid in the circuits.
    pub(crate) fn left_ml(&self, network: &Network) -> f64 {
        let mut left_ml = 0.0;
        for (circuit, _) in network.circuits() {
            left_ml += self.on_the_way_ml.get(&circuit).copied().unwrap_or(0.0);
            for element in elements_of(network, circuit) {
                left_ml += self.in_element_ml(element);
            }
        }
        left_ml
    }

    pub(crate) fn in_element_ml(&self, element: Element) -> f64 {
        let in_line = self.lines.get(&element).map_or(0.0, OldLine::old_ml);
        let in_cavity = self
            .cavities
            .get(&element)
            .map_or(0.0, |cavity| cavity.fraction * cavity.volume_ml);
        in_line + in_cavity
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn push(lines: &mut [&mut OldLine], volume_ml: f64) {
        let mut left_ml = distances(volume_ml);
        for line in lines {
            line.pass(&mut left_ml);
        }
    }

    /// [Levenspiel1999]: after `theta` contents a laminar pipe keeps `1 / (4 theta)` of its old fluid.
    #[test]
    fn a_pipe_keeps_what_the_laminar_rule_says() {
        for theta in [0.1, 0.25, 0.5, 1.0, 2.236_068, 5.0] {
            let mut line = OldLine::new(40.0, true);
            push(&mut [&mut line], 40.0 * theta);
            let expected = if theta < 0.5 {
                1.0 - theta
            } else {
                1.0 / (4.0 * theta)
            };
            assert!((line.old_ml() / 40.0 - expected).abs() < 1e-3, "{theta}");
        }
    }

    /// Trunk 100.5 ml, branches 26.4 and 25.1 ml, pushes 284 and 56.3 ml. On the streamline `u` the first push clears
    /// the trunk to `min(284 u, 100.5)`, so that of the second branch `25.1 - (56.3 u - what is missing there)` stays:
    /// the integral over `u` from 0 to 2, by a sum of ten thousand parts.
    #[test]
    fn a_branch_starts_where_the_shared_pipe_was() {
        let (trunk_ml, first_ml, second_ml) = (100.5_f64, 26.4, 25.1_f64);
        let (mut trunk, mut first, mut second) = (
            OldLine::new(trunk_ml, true),
            OldLine::new(first_ml, true),
            OldLine::new(second_ml, true),
        );
        push(&mut [&mut trunk, &mut first], 284.0);
        push(&mut [&mut trunk, &mut second], 56.3);
        let parts = 10_000;
        let expected: f64 = (0..parts)
            .map(|nth| {
                let u = 2.0 * (f64::from(nth) + 0.5) / f64::from(parts);
                let missing = (trunk_ml - 284.0 * u).max(0.0);
                (second_ml - (56.3 * u - missing).max(0.0)).max(0.0) / f64::from(parts)
            })
            .sum();
        assert!((expected - 4.27).abs() < 0.05, "{expected}");
        assert!((second.old_ml() - expected).abs() < 0.05);
    }
}
