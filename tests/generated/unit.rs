//! Bodies that serve several circuits: valves with sections, anti-lock units.

use super::brake;
use super::pipework::{Pipework, Target};

/// A valve body and an anti-lock unit that serve all brake circuits.
pub(crate) struct Units {
    valve: Option<String>,
    unit: Option<String>,
    brakes: usize,
}

impl Units {
    pub(crate) fn add(pipework: &mut Pipework<'_>, brakes: &[usize]) -> Self {
        let valve = (brakes.len() > 1 && pipework.choices.chance(25)).then(|| {
            let id = pipework.part("valve body", brakes);
            let sections: Vec<String> = brakes.iter().map(|n| format!("\"section {n}\"")).collect();
            let kind = *pipework.choices.pick(&[
                "differential_switch",
                "pressure_limiting(cut_in: \"55 bar\")",
            ]);
            pipework.hold(
                format!(
                    "id: \"{id}\", kind: {kind}, sections: [{}], contents: \"0.5 ml\"",
                    sections.join(", ")
                ),
                Vec::new(),
            );
            id
        });
        let unit = pipework
            .choices
            .chance(30)
            .then(|| pipework.part("anti-lock unit", brakes));
        Self {
            valve,
            unit,
            brakes: brakes.len(),
        }
    }

    /// Leads a circuit through the units it has to its brakes. The unit itself
    /// is written with its last circuit, when all its outlets are known.
    pub(crate) fn lead(&self, pipework: &mut Pipework<'_>, circuit: usize, targets: Vec<Target>) {
        let root = pipework.layout.known.circuits[circuit].root.clone();
        let mut from = Target::plain(&root);
        if circuit >= self.brakes {
            pipework.lead(circuit, from, targets);
            return;
        }
        if let Some(valve) = &self.valve {
            let section = Target::plain(&format!("{valve}.section {circuit}"));
            pipework.line(circuit, &from, &section);
            from = section;
        }
        let Some(unit) = &self.unit else {
            pipework.lead(circuit, from, targets);
            return;
        };
        let body = format!("{unit} passage {circuit}");
        let inlet = Target {
            end: format!("{unit}.in {circuit}"),
            body: body.clone(),
        };
        pipework.line(circuit, &from, &inlet);
        let groups = pipework.groups(targets);
        let outlets: Vec<String> = (0..groups.len())
            .map(|nth| format!("out {circuit} {nth}"))
            .collect();
        let quoted: Vec<String> = outlets.iter().map(|name| format!("\"{name}\"")).collect();
        let (through, trapped) = (
            *pipework.choices.pick(&["4 ml ± 0.5 ml", "0", "2.5 ml"]),
            *pipework.choices.pick(&["2.5 ml ± 0.5 ml", "0"]),
        );
        let unit_of = |text: &str| {
            if text == "0" {
                "0 ml".to_owned()
            } else {
                text.to_owned()
            }
        };
        let passage = format!(
            "(inlet: \"in {circuit}\", outlets: [{}], through: \"{}\", trapped: \"{}\")",
            quoted.join(", "),
            unit_of(through),
            unit_of(trapped)
        );
        let mut screws = Vec::new();
        if pipework.choices.chance(40) {
            let port = format!("in {circuit}");
            screws.push(brake::screw_on_the_way(
                pipework,
                &body,
                Some(&port),
                circuit,
            ));
        }
        write_passage(pipework, unit, &passage, screws);
        for (group, outlet) in groups.into_iter().zip(outlets) {
            let from = Target {
                end: format!("{unit}.{outlet}"),
                body: body.clone(),
            };
            pipework.lead(circuit, from, group);
        }
    }
}

/// Adds a passage to the unit, which is begun with its first one.
fn write_passage(pipework: &mut Pipework<'_>, unit: &str, passage: &str, screws: Vec<String>) {
    let start = format!("id: \"{unit}\", kind: anti_lock(circuits: [");
    let parts = &mut pipework.layout.parts;
    if let Some(part) = parts.iter_mut().find(|part| part.text.starts_with(&start)) {
        // Inside a passage no square bracket is followed by a round one.
        part.text = part.text.replacen("])", &format!(", {passage}])"), 1);
        part.items.extend(screws);
        return;
    }
    let accumulator = if pipework.choices.chance(10) {
        pipework.layout.known.has_accumulator = true;
        ", accumulator: ()"
    } else {
        ""
    };
    pipework.hold(format!("{start}{passage}]){accumulator}"), screws);
}
