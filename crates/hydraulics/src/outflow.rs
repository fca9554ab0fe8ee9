//! What leaves a tube, as the stretches that a march follows: by the closed form, with diffusion, or mixed at joints.

use crate::curve::{Curve, Piece};
use crate::diffusion::Diffusion;
use crate::legendre::{self, Moments};
use crate::tube::{Mark, Tube};
use std::cell::OnceCell;

/// What leaves a tube.
pub(crate) enum Outflow<'a> {
    /// Streamlines keep their fluid: the rule of [`crate::tube`].
    Kept(&'a Tube),
    /// The same with diffusion across the bore.
    Diffused(&'a Tube, Diffused),
    /// The flow is mixed at the joints: a curve over the push in cubic metres.
    Mixed(Curve),
}

/// A tube with diffusion across its bore.
///
/// Each statement of the rule in [`crate::tube`] speaks of a fresh tube: of the whole run at the push `v + w_d`, or of
/// what lies behind part `d` at the push `v`. Diffusion gives each of these the outflow of a diffused fresh tube, with
/// the share of `tau` that its contents are of the whole. For a run without history this is the equation itself; with
/// history it is an estimate, since what diffused during earlier pushes is taken from that one tube.
pub(crate) struct Diffused {
    marks: Vec<(Mark, OnceCell<Option<Curve>>)>,
    contents_m3: f64,
    /// Of a whole run that holds so much, of which these marks may be the first.
    diffusion: (Diffusion, f64),
    whole: Curve,
}

/// The tube's outflow between two kinks.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stretch {
    pub(crate) end_m3: f64,
    pub(crate) shape: Shape,
    /// What may still flow in after the end, where that can be more than at the end itself; else nothing.
    pub(crate) later: f64,
}

#[derive(Debug, Clone, Copy)]
pub(crate) enum Shape {
    Constant(f64),
    /// `(reach / (v + lead))^2`
    Falling {
        reach_m3: f64,
        lead_m3: f64,
    },
    /// A piece over `(v + lead) / scale`.
    Piece {
        piece: Piece,
        lead_m3: f64,
        scale_m3: f64,
    },
}

impl Shape {
    pub(crate) fn at(self, pushed_m3: f64) -> f64 {
        match self {
            Self::Constant(value) => value,
            Self::Falling { reach_m3, lead_m3 } => (reach_m3 / (pushed_m3 + lead_m3)).powi(2),
            Self::Piece {
                piece,
                lead_m3,
                scale_m3,
            } => piece.fraction_at((pushed_m3 + lead_m3) / scale_m3),
        }
    }

    pub(crate) fn over(self, start_m3: f64, width_m3: f64) -> Moments {
        match self {
            Self::Constant(value) => legendre::constant(value),
            _ => legendre::project(start_m3, width_m3, |pushed_m3| self.at(pushed_m3)),
        }
    }
}

impl<'a> Outflow<'a> {
    pub(crate) fn kept(tube: &'a Tube, diffusion: Diffusion) -> Self {
        if diffusion.is_none() || tube.contents_m3() <= 0.0 {
            return Self::Kept(tube);
        }
        let marks = tube.marks().iter().copied();
        Self::Diffused(tube, Diffused::new(marks, diffusion, tube.contents_m3()))
    }

    pub(crate) fn stretches(&self) -> Box<dyn Iterator<Item = Stretch> + '_> {
        match self {
            Self::Kept(tube) => Box::new(stretches(tube)),
            Self::Diffused(tube, diffused) => Box::new(diffused.stretches(tube)),
            Self::Mixed(curve) => Box::new(mixed_stretches(curve)),
        }
    }

    pub(crate) fn fraction_at(&self, pushed_m3: f64) -> f64 {
        match self {
            Self::Kept(tube) => tube.fraction_at(pushed_m3),
            Self::Diffused(_, diffused) => diffused.fraction_at(pushed_m3),
            Self::Mixed(curve) => curve.fraction_at(pushed_m3),
        }
    }

    /// The push after which the outflow stays at or below a level.
    pub(crate) fn push_m3(&self, level: f64) -> f64 {
        match self {
            Self::Kept(tube) => tube.push_m3(level),
            Self::Diffused(_, diffused) => diffused.push_m3(level),
            Self::Mixed(curve) if curve.fraction_at(0.0) <= level => 0.0,
            Self::Mixed(curve) => curve.place_for(level),
        }
    }
}

impl Diffused {
    /// The parts that these marks end, nearest to the chamber first, of a run that holds so much in all.
    pub(crate) fn new(
        marks: impl Iterator<Item = Mark>,
        diffusion: Diffusion,
        run_m3: f64,
    ) -> Self {
        let marks: Vec<_> = marks.map(|mark| (mark, OnceCell::new())).collect();
        let contents_m3 = marks.last().map_or(0.0, |(mark, _)| mark.reach_m3);
        Self {
            marks,
            contents_m3,
            diffusion: (diffusion, run_m3),
            whole: diffusion.share(contents_m3 / run_m3).curve(),
        }
    }

    /// The least that the rule allows: for each mark, what is asked of the whole `together` with what went through it
    /// before, or where that is more what is asked of what lies behind it, by its curve and its contents.
    fn least(
        &self,
        of_whole: f64,
        together: impl Fn(f64) -> f64,
        beyond: impl Fn(&Curve, f64) -> f64,
    ) -> f64 {
        let (diffusion, run_m3) = self.diffusion;
        self.marks.iter().fold(of_whole, |least, (mark, behind)| {
            let together = together(mark.pushed_m3);
            if together >= least {
                return least;
            }
            let beyond_m3 = self.contents_m3 - mark.reach_m3;
            let behind = behind.get_or_init(|| {
                (beyond_m3 > 0.0).then(|| diffusion.share(beyond_m3 / run_m3).curve())
            });
            let beyond = (behind.as_ref()).map_or(0.0, |curve| beyond(curve, beyond_m3));
            least.min(together.max(beyond))
        })
    }

