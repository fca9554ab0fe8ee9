//! From the pipework to cylinders and zones.

use crate::assumed::{self, range};
use crate::chamber::{MasterCylinder, PedalChamber, Zone};
use crate::curve::Curve;
use crate::guessed::Guessed;
use crate::unknown::{Range, Unknown};
use bleedwright_network::{
    Bounds, CellId, Chamber, CircuitId, Figure, Network, PartKind, Valve, ValveKind,
};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::area::square_millimeter;
use uom::si::f64::Pressure;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// Makes plain numbers of a sound layout, and keeps what it had to assume.
#[derive(Clone, Debug)]
pub struct Builder<'n> {
    pub(crate) network: &'n Network,
    assumptions: BTreeSet<Guessed>,
}

/// Bounds as plain numbers.
pub fn plain<Q: Copy>(bounds: Bounds<Q>, unknown: Unknown, number: impl Fn(Q) -> f64) -> Range {
    Range::new(
        number(bounds.low),
        number(bounds.nominal),
        number(bounds.high),
        unknown,
    )
}

impl<'n> Builder<'n> {
    /// Nothing assumed yet.
    pub fn new(network: &'n Network) -> Self {
        Self {
            network,
            assumptions: BTreeSet::new(),
        }
    }

    /// What was assumed, each once.
    pub fn into_assumptions(self) -> BTreeSet<Guessed> {
        self.assumptions
    }
}

