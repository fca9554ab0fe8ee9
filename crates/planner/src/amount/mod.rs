//! How much to push through each screw.

mod end;
mod history;
mod known;
mod model;
mod radial;
mod refill;
mod renewal;

pub(crate) use end::{AtEnd, follow_end};
pub(crate) use known::KnownPushes;
pub(crate) use radial::{Radial, radial_times};
pub(crate) use refill::Refill;
pub(crate) use renewal::{DEAD_SHARE, Renewal};

use crate::bubble::Bubbles;
use crate::corner::Corner;
use crate::drained::Drained;
use crate::joint::{Joints, Least, Swept};
use crate::options::{Method, Purpose};
use crate::plan::{JointRule, RunContents};
use crate::request::Request;
use crate::scope::circuit_of;
use bleedwright_hydraulics::PurgeError;
use bleedwright_network::{Bounds, CellId, CircuitId, Element, Network, ScrewId};
use uom::si::f64::{Ratio, Volume};

/// How many contents of its cavity go past a screw once it runs clear of air.
///
/// ASSUMPTION: one cavity of clear fluid shows that no bubble follows.
const MARGIN_CAVITIES: f64 = 1.0;

/// What one screw needs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Amount {
    pub(crate) push: Bounds<Volume>,
    pub(crate) plug: Volume,
    /// The least, where a joint on the run was opened.
    pub(crate) least: Option<Least>,
    pub(crate) contents: RunContents,
    pub(crate) old_fraction_out: Option<Ratio>,
    /// Old share of what stays on the run, chamber and brake included.
    pub(crate) old_left: Option<Bounds<Ratio>>,
    /// Which rule for the joints decided the push; none without renewal.
    pub(crate) joints: Option<JointRule>,
}

/// One screw of an order and what it needs at nominal figures.
#[derive(Debug)]
pub(crate) struct Pushed {
    pub(crate) screw: ScrewId,
    pub(crate) circuit: CircuitId,
    /// The bounds of the push are those of driving air out alone; see [`End`].
    pub(crate) amount: Amount,
    run: Vec<Element>,
    /// The push that renewal alone asks for.
    renewed: Option<Volume>,
    /// How clean cavities were left that other runs pass too.
    cavities: Vec<(CellId, Ratio)>,
}

/// Works out nominal amounts one screw after the other; each carries its
/// history into the next.
pub(crate) struct Amounts<'a, 'n> {
    network: &'n Network,
    drained: &'a Drained,
    joints: &'a Joints,
    bubbles: &'a Bubbles<'n>,
    swept: Swept,
    purpose: Purpose,
    method: Method,
    renewal: Renewal<'a>,
    refill: Refill,
    /// What the strokes displace during which the fluid must run clear.
    clear_strokes: Vec<Bounds<Volume>>,
    /// The screws that were carried, in their order.
    order: Vec<Pushed>,
    /// Places in the order of screws that are not in the history yet, by
    /// circuit. What a push leaves behind costs as much as the push itself, and
    /// after the last one of a circuit nobody asks for it.
    pending: Vec<Option<usize>>,
    /// Whether the old share of what leaves and of what stays is left out.
    is_push_only: bool,
}

/// Why an amount cannot be given.
#[derive(Debug)]
pub(crate) struct Unreachable {
    pub(crate) message: String,
}

impl From<PurgeError> for Unreachable {
    fn from(error: PurgeError) -> Self {
        Self {
            message: error.to_string(),
        }
    }
}

impl<'a, 'n> Amounts<'a, 'n> {
    /// `renewal` stands at the beginning of the order.
    pub(crate) fn new(
        request: &Request<'n>,
        air: (&'a Drained, &'a Joints, &'a Bubbles<'n>),
        renewal: Renewal<'a>,
        clear_strokes: impl Fn(CircuitId) -> Bounds<Volume>,
    ) -> Self {
        let network = request.network;
        Self {
            network,
            drained: air.0,
            joints: air.1,
            bubbles: air.2,
            swept: Swept::default(),
            purpose: request.options.purpose(),
            method: request.options.method,
            renewal,
            refill: Refill::default(),
            clear_strokes: network
                .circuits()
                .map(|(id, _)| clear_strokes(id))
                .collect(),
            order: Vec::new(),
            pending: vec![None; network.circuits().count()],
            is_push_only: false,
        }
    }

    /// The same without what is left of the old fluid.
    pub(crate) fn pushes_only(mut self) -> Self {
        self.is_push_only = true;
        self
    }

