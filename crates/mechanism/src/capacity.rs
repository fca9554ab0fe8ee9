//! Whether a compartment of a reservoir holds enough for the linings to wear down.
//!
//! Formula: `V = sum A (w + c)`, to be at most what the compartment holds.
//!
//! Symbols: `V` what all pistons displace from new linings, fully retracted, to worn ones, fully applied (ml); `A` piston
//! area (mm2); `w` travel from new to worn linings, `c` running clearance (mm).
//!
//! Range: each compartment by itself, since fluid passes from one to another only over the top.
//!
//! Source: [FMVSS105](crate#sources) S5.4.2, [FMVSS135](crate#sources) S5.4.2 (the latter from memory).

use crate::assumed::{DISC_CLEARANCE_MM, DRUM_CLEARANCE_MM, of_mounting};
use bleedwright_network::{
    Basis, BoosterKind, Bounds, Brake, BrakeKind, CellKind, CircuitId, Network, Owner, PartKind,
    Usual, Works,
};
use std::collections::BTreeSet;
use uom::si::f64::Volume;
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// The rule applied to one compartment.
#[derive(Clone, Debug, PartialEq)]
pub struct Capacity {
    /// Reservoir and compartment by their places in the layout.
    pub place: (usize, usize),
    /// The reservoir.
    pub reservoir: String,
    /// The compartment.
    pub compartment: String,
    /// What its brakes displace from new to worn.
    pub needed: Bounds<Volume>,
    /// What it holds at its maximum mark.
    pub holds: Bounds<Volume>,
    /// Whether a clutch or a hydraulic booster draws on it too, so that not all of it counts.
    pub is_shared: bool,
    /// The verdict.
    pub verdict: CapacityVerdict,
    /// The brakes one by one.
    pub brakes: Vec<BrakeWear>,
    /// Of what the file is silent.
    pub assumptions: BTreeSet<Usual>,
}

/// Whether the rule is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CapacityVerdict {
    /// The high bound of what is needed fits into the low one of what it holds.
    Pass,
    /// Not even the low bound fits into the high one.
    Fail,
    /// It depends on what was assumed or not measured.
    Open,
    /// It would hold enough, but how much of that belongs to the brakes is not in the layout.
    NotShown,
}

impl CapacityVerdict {
    /// In JSON.
    pub fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Fail => "fail",
            Self::Open => "open",
            Self::NotShown => "not_shown",
        }
    }
}

/// What one brake displaces from new to worn.
#[derive(Clone, Debug, PartialEq)]
pub struct BrakeWear {
    /// The brake.
    pub name: String,
    /// The volume.
    pub volume: Bounds<Volume>,
}

/// The rule applied to every compartment that feeds a brake.
pub fn capacities(network: &Network) -> Vec<Capacity> {
    let reservoirs = network.layout().reservoirs.iter().enumerate();
    reservoirs
        .flat_map(|(index, reservoir)| {
            (0..reservoir.compartments.len()).filter_map(move |nth| capacity(network, (index, nth)))
        })
        .collect()
}

fn capacity(network: &Network, place: (usize, usize)) -> Option<Capacity> {
    let mut assumptions = BTreeSet::new();
    let mut brakes = Vec::new();
    let mut is_shared = false;
    for (id, circuit) in network.circuits() {
        if circuit.compartment != Some(place) {
            continue;
        }
        // A layout does not say where a hydraulic booster's fluid comes from: often from here.
        let booster = network.cylinder_of(id).booster.as_ref();
        is_shared |= circuit.purpose == Works::Clutch
            || booster.is_some_and(|booster| booster.kind == BoosterKind::Hydraulic);
        if circuit.purpose == Works::Brake {
            add_brakes(network, id, &mut brakes, &mut assumptions);
        }
    }
    if brakes.is_empty() {
        return None;
    }
    let reservoir = &network.layout().reservoirs[place.0];
    let compartment = &reservoir.compartments[place.1];
    let needed: Bounds<Volume> = brakes.iter().map(|brake| brake.volume).sum();
    let holds = compartment.max;
    let verdict = if needed.low > holds.high {
        CapacityVerdict::Fail
    } else if is_shared {
        CapacityVerdict::NotShown
    } else if needed.high <= holds.low {
        CapacityVerdict::Pass
    } else {
        CapacityVerdict::Open
    };
    Some(Capacity {
        place,
        reservoir: reservoir.id.clone(),
        compartment: compartment.id.clone(),
        needed,
        holds,
        is_shared,
        verdict,
        brakes,
        assumptions,
    })
}

fn add_brakes(
    network: &Network,
    circuit: CircuitId,
    brakes: &mut Vec<BrakeWear>,
    assumptions: &mut BTreeSet<Usual>,
) {
    for &cell in network.cells_of(circuit) {
        let Owner::Part(index, nth) = network.cell(cell).owner else {
            continue;
        };
        let PartKind::Brake(brake) = &network.layout().parts[index].kind else {
            continue;
        };
        if network.cell(cell).kind != CellKind::Cavity || brake.kind == BrakeKind::ClutchSlave {
            continue;
        }
        if let Basis::Assumed(usual) = brake.wear_travel.basis {
            assumptions.insert(usual);
        }
        brakes.push(BrakeWear {
            name: network.cell_name(cell),
            volume: wear(brake, nth),
        });
    }
}

/// What the pistons of a cavity displace from new to worn.
fn wear(brake: &Brake, cavity: usize) -> Bounds<Volume> {
    let assumed = match brake.kind {
        BrakeKind::Caliper { mounting } => of_mounting(DISC_CLEARANCE_MM, mounting),
        _ => DRUM_CLEARANCE_MM,
    };
    let clearance_mm = brake.running_clearance.map_or(
        Bounds {
            low: assumed[0],
            nominal: assumed[1],
            high: assumed[2],
        },
        |clearance| clearance.map(|length| length.get::<millimeter>()),
    );
    let travel_mm = brake
        .wear_travel
        .bounds
        .map(|length| length.get::<millimeter>())
        .zip(clearance_mm, |wear, clearance| wear + clearance);
    brake.cavities[cavity]
        .pistons
        .iter()
        .map(|piston| {
            let count = f64::from(piston.count);
            piston
                .bore
                .map(|bore| bore.get::<millimeter>())
                .zip(travel_mm, |bore, travel| {
                    let mm3 = count * std::f64::consts::FRAC_PI_4 * bore * bore * travel;
                    Volume::new::<milliliter>(mm3 / 1000.0)
                })
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use bleedwright_network::{Cavity, Figure, Piston};
    use uom::si::f64::Length;

    #[test]
    fn a_piston_takes_its_area_times_its_travel() {
        let mm = Length::new::<millimeter>;
        let exact = |length| Figure::stated(Bounds::exact(mm(length)));
        let brake = Brake {
            kind: BrakeKind::Caliper { mounting: None },
            cavities: vec![Cavity {
                id: String::new(),
                pistons: vec![Piston {
                    bore: Bounds::exact(mm(54.0)),
                    extension: exact(2.0),
                    count: 1,
                    is_count_assumed: false,
                }],
                dead_volume: Figure::stated(Bounds::exact(Volume::default())),
            }],
            crossover: None,
            bleed_first: None,
            lining: None,
            wear_travel: exact(10.0),
            running_clearance: Some(Bounds::exact(Length::default())),
            gives_at_100_bar: None,
        };
        // 54 mm by 10 mm: 22.9 ml, by hand.
        let volume = wear(&brake, 0).nominal.get::<milliliter>();
        assert!((volume - 22.902).abs() < 5e-4, "{volume}");
    }
}
