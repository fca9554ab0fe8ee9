//! What one visit asks for, whatever came before it: this part of the steps is
//! worked out beside others.

use super::Builder;
use crate::amount::Amount;
use crate::bubble::Advance;
use crate::drive::{CLEAR_ML, CLEAR_STROKES, SteadyFlow, counted, cycle, hold};
use crate::joint::Joints;
use crate::options::Method;
use crate::plan::{Drive, StepNote, StepScrew, Strokes};
use bleedwright_network::{Bounds, CircuitId, Element, ScrewId};
use uom::si::f64::{Time, Volume};
use uom::si::time::second;
use uom::si::volume::milliliter;

/// Beyond this many times the high bound something is wrong.
///
/// ASSUMPTION: twice.
const GIVE_UP_TIMES: f64 = 2.0;

/// What the screws of one visit need; nothing where all of them are done.
pub(super) type Needs = Vec<(ScrewId, CircuitId, Amount)>;

/// The longest count that any screw asks for before it is shut; none where no strokes drive the fluid.
pub(super) fn longest_hold(visited: &[Option<Visited>]) -> Option<Time> {
    let hold_of = |visited: &Visited| match visited.drive {
        Drive::Strokes { hold, .. } => Some(hold),
        Drive::Steady { .. } => None,
    };
    let holds = visited.iter().flatten().filter_map(hold_of);
    holds.reduce(Time::max)
}

/// Every screw is shut after the same count, which takes its time.
pub(super) fn hold_all(visited: &mut [Option<Visited>], longest: Option<Time>) {
    let Some(longest) = longest else {
        return;
    };
    for visited in visited.iter_mut().flatten() {
        if let Drive::Strokes { strokes, hold, .. } = &mut visited.drive {
            *hold = longest;
            let each = counted(longest);
            visited.time.low += each.low * strokes.low as f64;
            visited.time.nominal += each.nominal * strokes.nominal as f64;
            visited.time.high += each.high * strokes.high as f64;
        }
    }
}

/// A visit without what is counted from step to step.
pub(super) struct Visited {
    /// The screws that are opened; none where all of them are done.
    pub(super) screws: Vec<StepScrew>,
    /// How the fluid moves on the run of each.
    pub(super) advances: Vec<Advance>,
    pub(super) push: Bounds<Volume>,
    pub(super) drive: Drive,
    pub(super) time: Bounds<Time>,
    pub(super) draw_back: Option<Volume>,
    /// Beyond this something is wrong.
    pub(super) give_up: Volume,
    pub(super) notes: Vec<StepNote>,
}

impl Builder<'_, '_> {
    /// What the screws of a visit ask for; nothing where all of them are done.
    pub(super) fn visited(&self, needs: &Needs) -> Option<Visited> {
        if needs.is_empty() {
            return None;
        }
        let push: Bounds<Volume> = needs.iter().map(|(_, _, amount)| amount.push).sum();
        let flows: Vec<SteadyFlow> = needs
            .iter()
            .map(|(screw, _, _)| self.flows.through(*screw))
            .collect();
        let open: Vec<CircuitId> = needs.iter().map(|(_, circuit, _)| *circuit).collect();
        let (drive, time) = self.drive(needs, &open, &flows);
        Some(Visited {
            advances: needs
                .iter()
                .zip(&flows)
                .map(|((_, circuit, _), flow)| self.advance(&open, *circuit, drive, flow))
                .collect(),
            push,
            drive,
            time,
            draw_back: self.draw_back(needs),
            give_up: self.give_up(&open, push.high),
            notes: self.notes(needs),
            screws: needs
                .iter()
                .map(|(screw, circuit, amount)| self.step_screw(&open, *screw, *circuit, amount))
                .collect(),
        })
    }

