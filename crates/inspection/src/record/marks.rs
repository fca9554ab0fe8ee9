//! What was ticked and counted on a job card. It is kept with the readings so that one file brings both back.

use super::slot::{Given, Slot, Written, Wrong, is_blank_word, wrong_type};
use bleedwright_network::Code;

/// More lines than this a card has not.
const MOST_NUMBER: u32 = 9999;

/// Lines of a card that were ticked: `before 1`, `step 2`, `after 3`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ticked(pub Vec<String>);

/// What was counted: `step 1: 17` strokes or millilitres, `step 1 jar 1: 158` millilitres; how far the step was when
/// somebody saw to a stop, `step 1 stop 2: 34`, or looked for air, `step 1 give up: 210`. Older cards wrote how many stops
/// were seen to, `step 1 stops: 2`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Counted(pub Vec<String>);

macro_rules! mark_slot {
    ($type:ident, $is_mark:ident, $allowed:literal, $example:literal) => {
        impl Slot for $type {
            fn take(&mut self, _field: &str, given: Given<'_>) -> Result<(), Wrong> {
                let names = match given {
                    Given::Bare(word) if is_blank_word(word) => &[],
                    Given::Names(names) => names,
                    _ => {
                        let wanted = "a list of marks of a card";
                        return Err(wrong_type("something else", wanted, $example));
                    }
                };
                if let Some(wrong) = names.iter().find(|name| !$is_mark(name)) {
                    return Err(Wrong {
                        code: Code::UnknownWord,
                        message: format!("`{wrong}` is no mark of a card"),
                        allowed: Some($allowed.to_owned()),
                        help: "take it out; a card writes these itself".to_owned(),
                    });
                }
                self.0 = names.to_vec();
                Ok(())
            }

            fn written(&self) -> Written<'_> {
                Written::Names(&self.0)
            }

            fn is_settable(&self) -> bool {
                false
            }
        }
    };
}
mark_slot!(
    Ticked,
    is_tick,
    "before, step or after with a number",
    "write it like [\"before 1\", \"step 2\"]"
);
mark_slot!(
    Counted,
    is_count,
    "step N, step N stop N, step N jar N or step N give up, a colon and a number",
    "write it like [\"step 1: 17\"]"
);

fn is_tick(mark: &str) -> bool {
    mark.split_once(' ').is_some_and(|(list, number)| {
        matches!(list, "before" | "step" | "after") && is_place(number)
    })
}

fn is_count(mark: &str) -> bool {
    let Some((name, count)) = mark.split_once(": ") else {
        return false;
    };
    let words: Vec<&str> = name.split(' ').collect();
    let is_named = match words.as_slice() {
        ["step", step] | ["step", step, "stops"] | ["step", step, "give", "up"] => is_place(step),
        ["step", step, "jar" | "stop", nth] => is_place(step) && is_place(nth),
        _ => false,
    };
    let is_plain = count
        .bytes()
        .all(|byte| byte.is_ascii_digit() || byte == b'.');
    is_named && is_plain && count.parse::<f64>().is_ok_and(|count| count <= 1e6)
}

fn is_place(text: &str) -> bool {
    let is_plain = !text.starts_with('0') && text.bytes().all(|byte| byte.is_ascii_digit());
    is_plain
        && text
            .parse::<u32>()
            .is_ok_and(|number| number <= MOST_NUMBER)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_known() {
        for mark in ["before 1", "step 12", "after 9999"] {
            assert!(is_tick(mark), "{mark}");
        }
        for mark in [
            "before",
            "before 0",
            "during 1",
            "step 1 ",
            "step -1",
            "step 10000",
            "step 01",
        ] {
            assert!(!is_tick(mark), "{mark}");
        }
        for mark in [
            "step 1: 17",
            "step 1 stops: 0",
            "step 1 stop 2: 34",
            "step 1 give up: 210",
            "step 2 jar 1: 158.5",
        ] {
            assert!(is_count(mark), "{mark}");
        }
        for mark in [
            "step 1",
            "step 1: ",
            "step 1: -3",
            "step 1: 1e3",
            "step 1: 1.2.3",
            "after 1: 2",
            "step 1 jar: 3",
            "step 1 stop 0: 3",
            "step 1 give: 3",
        ] {
            assert!(!is_count(mark), "{mark}");
        }
    }
}
