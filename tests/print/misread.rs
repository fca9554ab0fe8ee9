//! What must not be misread, on every kind of sheet: text, Markdown, page, paper.

mod had;

use super::{reader, squeezed};
use crate::command_line::run_with_input;
use crate::demo::{demo_text, plan_demo};
use crate::table::{blocks, rows};
use bleedwright_planner::{Method, Options, Purpose};
use bleedwright_report::{Card, Instruction};
use had::{ALWAYS, HAD, JOBS, job_layout, names};
use std::path::Path;

const FORMATS: [&str; 3] = ["text", "markdown", "html"];

/// Without blanks, and without what a format needs around a name.
fn bare(text: &str) -> String {
    squeezed(text).replace(['`', '\\', '“', '”'], "")
}

/// A layout planned with these options, on every kind of sheet.
fn sheets(test: &str, layout: &str, options: &str) -> Vec<(String, String)> {
    let call = |more: &str| {
        let call = format!("plan - {options} {more}");
        let run = run_with_input(&call, layout.as_bytes());
        assert_eq!(run.code, Some(0), "{call}: {}", run.stderr);
        run.stdout
    };
    let formats = FORMATS.iter().map(|format| {
        let pages = if *format == "text" { "--why" } else { "" };
        let said = bare(&call(&format!("--format {format} {pages}")));
        ((*format).to_owned(), said)
    });
    let mut sheets: Vec<(String, String)> = formats.collect();
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("misread-{test}.pdf"));
    let name = file.to_str().expect("the folder has a plain name");
    call(&format!("--format pdf --overwrite -o '{name}'"));
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
    let its_tools =
        "\"inner\", at_top: true,\n                 spanner: \"7/16 in\", torque: \"6 lbf ft\"";
    let at = layout.find("front left inner").expect("its screw");
    let (before, after) = layout.split_at(at);
    let after = after.replacen(its_tools, "\"inner\", at_top: true", 1);
    let sheets = sheets("apart", &format!("{before}{after}"), "");
    for tools in [
        "spanner 7/16 in [ ] 6 lbf ft",
        "spanner ____ [ ] maker's torque",
    ] {
        assert_says(&sheets, tools);
    }
}

/// Jobs on demo vehicles, and below them what their sheets say, behind `+`, and what none of them says, behind `-`.
const SAYINGS: &str = "
// Nothing pushes fluid behind the valves of an empty unit.
godwit | --for fill
godwit | --opened 'anti-lock unit'
godwit | --drained 'anti-lock unit'
godwit | --for fill --done 'front left' --done 'rear right'
+ up to 6.0 ml of AIR stay in anti-lock unit
+ NOT FINISHED and the vehicle NOT ROADWORTHY until the maker's routine has been run
+ anti-lock unit: pressed gently, all joints dry; then the maker's routine run
+ anti-lock unit: bled again after the routine. NOT FINISHED, NOT ROADWORTHY before
+ NO road test before the anti-lock unit is finished
- old fluid behind its valves

// Upstream of the unit: nobody knows how far the fluid ran out.
godwit | --opened master
+ of AIR may stay in anti-lock unit
+ NOT FINISHED and the vehicle NOT ROADWORTHY until the maker's routine has been run

// Old fluid there is called old fluid.
godwit |
godwit | --opened 'front left caliper'
+ of old fluid behind its valves
+ ml more if the anti-lock unit's routine is run
- on the way of what the routine frees
- of AIR
- NOT ROADWORTHY

lapwing | --skip 'rear left' --skip 'front right'
+ BW409 the screw rear left is left out: whatever air or old fluid is behind it stays; bleed it before the vehicle is driven
+ BW409 the screw front right is left out: whatever air or old fluid is behind it stays; bleed it before the vehicle is driven
+ NO road test before the screws left out are bled
- slow road test away from traffic

// Nothing left out is nothing said. The marks of the jar count what leaves the screws; what a syringe drew off the
// reservoir would push them up.
lapwing |
- NOT READY TO DRIVE
+ slow road test away from traffic
+ jar 550 ml, waste can 630 ml

lapwing | --for fill
- waste can

// Two screws open at once fill a jar each, and have their tools.
curlew |
+ jar 400 ml (front cylinder), jar 450 ml (rear cylinder)
+ spanner 7/16 in [ ] 6 lbf ft

// By the reverse method nothing leaves a screw.
lapwing | --for air --method reverse
- fluid, jar
+ fluid, waste can

// Work that an earlier session did is taken for done, and the sheet says so.
lapwing | --done 'rear left'
+ Taken as done: reservoir drawn down
+ If not: now,
- Reservoir drawn down to just above its ports

lapwing | --for fill --done 'rear left'
- Dry: master
+ Taken as done: master bled on the bench
- reservoir drawn down
";