impl Builder<'_> {
    /// Keeps an assumption.
    pub(crate) fn assume(&mut self, what: Guessed) {
        self.assumptions.insert(what);
    }

    /// A figure of the layout as plain numbers; the assumption behind it is kept.
    pub fn figure<Q: Copy>(
        &mut self,
        figure: Figure<Q>,
        unknown: Unknown,
        number: impl Fn(Q) -> f64,
    ) -> Range {
        if let bleedwright_network::Basis::Assumed(usual) = figure.basis {
            self.assume(Guessed::Usual(usual));
        }
        plain(figure.bounds, unknown, number)
    }

    /// A cylinder with all that lies behind it.
    pub fn cylinder(&mut self, index: usize) -> MasterCylinder {
        let cylinder = &self.network.layout().cylinders[index];
        self.assume(Guessed::Drag);
        let circuits: Vec<CircuitId> = self.network.circuits_of_cylinder(index).collect();
        MasterCylinder {
            name: cylinder.id.clone(),
            chambers: cylinder
                .chambers
                .iter()
                .zip(circuits)
                .enumerate()
                .map(|(nth, (chamber, circuit))| self.chamber(chamber, circuit, nth > 0))
                .collect(),
        }
    }

    /// A chamber and its circuit; a secondary one's piston floats.
    pub fn chamber(
        &mut self,
        chamber: &Chamber,
        circuit: CircuitId,
        is_floating: bool,
    ) -> PedalChamber {
        PedalChamber {
            zones: self.zones(circuit),
            ..self.piston(chamber, circuit, is_floating)
        }
    }

    /// A chamber without what lies behind it.
    pub(crate) fn piston(
        &mut self,
        chamber: &Chamber,
        circuit: CircuitId,
        is_floating: bool,
    ) -> PedalChamber {
        let drag = if is_floating {
            assumed::FLOATING_DRAG_N
        } else {
            assumed::DRAG_N
        };
        PedalChamber {
            circuit,
            name: self.network.circuit(circuit).name.clone(),
            area_mm2: plain(chamber.area(), Unknown::MasterBore, |value| {
                value.get::<square_millimeter>()
            }),
            stroke_mm: plain(chamber.stroke, Unknown::MasterStroke, |value| {
                value.get::<millimeter>()
            }),
            cut_off_mm: self.figure(chamber.cut_off, Unknown::CutOff, |value| {
                value.get::<millimeter>()
            }),
            drag_n: range(drag, Unknown::Drag),
            zones: Vec::new(),
        }
    }

    /// Walks the circuit from the chamber; every valve begins a zone.
    fn zones(&mut self, circuit: CircuitId) -> Vec<Zone> {
        let network = self.network;
        let mut zones = vec![Zone::empty(
            network.circuit(circuit).name.clone(),
            None,
            Curve::Open,
        )];
        let mut zone_of: BTreeMap<CellId, usize> = BTreeMap::new();
        for &cell in network.cells_of(circuit) {
            let here = match network.step_to(cell) {
                Some((parent, link)) => {
                    let before = zone_of.get(&parent).copied().unwrap_or(0);
                    self.add_link(link, &mut zones[before]);
                    self.zone_behind(cell, before, &mut zones)
                }
                None => 0,
            };
            zone_of.insert(cell, here);
            zones[here].fluid_ml += network.cell(cell).contents.nominal.get::<milliliter>();
            self.add_brake(cell, &mut zones[here]);
        }
        // A loop's last line is nobody's step; it is at the pressure of one of its ends.
        let stepped: BTreeSet<usize> = network
            .cells_of(circuit)
            .iter()
            .filter_map(|cell| network.step_to(*cell))
            .map(|(_, link)| link.index())
            .collect();
        for &link in network.loop_links(circuit) {
            if !stepped.contains(&link.index()) {
                let zone = zone_of.get(&network.link_ends(link)[0]).copied();
                self.add_link(link, &mut zones[zone.unwrap_or(0)]);
            }
        }
        zones
    }

    /// The zone of a cell: that before it, or a new one if it is a valve that changes the pressure.
    fn zone_behind(&mut self, cell: CellId, before: usize, zones: &mut Vec<Zone>) -> usize {
        let network = self.network;
        let Some(part) = network.part(network.cell(cell).owner) else {
            return before;
        };
        let PartKind::Valve(valve) = &part.kind else {
            return before;
        };
        let curve = self.curve(&part.id, valve);
        if curve == Curve::Open {
            return before;
        }
        zones.push(Zone::empty(part.id.clone(), Some(before), curve));
        zones.len() - 1
    }

    fn curve(&mut self, name: &str, valve: &Valve) -> Curve {
        let in_bar = |pressure: Option<Bounds<Pressure>>| {
            Some(plain(pressure?, Unknown::ValveSetting, |value| {
                value.get::<bar>()
            }))
        };
        let curve = match valve.kind {
            ValveKind::PressureLimiting => {
                in_bar(valve.cut_in).map(|cut_in_bar| Curve::Limiting { cut_in_bar })
            }
            ValveKind::Proportioning | ValveKind::LoadSensing => {
                let slope = valve
                    .ratio
                    .map(|slope| plain(slope, Unknown::ValveSetting, |value| value.get::<ratio>()));
                in_bar(valve.cut_in)
                    .zip(slope)
                    .map(|(cut_in_bar, slope)| Curve::Proportioning {
                        cut_in_bar,
                        ratio: slope,
                    })
            }
            ValveKind::Metering => {
                in_bar(valve.hold_off).map(|hold_off_bar| Curve::Metering { hold_off_bar })
            }
            ValveKind::Residual => {
                in_bar(valve.holds).map(|holds_bar| Curve::Residual { holds_bar })
            }
            ValveKind::Check | ValveKind::DifferentialSwitch => return Curve::Open,
        };
        if valve.kind == ValveKind::LoadSensing && curve.is_some() {
            self.assume(Guessed::Unladen(name.to_owned()));
        }
        curve.unwrap_or_else(|| {
            self.assume(Guessed::TakenAsOpen(name.to_owned()));
            Curve::Open
        })
    }
}

impl Zone {
    fn empty(name: String, behind: Option<usize>, curve: Curve) -> Self {
        Self {
            name,
            behind,
            curve,
            brakes: Vec::new(),
            hoses: Vec::new(),
            fluid_ml: 0.0,
            wall_ml_per_100_bar: 0.0,
        }
    }
}
