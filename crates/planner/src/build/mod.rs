//! Puts a plan together.

mod air;
mod comparison;
mod gravity;
mod needs;
mod note;
mod ordered;
mod pedal_block;
mod purchase;
mod remains;
mod rinse;
mod second;
mod step;
mod visited;

use crate::amount::{KnownPushes, Radial, Unreachable, radial_times};
use crate::bubble::Bubbles;
use crate::corner::against;
use crate::drained::Drained;
use crate::drive::{Flows, counted, cycle, hands, hold, liquid, tank};
use crate::examine::examine;
use crate::joint::Joints;
use crate::level::kept_for_drawing_back;
use crate::options::{Method, Options, Purpose};
use crate::order::{Visit, differences, pair_for_balance_bars};
use crate::plan::{Drive, Head, Kept, Plan, Rinsing, Step};
use crate::request::Request;
use crate::reservoir::{DrawOff, draw_offs};
use crate::scope::{Scope, circuit_of};
use crate::sheet::{
    Sheet, assumptions, calls, cautions, checks_after, otherwise, parts_of, preparations,
};
use crate::spread::Spread;
use crate::stroke::{Stroke, shut_circuits};
use bleedwright_mechanism::TakeUp;
use bleedwright_network::{CircuitId, Code, Element, Finding, Network, Place, ScrewId};
use comparison::compare;
use gravity::unions;
use ordered::Ordered;
use pedal_block::Blocks;
pub(crate) use pedal_block::Pedal;
use remains::remains;
use second::{screws_of, second_bleed};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::f64::{Ratio, Volume};
use visited::hold_all;

/// What planning gave.
#[derive(Clone, Debug)]
pub struct Planned {
    /// The plan; none when a finding is an error.
    pub plan: Option<Box<Plan>>,
    /// Findings of the options; those of the layout are the loader's.
    pub findings: Vec<Finding>,
}

/// Plans a bleed. The layout must be sound, see
/// [`bleedwright_network::Loaded::sound_network`].
///
/// From a layout's text to its order:
///
/// ```
/// use bleedwright_network::load;
/// use bleedwright_network::uom::si::volume::milliliter;
/// use bleedwright_planner::{Options, Step, plan};
///
/// let text = std::fs::read("../../layouts/plover.ron").expect("the layout is there");
/// let loaded = load(&text);
/// let network = loaded.sound_network().expect("it has no error");
/// let plan = plan(network, &Options::default()).plan.expect("nothing is in its way");
/// let order: Vec<String> = plan.steps.iter().flat_map(Step::screw_names).collect();
/// assert_eq!(order, ["rear right", "front left", "rear left", "front right"]);
/// assert!(plan.buy.needed.get::<milliliter>() > 0.0);
/// ```
pub fn plan(network: &Network, options: &Options) -> Planned {
    let mut findings = Vec::new();
    let plan = plan_unless_found(network, options, &mut findings).map(Box::new);
    Planned { plan, findings }
}

/// The plan, unless one of its findings is an error.
fn plan_unless_found(
    network: &Network,
    options: &Options,
    findings: &mut Vec<Finding>,
) -> Option<Plan> {
    let request = Request::new(network, options, findings);
    let scope = Scope::new(&request, findings);
    // Not even an order is worth looking for.
    if (findings.iter()).any(|finding| finding.code == Code::RunsTooLong) {
        return None;
    }
    examine(&request, &scope, findings);
    let (ordered, order_findings) = Ordered::new(&request, &scope);
    findings.extend(order_findings);
    if findings.iter().any(Finding::is_error) {
        return None;
    }
    let mut builder = Builder::new(&request, &scope, &ordered);
    builder.weigh_rinses(&KnownPushes::default());
    match builder.build() {
        Ok(mut plan) => {
            plan.findings.clone_from(findings);
            Some(plan)
        }
        Err(unreachable) => {
            findings.push(Finding::new(
                Code::ResidualTooLow,
                Place::Option("--residual"),
                unreachable.message,
                "ask for a higher residual, or draw the reservoir off further",
            ));
            None
        }
    }
}

pub use ordered::{derived_order, order_certainty};
pub(crate) use purchase::{LEFT_IN_TANK_ML, fluid_to_buy_knowing};

struct Builder<'a, 'n> {
    request: &'a Request<'n>,
    scope: &'a Scope,
    ordered: &'a Ordered,
    drained: Drained,
    joints: Joints,
    draw_offs: Vec<DrawOff>,
    draw_off_of: BTreeMap<CircuitId, usize>,
    blocks: Blocks,
    flows: Flows<'n>,
    radial: Radial,
    bubbles: Bubbles<'n>,
    /// What stays above the minimum marks, by compartment.
    kept: BTreeMap<(usize, usize), Volume>,
}

