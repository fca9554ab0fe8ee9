//! Air from readings on paper, and the trials that tell where it is.

use super::{mm, newtons};
use crate::number::ml;
use crate::text::paper::Paper;
use bleedwright_pedal::{AirBounds, Assessment, Estimate, Trial, TrialPlace, USUAL_TOLERANCE_MM};
use uom::si::f64::Volume;
use uom::si::length::millimeter;

pub(super) fn write_estimate(pedal: &Assessment, estimate: &Estimate, paper: &mut Paper) {
    paper.heading("AIR FROM THE READINGS");
    if estimate.is_contradiction {
        paper.danger(
            "The readings do not fit this layout with any amount of air: check the readings, the booster, the lever ratio, the cylinder's bore and stroke. No air is given and no trial until they fit.",
        );
        write_pumping(pedal, estimate, paper);
        return;
    }
    if estimate.is_at_end {
        paper.danger(
            "AT THE END OF ITS STROKE: a piston stands on its stop or within 2 mm of it, or may, and how much air there is cannot be told from these readings. Not to be driven. Bleed, look for a leak and for an open circuit, and measure again.",
        );
    }
    paper.paragraph(&format!("In all: {}.", air_words(&estimate.air)));
    write_pumping(pedal, estimate, paper);
    for (name, bounds) in &estimate.circuits {
        match bounds {
            Some(bounds) => {
                paper.item("  ", &format!("all of it in {name}: {}", air_words(bounds)));
            }
            None => paper.item(
                "  ",
                &format!("all of it in {name}: cannot be; its piston has no stroke for that"),
            ),
        }
    }
    if estimate.air.low <= Volume::default() && !estimate.is_at_end {
        paper.paragraph(
            "No air at all would also explain the readings. That is not proof of none: a tighter reading or a second force narrows it.",
        );
    }
}

/// What pumping did, which is read off the vehicle. What it was due to is only said where the readings fit the layout.
fn write_pumping(pedal: &Assessment, estimate: &Estimate, paper: &mut Paper) {
    if let Some(gain) = pedal.pumping_gain {
        let mm = gain.get::<millimeter>();
        paper.paragraph(&if mm >= 2.0 && estimate.is_contradiction {
            format!("Pumping raised the pedal by {mm:.0} mm: what by cannot be said while nothing fits.")
        } else if mm >= 2.0 {
            format!(
                "Pumping raised the pedal by {mm:.0} mm. Clearances (shoes, knock-back) do that and are looked at first; so do air that pumping pressed together and a cylinder that fills behind its cups. What stays springy after pumping is air."
            )
        } else if mm <= -2.0 {
            format!(
                "After pumping the pedal stood {:.0} mm lower, which no clearance and no air explains: measure both again, and look for a leak (--symptom sinking).",
                -mm
            )
        } else if mm < 0.5 {
            "Pumping did not raise the pedal: that points away from clearances.".to_owned()
        } else {
            format!("Pumping raised the pedal by {mm:.0} mm only: that points away from clearances.")
        });
    }
}

fn air_words(air: &AirBounds) -> String {
    match air.high {
        Some(high) => format!("{} ml ({}-{})", ml(air.nominal), ml(air.low), ml(high)),
        None => format!(
            "at least {} ml; a piston is at the end of its stroke, more would not show",
            ml(air.low)
        ),
    }
}

/// What tells more than a clamp and harms nothing: common practice, no source.
const BEFORE_TRIALS: [&str; 4] = [
    "Look: leaks, level, each screw at the top of its brake, left and right calipers not exchanged, service mode ended.",
    "First push against pumped: higher when pumped is clearance (shoes, run-out), not air.",
    "Held lightly for a minute, then hard: one that sinks leaks, outside or past a seal of the cylinder.",
    "Bleed once more, by `bleedwright plan LAYOUT --for air`.",
];

pub(super) fn write_trials(pedal: &Assessment, paper: &mut Paper) {
    let Some(force) = pedal.trials_force else {
        return;
    };
    paper.heading("FIRST, while nothing is opened");
    for text in BEFORE_TRIALS {
        paper.item("- ", text);
    }
    paper.heading(&format!(
        "THEN TRIALS, where air most likely stays first, plugs last: shut one place, press with {} (first push) and compare",
        newtons(force)
    ));
    for (index, trial) in pedal.trials.iter().enumerate() {
        let place = match &trial.place {
            TrialPlace::Outlet(circuit) => {
                format!("plug the outlet of {circuit} at the cylinder (bled from there afterwards)")
            }
            TrialPlace::Hose(hose) => {
                format!(
                    "clamp `{hose}`, booster empty ({})",
                    trial.behind.join(", ")
                )
            }
        };
        paper.item(
            &format!("{:>2}  ", index + 1),
            &format!(
                "{place}: the pedal stands {} mm higher if the air is behind it, {} mm if not{}",
                mm(trial.rise_if_behind),
                mm(trial.rise_if_not),
                if is_telling(trial) {
                    ""
                } else {
                    ": too little to tell"
                }
            ),
        );
    }
}

/// Whether the two ways a trial can end lie farther apart than a travel is trusted.
fn is_telling(trial: &Trial) -> bool {
    (trial.rise_if_behind - trial.rise_if_not).get::<millimeter>() >= USUAL_TOLERANCE_MM
}
