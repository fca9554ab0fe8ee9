//! Why an item says of the fluid in the car what it says.

use super::figure::{age, share_within, span, temperature, temperature_within};
use crate::number::spelt;
use crate::said::{Said, bare, figure, say};
use crate::words::listed;
use bleedwright_inspection::fluid::{
    AgeReason, BoilingReason, Due, EstimateSays, EstimatedBoiling, GradeReason, Item, Look,
    MixtureReason, MoistureReason, OVERDUE_YEARS, RENEWAL_YEARS, Reason, Verdict,
    instead_of_moisture,
};
use bleedwright_network::{Fluid, Substitute};
use uom::si::thermodynamic_temperature::degree_celsius;

/// Why, and what contradicts it.
pub(crate) fn reason(item: &Item<Verdict, Reason>) -> Said {
    let why = match &item.reason {
        Reason::Grade(why) => grade(*why),
        Reason::Mixture(why) => mixture(why),
        Reason::Look(look) => look_of(*look).into(),
        Reason::Moisture(why) => moisture(why),
        Reason::Boiling(why) => boiling(why),
        Reason::Age(why) => age_of(*why),
    };
    match item.contradicted_by {
        Some(other) => say!(
            "{}; the {} contradicts it: measure both again",
            why,
            other.text()
        ),
        None => why,
    }
}

fn grade(why: GradeReason) -> Said {
    match why {
        GradeReason::Unknown => {
            "nobody says what is in the car; the reservoir's cap and the service record may".into()
        }
        GradeReason::Stated(is) => say!(
            "{} by what is stated; whether the maker asks for it is on the reservoir's cap and in the manual",
            is.text()
        ),
        GradeReason::Asked(wanted) => say!(
            "taken for {}, which the layout or the cap asks for; what was filled in is not known",
            wanted.text()
        ),
        GradeReason::AddedFirst => "what was added to it comes first".into(),
        GradeReason::Held {
            is,
            wanted,
            substitute,
        } => {
            let held = bare(&substitute.text(is, wanted));
            match substitute {
                Substitute::OtherFamily => say!(
                    "{}. If that is really in it: do not drive, ask the maker, drain, renew the seals it touched. If the \
                     statement is a slip, state it again",
                    held
                ),
                Substitute::Thicker { .. } | Substitute::BoilsLower => {
                    say!("{}; renew with what the maker asks for", held)
                }
                Substitute::Same | Substitute::IfAllowed { .. } => held,
            }
        }
    }
}

fn mixture(why: &MixtureReason) -> Said {
    let names = |added: &[Fluid]| bare(&listed(added, " and ", |grade| grade.text()));
    match why {
        MixtureReason::NotAdded => "taken as never topped up with another grade".into(),
        MixtureReason::OtherFamily { base, added } => say!(
            "{} was mixed with {}: glycol, silicone and mineral oil mix with none of the others, and seals swell, shrink \
             or soften. Do not drive. Drain and flush all of it, renew every seal and hose that it touched, and ask the \
             maker",
            base.map_or("other fluid", Fluid::text),
            names(added)
        ),
        MixtureReason::ToUnknown(added) => {
            say!("{} was added to a fluid that is not known", names(added))
        }
        MixtureReason::TooThick {
            is,
            base,
            substitute,
        } => bare(&substitute.text(*is, *base)),
        MixtureReason::Mixes {
            base,
            added,
            falls_to: Some(lowest),
        } => say!(
            "{} with {} mixes without harm, but counts as {} only: the grade falls to the lowest",
            base.text(),
            names(added),
            lowest.text()
        ),
        MixtureReason::Mixes {
            base,
            added,
            falls_to: None,
        } => say!(
            "{} with {} mixes without harm and keeps its grade",
            base.text(),
            names(added)
        ),
    }
}

fn look_of(look: Option<Look>) -> &'static str {
    match look {
        None => "nobody looked at a sample in a clear glass",
        Some(Look::Clear) => "clear; water in solution cannot be seen, so that is no reading",
        Some(Look::Water) => {
            "water to be seen boils at 100 degC: do not drive, drain, find where it came in"
        }
        Some(Look::Dirt) => {
            "dirt shuts ports and cuts seals: do not drive, flush, find where it came from"
        }
    }
}

