//! Renewal: push until little enough of what leaves is old.

use super::history::History;
use super::known::KnownPushes;
use super::model::{Enough, Model};
use super::radial::Radial;
use super::{Amount, Pushed};
use crate::corner::Corner;
use crate::plan::JointRule;
use bleedwright_hydraulics::tank::washout_share;
use bleedwright_hydraulics::{Diffusion, PurgeError, Segment, Tank, Tube, Washout};
use bleedwright_network::{Bounds, CellId, CircuitId, Element, Network, ScrewId};
use std::collections::HashMap;
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;

/// The state that renewal carries from screw to screw.
pub(crate) struct Renewal<'a> {
    pub(super) network: &'a Network,
    /// How much of what leaves may be old.
    residual: Ratio,
    /// Old fraction of the refilled reservoir, by circuit.
    reservoirs: Vec<Ratio>,
    history: History,
    /// Old fraction left in cavities that other runs pass through.
    cavities: HashMap<CellId, Ratio>,
    /// Pushes that were worked out before.
    known: &'a KnownPushes,
    /// How far old fluid diffuses on each run.
    radial: &'a Radial,
}

/// What a screw needs for renewal at nominal figures.
pub(crate) struct RenewalNeed {
    pub(crate) push: Volume,
    /// Contents of the run that nothing was pushed through yet.
    pub(crate) plug: Volume,
    model: Model,
    /// The old fraction of what leaves after the push, where that is known
    /// already.
    leaves: Option<Ratio>,
    pub(crate) joints: JointRule,
}

impl RenewalNeed {
    /// The old fraction of what leaves after a push.
    pub(crate) fn old_fraction_out(&self, pushed: Volume) -> Ratio {
        match self.leaves {
            Some(leaves) if pushed == self.push => leaves,
            _ => self.model.old_fraction_out(pushed),
        }
    }
}

/// The contents of shared parts and of own parts, each at a corner.
#[derive(Clone, Copy)]
pub(super) struct Contents {
    pub(super) shared: Corner,
    pub(super) own: Corner,
}

impl Contents {
    pub(super) fn all(corner: Corner) -> Self {
        Self {
            shared: corner,
            own: corner,
        }
    }
}

/// The share of a brake's cavity that the flow passes by: low, nominal, high.
///
/// ASSUMPTION: 0.15 (0 to 0.3), no source. It stays old and counts in what
/// stays; the push is that of a cavity that stirs, and is never lowered by it.
pub(crate) const DEAD_SHARE: Bounds<f64> = Bounds {
    low: 0.0,
    nominal: 0.15,
    high: 0.3,
};

impl<'a> Renewal<'a> {
    pub(crate) fn new(
        network: &'a Network,
        residual: Ratio,
        reservoir_old_fraction: impl Fn(CircuitId) -> Ratio,
        known: &'a KnownPushes,
        radial: &'a Radial,
    ) -> Self {
        Self {
            network,
            residual,
            reservoirs: network
                .circuits()
                .map(|(id, _)| reservoir_old_fraction(id))
                .collect(),
            history: History::new(network),
            cavities: HashMap::new(),
            known,
            radial,
        }
    }

    /// What a screw needs now.
    pub(super) fn need(
        &self,
        screw: ScrewId,
        circuit: CircuitId,
        run: &[Element],
    ) -> Result<RenewalNeed, PurgeError> {
        let diffusion = self.radial.of(screw, Corner::Nominal);
        let model = self.model(circuit, run, Contents::all(Corner::Nominal), diffusion)?;
        let Enough {
            push,
            leaves,
            joints,
        } = self.known.push_until(&model, self.residual)?;
        let plug = run
            .iter()
            .zip(cells_below(run))
            .filter(|(_, below)| self.history.pushed(*below) == Volume::default())
            .map(|(element, _)| self.network.contents(*element).nominal)
            .fold(Volume::default(), |sum, part| sum + part);
        Ok(RenewalNeed {
            push,
            plug,
            model,
            leaves,
            joints,
        })
    }

    /// What a screw needs now at one corner of the contents.
    pub(super) fn push_at(
        &self,
        screw: &Pushed,
        contents: Contents,
        corner: Corner,
    ) -> Result<Volume, PurgeError> {
        let diffusion = self.radial.of(screw.screw, corner);
        let model = self.model(screw.circuit, &screw.run, contents, diffusion)?;
        Ok(self.known.push_until(&model, self.residual)?.push)
    }

    /// How clean a push at nominal figures leaves the cavities on the run that
    /// others pass too.
    pub(super) fn cavities_after(
        &self,
        screw: ScrewId,
        circuit: CircuitId,
        run: &[Element],
        pushed: Volume,
    ) -> Vec<(CellId, Ratio)> {
        let passed: Vec<CellId> = run
            .iter()
            .filter_map(|element| match element {
                Element::Cell(cell) if self.network.is_cavity(*element) => Some(*cell),
                _ => None,
            })
            .collect();
        if !passed
            .iter()
            .any(|cell| self.network.screws_behind(Element::Cell(*cell)) > 1)
        {
            return Vec::new();
        }
        let diffusion = self.radial.of(screw, Corner::Nominal);
        let Ok(model) = self.model(circuit, run, Contents::all(Corner::Nominal), diffusion) else {
            return Vec::new();
        };
        let fractions = model.run().old_fractions_after(pushed);
        // The chamber stands before the cavities of the first run.
        let skip = fractions.len() - passed.len();
        passed
            .into_iter()
            .zip(fractions.into_iter().skip(skip))
            .collect()
    }

