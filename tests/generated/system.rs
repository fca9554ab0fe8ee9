//! A whole vehicle: its cylinders and what hangs on them.

use super::brake;
use super::layout::{Circuit, Layout};
use super::pipework::{Pipework, Target};
use super::reservoir;
use super::unit::Units;
use crate::generated::Choices;
use std::f64::consts::FRAC_PI_4;

/// Screws on wheels beyond which no more wheels are added.
const ENOUGH_SCREWS: usize = 18;

const WHEELS: [&str; 8] = [
    "front_left",
    "rear_right",
    "front_right",
    "rear_left",
    "middle_left",
    "middle_right",
    "trailer_left",
    "trailer_right",
];

/// A chamber of a cylinder, ready to be written.
struct Chamber {
    text: String,
    full_stroke_ml: f64,
}

pub(crate) fn draw(choices: &mut Choices) -> Layout {
    let mut pipework = Pipework::new(choices);
    let has_positions = pipework.choices.chance(25);
    let system = pipework.choices.below(5);
    match system {
        0 => {
            let name = "single cylinder".to_owned();
            add_single(&mut pipework, name, has_positions, true);
        }
        3 => add_singles(&mut pipework, has_positions, true),
        4 if pipework.choices.chance(30) => add_singles(&mut pipework, has_positions, false),
        _ => add_tandem(&mut pipework, has_positions),
    }
    let brakes: Vec<usize> = (0..pipework.layout.known.circuits.len()).collect();
    let is_motorcycle = brakes.len() == 2 && system == 4 && !has_tandem(&pipework);
    let mut targets = add_wheels(&mut pipework, &brakes, is_motorcycle, has_positions);
    if pipework.choices.chance(15) {
        let clutch = "clutch cylinder".to_owned();
        add_single(&mut pipework, clutch, has_positions, false);
        let circuit = pipework.layout.known.circuits.len() - 1;
        let slave = brake::clutch(&mut pipework, circuit);
        targets.push(vec![slave]);
    }
    let units = Units::add(&mut pipework, &brakes);
    for (circuit, targets) in targets.into_iter().enumerate() {
        units.lead(&mut pipework, circuit, targets);
    }
    reservoir::add(&mut pipework);
    add_head(&mut pipework);
    pipework.layout
}

fn has_tandem(pipework: &Pipework<'_>) -> bool {
    let circuits = &pipework.layout.known.circuits;
    circuits.iter().any(|circuit| circuit.tandem.is_some())
}

fn chamber(choices: &mut Choices, common_bore_mm: Option<f64>) -> Chamber {
    let own_bore_mm = *choices.pick(&[23.8, 19.05, 15.9, 27.0]);
    let bore_mm = common_bore_mm.unwrap_or(own_bore_mm);
    let (stroke_mm, tolerance_mm) = (
        choices.between(12.0, 32.0, 20),
        choices.between(0.0, 1.0, 4),
    );
    let mut text = String::new();
    if common_bore_mm.is_none() {
        text += &format!("bore: \"{bore_mm} mm\", ");
    }
    text += &format!("stroke: \"{stroke_mm:.1} mm ± {tolerance_mm:.2} mm\"");
    match choices.below(3) {
        1 => text += ", cut_off: \"1.2 mm ± 0.3 mm\"",
        2 => text += ", cut_off: \"0.8 mm\"",
        _ => {}
    }
    let full_mm3 = FRAC_PI_4 * bore_mm * bore_mm * (stroke_mm + tolerance_mm);
    Chamber {
        text,
        full_stroke_ml: full_mm3 / 1000.0,
    }
}

/// What a cylinder has beside its chambers.
fn cylinder_fields(pipework: &mut Pipework<'_>, has_positions: bool) -> String {
    let choices = &mut *pipework.choices;
    let mut text = String::new();
    match choices.below(6) {
        1 => text += ", booster: (kind: vacuum, ratio: 4.5)",
        2 => text += ", booster: (kind: electric)",
        3 if choices.chance(40) => {
            text += ", booster: (kind: hydraulic, accumulator: (pressure: \"180 bar\"))";
            pipework.layout.known.has_accumulator = true;
        }
        _ => {}
    }
    let choices = &mut *pipework.choices;
    if choices.chance(70) {
        text += ", pedal_ratio: 4.2, free_play: \"5 mm ± 2 mm\"";
    }
    if has_positions {
        text += ", position: (x: \"0.9 m\", y: \"-0.4 m\", z: \"0.9 m\")";
    }
    text
}

