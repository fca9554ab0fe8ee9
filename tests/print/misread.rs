//! What must not be misread, on every kind of sheet: text, Markdown, page, paper.

use super::{reader, squeezed};
use crate::command_line::run_with_input;
use crate::demo::demo_text;
use std::path::Path;

const FORMATS: [&str; 3] = ["text", "markdown", "html"];

/// Without blanks, and without what a format needs around a name.
fn bare(text: &str) -> String {
    squeezed(text).replace(['`', '\\', '“', '”'], "")
}

/// A layout planned with these options, on every kind of sheet.
fn sheets(test: &str, layout: &str, options: &[&str]) -> Vec<(String, String)> {
    let call = |more: &[&str]| {
        let call = [&["plan", "-"], options, more].concat();
        let run = run_with_input(&call, layout.as_bytes());
        assert_eq!(run.code, Some(0), "{call:?}: {}", run.stderr);
        run.stdout
    };
    let mut sheets: Vec<(String, String)> = FORMATS
        .iter()
        .map(|format| ((*format).to_owned(), bare(&call(&["--format", format]))))
        .collect();
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("misread-{test}.pdf"));
    let name = file.to_str().expect("the folder has a plain name");
    call(&["--format", "pdf", "--overwrite", "-o", name]);
    let pages = reader::read(&std::fs::read(&file).expect("the card was written"));
    sheets.push(("pdf".to_owned(), bare(&reader::said(&pages))));
    sheets
}

#[track_caller]
fn assert_says(sheets: &[(String, String)], wanted: &str) {
    for (format, said) in sheets {
        assert!(said.contains(&bare(wanted)), "{format}: {wanted}\n{said}");
    }
}

#[track_caller]
fn assert_never_says(sheets: &[(String, String)], unwanted: &str) {
    for (format, said) in sheets {
        assert!(!said.contains(&bare(unwanted)), "{format}: {unwanted}");
    }
}

/// The torque of a small screw shears a smaller one.
#[test]
fn each_of_two_screws_has_its_own_torque() {
    let layout = demo_text("curlew");
    let both = sheets("alike", &layout, &[]);
    assert_says(&both, "spanner 7/16 in, 6 lbf ft");
    assert_never_says(&both, "front left inner: spanner");
    let its_tools =
        "\"inner\", at_top: true,\n                 spanner: \"7/16 in\", torque: \"6 lbf ft\"";
    let at = layout.find("front left inner").expect("its screw");
    let (before, after) = layout.split_at(at);
    let after = after.replacen(its_tools, "\"inner\", at_top: true", 1);
    let sheets = sheets("apart", &format!("{before}{after}"), &[]);
    let tools = "rear left inner: spanner 7/16 in, 6 lbf ft; front left inner: maker's torque";
    assert_says(&sheets, tools);
}

const NOT_DONE: &str =
    "NOT FINISHED and the vehicle NOT ROADWORTHY until the maker's routine has been run";

/// Nothing pushes fluid behind the valves of an empty unit.
#[test]
fn air_in_an_anti_lock_unit_is_called_air() {
    let layout = demo_text("godwit");
    let filled = ["--for", "fill"];
    let opened = ["--opened", "anti-lock unit"];
    let drained = ["--drained", "anti-lock unit"];
    let resumed = [
        "--for",
        "fill",
        "--done",
        "front left",
        "--done",
        "rear right",
    ];
    for options in [&filled[..], &opened, &drained, &resumed] {
        let sheets = sheets(&format!("unit{}", options.len()), &layout, options);
        assert_says(&sheets, "up to 6.0 ml of AIR stay in anti-lock unit");
        assert_says(&sheets, NOT_DONE);
        assert_says(&sheets, "anti-lock unit: maker's routine run.");
        assert_says(
            &sheets,
            "anti-lock unit: its circuits bled again after the routine. Until then",
        );
        assert_says(
            &sheets,
            "No road test before the anti-lock unit is finished",
        );
        assert_never_says(&sheets, "old fluid behind its valves");
    }
    // Upstream of the unit: nobody knows how far the fluid ran out.
    let above = sheets("above", &layout, &["--opened", "master"]);
    assert_says(&above, "of AIR may stay in anti-lock unit");
    assert_says(&above, NOT_DONE);
}

