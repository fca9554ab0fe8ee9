//! A mechanism with one choice of the unknowns: numbers only.

use super::curve::SettledCurve;
use super::{HOSE_PRESSURES_BAR, Mechanism, PedalChamber, Zone};
use crate::air::AirPocket;
use crate::unknown::Choice;

/// The standard atmosphere, in bar.
const ATMOSPHERE_BAR: f64 = 1.013_25;

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

#[derive(Clone, Debug)]
pub(crate) struct SettledChamber {
    pub(crate) area_mm2: f64,
    pub(crate) stroke_mm: f64,
    pub(crate) cut_off_mm: f64,
    pub(crate) drag_n: f64,
    pub(crate) zones: Vec<SettledZone>,
}

/// Everything of one kind in a zone, summed.
#[derive(Clone, Debug)]
pub(crate) struct SettledZone {
    behind: Option<usize>,
    curve: SettledCurve,
    rest_bar: f64,
    /// Disc and drum brakes: clearance in ml, and the pressure that closes it.
    clearances: [(f64, f64); 2],
    give_ml_per_bar: f64,
    hoses_ml: [f64; 4],
    fluid_ml_per_bar: f64,
    wall_ml_per_bar: f64,
    polytropic_exponent: f64,
    /// What is left of air at the pressure at rest.
    air_share_at_rest: f64,
}

/// What a zone takes up, kind by kind, in ml.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct TakenUp {
    pub(crate) clearance: f64,
    pub(crate) brakes: f64,
    pub(crate) hoses: f64,
    pub(crate) pipes: f64,
    pub(crate) fluid: f64,
    pub(crate) air: f64,
}

impl TakenUp {
    pub(crate) fn total(&self) -> f64 {
        self.clearance + self.brakes + self.hoses + self.pipes + self.fluid + self.air
    }

    fn add(&mut self, other: &Self) {
        self.clearance += other.clearance;
        self.brakes += other.brakes;
        self.hoses += other.hoses;
        self.pipes += other.pipes;
        self.fluid += other.fluid;
        self.air += other.air;
    }
}