fn add_cylinder(
    pipework: &mut Pipework<'_>,
    text: String,
    chambers: &[(String, &'static str, usize)],
) {
    let mut screws = Vec::new();
    for (body, port, circuit) in chambers {
        if pipework.choices.chance(8) {
            let chamber = (!port.is_empty()).then_some(*port);
            screws.push(brake::screw_on_the_way(pipework, body, chamber, *circuit));
        }
    }
    pipework.layout.cylinders.push(brake::holder(text, screws));
}

fn add_single(pipework: &mut Pipework<'_>, id: String, has_positions: bool, is_brake: bool) {
    let chamber = chamber(pipework.choices, None);
    let mut text = format!("id: \"{id}\", kind: single({})", chamber.text);
    text += &cylinder_fields(pipework, has_positions);
    if !is_brake {
        text += ", purpose: clutch";
    }
    let circuit = pipework.layout.known.circuits.len();
    pipework.layout.known.circuits.push(Circuit {
        name: id.clone(),
        root: id.clone(),
        tandem: None,
        full_stroke_ml: chamber.full_stroke_ml,
    });
    pipework.layout.known.parts.push(id.clone());
    let circuits_of = &mut pipework.layout.known.circuits_of;
    circuits_of.insert(id.clone(), [circuit].into());
    add_cylinder(pipework, text, &[(id, "", circuit)]);
}

fn add_singles(pipework: &mut Pipework<'_>, has_positions: bool, has_bar: bool) {
    let names = ["front cylinder", "rear cylinder"];
    for name in names {
        add_single(pipework, name.to_owned(), has_positions, true);
    }
    if has_bar {
        let [a, b] = names;
        pipework
            .layout
            .bars
            .push(format!("(cylinders: [\"{a}\", \"{b}\"])"));
        pipework.layout.known.has_bar = true;
    }
}

fn add_tandem(pipework: &mut Pipework<'_>, has_positions: bool) {
    let id = "master";
    let is_stepped = pipework.choices.chance(25);
    let common = (!is_stepped).then_some(22.2);
    let ports = ["primary", "secondary"];
    let mut chambers = Vec::new();
    let mut bodies = Vec::new();
    for (nth, port) in ports.into_iter().enumerate() {
        let mut chamber = chamber(pipework.choices, common);
        let mut name = port.to_owned();
        if pipework.choices.chance(30) {
            name = format!("{port} label");
            chamber.text += &format!(", circuit: \"{name}\"");
        }
        let body = format!("{id}.{port}");
        pipework.layout.known.circuits.push(Circuit {
            name,
            root: body.clone(),
            tandem: Some(nth == 1),
            full_stroke_ml: chamber.full_stroke_ml,
        });
        chambers.push(format!("{port}: ({})", chamber.text));
        bodies.push((body, port, nth));
    }
    let bore = common.map_or(String::new(), |bore| format!("bore: \"{bore} mm\", "));
    let mut text = format!("id: \"{id}\", kind: tandem({bore}{})", chambers.join(", "));
    text += &cylinder_fields(pipework, has_positions);
    pipework.layout.known.parts.push(id.to_owned());
    let circuits_of = &mut pipework.layout.known.circuits_of;
    circuits_of.insert(id.to_owned(), [0, 1].into());
    add_cylinder(pipework, text, &bodies);
}

/// Brakes on the wheels: for each circuit what it must feed.
fn add_wheels(
    pipework: &mut Pipework<'_>,
    brakes: &[usize],
    is_motorcycle: bool,
    has_positions: bool,
) -> Vec<Vec<Target>> {
    let mut targets: Vec<Vec<Target>> = vec![Vec::new(); brakes.len()];
    // A motorcycle has one brake on each wheel here.
    let most = if is_motorcycle { 1 } else { 7 };
    let count = 2 + pipework.choices.below(most);
    let wheels: &[&'static str] = if is_motorcycle {
        &["front", "rear"]
    } else {
        &WHEELS
    };
    for (nth, wheel) in wheels.iter().copied().enumerate().take(count) {
        // The first wheels make sure that every circuit has a brake.
        let own = if nth < brakes.len() {
            nth
        } else {
            pipework.choices.below(brakes.len())
        };
        let mut circuits = vec![own];
        if !is_motorcycle {
            circuits.extend(brakes.iter().copied().filter(|other| *other != own));
        }
        for (circuit, target) in brake::add(pipework, wheel, &circuits, has_positions) {
            targets[circuit].push(target);
        }
        if pipework.layout.known.screws.len() >= ENOUGH_SCREWS && nth + 1 >= brakes.len() {
            break;
        }
    }
    targets
}

fn add_head(pipework: &mut Pipework<'_>) {
    let steering = *pipework.choices.pick(&["", "left", "right", "centre"]);
    let fluid = *pipework.choices.pick(&["dot4", "", "dot5_1", "dot3"]);
    let mut head = String::new();
    if !steering.is_empty() {
        head += &format!("    steering: {steering},\n");
    }
    if !fluid.is_empty() {
        head += &format!("    fluid: {fluid},\n");
        pipework.layout.known.fluid = Some(fluid);
    }
    pipework.layout.head = head;
}
