//! The pedal: how much of its travel is used, whether it is firm, whether it holds.

use super::{Bench, Group, State, is_above, written};
use crate::limit::{
    PEDAL_HOLD, PEDAL_RESERVE, PRACTICE, hold_force, hold_time, least_shown, most_pedal_travel,
    reserve_force,
};
use crate::record::{Answer, ControlReadings, Measured};
use bleedwright_network::Control;
use uom::si::f64::{Length, Ratio};
use uom::si::length::millimeter;
use uom::si::ratio::percent;

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
    let question = (
        Group::Controls,
        name,
        "firm, not springy, not higher after pumping",
    );
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
        Some(Control::HandLever) => (
            "none known for a hand lever",
            "go by the maker's manual, and never use a foot's force on a lever",
        ),
        Some(Control::Coupler) => (
            "none known for an overrun coupler",
            "go by the maker's manual for the travel of the shaft",
        ),
        None => (
            "",
            "whether it is a pedal, a hand lever or a coupler is not given",
        ),
    };
    limit.clone_into(&mut check.limit);
    if check.state != State::Fails {
        check.state = State::NotChecked;
        remark.clone_into(&mut check.remark);
    }
}

fn judge_travel(name: &str, control: &ControlReadings, bench: &mut Bench) {
    let source = PEDAL_RESERVE.of(bench.is_over_10000_lb);
    let check = bench.check(Group::Controls, name, "travel used", source);
    let most = most_pedal_travel();
    check.limit = format!("at most {:.0} % at 50 lbf (222 N)", most.get::<percent>());
    let free = control.free.found();
    let depressed = control.depressed.found();
    let force = control.force.found();
    // Before anything else: no force, and no missing figure, makes a pedal on the floor less than a failure.
    if let Some(depressed) = depressed
        && !is_above(depressed.bounds.low, least_shown())
    {
        let a = free.map_or_else(String::new, |free| format!("A {}, ", free.text));
        check.found = format!("{a}B {}", depressed.text);
        if let Some(force) = force {
            check.found += &format!(" at {}", force.text);
        }
        check.state = State::Fails;
        "the pedal touches the floor".clone_into(&mut check.remark);
        return;
    }
    let (Some(free), Some(depressed)) = (free, depressed) else {
        "measure A free pedal to floor and B depressed pedal to floor"
            .clone_into(&mut check.remark);
        return;
    };
    // The worse end of each tolerance: a short stop and a long way to it.
    let Some(used) = worst_use(free, depressed) else {
        "A and B do not fit together".clone_into(&mut check.remark);
        return;
    };
    check.found = format!(
        "A {}, B {}: {:.1} %",
        free.text,
        depressed.text,
        used.get::<percent>()
    );
    let Some(force) = force else {
        "the force at which B was measured is not given".clone_into(&mut check.remark);
        return;
    };
    check.found += &format!(" at {}", force.text);
    let is_too_far = is_above(used, most);
    let is_enough = !is_above(reserve_force(), force.bounds.low);
    // Only a force that was surely larger explains a travel that is too far.
    let is_more = is_above(force.bounds.low, reserve_force() * FORCE_SPREAD);
    let is_boosted = control.booster.found();
    let engine_running = control.engine_running.found();
    let engine = match (is_boosted, engine_running) {
        (Some(Answer::No), _) | (Some(Answer::Yes), Some(Answer::Yes)) => None,
        (Some(Answer::Yes), Some(Answer::No)) => {
            Some("with a booster the engine has to run: measure again")
        }
        (Some(Answer::Yes), None) => {
            Some("whether the engine ran is not given; a booster needs it")
        }
        (None, _) => Some("whether it has a booster is not given"),
    };
    (check.state, check.remark) = match (is_too_far, is_enough, engine) {
        (true, _, _) if is_more => (
            State::LookAgain,
            "too far, at more than the 222 N of the rule: repeat at 222 N".to_owned(),
        ),
        (true, _, _) => (
            State::Fails,
            "air, clearance or a leak takes the travel".to_owned(),
        ),
        (false, false, _) => (
            State::NotChecked,
            "a smaller force than 222 N shows nothing: repeat at 222 N".to_owned(),
        ),
        (false, true, Some(engine)) => (State::NotChecked, engine.to_owned()),
        (false, true, None) if has_not_moved(free, depressed) => (
            State::LookAgain,
            "a pedal moves by its free play and its cylinder's first travel: it may be seized, or B copied from A"
                .to_owned(),
        ),
        (false, true, None) => (State::Within, String::new()),
    };
}

/// How far above 222 N a force still counts as 222 N, so that a travel beyond the limit fails at once.
///
/// ASSUMPTION: a twentieth, about what a spring gauge between foot and pedal can be read to. It never makes a check
/// good: it only parts "fails" from "look again".
const FORCE_SPREAD: f64 = 1.05;

/// The least that a pedal moves under 222 N.
///
/// ASSUMPTION: 5 mm. Free play and the travel that shuts a cylinder off, times the lever, are more on every pedal.
fn least_moved() -> Length {
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
    let check = bench.check(Group::Controls, name, "hard press held", source);
    "125 lbf (556 N) for 10 s, no further drop".clone_into(&mut check.limit);
    let force = control.hold_force.found();
    let time = control.hold_time.found();
    let dropped = control.hold_dropped.found();
    let parts = [
        written(force),
        written(time),
        match dropped {
            Some(Answer::Yes) => "went on sinking".to_owned(),
            Some(Answer::No) => "no further drop".to_owned(),
            None => String::new(),
        },
    ];
    check.found = parts
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(", ");
    if dropped == Some(&Answer::Yes) {
        check.state = State::Fails;
        "something leaks, outward or past a seal".clone_into(&mut check.remark);
        return;
    }
    let is_hard = force.map(|force| !is_above(hold_force(), force.bounds.low));
    let is_long = time.map(|time| !is_above(hold_time(), time.bounds.low));
    let remark = match (dropped, is_hard, is_long) {
        (None, _, _) => "whether the pedal went on sinking is not given",
        (_, None, _) => "the force is not given",
        (_, _, None) => "the time is not given",
        (_, Some(false), _) => "a smaller force than 556 N shows nothing: repeat",
        (_, _, Some(false)) => "less than 10 s shows nothing: repeat",
        (Some(_), Some(true), Some(true)) => {
            check.state = State::Within;
            ""
        }
    };
    remark.clone_into(&mut check.remark);
}
