//! For each option of each verb a call without it, and what it adds.

const DRAFT: &[&str] = &["--split", "II", "--steering", "left"];
const DOT4: &[&str] = &["--grade", "dot4"];

const NO_SHORT_STROKE: &[&str] = &["tests/layouts/broken/stroke_too_short_after_standing.ron"];

/// A call without an option, and what the option adds to it. `DIR` is a folder with the files of [`super::fill`].
pub(super) type Case = (&'static [&'static str], &'static [&'static str]);

/// The options of a plan, which five verbs take: the layout, the options of both calls, and those of the second.
pub(super) fn of_a_plan(option: &str) -> Option<Vec<[&'static [&'static str]; 3]>> {
    const LAPWING: &[&str] = &["layouts/lapwing.ron"];
    const WHIMBREL: &[&str] = &["layouts/whimbrel.ron"];
    const OPENED: &[&str] = &["--opened", "front left caliper"];
    Some(match option {
        "for" => vec![[LAPWING, &[], &["--for", "fill"]]],
        "opened" => vec![[LAPWING, &[], OPENED]],
        "replaced" => vec![[LAPWING, &[], &["--replaced", "front left caliper"]]],
        "drained" => vec![
            [LAPWING, OPENED, &["--drained", "front pipe"]],
            [
                &["layouts/avocet.ron"],
                &["--opened", "red block"],
                &["--drained", "green cylinder pipe"],
            ],
        ],
        "clamped" => vec![
            [LAPWING, OPENED, &["--clamped", "front left hose"]],
            [LAPWING, OPENED, &["--clamped", "front left pipe"]],
        ],
        "plugged" => vec![
            [LAPWING, OPENED, &["--plugged", "front left hose"]],
            [LAPWING, OPENED, &["--plugged", "rail pipe"]],
        ],
        "propped" => vec![
            [LAPWING, OPENED, &["--propped"]],
            [LAPWING, &[], &["--propped"]],
        ],
        "ran-dry" => vec![[LAPWING, OPENED, &["--ran-dry", "rear brakes"]]],
        "depressurised" => vec![[
            &["tests/layouts/broken/accumulator.ron"],
            &[],
            &["--depressurised"],
        ]],
        "registration" => vec![[LAPWING, &[], &["--registration", "SM 1742"]]],
        "date" => vec![[LAPWING, &[], &["--date", "5 April"]]],
        "method" => vec![
            [LAPWING, &[], &["--method", "pressure"]],
            [WHIMBREL, &[], &["--method", "gravity"]],
        ],
        "begin" => vec![
            [LAPWING, &[], &["--begin", "nearest"]],
            [
                &["tests/layouts/broken/order_open.ron"],
                &[],
                &["--begin", "nearest"],
            ],
        ],
        "circuit-first" => vec![
            [LAPWING, &[], &["--circuit-first", "primary"]],
            [
                LAPWING,
                &["--for", "fill"],
                &["--circuit-first", "secondary"],
            ],
        ],
        "order" => vec![[WHIMBREL, &[], &["--order", "front left upper"]]],
        "skip" => vec![[LAPWING, &[], &["--skip", "rear left"]]],
        "done" => vec![
            [LAPWING, &[], &["--done", "rear left"]],
            [
                &["layouts/turnstone.ron"],
                &[
                    "--done",
                    "rear",
                    "--done",
                    "front left",
                    "--done",
                    "front right",
                ],
                &["--done", "lever"],
            ],
        ],
        "residual" => vec![
            [LAPWING, &[], &["--residual", "1 %"]],
            [
                &["tests/layouts/broken/residual_out_of_reach.ron"],
                &[],
                &["--residual", "0.1 %"],
            ],
        ],
        "laid-up" => vec![
            [LAPWING, &[], &["--laid-up"]],
            [NO_SHORT_STROKE, &[], &["--laid-up"]],
        ],
        "stroke" => vec![[LAPWING, &[], &["--stroke", "100 %"]]],
        "tank-pressure" => vec![[
            LAPWING,
            &["--method", "pressure"],
            &["--tank-pressure", "2 bar"],
        ]],
        "bottle" => vec![[LAPWING, &[], &["--bottle", "2 l"]]],
        "temperature" => vec![[
            WHIMBREL,
            &["--method", "gravity"],
            &["--temperature", "-20 degC"],
        ]],
        "new-fluid" => vec![[LAPWING, &[], &["--new-fluid", "dot3"]]],
        _ => return None,
    })
}

