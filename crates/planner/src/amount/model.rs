//! The purge model of one run, with the chamber before it.

use crate::plan::JointRule;
use bleedwright_hydraulics::{PurgeError, Push, Washout};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;

/// Up to this old fraction of the chamber its fluid may leave with a larger old
/// fraction than the rest, since there is little of it.
const SMALL_CHAMBER_SHARE: f64 = 0.1;

/// By how much larger.
const CHAMBER_ALLOWANCE: f64 = 4.0;

/// What leaves a run, with a chamber upstream that still holds old fluid.
///
/// The model is linear in what is old at the start. Let `c` be the old
/// fraction of the chamber. What the pipes and cavities hold comes out as if
/// clean fluid flowed in; what the chamber holds comes out as the difference
/// between a wholly old system with and without the chamber. The sum is never
/// more than `(1 - c) A + c B`, where `A` is the run as earlier screws left it
/// and `B` the run and the chamber wholly old, since `A` is nowhere more than
/// a wholly old run. That upper bound is used.
#[derive(Clone, Debug)]
pub(crate) struct Model {
    run: Washout,
    /// The run with its chamber, all old; and the chamber's old fraction.
    with_chamber: Option<(Washout, f64)>,
}

/// A push after which a run is clean enough.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Enough {
    pub(crate) push: Volume,
    /// The old fraction of what then leaves, where the push was found by it.
    pub(crate) leaves: Option<Ratio>,
    pub(crate) joints: JointRule,
}

impl Enough {
    /// What was found for a run alone.
    fn of_run(push: Push, residual: Ratio) -> Self {
        let joints = joints_of(push);
        let is_just_enough =
            push.volume > Volume::default() && (joints == JointRule::Kept || push.is_mixed_at_tees);
        Self {
            push: push.volume,
            leaves: is_just_enough.then_some(residual),
            joints,
        }
    }
}

fn joints_of(push: Push) -> JointRule {
    if push.is_governed_by_mixing() {
        JointRule::Mixed
    } else {
        JointRule::Kept
    }
}

impl Model {
    /// A run behind a chamber that is clean, or is part of `run` already.
    pub(crate) fn of_run(run: Washout) -> Self {
        Self {
            run,
            with_chamber: None,
        }
    }

    /// A run behind a chamber whose old fraction is `chamber_old`.
    pub(crate) fn behind_chamber(run: Washout, all_old: Washout, chamber_old: f64) -> Self {
        Self {
            run,
            with_chamber: Some((all_old, chamber_old)),
        }
    }

    pub(crate) fn run(&self) -> &Washout {
        &self.run
    }

    /// The run with its chamber, all old, and the chamber's old fraction; none
    /// where the chamber is clean or is part of the run already.
    pub(crate) fn with_chamber(&self) -> Option<(&Washout, f64)> {
        let (all_old, chamber_old) = self.with_chamber.as_ref()?;
        Some((all_old, *chamber_old))
    }

    /// Old fraction of what leaves after a push.
    pub(crate) fn old_fraction_out(&self, pushed: Volume) -> Ratio {
        let kept = self.run.old_fraction_out(pushed);
        let of_run = match self.run.mixed_old_fraction_out(pushed) {
            Some(mixed) => kept.max(mixed),
            None => kept,
        };
        match &self.with_chamber {
            None => of_run,
            Some((all_old, chamber_old)) => {
                of_run * (1.0 - chamber_old) + all_old.old_fraction_out(pushed) * *chamber_old
            }
        }
    }

