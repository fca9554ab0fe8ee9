//! Every order of many screws: the search ends, says of how many it looked at how many, and can be stopped.

use super::{compared, number, row_of_brakes};
use crate::binary::{bleedwright, empty_folder};
use crate::command_line::{Run, run, run_with_input, words};
use rexpect::process::WaitStatus;
use rexpect::session::spawn_command;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;

fn orders_of_a_row(screws: usize, more: &str) -> Run {
    let layout = row_of_brakes(screws);
    let call = format!("compare - --orders {more}");
    let done = run_with_input(&call, layout.as_bytes());
    assert_eq!(done.code, Some(0), "{}", done.stderr);
    // No terminal, no progress.
    assert_eq!(done.stderr, "");
    done
}

fn document(done: &Run) -> Value {
    serde_json::from_str(&done.stdout).expect("it is JSON")
}

/// 81! is 5.797e120 and 40! 8.159e47, by Stirling's series.
#[test]
fn many_screws_are_looked_at_in_part_and_that_is_said() {
    let json = orders_of_a_row(81, "--format json");
    let part = &document(&json)["part"];
    let whole = |value: &Value| value.as_u64().expect("it is a whole number");
    let looked_at = whole(&part["looked_at"]);
    assert!((2..400).contains(&looked_at), "{part}");
    assert_eq!(part["of"], Value::Null);
    assert_eq!(part["of_power_of_ten"], 120);
    assert_eq!(document(&json)["is_sampled"], true);
    let [tried, refused] = ["tried", "refused"].map(|field| whole(&document(&json)[field]));
    assert_eq!(tried + refused, looked_at);

    let text = orders_of_a_row(81, "");
    let words = text.unwrapped();
    for said in [
        "SOME ORDERS: Stilt",
        &format!("{looked_at} of more than 10^120 orders, the rest not looked at"),
        &format!("best of {looked_at} "),
        &format!("worst of {looked_at} "),
        &format!("Not known: the other orders were not looked at. Of these {looked_at} the worst"),
    ] {
        assert!(words.contains(said), "{said}: {words}");
    }
    for never in ["EVERY ORDER", "Almost nothing", "Not at all"] {
        assert!(!words.contains(never), "{words}");
    }
    assert_eq!(orders_of_a_row(81, "").stdout, text.stdout);
    assert_eq!(orders_of_a_row(81, "--format json").stdout, json.stdout);
}

/// The limit is one of work: as many lines and parts are passed together, whatever the layout. By hand: block `k` lies
/// behind `k + 1` pipes and its brakes one further on, and a pipe and a part are passed each time.
#[test]
fn the_limit_holds_the_work_and_not_the_orders() {
    const MOST_PASSED: u64 = 40_000;
    let mut before = u64::MAX;
    for screws in [81, 161] {
        let part = &document(&orders_of_a_row(screws, "--format json"))["part"];
        let looked_at = part["looked_at"].as_u64().expect("it is a number");
        let passed: u64 = (0..screws as u64).map(|nth| 2 * (nth / 8 + 2)).sum();
        assert!(looked_at * passed <= MOST_PASSED, "{looked_at} of {screws}");
        // Strokes count little here, and the last order may not fit in any more.
        assert!(
            (looked_at + 1) * passed * 11 >= MOST_PASSED * 10,
            "{looked_at} of {screws}"
        );
        assert!(looked_at < before);
        before = looked_at;
    }
}

#[test]
fn the_user_may_set_the_limit() {
    let (_, all) = compared("layouts/lapwing.ron --orders");
    assert!(all.get("part").is_none(), "{all}");
    for most in ["24", "25", "100000"] {
        assert_eq!(
            compared(&format!(
                "layouts/lapwing.ron --orders --most-orders {most}"
            ))
            .1,
            all
        );
    }
    for most in [1_u64, 10, 23] {
        let call = format!("layouts/lapwing.ron --orders --most-orders {most}");
        let (_, part) = compared(&call);
        assert_eq!(part["part"]["looked_at"], most);
        assert_eq!(part["part"]["of"], 24);
        assert_eq!(part["is_sampled"], true);
        for which in ["best", "worst"] {
            let [of_part, of_all] = [&part, &all].map(|it| number(&it[which]["air_left_ml"]));
            let is_within = if which == "best" {
                of_part >= of_all
            } else {
                of_part <= of_all
            };
            assert!(is_within, "{which} of {most}");
        }
        let words = run(&format!("compare {call}")).unwrapped();
        assert!(
            words.contains(&format!("{most} of 24 orders, the rest not looked at")),
            "{words}"
        );
        assert!(words.contains("HOW MUCH IT MATTERS Not known"), "{words}");
    }
    // More than the program takes of itself: the same screws, and more orders.
    let more = document(&orders_of_a_row(20, "--format json --most-orders 410"));
    assert_eq!(more["part"]["looked_at"], 410);
}

/// A terminal sees how far it is. Ctrl-C ends it at once, and every file is as it was.
#[test]
fn an_interrupt_ends_the_search_and_leaves_nothing_behind() {
    let folder = empty_folder("orders-interrupted");
    let layout = row_of_brakes(81);
    fs::write(folder.join("stilt.ron"), &layout).expect("the folder can be written to");
    fs::write(folder.join("old"), "old").expect("the folder can be written to");
    for output in ["-o new", "-o old --overwrite"] {
        let mut command = bleedwright();
        command.current_dir(&folder).args(words(&format!(
            "compare stilt.ron --orders --most-orders 100000 {output}"
        )));
        let mut session =
            spawn_command(command, Some(60_000)).expect("a pseudo-terminal can be had");
        session
            .exp_string(" of 100000 orders looked at")
            .expect("the terminal sees how far it is");
        session.send_control('c').expect("the program listens");
        let told = session.exp_eof().expect("it ends");
        assert!(told.contains("ended; no file was written"), "{told}");
        let ended = session.process().wait().expect("it has ended");
        assert!(matches!(ended, WaitStatus::Exited(_, 130)), "{ended:?}");
        let left: BTreeMap<String, Vec<u8>> = fs::read_dir(&folder)
            .expect("the folder can be read")
            .map(|entry| entry.expect("it can be read"))
            .map(|entry| {
                let content = fs::read(entry.path()).expect("it is a file");
                (entry.file_name().to_string_lossy().into_owned(), content)
            })
            .collect();
        let before = [
            ("old", b"old".to_vec()),
            ("stilt.ron", layout.clone().into_bytes()),
        ];
        assert_eq!(
            left,
            before
                .map(|(name, content)| (name.to_owned(), content))
                .into()
        );
    }
}

/// The line that tells how far it is goes away, and the sheet is the same as without a terminal.
#[test]
fn a_terminal_is_left_with_the_sheet_alone() {
    let folder = empty_folder("orders-terminal");
    fs::write(folder.join("stilt.ron"), row_of_brakes(81)).expect("the folder can be written to");
    let mut command = bleedwright();
    command
        .current_dir(&folder)
        .args(words("--color never --width 80 compare stilt.ron --orders"));
    let mut session = spawn_command(command, Some(120_000)).expect("a pseudo-terminal can be had");
    let seen = session.exp_eof().expect("it ends").replace("\r\n", "\n");
    let (progress, sheet) = seen.rsplit_once('\r').expect("the line was taken away");
    assert!(progress.contains(" orders looked at\r"), "{progress}");
    assert_eq!(sheet, orders_of_a_row(81, "").stdout);
}
