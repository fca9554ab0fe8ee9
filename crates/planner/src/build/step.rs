//! The steps: what each visit asks for, with what is counted from step to step.

use super::Builder;
use super::pedal_block::Pedal;
use super::visited::Visited;
use crate::drive::{CLEAR_ML, CLEAR_STROKES};
use crate::heights::{Ways, above_fluid};
use crate::level::{Draw, Levels, Looks};
use crate::options::Method;
use crate::order::{Visit, reasons};
use crate::plan::{
    Block, Drive, LevelAction, LineBubble, Progress, Step, StepHeight, StepNote, StopRule,
};
use bleedwright_network::{CircuitId, ScrewId};
use std::cmp::Ordering;
use std::collections::{BTreeMap, HashSet};
use uom::si::f64::Volume;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

impl Builder<'_, '_> {
    /// The steps, and what becomes of a long bubble in each line on the way.
    pub(super) fn steps(
        &self,
        visits: &[Visit],
        visited: Vec<Option<Visited>>,
        gravity_first: &[ScrewId],
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
        let mut blocks: BTreeMap<Pedal, Block> = BTreeMap::new();
        let mut steps: Vec<Step> = Vec::with_capacity(visits.len());
        let mut finished = HashSet::new();
        let airy = self.air_elsewhere(&visited, gravity_first);
        let mut ways = Ways::new(self.request, self.scope, &self.bubbles);
        for ((visited, reasons), air_notes) in visited.into_iter().zip(reasons).zip(airy) {
            let Some(visited) = visited else {
                continue;
            };
            for (screw, advance) in visited.screws.iter().zip(&visited.advances) {
                self.bubbles.add_run(screw.id, *advance, &mut bubbles);
            }
            let pedal = Pedal::of(network, visited.screws[0].circuit_id);
            let is_repeat = !finished.insert(visited.screws[0].id);
            let heights = self.heights(&mut ways, &visited);
            let looks = self.level_looks(&mut levels, &visited);
            steps.push(Step {
                number: steps.len() + 1,
                level_rules: looks.rules,
                level_stops: looks.stops,
                stop_rule: StopRule {
                    at_least: visited.push.nominal,
                    clear: if self.is_by_strokes() {
                        Progress::Strokes(u64::from(CLEAR_STROKES))
                    } else {
                        Progress::Volume(Volume::new::<milliliter>(CLEAR_ML))
                    },
                    give_up: visited.give_up,
                },
                // The marks follow when all steps are there.
                jars: Vec::new(),
                jar_mark_ml: 0,
                why_here: Some(reasons.why_here),
                // The first step of a resumed job follows what was done.
                after_previous: reasons.after_previous,
                notes: in_order(
                    moved_block(&mut blocks, pedal, visited.drive)
                        .into_iter()
                        .chain(visited.notes)
                        .chain(is_repeat.then_some(StepNote::SecondVisit))
                        .chain(air_notes),
                ),
                heights,
                push: visited.push,
                drive: visited.drive,
                draw_back: visited.draw_back,
                time: visited.time,
                screws: visited.screws,
            });
        }
        let mut bubbles: Vec<LineBubble> = bubbles.into_values().collect();
        bubbles.sort_by(|a, b| a.line.cmp(&b.line));
        (steps, bubbles)
    }

    /// What heights mean at a visit: high points that no visit before passed, screws above what feeds them.
    fn heights(&self, ways: &mut Ways<'_, '_>, visited: &Visited) -> Vec<StepHeight> {
        let mut heights = Vec::new();
        for screw in &visited.screws {
            let over = ways.new_on_way_to(screw.id).into_iter();
            heights.extend(over.map(|(_, high)| StepHeight::Over(high)));
            heights.extend(above_fluid(self.request, screw.id).map(StepHeight::Above));
        }
        heights
    }

    pub(super) fn is_by_strokes(&self) -> bool {
        self.request.options.method == Method::Pedal
    }

    /// When to see to the reservoir, up to where the step is given up.
    fn level_looks(&self, levels: &mut Levels, visited: &Visited) -> Looks {
        let network = self.network();
        let open: Vec<CircuitId> = (visited.screws.iter())
            .map(|screw| screw.circuit_id)
            .collect();
        match (visited.drive, self.request.options.method) {
            (Drive::Strokes { block, .. }, _) => {
                let strokes = open
                    .iter()
                    .map(|circuit| self.blocks.stroke(&open, *circuit));
                let mut draws: Vec<(CircuitId, Draw)> = Vec::new();
                let mut smallest = Volume::default();
                for (circuit, stroke) in open.iter().zip(strokes) {
                    // Where the firm pedal sets the block nothing else is known
                    // of the stroke.
                    let [to_block, least] = match block {
                        Block::At(_) => [stroke.displacement.high, stroke.displacement.low],
                        Block::FirmPedal => [stroke.full, Volume::default()],
                    };
                    let whole = stroke.full;
                    draws.push((*circuit, Draw { to_block, whole }));
                    // Where the shut circuit may take up all of it, too.
                    smallest += least.max(stroke.useful());
                }
                let most = (visited.give_up / smallest).get::<ratio>().ceil() as u64;
                levels.step(network, &draws, visited.give_up, most)
            }
            // The tank keeps the reservoir full.
            (Drive::Steady { .. }, Method::Pressure) => Looks::default(),
            (Drive::Steady { .. }, method) => {
                let action = match method {
                    Method::Reverse => LevelAction::DrawOff,
                    _ => LevelAction::TopUp,
                };
                let kept = self.kept(open[0]);
                levels.run(network, open[0], visited.give_up, action, kept)
            }
        }
    }

    /// What stays above the minimum mark of a circuit's compartment for drawing
    /// back; nothing but by the reverse method.
    pub(super) fn kept(&self, circuit: CircuitId) -> Volume {
        let compartment = self.network().circuit(circuit).compartment;
        compartment
            .and_then(|compartment| self.kept.get(&compartment).copied())
            .unwrap_or_default()
    }
}

/// In the order in which they are said, each once.
fn in_order(notes: impl Iterator<Item = StepNote>) -> Vec<StepNote> {
    let mut notes: Vec<StepNote> = notes.collect();
    notes.sort_by(|a, b| a.partial_cmp(b).unwrap_or(Ordering::Equal));
    notes.dedup();
    notes
}

/// What is said when the block must stand elsewhere than in the step before.
fn moved_block(
    blocks: &mut BTreeMap<Pedal, Block>,
    pedal: Pedal,
    drive: Drive,
) -> Option<StepNote> {
    let Drive::Strokes { block, .. } = drive else {
        return None;
    };
    let before = blocks.insert(pedal, block)?;
    let Block::At(travel) = block else {
        return None;
    };
    (before != block).then_some(StepNote::BlockTo(travel))
}
