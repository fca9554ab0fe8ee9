//! A control as plain numbers with bounds: what the physics of the pedal works on.

mod build;
mod curve;
mod settled;
mod swelling;
mod taker;

pub use curve::Curve;
pub(crate) use settled::{SettledChamber, SettledMechanism, TakenUp};
pub(crate) use taker::piston_area_mm2;

use crate::unknown::{Choice, Range};
use bleedwright_network::CircuitId;

/// The pressures at which the growth of hoses is tabled, in bar: 0, 1000, 1500 and 2900 psi.
pub const HOSE_PRESSURES_BAR: [f64; 4] = [0.0, 68.947_573, 103.421_36, 199.947_96];

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

/// A master cylinder: one chamber, or the primary and the secondary one.
#[derive(Clone, Debug)]
pub struct MasterCylinder {
    /// Its name.
    pub name: String,
    /// Its chambers.
    pub chambers: Vec<PedalChamber>,
}

/// A chamber and the circuit behind it.
#[derive(Clone, Debug)]
pub struct PedalChamber {
    /// The circuit.
    pub circuit: CircuitId,
    /// The circuit's name.
    pub name: String,
    /// Area of the piston, in mm2.
    pub area_mm2: Range,
    /// The whole stroke of this piston, in mm.
    pub stroke_mm: Range,
    /// The first part of it, which only closes the port, in mm.
    pub cut_off_mm: Range,
    /// Springs and seals, in N.
    pub drag_n: Range,
    /// What lies behind, parted by valves; the first zone is at the chamber's own pressure.
    pub zones: Vec<Zone>,
}

/// The part of a circuit between two valves.
#[derive(Clone, Debug)]
pub struct Zone {
    /// What it is called: the valve before it, or the circuit.
    pub name: String,
    /// The zone before it, an earlier one; none for the first.
    pub behind: Option<usize>,
    /// What the valve between the two does to the pressure.
    pub curve: Curve,
    /// Its brakes.
    pub brakes: Vec<PedalBrake>,
    /// Its hoses.
    pub hoses: Vec<PedalHose>,
    /// Its fluid, in ml.
    pub fluid_ml: f64,
    /// What its pipes swell under 100 bar, in ml.
    pub wall_ml_per_100_bar: f64,
}

/// A brake, as far as it takes up fluid.
#[derive(Clone, Debug)]
pub struct PedalBrake {
    /// Its name.
    pub name: String,
    /// The part, by its place in the layout.
    pub part: usize,
    /// Whether it is a drum brake.
    pub is_drum: bool,
    /// What closes its clearance, in ml.
    pub clearance_ml: Range,
    /// The pressure at which the clearance is closed, in bar.
    pub touch_bar: Range,
    /// What it takes up by flexing under 100 bar, in ml.
    pub give_ml_per_100_bar: Range,
}

/// A hose, as far as it swells.
#[derive(Clone, Debug)]
pub struct PedalHose {
    /// Its name.
    pub name: String,
    /// The line, by its place in the layout.
    pub line: usize,
    /// Its length, in m.
    pub length_m: f64,
    /// Growth for each metre at each of [`HOSE_PRESSURES_BAR`], in ml.
    pub growth_ml_per_m: [Range; 4],
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
            let sizes = [
                &chamber.area_mm2,
                &chamber.stroke_mm,
                &chamber.cut_off_mm,
                &chamber.drag_n,
            ];
            sizes.into_iter().for_each(&mut *visit);
            for zone in &chamber.zones {
                zone.curve.ranges().into_iter().for_each(&mut *visit);
                for brake in &zone.brakes {
                    let figures = [
                        &brake.clearance_ml,
                        &brake.touch_bar,
                        &brake.give_ml_per_100_bar,
                    ];
                    figures.into_iter().for_each(&mut *visit);
                }
                for hose in &zone.hoses {
                    hose.growth_ml_per_m.iter().for_each(&mut *visit);
                }
            }
        }
    }
}