/// The options of one verb.
pub(super) fn of_a_verb(verb: &str, option: &str) -> Option<Vec<Case>> {
    Some(match (verb, option) {
        ("completions" | "manual", "color") => vec![(shell(verb), &["--color", "always"])],
        ("completions" | "manual", "width") => vec![(shell(verb), &["--width", "40"])],
        // A verb that prints no text prints messages.
        (_, "color") => vec![(refusing(verb), &["--color", "always"])],
        (_, "width") => vec![(refusing(verb), &["--width", "40"])],
        ("compare", "format") => vec![(
            &["layouts/lapwing.ron", "--with", "--begin nearest"],
            &["--format", "json"],
        )],
        ("fluid", "format") => vec![(DOT4, &["--format", "json"])],
        ("readings", "format") => vec![(&["DIR/record.ron"], &["--format", "record-json"])],
        (_, "format") => vec![(&["layouts/lapwing.ron"], &["--format", "json"])],
        (_, "output") => vec![(sheet(verb), &["-o", "DIR/new"])],
        (_, "overwrite") => vec![(written(verb), &["--overwrite"])],
        ("compare", "with") => vec![(
            &["layouts/lapwing.ron", "--with", "--begin nearest"],
            &["--with", "--for fill"],
        )],
        ("compare", "orders") => vec![(&["layouts/lapwing.ron"], &["--orders"])],
        ("compare", "most-orders") => vec![(
            &["layouts/lapwing.ron", "--orders"],
            &["--most-orders", "5"],
        )],
        ("compare", "without-gravity") => vec![(
            &[
                "layouts/lapwing.ron",
                "--for",
                "fill",
                "--with",
                "--begin nearest --for fill",
            ],
            &["--without-gravity"],
        )],
        ("simulate", "press") => vec![(&["layouts/lapwing.ron"], &["--press", "5"])],
        ("simulate", "hold") => vec![(&["layouts/lapwing.ron"], &["--hold", "9"])],
        ("simulate", "release") => vec![(&["layouts/lapwing.ron"], &["--release", "9"])],
        ("simulate", "left-open") => vec![(&["layouts/lapwing.ron"], &["--left-open"])],
        ("simulate", "without-gravity") => vec![(
            &["layouts/lapwing.ron", "--for", "fill"],
            &["--without-gravity"],
        )],
        ("simulate", "pocket") => vec![(
            &["layouts/lapwing.ron", "--opened", "front tee"],
            &["--pocket", "300 mm"],
        )],
        ("simulate", "index") => vec![(
            &["layouts/whimbrel.ron", "--for", "fill"],
            &["--index", "1.4"],
        )],
        ("readings", "for") => vec![(&["DIR/new.ron"], &["--for", "layouts/lapwing.ron"])],
        ("readings", "with") => vec![(
            &["DIR/new.ron", "--for", "layouts/lapwing.ron"],
            &["--with", "--method pressure"],
        )],
        ("readings", "set") => vec![(&["DIR/record.ron"], &["--set", "pedal free = 150 mm"])],
        ("readings", "names") => vec![(&["DIR/record.ron"], &["--names"])],
        ("draft", _) => return of_draft(option),
        ("fluid" | "pedal", _) => return of_a_judgement(verb, option),
        _ => return None,
    })
}

fn shell(verb: &str) -> &'static [&'static str] {
    if verb == "completions" {
        &["bash"]
    } else {
        &[]
    }
}

/// A call that prints a sheet.
fn sheet(verb: &str) -> &'static [&'static str] {
    match verb {
        "compare" => &["layouts/lapwing.ron", "--with", "--begin nearest"],
        "draft" => &["--split", "II", "--steering", "left"],
        "readings" => &["DIR/record.ron"],
        _ => &["layouts/lapwing.ron"],
    }
}

/// The same into a file that is there.
fn written(verb: &str) -> &'static [&'static str] {
    match verb {
        "compare" => &[
            "layouts/lapwing.ron",
            "--with",
            "--begin nearest",
            "-o",
            "DIR/old",
        ],
        "draft" => &["--split", "II", "--steering", "left", "-o", "DIR/old"],
        "readings" => &["DIR/record.ron", "-o", "DIR/old"],
        _ => &["layouts/lapwing.ron", "-o", "DIR/old"],
    }
}

/// A call that says more than a line about what is wrong.
fn refusing(verb: &str) -> &'static [&'static str] {
    match verb {
        "compare" => &["tests/layouts/broken/zero.ron", "--with", "--begin nearest"],
        "draft" => &[
            "--split",
            "II",
            "--steering",
            "left",
            "--update",
            "tests/layouts/broken/zero.ron",
        ],
        "fluid" => &["--layout", "tests/layouts/broken/zero.ron"],
        _ => &["tests/layouts/broken/zero.ron"],
    }
}

