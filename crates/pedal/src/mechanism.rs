//! A control as plain numbers with bounds: what the physics of the pedal works on.

use crate::premise::Premise;
use bleedwright_mechanism::assumed::{self, range};
use bleedwright_mechanism::{
    Builder, Choice, Control, MasterCylinder, Medium, PedalChamber, Range, SettledChamber, Unknown,
    fluid_state, plain, usual_temperature,
};
use bleedwright_network::{BoosterKind, Control as WorkedBy, Cylinder, Network};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::ratio;

/// The force for which a layout gives the flexing of the pedal.
pub const FLEX_FORCE_N: f64 = 500.0;

/// A pedal or lever with all that hangs on it.
#[derive(Clone, Debug)]
pub struct Mechanism {
    /// Travel of the pedal for each travel of the rod.
    pub ratio: Range,
    /// Travel of the pedal before the rod moves, in mm.
    pub free_play_mm: Range,
    /// Flexing at the pedal, in mm for each N on the pedal.
    pub flex_mm_per_n: Range,
    /// What a running booster multiplies the rod's force by; none without one.
    pub booster_ratio: Option<Range>,
    /// The most that the booster adds to the rod's force, in N; none where no limit is known.
    pub booster_help_n: Option<Range>,
    /// The share of the force that the first cylinder of a balance bar gets; none without a bar.
    pub bar_share: Option<Range>,
    /// How fast trapped air is squeezed: 1 slowly, 1.4 too fast for its heat to leave.
    pub polytropic_index: Range,
    /// The share of the clearances that pumping leaves.
    pub left_after_pumping: Range,
    /// Bulk modulus of the fluid, in bar.
    pub bulk_modulus_bar: Range,
    /// One cylinder, or the two of a balance bar.
    pub cylinders: Vec<MasterCylinder>,
    /// What was assumed.
    pub assumptions: Vec<Premise>,
}

impl Mechanism {
    /// The mechanism of a control of a sound layout.
    pub fn new(network: &Network, control: &Control) -> Self {
        let mut builder = Builder::new(network);
        let mut assumptions = vec![Premise::FluidAndAir, Premise::HeldAndPumped];
        let layout = network.layout();
        let cylinders: Vec<&Cylinder> = control
            .cylinders
            .iter()
            .map(|index| &layout.cylinders[*index])
            .collect();
        // With a bar there is one pedal; its figures stand at the first cylinder.
        let pedal = cylinders[0];
        if control.bar.is_some() {
            assumptions.push(Premise::BarAtCylinder(pedal.id.clone()));
            assumptions.push(Premise::BarTilts);
        }
        let modulus = fluid_state(network, None, usual_temperature()).bulk_modulus;
        let mut mechanism = Self {
            ratio: builder.figure(pedal.pedal_ratio, Unknown::PedalRatio, |value| {
                value.get::<ratio>()
            }),
            free_play_mm: builder.figure(pedal.free_play, Unknown::FreePlay, |value| {
                value.get::<millimeter>()
            }),
            flex_mm_per_n: flex(&mut assumptions, pedal),
            booster_ratio: booster(&mut assumptions, pedal),
            booster_help_n: help(&mut assumptions, pedal),
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
            assumptions,
        };
        let guessed = builder.into_assumptions().into_iter();
        mechanism.assumptions.extend(guessed.map(Premise::Guessed));
        mechanism
    }
}

impl Mechanism {
    /// Every chamber, in the order of the cylinders.
    pub fn chambers(&self) -> impl Iterator<Item = &PedalChamber> {
        self.cylinders
            .iter()
            .flat_map(|cylinder| &cylinder.chambers)
    }

    /// Everything with one choice of the unknowns.
    pub(crate) fn settle(&self, choice: &Choice) -> SettledMechanism {
        SettledMechanism::new(self, choice)
    }
}

