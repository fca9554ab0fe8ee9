//! What a record keeps beside its checks, and what of it is in doubt, in words.

use crate::readings;
use crate::said::Said;
use bleedwright_inspection::Check;
use bleedwright_inspection::readings::{Doubt, Kept, Pushed, Sample};
use bleedwright_inspection::record::Interval;

/// Where a field is blank.
const NOT_STATED: &str = "not stated";

/// What to know about a check or to do; empty where there is nothing.
pub(crate) fn remark(check: &Check) -> String {
    let remark = check.remark.as_ref().map(readings::remark);
    let doubt = check.doubt.map(|doubt| words(doubt).into());
    Said::joined(remark.into_iter().chain(doubt), "; ").to_string()
}

fn words(doubt: Doubt) -> &'static str {
    match doubt {
        Doubt::SaysNothing => "this says nobody and nothing",
        Doubt::SampleOfReservoir => {
            "a sample from the reservoir after the work says nothing about the wheels: take one at a screw"
        }
        Doubt::SampleElsewhere => {
            "no screw of this job is called so: name the screw that the sample came out of"
        }
        Doubt::OpenedAfterWork => "opened after the day of the work: one of the two days is wrong",
        Doubt::WorkNotDated => "the day of the work, against which it is held, is not given",
        Doubt::DueNotAfterWork => "not after the day of the work: one of the two days is wrong",
        Doubt::DueLate(None) => {
            "later than two years after the work, and no interval of the maker is given"
        }
        Doubt::DueLate(Some(interval)) => match interval {
            Interval::HalfAYear => "later than the maker's half a year after the work",
            Interval::OneYear => "later than the maker's year after the work",
            Interval::TwoYears => "later than the maker's two years after the work",
            Interval::ThreeYears => "later than the maker's three years after the work",
            Interval::FourYears => "later than the maker's four years after the work",
        },
        Doubt::Refused => "whoever takes the vehicle is told so in writing",
        Doubt::LeastIsNothing => {
            "a least thickness of nothing is no limit: read the figure again, or leave it not checked"
        }
    }
}

/// The work that the owner did not want done, for the top of the sheet; none where there is none.
pub(crate) fn refused(kept: &Kept) -> Option<String> {
    let refused = kept.refused_work()?;
    Some(format!("WORK REFUSED BY THE OWNER: {}", refused.trim()))
}

/// What is kept, each under its name, in the order of the work.
pub(crate) fn lines(kept: &Kept) -> Vec<(&'static str, String)> {
    let mut lines = Vec::new();
    let done = [
        ("replaced", &kept.replaced),
        ("ran dry", &kept.ran_dry),
        ("bled earlier", &kept.bled_earlier),
    ];
    let done = done.into_iter().filter(|(_, names)| !names.is_empty());
    let done: Vec<String> = done
        .map(|(what, names)| format!("{what} {}", names.join(", ")))
        .collect();
    if !done.is_empty() {
        lines.push(("Work done", done.join("; ")));
    }
    let pushed = kept.pushed.iter().map(|screw| pushed(screw, kept));
    let pushed = pushed.collect::<Vec<_>>().join("; ");
    lines.push(("Pushed through each screw", stated(&pushed)));
    lines.push(("Fluid before the work", sample(&kept.before)));
    lines.push(("Fluid after the work", sample(&kept.after)));
    let opened = match kept.bottle_opened.as_str() {
        "" => format!("day of opening {NOT_STATED}"),
        day => format!("opened {day}"),
    };
    lines.push(("Bottle", format!("{}, {opened}", stated(&kept.bottle))));
    lines.push(("Parts fitted", stated(&kept.parts_fitted)));
    lines.push(("Torque tool", stated(&kept.torque_tool)));
    lines.push(("Work refused by the owner", stated(&kept.refused)));
    lines.push(("Next due", stated(&kept.next_due)));
    lines
}

fn pushed(screw: &Pushed, kept: &Kept) -> String {
    let amounts = match screw.amounts.as_slice() {
        [] if kept.bled_earlier.contains(&screw.screw) => "bled earlier".to_owned(),
        amounts => stated(&amounts.join(" + ")),
    };
    format!("{} {amounts}", screw.screw)
}

fn sample(sample: &Sample) -> String {
    let mut parts = Vec::new();
    if !sample.moisture.is_empty() {
        parts.push(format!("water read {}", sample.moisture));
    }
    if !sample.boiling_point.is_empty() {
        parts.push(format!("boils at {}", sample.boiling_point));
    }
    let has_place = !sample.place.trim().is_empty();
    if parts.is_empty() && !has_place {
        return NOT_STATED.to_owned();
    }
    if parts.is_empty() {
        parts.push("no reading".to_owned());
    }
    parts.push(format!("sample taken at: {}", stated(&sample.place)));
    parts.join(", ")
}

fn stated(text: &str) -> String {
    match text.trim() {
        "" => NOT_STATED.to_owned(),
        text => text.to_owned(),
    }
}