impl SettledMechanism {
    pub(super) fn new(mechanism: &Mechanism, choice: &Choice) -> Self {
        Self {
            ratio: mechanism.ratio.at(choice),
            free_play_mm: mechanism.free_play_mm.at(choice),
            flex_mm_per_n: mechanism.flex_mm_per_n.at(choice),
            booster_ratio: mechanism
                .booster_ratio
                .map_or(1.0, |ratio| ratio.at(choice)),
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
                        .map(|chamber| SettledChamber::new(mechanism, chamber, choice))
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

impl SettledChamber {
    fn new(mechanism: &Mechanism, chamber: &PedalChamber, choice: &Choice) -> Self {
        let mut zones: Vec<SettledZone> = Vec::with_capacity(chamber.zones.len());
        for zone in &chamber.zones {
            let before = zone.behind.map_or(0.0, |behind| zones[behind].rest_bar);
            zones.push(SettledZone::new(mechanism, zone, before, choice));
        }
        Self {
            area_mm2: chamber.area_mm2.at(choice),
            stroke_mm: chamber.stroke_mm.at(choice),
            cut_off_mm: chamber.cut_off_mm.at(choice),
            drag_n: chamber.drag_n.at(choice),
            zones,
        }
    }

    /// The pressure in every zone for a pressure of the chamber.
    pub(crate) fn pressures(&self, chamber_bar: f64) -> Vec<f64> {
        let mut pressures: Vec<f64> = Vec::with_capacity(self.zones.len());
        for zone in &self.zones {
            let before = zone.behind.map_or(chamber_bar, |behind| pressures[behind]);
            pressures.push(zone.curve.behind(before));
        }
        pressures
    }

    /// What the circuit takes up at a pressure of the chamber.
    pub(crate) fn taken_up(&self, chamber_bar: f64, clearance: f64, air: &[AirPocket]) -> TakenUp {
        let mut sum = TakenUp::default();
        if chamber_bar <= 0.0 {
            return sum;
        }
        let pressures = self.pressures(chamber_bar);
        for (index, (zone, pressure)) in self.zones.iter().zip(pressures).enumerate() {
            let air_ml: f64 = air
                .iter()
                .filter(|pocket| pocket.zone == index)
                .map(|pocket| pocket.volume_ml)
                .sum();
            sum.add(&zone.taken_up(pressure, clearance, air_ml));
        }
        sum
    }
}

impl SettledZone {
    fn new(mechanism: &Mechanism, zone: &Zone, before_bar: f64, choice: &Choice) -> Self {
        let curve = zone.curve.settle(choice);
        let mut clearances = [(0.0, f64::MIN_POSITIVE); 2];
        let mut give = 0.0;
        for brake in &zone.brakes {
            let kind = &mut clearances[usize::from(brake.is_drum)];
            kind.0 += brake.clearance_ml.at(choice);
            kind.1 = brake.touch_bar.at(choice).max(f64::MIN_POSITIVE);
            give += brake.give_ml_per_100_bar.at(choice);
        }
        let mut hoses_ml = [0.0; 4];
        for hose in &zone.hoses {
            for (sum, growth) in hoses_ml.iter_mut().zip(&hose.growth_ml_per_m) {
                *sum += hose.length_m * growth.at(choice);
            }
        }
        let rest_bar = curve.rest(before_bar);
        let polytropic_exponent = 1.0 / mechanism.polytropic_index.at(choice);
        Self {
            behind: zone.behind,
            curve,
            rest_bar,
            clearances,
            give_ml_per_bar: give / 100.0,
            hoses_ml,
            fluid_ml_per_bar: zone.fluid_ml / mechanism.bulk_modulus_bar.at(choice),
            wall_ml_per_bar: zone.wall_ml_per_100_bar / 100.0,
            polytropic_exponent,
            air_share_at_rest: air_share(rest_bar, polytropic_exponent),
        }
    }

    /// From its pressure at rest to another one.
    fn taken_up(&self, bar: f64, clearance: f64, air_ml: f64) -> TakenUp {
        let rise = bar - self.rest_bar;
        if rise <= 0.0 {
            return TakenUp::default();
        }
        let closed = |bar: f64| -> f64 {
            self.clearances
                .iter()
                .map(|(volume, touch)| volume * (bar / touch).min(1.0))
                .sum()
        };
        TakenUp {
            clearance: clearance * (closed(bar) - closed(self.rest_bar)),
            brakes: self.give_ml_per_bar * rise,
            hoses: self.swelling(bar) - self.swelling(self.rest_bar),
            pipes: self.wall_ml_per_bar * rise,
            fluid: self.fluid_ml_per_bar * rise,
            air: if air_ml > 0.0 {
                air_ml * (self.air_share_at_rest - air_share(bar, self.polytropic_exponent))
            } else {
                0.0
            },
        }
    }

    /// Straight lines between the tabled pressures, the last one drawn on.
    fn swelling(&self, bar: f64) -> f64 {
        let last = HOSE_PRESSURES_BAR.len() - 2;
        let index = (0..last)
            .find(|index| bar <= HOSE_PRESSURES_BAR[index + 1])
            .unwrap_or(last);
        let [from, to] = [HOSE_PRESSURES_BAR[index], HOSE_PRESSURES_BAR[index + 1]];
        let [low, high] = [self.hoses_ml[index], self.hoses_ml[index + 1]];
        low + (high - low) * (bar - from) / (to - from)
    }
}

/// What is left of a volume of air; [`bleedwright_hydraulics::gas::polytropic_volume`] in plain numbers.
fn air_share(bar: f64, exponent: f64) -> f64 {
    (ATMOSPHERE_BAR / (ATMOSPHERE_BAR + bar)).powf(exponent)
}
