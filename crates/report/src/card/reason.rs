//! The words of why the steps stand in their order.

use crate::words::listed;
use bleedwright_planner::{
    AmongEquals, Begin, CircuitFirst, Giver, OrderNote, Precedence, Rule, WhyAfter, WhyHere,
};
use uom::si::length::meter;

/// Why a step stands where it stands.
pub(crate) fn here_text(why: &WhyHere) -> String {
    let fixed = match why {
        WhyHere::Given { by, is_again } => {
            let again = if *is_again { ", once more" } else { "" };
            return format!("{} puts it here{again}", giver(*by));
        }
        WhyHere::Rule(rule) => return rule_text(rule),
        WhyHere::Opened => "its run was opened",
        WhyHere::FeedsOthers => "its part feeds others, so it goes before them",
        WhyHere::OnlyScrew => "the only screw of its circuit",
        WhyHere::Length {
            begin,
            is_next,
            among,
        } => {
            let next = if *is_next { "next " } else { "" };
            let (most, as_much) = match begin {
                Begin::Farthest => ("longest", "long"),
                Begin::Nearest => ("shortest", "short"),
            };
            return match among {
                AmongEquals::First => format!("{next}{most} run of its circuit"),
                AmongEquals::FirstWithinTolerance => {
                    format!("{next}{most} run of its circuit, within tolerance")
                }
                AmongEquals::AsLong => {
                    format!("run as {as_much} as the {next}{most} of its circuit, within tolerance")
                }
            };
        }
    };
    fixed.to_owned()
}

/// Why a step comes after the one before it.
pub(crate) fn after_text(why: &WhyAfter) -> String {
    match why {
        WhyAfter::Given(before) => format!("follows `{before}` as given"),
        WhyAfter::Rule(rule) => rule_text(rule),
        WhyAfter::Opened(before) => format!("after `{before}`, whose run was opened"),
        WhyAfter::Length {
            of,
            difference,
            is_shorter,
            is_within_tolerance,
        } => {
            let comparison = if *is_shorter { "shorter" } else { "longer" };
            let either = if *is_within_tolerance {
                ", within tolerance: either may go first"
            } else {
                ""
            };
            let meters = difference.get::<meter>();
            format!("{meters:.2} m {comparison} than `{of}`{either}")
        }
        WhyAfter::Distance { of, begin } => {
            let nearer = match begin {
                Begin::Farthest => "nearer to",
                Begin::Nearest => "farther from",
            };
            format!(
                "run as long as that of `{of}` within tolerance, its wheel is {nearer} the cylinder"
            )
        }
        WhyAfter::Equal(of) => format!("run as long as that of `{of}`: either may go first"),
        WhyAfter::Circuit { finished, why } => circuit_text(finished, *why),
    }
}

fn circuit_text(finished: &str, why: CircuitFirst) -> String {
    let longer = |begin| match begin {
        Begin::Farthest => "longer",
        Begin::Nearest => "shorter",
    };
    match why {
        CircuitFirst::Primary => {
            format!("{finished} first: while it is empty the secondary piston gets no stroke")
        }
        CircuitFirst::Asked => {
            format!("other circuit: {finished} went first because it was asked for")
        }
        CircuitFirst::Opened => {
            format!("other circuit: {finished} went first because it was opened")
        }
        CircuitFirst::ClutchLast => "other circuit: the clutch is left to the end".to_owned(),
        CircuitFirst::Length(begin) => format!(
            "other circuit, a free choice: {finished} has the {} run",
            longer(begin)
        ),
        CircuitFirst::Distance(begin) => {
            let farther = match begin {
                Begin::Farthest => "farther from",
                Begin::Nearest => "nearer to",
            };
            format!(
                "other circuit, a free choice: runs equal, {finished} begins at the wheel {farther} the cylinder"
            )
        }
        CircuitFirst::NominalLength(begin) => format!(
            "other circuit, a free choice: runs equal within tolerance, {finished} has the {} nominal one",
            longer(begin)
        ),
        CircuitFirst::Either => "other circuit: either circuit may go first".to_owned(),
    }
}

fn rule_text(Rule { why, first }: &Rule) -> String {
    match why {
        Precedence::Upstream => {
            format!("fed through the part of `{first}`, whose air must go first")
        }
        Precedence::Downstream => {
            format!("fluid comes in at the wheels: after `{first}`, which lies behind it")
        }
        Precedence::UpperFirst => {
            format!("of two cylinders on one wheel the upper, `{first}`, first")
        }
        Precedence::DeclaredFirst => format!("the layout wants `{first}` first"),
    }
}

fn giver(giver: Giver) -> &'static str {
    match giver {
        Giver::User => "the order given",
        Giver::Maker => "the maker's order",
    }
}

/// Where an order that was given departs from the pipework's.
pub(crate) fn order_note(note: &OrderNote) -> String {
    match note {
        OrderNote::Agrees(by) => format!("{} is the one the pipework gives too", giver(*by)),
        OrderNote::Followed { by, pipework } => format!(
            "{} is followed; the pipework gives: {}",
            giver(*by),
            listed(pipework, ", ", String::as_str)
        ),
        OrderNote::Differs {
            place,
            given,
            pipework,
        } => format!("first difference: place {place}, `{given}` instead of `{pipework}`"),
        OrderNote::VisitsTwice(by) => format!("{} visits a screw more than once", giver(*by)),
    }
}
