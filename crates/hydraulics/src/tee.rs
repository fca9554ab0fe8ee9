//! A run that earlier screws pushed through in part, with the flow mixed at the tees where their ways parted.
//!
//! The opposite assumption to [`crate::tube`]: at a tee the slow fluid of the shared wall is dealt out over the whole bore,
//! so that it also enters the fast streamlines of the part behind. Let `E_i(y)` be the old fraction that leaves part `i`,
//! fresh, after the push `y` with new fluid, `w_i` what went through it before, and `G_i(v)` what leaves it after the push
//! `v` of this run's screw. Fluid leaves part `i` after the push `s` since it entered with the density `-dE_i/ds`:
//!
//! ```text
//! G_i(v) = E_i(w_i + v) + integral over s from 0 to v of G_(i-1)(v - s) (-dE_i)
//!                       + integral over s from v to w_i + v of F_(i-1)(w_i + v - s) (-dE_i)
//! ```
//!
//! `F_(i-1)(y)` is what entered part `i` during its earlier pushes, taken for the outflow of one fresh tube of all parts
//! before it after the push `y`: the deepest pushes came first, and the parts had seen no other. Before the first tee that
//! is followed, streamlines are kept.
//!
//! Source: derived here; that times of stay of parts in series are folded into each other is in
//! [Levenspiel1999](crate#sources), chapter 11 (from memory).

use crate::curve::Curve;
use crate::diffusion::Diffusion;
use crate::outflow::Diffused;
use crate::tube::Tube;

/// The tees nearest to the screw that are mixed.
///
/// ASSUMPTION: two are enough; what is shared further up is long and was pushed through by most.
const TEES: usize = 2;

/// Of more marks before the first mixed tee, so many are used. Leaving one out asks for more and not for less.
const HEAD_MARKS: usize = 6;

/// Places of a curve over the push: each is at least this many times the one before.
const RATIO: f64 = 1.28;

/// The places reach so many times the contents of the run.
const FARTHEST: f64 = 40.0;

/// A part that holds less than this share of the run delays and mixes nothing.
const NEGLIGIBLE_SHARE: f64 = 1e-9;

/// At most so many.
const PLACES: usize = 64;

/// A part of the run with its own curve.
struct Part {
    contents_m3: f64,
    pushed_m3: f64,
    /// What leaves it fresh, over its own theta.
    fresh: Curve,
}

impl Part {
    fn out(&self, pushed_m3: f64) -> f64 {
        self.fresh.fraction_at(pushed_m3 / self.contents_m3)
    }
}

/// What leaves a run that is mixed at its tees, over the push; none for a run whose parts share one history. The curve
/// is followed until it falls below `floor` and the push is beyond `until_m3`.
pub(crate) fn mixed_outflow(
    tube: &Tube,
    diffusion: Diffusion,
    floor: f64,
    until_m3: f64,
) -> Option<Curve> {
    let total_m3 = tube.contents_m3();
    let mut reach_m3 = 0.0;
    let mut marks = tube.marks().to_vec();
    marks.retain(|mark| {
        let is_part = mark.reach_m3 - reach_m3 > NEGLIGIBLE_SHARE * total_m3;
        if is_part {
            reach_m3 = mark.reach_m3;
        }
        is_part
    });
    let first_behind = marks.len().saturating_sub(TEES).max(1);
    if marks.len() < 2 {
        return None;
    }
    let curve_of = |contents_m3: f64| diffusion.share(contents_m3 / total_m3).curve();
    // Before the first tee that is mixed streamlines are kept, as in `crate::tube`; the last of these marks counts.
    let every = first_behind.div_ceil(HEAD_MARKS);
    let head = marks[(first_behind - 1) % every..first_behind].iter();
    let head = Diffused::new(head.step_by(every).copied(), diffusion, total_m3);
    let mut reach_m3 = marks[first_behind - 1].reach_m3;
    let mut inflow: Box<dyn Fn(f64) -> f64> =
        Box::new(move |pushed_m3| head.fraction_at(pushed_m3));
    for (i, mark) in marks.iter().enumerate().skip(first_behind) {
        let part = Part {
            contents_m3: mark.reach_m3 - reach_m3,
            pushed_m3: mark.pushed_m3,
            fresh: curve_of(mark.reach_m3 - reach_m3),
        };
        let before = (mark.pushed_m3 > 0.0).then(|| Part {
            contents_m3: reach_m3,
            pushed_m3: 0.0,
            fresh: curve_of(reach_m3),
        });
        let floor = if i + 1 == marks.len() {
            floor
        } else {
            floor * 0.1
        };
        let farthest_m3 = FARTHEST * total_m3;
        let curve = followed(
            &part,
            before.as_ref(),
            &inflow,
            floor,
            until_m3,
            farthest_m3,
        );
        if i + 1 == marks.len() {
            return Some(curve);
        }
        reach_m3 = mark.reach_m3;
        inflow = Box::new(move |pushed_m3| curve.fraction_at(pushed_m3));
    }
    None
}

/// What leaves a part, place after place.
fn followed(
    part: &Part,
    before: Option<&Part>,
    inflow: &dyn Fn(f64) -> f64,
    floor: f64,
    until_m3: f64,
    farthest_m3: f64,
) -> Curve {
    let first_m3 = 0.5 * part.contents_m3;
    let mut places = Vec::with_capacity(PLACES);
    let mut roots = Vec::with_capacity(PLACES);
    if part.pushed_m3 > 0.0 {
        places.push(0.0);
    }
    let mut next_m3 = if part.pushed_m3 > 0.0 {
        first_m3 * 0.25
    } else {
        first_m3
    };
    let mut least = 1.0_f64;
    let ratio = (farthest_m3 / next_m3).powf(1.0 / PLACES as f64).max(RATIO);
    loop {
        while roots.len() < places.len() {
            let out = leaving(part, before, inflow, places[roots.len()]);
            // Quadrature must not let the curve rise.
            least = least.min(out).max(1e-12);
            roots.push(1.0 / least.sqrt());
        }
        let is_enough = places.last().is_some_and(|&last| last > until_m3) && least < floor;
        if (is_enough && places.len() > 1) || places.len() >= PLACES {
            return Curve::new(places, roots);
        }
        places.push(next_m3);
        next_m3 *= ratio;
    }
}

/// The formula above: the mass of each piece of `E_i` times the mean of what entered at its two ends.
fn leaving(part: &Part, before: Option<&Part>, inflow: &dyn Fn(f64) -> f64, pushed_m3: f64) -> f64 {
    let all_m3 = part.pushed_m3 + pushed_m3;
    let entered = |since_m3: f64| match before {
        Some(before) if since_m3 > pushed_m3 => before.out((all_m3 - since_m3).max(0.0)),
        _ => inflow((pushed_m3 - since_m3).max(0.0)),
    };
    let since_m3 = part.fresh.first() * part.contents_m3;
    if all_m3 <= since_m3 {
        return 1.0;
    }
    let (mut left, mut entered_before) = (1.0, entered(since_m3));
    let mut sum = 0.0;
    for piece in part.fresh.pieces_from(part.fresh.first()) {
        let end_m3 = (piece.end * part.contents_m3).min(all_m3);
        let left_after = piece.fraction_at(end_m3 / part.contents_m3);
        let entered_after = entered(end_m3);
        sum += (left - left_after) * 0.5 * (entered_before + entered_after);
        (left, entered_before) = (left_after, entered_after);
        if end_m3 >= all_m3 {
            break;
        }
    }
    sum + left
}
