//! Trials that shut a part of the system off and so tell where air is: by how much the pedal rises if it is behind the
//! shut place, and if it is not.

use crate::equilibrium::Press;
use crate::mechanism::Mechanism;
use bleedwright_mechanism::Choice;
use bleedwright_mechanism::Control;
use bleedwright_mechanism::{AirPocket, PedalChamber};
use bleedwright_network::{CircuitId, Element, Network};
use std::collections::BTreeSet;
use uom::si::f64::{Length, Volume};
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// A place that is shut while the pedal is pressed.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// What is shut.
    pub place: TrialPlace,
    /// The circuit.
    pub circuit: String,
    /// The brakes behind it.
    pub behind: Vec<String>,
    /// How much higher the pedal stands if all the air is behind it.
    pub rise_if_behind: Length,
    /// How much higher it stands if none is.
    pub rise_if_not: Length,
}

/// Where a trial shuts the system.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TrialPlace {
    /// A clamp made for the purpose on a rubber hose.
    Hose(String),
    /// A plug made for the purpose in the outlet of a chamber.
    Outlet(String),
}

/// How likely air stays behind a hose: screws that are not at the top of their cavity first, then those of which it is
/// not known, then by contents.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
struct Likelihood {
    low_screws: u32,
    unknown_screws: u32,
    contents_ml: f64,
}

impl Mechanism {
    /// The trials for an amount of air under a press, those that open nothing first: hoses by how likely air stays behind
    /// them, then whole circuits, for which a pipe is undone at the cylinder. Only circuits that `is_possible` says can hold the air.
    pub fn trials(
        &self,
        network: &Network,
        control: &Control,
        press: &Press,
        air: Volume,
        is_possible: &dyn Fn(&str) -> bool,
    ) -> Vec<Trial> {
        let air_ml = air.get::<milliliter>();
        let mut trials = Vec::new();
        for (circuit, place) in control.circuits(network).zip(self.places()) {
            let chamber = &self.cylinders[place.0].chambers[place.1];
            if !is_possible(&chamber.name) {
                continue;
            }
            if self.places().len() > 1 {
                trials.push((None, self.outlet(press, place, chamber, air_ml)));
            }
            for (likelihood, trial) in self.hoses(network, circuit, press, place, air_ml) {
                trials.push((Some(likelihood), trial));
            }
        }
        trials.sort_by(|(a, one), (b, other)| match (a, b) {
            (None, None) => std::cmp::Ordering::Equal,
            (None, Some(_)) => std::cmp::Ordering::Greater,
            (Some(_), None) => std::cmp::Ordering::Less,
            (Some(a), Some(b)) => b
                .partial_cmp(a)
                .unwrap_or(std::cmp::Ordering::Equal)
                .then_with(|| one.behind.cmp(&other.behind)),
        });
        trials.into_iter().map(|(_, trial)| trial).collect()
    }

    fn outlet(
        &self,
        press: &Press,
        place: (usize, usize),
        chamber: &PedalChamber,
        air_ml: f64,
    ) -> Trial {
        let zones = &chamber.zones;
        let behind = zones.iter().flat_map(|zone| &zone.brakes);
        let shut = self.shut(place, &|_| true, true);
        self.trial(
            press,
            &shut,
            (place, air_ml),
            TrialPlace::Outlet(chamber.name.clone()),
            behind.map(|brake| brake.name.clone()).collect(),
        )
    }

    fn hoses(
        &self,
        network: &Network,
        circuit: CircuitId,
        press: &Press,
        place: (usize, usize),
        air_ml: f64,
    ) -> Vec<(Likelihood, Trial)> {
        let chamber = &self.cylinders[place.0].chambers[place.1];
        let all = chamber.zones.iter().flat_map(|zone| &zone.hoses);
        all.filter(|hose| network.layout().lines[hose.line].may_be_clamped())
            .filter_map(|hose| {
                let link = Element::Link(network.link_of_line(hose.line)?);
                let cells: Vec<_> = network
                    .cells_of(circuit)
                    .iter()
                    .filter(|cell| network.way_to(**cell).contains(&link))
                    .copied()
                    .collect();
                let names: BTreeSet<String> =
                    cells.iter().map(|cell| network.cell_name(*cell)).collect();
                let brakes = chamber.zones.iter().flat_map(|zone| &zone.brakes);
                let behind: Vec<String> = brakes
                    .filter(|brake| names.contains(&brake.name))
                    .map(|brake| brake.name.clone())
                    .collect();
                if behind.is_empty() {
                    return None;
                }
                let mut likelihood = Likelihood {
                    low_screws: 0,
                    unknown_screws: 0,
                    contents_ml: 0.0,
                };
                for cell in &cells {
                    likelihood.contents_ml +=
                        network.cell(*cell).contents.nominal.get::<milliliter>();
                    for screw in network.screws_on(*cell) {
                        match network.screw(screw).at_top {
                            Some(true) => {}
                            Some(false) => likelihood.low_screws += 1,
                            None => likelihood.unknown_screws += 1,
                        }
                    }
                }
                let shut = self.shut(
                    place,
                    &|name| names.contains(name) || name == hose.name,
                    false,
                );
                let trial = self.trial(
                    press,
                    &shut,
                    (place, air_ml),
                    TrialPlace::Hose(hose.name.clone()),
                    behind,
                );
                Some((likelihood, trial))
            })
            .collect()
    }

    /// The same without some brakes and hoses of a chamber; a whole circuit without its fluid and pipes too.
    fn shut(
        &self,
        place: (usize, usize),
        is_behind: &dyn Fn(&str) -> bool,
        is_whole: bool,
    ) -> Self {
        let mut shut = self.clone();
        for zone in &mut shut.cylinders[place.0].chambers[place.1].zones {
            zone.brakes.retain(|brake| !is_behind(&brake.name));
            zone.hoses.retain(|hose| !is_behind(&hose.name));
            if is_whole {
                zone.fluid_ml = 0.0;
                zone.wall_ml_per_100_bar = 0.0;
            }
        }
        shut
    }

    fn trial(
        &self,
        press: &Press,
        shut: &Self,
        (place, air_ml): ((usize, usize), f64),
        at: TrialPlace,
        behind: Vec<String>,
    ) -> Trial {
        let pocket = AirPocket {
            chamber: place,
            zone: 0,
            volume_ml: air_ml,
        };
        let elsewhere = self
            .places()
            .into_iter()
            .find(|other| *other != place)
            .unwrap_or(place);
        let travel = |mechanism: &Self, air: Vec<AirPocket>| {
            let press = Press {
                air,
                ..press.clone()
            };
            mechanism.travel_mm(&Choice::nominal(), &press)
        };
        let other = AirPocket {
            chamber: elsewhere,
            ..pocket
        };
        // Behind the shut place the air is cut off with the rest; elsewhere it still shows.
        let if_behind = travel(self, vec![pocket]) - travel(shut, Vec::new());
        let if_not = travel(self, vec![other]) - travel(shut, vec![other]);
        Trial {
            place: at,
            circuit: self.cylinders[place.0].chambers[place.1].name.clone(),
            behind,
            rise_if_behind: Length::new::<millimeter>(if_behind.max(0.0)),
            rise_if_not: Length::new::<millimeter>(if_not.max(0.0)),
        }
    }
}