    /// A push after which at most `residual` of what leaves is old.
    ///
    /// The bound `(1 - c) A + c B` is met when `A` is below `r_a` and `B` below
    /// `r_b` with `(1 - c) r_a + c r_b = residual`. With little in the chamber
    /// `B` is allowed more, which costs `A` little. Any such pair is safe, so
    /// no search for the best one is made. What makes both clean enough is
    /// always enough, so that a pair that asks for more is dropped.
    pub(crate) fn push_until(&self, residual: Ratio) -> Result<Enough, PurgeError> {
        let Some((all_old, chamber_old)) = &self.with_chamber else {
            return Ok(Enough::of_run(self.run.push_until(residual)?, residual));
        };
        if *chamber_old < SMALL_CHAMBER_SHARE {
            let of_chamber = residual * CHAMBER_ALLOWANCE;
            let of_run = residual * ((1.0 - CHAMBER_ALLOWANCE * chamber_old) / (1.0 - chamber_old));
            let is_reachable =
                of_run > self.run.inlet_old_fraction() && of_chamber.get::<ratio>() < 1.0;
            if is_reachable {
                let run = Enough::of_run(self.run.push_until(of_run)?, of_run);
                // `B` never rises: it starts old throughout.
                let leaves_chamber = all_old.old_fraction_out(run.push);
                if leaves_chamber > of_chamber {
                    let of_chamber = all_old.unmixed_push_until(of_chamber)?;
                    return Ok(Enough {
                        push: run.push.max(of_chamber),
                        leaves: None,
                        joints: if of_chamber < run.push {
                            run.joints
                        } else {
                            JointRule::Kept
                        },
                    });
                }
                if leaves_chamber > residual {
                    let both =
                        |of_run| of_run * (1.0 - chamber_old) + leaves_chamber * *chamber_old;
                    return Ok(Enough {
                        push: run.push,
                        leaves: run.leaves.map(both),
                        joints: run.joints,
                    });
                }
            }
        }
        let push = all_old.push_until(residual)?;
        // Mixed at its tees `A` can be more than `B` is by its streamlines.
        let run = Enough::of_run(self.run.push_until(residual)?, residual);
        Ok(if run.push > push.volume {
            Enough {
                leaves: None,
                ..run
            }
        } else {
            Enough {
                push: push.volume,
                leaves: None,
                joints: joints_of(push),
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use bleedwright_hydraulics::{Tank, Tube};
    use uom::si::volume::milliliter;

    const CHAMBERS_OLD: [f64; 8] = [0.001, 0.01, 0.05, 0.0767, 0.099, 0.2, 0.9, 1.0];

    fn share(value: f64) -> Ratio {
        Ratio::new::<ratio>(value)
    }

    /// Cavities behind a tube of 48 ml, all old.
    fn run(cavities_ml: &[f64]) -> Washout {
        let ml = Volume::new::<milliliter>;
        let tanks = cavities_ml
            .iter()
            .map(|volume| Tank::full_of_old(ml(*volume)).expect("the volume is finite"))
            .collect();
        let tube = Tube::fresh(ml(48.0)).expect("the volume is finite");
        Washout::new(tube, tanks, share(0.0)).expect("finite")
    }

    /// A chamber that is partly clean never asks for more than an old one.
    #[test]
    fn a_cleaner_chamber_asks_for_no_more() {
        let all_old = run(&[4.6, 18.0]);
        let residual = share(0.0767);
        let as_first = all_old.push_until(residual).expect("it settles").volume;
        for chamber_old in CHAMBERS_OLD {
            let model = Model::behind_chamber(run(&[18.0]), all_old.clone(), chamber_old);
            let push = model.push_until(residual).expect("it settles").push;
            assert!(push <= as_first, "{chamber_old}: {push:?}");
            assert!(model.old_fraction_out(push) <= residual + share(1e-8));
        }
    }

    /// What a push was found by is what leaves after it.
    #[test]
    fn what_leaves_is_told_as_it_would_be_worked_out() {
        let behind_chambers = CHAMBERS_OLD
            .map(|chamber_old| Model::behind_chamber(run(&[18.0]), run(&[4.6, 18.0]), chamber_old));
        let mut told = 0;
        for model in behind_chambers
            .into_iter()
            .chain([Model::of_run(run(&[18.0]))])
        {
            for residual in [0.01, 0.05, 0.4] {
                let enough = model.push_until(share(residual)).expect("it settles");
                if let Some(leaves) = enough.leaves {
                    let worked_out = model.old_fraction_out(enough.push);
                    assert!((leaves - worked_out).abs() < share(1e-8), "{residual}");
                    told += 1;
                }
            }
        }
        assert!(told > 5, "{told}");
    }
}
