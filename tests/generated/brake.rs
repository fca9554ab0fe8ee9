//! Brakes of one wheel.

use super::layout::{Holder, Screw};
use super::pipework::{Pipework, Target};
use crate::generated::Choices;

/// Where the brakes of one wheel get their fluid from: by circuit.
pub(crate) type Targets = Vec<(usize, Target)>;

/// How a part of a wheel is described, whatever kind it is.
struct Site {
    wheel: Option<&'static str>,
    level: Option<&'static str>,
    position: Option<String>,
}

impl Site {
    fn fields(&self) -> String {
        let mut fields = String::new();
        if let Some(wheel) = self.wheel {
            fields += &format!(", wheel: {wheel}");
        }
        if let Some(level) = self.level {
            fields += &format!(", place: {level}");
        }
        if let Some(position) = &self.position {
            fields += &format!(", position: {position}");
        }
        fields
    }
}

/// Puts a brake on a wheel. `circuits` are those that may feed it; the first
/// one is the wheel's own.
pub(crate) fn add(
    pipework: &mut Pipework<'_>,
    wheel: &'static str,
    circuits: &[usize],
    has_positions: bool,
) -> Targets {
    let site = |level, choices: &mut Choices| Site {
        wheel: Some(wheel),
        level,
        position: has_positions.then(|| position(wheel, choices)),
    };
    let own = circuits[0];
    let site_of_one = site(None, pipework.choices);
    match pipework.choices.below(7) {
        2 if circuits.len() > 1 => separate_chambers(pipework, &site_of_one, circuits),
        3 => halves(pipework, &site_of_one, own),
        4 => {
            // Side by side: one line to each.
            let upper = site(Some("upper"), pipework.choices);
            let lower = site(Some("lower"), pipework.choices);
            let mut targets = wheel_cylinder(pipework, &upper, own, true);
            targets.extend(wheel_cylinder(pipework, &lower, own, true));
            targets
        }
        5 => {
            let levels = *pipework
                .choices
                .pick(&[["lower", "upper"], ["upper", "lower"]]);
            let near = site(Some(levels[0]), pipework.choices);
            let far = site(Some(levels[1]), pipework.choices);
            in_series(pipework, &near, &far, own)
        }
        1 | 6 => wheel_cylinder(pipework, &site_of_one, own, true),
        _ => caliper(pipework, &site_of_one, own),
    }
}

fn position(wheel: &str, choices: &mut Choices) -> String {
    let x = if wheel.starts_with("front") {
        0.0
    } else {
        -2.8
    };
    let y = match wheel {
        _ if wheel.ends_with("left") => 0.7,
        _ if wheel.ends_with("right") => -0.7,
        _ => 0.0,
    };
    let x = x + choices.between(0.0, 0.2, 4);
    if choices.chance(50) {
        format!("(x: \"{x:.2} m\", y: \"{y:.2} m\", z: \"0.35 m\")")
    } else {
        format!("(x: \"{x:.2} m\", y: \"{y:.2} m\")")
    }
}

fn pistons(choices: &mut Choices) -> String {
    let count = 1 + choices.below(2);
    let list: Vec<String> = (0..count)
        .map(|_| {
            let bore = *choices.pick(&["54 mm", "38 mm", "1 5/8 in", "34 mm ± 0.1 mm", "60 mm"]);
            let mut piston = format!("(bore: \"{bore}\"");
            if choices.chance(70) {
                let extension = choices.between(0.5, 11.0, 21);
                piston += &match choices.below(3) {
                    0 => format!(", extension: \"{extension:.1} mm\""),
                    1 => format!(", extension: \"{extension:.1} mm ± 0.4 mm\""),
                    _ => format!(", extension: \"{extension:.1} mm ± 30 %\""),
                };
            }
            if choices.chance(30) {
                piston += ", count: 2";
            }
            piston + ")"
        })
        .collect();
    format!("[{}]", list.join(", "))
}

fn dead_volume(choices: &mut Choices) -> String {
    match choices.below(4) {
        0 => String::new(),
        1 => ", dead_volume: \"2 ml\"".to_owned(),
        2 => ", dead_volume: \"0.12 in3 +- 0.04 in3\"".to_owned(),
        _ => ", dead_volume: \"3.5 ml ± 25 %\"".to_owned(),
    }
}

