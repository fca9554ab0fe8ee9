//! The steps of a plan, done one after the other.

use crate::done::{Done, MOST_TIMES};
use crate::not_followed::not_followed;
use crate::old::OldFluid;
use crate::outcome::{AirLeft, CurvePoint, Outcome, Pocket, StepOutcome};
use crate::parameters::{Parameters, ScrewHandling};
use crate::rise::{Climb, climbs, rise};
use crate::slug::{Direction, Matter, Row, Slug};
use crate::stroke::{SimulationError, StrokeMaker};
use crate::system::{Passed, System};
use bleedwright_hydraulics::displacement::stroke_displacement;
use bleedwright_hydraulics::fluid::Liquid;
use bleedwright_hydraulics::gas::absorbed_share;
use bleedwright_mechanism::TakeUp;
use bleedwright_network::{CellId, CircuitId, Element, LinkId, Network, ScrewId};
use bleedwright_planner::{
    Drive, Method, Options, Plan, Purpose, Step, empty_at_start, liquid, opened_joints,
    shut_circuits,
};
use std::collections::{BTreeSet, HashMap, HashSet};
use uom::si::f64::{Length, Time, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// A steady flow is followed in this many parts.
const PARTS: u64 = 50;

/// What a catch hose holds.
///
/// ASSUMPTION: half a metre of 5 mm bore.
const HOSE_ML: f64 = 10.0;

/// Air below this is none: no screw shows it.
const CLEAR_ML: f64 = 1e-3;

/// Does what a plan says and follows the air and the old fluid.
///
/// The plan must have been made for the same network and options.
///
/// # Errors
///
/// [`SimulationError`] where a stroke's equations cannot be followed; no layout that was checked is known to do that.
pub fn simulate(
    network: &Network,
    options: &Options,
    plan: &Plan,
    parameters: &Parameters,
) -> Result<Outcome, SimulationError> {
    Bleed::new(network, options, plan, parameters).run(plan, |_, _| ())
}

pub(crate) struct Bleed<'a, 'n> {
    pub(crate) network: &'n Network,
    pub(crate) options: &'a Options,
    pub(crate) parameters: &'a Parameters,
    pub(crate) liquid: Liquid,
    pub(crate) system: System<'n>,
    joints: Vec<(LinkId, CellId)>,
    pub(crate) old: Option<OldFluid>,
    /// What the shut circuit takes up of a stroke, by the circuit that is bled.
    taken_up: HashMap<CircuitId, TakeUp>,
    pub(crate) strokes: u64,
    pub(crate) out_ml: f64,
    pub(crate) air_out_ml: f64,
    /// Air in the circuits, kept up with every move.
    pub(crate) air_ml: f64,
    pub(crate) climbs: Vec<Climb>,
    pub(crate) curve: Vec<CurvePoint>,
    /// What stands in the hose on the open screw, the latest nearest to it.
    pub(crate) hose: Row,
}

impl<'a, 'n> Bleed<'a, 'n> {
    pub(crate) fn new(
        network: &'n Network,
        options: &'a Options,
        plan: &Plan,
        parameters: &'a Parameters,
    ) -> Self {
        let empty: HashSet<Element> = empty_at_start(network, options)
            .into_iter()
            .map(|(_, element)| element)
            .collect();
        let joints = opened_joints(network, options);
        let system = System::new(network, &empty, &joints, parameters.pocket);
        let liquid = liquid(network, options).nominal;
        let old = (options.purpose() == Purpose::Renew)
            .then(|| OldFluid::new(&system, network, plan.reservoir_old.get::<ratio>()));
        Self {
            network,
            options,
            parameters,
            air_ml: system.totals().0,
            climbs: climbs(network, &liquid),
            taken_up: taken_up(network, options, plan),
            liquid,
            system,
            joints,
            old,
            strokes: 0,
            out_ml: 0.0,
            air_out_ml: 0.0,
            curve: Vec::new(),
            hose: Row::default(),
        }
    }

    /// Follows the plan; `show` sees the circuits before the first step and
    /// after each.
    pub(crate) fn run(
        mut self,
        plan: &Plan,
        mut show: impl FnMut(&Self, Option<&Step>),
    ) -> Result<Outcome, SimulationError> {
        let ml = Volume::new::<milliliter>;
        let (air_at_start_ml, contents_ml) = self.system.totals();
        self.note(0);
        if self.parameters.is_filled_by_gravity {
            self.fill_by_gravity(plan);
            self.note(0);
        }
        let air_by_gravity_ml = self.air_out_ml;
        show(&self, None);
        let mut steps = Vec::with_capacity(plan.steps.len());
        let mut time = Time::default();
        for step in &plan.steps {
            let done = self.step(step)?;
            time += done.time;
            let circuits: BTreeSet<CircuitId> =
                step.screws.iter().map(|screw| screw.circuit_id).collect();
            steps.push(StepOutcome {
                number: step.number,
                screws: step.screw_names().collect(),
                strokes: done.strokes,
                out: ml(done.out_ml),
                sucked_back: ml(done.back_ml),
                air_out: ml(done.air_ml),
                clear_after: ml(done.clear_after_ml),
                air_left: ml(self.system.totals().0),
                old_left: self.old.as_ref().map(|old| ml(old.left_ml(self.network))),
                air_travel: self.longest_travel(&circuits),
                time: done.time,
            });
            show(&self, Some(step));
        }
        let (air_ml, contents_after_ml) = self.system.totals();
        let old_left = self.old.as_ref().map(|old| ml(old.left_ml(self.network)));
        let air_balance_ml = air_at_start_ml - air_ml - self.air_out_ml;
        let volume_balance_ml = contents_after_ml - contents_ml;
        let all: BTreeSet<CircuitId> = self.network.circuits().map(|(id, _)| id).collect();
        Ok(Outcome {
            contents: ml(contents_ml),
            air_at_start: ml(air_at_start_ml),
            pockets: self.pockets(),
            pocket: self.parameters.pocket,
            air_by_gravity: ml(air_by_gravity_ml),
            air_left: ml(air_ml),
            air_left_in: self
                .system
                .air_places()
                .into_iter()
                .map(|(element, air_ml)| AirLeft {
                    element,
                    volume: ml(air_ml),
                })
                .collect(),
            not_followed: not_followed(self.network, self.options, plan),
            old_left_fraction: old_left.map(|old| old / ml(contents_ml)),
            old_left,
            air_travel: self.longest_travel(&all),
            is_to_the_end: all.iter().any(|circuit| self.is_to_the_end(*circuit)),
            time,
            balance_residual: ml(air_balance_ml.abs().max(volume_balance_ml.abs())),
            looped: self.looped(),
            curve: self.curve,
            steps,
        })
    }

    fn pockets(&self) -> Vec<Pocket> {
        let joints = self.joints.iter();
        let mut pockets: Vec<Pocket> = joints
            .map(|(line, cell)| Pocket {
                line: self.network.link_name(*line),
                at: self.network.end_name(*line, *cell),
            })
            .collect();
        pockets.sort_by(|a, b| (&a.at, &a.line).cmp(&(&b.at, &b.line)));
        pockets
    }

    /// Follows one step as the sheet asks for it: the strokes that it counts
    /// on, and more until as much came out as it wants and the last ones ran
    /// clear, or it is given up.
    fn step(&mut self, step: &Step) -> Result<Done, SimulationError> {
        self.hose = Row::default();
        let ways: Vec<(ScrewId, CircuitId, Vec<Passed>)> = step
            .screws
            .iter()
            .map(|screw| {
                let height = self.parameters.passage_height.get::<ratio>();
                let way = self.system.way(screw.id, height, self.direction());
                (screw.id, screw.circuit_id, way)
            })
            .collect();
        let mut done = Done::default();
        match step.drive {
            Drive::Strokes { strokes, .. } => {
                let (mut made, mut clear) = (0, 0);
                let most = strokes.high * MOST_TIMES;
                while made < strokes.nominal
                    || (made < most && !done.is_enough(&step.stop_rule, clear))
                {
                    let air_before_ml = done.air_ml;
                    self.stroke(&ways, step, &mut done)?;
                    made += 1;
                    let is_clear = done.air_ml - air_before_ml <= CLEAR_ML;
                    clear = if is_clear { clear + 1 } else { 0 };
                }
                done.strokes = Some(made);
            }
            Drive::Steady { flow, .. } => {
                let part_ml = step.push.nominal.get::<milliliter>() / PARTS as f64;
                let part_time = Volume::new::<milliliter>(part_ml) / flow.nominal;
                for _ in 0..PARTS {
                    for (_, circuit, way) in &ways {
                        self.advance(*circuit, way, part_ml, &mut done);
                    }
                    done.time += part_time;
                    rise(&mut self.system, &self.climbs, part_time);
                    self.strokes += 1;
                    self.note(step.number);
                }
                if let Some(back) = step.draw_back {
                    self.draw_back(&ways, back, &mut done);
                    self.note(step.number);
                }
            }
        }
        Ok(done)
    }

    /// One stroke through the screws of a step; two circuits under a balance
    /// bar move together.
    fn stroke(
        &mut self,
        ways: &[(ScrewId, CircuitId, Vec<Passed>)],
        step: &Step,
        done: &mut Done,
    ) -> Result<(), SimulationError> {
        let mut longest = Time::default();
        for (screw, circuit, way) in ways {
            let chamber = self.network.chamber_of(*circuit);
            let maker = StrokeMaker {
                system: &self.system,
                liquid: &self.liquid,
                parameters: self.parameters,
                hold: self.parameters.hold.or(step.hold()).unwrap_or_default(),
                circuit: *circuit,
                screw: *screw,
                way,
            };
            let displaced = self.displaced(*circuit, to_block(step, *screw), ways.len() > 1);
            let delivered = maker.deliver(displaced, chamber.area().nominal)?;
            let back_ml = match self.parameters.screw {
                ScrewHandling::ShutBeforeRelease => 0.0,
                ScrewHandling::LeftOpen => maker.sucked_back(delivered.volume_ml),
            };
            longest = longest.max(delivered.time);
            self.advance(*circuit, way, delivered.volume_ml, done);
            self.come_back(way, back_ml, done);
            done.back_ml += back_ml;
        }
        let rest = self.parameters.release + self.parameters.pause;
        done.time += longest + rest;
        rise(&mut self.system, &self.climbs, rest);
        self.strokes += 1;
        self.note(step.number);
        Ok(())
    }

    /// What the piston of a circuit displaces in one stroke to the plan's block, less what the shut circuit takes up of it:
    /// by its brakes, and by its air, which is squeezed to the pressure that is left in it.
    fn displaced(&self, circuit: CircuitId, piston: Length, are_both_open: bool) -> Volume {
        let chamber = self.network.chamber_of(circuit);
        let cut_off = chamber.cut_off.bounds.nominal;
        let full = stroke_displacement(chamber.area().nominal, piston, cut_off);
        let Some(taken_up) = self.taken_up.get(&circuit).filter(|_| !are_both_open) else {
            return full;
        };
        let squeezed = Volume::new::<milliliter>(self.system.air_of_circuit(taken_up.shut))
            * absorbed_share(
                self.parameters.atmosphere,
                taken_up.pressure.nominal,
                self.parameters.polytropic_index,
            );
        (full - taken_up.volume.nominal - squeezed).max(Volume::default())
    }

    fn direction(&self) -> Direction {
        match self.options.method {
            Method::Reverse => Direction::Back,
            _ => Direction::Out,
        }
    }

    /// Sends liquid along a way and books what comes out.
    fn advance(&mut self, circuit: CircuitId, way: &[Passed], volume_ml: f64, done: &mut Done) {
        let out = self.system.push(way, volume_ml, self.direction());
        if let Some(old) = &mut self.old {
            old.push(circuit, way, volume_ml);
        }
        let air_ml = air_of(&out);
        done.out_ml += volume_ml;
        done.air_ml += air_ml;
        if air_ml > CLEAR_ML {
            done.clear_after_ml = done.out_ml;
        }
        self.out_ml += volume_ml;
        self.leave(air_ml);
        for slug in out {
            self.hose.append(slug, Direction::Out);
        }
        let spare_ml = self.hose.volume_ml() - HOSE_ML;
        if spare_ml > 0.0 {
            self.hose.take(spare_ml, Direction::Out);
        }
    }

    fn note(&mut self, step: usize) {
        self.curve.push(CurvePoint {
            step,
            strokes: self.strokes,
            out: Volume::new::<milliliter>(self.out_ml),
            air: Volume::new::<milliliter>(self.air_ml.max(0.0)),
        });
    }

    fn looped(&self) -> Vec<String> {
        let circuits = self.network.circuits();
        circuits
            .filter(|(id, _)| self.network.has_loops(*id))
            .map(|(_, circuit)| circuit.name.clone())
            .collect()
    }
}

fn taken_up(network: &Network, options: &Options, plan: &Plan) -> HashMap<CircuitId, TakeUp> {
    let mut shut = shut_circuits(network, options);
    let circuits: BTreeSet<CircuitId> = (plan.steps.iter())
        .flat_map(|step| &step.screws)
        .map(|screw| screw.circuit_id)
        .collect();
    circuits
        .into_iter()
        .filter_map(|circuit| Some((circuit, shut.beside(circuit)?)))
        .collect()
}

pub(crate) fn air_of(slugs: &[Slug]) -> f64 {
    let air = slugs.iter().filter(|slug| slug.matter == Matter::Air);
    air.map(|slug| slug.volume_ml).sum()
}

/// How far the piston of a screw's circuit goes until the pedal stands at its
/// block.
fn to_block(step: &Step, screw: ScrewId) -> Length {
    (step.screws.iter())
        .find(|other| other.id == screw)
        .and_then(|screw| screw.piston_travel)
        .map_or(Length::default(), |piston| piston.nominal)
}
