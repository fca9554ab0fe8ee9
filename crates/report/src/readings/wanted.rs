//! The words of what a check holds its finding against.

use crate::fluid::span;
use crate::number::in_inches;
use crate::said::{Said, figure, say};
use bleedwright_inspection::fluid::OPENED_MONTH_YEARS;
use bleedwright_inspection::limit::{
    hold_force, hold_time, lining_floor, most_pedal_travel, reserve_force,
};
use bleedwright_inspection::readings::Wanted;
use bleedwright_inspection::record::BrakeType;
use uom::si::f64::{Force, Length};
use uom::si::force::{newton, pound_force};
use uom::si::length::millimeter;
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;

/// What is wanted; nothing where no limit is known.
pub(crate) fn wanted(wanted: &Wanted) -> Said {
    match wanted {
        Wanted::Unknown => Said::default(),
        Wanted::Answer(answer) => answer.word().into(),
        Wanted::Done => "done".into(),
        Wanted::Pushed(least) => say!("at least {}", figure(least)),
        Wanted::Routine => "the tester or the steps of the manual".into(),
        Wanted::Stated => "stated".into(),
        Wanted::StatedOrBlank => "stated, or left blank".into(),
        Wanted::None => "none".into(),
        Wanted::Travel => say!(
            "at most {} at {} ({})",
            figure(format!("{:.0} %", most_pedal_travel().get::<percent>())),
            pounds(reserve_force()),
            newtons(reserve_force())
        ),
        Wanted::Hold => say!(
            "{} ({}) for {}, no further drop",
            pounds(hold_force()),
            newtons(hold_force()),
            figure(format!("{:.0} s", hold_time().get::<second>()))
        ),
        Wanted::NotForHandLevers => "none known for a hand lever".into(),
        Wanted::NotForCouplers => "none known for an overrun coupler".into(),
        Wanted::Embossed(kind, Some(limit)) => say!("{} {}", side(*kind), figure(limit)),
        Wanted::Embossed(kind, None) => say!(
            "{} the figure on the {}, which is not given",
            side(*kind),
            kind.word()
        ),
        Wanted::MakersLining(None) => "above the maker's minimum, which is not given".into(),
        Wanted::MakersLining(Some(least)) => say!("above {}", figure(least)),
        Wanted::LiningOfTheLaw {
            least,
            is_over_shoe,
        } => say!(
            "at least {} ({}){}",
            figure(in_inches(*least)),
            tenths(*least),
            if *is_over_shoe { " over the shoe" } else { "" }
        ),
        Wanted::LiningFloor => say!(
            "at least {} ({})",
            tenths(lining_floor()),
            figure(in_inches(lining_floor()))
        ),
        Wanted::Torque(None, _) => "the maker's torque, which is not given".into(),
        Wanted::Torque(Some(torque), None) => figure(torque),
        Wanted::Torque(Some(torque), Some(spread)) => {
            figure(format!("{torque} ± {:.0} %", spread.get::<percent>()))
        }
        Wanted::MaximumMark => "at the maximum mark".into(),
        Wanted::Grade(grade) => grade.text().into(),
        Wanted::WetMinimum(grade, least) => say!(
            "not below {}, the wet minimum of new {}",
            figure(format!("{:.0} degC", least.get::<degree_celsius>())),
            grade.text()
        ),
        Wanted::OpenedLately => say!("within {} before the work", span(OPENED_MONTH_YEARS)),
        Wanted::By(day) => say!("by {}", figure(day)),
    }
}

fn side(kind: BrakeType) -> &'static str {
    match kind {
        BrakeType::Disc => "above",
        BrakeType::Drum => "below",
    }
}

/// `222 N`.
pub(super) fn newtons(force: Force) -> Said {
    figure(format!("{:.0} N", force.get::<newton>()))
}

fn pounds(force: Force) -> Said {
    figure(format!("{:.0} lbf", force.get::<pound_force>()))
}

/// `1.6 mm`.
pub(super) fn tenths(length: Length) -> Said {
    figure(format!("{:.1} mm", length.get::<millimeter>()))
}