impl<'a, 'n> Builder<'a, 'n> {
    fn new(request: &'a Request<'n>, scope: &'a Scope, ordered: &'a Ordered) -> Self {
        let network = request.network;
        let circuits = circuits_of(network, &ordered.order);
        let (draw_offs, draw_off_of) = if request.options.purpose() == Purpose::Renew {
            // From an empty compartment nothing is drawn off.
            let empty = scope.empty_compartments(network);
            let holds_old = |circuit: &&CircuitId| {
                let compartment = network.circuit(**circuit).compartment;
                compartment.is_none_or(|at| !empty.contains(&at))
            };
            draw_offs(
                request,
                &circuits.iter().filter(holds_old).copied().collect(),
            )
        } else {
            (Vec::new(), BTreeMap::new())
        };
        let blocks = match request.options.method {
            Method::Pedal => {
                let shut = shut_circuits(network, request.options);
                Blocks::own(network, &circuits, request.options.stroke, shut)
            }
            _ => Blocks::default(),
        };
        let flows = Flows::new(network, request.options);
        Self {
            radial: radial(request, &ordered.order, &flows),
            request,
            scope,
            ordered,
            drained: Drained::new(request),
            joints: Joints::new(request),
            draw_offs,
            draw_off_of,
            blocks,
            flows,
            bubbles: Bubbles::new(network, request.options),
            kept: kept(request, &ordered.order),
        }
    }

    fn network(&self) -> &'n Network {
        self.request.network
    }

    /// What shut circuits take up of a stroke, by the circuit that is bled; not where screws of two are open at once.
    fn taken_up(&self, steps: &[Step]) -> BTreeMap<CircuitId, TakeUp> {
        (steps.iter())
            .filter_map(|step| match (&step.screws[..], step.drive) {
                ([screw], Drive::Strokes { .. }) => Some(screw.circuit_id),
                _ => None,
            })
            .filter_map(|circuit| {
                Some((circuit, self.blocks.stroke(&[circuit], circuit).taken_up?))
            })
            .collect()
    }

    /// The order as visits: a pedal works two cylinders under a balance bar at
    /// once, every other method one screw at a time.
    fn visits(&self, order: &[ScrewId]) -> Vec<Visit> {
        match self.request.options.method {
            Method::Pedal => pair_for_balance_bars(self.network(), order),
            _ => order.iter().map(|screw| Visit::of(*screw)).collect(),
        }
    }

    fn head(&self) -> Head {
        let options = self.request.options;
        let layout = self.network().layout();
        Head {
            vehicle: layout.name.clone(),
            notes: layout.notes.clone(),
            split: self.network().split(),
            steering: layout.steering,
            fluid: layout.fluid,
            new_fluid: options.new_fluid.or(layout.fluid),
            registration: options.registration.clone(),
            date: options.date.clone(),
            purpose: options.purpose(),
            method: options.method,
            begin: options.begin,
            residual: options.residual,
            stroke: options.stroke,
            tank_pressure: (options.method == Method::Pressure).then(|| tank(options)),
            temperature: options.temperature,
            opened: options.opened.clone(),
            replaced: options.replaced.clone(),
            done: options.done.clone(),
            is_laid_up: options.is_laid_up,
        }
    }

    fn build(mut self) -> Result<Plan, Unreachable> {
        self.settle_blocks(&KnownPushes::default());
        let network = self.network();
        let options = self.request.options;
        let visits = self.visits(&self.ordered.order);
        let other = self.other_order();
        let compared = other.as_ref().map_or(&[][..], |(_, visits)| visits);
        let asked = self.visit_all(&visits, compared);
        let mut visited = asked.visited?;
        let units = self.units();
        let (second, hold) = self.second_steps(&units, &visited)?;
        hold_all(&mut visited, hold);
        let now: Vec<ScrewId> = (visited.iter().flatten())
            .flat_map(|visited| visited.screws.iter().map(|screw| screw.id))
            .collect();
        let gravity_first = self.gravity_first(&now);
        let (steps, bubbles) = self.steps(&visits, visited, &gravity_first);
        let circuits = circuits_of(network, &now);
        let draw_offs = self.draw_offs_now();
        let sheet = Sheet {
            request: self.request,
            joints: &self.joints,
            left_out: &self.scope.left_out,
            order: &now,
            parts: parts_of(network, &circuits),
            gravity_first: &gravity_first,
            unions: unions(&steps),
            second: screws_of(&second),
            units,
            kept: &self.kept,
            pushed: steps
                .iter()
                .fold(Volume::default(), |sum, step| sum + step.push.high),
            draw_offs,
            pedal_blocks: self.pedal_blocks(&steps),
            taken_up: self.taken_up(&steps),
            hold,
            circuits,
        };
        let preparations = preparations(&sheet);
        // What a screw kept that was finished earlier, it still keeps.
        let ever: Vec<ScrewId> = now.iter().chain(&self.request.done).copied().collect();
        let remains = remains(network, &ever, &bubbles, options.purpose());
        let is_unsafe = self.ordered.is_unsafe_by_options;
        let checks_after = checks_after(&sheet, &preparations, &remains, is_unsafe);
        let (second, again) = second_bleed(&checks_after, second, &steps);
        let plan = Plan {
            head: self.head(),
            scope: self.scope.circuits.clone(),
            hands: hands(options.method) + u8::from(steps.iter().any(|step| step.screws.len() > 1)),
            calls: calls(&sheet),
            other_order: other
                .zip(asked.compared.ok())
                .map(|((begin, _), push)| compare(begin, &steps, push)),
            order_notes: differences(
                network,
                &self.ordered.order,
                &self.ordered.derived.screws,
                self.ordered.authority,
            ),
            remains,
            buy: self
                .shopping(
                    steps.iter().map(|step| step.push).sum(),
                    draw_offs,
                    &gravity_first,
                    again,
                )
                .with_routine(
                    self.pushed_after_routine(&sheet.units, |it| it == Kept::OldFluid)?
                        .high,
                ),
            second,
            cautions: cautions(&sheet),
            assumptions: assumptions(&sheet),
            spread: Spread::of_runs(network, now.iter().copied()),
            bubbles,
            gravity_first: gravity_first.clone(),
            reservoir_old: (self.draw_offs.iter())
                .map(|draw_off| draw_off.work.old)
                .fold(Ratio::default(), Ratio::max),
            rinsing: (self.draw_offs_now().iter())
                .map(|draw_off| Rinsing {
                    compartment: draw_off.work.compartment.clone(),
                    rinses: draw_off.work.rinses,
                    choices: draw_off.choices.clone(),
                })
                .collect(),
            preparations,
            otherwise: otherwise(&sheet),
            checks_after,
            steps,
            findings: Vec::new(),
            is_unsafe_by_options: is_unsafe,
            order_certainty: self.ordered.certainty.clone(),
            worth: None,
        };
        Ok(plan.with_jars())
    }
}