impl Mechanism {
    /// Shows every range to a visitor.
    pub(crate) fn for_each_range(&self, visit: &mut dyn FnMut(&Range)) {
        let own = [
            &self.ratio,
            &self.free_play_mm,
            &self.flex_mm_per_n,
            &self.polytropic_index,
            &self.left_after_pumping,
            &self.bulk_modulus_bar,
        ];
        own.into_iter()
            .chain(&self.booster_ratio)
            .chain(&self.booster_help_n)
            .chain(&self.bar_share)
            .for_each(&mut *visit);
        for chamber in self.chambers() {
            chamber.for_each_range(visit);
        }
    }
}

fn flex(assumptions: &mut Vec<Premise>, pedal: &Cylinder) -> Range {
    let flex = if let Some(flex) = pedal.flex_at_500_n {
        plain(flex, Unknown::PedalFlex, |value| value.get::<millimeter>())
    } else if pedal.control == WorkedBy::Coupler {
        assumptions.push(Premise::CouplerFlex);
        range(assumed::COUPLER_FLEX_MM, Unknown::PedalFlex)
    } else {
        assumptions.push(Premise::PedalFlex);
        range(assumed::PEDAL_FLEX_MM, Unknown::PedalFlex)
    };
    flex.times(1.0 / FLEX_FORCE_N)
}

fn booster(assumptions: &mut Vec<Premise>, pedal: &Cylinder) -> Option<Range> {
    let booster = pedal.booster.as_ref()?;
    Some(if let Some(help) = booster.ratio {
        plain(help, Unknown::BoosterRatio, |value| value.get::<ratio>())
    } else {
        assumptions.push(Premise::BoosterRatio);
        range(assumed::BOOSTER_RATIO, Unknown::BoosterRatio)
    })
}

fn help(assumptions: &mut Vec<Premise>, pedal: &Cylinder) -> Option<Range> {
    let booster = pedal.booster.as_ref()?;
    if let Some(help) = booster.most_help {
        return Some(plain(help, Unknown::BoosterHelp, |value| {
            value.get::<newton>()
        }));
    }
    if booster.kind == BoosterKind::Vacuum {
        assumptions.push(Premise::VacuumHelp);
        return Some(range(assumed::VACUUM_HELP_N, Unknown::BoosterHelp));
    }
    assumptions.push(Premise::HelpWithoutEnd);
    None
}

/// See [`Mechanism`]; the fields and their units are the same.
#[derive(Clone, Debug)]
pub(crate) struct SettledMechanism {
    pub(crate) ratio: f64,
    pub(crate) free_play_mm: f64,
    pub(crate) flex_mm_per_n: f64,
    pub(crate) booster_ratio: f64,
    pub(crate) booster_help_n: f64,
    pub(crate) bar_share: f64,
    pub(crate) left_after_pumping: f64,
    pub(crate) cylinders: Vec<Vec<SettledChamber>>,
}

impl SettledMechanism {
    fn new(mechanism: &Mechanism, choice: &Choice) -> Self {
        let medium = Medium {
            bulk_modulus_bar: mechanism.bulk_modulus_bar.at(choice),
            polytropic_index: mechanism.polytropic_index.at(choice),
        };
        Self {
            ratio: mechanism.ratio.at(choice),
            free_play_mm: mechanism.free_play_mm.at(choice),
            flex_mm_per_n: mechanism.flex_mm_per_n.at(choice),
            booster_ratio: mechanism.booster_ratio.map_or(1.0, |help| help.at(choice)),
            booster_help_n: mechanism
                .booster_help_n
                .map_or(f64::INFINITY, |help| help.at(choice)),
            bar_share: mechanism.bar_share.map_or(1.0, |share| share.at(choice)),
            left_after_pumping: mechanism.left_after_pumping.at(choice),
            cylinders: mechanism
                .cylinders
                .iter()
                .map(|cylinder| {
                    cylinder
                        .chambers
                        .iter()
                        .map(|chamber| SettledChamber::new(chamber, choice, medium))
                        .collect()
                })
                .collect(),
        }
    }

    /// Lets the pistons go as far as the fluid lets them.
    pub(crate) fn take_stops_away(&mut self) {
        for chamber in self.cylinders.iter_mut().flatten() {
            chamber.stroke_mm = f64::INFINITY;
        }
    }
}
