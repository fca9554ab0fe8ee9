//! Whether the order is certain, in few words.

use bleedwright_planner::{Certainty, OrderCertainty};

/// A sentence for the sheet; nothing where the order was given.
pub fn order_text(certainty: &OrderCertainty) -> Option<String> {
    match &certainty.verdict {
        Certainty::Certain => Some("Order certain within the tolerances.".to_owned()),
        Certainty::Given => None,
        Certainty::Undecided(_) => {
            Some("Whether tolerances change the order was not worked out.".to_owned())
        }
        // The rest of them, and whatever else may be said one day.
        _ => Some(open_order(certainty)),
    }
}

fn open_order(certainty: &OrderCertainty) -> String {
    let of_one_circuit = || {
        certainty
            .uncertain
            .iter()
            .find(|pair| pair.circuits.is_none())
    };
    let Some(pair) = certainty.settled_by_one().or_else(of_one_circuit) else {
        return "Order certain within each circuit.".to_owned();
    };
    let measure = match pair.measure.as_slice() {
        [] => String::new(),
        lines => format!("; measure the length of {}", lines.join(", ")),
    };
    format!(
        "Order open within the tolerances: {} or {} first{measure}.",
        pair.first, pair.then
    )
}
