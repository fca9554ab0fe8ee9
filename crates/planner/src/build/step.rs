//! The steps: what each visit asks for, with what is counted from step to step.

use super::Builder;
use super::pedal_block::Pedal;
use super::visited::Visited;
use crate::level::Levels;
use crate::options::Method;
use crate::order::{Visit, reasons};
use crate::plan::{Drive, LevelAction, LevelStop, LineBubble, Progress, Step, StopRule};
use crate::stroke::primary_of;
use bleedwright_network::{CircuitId, Element, ScrewId};
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use uom::si::f64::Volume;
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// Strokes that must run clear before a screw is finished.
///
/// ASSUMPTION: three.
pub(super) const CLEAR_STROKES: u32 = 3;

/// Without strokes to count, this much must run clear.
///
/// ASSUMPTION: 10 ml, about three strokes' worth.
pub(super) const CLEAR_ML: f64 = 10.0;

/// Said where air on another run of the circuit takes up strokes.
const AIR_ELSEWHERE: &str = "air elsewhere in this circuit takes up strokes: go by the jar and by \
                             clear fluid, more strokes are normal";

/// Said at a secondary circuit while the primary one holds air.
const AIR_IN_PRIMARY: &str = "while the primary circuit holds air this screw gets short strokes \
                              or none: bleed the primary first, or let this one run by gravity";

impl Builder<'_, '_> {
    /// The steps, and what becomes of a long bubble in each line on the way.
    pub(super) fn steps(
        &self,
        visits: &[Visit],
        visited: Vec<Option<Visited>>,
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
        let airy = self.air_elsewhere(&visited);
        for ((visited, reasons), air_notes) in visited.into_iter().zip(reasons).zip(airy) {
            let Some(visited) = visited else {
                continue;
            };
            jar_mark += visited.push.nominal;
            for (screw, advance) in visited.screws.iter().zip(&visited.advances) {
                self.bubbles.add_run(screw.id, *advance, &mut bubbles);
            }
            let pedal = Pedal::of(network, visited.screws[0].circuit_id);
            let is_repeat = !finished.insert(visited.screws[0].id);
            steps.push(Step {
                number: steps.len() + 1,
                level_stops: self.level_stops(&mut levels, &visited),
                stop_rule: StopRule {
                    at_least: visited.push.nominal,
                    clear: if self.is_by_strokes() {
                        Progress::Strokes(u64::from(CLEAR_STROKES))
                    } else {
                        Progress::Volume(Volume::new::<milliliter>(CLEAR_ML))
                    },
                    give_up: visited.give_up,
                },
                jar_mark,
                why_here: reasons.why_here,
                // The first step of a resumed job follows what was done.
                after_previous: reasons.after_previous,
                notes: moved_block(&mut blocks, pedal, visited.drive)
                    .into_iter()
                    .chain(with_repeat(visited.notes, is_repeat))
                    .chain(air_notes.into_iter().map(str::to_owned))
                    .collect(),
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

    /// For each visit what is to be said of air that is left elsewhere: the pedal
    /// squeezes it, and it takes up strokes. Where gravity fills the runs before
    /// the pedal is used there is none.
    fn air_elsewhere(&self, visited: &[Option<Visited>]) -> Vec<Vec<&'static str>> {
        let screws = || visited.iter().flatten().flat_map(|visited| &visited.screws);
        let all: Vec<ScrewId> = screws().map(|screw| screw.id).collect();
        if !self.is_by_strokes()
            || self.drained.is_nothing_taken()
            || !self.gravity_first(&all).is_empty()
        {
            return vec![Vec::new(); visited.len()];
        }
        let network = self.network();
        let with_chamber = |screw: ScrewId, circuit: CircuitId| {
            let chamber = Element::Cell(network.circuit(circuit).chamber);
            network.run(screw).into_iter().chain([chamber])
        };
        let mut air: HashMap<CircuitId, HashSet<Element>> = HashMap::new();
        for screw in screws() {
            let is_empty =
                |element: &Element| self.drained.is_taken_for_empty(screw.circuit_id, *element);
            let run = with_chamber(screw.id, screw.circuit_id);
            let of_circuit = air.entry(screw.circuit_id).or_default();
            of_circuit.extend(run.filter(is_empty));
        }
        let mut notes = Vec::with_capacity(visited.len());
        for visited in visited {
            let mut own = BTreeSet::new();
            for screw in visited.iter().flat_map(|visited| &visited.screws) {
                let circuit = screw.circuit_id;
                let primary = primary_of(network, circuit);
                if primary.is_some_and(|it| air.get(&it).is_some_and(|left| !left.is_empty())) {
                    own.insert(AIR_IN_PRIMARY);
                }
                let left = air.entry(circuit).or_default();
                for element in with_chamber(screw.id, circuit) {
                    left.remove(&element);
                }
                if !left.is_empty() {
                    own.insert(AIR_ELSEWHERE);
                }
            }
            notes.push(own.into_iter().collect());
        }
        notes
    }

    pub(super) fn is_by_strokes(&self) -> bool {
        self.request.options.method == Method::Pedal
    }

    /// When to see to the reservoir: by strokes up to as many as the plan asks
    /// for, by a steady flow until it is given up.
    fn level_stops(&self, levels: &mut Levels, visited: &Visited) -> Vec<LevelStop> {
        let network = self.network();
        match (visited.drive, self.request.options.method) {
            (Drive::Strokes { strokes, .. }, _) => {
                let draws: Vec<(CircuitId, Volume)> = visited
                    .screws
                    .iter()
                    .map(|screw| (screw.circuit_id, self.strokes[&screw.circuit_id].full))
                    .collect();
                levels.step(network, &draws, [strokes.low, strokes.high])
            }
            // The tank keeps the reservoir full.
            (Drive::Steady { .. }, Method::Pressure) => Vec::new(),
            (Drive::Steady { .. }, method) => {
                let action = match method {
                    Method::Reverse => LevelAction::DrawOff,
                    _ => LevelAction::TopUp,
                };
                let circuit = visited.screws[0].circuit_id;
                levels.run(
                    network,
                    circuit,
                    [visited.push.low, visited.give_up],
                    action,
                    self.kept(circuit),
                )
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

/// The notes of a visit, and whether the screw was finished before.
fn with_repeat(mut notes: Vec<String>, is_repeat: bool) -> Vec<String> {
    if is_repeat {
        notes.push("second visit to this screw".to_owned());
        notes.sort();
    }
    notes
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
