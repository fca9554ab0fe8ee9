//! The purge model of one run, with the chamber before it.

use bleedwright_hydraulics::{PurgeError, Tube, Washout};
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

    pub(crate) fn tube(&self) -> &Tube {
        self.run.tube()
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
        let of_run = self.run.old_fraction_out(pushed);
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
    /// no search for the best one is made. What makes `B` itself clean enough
    /// is always enough, so that a pair that asks for more is dropped.
    pub(crate) fn push_until(&self, residual: Ratio) -> Result<Volume, PurgeError> {
        let Some((all_old, chamber_old)) = &self.with_chamber else {
            return Ok(self.run.push_until(residual)?.volume);
        };
        if *chamber_old < SMALL_CHAMBER_SHARE {
            let of_chamber = residual * CHAMBER_ALLOWANCE;
            let of_run = residual * ((1.0 - CHAMBER_ALLOWANCE * chamber_old) / (1.0 - chamber_old));
            let is_reachable =
                of_run > self.run.inlet_old_fraction() && of_chamber.get::<ratio>() < 1.0;
            if is_reachable {
                let run = self.run.push_until(of_run)?.volume;
                let chamber = all_old.unmixed_push_until(of_chamber)?;
                // After `chamber` just `of_chamber` leaves `B`: too much to be clean enough.
                if chamber > run || all_old.old_fraction_out(run) > residual {
                    return Ok(run.max(chamber));
                }
            }
        }
        Ok(all_old.push_until(residual)?.volume)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use bleedwright_hydraulics::Tank;
    use uom::si::volume::milliliter;

    /// A chamber that is partly clean never asks for more than an old one.
    #[test]
    fn a_cleaner_chamber_asks_for_no_more() {
        let ml = Volume::new::<milliliter>;
        let share = Ratio::new::<ratio>;
        let tank = |volume| Tank::full_of_old(ml(volume)).expect("the volume is finite");
        let tube = || Tube::fresh(ml(48.0)).expect("the volume is finite");
        let run = Washout::new(tube(), vec![tank(18.0)], share(0.0)).expect("finite");
        let all_old =
            Washout::new(tube(), vec![tank(4.6), tank(18.0)], share(0.0)).expect("finite");
        let residual = share(0.0767);
        let as_first = all_old.push_until(residual).expect("it settles").volume;
        for chamber_old in [0.001, 0.01, 0.05, 0.0767, 0.099, 0.2, 0.9, 1.0] {
            let model = Model::behind_chamber(run.clone(), all_old.clone(), chamber_old);
            let push = model.push_until(residual).expect("it settles");
            assert!(push <= as_first, "{chamber_old}: {push:?}");
            assert!(model.old_fraction_out(push) <= residual + share(1e-8));
        }
    }
}
