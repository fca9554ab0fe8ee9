//! Renewal: push until little enough of what leaves is old.

use super::history::{Carried, History};
use super::known::KnownPushes;
use super::model::{Enough, Model};
use bleedwright_hydraulics::tank::washout_share;
use bleedwright_hydraulics::{PurgeError, Segment, Tank, Tube, Washout};
use bleedwright_network::{Bounds, CellId, CircuitId, Element, Network};
use std::collections::HashMap;
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;

/// The state that renewal carries from screw to screw.
#[derive(Clone, Debug)]
pub(crate) struct Renewal<'k> {
    /// Old fraction of the refilled reservoir, by circuit.
    reservoirs: Vec<Ratio>,
    /// Whether low and high bounds are worked out beside the nominal amount.
    has_bounds: bool,
    /// Old fraction left in cavities that other runs pass through.
    cavities: HashMap<CellId, Ratio>,
    /// Pushes that were worked out before, where they are kept.
    known: Option<&'k KnownPushes>,
}

/// What a screw needs for renewal.
pub(crate) struct RenewalNeed {
    pub(crate) push: Bounds<Volume>,
    /// Contents of the run that nothing was pushed through yet.
    pub(crate) plug: Volume,
    /// The run at nominal contents.
    pub(crate) model: Model,
    /// The old fraction of what leaves after the nominal push, where that is
    /// known already.
    leaves: Option<Ratio>,
}

impl RenewalNeed {
    /// The old fraction of what leaves after a push.
    pub(crate) fn old_fraction_out(&self, pushed: Volume) -> Ratio {
        match self.leaves {
            Some(leaves) if pushed == self.push.nominal => leaves,
            _ => self.model.old_fraction_out(pushed),
        }
    }
}

/// One corner of the contents, shared parts and own parts each at theirs.
#[derive(Clone, Copy)]
struct Corner {
    shared: fn(Bounds<Volume>) -> Volume,
    own: fn(Bounds<Volume>) -> Volume,
    carried: Carried,
}

const LOW: fn(Bounds<Volume>) -> Volume = |bounds| bounds.low;
const NOMINAL: fn(Bounds<Volume>) -> Volume = |bounds| bounds.nominal;
const HIGH: fn(Bounds<Volume>) -> Volume = |bounds| bounds.high;

impl<'k> Renewal<'k> {
    pub(crate) fn new(
        network: &Network,
        reservoir_old_fraction: impl Fn(CircuitId) -> Ratio,
    ) -> Self {
        Self {
            reservoirs: network
                .circuits()
                .map(|(id, _)| reservoir_old_fraction(id))
                .collect(),
            has_bounds: true,
            cavities: HashMap::new(),
            known: None,
        }
    }

    /// For a comparison of nominal amounts only.
    pub(crate) fn leave_out_bounds(&mut self) {
        self.has_bounds = false;
    }

    /// Pushes are looked up there and kept there from now on.
    pub(crate) fn use_known(&mut self, known: &'k KnownPushes) {
        self.known = Some(known);
    }

    fn push_until(&self, model: &Model, residual: Ratio) -> Result<Enough, PurgeError> {
        match self.known {
            Some(known) => known.push_until(model, residual),
            None => model.push_until(residual),
        }
    }

    pub(crate) fn need(
        &self,
        network: &Network,
        history: &History,
        circuit: CircuitId,
        run: &[Element],
        residual: Ratio,
    ) -> Result<RenewalNeed, PurgeError> {
        let corner = |volume: fn(Bounds<Volume>) -> Volume, carried| {
            let corner = Corner {
                shared: volume,
                own: volume,
                carried,
            };
            self.model(network, history, circuit, run, corner)
        };
        let model = corner(NOMINAL, Carried::Nominal)?;
        let enough = self.push_until(&model, residual)?;
        let nominal = enough.push;
        let (low, high) = if self.has_bounds {
            let low = corner(LOW, Carried::Most)?;
            let high = corner(HIGH, Carried::Least)?;
            (
                self.push_until(&low, residual)?.push,
                self.push_until(&high, residual)?.push,
            )
        } else {
            (nominal, nominal)
        };
        let plug = run
            .iter()
            .zip(cells_below(run))
            .filter(|(_, below)| history.pushed(*below, Carried::Nominal) == Volume::default())
            .map(|(element, _)| network.contents(*element).nominal)
            .fold(Volume::default(), |sum, part| sum + part);
        Ok(RenewalNeed {
            push: Bounds {
                low: low.min(nominal),
                nominal,
                high: high.max(nominal),
            },
            plug,
            model,
            leaves: enough.leaves,
        })
    }

