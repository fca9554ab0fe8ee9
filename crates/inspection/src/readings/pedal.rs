//! The pedal: how much of its travel is used, whether it is firm, whether it holds.

use super::{Bench, Found, Group, Remark, State, Wanted, What, is_above, written};
use crate::limit::{
    PEDAL_HOLD, PEDAL_RESERVE, PRACTICE, hold_force, hold_time, least_shown, most_pedal_travel,
    reserve_force,
};
use crate::record::{Answer, ControlReadings, Measured};
use bleedwright_network::Control;
use uom::si::f64::{Force, Length, Ratio};
use uom::si::length::millimeter;

/// The share of the pedal's travel that is used up when it is depressed.
///
/// Formula: `(A - B) / A`, with A the distance from the free pedal and B from the depressed pedal to the floor or stop.
///
/// Range: A above zero, B from zero to A; none outside of it.
///
/// Source: 49 CFR 570.55(c) [CFR570](crate#sources).
///
/// ```
/// use bleedwright_inspection::pedal_reserve_used;
/// use uom::si::{f64::Length, length::millimeter, ratio::percent};
///
/// let mm = Length::new::<millimeter>;
/// let used = pedal_reserve_used(mm(150.0), mm(45.0)).unwrap();
/// assert!((used.get::<percent>() - 70.0).abs() < 1e-9);
/// assert!(pedal_reserve_used(mm(45.0), mm(150.0)).is_none());
/// ```
pub fn pedal_reserve_used(free: Length, depressed: Length) -> Option<Ratio> {
    let zero = Length::default();
    (free > zero && depressed >= zero && depressed <= free).then(|| (free - depressed) / free)
}

pub(super) fn judge(name: &str, control: &ControlReadings, bench: &mut Bench) {
    let kind = control.kind.found();
    judge_travel(name, control, bench);
    only_for_pedals(kind, bench);
    let question = (Group::Controls, name, What::Firm);
    let firm = control.firm.found();
    bench.question(question, firm, Answer::Yes, PRACTICE);
    judge_hold(name, control, bench);
    only_for_pedals(kind, bench);
}

/// The forces of the rule are a foot's. On a hand lever they would do harm, and less shows nothing by this rule; what
/// fails there fails all the same.
fn only_for_pedals(kind: Option<&Control>, bench: &mut Bench) {
    let Some(check) = bench.checks.last_mut() else {
        return;
    };
    let (limit, remark) = match kind {
        Some(Control::Pedal) => return,
        Some(Control::HandLever) => (Wanted::NotForHandLevers, Remark::ManualForHandLever),
        Some(Control::Coupler) => (Wanted::NotForCouplers, Remark::ManualForCoupler),
        None => (Wanted::Unknown, Remark::ControlNotGiven),
    };
    check.limit = limit;
    if check.state != State::Fails {
        check.state = State::NotChecked;
        check.remark = Some(remark);
    }
}

fn judge_travel(name: &str, control: &ControlReadings, bench: &mut Bench) {
    let source = PEDAL_RESERVE.of(bench.is_over_10000_lb);
    let check = bench.check(Group::Controls, name, What::Travel, source);
    let most = most_pedal_travel();
    check.limit = Wanted::Travel;
    let free = control.free.found();
    let depressed = control.depressed.found();
    let force = control.force.found();
    // Before anything else: no force, and no missing figure, makes a pedal on the floor less than a failure.
    if let Some(depressed) = depressed
        && !is_above(depressed.bounds.low, least_shown())
    {
        check.found = found(free, depressed, None, force);
        check.state = State::Fails;
        check.remark = Some(Remark::TouchesFloor);
        return;
    }
    let (Some(free), Some(depressed)) = (free, depressed) else {
        check.remark = Some(Remark::MeasureTravel);
        return;
    };
    // The worse end of each tolerance: a short stop and a long way to it.
    let Some(used) = worst_use(free, depressed) else {
        check.remark = Some(Remark::TravelDoesNotFit);
        return;
    };
    check.found = found(Some(free), depressed, Some(used), force);
    let Some(force) = force else {
        check.remark = Some(Remark::TravelForceNotGiven);
        return;
    };
    let is_too_far = is_above(used, most);
    let is_enough = !is_above(reserve_force(), force.bounds.low);
    // Only a force that was surely larger explains a travel that is too far.
    let is_more = is_above(force.bounds.low, reserve_force() * FORCE_SPREAD);
    let is_boosted = control.booster.found();
    let engine_running = control.engine_running.found();
    let engine = match (is_boosted, engine_running) {
        (Some(Answer::No), _) | (Some(Answer::Yes), Some(Answer::Yes)) => None,
        (Some(Answer::Yes), Some(Answer::No)) => Some(Remark::EngineHasToRun),
        (Some(Answer::Yes), None) => Some(Remark::EngineNotGiven),
        (None, _) => Some(Remark::BoosterNotGiven),
    };
    (check.state, check.remark) = match (is_too_far, is_enough, engine) {
        (true, _, _) if is_more => (State::LookAgain, Some(Remark::TooFarAtMore)),
        (true, _, _) => (State::Fails, Some(Remark::TooFar)),
        (false, false, _) => (State::NotChecked, Some(Remark::TravelForceTooSmall)),
        (false, true, Some(engine)) => (State::NotChecked, Some(engine)),
        (false, true, None) if has_not_moved(free, depressed) => {
            (State::LookAgain, Some(Remark::HasNotMoved))
        }
        (false, true, None) => (State::Within, None),
    };
}

