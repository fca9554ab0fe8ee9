//! The words of why the steps stand in their order.

use crate::said::{Said, bare, bares, figure, name, say};
use bleedwright_planner::{
    AmongEquals, Begin, CircuitFirst, Giver, OrderNote, Precedence, Rule, WhyAfter, WhyHere,
};
use uom::si::length::meter;

/// Why a step stands where it stands.
pub(crate) fn here_text(why: &WhyHere) -> Said {
    match why {
        WhyHere::Given { by, is_again } => {
            let again = if *is_again { ", once more" } else { "" };
            say!("{} puts it here{}", giver(*by), again)
        }
        WhyHere::Rule(rule) => rule_text(rule),
        WhyHere::Opened => say!("its run was opened"),
        WhyHere::FeedsOthers => say!("its part feeds others, so it goes before them"),
        WhyHere::OnlyScrew => say!("the only screw of its circuit"),
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
            match among {
                AmongEquals::First => say!("{}{} run of its circuit", next, most),
                AmongEquals::FirstWithinTolerance => {
                    say!("{}{} run of its circuit, within tolerance", next, most)
                }
                AmongEquals::AsLong => say!(
                    "run as {} as the {}{} of its circuit, within tolerance",
                    as_much,
                    next,
                    most
                ),
            }
        }
    }
}

/// Why a step comes after the one before it.
pub(crate) fn after_text(why: &WhyAfter) -> Said {
    match why {
        WhyAfter::Given(before) => say!("follows {} as given", name(before)),
        WhyAfter::Rule(rule) => rule_text(rule),
        WhyAfter::Opened(before) => say!("after {}, whose run was opened", name(before)),
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
            let meters = figure(format_args!("{meters:.2}"));
            say!("{} m {} than {}{}", meters, comparison, name(of), either)
        }
        WhyAfter::Distance { of, begin } => {
            let nearer = match begin {
                Begin::Farthest => "nearer to",
                Begin::Nearest => "farther from",
            };
            say!(
                "run as long as that of {} within tolerance, its wheel is {} the cylinder",
                name(of),
                nearer
            )
        }
        WhyAfter::Equal(of) => say!("run as long as that of {}: either may go first", name(of)),
        WhyAfter::Circuit { finished, why } => circuit_text(finished, *why),
    }
}

fn circuit_text(finished: &str, why: CircuitFirst) -> Said {
    let longer = |begin| match begin {
        Begin::Farthest => "longer",
        Begin::Nearest => "shorter",
    };
    let finished = bare(finished);
    match why {
        CircuitFirst::Primary => {
            say!(
                "{} first: while it is empty the secondary piston gets no stroke",
                finished
            )
        }
        CircuitFirst::Asked => {
            say!(
                "other circuit: {} went first because it was asked for",
                finished
            )
        }
        CircuitFirst::Opened => {
            say!(
                "other circuit: {} went first because it was opened",
                finished
            )
        }
        CircuitFirst::ClutchLast => say!("other circuit: the clutch is left to the end"),
        CircuitFirst::Length(begin) => say!(
            "other circuit, a free choice: {} has the {} run",
            finished,
            longer(begin)
        ),
        CircuitFirst::Distance(begin) => {
            let farther = match begin {
                Begin::Farthest => "farther from",
                Begin::Nearest => "nearer to",
            };
            say!(
                "other circuit, a free choice: runs equal, {} begins at the wheel {} the cylinder",
                finished,
                farther
            )
        }
        CircuitFirst::NominalLength(begin) => say!(
            "other circuit, a free choice: runs equal within tolerance, {} has the {} nominal one",
            finished,
            longer(begin)
        ),
        CircuitFirst::Either => say!("other circuit: either circuit may go first"),
    }
}

fn rule_text(Rule { why, first }: &Rule) -> Said {
    let first = name(first);
    match why {
        Precedence::Upstream => {
            say!("fed through the part of {}, whose air must go first", first)
        }
        Precedence::Downstream => {
            say!(
                "fluid comes in at the wheels: after {}, which lies behind it",
                first
            )
        }
        Precedence::UpperFirst => {
            say!("of two cylinders on one wheel the upper, {}, first", first)
        }
        Precedence::DeclaredFirst => say!("the layout wants {} first", first),
    }
}

fn giver(giver: Giver) -> &'static str {
    match giver {
        Giver::User => "the order given",
        Giver::Maker => "the maker's order",
    }
}

/// Where an order that was given departs from the pipework's.
pub(crate) fn order_note(note: &OrderNote) -> Said {
    match note {
        OrderNote::Agrees(by) => say!("{} is the one the pipework gives too", giver(*by)),
        OrderNote::Followed { by, pipework } => say!(
            "{} is followed; the pipework gives: {}",
            giver(*by),
            bares(pipework)
        ),
        OrderNote::Differs {
            place,
            given,
            pipework,
        } => say!(
            "first difference: place {}, {} instead of {}",
            figure(place),
            name(given),
            name(pipework)
        ),
        OrderNote::VisitsTwice(by) => say!("{} visits a screw more than once", giver(*by)),
    }
}
