//! Cylinders, chambers, zones and what takes up fluid in them.

use crate::curve::Curve;
use crate::unknown::Range;
use bleedwright_network::CircuitId;

/// The pressures at which the growth of hoses is tabled, in bar: 0, 1000, 1500 and 2900 psi.
pub const HOSE_PRESSURES_BAR: [f64; 4] = [0.0, 68.947_573, 103.421_36, 199.947_96];

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

impl PedalChamber {
    /// Shows every range to a visitor.
    pub fn for_each_range(&self, visit: &mut dyn FnMut(&Range)) {
        let sizes = [
            &self.area_mm2,
            &self.stroke_mm,
            &self.cut_off_mm,
            &self.drag_n,
        ];
        sizes.into_iter().for_each(&mut *visit);
        for zone in &self.zones {
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