    /// What earlier screws would have pushed with their own contents at the
    /// other end of their bounds and the shared part at this one's: the
    /// corners of the history that a later screw sees.
    pub(crate) fn carried(
        &self,
        network: &Network,
        history: &History,
        circuit: CircuitId,
        run: &[Element],
        residual: Ratio,
        pushed: Bounds<Volume>,
    ) -> (Volume, Volume) {
        // Nobody else uses the run: nobody looks at its history.
        let is_shared = run
            .iter()
            .any(|element| network.screws_behind(*element) > 1);
        if !is_shared || !self.has_bounds {
            return (pushed.nominal, pushed.nominal);
        }
        let push_at = |corner| {
            self.model(network, history, circuit, run, corner)
                .and_then(|model| self.push_until(&model, residual))
                .map_or(pushed.nominal, |enough| enough.push)
        };
        let least = push_at(Corner {
            shared: HIGH,
            own: LOW,
            carried: Carried::Least,
        });
        let most = push_at(Corner {
            shared: LOW,
            own: HIGH,
            carried: Carried::Most,
        });
        (least.min(pushed.nominal), most.max(pushed.nominal))
    }

    /// Remembers how clean the cavities on the run are that others pass too.
    pub(crate) fn remember_cavities(
        &mut self,
        network: &Network,
        history: &History,
        circuit: CircuitId,
        run: &[Element],
        pushed: Volume,
    ) {
        let passed: Vec<CellId> = run
            .iter()
            .filter_map(|element| match element {
                Element::Cell(cell) if network.is_cavity(*element) => Some(*cell),
                _ => None,
            })
            .collect();
        if !passed
            .iter()
            .any(|cell| network.screws_behind(Element::Cell(*cell)) > 1)
        {
            return;
        }
        let corner = Corner {
            shared: NOMINAL,
            own: NOMINAL,
            carried: Carried::Nominal,
        };
        let Ok(model) = self.model(network, history, circuit, run, corner) else {
            return;
        };
        let fractions = model.run().old_fractions_after(pushed);
        // The chamber stands before the cavities of the first run.
        let skip = fractions.len() - passed.len();
        for (cell, fraction) in passed.into_iter().zip(fractions.into_iter().skip(skip)) {
            self.cavities.insert(cell, fraction);
        }
    }

    fn model(
        &self,
        network: &Network,
        history: &History,
        circuit: CircuitId,
        run: &[Element],
        corner: Corner,
    ) -> Result<Model, PurgeError> {
        let chamber = (corner.shared)(chamber_contents(network, circuit));
        let delivered = history.delivered(circuit);
        let reservoir = self.reservoirs[circuit.index()];
        let chamber_old = washout_share(chamber, delivered).get::<ratio>();
        let state = RunState {
            renewal: self,
            network,
            run,
            corner,
            chamber,
        };
        // The chamber is a stirred tank on every run. For the first screw it
        // is one more tank of a system that is old throughout.
        if delivered <= Volume::default() {
            return Ok(Model::of_run(state.all_old(reservoir)?));
        }
        if chamber_old < NEGLIGIBLE_CHAMBER {
            let inlet = reservoir.get::<ratio>();
            let inlet = Ratio::new::<ratio>(inlet + (1.0 - inlet) * chamber_old);
            return Ok(Model::of_run(state.as_left(history, inlet)?));
        }
        let as_left = state.as_left(history, reservoir)?;
        Ok(Model::behind_chamber(
            as_left,
            state.all_old(reservoir)?,
            chamber_old,
        ))
    }
}