fn moisture(why: &MoistureReason) -> Said {
    let (moisture, boils, is_too_much, by_water, lacks_grade) = match why {
        MoistureReason::NoWater(grade) => {
            return say!(
                "{} takes up no water. {}",
                grade.text(),
                instead_of_moisture(*grade)
            );
        }
        MoistureReason::NotRead => return "no reading".into(),
        MoistureReason::Meaningless(moisture) => {
            return say!(
                "{} read means nothing while fluids that do not mix may be in the car",
                share_within(*moisture)
            );
        }
        MoistureReason::Read {
            moisture,
            boils,
            is_too_much,
            by_water,
            lacks_grade,
        } => (*moisture, boils, is_too_much, by_water, *lacks_grade),
    };
    let wetter = if moisture.low == moisture.high {
        ""
    } else {
        ", judged at the wetter end"
    };
    let too_much = if *is_too_much {
        ": no boiling point is given for so much water"
    } else {
        ""
    };
    let by_water = match by_water {
        Verdict::Unsafe => "; with so much water nobody drives (our own line, assumption)",
        Verdict::RenewNow => {
            "; renewed at this reading whatever it boils at (common practice, no source)"
        }
        Verdict::RenewSoon => "; renewed soon at this reading (our own line, assumption)",
        Verdict::Fit | Verdict::NotChecked => "",
    };
    say!(
        "{} read{}{}{}{}{}",
        share_within(moisture),
        wetter,
        boils.as_ref().map(estimated).unwrap_or_default(),
        too_much,
        by_water,
        unless_known(lacks_grade)
    )
}

fn estimated(boils: &EstimatedBoiling) -> Said {
    let (against, then) = match boils.says {
        EstimateSays::NotBelow => ("not below", ""),
        EstimateSays::MeasuredCounts => ("below", "; the measured one counts"),
        EstimateSays::Below => ("below", ": renew now, or measure the boiling point"),
        EstimateSays::BelowEveryClass => (
            "below",
            ", and below that of any class: do not drive, or measure the boiling point",
        ),
    };
    say!(
        ": estimated, cautiously, to boil at {}, {} the least wet boiling point of new {}, {}{}",
        temperature(boils.point),
        against,
        boils.grade.text(),
        temperature(boils.least_wet),
        then
    )
}

fn boiling(why: &BoilingReason) -> Said {
    match why {
        BoilingReason::NotMeasured => "not measured".into(),
        BoilingReason::Meaningless(boiling) => say!(
            "{} tells nothing while fluids that do not mix may be in the car",
            temperature_within(*boiling)
        ),
        BoilingReason::NoLaw {
            boiling,
            grade,
            is_below_every_class,
        } => say!(
            "{}: no law states a boiling point of {}{}",
            temperature_within(*boiling),
            grade.text(),
            if *is_below_every_class {
                "; below every class of brake fluid, wet or dry, it boils as if water were in it (assumption): do not \
                 drive"
            } else {
                ""
            }
        ),
        BoilingReason::Held {
            boiling,
            lines,
            is_below_wet,
            least_dry,
            reaches_dry,
            lacks_grade,
        } => {
            let against = if *is_below_wet { "below" } else { "not below" };
            let reaches = if *reaches_dry { ", and it does" } else { "" };
            let dry = |dry| {
                say!(
                    "; new and dry it must reach {}{}",
                    temperature(dry),
                    reaches
                )
            };
            let [soon, not_driven] = [lines.fit_from, lines.unsafe_below]
                .map(|line| figure(format!("{:.0} degC", line.get::<degree_celsius>())));
            say!(
                "{}: {} the least wet boiling point of new {}, {}; soon below {}, unsafe below {} (our own lines, \
                 assumption){}{}",
                temperature_within(*boiling),
                against,
                lines.grade.text(),
                temperature(lines.least_wet),
                soon,
                not_driven,
                least_dry.map(dry).unwrap_or_default(),
                unless_known(*lacks_grade)
            )
        }
    }
}

pub(super) fn unless_known(lacks_grade: bool) -> &'static str {
    if lacks_grade {
        "; not judged, since the grade is not known"
    } else {
        ""
    }
}

fn age_of(why: AgeReason) -> Said {
    match why {
        AgeReason::NotKnown => "not known".into(),
        AgeReason::NoRule(time) => say!(
            "{}: the {}-year rule is one for fluid that takes up water; the maker states when this one is renewed",
            age(time),
            figure(spelt(RENEWAL_YEARS))
        ),
        AgeReason::Held {
            age: time,
            interval,
            due,
        } => {
            let usual = || {
                say!(
                    "{} where the maker states no interval (common practice, no source)",
                    span(RENEWAL_YEARS)
                )
            };
            let of_the_maker = |stated| say!("the maker's interval is {}", age(stated));
            let rule = interval.map_or_else(usual, of_the_maker);
            match due {
                Due::Overdue => say!(
                    "{}: {}; {} are overdue whatever the interval (assumption)",
                    age(time),
                    rule,
                    span(OVERDUE_YEARS)
                ),
                Due::Now => say!("{}: due; {}", age(time), rule),
                Due::NotYet => say!("{}: not due yet; {}", age(time), rule),
            }
        }
    }
}
