//! A pedal on paper.

mod air;
mod next;

use super::paper::Paper;
use crate::number::{ml, ml_within, two_figures};
use crate::pedal::{cause_and_check, caution_text, premise_texts, taker_text, usual_texts};
use crate::words::listed;
use air::{write_estimate, write_trials};
use bleedwright_network::{Bounds, Control};
use bleedwright_pedal::{Assessment, Capacity, CapacityVerdict, Feel, OnStop, Sized};
pub(crate) use next::next_text;
use uom::si::f64::{Force, Length, Pressure, Ratio};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::{percent, ratio};

/// The share of its whole travel that a pedal may use, in percent; 49 CFR 570.55(c).
const RESERVE_LIMIT_PERCENT: f64 = 80.0;

/// Writes what is known of a pedal for a sheet of `paper`'s width.
pub fn pedal_text(pedal: &Assessment, mut paper: Paper) -> String {
    let what = match pedal.worked_by {
        Control::Pedal | Control::HandLever => "PEDAL",
        Control::Coupler => "COUPLER",
    };
    paper.heading(&format!("{what}: {}", pedal.vehicle));
    let help = help_words(pedal);
    let air = pedal
        .air
        .as_ref()
        .map_or(String::new(), |(volume, circuit)| {
            format!("; {} ml of air taken to be in {circuit}", ml(*volume))
        });
    let has_figures =
        pedal.causes.is_empty() || pedal.estimate.is_some() || !pedal.sized.is_empty();
    let key = if has_figures {
        match pedal.worked_by {
            Control::HandLever => {
                " Travel at the lever's end from rest; nominal, then low-high by tolerances and assumptions."
            }
            Control::Pedal => {
                " Travel at the pedal from rest; nominal, then low-high by tolerances and assumptions."
            }
            Control::Coupler => {
                " Travel of the shaft from rest; nominal, then low-high by tolerances and assumptions."
            }
        }
    } else {
        ""
    };
    paper.paragraph(&format!("{}, {help}{air}.{key}", pedal.control));
    if let Some(estimate) = &pedal.estimate {
        write_estimate(pedal, estimate, &mut paper);
        write_trials(pedal, &mut paper);
    }
    if !pedal.causes.is_empty() {
        write_causes(pedal, &mut paper);
    }
    if pedal.sized.is_empty() {
        if pedal.estimate.is_none() && pedal.causes.is_empty() {
            write_feel(pedal, &mut paper);
            write_capacities(&pedal.capacities, &mut paper);
        }
    } else {
        write_sizes(pedal, &mut paper);
        write_capacities(&pedal.capacities, &mut paper);
    }
    if let Some(next) = pedal.next {
        paper.strong_start("NEXT: ", next_text(next));
    }
    if has_figures {
        paper.heading("ASSUMED");
        for assumption in premise_texts(&pedal.assumptions) {
            paper.item("- ", &assumption);
        }
    }
    paper.heading("CAUTIONS");
    for caution in &pedal.cautions {
        paper.item("! ", caution_text(*caution));
    }
    paper.into_text()
}

fn write_feel(pedal: &Assessment, paper: &mut Paper) {
    paper.heading(match pedal.worked_by {
        Control::HandLever => "UNDER THE HAND",
        Control::Pedal => "UNDER THE FOOT",
        Control::Coupler => "PUSHED IN",
    });
    for (force, feel) in &pedal.forces {
        paper.item(&format!("{:>6}  ", newtons(*force)), &feel_words(feel));
    }
    reserve(pedal, paper);
    paper.heading(&format!("AT {}: AT THE BRAKES", newtons(pedal.force)));
    for circuit in &pedal.feel.circuits {
        for brake in &circuit.brakes {
            paper.item(
                "  ",
                &format!(
                    "{} ({}): {}",
                    brake.name,
                    circuit.name,
                    bars(brake.pressure)
                ),
            );
        }
    }
    paper.heading(&format!(
        "AT {}: WHAT TAKES UP THE FLUID",
        newtons(pedal.force)
    ));
    for contribution in &pedal.feel.contributions {
        paper.item(
            "  ",
            &format!(
                "{}, {}: {}",
                taker_text(contribution.what),
                contribution.circuit,
                ml_within(contribution.volume)
            ),
        );
    }
    paper.heading(&format!("AT {}: ONE CIRCUIT LOST", newtons(pedal.force)));
    write_lost("  ", &pedal.lost, paper);
}

/// Whether a booster helps.
pub(crate) fn help_words(pedal: &Assessment) -> &'static str {
    match (pedal.has_booster, pedal.is_boosted) {
        (false, _) => "no booster",
        (true, true) => "booster running",
        (true, false) => "booster exhausted",
    }
}

/// How the pedal stands with a circuit lost.
pub(crate) fn lost_words(feel: &Feel) -> String {
    let left: Vec<String> = feel
        .circuits
        .iter()
        .filter(|circuit| !circuit.is_lost)
        .map(|circuit| format!("{} {}", circuit.name, bars(circuit.pressure)))
        .collect();
    if left.is_empty() {
        return "it brakes nothing any more; only what hangs on another pedal, lever or cable is left".to_owned();
    }
    let warning = match feel.survivors_on_stop() {
        OnStop::Never => "",
        OnStop::Perhaps => "; in the worst case its piston is at the end of its stroke",
        OnStop::Yes => "; NO TRAVEL LEFT: its piston is at the end of its stroke",
    };
    format!(
        "{}, {} of the stroke; {}{warning}",
        travel(feel.travel),
        share(feel.stroke_share),
        left.join(", ")
    )
}