fn found(
    free: Option<&Measured<Length>>,
    depressed: &Measured<Length>,
    used: Option<Ratio>,
    force: Option<&Measured<Force>>,
) -> Found {
    Found::Travel {
        free: written(free),
        depressed: depressed.text.clone(),
        used,
        force: written(force),
    }
}

/// How far above 222 N a force still counts as 222 N, so that a travel beyond the limit fails at once.
///
/// ASSUMPTION: a twentieth, about what a spring gauge between foot and pedal can be read to. It never makes a check
/// good: it only parts "fails" from "look again".
pub const FORCE_SPREAD: f64 = 1.05;

/// The least that a pedal moves under 222 N.
///
/// ASSUMPTION: 5 mm. Free play and the travel that shuts a cylinder off, times the lever, are more on every pedal.
pub fn least_moved() -> Length {
    Length::new::<millimeter>(5.0)
}

/// Whether the pedal may have gone no farther than that.
fn has_not_moved(free: &Measured<Length>, depressed: &Measured<Length>) -> bool {
    is_above(depressed.bounds.high + least_moved(), free.bounds.low)
}

fn worst_use(free: &Measured<Length>, depressed: &Measured<Length>) -> Option<Ratio> {
    let nominal = pedal_reserve_used(free.bounds.nominal, depressed.bounds.nominal)?;
    let corners = [free.bounds.low, free.bounds.high]
        .into_iter()
        .filter_map(|free| pedal_reserve_used(free, depressed.bounds.low));
    Some(corners.fold(nominal, Ratio::max))
}

fn judge_hold(name: &str, control: &ControlReadings, bench: &mut Bench) {
    let source = PEDAL_HOLD.of(bench.is_over_10000_lb);
    let check = bench.check(Group::Controls, name, What::Hold, source);
    check.limit = Wanted::Hold;
    let force = control.hold_force.found();
    let time = control.hold_time.found();
    let dropped = control.hold_dropped.found();
    if force.is_some() || time.is_some() || dropped.is_some() {
        check.found = Found::Hold {
            force: written(force),
            time: written(time),
            dropped: dropped.copied(),
        };
    }
    if dropped == Some(&Answer::Yes) {
        check.state = State::Fails;
        check.remark = Some(Remark::Sinks);
        return;
    }
    let is_hard = force.map(|force| !is_above(hold_force(), force.bounds.low));
    let is_long = time.map(|time| !is_above(hold_time(), time.bounds.low));
    check.remark = match (dropped, is_hard, is_long) {
        (None, _, _) => Some(Remark::SinkingNotGiven),
        (_, None, _) => Some(Remark::HoldForceNotGiven),
        (_, _, None) => Some(Remark::HoldTimeNotGiven),
        (_, Some(false), _) => Some(Remark::HoldForceTooSmall),
        (_, _, Some(false)) => Some(Remark::HoldTimeTooShort),
        (Some(_), Some(true), Some(true)) => {
            check.state = State::Within;
            None
        }
    };
}