#[test]
fn old_fluid_in_an_anti_lock_unit_is_called_old_fluid() {
    for options in [&[][..], &["--opened", "front left caliper"]] {
        let sheets = sheets(
            &format!("old{}", options.len()),
            &demo_text("godwit"),
            options,
        );
        assert_says(&sheets, "of old fluid behind its valves");
        assert_never_says(&sheets, "of AIR");
        assert_never_says(&sheets, "NOT ROADWORTHY");
    }
}

/// A sheet on which screws are missing does not end with a drive.
#[test]
fn screws_left_out_are_named_and_nobody_drives() {
    let skip = ["--skip", "rear left", "--skip", "front right"];
    let sheets = sheets("skip", &demo_text("lapwing"), &skip);
    for name in ["rear left", "front right"] {
        assert_says(
            &sheets,
            &format!(
                "BW409 the screw {name} is left out: whatever air or old fluid is behind it \
                 stays; bleed it before the vehicle is driven"
            ),
        );
    }
    let first = "Screws left out bled: front right, rear left. NOT READY TO DRIVE before.";
    for (format, said) in &sheets {
        let at = said
            .find(&bare(first))
            .unwrap_or_else(|| panic!("{format}"));
        let torque = said.find("Screwstotorque").expect("the torque is a check");
        assert!(at < torque, "{format}: it is not the first check");
    }
    assert_says(&sheets, "No road test before the screws left out are bled");
    assert_never_says(&sheets, "then a slow road test away from traffic");
}

#[test]
fn nothing_left_out_is_nothing_said() {
    let sheets = sheets("whole", &demo_text("lapwing"), &[]);
    assert_never_says(&sheets, "NOT READY TO DRIVE");
    assert_says(&sheets, "then a slow road test away from traffic");
}

/// The marks count what leaves the screws; what a syringe drew off the
/// reservoir would push them up.
#[test]
fn the_jar_is_for_what_leaves_the_screws() {
    let lapwing = demo_text("lapwing");
    let renewed = sheets("jar", &lapwing, &[]);
    assert_says(&renewed, "Jar for ");
    assert_says(&renewed, " ml; waste can for 630 ml drawn off");
    let filled = sheets("jar-fill", &lapwing, &["--for", "fill"]);
    assert_never_says(&filled, "waste can");
    // Two screws open at once fill a jar each.
    let paired = sheets("jars", &demo_text("curlew"), &[]);
    assert_says(&paired, "Jars for");
    // By the reverse method nothing leaves a screw.
    let reverse = ["--for", "air", "--method", "reverse"];
    let reverse = sheets("jar-reverse", &lapwing, &reverse);
    assert_never_says(&reverse, "Jar for");
    assert_says(&reverse, "No jar; waste can for");
}

/// Work that an earlier session did is taken for done, and the sheet says so.
#[test]
fn a_resumed_job_says_what_it_takes_for_done() {
    let done = ["--done", "rear left"];
    let renewed = sheets("resumed", &demo_text("lapwing"), &done);
    assert_says(
        &renewed,
        "Taken as done: reservoir drawn off to its ports, pedal untouched",
    );
    assert_says(&renewed, "If not, do it now:");
    assert_never_says(&renewed, "Reservoir drawn off to its ports");
    let filled = [&["--for", "fill"], &done[..]].concat();
    let filled = sheets("resumed-fill", &demo_text("lapwing"), &filled);
    assert_never_says(&filled, "Dry: master");
    assert_says(&filled, "Taken as done: master bled on the bench");
    assert_never_says(&filled, "reservoir drawn off");
}

#[test]
fn a_fluid_that_is_not_stated_is_asked_of_the_manual() {
    let layout = demo_text("lapwing");
    let without: Vec<&str> = layout
        .lines()
        .filter(|line| !line.trim_start().starts_with("fluid:"))
        .collect();
    let sheets = sheets("no-fluid", &without.join("\n"), &[]);
    assert_says(
        &sheets,
        "New fluid as the maker's manual says, from a sealed bottle",
    );
    assert_never_says(&sheets, "New the maker's");
}

