//! What leaves a tube, as the stretches that a march follows: by the closed form, with diffusion, or mixed at joints.

use crate::curve::Curve;
use crate::diffusion::Diffusion;
use crate::march::{Shape, Stretch, stretches};
use crate::tube::Tube;

/// What leaves a tube.
pub(crate) enum Outflow<'a> {
    /// Streamlines keep their fluid: the rule of [`crate::tube`].
    Kept(&'a Tube),
    /// The same with diffusion across the bore.
    Diffused(Diffused<'a>),
    /// The flow is mixed at the joints: a curve over the push in cubic metres.
    Mixed(Curve),
}

/// A tube with diffusion across its bore.
///
/// Each statement of the rule in [`crate::tube`] speaks of a fresh tube: of the whole run at the push `v + w_d`, or of
/// what lies behind part `d` at the push `v`. Diffusion gives each of these the outflow of a diffused fresh tube, with
/// the share of `tau` that its contents are of the whole. For a run without history this is the equation itself; with
/// history it is an estimate, since what diffused during earlier pushes is taken from that one tube.
pub(crate) struct Diffused<'a> {
    tube: &'a Tube,
    diffusion: Diffusion,
    whole: Curve,
    /// The most that any share of the run can give at one `theta`; none where there is one part only.
    most: Option<Curve>,
}

impl<'a> Outflow<'a> {
    pub(crate) fn kept(tube: &'a Tube, diffusion: Diffusion) -> Self {
        if diffusion.is_none() || tube.contents_m3() <= 0.0 {
            return Self::Kept(tube);
        }
        Self::Diffused(Diffused {
            tube,
            diffusion,
            whole: diffusion.curve(),
            most: (tube.marks().len() > 1).then(|| diffusion.or_less().curve()),
        })
    }

    pub(crate) fn stretches(&self) -> Box<dyn Iterator<Item = Stretch> + '_> {
        match self {
            Self::Kept(tube) => Box::new(stretches(tube)),
            Self::Diffused(diffused) => Box::new(diffused.stretches()),
            Self::Mixed(curve) => Box::new(mixed_stretches(curve)),
        }
    }

    pub(crate) fn fraction_at(&self, pushed_m3: f64) -> f64 {
        match self {
            Self::Kept(tube) => tube.fraction_at(pushed_m3),
            Self::Diffused(diffused) => diffused.fraction_at(pushed_m3),
            Self::Mixed(curve) => curve.fraction_at(pushed_m3),
        }
    }

    /// The push after which the outflow stays at or below a level.
    pub(crate) fn push_m3(&self, level: f64) -> f64 {
        match self {
            Self::Kept(tube) => tube.push_m3(level),
            Self::Diffused(diffused) => diffused.push_m3(level),
            Self::Mixed(curve) if curve.fraction_at(0.0) <= level => 0.0,
            Self::Mixed(curve) => curve.place_for(level),
        }
    }
}

impl Diffused<'_> {
    fn total_m3(&self) -> f64 {
        self.tube.contents_m3()
    }

    /// What lies behind a mark: its contents and its curve.
    fn behind(&self, reach_m3: f64) -> Option<(f64, Curve)> {
        let beyond_m3 = self.total_m3() - reach_m3;
        let share = beyond_m3 / self.total_m3();
        (beyond_m3 > 0.0).then(|| (beyond_m3, self.diffusion.share(share).curve()))
    }

    fn fraction_at(&self, pushed_m3: f64) -> f64 {
        let total_m3 = self.total_m3();
        let whole = |pushed_m3: f64| self.whole.fraction_at(pushed_m3 / total_m3);
        self.tube
            .marks()
            .iter()
            .fold(whole(pushed_m3), |least, mark| {
                let together = whole(pushed_m3 + mark.pushed_m3);
                if together >= least {
                    return least;
                }
                let beyond = self
                    .behind(mark.reach_m3)
                    .map_or(0.0, |(beyond_m3, curve)| {
                        curve.fraction_at(pushed_m3 / beyond_m3)
                    });
                least.min(together.max(beyond))
            })
    }

    fn push_m3(&self, level: f64) -> f64 {
        let whole_m3 = self.whole.place_for(level) * self.total_m3();
        self.tube
            .marks()
            .iter()
            .fold(whole_m3, |least, mark| {
                let together = whole_m3 - mark.pushed_m3;
                if together >= least {
                    return least;
                }
                let beyond = self
                    .behind(mark.reach_m3)
                    .map_or(0.0, |(beyond_m3, curve)| curve.place_for(level) * beyond_m3);
                least.min(together.max(beyond))
            })
            .max(0.0)
    }

    fn stretches(&self) -> impl Iterator<Item = Stretch> + '_ {
        let total_m3 = self.total_m3();
        let mut start_m3 = 0.0;
        stretches(self.tube).flat_map(move |stretch| {
            let from_m3 = start_m3;
            start_m3 = stretch.end_m3;
            let Shape::Falling { reach_m3, lead_m3 } = stretch.shape else {
                return vec![stretch];
            };
            let scale_m3 = 2.0 * reach_m3;
            let own;
            let curve = if scale_m3 < total_m3 {
                own = self.diffusion.share(scale_m3 / total_m3).curve();
                &own
            } else {
                &self.whole
            };
            let mut pieces = Vec::new();
            for piece in curve.pieces_from((from_m3 + lead_m3) / scale_m3) {
                let end_m3 = (piece.end * scale_m3 - lead_m3).min(stretch.end_m3);
                // What comes later may diffuse otherwise and jump up; the last stretch only falls.
                let later = match &self.most {
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
