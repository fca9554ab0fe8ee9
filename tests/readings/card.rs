//! What a job card keeps in a record.

use super::{blank, complete};
use bleedwright_inspection::record::{AMOUNTS_REVISION, Counted, Ticked};
use bleedwright_inspection::{judge_record, read_record, reading_names, set_readings};
use bleedwright_network::Code;
use bleedwright_report::{Paper, readings_html, readings_text};

fn list(texts: &[&str]) -> Vec<String> {
    texts.iter().map(|&text| text.to_owned()).collect()
}

#[test]
fn marks_are_read_kept_and_written() {
    let mut record = complete();
    let plain = record.clone();
    record.card.plan = "1b4f0e9851971998".to_owned();
    record.card.ticked = Ticked(list(&["before 1", "step 2", "after 10"]));
    record.card.counted = Counted(list(&[
        "step 1: 52",
        "step 1 stops: 3",
        "step 1 stop 2: 34",
        "step 1 give up: 211",
        "step 1 jar 1: 160.5",
    ]));
    for text in [record.to_ron(), record.to_json()] {
        let read = read_record(text.as_bytes());
        assert!(read.findings.is_empty(), "{:#?}", read.findings);
        assert_eq!(read.record.as_ref(), Some(&record));
        let (text, _) = set_readings(&text, &[("moisture", "1.1 %")]).expect("the value fits");
        assert_eq!(
            read_record(text.as_bytes()).record.expect("a record").card,
            record.card
        );
    }
    assert_eq!(judge_record(&record).checks, judge_record(&plain).checks);
    assert_eq!(reading_names(&record), reading_names(&plain));
}

#[test]
fn a_record_without_a_card_has_no_place_for_one() {
    let record = blank("lapwing");
    assert!(!record.to_ron().contains("card"));
    assert!(!record.to_json().contains("card"));
    let text = record.to_json().replace(
        "\"checks\":",
        "\"card\": {\"plan\": null, \"ticked\": null}, \"checks\":",
    );
    assert_eq!(read_record(text.as_bytes()).record, Some(record));
}

#[test]
fn marks_that_no_card_writes_are_refused() {
    for (card, code) in [
        ("{\"ticked\": [\"wheel 1\"]}", Code::UnknownWord),
        ("{\"ticked\": \"before 1\"}", Code::WrongType),
        ("{\"counted\": [\"step 1: many\"]}", Code::UnknownWord),
        ("{\"counted\": {}}", Code::WrongType),
        ("{\"colour\": \"blue\"}", Code::UnknownField),
    ] {
        let text = blank("lapwing")
            .to_json()
            .replace("\"checks\":", &format!("\"card\": {card}, \"checks\":"));
        let read = read_record(text.as_bytes());
        let codes: Vec<Code> = read.findings.iter().map(|finding| finding.code).collect();
        assert_eq!(codes, [code], "{card}");
        assert!(read.record.is_none());
    }
}

/// A card that was saved before the amounts changed, as it stands in files of that time: it loads, its readings can be
/// set, and the sheet says by what it was worked. Without a card nothing is said.
#[test]
fn a_record_of_an_older_plan_loads_and_says_so() {
    let with_card = |card: &str| {
        let text = complete().to_json();
        let card = format!("\"card\": {card}, \"checks\":");
        text.replace("\"checks\":", &card)
    };
    let older =
        "{\"plan\": \"1b4f0e9851971998\", \"ticked\": [\"step 1\"], \"counted\": [\"step 1: 52\"]}";
    let today = format!("{{\"plan\": \"1b4f0e9851971998\", \"amounts\": \"{AMOUNTS_REVISION}\"}}");
    for (card, is_older) in [
        (older, true),
        ("{\"plan\": \"1b4f0e9851971998\", \"amounts\": \"1\"}", true),
        (&today, false),
        ("{\"plan\": \"\", \"ticked\": []}", false),
    ] {
        let text = with_card(card);
        let read = read_record(text.as_bytes());
        assert!(read.findings.is_empty(), "{card}: {:#?}", read.findings);
        let record = read.record.expect("it can be read");
        let sheet = judge_record(&record);
        assert_eq!(sheet.is_of_older_plan, is_older, "{card}");
        assert_eq!(sheet.checks, judge_record(&complete()).checks);
        let shown = [
            readings_text(&sheet, Paper::new(200, false)),
            readings_html(&sheet),
        ];
        for shown in shown {
            assert_eq!(
                shown.contains("Made from an older plan"),
                is_older,
                "{card}"
            );
        }
        let (set, _) = set_readings(&text, &[("moisture", "1.1 %")]).expect("the value fits");
        assert!(set.contains(card), "nothing of the card is touched");
    }
    assert!(!judge_record(&complete()).is_of_older_plan);
}
