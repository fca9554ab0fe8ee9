//! The words of a handover sheet: its verdict, what it assumes, what it warns of, where its limits stand.

mod assumed;
mod found;
mod remark;
mod wanted;
mod what;

pub(crate) use assumed::assumptions;
pub(crate) use found::found;
pub(crate) use remark::remark;
pub(crate) use wanted::wanted;
pub use what::check_name;

use crate::words::listed;
use bleedwright_inspection::limit::{Place, Provenance, Source};
use bleedwright_inspection::readings::What;
use bleedwright_inspection::{Check, Group, HandoverSheet, State};

/// What holds for every sheet, the most important first.
pub(crate) const CAUTIONS: [&str; 4] = [
    "The maker's manual and local rules govern where they differ from this sheet. The work is done or checked \
     by a competent, where required licensed, person, who signs it.",
    "This sheet repeats what somebody wrote down. It has not seen the vehicle and does not prove that the \
     brakes are safe.",
    "Firm pedal before the vehicle moves. First drive slow, away from traffic; then look for leaks again.",
    "Vehicle on proper stands, never on a jack alone. No dry brushing or blowing of brake dust. Fluid harms \
     eyes, skin and paint; bled fluid is never used again.",
];

/// The verdict in a sentence or two. It never says that the brakes are safe.
pub fn sheet_verdict(sheet: &HandoverSheet) -> String {
    let all = sheet.checks.len();
    let state = sheet.state();
    let count = sheet.count(state);
    let number = |one, more| if count == 1 { one } else { more };
    let open = match sheet.count(State::NotChecked) {
        0 => String::new(),
        open => format!(" {open} not checked."),
    };
    let unfinished = match unfinished(sheet).as_slice() {
        [] => String::new(),
        list => format!("NOT FINISHED: {}. ", list.join("; ")),
    };
    match state {
        State::Fails => format!(
            "DO NOT HAND OVER: {count} of {all} checks {}.{open} {unfinished}",
            number("fails", "fail")
        )
        .trim_end()
        .to_owned(),
        State::NotChecked => format!(
            "{unfinished}NOT COMPLETE: {count} of {all} checks {} not made, or not against a limit. What was not checked is not \
             fine.",
            number("was", "were")
        ),
        State::LookAgain => format!(
            "LOOK AGAIN: {count} of {all} checks {} a second look before the vehicle leaves.",
            number("needs", "need")
        ),
        State::Within => format!(
            "All {all} checks of this sheet are within their limits. That does not prove that the brakes are safe."
        ),
    }
}

/// The steps and tasks that are not finished, by name.
pub(crate) fn unfinished(sheet: &HandoverSheet) -> Vec<&str> {
    let named = |subject| match subject {
        "" => check_name(What::Plan),
        subject => subject,
    };
    sheet.unfinished().into_iter().map(named).collect()
}

/// What is to be known of the plan that the work followed; none where there is nothing. No verdict depends on it.
pub(crate) fn plan_remark(sheet: &HandoverSheet) -> Option<&'static str> {
    sheet.is_of_older_plan.then_some(
        "Made from an older plan: today's amounts are others. Make a new plan before any more is bled by it.",
    )
}

/// How a check came out.
pub(crate) fn state(state: State) -> &'static str {
    match state {
        State::Within => "within limit",
        State::LookAgain => "LOOK AGAIN",
        State::NotChecked => "NOT CHECKED",
        State::Fails => "FAILS",
    }
}

/// The heading of a group of checks.
pub(crate) fn group(group: Group) -> &'static str {
    match group {
        Group::Job => "Steps, and what is left to finish",
        Group::Controls => "Pedals and levers",
        Group::Brakes => "Brakes",
        Group::Screws => "Bleed screws",
        Group::Reservoir => "Reservoir",
        Group::Vehicle => "Vehicle",
        Group::Record => "Who and when",
    }
}

/// What was looked at, and where.
pub(crate) fn title(check: &Check) -> String {
    let what = check_name(check.what);
    if check.subject.is_empty() {
        what.to_owned()
    } else {
        format!("{}, {what}", check.subject)
    }
}

/// The checks that somebody has to do something about, by name; none where there are none.
pub(crate) fn named(sheet: &HandoverSheet) -> Option<String> {
    let of = |state, word: &str| {
        let checks = sheet.checks.iter().filter(|check| check.state == state);
        let titles = listed(checks, "; ", title);
        (!titles.is_empty()).then(|| format!("{word}: {titles}."))
    };
    let sentences = [
        of(State::Fails, "Fails"),
        of(State::LookAgain, "Look again"),
    ];
    let sentences: Vec<String> = sentences.into_iter().flatten().collect();
    (!sentences.is_empty()).then(|| sentences.join(" "))
}

/// Where a limit stands, and how well that was known.
pub(crate) fn source(source: Source) -> String {
    let known = match source.standing {
        Provenance::Read => "read",
        Provenance::SecondHand => "second-hand",
        Provenance::FromMemory => "from memory",
        Provenance::CommonPractice => "common practice, no source",
        Provenance::Assumption => "assumption",
        Provenance::RecordedFigure => "figure given in the record",
        Provenance::SheetRule => "rule of this sheet",
    };
    match source.place {
        Place::Nowhere => known.to_owned(),
        Place::Clause(clause) => format!("{clause}, {known}"),
        Place::ByMass(heavy, light) => format!("{heavy} over 10,000 lb, else {light}, {known}"),
        Place::Around(clause) => format!("lines around {clause}, {known}"),
    }
}

/// Every source once, in the order of the checks.
pub(crate) fn sources(sheet: &HandoverSheet) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for check in &sheet.checks {
        let text = source(check.source);
        if !all.contains(&text) {
            all.push(text);
        }
    }
    all
}
