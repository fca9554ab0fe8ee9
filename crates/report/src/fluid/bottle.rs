//! Why an item says of a bottle what it says.

use super::figure::{age, share_within, span, temperature};
use crate::said::{Said, bare, say};
use bleedwright_inspection::fluid::{
    BottleReason, OPENED_LONGEST_YEARS, OPENED_MONTH_YEARS, Opened,
};

/// Why.
pub(crate) fn bottle_reason(why: BottleReason) -> Said {
    match why {
        BottleReason::NeedNotKnown => "not known what the car needs".into(),
        BottleReason::TakenFor(wanted) => say!("taken for {}; read the label", wanted.text()),
        BottleReason::Grade {
            is,
            wanted,
            substitute,
        } => bare(&substitute.text(is, wanted)),
        BottleReason::NoMinimum(says) => say!(
            "{}: there is no minimum to hold it against",
            temperature(says)
        ),
        BottleReason::Label {
            says,
            grade,
            least,
            is_less: true,
        } => say!(
            "{} on the label is less than the least that {} must have, {}: refuse the bottle",
            temperature(says),
            grade.text(),
            temperature(least)
        ),
        BottleReason::Label {
            says,
            grade,
            least,
            is_less: false,
        } => say!(
            "{} on the label is not less than {} must have, {}; a label speaks for the fluid in the container, not for \
             the class (FMVSS 116 S5.2.2.2)",
            temperature(says),
            grade.text(),
            temperature(least)
        ),
        BottleReason::NoWater(grade) => say!(
            "{} takes up no water: look for drops and cloudiness in a clear glass",
            grade.text()
        ),
        BottleReason::NotRead => {
            "no reading; what counts is a sealed bottle within its date".into()
        }
        BottleReason::Moisture {
            moisture,
            is_too_much: true,
            ..
        } => say!(
            "{} read: more than we fill in (our own line, assumption); take a sealed bottle within its date",
            share_within(moisture)
        ),
        BottleReason::Moisture {
            moisture,
            is_too_much: false,
            lacks_grade,
        } => say!(
            "{} read: nothing against it; what counts is a sealed bottle within its date{}",
            share_within(moisture),
            super::car::unless_known(lacks_grade)
        ),
        BottleReason::OpeningNotStated => {
            "not stated: fluid is filled in from a sealed bottle".into()
        }
        BottleReason::Open { time, means } => say!("open for {}: {}", age(time), opened(means)),
    }
}

fn opened(means: Opened) -> Said {
    match means {
        Opened::KeepsByLabel => {
            "dirt and drops get in; the bottle's label says how long it keeps".into()
        }
        Opened::ForShort => "close it tightly and use it up soon".into(),
        Opened::Doubtful => say!(
            "after {} no tester vouches for it (assumption)",
            span(OPENED_MONTH_YEARS)
        ),
        Opened::TooLong => say!(
            "{} is too long, whatever it reads (assumption). It takes up water through every opening; the label asks for \
             the original, tightly closed container",
            span(OPENED_LONGEST_YEARS)
        ),
    }
}