/// What a job may have, by what has it.
const HAD: [(&str, &[&str]); 17] = [
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
            "clutch slave travels as far as the maker says to release; every gear goes in",
            "clutch slave bolted in place: pressed without, the piston comes out",
            "Clutch pedal pumped gently, then held down a minute",
            "Clutch drags or does not come back",
        ],
    ),
    ("clutch alone", &["every gear tried", "clutch dust"]),
    (
        "brakes",
        &[
            "Every wheel turns free",
            "Never press with a drum off",
            "tops at walking pace",
            "Soft: higher when pumped",
        ],
    ),
    (
        "foot alone",
        &["Pumped gently until firm", "Pressed hard, held 10 s"],
    ),
    ("wheels off", &["Wheels to torque, off the stands"]),
    ("cups under vacuum", &["past the cups of wheel cylinders"]),
    ("old fluid", &["Wrong fluid (layers"]),
    (
        "long standing",
        &[
            "moved and let back by hand, watching the reservoir",
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
            "Loosened axles and calipers to torque, off the stand",
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
            "Reverse lock-out of coupler cylinder set so that the wheels brake",
            "Reverse lock-out of coupler cylinder works again",
            "Breakaway cable off",
            "Breakaway cable refitted",
            "Not coupled to any vehicle",
            "pushed in by a bar as a lever",
            "Shaft stop after",
            "shaft untouched",
            "Shaft pushed in and let out, gently, until firm",
            "Shaft held in lightly",
            "Shaft pushed in hard by the bar",
            "Coupled, breakaway cable on",
        ],
    ),
];

/// A demo vehicle, or another one made of it.
fn job_layout(name: &str) -> String {
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

/// What is new, parked, looked into or worked otherwise than by a foot is spoken of where the vehicle or the job has it, and
/// nowhere else; JSON says it too.
#[test]
fn what_a_job_has_stands_on_its_sheets_and_on_no_other() {
    const CAR: [&str; 4] = ["brakes", "foot alone", "wheels off", "old fluid"];
    const MOTORCYCLE: [&str; 4] = ["brakes", "motorcycle", "lever", "old fluid"];
    let new_caliper = ["--replaced", "front left caliper"];
    let cases: [(&str, &[&str], &[&[&str]]); 17] = [
        ("lapwing", &[], &[&CAR, &["drums"]]),
        ("lapwing", &new_caliper, &[&CAR, &["new caliper"]]),
        (
            "lapwing",
            &["--method", "vacuum"],
            &[&CAR, &["drums", "cups under vacuum"]],
        ),
        ("lapwing", &["--for", "fill"], &[&CAR[..3], &["drums"]]),
        (
            "lapwing",
            &["--laid-up"],
            &[&CAR, &["drums", "long standing"]],
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
            &[&["clutch", "clutch alone", "old fluid"]],
        ),
        ("clutch", &[], &[&["clutch", "clutch alone", "old fluid"]]),
        ("godwit", &[], &[&CAR, &["electric parking brake"]]),
        (
            "godwit",
            &["--opened", "rear left caliper"],
            &[&CAR, &["electric parking brake", "service mode"]],
        ),
        ("turnstone", &[], &[&MOTORCYCLE]),
        (
            "turnstone",
            &["--opened", "rear caliper"],
            &[&["brakes", "motorcycle", "foot alone", "old fluid"]],
        ),
        (
            "turnstone without a screw at the lever",
            &[],
            &[&MOTORCYCLE, &["banjo"]],
        ),
        (
            "turnstone with linked brakes",
            &[],
            &[&MOTORCYCLE, &["linked"]],
        ),
        (
            "knot",
            &[],
            &[&["brakes", "wheels off", "old fluid", "drums", "coupler"]],
        ),
    ];
    for (nth, (name, options, wanted)) in cases.into_iter().enumerate() {
        let layout = job_layout(name);
        let wanted = wanted.concat();
        let mut sheets = sheets(&format!("trade-{nth}"), &layout, options);
        let json = [&["plan", "-", "--format", "json"], options].concat();
        let json = run_with_input(&json, layout.as_bytes()).stdout;
        sheets.push(("json".to_owned(), bare(&json)));
        let known = |group: &&str| HAD.iter().any(|(had, _)| had == group);
        assert!(wanted.iter().all(known), "{name}: {wanted:?}");
        for (group, facts) in HAD {
            for fact in facts {
                if wanted.contains(&group) {
                    assert_says(&sheets, fact);
                } else {
                    assert_never_says(&sheets, fact);
                }
            }
        }
    }
}