fn lining(choices: &mut Choices) -> String {
    match choices.below(5) {
        1 => ", lining: new".to_owned(),
        2 => ", lining: half_worn, wear_travel: \"9 mm\"".to_owned(),
        3 => ", lining: worn".to_owned(),
        _ => String::new(),
    }
}

/// A screw on a body; sometimes with tools, sometimes below the top.
fn screw(
    pipework: &mut Pipework<'_>,
    site: &Site,
    body: &str,
    chamber: Option<&str>,
    circuit: usize,
) -> String {
    let id = pipework.name("screw");
    let mut text = format!("(id: \"{id}\"");
    if let Some(chamber) = chamber {
        text += &format!(", chamber: \"{chamber}\"");
    }
    match pipework.choices.below(6) {
        1 | 2 => text += ", at_top: true",
        3 => text += ", at_top: false",
        4 => text += ", below_top: \"6 mm ± 2 mm\"",
        _ => {}
    }
    if pipework.choices.chance(40) {
        text += ", spanner: \"10 mm\", torque: \"9 N m\"";
    }
    pipework.layout.known.screws.push(Screw {
        id,
        body: body.to_owned(),
        circuit,
        wheel: site.wheel,
        level: site.level,
        stays_shut: false,
    });
    text + ")"
}

/// A second screw on the same cavity, which is said to be below the first.
fn lower_screw(pipework: &mut Pipework<'_>, site: &Site, body: &str, circuit: usize) -> String {
    let id = pipework.name("low screw");
    pipework.layout.known.screws.push(Screw {
        id: id.clone(),
        body: body.to_owned(),
        circuit,
        wheel: site.wheel,
        level: site.level,
        stays_shut: true,
    });
    format!("(id: \"{id}\", at_top: false)")
}

fn caliper(pipework: &mut Pipework<'_>, site: &Site, circuit: usize) -> Targets {
    let id = pipework.part("caliper", &[circuit]);
    let choices = &mut *pipework.choices;
    let mut text = format!(
        "id: \"{id}\", kind: caliper(pistons: {}{}{}){}",
        pistons(choices),
        dead_volume(choices),
        lining(choices),
        site.fields()
    );
    if choices.chance(15) {
        text += ", parking_brake: electric";
    }
    let mut items = vec![screw(pipework, site, &id, None, circuit)];
    // Only beside a screw that is said to be the top one.
    if items[0].contains("at_top: true") && pipework.choices.chance(15) {
        items.push(lower_screw(pipework, site, &id, circuit));
    }
    pipework.hold(text, items);
    vec![(circuit, Target::plain(&id))]
}

fn wheel_cylinder(
    pipework: &mut Pipework<'_>,
    site: &Site,
    circuit: usize,
    has_screw: bool,
) -> Targets {
    let id = pipework.part("cylinder at the wheel", &[circuit]);
    let choices = &mut *pipework.choices;
    let bore = *choices.pick(&["22.2 mm", "19.05 mm", "7/8 in", "25.4 mm ± 0.05 mm"]);
    let mut kind = format!("bore: \"{bore}\"");
    if choices.chance(30) {
        kind += ", pistons: 1";
    }
    if choices.chance(60) {
        let extension = choices.between(0.5, 6.0, 11);
        kind += &format!(", extension: \"{extension:.1} mm ± 10 %\"");
    }
    kind += &dead_volume(choices);
    kind += &lining(choices);
    let text = format!(
        "id: \"{id}\", kind: wheel_cylinder({kind}){}",
        site.fields()
    );
    let items = if has_screw {
        vec![screw(pipework, site, &id, None, circuit)]
    } else {
        Vec::new()
    };
    pipework.hold(text, items);
    vec![(circuit, Target::plain(&id))]
}

/// The hose ends at the first cylinder, a bridge pipe leads on to the other.
fn in_series(pipework: &mut Pipework<'_>, near: &Site, far: &Site, circuit: usize) -> Targets {
    let has_near_screw = pipework.choices.chance(60);
    let first = wheel_cylinder(pipework, near, circuit, has_near_screw);
    let second = wheel_cylinder(pipework, far, circuit, true);
    let (from, to) = (first[0].1.clone(), &second[0].1);
    pipework.line(circuit, &from, to);
    first
}