/// Below this old fraction the chamber is taken for a constant inflow, which
/// asks for a little more than the truth.
const NEGLIGIBLE_CHAMBER: f64 = 1e-4;

/// A run at one corner of its contents.
struct RunState<'a> {
    renewal: &'a Renewal<'a>,
    network: &'a Network,
    run: &'a [Element],
    corner: Corner,
    chamber: Volume,
}

impl RunState<'_> {
    fn contents(&self, element: Element) -> Volume {
        let bounds = self.network.contents(element);
        if self.network.screws_behind(element) > 1 {
            (self.corner.shared)(bounds)
        } else {
            (self.corner.own)(bounds)
        }
    }

    /// Pipes, chamber and cavities full of old fluid.
    fn all_old(&self, inlet: Ratio) -> Result<Washout, PurgeError> {
        let mut tanks = vec![Tank::full_of_old(self.chamber)?];
        let mut segments = Vec::with_capacity(self.run.len());
        for element in self.run {
            let contents = self.contents(*element);
            if self.network.is_cavity(*element) {
                tanks.push(Tank::full_of_old(contents)?);
            } else {
                segments.push(Segment {
                    contents,
                    pushed_before: Volume::default(),
                });
            }
        }
        Washout::new(Tube::new(segments)?, tanks, inlet)
    }

    /// Pipes and cavities as earlier screws left them, without the chamber.
    /// The first chamberful that was delivered filled no pipe with new fluid.
    fn as_left(&self, history: &History, inlet: Ratio) -> Result<Washout, PurgeError> {
        let mut tanks = Vec::new();
        let mut segments = Vec::with_capacity(self.run.len());
        for (element, below) in self.run.iter().zip(cells_below(self.run)) {
            let contents = self.contents(*element);
            if let Element::Cell(cell) = element
                && self.network.is_cavity(*element)
            {
                let old = self.renewal.cavities.get(cell).copied();
                tanks.push(Tank::new(
                    contents,
                    old.unwrap_or(Ratio::new::<ratio>(1.0)),
                )?);
                continue;
            }
            let pushed = history.pushed(below, self.corner.carried) - self.chamber;
            segments.push(Segment {
                contents,
                pushed_before: pushed.max(Volume::default()),
            });
        }
        Washout::new(Tube::new(segments)?, tanks, inlet)
    }
}

/// The chamber with the hose that feeds it: what stands between reservoir and
/// pipework.
fn chamber_contents(network: &Network, circuit: CircuitId) -> Bounds<Volume> {
    let chamber = network.chamber_of(circuit).contents();
    let hose = feed_hose(network, circuit);
    match hose {
        Some(hose) => chamber + hose,
        None => chamber,
    }
}

/// The contents of the hose from the reservoir to a circuit's chamber.
pub(crate) fn feed_hose(network: &Network, circuit: CircuitId) -> Option<Bounds<Volume>> {
    let data = network.circuit(circuit);
    let (r, c) = data.compartment?;
    let hose = network.layout().reservoirs[r].compartments[c]
        .hose
        .as_ref()?;
    let is_meant = match &hose.to {
        Some(to) => *to == network.cell_name(data.chamber),
        None => true,
    };
    is_meant.then_some(hose.contents)
}

/// For each element of a run the cell that the run reaches by it: itself, or
/// the one behind the link.
fn cells_below(run: &[Element]) -> impl Iterator<Item = usize> + '_ {
    run.iter()
        .enumerate()
        .map(|(index, element)| match element {
            Element::Cell(cell) => cell.index(),
            Element::Link(_) => match run.get(index + 1) {
                Some(Element::Cell(cell)) => cell.index(),
                _ => unreachable!("a run's links are each followed by the cell they lead to"),
            },
        })
}