    /// What drives the fluid of a step, and how long it takes.
    fn drive(
        &self,
        needs: &[(ScrewId, CircuitId, Amount)],
        open: &[CircuitId],
        flows: &[SteadyFlow],
    ) -> (Drive, Bounds<Time>) {
        let (_, _, amount) = &needs[0];
        if !self.is_by_strokes() {
            let flow = &flows[0];
            let drive = Drive::Steady {
                pressure: flow.pressure,
                flow: flow.flow,
                reynolds: flow.reynolds,
            };
            return (drive, flow.time(amount.push));
        }
        let brought = |circuit: &CircuitId| self.blocks.stroke(open, *circuit).displacement;
        let strokes = needs
            .iter()
            .map(|(_, circuit, amount)| self.blocks.stroke(open, *circuit).count(amount.push))
            .reduce(Strokes::max)
            .expect("a visit has at least one screw");
        let cycle = needs
            .iter()
            .zip(flows)
            .map(|((_, circuit, _), flow)| cycle(flow.time(brought(circuit))))
            .reduce(|a, b| a.zip(b, Time::max))
            .expect("a visit has at least one screw");
        let taken_up = self.blocks.stroke(open, open[0]).taken_up;
        let settles_in = taken_up.map(|it| it.settles_in(self.flows.resistance(needs[0].0)));
        let drive = Drive::Strokes {
            strokes,
            block: self.blocks.block(open),
            brought: open.iter().map(brought).sum(),
            taken_up: taken_up.map_or(Bounds::exact(Volume::default()), |it| it.volume),
            hold: hold(settles_in, self.request.options.temperature),
        };
        let time = Bounds {
            low: cycle.low * strokes.low as f64,
            nominal: cycle.nominal * strokes.nominal as f64,
            high: cycle.high * strokes.high as f64,
        };
        (drive, time)
    }

    /// Fluid that comes in at the screw does not move the air above the hole
    /// where it goes on: one more filling of the brake is drawn back.
    fn draw_back(&self, needs: &[(ScrewId, CircuitId, Amount)]) -> Option<Volume> {
        let network = self.network();
        let cell = network.screw_place(needs[0].0).cell;
        let is_reverse = self.request.options.method == Method::Reverse;
        (is_reverse && network.is_cavity(Element::Cell(cell)))
            .then(|| network.cell(cell).contents.high.min(self.kept(needs[0].1)))
    }

    /// Beyond this something is wrong: never before the fluid had two chances
    /// to run clear.
    fn give_up(&self, open: &[CircuitId], high: Volume) -> Volume {
        let clear = if self.is_by_strokes() {
            let stroke = open
                .iter()
                .map(|circuit| self.blocks.stroke(open, *circuit).displacement.high)
                .fold(Volume::default(), |sum, volume| sum + volume);
            stroke * f64::from(CLEAR_STROKES)
        } else {
            Volume::new::<milliliter>(CLEAR_ML)
        };
        let two_chances = high + clear * 2.0;
        two_chances.max(high * GIVE_UP_TIMES)
    }

    /// How the fluid moves on the runs of a step.
    fn advance(
        &self,
        open: &[CircuitId],
        circuit: CircuitId,
        drive: Drive,
        through: &SteadyFlow,
    ) -> Advance {
        match drive {
            Drive::Strokes { hold, .. } => {
                let displacement = self.blocks.stroke(open, circuit).displacement;
                Advance {
                    volume: displacement.nominal,
                    cycle: cycle(through.time(displacement)).nominal + hold,
                }
            }
            Drive::Steady { flow, .. } => {
                let cycle = Time::new::<second>(1.0);
                Advance {
                    volume: flow.nominal * cycle,
                    cycle,
                }
            }
        }
    }

    fn step_screw(
        &self,
        open: &[CircuitId],
        id: ScrewId,
        circuit: CircuitId,
        amount: &Amount,
    ) -> StepScrew {
        let network = self.network();
        let screw = network.screw(id);
        StepScrew {
            id,
            screw: screw.id.clone(),
            part: network.cell_name(network.screw_place(id).cell),
            wheel: network.wheel(id),
            circuit_id: circuit,
            circuit: network.circuit(circuit).name.clone(),
            run_length: network.run_length(id),
            push: amount.push,
            piston_travel: self
                .is_by_strokes()
                .then(|| self.blocks.stroke(open, circuit).piston),
            plug: amount.plug,
            at_least: (amount.least).map(|least| Joints::at_least(self.request, least)),
            contents: amount.contents,
            old_fraction_out: amount.old_fraction_out,
            old_left: amount.old_left,
            joints: amount.joints,
            spanner: screw.spanner_text.clone(),
            torque: screw.torque_text.clone(),
        }
    }
}
