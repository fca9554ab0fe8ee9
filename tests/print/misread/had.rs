//! What a job may have on its sheet, and vehicles that have it.

use crate::demo::demo_text;

/// What every job has.
pub(super) const ALWAYS: [&str; 10] = [
    "sample from",
    "Bottle opened on",
    "Parts fitted",
    "Torque tool",
    "Fluid next due",
    "Work refused by the owner",
    "Look first",
    "Screw stuck",
    "Bubbles stay",
    "Nothing comes",
];

/// What a job may have, by what has it.
pub(super) const HAD: [(&str, &[&str]); 25] = [
    ("level switch", &["level switch connected, its lamp out"]),
    ("joints", &["Not opened again after the bleed"]),
    ("joints pressed", &["every joint opened at"]),
    (
        "cable",
        &[
            "Then the parking brake off, its cable slack",
            "shoes first, then the cable adjusted",
        ],
    ),
    ("bench", &["bled on the bench first, not in the vehicle"]),
    ("road test", &["tops at walking pace"]),
    (
        "electric unit",
        &[
            "A pump may wake by a door or the pedal",
            "Fault memory read, nothing left in it",
            "an electric booster may simulate the feel",
        ],
    ),
    (
        "second bleed",
        &["on the way of what the routine frees in anti-lock unit"],
    ),
    (
        "new caliper",
        &["screw on top (left and right not exchanged)"],
    ),
    (
        "electric parking brake",
        &["the electric parking brake off"],
    ),
    ("service mode", &["Electric parking brake in service mode"]),
    ("drums", &["inside the drums"]),
    (
        "clutch",
        &[
            "Clutch: its pedal comes back",
            "clutch slave travels as far as the maker says to release and does not creep back",
            "every gear goes in without grating",
            "clutch slave bolted in place: pressed without, the piston comes out",
            "Clutch pedal pumped gently, then held down a minute",
            "Clutch drags or does not come back",
        ],
    ),
    ("clutch alone", &["every gear tried", "clutch dust"]),
    (
        "brakes",
        &[
            "every wheel turns free",
            "Never press with a drum off",
            "Soft: higher when pumped",
        ],
    ),
    (
        "foot alone",
        &["Pumped gently until firm", "Pressed hard, held 10 s"],
    ),
    (
        "wheels off",
        &["Wheel nuts snug, lowered, to torque on the ground"],
    ),
    ("cups under vacuum", &["past the cups of wheel cylinders"]),
    ("old fluid", &["Wrong fluid (layers"]),
    (
        "long standing",
        &[
            "moved by hand, its screw open into a jar (rust goes out, not up)",
            "Stuck: freed or renewed now, before fluid is poured",
            "past the maker's life, else the local rule",
            "short strokes, never to the end",
            "second renewal booked within weeks of use",
        ],
    ),
    (
        "motorcycle",
        &[
            "machine upright on a firm stand",
            "calipers and loosened axles to torque",
            "by each control alone, then a slow ride",
        ],
    ),
    (
        "lever",
        &[
            "Bar turned until the reservoir of lever cylinder stands level and the highest",
            "pads out to the disc: lever of lever cylinder",
            "Hard hold, 10 s, on lever of lever cylinder",
        ],
    ),
    (
        "banjo",
        &[
            "the banjo at lever cylinder, which has no screw, cracked like one: cloth around",
            "Banjo at lever cylinder to the maker's torque, dry",
        ],
    ),
    (
        "linked",
        &["Linked brakes: pedal of pedal cylinder brakes front and rear wheel"],
    ),
    (
        "coupler",
        &[
            "Reverse lock-out of coupler cylinder, where fitted, set so that the wheels brake",
            "Reverse lock-out of coupler cylinder works again",
            "Breakaway cable off",
            "Breakaway cable pulled, chocked: the parking brake goes on",
            "Not coupled to any vehicle",
            "pushed in by a bar as a lever",
            "Shaft stop after",
            "Shaft pushed in and let out, gently, until firm",
            "Shaft held in lightly",
            "Shaft pushed in hard by the bar",
            "Coupled, head locked and pulled up to prove it, breakaway cable on",
        ],
    ),
];

/// A vehicle, the options of its plan, and lists of names from [`HAD`].
type Job = (
    &'static str,
    &'static [&'static str],
    &'static [&'static [&'static str]],
);

const CAR: [&str; 5] = [
    "road test",
    "brakes",
    "foot alone",
    "wheels off",
    "old fluid",
];
const MOTORCYCLE: [&str; 5] = ["road test", "brakes", "motorcycle", "lever", "old fluid"];
/// A car whose system was empty.
const BRAKED: [&str; 4] = ["road test", "brakes", "foot alone", "wheels off"];

/// A car that nobody may drive yet.
const BARRED: [&str; 4] = ["brakes", "foot alone", "wheels off", "old fluid"];

