//! The judgement of a fluid as text.

use super::paper::Paper;
use crate::fluid;
use crate::number::{hundredths, two_figures};
use crate::said::Said;
use crate::words::capitalised;
use bleedwright_inspection::fluid::{
    BoilingEstimate, BottleJudgement, BottleVerdict, FluidJudgement, FluidReading, Limit,
    LimitValue, Subject, Verdict,
};
use bleedwright_network::Bounds;
use std::cmp::Reverse;
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::year;

/// Writes the judgement of a fluid for a sheet of `paper`'s width. `vehicle` is the layout's name, if there is one.
pub fn fluid_text(
    vehicle: Option<&str>,
    reading: &FluidReading,
    judgement: &FluidJudgement,
    mut paper: Paper,
) -> String {
    let grade = judgement.grade.map_or("grade not known", |g| g.text());
    let of = vehicle.map(|name| format!(", {name}")).unwrap_or_default();
    paper.heading(&format!("BRAKE FLUID: {grade}{of}"));
    write_verdict(judgement, &mut paper);
    let items = judgement.items.iter().map(|item| {
        let word = fluid::verdict(item.verdict);
        (item.verdict, item.subject, word, fluid::reason(item))
    });
    write_items(items.collect(), &mut paper);
    if let (Some(estimate), Some(moisture)) = (&judgement.boiling, reading.moisture) {
        write_estimate(estimate, moisture, &mut paper);
    }
    if let Some(bottle) = &judgement.bottle {
        write_bottle(bottle, &mut paper);
    }
    if !judgement.limits.is_empty() {
        paper.heading("LIMITS, new fluid unless it says otherwise");
        for (figure, texts) in by_figure(&judgement.limits) {
            paper.item("  - ", &joined(&format!("{figure} ({})", texts.join("; "))));
        }
    }
    if !judgement.assumptions.is_empty() {
        paper.heading("ASSUMED");
        for assumption in &judgement.assumptions {
            paper.item("  - ", &fluid::assumption(*assumption).to_string());
        }
    }
    paper.heading("CAUTIONS");
    for caution in &judgement.cautions {
        paper.item("  - ", fluid::caution(*caution));
    }
    paper.into_text()
}

fn write_verdict(judgement: &FluidJudgement, paper: &mut Paper) {
    let open: Vec<&str> = judgement.not_checked().map(Subject::text).collect();
    let open = if open.is_empty() {
        String::new()
    } else if let (Verdict::NotChecked, Some(why)) = (judgement.verdict, &judgement.contradiction) {
        format!(
            "{}. Open: {}.",
            capitalised(&fluid::contradiction(why).to_string()),
            open.join(", ")
        )
    } else if judgement.verdict == Verdict::NotChecked {
        format!(
            "Nothing that tells was measured. Open: {}.",
            open.join(", ")
        )
    } else {
        format!("Not checked: {}.", open.join(", "))
    };
    let word = fluid::judgement(judgement).to_uppercase();
    let as_far = if judgement.verdict == Verdict::Fit {
        " against it, as far as checked"
    } else {
        ""
    };
    let line = format!("IN THE CAR: {word}{as_far}. {open}");
    match judgement.verdict {
        Verdict::Unsafe => paper.danger(line.trim_end()),
        Verdict::RenewNow | Verdict::RenewSoon => paper.warning(line.trim_end()),
        Verdict::NotChecked if judgement.contradiction.is_some() => paper.warning(line.trim_end()),
        Verdict::Fit | Verdict::NotChecked => paper.heading(line.trim_end()),
    }
}

fn write_bottle(bottle: &BottleJudgement, paper: &mut Paper) {
    let grade = bottle.grade.map_or("grade not known", |grade| grade.text());
    let line = format!(
        "NEW BOTTLE: {}. Judged as {grade}.",
        fluid::bottle_verdict(bottle.verdict).to_uppercase()
    );
    match bottle.verdict {
        BottleVerdict::DoNotUse => paper.danger(&line),
        BottleVerdict::Doubtful | BottleVerdict::OnlyIfAllowed => paper.warning(&line),
        BottleVerdict::Fit | BottleVerdict::NotChecked => paper.heading(&line),
    }
    let items = bottle.items.iter().map(|item| {
        let word = fluid::bottle_verdict(item.verdict);
        let why = fluid::bottle_reason(item.reason);
        (item.verdict, item.subject, word, why)
    });
    write_items(items.collect(), paper);
}

