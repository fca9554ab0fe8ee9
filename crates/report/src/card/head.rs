//! The head of a sheet: what vehicle, what job, which circuits.

use crate::words::listed;
use bleedwright_network::Purpose as Works;
use bleedwright_planner::{Begin, CircuitScope, Head, Method, Plan, Purpose, WhyBled};
use uom::si::f64::Ratio;
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Split, fluid, job and circuits in one paragraph.
pub(super) fn facts(plan: &Plan) -> String {
    let head = &plan.head;
    // A clutch has no split.
    let has_brakes = (plan.scope.iter()).any(|circuit| circuit.works == Works::Brake);
    let mut facts = vec![if has_brakes {
        format!("Split {}", head.split.text())
    } else {
        "Clutch alone".to_owned()
    }];
    facts.extend(head.steering.map(|steering| steering.text().to_owned()));
    facts.push(match (head.fluid, head.new_fluid) {
        (Some(own), Some(new)) if own != new => {
            format!("{}, filled with {}", own.text(), new.text())
        }
        (Some(own), _) => own.text().to_owned(),
        (None, Some(new)) => format!("fluid not stated, filled with {}", new.text()),
        (None, None) => "fluid not stated".to_owned(),
    });
    format!(
        "{}. {} {}",
        facts.join(", "),
        job(head),
        circuits(&plan.scope)
    )
}

/// A part that was opened or exchanged; how a new unit came stands in brackets.
fn with_state(name: &str) -> String {
    name.rsplit_once('=').map_or_else(
        || name.to_owned(),
        |(part, state)| format!("{part} ({state})"),
    )
}

/// What is done, and with which options.
fn job(head: &Head) -> String {
    let what = match head.purpose {
        Purpose::Renew => format!(
            "Renew the fluid until {} % of what leaves is old",
            share(head.residual)
        ),
        Purpose::Air => {
            let work = [("opening", &head.opened), ("replacing", &head.replaced)];
            let work: Vec<String> = (work.into_iter())
                .filter(|(_, names)| !names.is_empty())
                .map(|(what, names)| {
                    let names = listed(names, ", ", |name| with_state(name));
                    format!("{what} {names}")
                })
                .collect();
            if work.is_empty() {
                "Remove air".to_owned()
            } else {
                format!("Remove air after {}", work.join(" and "))
            }
        }
        Purpose::Fill => "Fill the empty system".to_owned(),
    };
    let begin = match head.begin {
        Begin::Farthest => "longest run first",
        Begin::Nearest => "shortest run first",
    };
    let stroke = match head.method {
        Method::Pedal => format!(", {:.0} % of the stroke", head.stroke.get::<percent>()),
        _ => String::new(),
    };
    let mut text = format!(
        "{what}; {} method, {begin}{stroke}, {:.0} °C.",
        head.method.word(),
        head.temperature.get::<degree_celsius>()
    );
    if head.is_laid_up {
        text.push_str(" Laid up for long.");
    }
    if !head.done.is_empty() {
        text.push_str(&format!(" Done before: {}.", head.done.join(", ")));
    }
    text
}

/// A share in percent, without decimals that say nothing.
fn share(share: Ratio) -> String {
    let text = format!("{:.1}", share.get::<percent>());
    text.strip_suffix(".0").unwrap_or(&text).to_owned()
}

/// Why a circuit is bled, or is not.
pub(crate) fn bled_text(why: WhyBled) -> &'static str {
    match why {
        WhyBled::Filled => "filled from empty",
        WhyBled::Opened => "opened",
        WhyBled::RanDry => "reservoir ran dry",
        WhyBled::Renewed => "fluid renewed",
        WhyBled::AirUnknown => "place of the air unknown",
        WhyBled::InOrder => "named in the order given",
        WhyBled::NoScrew => "it has no bleed screw",
        WhyBled::Separate => {
            "hydraulically separate, was not opened and did not run dry: its screws stay shut"
        }
    }
}

fn circuits(scope: &[CircuitScope]) -> String {
    let list = |is_bled: bool| -> Vec<&CircuitScope> {
        scope
            .iter()
            .filter(|circuit| circuit.is_bled == is_bled)
            .collect()
    };
    let describe = |circuits: &[&CircuitScope]| {
        // One reason for several circuits is said once.
        let mut parts: Vec<String> = Vec::new();
        let mut rest = circuits.to_vec();
        while let Some(first) = rest.first().copied() {
            let (same, other): (Vec<_>, Vec<_>) = rest
                .into_iter()
                .partition(|circuit| circuit.why == first.why);
            let names = listed(&same, ", ", |circuit| circuit.circuit.as_str());
            parts.push(format!("{names} ({})", bled_text(first.why)));
            rest = other;
        }
        parts.join("; ")
    };
    let (bled, shut) = (list(true), list(false));
    let mut text = format!("Bled: {}.", describe(&bled));
    if !shut.is_empty() {
        text.push_str(&format!(" Not bled: {}.", describe(&shut)));
    }
    text
}
