//! Discs, drums, linings and bleed screws.

use super::{Bench, Doubt, Group, State, is_above, written};
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
const MOST_OF_LEAST: f64 = 2.0;

/// A drum of less than this share of its largest diameter is not believed.
///
/// ASSUMPTION, no source: nine tenths; drums wear by a hundredth.
const LEAST_OF_MOST: f64 = 0.9;

pub(super) fn judge_brake(name: &str, brake: &BrakeReadings, bench: &mut Bench) {
    if let Some(kind) = brake.kind.found() {
        judge_wear(name, *kind, brake, bench);
    } else {
        let source = DISC_AND_DRUM.of(bench.is_over_10000_lb);
        let check = bench.check(Group::Brakes, name, "disc or drum", source);
        "this brake has no readings in the record".clone_into(&mut check.remark);
    }
    judge_lining(name, brake, bench);
}

/// The disc against its least thickness, the drum against its largest diameter.
fn judge_wear(name: &str, kind: BrakeType, brake: &BrakeReadings, bench: &mut Bench) {
    let source = DISC_AND_DRUM.of(bench.is_over_10000_lb);
    let (what, side, found, (limit, doubt)) = match kind {
        BrakeType::Disc => {
            let least = least(brake.disc_minimum.found());
            ("disc thickness", "above", brake.disc.found(), least)
        }
        BrakeType::Drum => {
            let most = (brake.drum_maximum.found(), None);
            ("drum diameter", "below", brake.drum.found(), most)
        }
    };
    let word = kind.word();
    let check = bench.check(Group::Brakes, name, what, source);
    check.doubt = doubt;
    check.found = written(found);
    check.limit = limit.map_or_else(
        || format!("{side} the figure on the {word}, which is not given"),
        |limit| format!("{side} {}", limit.text),
    );
    let Some(found) = found else {
        return;
    };
    let Some(limit) = limit else {
        check.remark = format!("read the figure off the {word}, else from the manual");
        return;
    };
    let (is_within, is_believed, figure) = match kind {
        BrakeType::Disc => {
            let is_thicker = |times| is_above(found.bounds.low, limit.bounds.high * times);
            let figure = "wears down so far: read its least thickness";
            (is_thicker(1.0), !is_thicker(MOST_OF_LEAST), figure)
        }
        BrakeType::Drum => {
            let is_narrower = |times| is_above(limit.bounds.low * times, found.bounds.high);
            let figure = "wears out so far: read its largest diameter";
            (is_narrower(1.0), !is_narrower(LEAST_OF_MOST), figure)
        }
    };
    (check.state, check.remark) = match (is_within, is_believed) {
        (false, _) => (State::Fails, format!("replace the {word}")),
        (true, false) => (State::LookAgain, format!("no {word} {figure} again")),
        (true, true) => (State::Within, String::new()),
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
    let check = bench.check(Group::Brakes, name, "lining thickness", LINING);
    check.doubt = doubt;
    check.found = written(found);
    check.limit = least.map_or_else(
        || "above the maker's minimum, which is not given".to_owned(),
        |least| format!("above {}", least.text),
    );
    let Some(found) = found else {
        return;
    };
    let (law, law_text) = lining_of_the_law(mass, is_riveted);
    if is_above(law, found.bounds.low) {
        check.state = State::Fails;
        check.source = LINING_OF_THE_LAW.of(mass);
        law_text.clone_into(&mut check.limit);
        "replace the linings of both wheels of the axle".clone_into(&mut check.remark);
        return;
    }
    let is_under_floor = is_above(lining_floor(), found.bounds.low);
    let remark = match least {
        Some(least) if !is_above(found.bounds.low, least.bounds.high) => {
            check.state = State::Fails;
            "replace the linings of both wheels of the axle"
        }
        Some(_) if is_under_floor => {
            check.state = State::LookAgain;
            "above the maker's figure, but under 1.6 mm (49 CFR 393.47(d), commercial vehicles)"
        }
        Some(_) => {
            check.state = State::Within;
            ""
        }
        None if is_under_floor => {
            check.state = State::Fails;
            check.source = LINING_FLOOR;
            "at least 1.6 mm (1/16 in)".clone_into(&mut check.limit);
            "replace the linings of both wheels of the axle"
        }
        None => "1.6 mm (49 CFR 393.47(d)) is kept, which is not enough to say",
    };
    remark.clone_into(&mut check.remark);
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
    let check = bench.check(Group::Screws, name, "torque checked again", TORQUE);
    check.found = written(found);
    if let Some(wanted) = wanted {
        let has_tolerance = wanted.bounds.low < wanted.bounds.high;
        let spread = wanted.bounds.nominal * torque_spread().get::<ratio>();
        let (low, high) = if has_tolerance {
            check.limit.clone_from(&wanted.text);
            (wanted.bounds.low, wanted.bounds.high)
        } else {
            check.limit = format!("{} ± 10 %", wanted.text);
            (
                wanted.bounds.nominal - spread,
                wanted.bounds.nominal + spread,
            )
        };
        if let Some(found) = found {
            let remark = if is_above(low, found.bounds.low) {
                check.state = State::Fails;
                "too loose: it may weep or draw air"
            } else if is_above(found.bounds.high, high) {
                check.state = State::Fails;
                "too tight: the screw may shear or its seat may be spoilt"
            } else if is_too_wide(wanted) {
                "a tolerance of more than 30 % is no torque to hold against: read the maker's figure"
            } else if !is_usual(wanted) {
                check.state = State::LookAgain;
                "bleed screws take 3 to 20 N m as a rule: read the maker's figure again"
            } else {
                check.state = State::Within;
                ""
            };
            remark.clone_into(&mut check.remark);
        }
    } else {
        "the maker's torque, which is not given".clone_into(&mut check.limit);
    }
    let dry = screw.dry.found();
    bench.question(
        (Group::Screws, name, "dry after the hard press"),
        dry,
        Answer::Yes,
        LEAK,
    );
    let cap = screw.cap.found();
    let check = bench.question(
        (Group::Screws, name, "dust cap on"),
        cap,
        Answer::Yes,
        PRACTICE,
    );
    if check.state == State::Fails {
        // A missing dust cap spoils the next bleed, not this one.
        check.state = State::LookAgain;
        "fit a dust cap: dirt shuts the drilling".clone_into(&mut check.remark);
    }
}