/// A fixed caliper in two halves, joined by a drilling.
fn halves(pipework: &mut Pipework<'_>, site: &Site, circuit: usize) -> Targets {
    let id = pipework.part("caliper in halves", &[circuit]);
    let names = ["inner", "outer"];
    let choices = &mut *pipework.choices;
    let chambers: Vec<String> = names
        .iter()
        .map(|name| {
            let (pistons, dead) = (pistons(choices), dead_volume(choices));
            format!("(id: \"{name}\", pistons: {pistons}{dead})")
        })
        .collect();
    let first = *choices.pick(&["", "inner", "outer"]);
    let mut kind = format!("chambers: [{}], crossover: \"0.5 ml\"", chambers.join(", "));
    let bodies = names.map(|name| format!("{id}.{name}"));
    if !first.is_empty() {
        kind += &format!(", bleed_first: \"{first}\"");
        let mut pair = bodies.clone();
        if first == "outer" {
            pair.reverse();
        }
        pipework.layout.known.declared.push(pair);
    }
    pipework.layout.known.joints.push(bodies.clone());
    let text = format!("id: \"{id}\", kind: caliper({kind}){}", site.fields());
    let items = bodies
        .iter()
        .zip(names)
        .map(|(body, name)| screw(pipework, site, body, Some(name), circuit))
        .collect();
    pipework.hold(text, items);
    let is_bare = pipework.choices.chance(50);
    let end = if is_bare { &id } else { &bodies[0] };
    vec![(
        circuit,
        Target {
            end: end.clone(),
            body: bodies[0].clone(),
        },
    )]
}

/// Two chambers that never meet, each on a circuit of its own.
fn separate_chambers(pipework: &mut Pipework<'_>, site: &Site, circuits: &[usize]) -> Targets {
    let id = pipework.part("caliper on two circuits", &circuits[..2]);
    let names = ["upper pair", "lower pair"];
    let choices = &mut *pipework.choices;
    let chambers: Vec<String> = names
        .iter()
        .map(|name| {
            let (pistons, dead) = (pistons(choices), dead_volume(choices));
            format!("(id: \"{name}\", pistons: {pistons}{dead})")
        })
        .collect();
    let text = format!(
        "id: \"{id}\", kind: caliper(mounting: fixed, chambers: [{}]{}){}",
        chambers.join(", "),
        lining(choices),
        site.fields()
    );
    let bodies = names.map(|name| format!("{id}.{name}"));
    let items = (0..2)
        .map(|nth| {
            screw(
                pipework,
                site,
                &bodies[nth],
                Some(names[nth]),
                circuits[nth],
            )
        })
        .collect();
    pipework.hold(text, items);
    (0..2)
        .map(|nth| (circuits[nth], Target::plain(&bodies[nth])))
        .collect()
}

/// A clutch slave on its own circuit.
pub(crate) fn clutch(pipework: &mut Pipework<'_>, circuit: usize) -> Target {
    let id = pipework.part("clutch slave", &[circuit]);
    let site = Site {
        wheel: None,
        level: None,
        position: None,
    };
    let choices = &mut *pipework.choices;
    let text = format!(
        "id: \"{id}\", kind: clutch_slave(pistons: {}{})",
        pistons(choices),
        dead_volume(choices)
    );
    let items = vec![screw(pipework, &site, &id, None, circuit)];
    pipework.hold(text, items);
    Target::plain(&id)
}

/// A screw on something that belongs to no wheel.
pub(crate) fn screw_on_the_way(
    pipework: &mut Pipework<'_>,
    body: &str,
    chamber: Option<&str>,
    circuit: usize,
) -> String {
    let site = Site {
        wheel: None,
        level: None,
        position: None,
    };
    screw(pipework, &site, body, chamber, circuit)
}

/// Turns a list of screws into an item of a list of parts or cylinders.
pub(crate) fn holder(text: String, items: Vec<String>) -> Holder {
    Holder {
        text,
        list: "screws",
        items,
    }
}