    /// The old share of what a push leaves on the whole run, its chamber and
    /// its brake included.
    pub(super) fn left(
        &self,
        screw: ScrewId,
        circuit: CircuitId,
        run: &[Element],
        corner: Corner,
        nominal: &Amount,
    ) -> Result<Ratio, PurgeError> {
        let pushed = nominal.push.nominal;
        let dead = corner.of(DEAD_SHARE);
        let diffusion = self.radial.of_what_stays(screw, corner);
        let chamber = corner.of(chamber_contents(self.network, circuit));
        let state = RunState {
            renewal: self,
            run,
            contents: Contents::all(corner),
            chamber,
            diffusion,
        };
        let delivered = self.history.delivered(circuit);
        let reservoir = self.reservoirs[circuit.index()];
        let one = Ratio::new::<ratio>(1.0);
        let through_reservoir = |share: Ratio| reservoir + (one - reservoir) * share;
        let is_first = delivered <= Volume::default();
        let washout = if is_first {
            state.all_old(reservoir)?
        } else {
            // Its old fraction at the start is taken for the whole push.
            state.as_left(through_reservoir(washout_share(chamber, delivered)))?
        };
        let tube = washout.tube().contents();
        let mut all = tube;
        let mut old = tube * washout.old_left_in_tube(pushed);
        let mut fractions = washout.old_fractions_after(pushed);
        // What leaves is what the last cavity holds. Where mixing decided it
        // is more than streamlines alone leave there.
        if let (Some(last), Some(out)) = (fractions.last_mut(), nominal.old_fraction_out)
            && nominal.joints == Some(JointRule::Mixed)
            && corner != Corner::Low
        {
            *last = last.max(out);
        }
        for (nth, (tank, fraction)) in washout.tanks().iter().zip(fractions).enumerate() {
            let dead = if is_first && nth == 0 { 0.0 } else { dead };
            all += tank.volume();
            old += tank.volume() * (fraction * (1.0 - dead) + one * dead);
        }
        if !is_first {
            all += chamber;
            old += chamber * through_reservoir(washout_share(chamber, delivered + pushed));
        }
        Ok(if all > Volume::default() {
            old / all
        } else {
            Ratio::default()
        })
    }

    /// Writes a push into the history; `through` is what is taken for it.
    pub(super) fn remember(&mut self, screw: &Pushed, through: Volume) {
        let delivered = screw.amount.push.nominal;
        self.history
            .add(screw.circuit, delivered, &screw.run, through);
        self.cavities.extend(screw.cavities.iter().copied());
    }

    fn model(
        &self,
        circuit: CircuitId,
        run: &[Element],
        contents: Contents,
        diffusion: Diffusion,
    ) -> Result<Model, PurgeError> {
        let chamber = contents.shared.of(chamber_contents(self.network, circuit));
        let delivered = self.history.delivered(circuit);
        let reservoir = self.reservoirs[circuit.index()];
        let chamber_old = washout_share(chamber, delivered).get::<ratio>();
        let state = RunState {
            renewal: self,
            run,
            contents,
            chamber,
            diffusion,
        };
        // The chamber is a stirred tank on every run. For the first screw it
        // is one more tank of a system that is old throughout.
        if delivered <= Volume::default() {
            return Ok(Model::of_run(state.all_old(reservoir)?));
        }
        if chamber_old < NEGLIGIBLE_CHAMBER {
            let inlet = reservoir.get::<ratio>();
            let inlet = Ratio::new::<ratio>(inlet + (1.0 - inlet) * chamber_old);
            return Ok(Model::of_run(state.as_left(inlet)?));
        }
        let as_left = state.as_left(reservoir)?;
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
    run: &'a [Element],
    contents: Contents,
    chamber: Volume,
    diffusion: Diffusion,
}

impl RunState<'_> {
    fn contents(&self, element: Element) -> Volume {
        let network = self.renewal.network;
        let bounds = network.contents(element);
        let corner = if network.screws_behind(element) > 1 {
            self.contents.shared
        } else {
            self.contents.own
        };
        corner.of(bounds)
    }

    /// Pipes, chamber and cavities full of old fluid.
    fn all_old(&self, inlet: Ratio) -> Result<Washout, PurgeError> {
        let mut tanks = vec![Tank::full_of_old(self.chamber)?];
        let mut segments = Vec::with_capacity(self.run.len());
        for element in self.run {
            let contents = self.contents(*element);
            if self.renewal.network.is_cavity(*element) {
                tanks.push(Tank::full_of_old(contents)?);
            } else {
                segments.push(Segment {
                    contents,
                    pushed_before: Volume::default(),
                });
            }
        }
        let washout = Washout::new(Tube::new(segments)?, tanks, inlet)?;
        Ok(washout.with_diffusion(self.diffusion))
    }

    /// Pipes and cavities as earlier screws left them, without the chamber.
    /// The first chamberful that was delivered filled no pipe with new fluid.
    fn as_left(&self, inlet: Ratio) -> Result<Washout, PurgeError> {
        let mut tanks = Vec::new();
        let mut segments = Vec::with_capacity(self.run.len());
        for (element, below) in self.run.iter().zip(cells_below(self.run)) {
            let contents = self.contents(*element);
            if let Element::Cell(cell) = element
                && self.renewal.network.is_cavity(*element)
            {
                let old = self.renewal.cavities.get(cell).copied();
                tanks.push(Tank::new(
                    contents,
                    old.unwrap_or(Ratio::new::<ratio>(1.0)),
                )?);
                continue;
            }
            let pushed = self.renewal.history.pushed(below) - self.chamber;
            segments.push(Segment {
                contents,
                pushed_before: pushed.max(Volume::default()),
            });
        }
        let washout = Washout::new(Tube::new(segments)?, tanks, inlet)?;
        Ok(washout.with_diffusion(self.diffusion))
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
