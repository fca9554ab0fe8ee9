//! Discs, drums, linings and bleed screws.

use super::{Bench, Doubt, Group, Remark, State, Wanted, What, as_found, is_above, written};
use crate::limit::{
    DISC_AND_DRUM, LEAK, LINING, LINING_FLOOR, LINING_OF_THE_LAW, PRACTICE, TORQUE, lining_floor,
    lining_of_the_law, torque_spread, widest_torque_tolerance,
};
use crate::record::{Answer, BrakeReadings, BrakeType, Measured, ScrewReadings};
use bleedwright_network::USUAL_TORQUE_NM;
use uom::num_traits::Zero;
use uom::si::f64::{Length, Torque};
use uom::si::ratio::ratio;
use uom::si::torque::newton_meter;

/// A disc of more than so many times its least thickness is not believed.
///
/// ASSUMPTION, no source: twice; discs wear by a tenth or two.
pub const MOST_OF_LEAST: f64 = 2.0;

/// A drum of less than this share of its largest diameter is not believed.
///
/// ASSUMPTION, no source: nine tenths; drums wear by a hundredth.
pub const LEAST_OF_MOST: f64 = 0.9;

pub(super) fn judge_brake(name: &str, brake: &BrakeReadings, bench: &mut Bench) {
    if let Some(kind) = brake.kind.found() {
        judge_wear(name, *kind, brake, bench);
    } else {
        let source = DISC_AND_DRUM.of(bench.is_over_10000_lb);
        let check = bench.check(Group::Brakes, name, What::Brake, source);
        check.remark = Some(Remark::NoReadings);
    }
    judge_lining(name, brake, bench);
}

/// The disc against its least thickness, the drum against its largest diameter.
fn judge_wear(name: &str, kind: BrakeType, brake: &BrakeReadings, bench: &mut Bench) {
    let source = DISC_AND_DRUM.of(bench.is_over_10000_lb);
    let (what, found, (limit, doubt)) = match kind {
        BrakeType::Disc => {
            let least = least(brake.disc_minimum.found());
            (What::Disc, brake.disc.found(), least)
        }
        BrakeType::Drum => {
            let most = (brake.drum_maximum.found(), None);
            (What::Drum, brake.drum.found(), most)
        }
    };
    let check = bench.check(Group::Brakes, name, what, source);
    check.doubt = doubt;
    check.found = as_found(found);
    check.limit = Wanted::Embossed(kind, written(limit));
    let Some(found) = found else {
        return;
    };
    let Some(limit) = limit else {
        check.remark = Some(Remark::ReadFigure(kind));
        return;
    };
    let (is_within, is_believed) = match kind {
        BrakeType::Disc => {
            let is_thicker = |times| is_above(found.bounds.low, limit.bounds.high * times);
            (is_thicker(1.0), !is_thicker(MOST_OF_LEAST))
        }
        BrakeType::Drum => {
            let is_narrower = |times| is_above(limit.bounds.low * times, found.bounds.high);
            (is_narrower(1.0), !is_narrower(LEAST_OF_MOST))
        }
    };
    (check.state, check.remark) = match (is_within, is_believed) {
        (false, _) => (State::Fails, Some(Remark::Replace(kind))),
        (true, false) => (State::LookAgain, Some(Remark::WornBeyondBelief(kind))),
        (true, true) => (State::Within, None),
    };
}

/// A least thickness to hold against; one of nothing is none.
fn least(written: Option<&Measured<Length>>) -> (Option<&Measured<Length>>, Option<Doubt>) {
    let least = written.filter(|least| least.bounds.nominal > Length::zero());
    let doubt = (written.is_some() && least.is_none()).then_some(Doubt::LeastIsNothing);
    (least, doubt)
}