/// For the reverse method the largest brake of each compartment: so much is
/// drawn back from there.
fn kept(request: &Request<'_>, order: &[ScrewId]) -> BTreeMap<(usize, usize), Volume> {
    let network = request.network;
    let mut kept: BTreeMap<(usize, usize), Volume> = BTreeMap::new();
    if request.options.method != Method::Reverse {
        return kept;
    }
    for screw in order {
        let cell = network.screw_place(*screw).cell;
        let compartment = network.circuit(circuit_of(network, *screw)).compartment;
        if let Some(compartment) = compartment
            && network.is_cavity(Element::Cell(cell))
        {
            let most = kept.entry(compartment).or_default();
            *most = most.max(network.cell(cell).contents.high);
        }
    }
    for (compartment, most) in &mut kept {
        *most = kept_for_drawing_back(network, *compartment, *most);
    }
    kept
}

/// How far old fluid diffuses on the run of each screw, by its mean flow with
/// the pauses between strokes.
fn radial(request: &Request<'_>, order: &[ScrewId], flows: &Flows<'_>) -> Radial {
    if request.options.purpose() != Purpose::Renew {
        return Radial::default();
    }
    let network = request.network;
    let liquid = liquid(network, request.options);
    Radial::new(order.iter().map(|screw| {
        let through = flows.through(*screw);
        let mean_flow = match request.options.method {
            Method::Pedal => {
                let circuit = circuit_of(network, *screw);
                let share = request.options.stroke;
                let displacement = Stroke::of_share(network, circuit, share, None).displaced;
                let held = counted(hold(None, request.options.temperature));
                let cycle =
                    cycle(through.time(displacement)).zip(held, |stroke, held| stroke + held);
                displacement.zip(against(cycle), |volume, time| volume / time)
            }
            _ => through.flow,
        };
        let length = network.run_length(*screw);
        let tau = radial_times(request.options.temperature, liquid, length, mean_flow);
        (*screw, tau)
    }))
}
fn circuits_of(network: &Network, screws: &[ScrewId]) -> BTreeSet<CircuitId> {
    screws
        .iter()
        .filter_map(|screw| network.screw_place(*screw).circuit)
        .collect()
}
