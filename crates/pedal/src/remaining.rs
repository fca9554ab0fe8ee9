//! What is still braked when a circuit is lost.

use bleedwright_mechanism::Control;
use bleedwright_mechanism::piston_area_mm2;
use bleedwright_network::{CircuitId, Network, Owner, PartKind};
use std::collections::BTreeMap;
use uom::si::area::square_millimeter;
use uom::si::f64::{Area, Ratio};

/// What one lost circuit leaves to a pedal.
#[derive(Clone, Debug, PartialEq)]
pub struct Remaining {
    /// The circuit that is lost.
    pub lost: String,
    /// Every wheel of the pedal, front to rear, left before right.
    pub wheels: Vec<WheelLeft>,
}

/// What is left at one wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelLeft {
    /// The wheel, or the part where the layout names no wheel.
    pub name: String,
    /// The share of its piston area that is still under pressure. Areas of one wheel only are compared: a sliding
    /// caliper presses twice with its one piston.
    pub share: Ratio,
}

impl WheelLeft {
    /// Whether all of its pistons still work.
    pub fn is_whole(&self) -> bool {
        self.share.value > 1.0 - 1e-9
    }

    /// Whether none of them works.
    pub fn is_gone(&self) -> bool {
        self.share.value < 1e-9
    }
}

/// Every circuit of a pedal lost in turn.
///
/// Formula: share = sum of the areas of pistons on other circuits / sum of all, wheel by wheel. From the definition of
/// the splits in \[DIN74000\]; only the pipework is asked, no pressures.
pub fn remaining(network: &Network, control: &Control) -> Vec<Remaining> {
    let circuits: Vec<CircuitId> = control.circuits(network).collect();
    let mut wheels: BTreeMap<(u8, String), BTreeMap<CircuitId, Area>> = BTreeMap::new();
    for circuit in &circuits {
        for cell in network.cells_of(*circuit) {
            let (Owner::Part(part, _), Some(cavity)) =
                (network.cell(*cell).owner, network.cavity(*cell))
            else {
                continue;
            };
            let part = &network.layout().parts[part];
            if !matches!(part.kind, PartKind::Brake(_)) || !part.kind.is_wheel_brake() {
                continue;
            }
            let place = match part.wheel {
                Some(wheel) => (wheel.axle(), wheel.text().to_owned()),
                None => (u8::MAX, part.id.clone()),
            };
            *wheels
                .entry(place)
                .or_default()
                .entry(*circuit)
                .or_default() += Area::new::<square_millimeter>(piston_area_mm2(cavity));
        }
    }
    circuits
        .iter()
        .map(|lost| Remaining {
            lost: network.circuit(*lost).name.clone(),
            wheels: wheels
                .iter()
                .map(|((_, name), areas)| WheelLeft {
                    name: name.clone(),
                    share: left(areas, *lost),
                })
                .collect(),
        })
        .collect()
}

fn left(areas: &BTreeMap<CircuitId, Area>, lost: CircuitId) -> Ratio {
    let all: Area = areas.values().copied().sum();
    let gone = areas.get(&lost).copied().unwrap_or_default();
    if all > Area::default() {
        (all - gone) / all
    } else {
        Ratio::default()
    }
}
