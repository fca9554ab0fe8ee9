//! How much to push through each screw.

mod history;
mod known;
mod model;
mod refill;
mod renewal;

pub(crate) use history::History;
pub(crate) use known::KnownPushes;
pub(crate) use refill::Refill;
pub(crate) use renewal::Renewal;

use crate::drained::Drained;
use crate::options::{Method, Purpose};
use crate::plan::RunContents;
use crate::request::Request;
use bleedwright_network::{Bounds, CircuitId, Element, Network, ScrewId};
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
    pub(crate) contents: RunContents,
    pub(crate) old_fraction_out: Option<Ratio>,
    pub(crate) old_left_inside: Option<Ratio>,
}

/// Works out amounts one screw after the other; each carries its history into
/// the next.
pub(crate) struct Amounts<'a, 'n> {
    network: &'n Network,
    drained: &'a Drained,
    purpose: Purpose,
    method: Method,
    residual: Ratio,
    history: History,
    renewal: Renewal<'a>,
    refill: Refill,
    /// What the strokes displace during which the fluid must run clear.
    clear_strokes: Vec<Bounds<Volume>>,
    /// Pushes that are not in the history yet, by circuit. What a push leaves
    /// behind costs as much as the push itself, and after the last one of a
    /// circuit nobody asks for it.
    pending: Vec<Option<(ScrewId, Bounds<Volume>)>>,
    /// Whether the old share of what leaves and of what stays is left out.
    is_push_only: bool,
}

/// Why an amount cannot be given.
#[derive(Debug)]
pub(crate) struct Unreachable {
    pub(crate) message: String,
}

impl<'a, 'n> Amounts<'a, 'n> {
    pub(crate) fn new(
        request: &Request<'n>,
        drained: &'a Drained,
        reservoir_old_fraction: impl Fn(CircuitId) -> Ratio,
        clear_strokes: impl Fn(CircuitId) -> Bounds<Volume>,
    ) -> Self {
        let network = request.network;
        Self {
            network,
            drained,
            purpose: request.options.purpose(),
            method: request.options.method,
            residual: request.options.residual,
            history: History::new(network),
            renewal: Renewal::new(network, reservoir_old_fraction),
            refill: Refill::new(network),
            clear_strokes: network
                .circuits()
                .map(|(id, _)| clear_strokes(id))
                .collect(),
            pending: vec![None; network.circuits().count()],
            is_push_only: false,
        }
    }

    /// What is pushed past the screw after the last bubble: its cavity, and at
    /// least the strokes during which the fluid must run clear.
    fn margin(&self, screw: ScrewId, circuit: CircuitId) -> Bounds<Volume> {
        let cell = self.network.cell(self.network.screw_place(screw).cell);
        cell.contents
            .map(|contents| contents * MARGIN_CAVITIES)
            .zip(self.clear_strokes[circuit.index()], Volume::max)
    }

    /// The same without bounds and without what is left of the old fluid, for
    /// a comparison of nominal amounts.
    pub(crate) fn nominal_only(mut self) -> Self {
        self.is_push_only = true;
        self.renewal.leave_out_bounds();
        self
    }

    /// The same without what is left of the old fluid.
    pub(crate) fn pushes_only(mut self) -> Self {
        self.is_push_only = true;
        self
    }

    /// The same with pushes that were worked out before.
    pub(crate) fn knowing(mut self, known: &'a KnownPushes) -> Self {
        self.renewal.use_known(known);
        self
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
    pub(crate) fn need(&mut self, screw: ScrewId) -> Result<Amount, Unreachable> {
        let run = self.network.run(screw);
        let contents = run_contents(self.network, &run);
        let circuit = self
            .network
            .screw_place(screw)
            .circuit
            .expect("only screws that a circuit reaches are in scope");
        self.settle(circuit);
        let margin = self.margin(screw, circuit);
        let refill = self.refill.need(self.network, self.drained, circuit, &run);
        let way_up = match self.method {
            Method::Reverse => self.way_up(circuit, &run, refill.push),
            _ => refill.push,
        };
        let mut amount = Amount {
            push: way_up + margin,
            plug: refill.plug,
            contents,
            old_fraction_out: None,
            old_left_inside: None,
        };
        if self.purpose == Purpose::Renew {
            let renewed = self
                .renewal
                .need(self.network, &self.history, circuit, &run, self.residual)
                .map_err(|error| Unreachable {
                    message: error.to_string(),
                })?;
            amount.push = renewed.push.zip(amount.push, Volume::max);
            amount.plug = renewed.plug.max(refill.plug);
            if !self.is_push_only {
                let pushed = amount.push.nominal;
                amount.old_fraction_out = Some(renewed.old_fraction_out(pushed));
                amount.old_left_inside = Some(renewed.model.tube().old_left_inside(pushed));
            }
        }
        Ok(amount)
    }

    /// Remembers that `push` went through the screw.
    pub(crate) fn carry(&mut self, screw: ScrewId, push: Bounds<Volume>) {
        let Some(circuit) = self.network.screw_place(screw).circuit else {
            return;
        };
        self.settle(circuit);
        self.pending[circuit.index()] = Some((screw, push));
    }

    /// Writes the pending push of a circuit into its history.
    fn settle(&mut self, circuit: CircuitId) {
        let Some((screw, push)) = self.pending[circuit.index()].take() else {
            return;
        };
        let run = self.network.run(screw);
        if self.purpose == Purpose::Renew {
            let (least, most) = self.renewal.carried(
                self.network,
                &self.history,
                circuit,
                &run,
                self.residual,
                push,
            );
            self.renewal.remember_cavities(
                self.network,
                &self.history,
                circuit,
                &run,
                push.nominal,
            );
            self.history.add(circuit, &run, push.nominal, least, most);
        }
        self.refill.remember(circuit, self.network, &run);
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