fn of_draft(option: &str) -> Option<Vec<Case>> {
    Some(match option {
        "split" => vec![
            (DRAFT, &["--split", "X"]),
            (&["--steering", "left"], &["--split", "X"]),
        ],
        "steering" => vec![(&["--split", "II"], &["--steering", "left"])],
        "wheelbase" => vec![(DRAFT, &["--wheelbase", "3.1 m"])],
        "track" => vec![(DRAFT, &["--track", "1.9 m"])],
        "cylinder-behind-axle" => vec![(DRAFT, &["--cylinder-behind-axle", "0.9 m"])],
        "cylinder" => vec![(DRAFT, &["--cylinder", "twin"])],
        "half" => vec![(DRAFT, &["--half", "nearest"])],
        "booster" => vec![(DRAFT, &["--booster", "none"])],
        "front" => vec![(DRAFT, &["--front", "drum"])],
        "rear" => vec![(DRAFT, &["--rear", "disc"])],
        "rear-axle" => vec![(DRAFT, &["--rear-axle", "independent"])],
        "pipe" => vec![(DRAFT, &["--pipe", "1/4 in"])],
        "rear-pipe" => vec![(DRAFT, &["--rear-pipe", "1/4 in"])],
        "anti-lock" => vec![(DRAFT, &["--anti-lock"])],
        "fluid" => vec![(DRAFT, &["--fluid", "dot3"])],
        "units" => vec![(DRAFT, &["--units", "inch"])],
        "name" => vec![(DRAFT, &["--name", "Stilt"])],
        "ask" => vec![(DRAFT, &["--ask"])],
        "from" => vec![(&[], &["--from", "lapwing"])],
        "shapes" => vec![(&["--from", "van"], &["--shapes", "DIR/shapes"])],
        "update" => vec![(
            &["--set", "front pipe length = 0.5 m"],
            &["--update", "DIR/van.ron"],
        )],
        "set" => vec![(
            &["--update", "DIR/van.ron"],
            &["--set", "front pipe length = 0.5 m"],
        )],
        _ => return None,
    })
}

/// What judges fluid or a pedal.
fn of_a_judgement(verb: &str, option: &str) -> Option<Vec<Case>> {
    Some(match (verb, option) {
        ("fluid", "grade") => vec![(&[], DOT4)],
        ("fluid", "layout") => vec![(DOT4, &["--layout", "layouts/lapwing.ron"])],
        ("fluid", "moisture") => vec![(DOT4, &["--moisture", "2.5 %"])],
        ("fluid", "boiling") => vec![(DOT4, &["--boiling", "150 degC"])],
        ("fluid", "age") => vec![(DOT4, &["--age", "30 months"])],
        ("fluid", "interval") => {
            vec![(
                &["--grade", "dot4", "--age", "30 months"],
                &["--interval", "3 years"],
            )]
        }
        ("fluid", "look") => vec![(DOT4, &["--look", "water"])],
        ("fluid", "mixed-with") => vec![(DOT4, &["--mixed-with", "dot3"])],
        ("fluid", "of-the-label") => vec![(
            &[
                "--grade",
                "dot4",
                "--moisture",
                "2.5 %",
                "--label-dry",
                "280 degC",
            ],
            &["--of-the-label"],
        )],
        ("fluid", "bottle-grade") => vec![(DOT4, &["--bottle-grade", "dot3"])],
        ("fluid", "bottle-moisture") => vec![(DOT4, &["--bottle-moisture", "0.4 %"])],
        ("fluid", "opened-for") => vec![(DOT4, &["--opened-for", "8 months"])],
        ("fluid", "label-wet") => vec![(DOT4, &["--label-wet", "170 degC"])],
        ("fluid", "label-dry") => vec![(DOT4, &["--label-dry", "280 degC"])],
        ("pedal", "control") => {
            vec![(&["layouts/turnstone.ron"], &["--control", "lever cylinder"])]
        }
        ("pedal", "force") => vec![(&["layouts/lapwing.ron"], &["--force", "500 N"])],
        ("pedal", "booster") => vec![(&["layouts/lapwing.ron"], &["--booster", "exhausted"])],
        ("pedal", "air") => vec![(&["layouts/lapwing.ron"], &["--air", "5 ml"])],
        ("pedal", "air-in") => vec![(
            &["layouts/lapwing.ron", "--air", "5 ml"],
            &["--air-in", "secondary"],
        )],
        ("pedal", "measured") => vec![(
            &["layouts/lapwing.ron", "--booster", "exhausted"],
            &["--measured", "300 N: 66 mm"],
        )],
        ("pedal", "pumped") => vec![(
            &[
                "layouts/lapwing.ron",
                "--booster",
                "exhausted",
                "--measured",
                "300 N: 66 mm",
            ],
            &["--pumped", "300 N: 58 mm"],
        )],
        ("pedal", "symptom") => vec![(&["layouts/lapwing.ron"], &["--symptom", "sinking"])],
        ("pedal", "bore") => vec![(&["layouts/lapwing.ron"], &["--bore", "20 mm"])],
        ("pedal", "ratio") => vec![(&["layouts/lapwing.ron"], &["--ratio", "5"])],
        ("pedal", "share") => vec![(&["layouts/curlew.ron"], &["--share", "60 %"])],
        _ => return None,
    })
}
