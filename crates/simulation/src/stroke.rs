//! What one stroke delivers: the pockets of air take up a part of it.

use crate::parameters::Parameters;
use crate::system::{Passed, System};
use bleedwright_hydraulics::HydraulicResistance;
use bleedwright_hydraulics::fluid::Liquid;
use bleedwright_hydraulics::stroke::{
    BranchLaw, Motion, NodeId, Pocket, StrokeError, StrokeNetwork,
};
use bleedwright_network::{CellId, CircuitId, Element, LineKind, LinkKind, Network, ScrewId};
use bleedwright_planner::{line_resistance, screw_loss};
use std::collections::{HashMap, HashSet};
use uom::si::f64::{Area, Length, Pressure, Ratio, Time, Volume};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume::{cubic_meter, milliliter};

/// Pockets smaller than this squeeze by less than anybody measures.
const LEAST_POCKET_ML: f64 = 1e-6;

/// Bulk modulus of brake fluid without air.
///
/// ASSUMPTION: 1.8e9 Pa; glycol fluids are said to have 1.7e9 to 2.0e9 (from memory).
const BULK_MODULUS_PA: f64 = 1.8e9;

/// How much a metre of hose grows for each pascal.
///
/// ASSUMPTION: 0.45 ml a metre at 69 bar, one rubber hose measured, second-hand.
const HOSE_M2_PER_PA: f64 = 0.45e-6 / 6.9e6;

/// Air has next to no resistance beside fluid: its viscosity is a thousandth.
const LEAST_LIQUID_SHARE: f64 = 1e-3;

/// Why a bleed cannot be simulated.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SimulationError {
    /// A stroke has no answer.
    #[error("a stroke of the simulation failed: {0}")]
    Stroke(#[from] StrokeError),
}

/// What a stroke came to.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Delivered {
    pub(crate) volume_ml: f64,
    pub(crate) time: Time,
}

/// One pedal stroke with one screw open, shut again before the pedal comes up.
pub(crate) struct StrokeMaker<'s, 'n> {
    pub(crate) system: &'s System<'n>,
    pub(crate) liquid: &'s Liquid,
    pub(crate) parameters: &'s Parameters,
    /// How long the pedal is held down before the screw is shut.
    pub(crate) hold: Time,
    pub(crate) circuit: CircuitId,
    pub(crate) screw: ScrewId,
    pub(crate) way: &'s [Passed],
}

/// What lies between two nodes of the stroke's network.
#[derive(Clone, Copy, Debug, Default)]
struct Lump {
    resistance: f64,
    liquid_ml: f64,
    air_ml: f64,
    hose_m: f64,
}

impl Lump {
    fn compliance(&self) -> f64 {
        self.liquid_ml * 1e-6 / BULK_MODULUS_PA + self.hose_m * HOSE_M2_PER_PA
    }

    fn add(&mut self, other: Self) {
        self.resistance += other.resistance;
        self.liquid_ml += other.liquid_ml;
        self.air_ml += other.air_ml;
        self.hose_m += other.hose_m;
    }
}

impl StrokeMaker<'_, '_> {
    /// What leaves by the screw while the piston displaces a volume.
    pub(crate) fn deliver(
        &self,
        displaced: Volume,
        area: Area,
    ) -> Result<Delivered, SimulationError> {
        let network = self.system.network;
        let displaced_ml = displaced.get::<milliliter>();
        let press = self.press_time(displaced);
        let time = press + self.hold;
        if displaced_ml <= 0.0 {
            return Ok(Delivered {
                volume_ml: 0.0,
                time,
            });
        }
        if self.system.air_of_circuit(self.circuit) < LEAST_POCKET_ML {
            return Ok(Delivered {
                volume_ml: displaced_ml,
                time,
            });
        }
        let dead = self.dead_branches();
        let mut strokes = StrokeNetwork::new(self.parameters.atmosphere)?;
        let mut lump = Lump::default();
        let mut here: Option<NodeId> = None;
        let mut first: Option<NodeId> = None;
        let count = self.way.len();
        for (index, passed) in self.way.iter().enumerate() {
            lump.add(self.lump(passed.element));
            let Element::Cell(cell) = passed.element else {
                continue;
            };
            let branches = dead.get(&cell);
            if index > 0 && index + 1 < count && branches.is_none() {
                continue;
            }
            let node = self.node(&mut strokes, &lump)?;
            if let Some(before) = here {
                strokes.add_branch(before, node, law(lump.resistance))?;
            }
            for branch in branches.into_iter().flatten() {
                let end = self.node(&mut strokes, branch)?;
                strokes.add_branch(node, end, law(branch.resistance))?;
            }
            first.get_or_insert(node);
            here = Some(node);
            lump = Lump::default();
        }
        let (Some(first), Some(last)) = (first, here) else {
            return Ok(Delivered {
                volume_ml: displaced_ml,
                time,
            });
        };
        let outside = strokes.add_end(Pressure::default())?;
        let screw = strokes.add_branch(last, outside, self.screw_law(network))?;
        let stroke = Length::new::<meter>(displaced.get::<cubic_meter>() / area.value);
        let motion = Motion::default().then_move(stroke, press)?;
        strokes.add_piston(first, area, motion)?;
        let end = strokes.run(time, Ratio::new::<ratio>(1e-4))?;
        let delivered = end.delivered(screw)?.get::<milliliter>();
        Ok(Delivered {
            // Rounding must not take out more than was pushed in.
            volume_ml: delivered.clamp(0.0, displaced_ml),
            time,
        })
    }

