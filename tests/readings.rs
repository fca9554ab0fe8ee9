//! The `readings` verb: records, verdicts, sheets, files.

mod card;
mod damage;
mod doubt;
mod files;
mod fluids;
mod kept;
mod kills;
mod properties;
pub(crate) mod sheets;
mod verdicts;

use crate::demo::{load_demo, plan_of};
use bleedwright_inspection::{Record, read_record, reading_names, set_readings};
use bleedwright_planner::Options;
use bleedwright_report::record_of;
use std::path::PathBuf;

/// The layout of a demo vehicle.
pub(crate) fn layout(name: &str) -> PathBuf {
    crate::binary::root().join(format!("layouts/{name}.ron"))
}

/// The blank record of a demo vehicle whose fluid is renewed.
pub(crate) fn blank(name: &str) -> Record {
    blank_for(name, &Options::default())
}

/// The blank record of a job on a demo vehicle.
pub(crate) fn blank_for(name: &str, options: &Options) -> Record {
    let network = load_demo(name);
    let plan = plan_of(&network, options);
    record_of(&network, &plan, options)
}

/// What a record keeps beside its checks, which may be left blank.
pub(crate) const KEPT: [&str; 11] = [
    "vehicle interval",
    "parts fitted",
    "torque tool",
    "refused",
    "next due",
    "moisture before",
    "boiling point before",
    "sample before",
    "bottle",
    "bottle opened",
    "sample",
];

/// A good value for a reading.
pub(crate) fn good(name: &str) -> &'static str {
    for (end, value) in [
        ("disc minimum", "20 mm"),
        ("disc", "21.3 mm"),
        ("drum maximum", "204 mm"),
        ("drum", "203.2 mm"),
        ("lining minimum", "2 mm"),
        ("lining", "7 mm"),
        ("torque wanted", "9 N m"),
        ("torque", "9.2 N m"),
        ("level", "at_maximum"),
        ("free", "150 mm"),
        ("depressed", "45 mm"),
        ("hold force", "125 lbf"),
        ("force", "50 lbf"),
        ("hold time", "10 s"),
        ("hold dropped", "no"),
        ("leak found", "no"),
        ("fluid", "dot4"),
        ("moisture", "0.5 %"),
        ("moisture before", "2.6 %"),
        ("boiling point before", "not_checked"),
        ("sample before", "reservoir"),
        // `filled` names a screw of the vehicle.
        ("sample", "front left"),
        ("bottle", "batch 26-31"),
        ("bottle opened", "2026-11-25"),
        ("parts fitted", "none"),
        ("torque tool", "wrench 3"),
        ("refused", "none"),
        ("next due", "2028-11-25"),
        ("interval", "two_years"),
        // One reading of the water is enough.
        ("boiling point", "not_checked"),
        ("date", "2026-11-25"),
        ("done by", "the evening class"),
        ("checked by", "the instructor"),
        (" by", "the tester of the workshop"),
        ("pushed", "not_checked"),
        ("registration", "SM 1742"),
        ("over 10000 lb", "no"),
        ("riveted", "no"),
        ("notes", "none"),
        ("vehicle name", "Lapwing"),
    ] {
        if name.ends_with(end) {
            return value;
        }
    }
    if name.contains("step ") && name.ends_with(" done") {
        return "by_jar";
    }
    "yes"
}

/// A record of lapwing in which everything was measured and is good.
pub(crate) fn complete() -> Record {
    filled(&blank("lapwing"))
}

/// A record in which every reading is good, and every step took what its plan wants.
pub(crate) fn filled(record: &Record) -> Record {
    let mut record = set(record, |name| Some(good(name)));
    if let Some(screw) = record.vehicle.screws.first() {
        record.checks.sample.clone_from(screw);
    }
    for step in &mut record.steps {
        step.pushed = step.wanted.clone();
    }
    record
}

/// A record with some readings set.
pub(crate) fn set(record: &Record, value: impl Fn(&str) -> Option<&'static str>) -> Record {
    let names = reading_names(record);
    let settings: Vec<(&str, &str)> = names
        .iter()
        .filter_map(|name| Some((name.as_str(), value(name)?)))
        .collect();
    let (text, _) = set_readings(&record.to_ron(), &settings).expect("the values fit");
    read_record(text.as_bytes())
        .record
        .expect("what was set can be read")
}

/// A record with one reading set.
pub(crate) fn with(record: &Record, name: &str, value: &'static str) -> Record {
    set(record, |known| (known == name).then_some(value))
}