/// Jobs by vehicle and options, with what each has.
pub(super) const JOBS: [Job; 20] = [
    ("lapwing", &[], &[&CAR, &["drums", "level switch"]]),
    (
        "lapwing",
        &["--replaced", "front left caliper"],
        &[
            &CAR,
            &["new caliper", "level switch", "joints", "joints pressed"],
        ],
    ),
    (
        "lapwing",
        &["--method", "vacuum"],
        &[&CAR, &["drums", "cups under vacuum", "level switch"]],
    ),
    (
        "lapwing",
        &["--for", "fill"],
        &[&BRAKED, &["drums", "level switch", "bench"]],
    ),
    (
        "lapwing",
        &["--replaced", "master"],
        &[
            &CAR,
            &["drums", "level switch", "bench", "joints", "joints pressed"],
        ],
    ),
    (
        "lapwing",
        &["--laid-up"],
        &[&CAR, &["drums", "long standing", "level switch"]],
    ),
    ("avocet", &[], &[&CAR]),
    (
        "avocet",
        &["--laid-up", "--method", "pressure"],
        &[&CAR, &["long standing"]],
    ),
    ("ruff", &[], &[&CAR, &["drums", "clutch"]]),
    (
        "ruff",
        &["--opened", "clutch slave"],
        &[&["clutch", "clutch alone", "old fluid", "joints"]],
    ),
    ("clutch", &[], &[&["clutch", "clutch alone", "old fluid"]]),
    (
        "godwit",
        &[],
        &[&CAR, &["electric parking brake", "electric unit"]],
    ),
    (
        "godwit",
        &["--opened", "rear left caliper"],
        &[
            &CAR,
            &[
                "electric parking brake",
                "service mode",
                "electric unit",
                "joints",
                "joints pressed",
            ],
        ],
    ),
    (
        "godwit",
        &["--opened", "anti-lock unit"],
        &[
            &BARRED,
            &[
                "electric parking brake",
                "electric unit",
                "second bleed",
                "joints",
                "joints pressed",
            ],
        ],
    ),
    ("turnstone", &[], &[&MOTORCYCLE]),
    (
        "turnstone",
        &["--opened", "rear caliper"],
        &[&[
            "road test",
            "brakes",
            "motorcycle",
            "foot alone",
            "old fluid",
            "joints",
            "joints pressed",
        ]],
    ),
    (
        "turnstone without a screw at the lever",
        &[],
        &[&MOTORCYCLE, &["banjo"]],
    ),
    (
        "turnstone without a screw at the lever",
        &["--method", "pressure"],
        &[&MOTORCYCLE],
    ),
    (
        "turnstone with linked brakes",
        &[],
        &[&MOTORCYCLE, &["linked"]],
    ),
    (
        "knot",
        &[],
        &[&[
            "road test",
            "brakes",
            "wheels off",
            "old fluid",
            "drums",
            "coupler",
            "cable",
        ]],
    ),
];

/// A demo vehicle, or another one made of it.
pub(super) fn job_layout(name: &str) -> String {
    let replaced = |demo: &str, old: &str, new: &str| {
        let text = demo_text(demo);
        assert!(text.contains(old), "{demo}: {old}");
        text.replace(old, new)
    };
    match name {
        "knot" => {
            let path = crate::binary::root().join("tests/layouts/knot.ron");
            std::fs::read_to_string(path).expect("the trailer can be read")
        }
        "turnstone without a screw at the lever" => replaced(
            "turnstone",
            "screws: [(id: \"lever\", at_top: true, spanner: \"8 mm\", torque: \"5 N m\")],",
            "",
        ),
        "turnstone with linked brakes" => replaced(
            "turnstone",
            "(id: \"rear hose\", from: \"pedal cylinder\", to: \"rear caliper\",",
            "(id: \"linking hose\", from: \"pedal cylinder\", to: \"linking tee\",
             kind: hose(bore: \"3.2 mm\", length: \"0.2 m\")),
            (id: \"linked hose\", from: \"linking tee\", to: \"linked caliper\",
             kind: hose(bore: \"3.2 mm\", length: \"0.9 m\")),
            (id: \"rear hose\", from: \"linking tee\", to: \"rear caliper\",",
        )
        .replace(
            "    parts: [",
            "    parts: [
            (id: \"linking tee\", kind: tee),
            (id: \"linked caliper\", kind: caliper(mounting: fixed, pistons: [(bore: \"27 mm\", \
             extension: \"2 mm\")], dead_volume: \"1 ml\"), wheel: front, \
             screws: [(id: \"linked\", at_top: true)]),",
        ),
        "clutch" => "(
            format: 1, name: \"Ruff, its clutch alone\", fluid: dot4,
            reservoirs: [(id: \"pot\", compartments: [(id: \"clutch pot\", max: \"60 ml\", min: \"25 ml\",
                feeds: \"clutch master\")])],
            cylinders: [(id: \"clutch master\", purpose: clutch, pedal_ratio: 5.8,
                kind: single(bore: \"15.9 mm\", stroke: \"30 mm\", circuit: \"clutch\"))],
            parts: [(id: \"clutch slave\", kind: clutch_slave(pistons: [(bore: \"20.6 mm\",
                extension: \"9 mm\")], dead_volume: \"2 ml\"), screws: [(id: \"clutch\", at_top: true)])],
            lines: [(id: \"pipe\", from: \"clutch master\", to: \"clutch slave\",
                kind: pipe(size: \"1/4 in\", length: \"1.1 m\"))],
        )"
        .to_owned(),
        demo => demo_text(demo),
    }
}