/// The worst first; what was not checked stands at the end.
fn write_items<V: Copy + Ord>(mut items: Vec<(V, Subject, &'static str, Said)>, paper: &mut Paper) {
    items.sort_by_key(|(verdict, ..)| Reverse(*verdict));
    for (_, subject, word, why) in items {
        let text = format!("{subject}: {word}. {}.", capitalised(&why.to_string()));
        paper.item("  - ", &joined(&text));
    }
}

fn write_estimate(estimate: &BoilingEstimate, moisture: Bounds<Ratio>, paper: &mut Paper) {
    let extrapolated = if estimate.is_extrapolated {
        ", EXTRAPOLATED beyond the water of the wet minimum"
    } else {
        ""
    };
    paper.heading(&format!(
        "BOILING POINT, estimated cautiously at the {} % read: {}{extrapolated}",
        hundredths(moisture.nominal.get::<percent>()),
        boiling_text(estimate.boiling)
    ));
    paper.item("  ", "Beside it, with the same water:");
    for source in &estimate.sources {
        let says = match source.boiling {
            Some(boiling) => format!("{:.0} degC", boiling.get::<degree_celsius>()),
            None => "nothing".to_owned(),
        };
        paper.item(
            "  - ",
            &format!(
                "{says}: {} ({}).",
                fluid::estimate_source(source.source),
                fluid::certainty(source.certainty)
            ),
        );
    }
}

/// `158 degC (151 to 211), 317 degF (303 to 413)`.
fn boiling_text(boiling: Bounds<ThermodynamicTemperature>) -> String {
    let celsius = boiling.map(|point| point.get::<degree_celsius>());
    let fahrenheit = boiling.map(|point| point.get::<degree_fahrenheit>());
    format!(
        "{:.0} degC ({:.0} to {:.0}), {:.0} degF ({:.0} to {:.0})",
        celsius.nominal,
        celsius.low,
        celsius.high,
        fahrenheit.nominal,
        fahrenheit.low,
        fahrenheit.high
    )
}

/// What is limited, and to what.
fn figure(limit: &Limit) -> String {
    let value = match limit.value {
        LimitValue::TemperatureAtLeast(least) => format!(
            "at least {:.0} degC ({:.0} degF)",
            least.get::<degree_celsius>(),
            least.get::<degree_fahrenheit>()
        ),
        LimitValue::ViscosityAtMost(most) => format!(
            "at most {:.0} mm2/s",
            most.get::<square_millimeter_per_second>()
        ),
        LimitValue::ViscosityAtLeast(least) => format!(
            "at least {} mm2/s",
            two_figures(least.get::<square_millimeter_per_second>())
        ),
        LimitValue::AcidityWithin { low_ph, high_ph } => format!("{low_ph:.1} to {high_ph:.1}"),
        LimitValue::ShareBelow(share) => format!("below {} %", hundredths(share.get::<percent>())),
        LimitValue::TimeAtMost(time) => format!("at most {} years", hundredths(time.get::<year>())),
        LimitValue::Colour(colour) => fluid::colour(colour).to_owned(),
    };
    format!("{}: {value}", fluid::property(limit.property))
}

/// Every figure once, with the texts that state it and how each was read.
fn by_figure(limits: &[Limit]) -> Vec<(String, Vec<String>)> {
    let mut figures: Vec<(String, Vec<String>)> = Vec::new();
    for limit in limits {
        let figure = figure(limit);
        let certainty = fluid::certainty(limit.certainty);
        let text = match limit.clause {
            Some(clause) => format!("{clause}, {certainty}"),
            None => certainty.to_owned(),
        };
        match figures.iter_mut().find(|(known, _)| *known == figure) {
            Some((_, texts)) => texts.push(text),
            None => figures.push((figure, vec![text])),
        }
    }
    figures
}

/// Temperatures keep their unit on their line.
fn joined(text: &str) -> String {
    text.replace(" degC", "\u{a0}degC")
        .replace(" degF", "\u{a0}degF")
}
