//! A chamber with one choice of the unknowns: numbers only.

use crate::air::AirPocket;
use crate::chamber::{HOSE_PRESSURES_BAR, PedalChamber, Zone};
use crate::curve::SettledCurve;
use crate::unknown::Choice;

/// The standard atmosphere, in bar.
const ATMOSPHERE_BAR: f64 = 1.013_25;

/// A pressure in bar on an area in mm2 makes a tenth of their product in N.
pub const N_PER_BAR_MM2: f64 = 0.1;

/// What the circuits hold: fluid, and air if any is trapped.
#[derive(Clone, Copy, Debug)]
pub struct Medium {
    /// Bulk modulus of the fluid, in bar.
    pub bulk_modulus_bar: f64,
    /// How fast trapped air is squeezed.
    pub polytropic_index: f64,
}

/// See [`PedalChamber`]; the fields and their units are the same.
#[derive(Clone, Debug)]
pub struct SettledChamber {
    /// Area of the piston, in mm2.
    pub area_mm2: f64,
    /// The whole stroke of this piston, in mm.
    pub stroke_mm: f64,
    /// The first part of it, which only closes the port, in mm.
    pub cut_off_mm: f64,
    /// Springs and seals, in N.
    pub drag_n: f64,
    /// What lies behind.
    pub zones: Vec<SettledZone>,
}

/// Everything of one kind in a zone, summed.
#[derive(Clone, Debug)]
pub struct SettledZone {
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
pub struct TakenUp {
    /// Closing the clearances of the brakes.
    pub clearance: f64,
    /// Flexing of the brakes.
    pub brakes: f64,
    /// Swelling of the hoses.
    pub hoses: f64,
    /// Stretching of the pipes.
    pub pipes: f64,
    /// Compression of the fluid.
    pub fluid: f64,
    /// Trapped air.
    pub air: f64,
}

impl TakenUp {
    /// All of it.
    pub fn total(&self) -> f64 {
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

impl SettledChamber {
    /// A chamber with one choice of the unknowns.
    pub fn new(chamber: &PedalChamber, choice: &Choice, medium: Medium) -> Self {
        let mut zones: Vec<SettledZone> = Vec::with_capacity(chamber.zones.len());
        for zone in &chamber.zones {
            let before = zone.behind.map_or(0.0, |behind| zones[behind].rest_bar);
            zones.push(SettledZone::new(zone, before, choice, medium));
        }
        Self {
            area_mm2: chamber.area_mm2.at(choice),
            stroke_mm: chamber.stroke_mm.at(choice),
            cut_off_mm: chamber.cut_off_mm.at(choice),
            drag_n: chamber.drag_n.at(choice),
            zones,
        }
    }

    /// By how much the pressure behind a floating piston stays below that before it, in bar: at a pressure before it
    /// that is not above this the piston stands still.
    pub fn floats_at_bar(&self) -> f64 {
        self.drag_n / (N_PER_BAR_MM2 * self.area_mm2)
    }

    /// The pressure in every zone for a pressure of the chamber.
    pub fn pressures(&self, chamber_bar: f64) -> Vec<f64> {
        let mut pressures: Vec<f64> = Vec::with_capacity(self.zones.len());
        for zone in &self.zones {
            let before = zone.behind.map_or(chamber_bar, |behind| pressures[behind]);
            pressures.push(zone.curve.behind(before));
        }
        pressures
    }

    /// What the circuit takes up at a pressure of the chamber.
    pub fn taken_up(&self, chamber_bar: f64, clearance: f64, air: &[AirPocket]) -> TakenUp {
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
    fn new(zone: &Zone, before_bar: f64, choice: &Choice, medium: Medium) -> Self {
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
        let polytropic_exponent = 1.0 / medium.polytropic_index;
        Self {
            behind: zone.behind,
            curve,
            rest_bar,
            clearances,
            give_ml_per_bar: give / 100.0,
            hoses_ml,
            fluid_ml_per_bar: zone.fluid_ml / medium.bulk_modulus_bar,
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

/// What is left of a volume of air: `(p0 / (p0 + p))^(1/n)`, as [`bleedwright_hydraulics::gas::absorbed_share`] has it,
/// in plain numbers.
fn air_share(bar: f64, exponent: f64) -> f64 {
    (ATMOSPHERE_BAR / (ATMOSPHERE_BAR + bar)).powf(exponent)
}
