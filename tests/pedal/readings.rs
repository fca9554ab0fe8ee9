//! Travel and air against readings made by an independent script.
//!
//! `reference/pedal/generate.py` finds the rest of the pistons as a complementarity problem in `NumPy` and `SciPy`, draws
//! every unknown from its printed range, and adds a noise of 1 mm. The program and the script share the ranges and the
//! physics as they are written down in docs/model.md, and no code. Of its cases the first of each kind are committed.

use super::vehicles::mechanisms;
use crate::reference;
use bleedwright_network::Bounds;
use bleedwright_pedal::{AirPocket, Choice, Mechanism, Press, Reading};
use serde::Deserialize;
use std::collections::BTreeMap;
use uom::si::f64::{Force, Length, Volume};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::volume::milliliter;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    number: u32,
    layout: String,
    control: String,
    booster: String,
    lost: Option<String>,
    exact: bool,
    beyond_stop: bool,
    /// By circuits, then zones.
    air_ml: BTreeMap<String, Vec<f64>>,
    readings: Vec<Measured>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Measured {
    force_n: f64,
    push: String,
    /// With noise; an exact case has none.
    #[serde(default)]
    measured_mm: Option<f64>,
    travel_mm: f64,
    pressure_bar: BTreeMap<String, f64>,
}

impl Case {
    fn air_ml(&self) -> f64 {
        self.air_ml.values().flatten().sum()
    }

    fn readings(&self) -> Vec<Reading> {
        self.readings
            .iter()
            .map(|reading| Reading {
                force: Bounds::exact(Force::new::<newton>(reading.force_n)),
                travel: Length::new::<millimeter>(reading.measured_mm.unwrap_or(reading.travel_mm)),
                // A standard deviation of 1 mm.
                tolerance: Length::new::<millimeter>(2.0),
                is_pumped: reading.push == "pumped",
                is_boosted: self.booster == "running",
            })
            .collect()
    }
}

/// The cases meant, and whether they are all that the script makes; `count` says how many there must be of the
/// committed and of all.
fn cases(count: [usize; 2], is_meant: impl Fn(&Case) -> bool) -> (Vec<Case>, bool) {
    let reference = reference::cases("pedal/readings.json");
    let all: Vec<Case> =
        serde_json::from_str(&reference.json).expect("the script writes this format");
    let cases: Vec<Case> = all.into_iter().filter(is_meant).collect();
    assert_eq!(cases.len(), count[usize::from(reference.is_long)]);
    (cases, reference.is_long)
}

fn by_name() -> BTreeMap<(String, String), Mechanism> {
    mechanisms()
        .into_iter()
        .map(|(layout, control, mechanism)| ((layout.to_owned(), control), mechanism))
        .collect()
}

/// The place of a chamber in a mechanism, by its circuit.
fn places(mechanism: &Mechanism) -> BTreeMap<String, (usize, usize)> {
    mechanism
        .cylinders
        .iter()
        .enumerate()
        .flat_map(|(index, cylinder)| {
            cylinder
                .chambers
                .iter()
                .enumerate()
                .map(move |(nth, chamber)| (chamber.name.clone(), (index, nth)))
        })
        .collect()
}

#[test]
fn travel_and_pressures_are_those_of_the_script() {
    let mechanisms = by_name();
    let (cases, _) = cases([44, 100], |case| case.exact);
    for case in &cases {
        let mechanism = &mechanisms[&(case.layout.clone(), case.control.clone())];
        let places = places(mechanism);
        let air = case.air_ml.iter().flat_map(|(circuit, zones)| {
            zones.iter().enumerate().map(|(zone, volume_ml)| AirPocket {
                chamber: places[circuit],
                zone,
                volume_ml: *volume_ml,
            })
        });
        let air: Vec<AirPocket> = air.collect();
        for reading in &case.readings {
            let press = Press {
                force_n: reading.force_n,
                is_boosted: case.booster == "running",
                is_pumped: reading.push == "pumped",
                lost: case.lost.as_ref().map(|circuit| places[circuit]),
                air: air.clone(),
            };
            let travel_mm = mechanism.travel_mm(&Choice::nominal(), &press);
            assert!(
                (travel_mm - reading.travel_mm).abs() < 1e-6,
                "case {}: {travel_mm} mm, the script has {}",
                case.number,
                reading.travel_mm
            );
            let feel = mechanism.feel(&press);
            for circuit in &feel.circuits {
                let expected = reading.pressure_bar[&circuit.name];
                let found = circuit.pressure.nominal.get::<bar>();
                assert!(
                    (found - expected).abs() < 1e-6 * expected.max(1.0),
                    "case {}, {}: {found} bar, the script has {expected}",
                    case.number,
                    circuit.name
                );
            }
        }
    }
}

/// The least and the most air that a case's readings imply; none where there is no most.
fn bounds_ml(
    mechanisms: &BTreeMap<(String, String), Mechanism>,
    case: &Case,
) -> (f64, Option<f64>) {
    let mechanism = &mechanisms[&(case.layout.clone(), case.control.clone())];
    let air = mechanism
        .air_from_readings(&case.readings())
        .expect("the forces move every piston")
        .air;
    let ml = |volume: Volume| volume.get::<milliliter>();
    (ml(air.low), air.high.map(ml))
}

#[test]
fn the_air_lies_within_the_bounds() {
    let mechanisms = by_name();
    let (cases, is_long) = cases([66, 1_000], |case| !case.exact && !case.beyond_stop);
    let mut within = 0_u32;
    let mut widths = Vec::new();
    for case in &cases {
        let truth = case.air_ml();
        let (low, high) = bounds_ml(&mechanisms, case);
        within += u32::from(low <= truth && high.is_none_or(|high| truth <= high));
        widths.push(high.map_or(f64::INFINITY, |high| (high - low) / truth));
    }
    widths.sort_by(f64::total_cmp);
    let median = widths[widths.len() / 2];
    let open = widths.iter().filter(|width| width.is_infinite()).count();
    let count = cases.len();
    let told = format!(
        "{within} of {count} within, median width {median:.3} of the air, {open} open above"
    );
    // Bounds at 95 in 100 hold it in 950 of a thousand, give or take three times the root of 1000 x 0.95 x 0.05, 6.9:
    // fewer are too narrow, more too wide.
    let expected = if is_long { 950..=970 } else { 63..=66 };
    assert!(expected.contains(&within), "{told}");
}

#[test]
fn beyond_the_stop_at_least_so_much() {
    let mechanisms = by_name();
    let (cases, _) = cases([22, 100], |case| case.beyond_stop);
    let mut at_least = 0_u32;
    for case in &cases {
        let truth = case.air_ml();
        let (low, high) = bounds_ml(&mechanisms, case);
        at_least += u32::from(low <= truth && high.is_none_or(|high| truth <= high));
    }
    let count = cases.len();
    assert!(
        100 * at_least as usize >= 95 * count,
        "{at_least} of {count}"
    );
}
