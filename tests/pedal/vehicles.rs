//! The demo vehicles as the reference script reads them: every figure with its printed range.
//!
//! The file is written from the layouts, so that script and program start from the same ranges and share nothing else.

use crate::demo::{ALL, load_demo};
use crate::lines::in_lines;
use bleedwright_pedal::{
    Curve, HOSE_PRESSURES_BAR, Mechanism, PedalBrake, PedalChamber, PedalHose, Range, Zone,
    controls,
};
use bleedwright_report::json::pretty;
use serde_json::{Value, json};

const PATH: &str = "tests/reference/pedal/vehicles.json";

/// Every control of every demo vehicle.
pub(super) fn mechanisms() -> Vec<(&'static str, String, Mechanism)> {
    let mut all = Vec::new();
    for name in ALL {
        let network = &load_demo(name);
        for control in controls(network) {
            all.push((
                name,
                control.name.clone(),
                Mechanism::new(network, &control),
            ));
        }
    }
    all
}

fn range(range: &Range) -> Value {
    json!({"low": range.low, "nominal": range.nominal, "high": range.high})
}

fn optional(value: Option<&Range>) -> Value {
    value.map_or(Value::Null, range)
}

fn vehicle(layout: &str, control: &str, mechanism: &Mechanism) -> Value {
    let cylinders: Vec<Value> = mechanism
        .cylinders
        .iter()
        .map(|cylinder| {
            json!({
                "id": cylinder.name,
                "chambers": cylinder.chambers.iter().map(chamber).collect::<Vec<_>>(),
            })
        })
        .collect();
    json!({
        "layout": layout,
        "control": control,
        "ratio": range(&mechanism.ratio),
        "free_play_mm": range(&mechanism.free_play_mm),
        "flex_mm_per_n": range(&mechanism.flex_mm_per_n),
        "booster_ratio": optional(mechanism.booster_ratio.as_ref()),
        "booster_help_n": optional(mechanism.booster_help_n.as_ref()),
        "bar_share": optional(mechanism.bar_share.as_ref()),
        "polytropic_index": range(&mechanism.polytropic_index),
        "left_after_pumping": range(&mechanism.left_after_pumping),
        "bulk_modulus_bar": range(&mechanism.bulk_modulus_bar),
        "cylinders": cylinders,
    })
}

fn chamber(chamber: &PedalChamber) -> Value {
    let parts: Vec<Value> = chamber
        .zones
        .iter()
        .enumerate()
        .flat_map(|(index, zone)| {
            let brakes = zone.brakes.iter().map(move |it| brake(index, it));
            brakes.chain(zone.hoses.iter().map(move |it| hose(index, it)))
        })
        .collect();
    json!({
        "circuit": chamber.name,
        "area_mm2": range(&chamber.area_mm2),
        "stroke_mm": range(&chamber.stroke_mm),
        "cut_off_mm": range(&chamber.cut_off_mm),
        "drag_n": range(&chamber.drag_n),
        "zones": chamber.zones.iter().map(zone).collect::<Vec<_>>(),
        "parts": parts,
        "fluid_ml": chamber.zones.iter().map(|zone| zone.fluid_ml).collect::<Vec<_>>(),
        "wall_ml_per_100bar":
            chamber.zones.iter().map(|zone| zone.wall_ml_per_100_bar).collect::<Vec<_>>(),
    })
}

fn zone(zone: &Zone) -> Value {
    let valve = match &zone.curve {
        Curve::Open => Value::Null,
        Curve::Limiting { cut_in_bar } => {
            json!({"kind": "limiting", "cut_in_bar": range(cut_in_bar)})
        }
        Curve::Proportioning { cut_in_bar, ratio } => json!({
            "kind": "proportioning", "cut_in_bar": range(cut_in_bar), "ratio": range(ratio),
        }),
        Curve::Metering { hold_off_bar } => {
            json!({"kind": "metering", "hold_off_bar": range(hold_off_bar)})
        }
        Curve::Residual { holds_bar } => {
            json!({"kind": "residual", "holds_bar": range(holds_bar)})
        }
    };
    json!({"name": zone.name, "behind": zone.behind, "valve": valve})
}

fn brake(zone: usize, brake: &PedalBrake) -> Value {
    json!({
        "zone": zone,
        "name": brake.name,
        "kind": if brake.is_drum { "drum" } else { "disc" },
        "clearance_ml": range(&brake.clearance_ml),
        "touch_bar": range(&brake.touch_bar),
        "give_ml_per_100bar": range(&brake.give_ml_per_100_bar),
    })
}

fn hose(zone: usize, hose: &PedalHose) -> Value {
    let column =
        |pick: fn(&Range) -> f64| -> Vec<f64> { hose.growth_ml_per_m.iter().map(pick).collect() };
    json!({
        "zone": zone,
        "name": hose.name,
        "kind": "hose",
        "length_m": hose.length_m,
        "growth_ml_per_m": {
            "bar": HOSE_PRESSURES_BAR,
            "low": column(|range| range.low),
            "nominal": column(|range| range.nominal),
            "high": column(|range| range.high),
        },
    })
}

#[test]
fn the_reference_script_reads_the_ranges_of_the_layouts() {
    let vehicles: Vec<Value> = mechanisms()
        .iter()
        .map(|(layout, control, mechanism)| vehicle(layout, control, mechanism))
        .collect();
    let text = in_lines(&pretty(&json!({ "vehicles": vehicles })), 400);
    let path = crate::binary::root().join(PATH);
    if std::env::var_os("BLEEDWRIGHT_UPDATE").is_some_and(|value| value == "1") {
        std::fs::write(&path, &text).expect("the folder is there");
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        committed == text,
        "{PATH} is out of date; BLEEDWRIGHT_UPDATE=1 writes it anew, then regenerate the readings"
    );
}
