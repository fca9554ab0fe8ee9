//! A control as plain numbers with bounds: what the physics of the pedal works on.

use bleedwright_mechanism::assumed::{self, range};
use bleedwright_mechanism::{
    Builder, Choice, Control, MasterCylinder, Medium, PedalChamber, Range, SettledChamber, Unknown,
    plain,
};
use bleedwright_network::{BoosterKind, Control as WorkedBy, Cylinder, Network};
use bleedwright_planner::{Options, fluid_state};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::ratio;

/// The force for which a layout gives the flexing of the pedal.
const FLEX_FORCE_N: f64 = 500.0;

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
    /// What was assumed, in words.
    pub assumptions: Vec<String>,
}

impl Mechanism {
    /// The mechanism of a control of a sound layout.
    pub fn new(network: &Network, control: &Control) -> Self {
        let mut builder = Builder::new(network);
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
            builder.assume(
                "with one circuit lost the bar tilts until that cylinder's piston stands at its end, and no stop of its own holds it before, a guess",
            );
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
            flex_mm_per_n: flex(&mut builder, pedal),
            booster_ratio: booster(&mut builder, pedal),
            booster_help_n: help(&mut builder, pedal),
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
            assumptions: builder.into_assumptions(),
        }
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

fn flex(builder: &mut Builder<'_>, pedal: &Cylinder) -> Range {
    let flex = if let Some(flex) = pedal.flex_at_500_n {
        plain(flex, Unknown::PedalFlex, |value| value.get::<millimeter>())
    } else if pedal.control == WorkedBy::Coupler {
        builder.assume("shaft and drawbar flex 0.5 mm at 500 N (0.1-2), a guess");
        range(assumed::COUPLER_FLEX_MM, Unknown::PedalFlex)
    } else {
        builder.assume("pedal and bulkhead flex 4 mm at 500 N (1.5-8), a guess");
        range(assumed::PEDAL_FLEX_MM, Unknown::PedalFlex)
    };
    flex.times(1.0 / FLEX_FORCE_N)
}

fn booster(builder: &mut Builder<'_>, pedal: &Cylinder) -> Option<Range> {
    let booster = pedal.booster.as_ref()?;
    Some(if let Some(help) = booster.ratio {
        plain(help, Unknown::BoosterRatio, |value| value.get::<ratio>())
    } else {
        builder.assume("booster ratio 4 (2.5-6), a guess");
        range(assumed::BOOSTER_RATIO, Unknown::BoosterRatio)
    })
}

fn help(builder: &mut Builder<'_>, pedal: &Cylinder) -> Option<Range> {
    let booster = pedal.booster.as_ref()?;
    if let Some(help) = booster.most_help {
        return Some(plain(help, Unknown::BoosterHelp, |value| {
            value.get::<newton>()
        }));
    }
    if booster.kind == BoosterKind::Vacuum {
        builder.assume("a vacuum booster adds 3.5 kN at most (2-6), a guess; beyond that the pressure rises with the foot alone");
        return Some(range(assumed::VACUUM_HELP_N, Unknown::BoosterHelp));
    }
    builder
        .assume("the booster's help has no end that is known: high pressures may not be reached");
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
