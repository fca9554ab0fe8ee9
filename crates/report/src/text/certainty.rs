//! Whether the order is certain, in few words.

use crate::said::{Said, bare, bares, say};
use bleedwright_planner::{Certainty, OrderCertainty};

/// A sentence for the sheet; nothing where the order was given.
pub fn order_text(certainty: &OrderCertainty) -> Option<Said> {
    match &certainty.verdict {
        Certainty::Certain => Some(say!("Order certain within the tolerances.")),
        Certainty::Given => None,
        Certainty::Undecided(_) => Some(say!(
            "Whether tolerances change the order was not worked out."
        )),
        // The rest of them, and whatever else may be said one day.
        _ => Some(open_order(certainty)),
    }
}

fn open_order(certainty: &OrderCertainty) -> Said {
    let of_one_circuit = || {
        certainty
            .uncertain
            .iter()
            .find(|pair| pair.circuits.is_none())
    };
    let Some(pair) = certainty.settled_by_one().or_else(of_one_circuit) else {
        return say!("Order certain within each circuit.");
    };
    let measure = match pair.measure.as_slice() {
        [] => say!(""),
        lines => say!("; measure the length of {}", bares(lines)),
    };
    say!(
        "Order open within the tolerances: {} or {} first{}.",
        bare(&pair.first),
        bare(&pair.then),
        measure
    )
}