fn write_causes(pedal: &Assessment, paper: &mut Paper) {
    paper.heading("CAUSES, most likely first");
    for (index, cause) in pedal.causes.iter().enumerate() {
        let [cause, check] = cause_and_check(*cause);
        paper.item(&format!("{:>2}  ", index + 1), &cause.to_string());
        paper.item("    ", &format!("to tell: {check}"));
    }
    paper.paragraph("The order is common practice, no source.");
}

fn write_sizes(pedal: &Assessment, paper: &mut Paper) {
    paper.heading(&format!(
        "SIZES SIDE BY SIDE, {} on the pedal",
        newtons(pedal.force)
    ));
    paper.item(
        " -  ",
        &format!("as in the layout: {}", feel_words(&pedal.feel)),
    );
    write_lost("      ", &pedal.lost, paper);
    for (index, sized) in pedal.sized.iter().enumerate() {
        paper.item(
            &format!("{:>2}  ", index + 1),
            &format!("{}: {}", candidate_words(sized), feel_words(&sized.whole)),
        );
        write_lost("      ", &sized.lost, paper);
        for (name, state) in sized.without_travel() {
            paper.warning(&format!(
                "    {name} lost {}: too little travel",
                match state {
                    OnStop::Yes => "leaves the other circuit none",
                    _ => "may leave the other circuit none",
                }
            ));
        }
    }
}

fn write_lost(indent: &str, lost: &[(String, Feel)], paper: &mut Paper) {
    for (name, feel) in lost {
        paper.item(indent, &format!("{name} lost: {}", lost_words(feel)));
    }
}

fn feel_words(feel: &Feel) -> String {
    let pressures = listed(&feel.circuits, ", ", |circuit| {
        format!("{} {}", circuit.name, bars(circuit.pressure))
    });
    format!(
        "{}, {} of the stroke{}; {}",
        travel(feel.travel),
        share(feel.stroke_share),
        stop_words(feel.on_stop),
        pressures
    )
}

fn candidate_words(sized: &Sized) -> String {
    let mut words = Vec::new();
    if !sized.candidate.bores.is_empty() {
        let bores = listed(&sized.candidate.bores, " and ", |bore| {
            format!("{:.2} mm", bore.get::<millimeter>())
        });
        words.push(format!("bore {bores}"));
    }
    if let Some(lever) = sized.candidate.pedal_ratio {
        words.push(format!("ratio {}", two_figures(lever.get::<ratio>())));
    }
    if let Some(bar_share) = sized.candidate.bar_share {
        words.push(format!("bar {:.0} %", bar_share.get::<percent>()));
    }
    words.join(", ")
}

fn write_capacities(capacities: &[Capacity], paper: &mut Paper) {
    if capacities.is_empty() {
        return;
    }
    paper.heading(
        "RESERVOIR: new to worn linings (49 CFR 571.105, 571.135, S5.4.2, where they apply)",
    );
    for capacity in capacities {
        let verdict = match capacity.verdict {
            CapacityVerdict::Pass => "enough",
            CapacityVerdict::Fail => "NOT ENOUGH",
            CapacityVerdict::Open => "OPEN: it depends on what was assumed or not measured",
            CapacityVerdict::NotShown => {
                "NOT SHOWN: a clutch or a hydraulic booster draws on it too, and how much belongs to the brakes is \
                 not known"
            }
        };
        paper.item(
            "  ",
            &format!(
                "{}, {}: pistons take {}, it holds {} at its maximum mark: {verdict}",
                capacity.reservoir,
                capacity.compartment,
                ml_within(capacity.needed),
                ml_within(capacity.holds)
            ),
        );
        for assumption in usual_texts(&capacity.assumptions) {
            paper.item("  - ", &format!("assumed: {assumption}"));
        }
    }
}

fn stop_words(stop: OnStop) -> &'static str {
    match stop {
        OnStop::Never => "",
        OnStop::Perhaps => " (a piston may be at its end)",
        OnStop::Yes => " (A PISTON IS AT ITS END)",
    }
}

fn newtons(force: Force) -> String {
    format!("{:.0} N", force.get::<newton>())
}

fn mm(length: Length) -> String {
    format!("{:.0}", length.get::<millimeter>() + 0.0)
}

fn travel(travel: Bounds<Length>) -> String {
    let Bounds { low, nominal, high } = travel.map(mm);
    format!("{nominal} mm ({low}-{high})")
}

fn share(share: Bounds<Ratio>) -> String {
    let Bounds { low, nominal, high } = share.map(|share| share.get::<percent>());
    format!("{nominal:.0} % ({low:.0}-{high:.0})")
}

fn bars(pressure: Bounds<Pressure>) -> String {
    let Bounds { low, nominal, high } = pressure.map(|it| two_figures(it.get::<bar>()));
    if low == high {
        format!("{nominal} bar")
    } else {
        format!("{nominal} bar ({low}-{high})")
    }
}

/// What the travel rule of the law says of the model; it is a rule for pedals.
fn reserve(pedal: &Assessment, paper: &mut Paper) {
    let Some((force, feel)) = &pedal.reserve else {
        return;
    };
    let used = feel.stroke_share;
    let running = if pedal.has_booster && !pedal.is_boosted {
        " and with the booster running"
    } else {
        ""
    };
    let beyond = if used.nominal.get::<percent>() > RESERVE_LIMIT_PERCENT {
        ", which is TOO MUCH"
    } else if used.high.get::<percent>() > RESERVE_LIMIT_PERCENT {
        ", which may be too much"
    } else {
        ""
    };
    paper.paragraph(&format!(
        "At {} (50 lbf){running} the model uses {} of the travel{beyond}; at most 80 % is allowed on the vehicle (49 CFR 570.55, where it applies): measure it with `readings`.",
        newtons(*force),
        share(used)
    ));
}