    pub(crate) fn fraction_at(&self, pushed_m3: f64) -> f64 {
        let whole = |pushed_m3: f64| self.whole.fraction_at(pushed_m3 / self.contents_m3);
        self.least(
            whole(pushed_m3),
            |before_m3| whole(pushed_m3 + before_m3),
            |curve, beyond_m3| curve.fraction_at(pushed_m3 / beyond_m3),
        )
    }

    fn push_m3(&self, level: f64) -> f64 {
        let whole_m3 = self.whole.place_for(level) * self.contents_m3;
        self.least(
            whole_m3,
            |before_m3| whole_m3 - before_m3,
            |curve, beyond_m3| curve.place_for(level) * beyond_m3,
        )
        .max(0.0)
    }

    fn stretches<'s>(&'s self, tube: &'s Tube) -> impl Iterator<Item = Stretch> + 's {
        let (diffusion, total_m3) = self.diffusion;
        // The most that any share of the run can give at one `theta`; nothing where there is one part only.
        let most = (self.marks.len() > 1).then(|| diffusion.or_less().curve());
        let mut start_m3 = 0.0;
        stretches(tube).flat_map(move |stretch| {
            let from_m3 = start_m3;
            start_m3 = stretch.end_m3;
            let Shape::Falling { reach_m3, lead_m3 } = stretch.shape else {
                return vec![stretch];
            };
            let scale_m3 = 2.0 * reach_m3;
            let own;
            let curve = if scale_m3 < total_m3 {
                own = diffusion.share(scale_m3 / total_m3).curve();
                &own
            } else {
                &self.whole
            };
            let mut pieces = Vec::new();
            for piece in curve.pieces_from((from_m3 + lead_m3) / scale_m3) {
                let end_m3 = (piece.end * scale_m3 - lead_m3).min(stretch.end_m3);
                // What comes later may diffuse otherwise and jump up; the last stretch only falls.
                let later = match &most {
                    Some(most) if stretch.end_m3.is_finite() => {
                        most.fraction_at((end_m3 + lead_m3) / scale_m3)
                    }
                    _ => 0.0,
                };
                pieces.push(Stretch {
                    end_m3,
                    shape: Shape::Piece {
                        piece,
                        lead_m3,
                        scale_m3,
                    },
                    later,
                });
                if end_m3 >= stretch.end_m3 {
                    break;
                }
            }
            pieces
        })
    }
}

/// The stretches of a tube's outflow, in order; the last one has no end.
///
/// As the push grows, the rule of [`crate::tube`] is decided by parts ever nearer to the chamber. Part `d` decides
/// from `w_d (S - S_d) / S_d` on; at `w_d (S - S_(d-1)) / S_(d-1)` the end of the part before it takes over.
fn stretches(tube: &Tube) -> impl Iterator<Item = Stretch> + '_ {
    let total_m3 = tube.contents_m3();
    let marks = tube.marks();
    let first_new_m3 = if total_m3 > 0.0 {
        tube.push_m3(1.0)
    } else {
        0.0
    };
    let lead_in = Stretch {
        end_m3: first_new_m3,
        shape: Shape::Constant(1.0),
        later: 0.0,
    };
    let empty = (total_m3 <= 0.0).then_some(Stretch {
        end_m3: f64::INFINITY,
        shape: Shape::Constant(0.0),
        later: 0.0,
    });
    let decided_by_parts = (0..marks.len()).rev().flat_map(move |d| {
        let takes_over_m3 =
            |part: usize, reach_m3: f64| marks[part].pushed_m3 * (total_m3 - reach_m3) / reach_m3;
        let before = d.checked_sub(1).map(|before| marks[before]);
        let own = Stretch {
            end_m3: before.map_or(f64::INFINITY, |before| takes_over_m3(d, before.reach_m3)),
            shape: Shape::Falling {
                reach_m3: total_m3 / 2.0,
                lead_m3: marks[d].pushed_m3,
            },
            later: 0.0,
        };
        let end_of_part_before = before.map(|before| Stretch {
            end_m3: takes_over_m3(d - 1, before.reach_m3),
            shape: Shape::Falling {
                reach_m3: (total_m3 - before.reach_m3) / 2.0,
                lead_m3: 0.0,
            },
            later: 0.0,
        });
        std::iter::once(own).chain(end_of_part_before)
    });
    std::iter::once(lead_in)
        .chain(decided_by_parts)
        .chain(empty)
        .filter({
            let mut reached_m3 = 0.0;
            move |stretch| {
                let is_longer = stretch.end_m3 > reached_m3;
                if is_longer && stretch.end_m3 >= first_new_m3 {
                    reached_m3 = stretch.end_m3;
                }
                is_longer && stretch.end_m3 >= first_new_m3
            }
        })
}

fn mixed_stretches(curve: &Curve) -> impl Iterator<Item = Stretch> + '_ {
    let stretch = |end_m3, shape| Stretch {
        end_m3,
        shape,
        later: 0.0,
    };
    let first = curve.first();
    let lead_in = (first > 0.0).then(|| stretch(first, Shape::Constant(curve.fraction_at(first))));
    lead_in
        .into_iter()
        .chain(curve.pieces_from(first).map(move |piece| {
            stretch(
                piece.end,
                Shape::Piece {
                    piece,
                    lead_m3: 0.0,
                    scale_m3: 1.0,
                },
            )
        }))
}