    /// What comes back while the pedal comes up with the screw open: the way
    /// under the suction of the chamber.
    pub(crate) fn sucked_back(&self, delivered_ml: f64) -> f64 {
        let network = self.system.network;
        let pipes = HydraulicResistance::new(self.resistance());
        let flow = screw_loss(network, self.screw, self.liquid)
            .flow_behind(pipes, self.parameters.suction);
        let back = flow * self.parameters.release;
        back.get::<milliliter>().clamp(0.0, delivered_ml)
    }

    fn resistance(&self) -> f64 {
        let lumps = self.way.iter().map(|passed| self.lump(passed.element));
        lumps.map(|lump| lump.resistance).sum()
    }

    /// The foot follows the fluid where that is too thick for the usual pace.
    fn press_time(&self, displaced: Volume) -> Time {
        let least_s = self.resistance() * displaced.get::<cubic_meter>()
            / self.parameters.foot.get::<pascal>();
        self.parameters
            .press
            .max(Time::new::<uom::si::time::second>(least_s))
    }

    fn node(&self, strokes: &mut StrokeNetwork, lump: &Lump) -> Result<NodeId, StrokeError> {
        let pocket = if lump.air_ml < LEAST_POCKET_ML {
            None
        } else {
            Some(Pocket::new(
                Volume::new::<milliliter>(lump.air_ml),
                self.parameters.atmosphere,
                self.parameters.polytropic_index,
            )?)
        };
        strokes.add_node(lump.compliance(), pocket)
    }

    fn lump(&self, element: Element) -> Lump {
        let network = self.system.network;
        let air_ml = self.system.air_in(element);
        let capacity_ml = self.system.capacity_of(element);
        let wet = if capacity_ml > 0.0 {
            (1.0 - air_ml / capacity_ml).max(LEAST_LIQUID_SHARE)
        } else {
            1.0
        };
        let (resistance, hose_m) = match element {
            Element::Link(link) => (
                line_resistance(network, link, self.liquid).pascal_seconds_per_cubic_metre() * wet,
                hose_length_m(network, link),
            ),
            Element::Cell(_) => (0.0, 0.0),
        };
        Lump {
            resistance,
            liquid_ml: (capacity_ml - air_ml).max(0.0),
            air_ml,
            hose_m,
        }
    }

    /// Branches that leave the way, by the cell where they leave: all that
    /// hangs on each, behind the resistance of its first line.
    fn dead_branches(&self) -> HashMap<CellId, Vec<Lump>> {
        let network = self.system.network;
        let on_way: HashSet<Element> = self.way.iter().map(|passed| passed.element).collect();
        // The branch that each cell off the way belongs to.
        let mut branch_of: HashMap<CellId, (CellId, usize)> = HashMap::new();
        let mut dead: HashMap<CellId, Vec<Lump>> = HashMap::new();
        for cell in network.cells_of(self.circuit) {
            if on_way.contains(&Element::Cell(*cell)) {
                continue;
            }
            let Some((parent, link)) = network.step_to(*cell) else {
                continue;
            };
            let mut more = self.lump(Element::Link(link));
            let resistance = more.resistance;
            more.resistance = 0.0;
            more.add(self.lump(Element::Cell(*cell)));
            let key = if let Some(key) = branch_of.get(&parent) {
                *key
            } else {
                let branches = dead.entry(parent).or_default();
                branches.push(Lump {
                    resistance,
                    ..Lump::default()
                });
                (parent, branches.len() - 1)
            };
            branch_of.insert(*cell, key);
            if let Some(branch) = dead
                .get_mut(&key.0)
                .and_then(|branches| branches.get_mut(key.1))
            {
                branch.add(more);
            }
        }
        dead
    }

    /// The screw passes air almost freely, fluid by its drilling.
    fn screw_law(&self, network: &Network) -> BranchLaw {
        let loss = screw_loss(network, self.screw, self.liquid);
        let is_air = self
            .way
            .last()
            .is_some_and(|last| self.system.air_in(last.element) > LEAST_POCKET_ML);
        let share = if is_air { LEAST_LIQUID_SHARE } else { 1.0 };
        BranchLaw {
            linear_pa_s_per_m3: loss.linear_pa_s_per_m3 * share,
            quadratic_pa_s2_per_m6: loss.quadratic_pa_s2_per_m6 * share,
        }
    }
}

fn law(resistance: f64) -> BranchLaw {
    BranchLaw {
        // A direct joint still needs a resistance; a metre of the widest pipe has more.
        linear_pa_s_per_m3: resistance.max(1e6),
        quadratic_pa_s2_per_m6: 0.0,
    }
}

fn hose_length_m(network: &Network, link: bleedwright_network::LinkId) -> f64 {
    let LinkKind::Line(index) = network.link(link).kind else {
        return 0.0;
    };
    match network.layout().lines[index].kind {
        LineKind::Hose { length, .. } => length.nominal.get::<meter>(),
        LineKind::Pipe { .. } | LineKind::Direct => 0.0,
    }
}