fn judge_lining(name: &str, brake: &BrakeReadings, bench: &mut Bench) {
    let found = brake.lining.found();
    let (least, doubt) = least(brake.lining_minimum.found());
    let is_riveted = brake.riveted.found().map(|answer| *answer == Answer::Yes);
    let mass = bench.is_over_10000_lb;
    let check = bench.check(Group::Brakes, name, What::Lining, LINING);
    check.doubt = doubt;
    check.found = as_found(found);
    check.limit = Wanted::MakersLining(written(least));
    let Some(found) = found else {
        return;
    };
    let (law, is_over_shoe) = lining_of_the_law(mass, is_riveted);
    if is_above(law, found.bounds.low) {
        check.state = State::Fails;
        check.source = LINING_OF_THE_LAW.of(mass);
        check.limit = Wanted::LiningOfTheLaw {
            least: law,
            is_over_shoe,
        };
        check.remark = Some(Remark::ReplaceLinings);
        return;
    }
    let is_under_floor = is_above(lining_floor(), found.bounds.low);
    (check.state, check.remark) = match least {
        Some(least) if !is_above(found.bounds.low, least.bounds.high) => {
            (State::Fails, Some(Remark::ReplaceLinings))
        }
        Some(_) if is_under_floor => (State::LookAgain, Some(Remark::UnderFloor)),
        Some(_) => (State::Within, None),
        None if is_under_floor => {
            check.source = LINING_FLOOR;
            check.limit = Wanted::LiningFloor;
            (State::Fails, Some(Remark::ReplaceLinings))
        }
        None => (State::NotChecked, Some(Remark::FloorIsKept)),
    };
}

fn is_too_wide(wanted: &Measured<Torque>) -> bool {
    let bounds = &wanted.bounds;
    let most = bounds.nominal * widest_torque_tolerance().get::<ratio>();
    is_above(bounds.nominal - bounds.low, most) || is_above(bounds.high - bounds.nominal, most)
}

/// Whether a wanted torque is one that bleed screws have, as the check of a layout sees it.
fn is_usual(wanted: &Measured<Torque>) -> bool {
    let [least, most] = USUAL_TORQUE_NM.map(Torque::new::<newton_meter>);
    !is_above(least, wanted.bounds.nominal) && !is_above(wanted.bounds.nominal, most)
}

pub(super) fn judge_screw(name: &str, screw: &ScrewReadings, bench: &mut Bench) {
    let found = screw.torque.found();
    let wanted = screw.torque_wanted.found();
    let check = bench.check(Group::Screws, name, What::Torque, TORQUE);
    check.found = as_found(found);
    check.limit = Wanted::Torque(written(wanted), None);
    if let Some(wanted) = wanted {
        let has_tolerance = wanted.bounds.low < wanted.bounds.high;
        let spread = wanted.bounds.nominal * torque_spread().get::<ratio>();
        let (low, high) = if has_tolerance {
            (wanted.bounds.low, wanted.bounds.high)
        } else {
            check.limit = Wanted::Torque(written(Some(wanted)), Some(torque_spread()));
            (
                wanted.bounds.nominal - spread,
                wanted.bounds.nominal + spread,
            )
        };
        if let Some(found) = found {
            (check.state, check.remark) = if is_above(low, found.bounds.low) {
                (State::Fails, Some(Remark::TooLoose))
            } else if is_above(found.bounds.high, high) {
                (State::Fails, Some(Remark::TooTight))
            } else if is_too_wide(wanted) {
                (State::NotChecked, Some(Remark::ToleranceTooWide))
            } else if !is_usual(wanted) {
                (State::LookAgain, Some(Remark::UnusualTorque))
            } else {
                (State::Within, None)
            };
        }
    }
    let dry = screw.dry.found();
    bench.question((Group::Screws, name, What::Dry), dry, Answer::Yes, LEAK);
    let cap = screw.cap.found();
    let check = bench.question(
        (Group::Screws, name, What::DustCap),
        cap,
        Answer::Yes,
        PRACTICE,
    );
    if check.state == State::Fails {
        // A missing dust cap spoils the next bleed, not this one.
        check.state = State::LookAgain;
        check.remark = Some(Remark::FitDustCap);
    }
}