    /// What is pushed past the screw after the last bubble: its cavity, and at
    /// least the strokes during which the fluid must run clear.
    fn margin(&self, screw: ScrewId, circuit: CircuitId) -> Bounds<Volume> {
        let cell = self.network.cell(self.network.screw_place(screw).cell);
        cell.contents
            .map(|contents| contents * MARGIN_CAVITIES)
            .zip(self.clear_strokes[circuit.index()], Volume::max)
    }

    /// By the reverse method the air of a run leaves through everything above
    /// it, full or not: the whole run and the chamber are pushed once. Where
    /// no air is left nothing needs to be.
    fn way_up(&self, circuit: CircuitId, run: &[Element], air: Bounds<Volume>) -> Bounds<Volume> {
        let chamber = Element::Cell(self.network.circuit(circuit).chamber);
        let all: Bounds<Volume> = std::iter::once(&chamber)
            .chain(run)
            .map(|element| self.network.contents(*element))
            .sum();
        let or_nothing = |air: Volume, all: Volume| {
            if air > Volume::default() {
                all
            } else {
                Volume::default()
            }
        };
        air.zip(all, or_nothing)
    }

    /// What the screw needs now.
    pub(crate) fn need(&mut self, screw: ScrewId) -> Result<Pushed, Unreachable> {
        let run = self.network.run(screw);
        let contents = run_contents(self.network, &run);
        let circuit = circuit_of(self.network, screw);
        self.settle(circuit);
        let margin = self.margin(screw, circuit);
        let refill = self.refill.need(self.network, self.drained, circuit, &run);
        // Nobody knows which screw what a routine freed goes to.
        let freed = run.iter().filter_map(|it| self.drained.freed_in(*it));
        let freed: Bounds<Volume> = freed.sum();
        let way_up = match self.method {
            Method::Reverse => self.way_up(circuit, &run, refill.push),
            _ => refill.push,
        };
        let least = self.joints.least(
            self.network,
            self.bubbles,
            &self.swept,
            (screw, circuit),
            (&run, self.method),
        );
        let at_least = least.map_or(Volume::default(), |least| least.volume);
        let plug = least.map_or(refill.plug, |least| refill.plug.max(least.nominal));
        let mut amount = Amount {
            // Whatever came back by gravity, and whatever the tolerances make of
            // the rest: the air at the joint has this far to go.
            push: (way_up + margin).map(|push| push.max(at_least)) + freed,
            plug: plug + freed.nominal,
            least,
            contents,
            old_fraction_out: None,
            old_left: None,
            joints: None,
        };
        let mut renewed = None;
        if self.purpose == Purpose::Renew {
            let need = self.renewal.need(screw, circuit, &run)?;
            renewed = Some(need.push);
            amount.push.nominal = need.push.max(amount.push.nominal);
            amount.plug = need.plug.max(plug);
            if !self.is_push_only {
                let pushed = amount.push.nominal;
                amount.old_fraction_out = Some(need.old_fraction_out(pushed));
                amount.joints = Some(need.joints);
                let left = self
                    .renewal
                    .left(screw, circuit, &run, Corner::Nominal, &amount)?;
                amount.old_left = Some(Bounds::exact(left));
            }
        }
        Ok(Pushed {
            screw,
            circuit,
            amount,
            run,
            renewed,
            cavities: Vec::new(),
        })
    }

    /// Remembers what went through a screw.
    pub(crate) fn carry(&mut self, screw: Pushed) {
        self.settle(screw.circuit);
        self.pending[screw.circuit.index()] = Some(self.order.len());
        self.order.push(screw);
    }

    /// The screws that were carried, in their order.
    pub(crate) fn into_order(self) -> Vec<Pushed> {
        self.order
    }

    /// Writes the pending push of a circuit into its history.
    fn settle(&mut self, circuit: CircuitId) {
        let Some(place) = self.pending[circuit.index()].take() else {
            return;
        };
        let screw = &mut self.order[place];
        if self.purpose == Purpose::Renew {
            let pushed = screw.amount.push.nominal;
            screw.cavities = self
                .renewal
                .cavities_after(screw.screw, circuit, &screw.run, pushed);
            self.renewal.remember(screw, pushed);
        }
        self.refill.remember(circuit, self.network, &screw.run);
        self.swept.remember(screw.amount.least, &screw.run);
    }
}

fn run_contents(network: &Network, run: &[Element]) -> RunContents {
    let zero = Bounds::exact(Volume::default());
    let mut contents = RunContents {
        shared: zero,
        own: zero,
        cavities: zero,
    };
    for element in run {
        let into = if network.is_cavity(*element) {
            &mut contents.cavities
        } else if network.screws_behind(*element) > 1 {
            &mut contents.shared
        } else {
            &mut contents.own
        };
        *into = *into + network.contents(*element);
    }
    contents
}
