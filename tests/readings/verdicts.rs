//! Each check at, above and under its limit.

use super::{blank, complete, with};
use crate::table::rows;
use bleedwright_inspection::record::{Answer, BrakeType, Entry};
use bleedwright_inspection::{Record, State, judge_record};
use bleedwright_report::{check_name, sheet_verdict};

/// The state of the check whose subject and name begin so.
pub(super) fn state(record: &Record, subject: &str, what: &str) -> State {
    let sheet = judge_record(record);
    let check = sheet
        .checks
        .iter()
        .find(|check| check.subject == subject && check_name(check.what).starts_with(what))
        .unwrap_or_else(|| panic!("no check `{subject}` `{what}`"));
    check.state
}

#[track_caller]
pub(super) fn assert_state(setting: (&str, &'static str), check: (&str, &str), wanted: State) {
    let record = with(&complete(), setting.0, setting.1);
    assert_eq!(state(&record, check.0, check.1), wanted, "{setting:?}");
    if wanted != State::Within {
        assert_ne!(judge_record(&record).state(), State::Within, "{setting:?}");
    }
}

#[test]
fn a_complete_record_is_within_its_limits() {
    let sheet = judge_record(&complete());
    let odd: Vec<_> = sheet
        .checks
        .iter()
        .filter(|check| check.state != State::Within)
        .collect();
    assert!(odd.is_empty(), "{odd:#?}");
    assert_eq!(sheet.state(), State::Within);
    // Even then nothing is promised.
    assert!(sheet_verdict(&sheet).contains("does not prove"));
}

/// What is set in a complete record, the check that it is about, and its state.
const LIMITS: &str = "
// Common practice, no source: at or under the embossed figure fails; 19.6 mm against 20 mm. 13/16 in is 20.6375 mm.
front left disc = 19.6 mm | front left, disc thickness | Fails
front left disc = 20.0 mm | front left, disc thickness | Fails
front left disc = 2 cm | front left, disc thickness | Fails
front left disc = 20.1 mm | front left, disc thickness | Within
front left disc = 20.1 mm ± 0.2 mm | front left, disc thickness | Fails
front left disc = not_checked | front left, disc thickness | NotChecked
front left disc minimum = not_checked | front left, disc thickness | NotChecked
front left disc minimum = 13/16 in | front left, disc thickness | Within
front left disc minimum = 13/16 in; front left disc = 20.6375 mm | front left, disc thickness | Fails
rear left drum = 204.4 mm | rear left, drum diameter | Fails
rear left drum = 204 mm | rear left, drum diameter | Fails
rear left drum = 203.9 mm | rear left, drum diameter | Within
rear left drum = 203.9 mm ± 0.2 mm | rear left, drum diameter | Fails
rear left drum = not_checked | rear left, drum diameter | NotChecked
rear left drum maximum = not_checked | rear left, drum diameter | NotChecked
// 49 CFR 393.47(d), read: 1.6 mm. It can fail a lining without a maker's figure and can never pass one.
front left lining = 2.0 mm | front left, lining thickness | Fails
front left lining = 1.9 mm | front left, lining thickness | Fails
front left lining = 3.6 mm | front left, lining thickness | Within
// Above the minimum, but not half of the other side's 7 mm.
front left lining = 2.1 mm | front left, lining thickness | LookAgain
front left lining = 0 mm | front left, lining thickness | Fails
front left lining = 0 mm ± 1 mm | front left, lining thickness | Fails
front left lining minimum = not_checked | front left, lining thickness | NotChecked
front left lining minimum = not_checked; front left lining = 1.5 mm | front left, lining thickness | Fails
front left lining minimum = 1 mm; front left lining = 1.4 mm | front left, lining thickness | LookAgain
// No maker's figure excuses less than the law: 1/32 in, over 10,000 lb and bonded 1/16 in.
front left lining minimum = 1 mm; front left lining = 1.4 mm; vehicle over 10000 lb = not_checked | front left, lining thickness | Fails
front left lining minimum = 1 mm; front left lining = 1.4 mm; vehicle over 10000 lb = yes | front left, lining thickness | Fails
vehicle over 10000 lb = yes; rear left lining minimum = 1 mm; rear left lining = 1.4 mm | rear left, lining thickness | Fails
vehicle over 10000 lb = yes; rear left lining minimum = 1 mm; rear left lining = 1.4 mm; rear left riveted = yes | rear left, lining thickness | LookAgain
front left lining minimum = 0.5 mm; front left lining = 0.79 mm | front left, lining thickness | Fails
front left lining minimum = 0.5 mm; front left lining = 0.8 mm | front left, lining thickness | LookAgain
// 49 CFR 570.55(c), read: at most 80 % at 222 N, the engine running where a booster helps.
pedal depressed = 45 mm | pedal, travel | Within
pedal depressed = 30 mm | pedal, travel | Within
pedal depressed = 29.9 mm | pedal, travel | Fails
pedal depressed = 30 mm ± 1 mm | pedal, travel | Fails
pedal depressed = 0 mm | pedal, travel | Fails
pedal depressed = not_checked | pedal, travel | NotChecked
pedal force = 222 N | pedal, travel | Within
pedal force = 200 N | pedal, travel | NotChecked
pedal force = 300 N | pedal, travel | Within
pedal force = not_checked | pedal, travel | NotChecked
pedal engine running = no | pedal, travel | NotChecked
pedal engine running = not_checked | pedal, travel | NotChecked
pedal booster = not_checked | pedal, travel | NotChecked
pedal booster = no; pedal engine running = not_checked | pedal, travel | Within
// Too far at a larger force than the rule's is no proof either way, unless the force may have been the rule's own.
pedal force = 400 N; pedal depressed = 20 mm | pedal, travel | LookAgain
pedal force = 100 N; pedal depressed = 20 mm | pedal, travel | Fails
pedal depressed = 20 mm; pedal force = 50 lbf ± 6 % | pedal, travel | Fails
pedal depressed = 20 mm; pedal force = 250 N ± 20 N | pedal, travel | Fails
pedal depressed = 20 mm; pedal force = 250 N ± 10 N | pedal, travel | LookAgain
// ASSUMPTION of the limits: free play and cut-off are more than 5 mm at every pedal.
pedal depressed = 150 mm | pedal, travel | LookAgain
pedal depressed = 149.5 mm | pedal, travel | LookAgain
pedal depressed = 148 mm ± 2 mm | pedal, travel | LookAgain
pedal depressed = 146 mm | pedal, travel | LookAgain
pedal depressed = 145 mm | pedal, travel | Within
pedal depressed = 144 mm ± 1 mm | pedal, travel | Within
pedal depressed = 150 mm; pedal force = 100 N | pedal, travel | NotChecked
// 49 CFR 570.55(b), read: 125 lbf (556 N) held for 10 s without a further drop.
pedal hold force = 556 N | pedal, hard press | Within
pedal hold force = 500 N | pedal, hard press | NotChecked
pedal hold force = not_checked | pedal, hard press | NotChecked
pedal hold time = 9 s | pedal, hard press | NotChecked
pedal hold time = 0.5 min | pedal, hard press | Within
pedal hold time = not_checked | pedal, hard press | NotChecked
pedal hold dropped = yes | pedal, hard press | Fails
pedal hold dropped = not_checked | pedal, hard press | NotChecked
pedal hold force = not_checked; pedal hold dropped = yes | pedal, hard press | Fails
// The maker's figure governs; 10 % where it has no tolerance is an assumption.
front left screw torque = 8.1 N m | front left, torque | Within
front left screw torque = 8.0 N m | front left, torque | Fails
front left screw torque = 9.9 N m | front left, torque | Within
front left screw torque = 10 N m | front left, torque | Fails
front left screw torque = 80 lbf in | front left, torque | Within
front left screw torque wanted = not_checked | front left, torque | NotChecked
front left screw torque wanted = 9 N m ± 2.7 N m; front left screw torque = 6.5 N m | front left, torque | Within
// ASSUMPTION of the limits: more than 30 % is no figure to hold against, though what lies outside of it fails.
front left screw torque wanted = 9 N m ± 31 % | front left, torque | NotChecked
front left screw torque wanted = 9 N m ± 31 %; front left screw torque = 20 N m | front left, torque | Fails
front left screw torque wanted = 9 N m ± 85 % | front left, torque | NotChecked
front left screw torque wanted = 9 N m ± 85 %; front left screw torque = 20 N m | front left, torque | Fails
// What is looked at.
front left screw dry = no | front left, dry | Fails
front left screw cap = no | front left, dust cap | LookAgain
front brakes reservoir level = between | front brakes, level | LookAgain
front brakes reservoir level = above_maximum | front brakes, level | LookAgain
front brakes reservoir level = below minimum | front brakes, level | Fails
front brakes reservoir cap = no | front brakes, cap | Fails
leak found = yes | , leak | Fails
hoses sound = no | , hoses | Fails
lamp lights = no | , brake warning lamp | Fails
lamp goes out = no | , lamp | Fails
fluid clear = no | , fluid clear | Fails
pedal firm = no | pedal, firm | Fails
done by =  | , done by | NotChecked
done by = - | , done by | NotChecked
checked by = ? | , checked by | NotChecked
checked by = Ö | , checked by | NotChecked
checked by = Örn | , checked by | Within
checked by = not_checked | , checked by | NotChecked
checked by = The Evening-Class | , checked by | LookAgain
";

#[test]
fn each_check_has_its_limit() {
    let complete = complete();
    for [settings, check, wanted] in rows(LIMITS) {
        let set = |record: Record, setting: &'static str| {
            let (name, value) = setting.split_once(" =").expect("a name and a value");
            with(&record, name, value.trim())
        };
        let record = settings.split("; ").fold(complete.clone(), set);
        let (subject, what) = check.split_once(", ").expect("a subject and a check");
        let found = state(&record, subject, what);
        assert_eq!(format!("{found:?}"), wanted, "{settings}");
        let is_good = judge_record(&record).state() == State::Within;
        assert!(found == State::Within || !is_good, "{settings}");
    }
}

