//! From the pipework to the mechanism.

use super::curve::Curve;
use super::{MasterCylinder, Mechanism, PedalChamber, Zone};
use crate::assumed::{self, range};
use crate::control::Control;
use crate::unknown::{Range, Unknown};
use bleedwright_network::{
    BoosterKind, Bounds, CellId, Chamber, CircuitId, Cylinder, Figure, Network, PartKind, Valve,
    ValveKind,
};
use bleedwright_planner::{Options, fluid_state};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::area::square_millimeter;
use uom::si::f64::Pressure;
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// The force for which a layout gives the flexing of the pedal.
const FLEX_FORCE_N: f64 = 500.0;

impl Mechanism {
    /// The mechanism of a control of a sound layout.
    pub fn new(network: &Network, control: &Control) -> Self {
        let mut builder = Builder {
            network,
            assumptions: BTreeSet::new(),
        };
        let layout = network.layout();
        let cylinders: Vec<&Cylinder> = control
            .cylinders
            .iter()
            .map(|index| &layout.cylinders[*index])
            .collect();
        // With a bar there is one pedal; its figures stand at the first cylinder.
        let pedal = cylinders[0];
        if control.bar.is_some() {
            builder.assume(format!(
                "the pedal of the balance bar has the lever ratio, free play, flexing and booster that are given for {}",
                pedal.id
            ));
        }
        let modulus = fluid_state(network, &Options::default()).bulk_modulus;
        builder.assume(
            "the fluid at 20 degC, its bulk modulus a guess; trapped air at 1.013 bar and squeezed slowly",
        );
        builder.assume(
            "the pedal held still while it is read; pumped until it rises no further, which leaves 0 to 10 % of the clearances (a guess)",
        );
        Self {
            ratio: builder.figure(pedal.pedal_ratio, Unknown::PedalRatio, |value| {
                value.get::<ratio>()
            }),
            free_play_mm: builder.figure(pedal.free_play, Unknown::FreePlay, |value| {
                value.get::<millimeter>()
            }),
            flex_mm_per_n: builder.flex(pedal),
            booster_ratio: builder.booster(pedal),
            booster_help_n: builder.help(pedal),
            bar_share: control.bar.map(|index| {
                builder.figure(
                    layout.balance_bars[index].share,
                    Unknown::BarShare,
                    |value| value.get::<ratio>(),
                )
            }),
            polytropic_index: range(assumed::POLYTROPIC_INDEX, Unknown::PolytropicIndex),
            left_after_pumping: range(assumed::LEFT_AFTER_PUMPING, Unknown::LeftAfterPumping),
            bulk_modulus_bar: Range::new(
                modulus.low.get::<bar>(),
                modulus.nominal.get::<bar>(),
                modulus.high.get::<bar>(),
                Unknown::BulkModulus,
            ),
            cylinders: control
                .cylinders
                .iter()
                .map(|index| builder.cylinder(*index))
                .collect(),
            assumptions: builder.assumptions.into_iter().collect(),
        }
    }
}

pub(super) struct Builder<'n> {
    pub(super) network: &'n Network,
    assumptions: BTreeSet<String>,
}

/// Bounds as plain numbers.
pub(super) fn plain<Q: Copy>(
    bounds: Bounds<Q>,
    unknown: Unknown,
    number: impl Fn(Q) -> f64,
) -> Range {
    Range::new(
        number(bounds.low),
        number(bounds.nominal),
        number(bounds.high),
        unknown,
    )
}

impl Builder<'_> {
    pub(super) fn assume(&mut self, text: impl Into<String>) {
        self.assumptions.insert(text.into());
    }

    fn figure<Q: Copy>(
        &mut self,
        figure: Figure<Q>,
        unknown: Unknown,
        number: impl Fn(Q) -> f64,
    ) -> Range {
        if let bleedwright_network::Basis::Assumed(why) = figure.basis {
            self.assume(why);
        }
        plain(figure.bounds, unknown, number)
    }

    fn flex(&mut self, pedal: &Cylinder) -> Range {
        let flex = if let Some(flex) = pedal.flex_at_500_n {
            plain(flex, Unknown::PedalFlex, |value| value.get::<millimeter>())
        } else {
            self.assume("pedal and bulkhead flex 4 mm at 500 N (1.5-8), a guess");
            range(assumed::PEDAL_FLEX_MM, Unknown::PedalFlex)
        };
        flex.times(1.0 / FLEX_FORCE_N)
    }

    fn booster(&mut self, pedal: &Cylinder) -> Option<Range> {
        let booster = pedal.booster.as_ref()?;
        Some(if let Some(help) = booster.ratio {
            plain(help, Unknown::BoosterRatio, |value| value.get::<ratio>())
        } else {
            self.assume("booster ratio 4 (2.5-6), a guess");
            range(assumed::BOOSTER_RATIO, Unknown::BoosterRatio)
        })
    }

    fn help(&mut self, pedal: &Cylinder) -> Option<Range> {
        let booster = pedal.booster.as_ref()?;
        if let Some(help) = booster.most_help {
            return Some(plain(help, Unknown::BoosterHelp, |value| {
                value.get::<newton>()
            }));
        }
        if booster.kind == BoosterKind::Vacuum {
            self.assume("a vacuum booster adds 3.5 kN at most (2-6), a guess; beyond that the pressure rises with the foot alone");
            return Some(range(assumed::VACUUM_HELP_N, Unknown::BoosterHelp));
        }
        self.assume(
            "the booster's help has no end that is known: high pressures may not be reached",
        );
        None
    }

    fn cylinder(&mut self, index: usize) -> MasterCylinder {
        let cylinder = &self.network.layout().cylinders[index];
        self.assume("springs and seals of a master piston take 50 N (20-80), a floating one, held between two springs, 15 N (0-30), a guess");
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

    fn chamber(
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
            zones: self.zones(circuit),
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
            self.assume(format!("{name} as it is set for an empty vehicle"));
        }
        curve.unwrap_or_else(|| {
            self.assume(format!(
                "{name} has no settings in the layout and is taken as open: the pressure behind it is too high"
            ));
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