#[test]
fn sheets_say_what_a_job_asks_for_and_nothing_else() {
    for (jobs, sayings) in blocks(SAYINGS) {
        for job in jobs {
            let (demo, options) = job.split_once(" |").expect("a vehicle and options");
            let sheets = sheets("sayings", &demo_text(demo), options);
            for (sign, words) in &sayings {
                match *sign {
                    "+ " => assert_says(&sheets, words),
                    _ => assert_never_says(&sheets, words),
                }
            }
        }
    }
}

/// What a job on which screws are missing must still see to stands above all other checks.
#[test]
fn screws_left_out_come_first() {
    let skip = "--skip 'rear left' --skip 'front right'";
    let first = "Screws left out bled: front right, rear left. NOT READY TO DRIVE before";
    for (format, said) in sheets("skip", &demo_text("lapwing"), skip) {
        let at = said
            .find(&bare(first))
            .unwrap_or_else(|| panic!("{format}"));
        let torque = said
            .find("Allscrewstotorque")
            .expect("the torque is a check");
        assert!(at < torque, "{format}: it is not the first check");
    }
}

#[test]
fn a_fluid_that_is_not_stated_is_asked_of_the_manual() {
    let layout = demo_text("lapwing");
    let without: Vec<&str> = layout
        .lines()
        .filter(|line| !line.trim_start().starts_with("fluid:"))
        .collect();
    let sheets = sheets("no-fluid", &without.join("\n"), "");
    assert_says(&sheets, "Of the grade that the maker's manual names");
    assert_never_says(&sheets, "New the maker's");
}

/// The steps after the routine are as good as the first ones: on every sheet, with what they push, and bought.
#[test]
fn the_second_bleed_stands_on_every_sheet() {
    for (unit, layout, options) in [
        ("opened", "godwit", "--opened 'anti-lock unit'"),
        ("tank", "godwit", "--for fill"),
    ] {
        let method = if unit == "tank" { "pressure" } else { "pedal" };
        let call = format!("{options} --method {method}");
        let sheets = sheets(&format!("second-{unit}"), &demo_text(layout), &call);
        let mut planned = Options {
            method: if unit == "tank" {
                Method::Pressure
            } else {
                Method::Pedal
            },
            ..Options::default()
        };
        match unit {
            "opened" => planned.opened = vec!["anti-lock unit".to_owned()],
            _ => planned.purpose = Some(Purpose::Fill),
        }
        let card = Card::new(&plan_demo(layout, &planned));
        let press = |line: &&Instruction| line.does.plain().starts_with("Pressed HARD");
        assert_eq!(card.all_after().filter(press).count(), 1);
        let second = card.second.expect("the unit keeps air");
        assert_eq!(second.steps.len(), 6);
        for step in &second.steps {
            assert_says(&sheets, &step.why.plain());
            for row in &step.rows {
                let levels = row.levels.iter().map(|(_, when)| when);
                let texts = row.cells.iter().chain(levels);
                texts.for_each(|it| assert_says(&sheets, &it.plain()));
            }
        }
        assert_says(&sheets, &second.how.to_string());
        assert_says(&sheets, "second bleed at most");
        // The one hard press shows what the last screw that was opened lets out.
        for (format, said) in &sheets {
            let place = |words: &str| {
                said.find(&bare(words))
                    .unwrap_or_else(|| panic!("{format}: {words}"))
            };
            let order = [
                place("maker's routine run"),
                place(&second.how.plain()),
                place("bled again after the routine"),
                place("Topped up; pumped gently until firm"),
                place("Pressed HARD, held 10 s"),
            ];
            assert!(order.is_sorted(), "{format}: {order:?}");
        }
    }
}

/// What is new, parked, looked into or worked otherwise than by a foot is spoken of where the vehicle or the job has it, and
/// nowhere else; JSON says it too.
#[test]
fn what_a_job_has_stands_on_its_sheets_and_on_no_other() {
    for (nth, [name, options, has]) in rows(JOBS).enumerate() {
        let layout = job_layout(name);
        let wanted = names(has);
        let mut sheets = sheets(&format!("trade-{nth}"), &layout, options);
        let json = format!("plan - --format json {options}");
        let json = run_with_input(&json, layout.as_bytes()).stdout;
        sheets.push(("json".to_owned(), bare(&json)));
        let known = |group: &&str| rows(HAD).any(|[had, _]| had == *group);
        assert!(wanted.iter().all(known), "{name}: {wanted:?}");
        for fact in ALWAYS {
            assert_says(&sheets, fact);
        }
        for [group, fact] in rows(HAD) {
            if wanted.contains(&group) {
                assert_says(&sheets, fact);
            } else {
                assert_never_says(&sheets, fact);
            }
        }
    }
}