/// No force, and no figure that is missing, makes a pedal on the floor less than a failure.
#[test]
fn a_pedal_on_the_floor_fails_at_any_force() {
    let check = ("pedal", "travel");
    for depressed in ["0 mm", "1 mm", "2 mm ± 2 mm"] {
        let floor = with(&complete(), "pedal depressed", depressed);
        for (name, value) in [
            ("pedal force", "100 N"),
            ("pedal force", "222 N"),
            ("pedal force", "250 N"),
            ("pedal force", "50 lbf ± 6 %"),
            ("pedal force", "5 kN"),
            ("pedal force", "not_checked"),
            ("pedal free", "not_checked"),
            ("pedal engine running", "no"),
        ] {
            let record = with(&floor, name, value);
            assert_eq!(
                state(&record, check.0, check.1),
                State::Fails,
                "{name}: {value}"
            );
        }
    }
}

/// One drum for two wheel cylinders, one disc for each caliper where a wheel has two.
#[test]
fn every_brake_of_every_demo_vehicle_is_asked_for() {
    for (name, discs, drums) in [
        ("lapwing", 2, 2),
        ("plover", 2, 2),
        ("curlew", 4, 0),
        ("whimbrel", 0, 4),
        ("avocet", 4, 0),
    ] {
        let record = blank(name);
        let count = |kind| {
            let brakes = record.brakes.iter();
            brakes
                .filter(|brake| brake.kind.found() == Some(&kind))
                .count()
        };
        assert_eq!(
            (count(BrakeType::Disc), count(BrakeType::Drum)),
            (discs, drums),
            "{name}"
        );
        assert_eq!(record.vehicle.brakes.len(), discs + drums, "{name}");
        assert_eq!(judge_record(&record).state(), State::NotChecked, "{name}");
    }
    // Two separate brakes have a lever and a pedal, a balance bar makes one pedal of two cylinders, a clutch is no brake.
    for (name, controls) in [
        ("turnstone", &["hand lever", "pedal"][..]),
        ("curlew", &["pedal"]),
        ("ruff", &["pedal"]),
    ] {
        assert_eq!(blank(name).vehicle.controls, controls, "{name}");
    }
    for name in crate::demo::ALL {
        let record = blank(name);
        let text = record.to_ron();
        let read = bleedwright_inspection::read_record(text.as_bytes());
        assert!(read.findings.is_empty(), "{name}: {:?}", read.findings);
    }
}

/// The rule's forces are a foot's: on a hand lever nothing is good by them, and what fails there still fails.
#[test]
fn hand_levers() {
    use bleedwright_network::Control;
    let with_kind = |kind: Entry<Control>| {
        let mut record = complete();
        record.controls[0].kind = kind;
        record
    };
    for kind in [Entry::Found(Control::HandLever), Entry::NotChecked] {
        let mut record = with_kind(kind);
        for check in ["travel", "hard press"] {
            assert_eq!(state(&record, "pedal", check), State::NotChecked);
        }
        record.controls[0].hold_dropped = Entry::Found(Answer::Yes);
        assert_eq!(state(&record, "pedal", "hard press"), State::Fails);
    }
    let kinds: Vec<_> = blank("turnstone")
        .controls
        .into_iter()
        .map(|control| control.kind)
        .collect();
    let wanted = [Control::HandLever, Control::Pedal].map(Entry::Found);
    assert_eq!(kinds, wanted);
}
