//! The steps: amounts, strokes, top-ups, marks, notes.

use super::Builder;
use super::needs::Needs;
use super::pedal_block::Pedal;
use crate::amount::{Amount, Amounts};
use crate::bubble::Advance;
use crate::drive::{SteadyFlow, cycle};
use crate::level::Levels;
use crate::options::Method;
use crate::order::{Visit, reasons};
use crate::plan::{
    Drive, LevelAction, LevelStop, LineBubble, Progress, Step, StepScrew, StopRule, Strokes,
};
use bleedwright_network::{Bounds, CircuitId, Element, ScrewId};
use std::collections::{BTreeMap, HashSet};
use uom::si::f64::{Ratio, Time, Volume};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// Strokes that must run clear before a screw is finished.
///
/// ASSUMPTION: three.
const CLEAR_STROKES: u32 = 3;

/// Without strokes to count, this much must run clear.
///
/// ASSUMPTION: 10 ml, about three strokes' worth.
const CLEAR_ML: f64 = 10.0;

/// Beyond this many times the high bound something is wrong.
///
/// ASSUMPTION: twice.
const GIVE_UP_TIMES: f64 = 2.0;

impl<'n> Builder<'_, 'n> {
    /// The steps, and what becomes of a long bubble in each line on the way.
    pub(super) fn steps(
        &self,
        visits: &[Visit],
        needs: Vec<Needs>,
    ) -> (Vec<Step>, Vec<LineBubble>) {
        let network = self.network();
        let reasons = reasons(
            self.request,
            &self.ordered.derived,
            &self.ordered.constraints,
            visits,
            self.ordered.authority,
            self.ordered.given,
        );
        let mut bubbles = BTreeMap::new();
        let mut levels = Levels::default();
        let mut blocks: BTreeMap<Pedal, f64> = BTreeMap::new();
        let mut jar_mark = Volume::default();
        let mut steps: Vec<Step> = Vec::with_capacity(visits.len());
        let mut finished = HashSet::new();
        for (needs, reasons) in needs.into_iter().zip(reasons) {
            if needs.is_empty() {
                continue;
            }
            let push: Bounds<Volume> = needs.iter().map(|(_, _, amount)| amount.push).sum();
            jar_mark += push.nominal;
            let flows: Vec<SteadyFlow> = needs
                .iter()
                .map(|(screw, _, _)| self.flows.through(*screw))
                .collect();
            let (drive, time) = self.drive(&needs, &flows);
            for ((screw, circuit, _), flow) in needs.iter().zip(&flows) {
                let advance = self.advance(*circuit, drive, flow);
                self.bubbles.add_run(*screw, advance, &mut bubbles);
            }
            let give_up = self.give_up(&needs, push.high);
            let draw_back = self.draw_back(&needs);
            let is_repeat = !finished.insert(needs[0].0);
            steps.push(Step {
                number: steps.len() + 1,
                push,
                drive,
                draw_back,
                time,
                level_stops: self.level_stops(&mut levels, &needs, drive, give_up),
                stop_rule: StopRule {
                    at_least: push.nominal,
                    clear: if self.is_by_strokes() {
                        Progress::Strokes(u64::from(CLEAR_STROKES))
                    } else {
                        Progress::Volume(Volume::new::<milliliter>(CLEAR_ML))
                    },
                    give_up,
                },
                jar_mark,
                why_here: reasons.why_here,
                // The first step of a resumed job follows what was done.
                after_previous: reasons.after_previous,
                notes: moved_block(&mut blocks, Pedal::of(network, needs[0].1), drive)
                    .into_iter()
                    .chain(self.notes(&needs, is_repeat))
                    .collect(),
                screws: needs
                    .into_iter()
                    .map(|(screw, circuit, amount)| self.step_screw(screw, circuit, &amount))
                    .collect(),
            });
        }
        let mut bubbles: Vec<LineBubble> = bubbles.into_values().collect();
        bubbles.sort_by(|a, b| a.line.cmp(&b.line));
        (steps, bubbles)
    }

    pub(super) fn is_by_strokes(&self) -> bool {
        self.request.options.method == Method::Pedal
    }

    /// What drives the fluid of a step, and how long it takes.
    fn drive(
        &self,
        needs: &[(ScrewId, CircuitId, Amount)],
        flows: &[SteadyFlow],
    ) -> (Drive, Bounds<Time>) {
        let (_, circuit, amount) = &needs[0];
        if !self.is_by_strokes() {
            let flow = &flows[0];
            let drive = Drive::Steady {
                pressure: flow.pressure,
                flow: flow.flow,
                reynolds: flow.reynolds,
            };
            return (drive, flow.time(amount.push));
        }
        let strokes = needs
            .iter()
            .map(|(_, circuit, amount)| self.strokes[circuit].count(amount.push))
            .reduce(Strokes::max)
            .expect("a visit has at least one screw");
        let cycle = needs
            .iter()
            .zip(flows)
            .map(|((_, circuit, _), flow)| cycle(flow.time(self.strokes[circuit].displacement)))
            .reduce(|a, b| a.zip(b, Time::max))
            .expect("a visit has at least one screw");
        let drive = Drive::Strokes {
            strokes,
            pedal_travel: self.strokes[circuit].travel,
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

    /// When to see to the reservoir: by strokes as many as the plan asks for, by
    /// a steady flow until it is given up.
    fn level_stops(
        &self,
        levels: &mut Levels,
        needs: &[(ScrewId, CircuitId, Amount)],
        drive: Drive,
        give_up: Volume,
    ) -> Vec<LevelStop> {
        let network = self.network();
        match (drive, self.request.options.method) {
            (Drive::Strokes { strokes, .. }, _) => {
                let draws: Vec<(CircuitId, Volume)> = needs
                    .iter()
                    .map(|(_, circuit, _)| (*circuit, self.strokes[circuit].full))
                    .collect();
                levels.step(network, &draws, strokes.high)
            }
            // The tank keeps the reservoir full.
            (Drive::Steady { .. }, Method::Pressure) => Vec::new(),
            (Drive::Steady { .. }, method) => {
                let action = match method {
                    Method::Reverse => LevelAction::DrawOff,
                    _ => LevelAction::TopUp,
                };
                let circuit = needs[0].1;
                levels.run(network, circuit, give_up, action, self.kept(circuit))
            }
        }
    }

    /// What stays above the minimum mark of a circuit's compartment for drawing
    /// back; nothing but by the reverse method.
    fn kept(&self, circuit: CircuitId) -> Volume {
        let compartment = self.network().circuit(circuit).compartment;
        compartment
            .and_then(|compartment| self.kept.get(&compartment).copied())
            .unwrap_or_default()
    }

    pub(super) fn amounts(&self) -> Amounts<'_, 'n> {
        let fraction = |circuit: CircuitId| {
            let old = self
                .draw_off_of
                .get(&circuit)
                .map_or(0.0, |index| self.draw_offs[*index].old_fraction);
            Ratio::new::<ratio>(old)
        };
        let clear_strokes = |circuit: CircuitId| {
            if !self.is_by_strokes() {
                return Bounds::exact(Volume::new::<milliliter>(CLEAR_ML));
            }
            let none = Bounds::exact(Volume::default());
            self.strokes.get(&circuit).map_or(none, |stroke| {
                stroke
                    .displacement
                    .map(|volume| volume * f64::from(CLEAR_STROKES))
            })
        };
        Amounts::new(self.request, &self.drained, fraction, clear_strokes)
    }

    /// Beyond this something is wrong: never before the fluid had two chances
    /// to run clear.
    fn give_up(&self, needs: &[(ScrewId, CircuitId, Amount)], high: Volume) -> Volume {
        let clear = if self.is_by_strokes() {
            let stroke = needs
                .iter()
                .map(|(_, circuit, _)| self.strokes[circuit].displacement.high)
                .fold(Volume::default(), |sum, volume| sum + volume);
            stroke * f64::from(CLEAR_STROKES)
        } else {
            Volume::new::<milliliter>(CLEAR_ML)
        };
        let two_chances = high + clear * 2.0;
        two_chances.max(high * GIVE_UP_TIMES)
    }

    /// Screws opened together get as many strokes as the one that needs most:
    /// more comes out of the other, and is bought.
    pub(super) fn open_together(&self, needs: &mut [(ScrewId, CircuitId, Amount)]) {
        if needs.len() < 2 {
            return;
        }
        let displacement = |circuit: &CircuitId| self.strokes[circuit].displacement.nominal;
        let strokes = |pick: fn(Bounds<Volume>) -> Volume| {
            needs
                .iter()
                .map(|(_, circuit, amount)| pick(amount.push) / displacement(circuit))
                .fold(Ratio::default(), Ratio::max)
        };
        let (low, nominal, high) = (
            strokes(|push| push.low),
            strokes(|push| push.nominal),
            strokes(|push| push.high),
        );
        for (_, circuit, amount) in needs.iter_mut() {
            let displacement = self.strokes[circuit].displacement.nominal;
            amount.push = Bounds {
                low: displacement * low,
                nominal: displacement * nominal,
                high: displacement * high,
            };
        }
    }

    /// How the fluid moves on the runs of a step.
    fn advance(&self, circuit: CircuitId, drive: Drive, through: &SteadyFlow) -> Advance {
        match drive {
            Drive::Strokes { .. } => {
                let displacement = self.strokes[&circuit].displacement;
                Advance {
                    volume: displacement.nominal,
                    cycle: cycle(through.time(displacement)).nominal,
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

    fn step_screw(&self, id: ScrewId, circuit: CircuitId, amount: &Amount) -> StepScrew {
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
            plug: amount.plug,
            contents: amount.contents,
            old_fraction_out: amount.old_fraction_out,
            old_left_inside: amount.old_left_inside,
            spanner: screw.spanner_text.clone(),
            torque: screw.torque_text.clone(),
        }
    }
}

/// What is said when the block must stand elsewhere than in the step before.
fn moved_block(blocks: &mut BTreeMap<Pedal, f64>, pedal: Pedal, drive: Drive) -> Option<String> {
    let Drive::Strokes { pedal_travel, .. } = drive else {
        return None;
    };
    let block = pedal_travel.nominal.get::<millimeter>().round();
    let before = blocks.insert(pedal, block)?;
    (before.to_bits() != block.to_bits()).then(|| format!("block to {block:.0} mm"))
}
