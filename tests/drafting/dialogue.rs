//! The whole dialogue in a pseudo-terminal: mistakes, "don't know", Ctrl-C, and the same file by options.

use crate::binary::{bleedwright, empty_folder};
use crate::command_line::run;
use rexpect::session::{PtySession, spawn_command};
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::Stdio;

/// Long enough for a loaded machine; a dialogue that hangs ends here.
const PATIENCE_MS: u64 = 60_000;

fn start(folder: &Path, file: &str) -> PtySession {
    let mut command = bleedwright();
    command
        .current_dir(folder)
        .args(["draft", "--width", "60", "-o", file]);
    spawn_command(command, Some(PATIENCE_MS)).expect("a pseudo-terminal can be had")
}

fn answer(session: &mut PtySession, question: &str, answer: &str) {
    session
        .exp_string(question)
        .unwrap_or_else(|error| panic!("{question}: {error}"));
    session.exp_string("> ").expect("every question ends so");
    session.send_line(answer).expect("the program listens");
}

#[test]
fn the_whole_dialogue_gives_the_file_of_the_same_options() {
    let folder = empty_folder("dialogue-whole");
    let mut session = start(&folder, "asked.ron");
    let mut say = |question: &str, text: &str| answer(&mut session, question, text);
    say("steering wheel", "up");
    say("give one of left, right, centre", "left");
    say("Which fluid", "don't know");
    say("Which master cylinder", "?");
    say("Which booster", "big");
    say("give one of vacuum", "vacuum");
    say("How many pipes leave", "many");
    say("give a number from 1 to 6", "4");
    say("anti-lock unit", "perhaps");
    say("give yes or no", "no");
    say("How far behind", "5");
    say("has no unit", "12 m");
    say("check the unit", "0.1 m");
    say("Which size are the pipes", "4.75 mm x 0.70 mm");
    say("Which front brakes", "plate");
    say("give one of disc", "disc");
    say("Which rear brakes", "drum");
    say("hoses lead to one front wheel", "1");
    say("run to the rear", "2");
    say("feeds the front left wheel", "front");
    say("give one of nearest, farthest", "farthest");
    say("rear brakes fed", "independent");
    say("long pipe to the rear", "");
    say("How far apart are the axles", "2.45 m");
    say("How far apart are the wheels", "1.40 m");
    say("Which units", "");
    say("called", "Hatch");
    session.exp_string("is written").expect("it says so");
    session.exp_eof().expect("it ends");
    let asked = fs::read_to_string(folder.join("asked.ron")).expect("it was written");
    let by_options = run(
        "draft --steering left --split X --half farthest --cylinder-behind-axle '0.1 m' \
         --booster vacuum --pipe '4.75 mm x 0.70 mm' --front disc --rear drum \
         --rear-axle independent --wheelbase '2.45 m' --track '1.40 m' --name Hatch",
    );
    assert_eq!(asked, by_options.stdout);
}

/// Questions, hints, refusals and what follows keep to sixty columns, over a pipe too.
#[test]
fn a_narrow_terminal_is_kept_to() {
    let folder = empty_folder("dialogue-narrow");
    let mut command = bleedwright();
    command
        .current_dir(&folder)
        .args(["draft", "--ask", "--width", "60", "-o", "narrow.ron"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let mut child = command.spawn().expect("the program starts");
    let answers = "up\nleft\nwine\n?\n?\nhuge\n?\nmany\n4\nperhaps\nno\n5\n40 m\n?\nthin\n?\nround\n?\n\n3\n1\n2\n\n\n\n\n\n\n\n";
    let mut stdin = child.stdin.take().expect("it is a pipe");
    stdin
        .write_all(answers.as_bytes())
        .expect("the program listens");
    drop(stdin);
    let done = child.wait_with_output().expect("it ends");
    let [printed, asked] = [&done.stdout, &done.stderr].map(|it| String::from_utf8_lossy(it));
    assert!(done.status.success(), "{asked}");
    assert!(asked.contains("give one of left"), "{asked}");
    assert!(printed.contains("WORTH MEASURING"), "{printed}");
    for line in printed.lines().chain(asked.lines()) {
        assert!(line.chars().count() <= 60, "{line}");
    }
}

#[test]
fn nothing_known_is_a_draft_too() {
    let folder = empty_folder("dialogue-unknown");
    let mut session = start(&folder, "unknown.ron");
    for _ in 0..17 {
        session.exp_string("> ").expect("a question");
        session.send_line("").expect("the program listens");
    }
    session.exp_string("is written").expect("it says so");
    let text = fs::read_to_string(folder.join("unknown.ron")).expect("it was written");
    assert!(
        text.contains("Not known: this draft has the split"),
        "{text}"
    );
}

#[test]
fn an_interrupt_leaves_nothing_behind() {
    for answered in [0, 3, 9] {
        let folder = empty_folder(&format!("dialogue-interrupted-{answered}"));
        let mut session = start(&folder, "never.ron");
        for _ in 0..answered {
            session.exp_string("> ").expect("a question");
            session.send_line("").expect("the program listens");
        }
        session.exp_string("> ").expect("a question");
        session.send_control('c').expect("the program listens");
        session.exp_eof().expect("it ends");
        let left: Vec<_> = fs::read_dir(&folder).expect("it is there").collect();
        assert!(left.is_empty(), "{left:?}");
    }
}

/// A dialogue that ends at an impossible vehicle does not lose the answers: they come back as options.
#[test]
fn the_answers_of_an_impossible_vehicle_come_back_as_options() {
    let folder = empty_folder("dialogue-impossible");
    let mut session = start(&folder, "never.ron");
    let answers = "left,,tandem,none,1,no,0.1 m,3/16 in,,,rigid,,2.45 m +- 0.02 m,,,A b";
    for text in answers.split(',') {
        session.exp_string("> ").expect("a question");
        session.send_line(text).expect("the program listens");
    }
    session.exp_string("as many chambers").expect("the reason");
    let told = session.exp_eof().expect("it ends");
    for option in [
        "--split single",
        "--cylinder tandem",
        "--wheelbase '2.45 m ",
        "--name 'A b'",
    ] {
        assert!(told.contains(option), "{option}: {told}");
    }
    assert!(fs::read_dir(&folder).expect("it is there").next().is_none());
}
