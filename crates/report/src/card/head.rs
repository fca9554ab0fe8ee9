//! The head of a sheet: what vehicle, what job, which circuits.

use crate::number::{at_most, spelt};
use crate::said::{Said, bare, bares, figure, say};
use bleedwright_network::Works;
use bleedwright_planner::{Begin, CircuitScope, Head, Method, Plan, Purpose, WhyBled};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Split, fluid, job and circuits in one paragraph.
pub(super) fn facts(plan: &Plan) -> Said {
    let head = &plan.head;
    // A clutch has no split.
    let has_brakes = (plan.scope.iter()).any(|circuit| circuit.works == Works::Brake);
    let mut facts = vec![if has_brakes {
        say!("Split {}", head.split.text())
    } else {
        say!("Clutch alone")
    }];
    facts.extend(head.steering.map(|steering| steering.text().into()));
    facts.push(match (head.fluid, head.new_fluid) {
        (Some(own), Some(new)) if own != new => {
            say!("{}, filled with {}", own.text(), new.text())
        }
        (Some(own), _) => own.text().into(),
        (None, Some(new)) => say!("fluid not stated, filled with {}", new.text()),
        (None, None) => say!("fluid not stated"),
    });
    say!(
        "{}. {} {}",
        Said::joined(facts, ", "),
        job(head),
        circuits(&plan.scope)
    )
}

/// What is done, with what fluid, how, and by how many; which circuits stay shut.
pub(super) fn job_line(plan: &Plan) -> Said {
    let head = &plan.head;
    let what = match head.purpose {
        Purpose::Renew => say!("Renew the fluid"),
        Purpose::Air => air_work(head),
        Purpose::Fill => say!("Fill the empty system"),
    };
    let fluid = head.new_fluid.or(head.fluid);
    let fluid = fluid.map_or("fluid as on the reservoir cap".into(), |fluid| {
        say!("{} (as on the reservoir cap?)", fluid.text())
    });
    let people = match plan.hands {
        1 => say!("one person"),
        hands => say!("{} people", figure(spelt(f64::from(hands)))),
    };
    let mut text = say!(
        "{}: {}. By {}, {}.",
        what,
        fluid,
        head.method.word(),
        people
    );
    let shut: Vec<&CircuitScope> = plan
        .scope
        .iter()
        .filter(|circuit| !circuit.is_bled)
        .collect();
    if !shut.is_empty() {
        let shut = shut.iter().map(|circuit| bare(&circuit.circuit));
        text.extend(say!(" Stays SHUT: {}.", Said::joined(shut, ", ")));
    }
    if head.is_laid_up {
        text.extend(say!(" Laid up for long."));
    }
    if !head.done.is_empty() {
        text.extend(say!(" Done before: {}.", bares(&head.done)));
    }
    text
}

/// A part that was opened or exchanged; how a new unit came stands in brackets.
fn with_state(name: &str) -> Said {
    name.rsplit_once('=').map_or_else(
        || bare(name),
        |(part, state)| say!("{} ({})", bare(part), bare(state)),
    )
}

/// Where the air came in.
fn air_work(head: &Head) -> Said {
    let work = [("opening", &head.opened), ("replacing", &head.replaced)];
    let work: Vec<Said> = (work.into_iter())
        .filter(|(_, names)| !names.is_empty())
        .map(|(what, names)| {
            let names = names.iter().map(|name| with_state(name));
            say!("{} {}", what, Said::joined(names, ", "))
        })
        .collect();
    if work.is_empty() {
        say!("Remove air")
    } else {
        say!("Remove air after {}", Said::joined(work, " and "))
    }
}

/// What is done, and with which options.
fn job(head: &Head) -> Said {
    let what = match head.purpose {
        Purpose::Renew => say!(
            "Renew the fluid until {} % of what leaves is old",
            figure(at_most(head.residual.get::<percent>(), 1))
        ),
        Purpose::Air => air_work(head),
        Purpose::Fill => say!("Fill the empty system"),
    };
    let begin = match head.begin {
        Begin::Farthest => "longest run first",
        Begin::Nearest => "shortest run first",
    };
    let stroke = match head.method {
        Method::Pedal => {
            let share = head.stroke.get::<percent>();
            say!(", {} % of the stroke", figure(format_args!("{share:.0}")))
        }
        _ => Said::default(),
    };
    let degrees = head.temperature.get::<degree_celsius>();
    let mut text = say!(
        "{}; {} method, {}{}, {} °C.",
        what,
        head.method.word(),
        begin,
        stroke,
        figure(format_args!("{degrees:.0}"))
    );
    if head.is_laid_up {
        text.extend(say!(" Laid up for long."));
    }
    if !head.done.is_empty() {
        text.extend(say!(" Done before: {}.", bares(&head.done)));
    }
    text
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

fn circuits(scope: &[CircuitScope]) -> Said {
    let list = |is_bled: bool| -> Vec<&CircuitScope> {
        scope
            .iter()
            .filter(|circuit| circuit.is_bled == is_bled)
            .collect()
    };
    let describe = |circuits: &[&CircuitScope]| {
        // One reason for several circuits is said once.
        let mut parts: Vec<Said> = Vec::new();
        let mut rest = circuits.to_vec();
        while let Some(first) = rest.first().copied() {
            let (same, other): (Vec<_>, Vec<_>) = rest
                .into_iter()
                .partition(|circuit| circuit.why == first.why);
            let names = same.iter().map(|circuit| bare(&circuit.circuit));
            let names = Said::joined(names, ", ");
            parts.push(say!("{} ({})", names, bled_text(first.why)));
            rest = other;
        }
        Said::joined(parts, "; ")
    };
    let (bled, shut) = (list(true), list(false));
    let mut text = say!("Bled: {}.", describe(&bled));
    if !shut.is_empty() {
        text.extend(say!(" Not bled: {}.", describe(&shut)));
    }
    text
}
