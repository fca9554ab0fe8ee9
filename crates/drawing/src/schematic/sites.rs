//! The brakes beside the vehicle: at which site each of them sits, and in which order.

use super::arrange::{Arrangement, Entry, Seat, Site, Unit, Way};
use bleedwright_network::{BrakeKind, Network, Owner, Part, PartKind, Side, Steering, Wheel};
use std::collections::BTreeMap;

impl Arrangement<'_> {
    /// Gives every brake its site.
    pub(super) fn seat_brakes(&mut self) {
        let parts = &self.network.layout().parts;
        let mut sites = Sites::new(self.network);
        for body in &mut self.bodies {
            if let Owner::Part(index, _) = body.owner
                && matches!(parts[index].kind, PartKind::Brake(_))
            {
                body.seat = Seat::Brake(sites.of(&parts[index]));
            }
        }
    }

    /// The brakes of each site: those behind one joint together, one behind a bridge pipe below the one before it.
    pub(super) fn fill_sites(&mut self) {
        let mut is_placed = vec![false; self.bodies.len()];
        for body in 0..self.bodies.len() {
            let Seat::Brake(site) = self.bodies[body].seat else {
                continue;
            };
            if is_placed[body]
                || self
                    .bridge_to(body)
                    .is_some_and(|wire| !is_placed[self.near_body(wire)])
            {
                continue;
            }
            self.place_brake(self.first_of_tree(body), site, &mut is_placed);
        }
        // What only a ring of bridges leads to.
        for body in 0..self.bodies.len() {
            if let Seat::Brake(site) = self.bodies[body].seat
                && !is_placed[body]
            {
                self.place_brake(body, site, &mut is_placed);
            }
        }
    }

    /// The only line into a brake, where it comes from another brake of the same wheel.
    fn bridge_to(&self, body: usize) -> Option<usize> {
        let mut ending = self.ending_at(body);
        let wire = ending.next()?;
        let near = self.near_body(wire);
        let is_bridge = near != body && self.bodies[near].seat == self.bodies[body].seat;
        (ending.next().is_none() && is_bridge && !self.wires[wire].closes).then_some(wire)
    }

    /// The joint nearest to the cylinder before a brake, where the brake has one line; else the brake itself.
    fn first_of_tree(&self, body: usize) -> usize {
        let mut first = body;
        if self.ending_at(body).count() != 1 {
            return first;
        }
        while let Some(wire) = self.ending_at(first).next()
            && self.wires[wire].way == Way::Rib
        {
            first = self.near_body(wire);
        }
        first
    }

    fn place_brake(&mut self, body: usize, site: Site, is_placed: &mut [bool]) {
        if let Seat::Joint(_) = self.bodies[body].seat {
            for wire in self.leading_on[self.bodies[body].cells[0].index()].clone() {
                self.place_brake(self.far_body(wire), site, is_placed);
            }
            return;
        }
        let mut next = Some(body);
        while let Some(body) = next.take() {
            if std::mem::replace(&mut is_placed[body], true) {
                return;
            }
            let mut entries = Vec::new();
            for (cavity, cell) in self.bodies[body].cells.iter().enumerate() {
                let lines = self.ending[cell.index()]
                    .iter()
                    .chain(&self.leading_on[cell.index()]);
                entries.extend(lines.map(|wire| Entry {
                    wire: *wire,
                    cavity,
                }));
            }
            let bridge = entries.iter().find_map(|entry| {
                let far = self.far_body(entry.wire);
                let leads_on =
                    far != body && self.bridge_to(far) == Some(entry.wire) && !is_placed[far];
                leads_on.then_some((entry.wire, far))
            });
            if let Some((wire, far)) = bridge {
                self.wires[wire].way = Way::Bridge;
                next = Some(far);
            }
            let unit = Unit {
                body,
                entries,
                leads_on: bridge.is_some(),
            };
            self.sites.entry(site).or_default().push(unit);
        }
    }
}

/// Which site each brake belongs to.
struct Sites<'n> {
    network: &'n Network,
    /// Where nothing says left or right, they take turns.
    turn: BTreeMap<u8, bool>,
}

impl<'n> Sites<'n> {
    fn new(network: &'n Network) -> Self {
        Self {
            network,
            turn: BTreeMap::new(),
        }
    }

    fn of(&mut self, part: &Part) -> Site {
        let is_clutch =
            matches!(&part.kind, PartKind::Brake(brake) if brake.kind == BrakeKind::ClutchSlave);
        // A clutch is in front of the middle; so its slave stands below the brakes of the front axle.
        let axle = part.wheel.map_or(u8::from(!is_clutch), Wheel::axle);
        let by_position = part
            .position
            .map(|position| position.y.nominal.value)
            .filter(|y| y.abs() > 1e-6);
        let words = || part.id.split(|letter: char| !letter.is_alphanumeric());
        let has = |word: &str| words().any(|other| other.eq_ignore_ascii_case(word));
        let is_right = match part.wheel.and_then(Wheel::side) {
            Some(side) => side == Side::Right,
            None if is_clutch && by_position.is_none() => {
                self.network.layout().steering != Some(Steering::Left)
            }
            None if by_position.is_some() => by_position.is_some_and(|y| y < 0.0),
            None if has("left") != has("right") => has("right"),
            None => {
                let turn = self.turn.entry(axle).or_insert(false);
                *turn = !*turn;
                *turn
            }
        };
        Site { axle, is_right }
    }
}
