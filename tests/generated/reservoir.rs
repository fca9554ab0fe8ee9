//! Reservoirs.

use super::layout::Holder;
use super::pipework::Pipework;

/// Reservoirs large enough for two whole strokes of everything they feed.
pub(crate) fn add(pipework: &mut Pipework<'_>) {
    let circuits = pipework.layout.known.circuits.clone();
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for circuit in 0..circuits.len() {
        if !groups.is_empty() && pipework.choices.chance(25) {
            groups[0].push(circuit);
        } else {
            groups.push(vec![circuit]);
        }
    }
    let is_one_body = pipework.choices.chance(50);
    let mut items: Vec<String> = Vec::new();
    for group in groups {
        let id = pipework.name("pot");
        let stroke_ml: f64 = group.iter().map(|n| circuits[*n].full_stroke_ml).sum();
        let max_ml = (stroke_ml * pipework.choices.between(5.0, 20.0, 15)).ceil();
        let mut text = format!("id: \"{id}\", max: \"{max_ml:.0} ml\"");
        let mut lowest_ml = max_ml / 2.0;
        match pipework.choices.below(3) {
            1 => text += &format!(", min: \"{:.1} ml\"", max_ml * 0.4),
            2 => {
                let min_ml = (max_ml * 6.0).round() / 10.0;
                text += &format!(", min: \"{min_ml:.1} ml ± 1 ml\"");
                lowest_ml = min_ml;
            }
            _ => {}
        }
        match pipework.choices.below(4) {
            1 => text += ", left_when_drawn_off: \"0 ml\"",
            2 => text += &format!(", left_when_drawn_off: \"{:.1} ml\"", max_ml * 0.1),
            _ => {}
        }
        let feeds: Vec<String> = group
            .iter()
            .map(|n| format!("\"{}\"", circuits[*n].root))
            .collect();
        if feeds.len() == 1 && pipework.choices.chance(50) {
            text += &format!(", feeds: {}", feeds[0]);
        } else {
            text += &format!(", feeds: [{}]", feeds.join(", "));
        }
        if feeds.len() == 1 && pipework.choices.chance(20) {
            text += ", hose: (bore: \"6 mm\", length: \"0.26 m ± 0.02 m\")";
        }
        let known = &mut pipework.layout.known;
        known
            .circuits_of
            .insert(id.clone(), group.iter().copied().collect());
        known.levels_ml.insert(id.clone(), [max_ml, lowest_ml]);
        known.compartments.push(id);
        items.push(format!("({text})"));
    }
    let bodies: Vec<Vec<String>> = if is_one_body {
        vec![items]
    } else {
        items.into_iter().map(|item| vec![item]).collect()
    };
    for (nth, items) in bodies.into_iter().enumerate() {
        pipework.layout.reservoirs.push(Holder {
            text: format!("id: \"reservoir {nth}\""),
            list: "compartments",
            items,
        });
    }
}
