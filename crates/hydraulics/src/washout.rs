//! A whole run: what flows in, the pipework as a laminar tube, then its cavities one after the other.

use crate::diffusion::Diffusion;
use crate::error::{PurgeError, checked_fraction, checked_m3, checked_residual};
use crate::laminar::laminar_theta_for;
use crate::march::{March, is_counted};
use crate::mixing::fully_mixed_theta_for;
use crate::outflow::Outflow;
use crate::tank::Tank;
use crate::tee::mixed_outflow;
use crate::tube::Tube;
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

/// The share of a residual to which the signals behind a push are followed.
const SHARE_OF_RESIDUAL: f64 = 1e-8;

/// The absolute accuracy to which an outgoing fraction is followed.
const FRACTION_TOLERANCE: f64 = 1e-9;

/// To this an outflow mixed at tees is worked out, beyond it goes on as it falls there. It is the same for a push and for
/// what leaves after one, so that the two agree.
const LEAST_FOLLOWED: f64 = 2e-3;

/// For small residuals it is followed to this share of them.
const SHARE_FOLLOWED: f64 = 0.1;

/// What leaves after a push takes the outflow so far: the curve at a place depends on the two places behind.
const BEYOND_PUSH: f64 = 2.0;

/// After a push of this many times everything on the run nothing is left that the accuracy could show.
const LONGEST_PUSH: f64 = 1e12;

/// Above this residual a fresh tube needs less than twice its contents, and mixing at joints can ask for more.
const MIXING_RESIDUAL: f64 = 1.0 / 16.0;

/// A run from the chamber to its screw.
///
/// Formula: `c(v) = f + (1 - f) C(v)`, where `C` is what leaves the last cavity when clean fluid flows in: the tube's
/// outflow sent through `V_i dC_i/dv = C_(i-1) - C_i` for each cavity, starting at
/// `C_i(0) = max(0, (c_i - f) / (1 - f))`.
///
/// Symbols: `v` pushed volume (m3); `c` old fraction of the outflow (dimensionless); `f` old fraction of what flows
/// in, kept constant (dimensionless); `V_i` volume of cavity `i` (m3); `c_i` its old fraction at the start
/// (dimensionless).
///
/// Range: as for [`Tube`] and [`Tank`]; `f` constant, so for a reservoir that clears up during the push it is the
/// value at the start; cavities cleaner than the inflow count as equal to it, which asks for more and not for less.
///
/// Source: tube [Danckwerts1953](crate#sources), [Levenspiel1999](crate#sources); cavities in series [Levenspiel1999](crate#sources); the tube's history as derived
/// in [`crate::tube`].
#[derive(Debug, Clone, PartialEq)]
pub struct Washout {
    tube: Tube,
    tanks: Vec<Tank>,
    inlet_old_fraction: Ratio,
    diffusion: Diffusion,
}

/// How much must be pushed, and which rule decided it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Push {
    /// What must be pushed: the larger of the two rules for the joints.
    pub volume: Volume,
    /// What must be pushed when nothing mixes at the joints.
    pub unmixed: Volume,
    /// Whether mixing at the tees where the ways of earlier pushes parted asked for it.
    pub is_mixed_at_tees: bool,
}

impl Push {
    /// Whether full mixing at the joints asks for more than no mixing.
    pub fn is_governed_by_mixing(&self) -> bool {
        self.volume > self.unmixed
    }
}

impl Washout {
    /// A run made of a tube and the cavities behind it, in the order in which the fluid passes them.
    pub fn new(
        tube: Tube,
        tanks: Vec<Tank>,
        inlet_old_fraction: Ratio,
    ) -> Result<Self, PurgeError> {
        checked_fraction(inlet_old_fraction)?;
        let cavities: Volume = tanks
            .iter()
            .map(Tank::volume)
            .fold(Volume::default(), |sum, part| sum + part);
        checked_m3(cavities + tube.contents())?;
        Ok(Self {
            tube,
            tanks,
            inlet_old_fraction,
            diffusion: Diffusion::NONE,
        })
    }

    /// The same run with diffusion across the bore of its tube, see [`crate::diffusion`]. A run is made without.
    ///
    /// ```
    /// use bleedwright_hydraulics::{Diffusion, Tube, Washout};
    /// use uom::si::{f64::{Ratio, Volume}, ratio::{percent, ratio}, volume::milliliter};
    ///
    /// let tube = Tube::fresh(Volume::new::<milliliter>(40.0))?;
    /// let run = Washout::new(tube, vec![], Ratio::new::<percent>(0.0))?
    ///     .with_diffusion(Diffusion::of(Ratio::new::<ratio>(4e-3)));
    /// let push = run.push_until(Ratio::new::<percent>(5.0))?;
    /// assert!((push.volume.get::<milliliter>() - 40.0 * 2.758).abs() < 0.1);
    /// # Ok::<(), bleedwright_hydraulics::PurgeError>(())
    /// ```
    #[must_use]
    pub fn with_diffusion(self, diffusion: Diffusion) -> Self {
        Self { diffusion, ..self }
    }

    /// How far diffusion goes across the bore of its tube.
    pub fn diffusion(&self) -> Diffusion {
        self.diffusion
    }

    /// The tube.
    pub fn tube(&self) -> &Tube {
        &self.tube
    }

    /// The cavities, in the order in which the fluid passes them.
    pub fn tanks(&self) -> &[Tank] {
        &self.tanks
    }

    /// The old fraction of what flows in.
    pub fn inlet_old_fraction(&self) -> Ratio {
        self.inlet_old_fraction
    }

    /// The old fraction of what leaves the run after a push, to within 1e-8.
    ///
    /// Formula, symbols, range and sources: see [`Washout`]. A volume that is not a number counts as nothing
    /// pushed, as a negative one does.
    ///
    /// ```
    /// use bleedwright_hydraulics::{Tank, Tube, Washout};
    /// use uom::si::{f64::{Ratio, Volume}, ratio::ratio, volume::milliliter};
    ///
    /// let ml = Volume::new::<milliliter>;
    /// let cavity = Tank::full_of_old(ml(15.0))?;
    /// let run = Washout::new(Tube::fresh(ml(40.0))?, vec![cavity], Ratio::new::<ratio>(0.0))?;
    /// let out = run.old_fraction_out(ml(80.0)).get::<ratio>();
    /// assert!((out - 0.127_542_717).abs() < 1e-8);
    /// # Ok::<(), bleedwright_hydraulics::PurgeError>(())
    /// ```
    pub fn old_fraction_out(&self, pushed: Volume) -> Ratio {
        let pushed_m3 = self.pushed_m3(pushed);
        let fraction = self
            .outflows()
            .map(|outflow| self.leaving(&outflow, pushed_m3))
            .fold(0.0, f64::max);
        self.with_inlet(fraction)
    }

    /// The old fractions of all cavities after a push, in their order: the start of a later push through them.
    ///
    /// Formula, symbols, range, sources and accuracy: see [`Washout::old_fraction_out`], which is the last of these.
    ///
    /// ```
    /// use bleedwright_hydraulics::{Tank, Tube, Washout};
    /// use uom::si::{f64::{Ratio, Volume}, ratio::ratio, volume::milliliter};
    ///
    /// let ml = Volume::new::<milliliter>;
    /// let cavities = vec![Tank::full_of_old(ml(2.0))?, Tank::full_of_old(ml(3.0))?];
    /// let run = Washout::new(Tube::fresh(ml(0.0))?, cavities, Ratio::new::<ratio>(0.0))?;
    /// let after = run.old_fractions_after(ml(4.0));
    /// assert!((after[0].get::<ratio>() - (-2.0_f64).exp()).abs() < 1e-8);
    /// # Ok::<(), bleedwright_hydraulics::PurgeError>(())
    /// ```
    pub fn old_fractions_after(&self, pushed: Volume) -> Vec<Ratio> {
        let (pushed_m3, total_m3) = (self.pushed_m3(pushed), self.total_m3());
        let mut all = vec![0.0_f64; self.tanks.len()];
        for outflow in self.outflows() {
            let (march, mut last) = self.march_through(&outflow, pushed_m3);
            let mut states = march.states().iter();
            for (tank, fraction) in self.tanks.iter().zip(&mut all) {
                // A cavity too small to be followed holds what flows past it.
                if is_counted(tank.volume().get::<cubic_meter>(), total_m3) {
                    last = states.next().copied().unwrap_or(last);
                }
                *fraction = fraction.max(last);
            }
        }
        all.into_iter().map(|it| self.with_inlet(it)).collect()
    }

    /// The old fraction of what leaves when the flow is mixed at the tees where the ways of earlier pushes parted: the
    /// opposite assumption to [`Washout::old_fraction_out`]. None where all parts of the tube share one history.
    ///
    /// Formula, symbols, sources: see `hydraulics::tee` in `docs/model.md`. Range: two tees nearest to the screw, the
    /// convolution to within a hundredth of its value.
    pub fn mixed_old_fraction_out(&self, pushed: Volume) -> Option<Ratio> {
        let pushed_m3 = self.pushed_m3(pushed);
        let beyond_m3 = pushed_m3 * BEYOND_PUSH;
        let mixed = mixed_outflow(&self.tube, self.diffusion, LEAST_FOLLOWED, beyond_m3)?;
        Some(self.with_inlet(self.leaving(&Outflow::Mixed(mixed), pushed_m3)))
    }

    /// The old share of what is inside the tube after a push, with what flowed in meanwhile.
    ///
    /// Formula: `f + (1 - f) m`; without diffusion `m` is [`Tube::old_left_inside`]. With diffusion and without history it is
    /// `1 -` the integral of what left. With history it is `m` of the fresh tube that would hold as much without
    /// diffusion, an estimate.
    ///
    /// Symbols: `f` old fraction of what flows in, `m` old share of the tube for clean inflow (dimensionless).
    ///
    /// Range, source: as for [`Tube::old_left_inside`] and [`crate::diffusion`].
    pub fn old_left_in_tube(&self, pushed: Volume) -> Ratio {
        let inlet = self.inlet_old_fraction;
        let kept = self.tube.old_left_inside(pushed).get::<ratio>();
        let clean = if self.diffusion.is_none() || kept >= 0.5 {
            kept
        } else {
            // Without diffusion `m = 1 / (4 theta)`.
            let theta = 0.25 / kept.max(1e-9);
            let inside = 0.5 - self.diffusion.curve().integral_to(theta);
            inside.clamp(0.0, kept)
        };
        inlet + (Ratio::new::<ratio>(1.0) - inlet) * clean
    }

    /// The smallest push after which the outflow's old fraction is at or below a residual, and stays there.
    ///
    /// Formula: the smallest `v` with `c(v') <= r` for all `v' >= v`, with `c` from [`Washout`]; the larger of that for
    /// streamlines kept and of that for a flow mixed at the tees where the ways of earlier pushes parted. Where full mixing at the
    /// joints of a fresh tube asks for more than none, the push is multiplied by `theta_mixed / theta`.
    ///
    /// Symbols: `r` residual (dimensionless); `theta` what a fresh tube needs without mixing and `theta_mixed` with
    /// full mixing, both divided by its contents and without diffusion (dimensionless); `v`, `c` as for [`Washout`].
    ///
    /// Range: `f < r < 1`. Without diffusion the fraction at the push for kept streamlines is `r` to within 1e-8; with diffusion or mixing at tees the
    /// curve fed into the cavities is right to about a hundredth. Mixing in a fresh tube can only ask for more where it
    /// needs less than twice its contents (`(r - f) / (1 - f)` above 1/16), so it is looked at only there. Each segment
    /// of the tube counts as one piece between joints.
    ///
    /// ASSUMPTION: for the joints of a tube with cavities behind it, the ratio of the fresh tube alone is applied to the
    /// whole push.
    ///
    /// Source: see [`Washout`] and [`crate::mixing`].
    ///
    /// ```
    /// use bleedwright_hydraulics::{Tube, Washout};
    /// use uom::si::{f64::{Ratio, Volume}, ratio::percent, volume::milliliter};
    ///
    /// let tube = Tube::fresh(Volume::new::<milliliter>(40.0))?;
    /// let run = Washout::new(tube, vec![], Ratio::new::<percent>(0.0))?;
    /// let push = run.push_until(Ratio::new::<percent>(5.0))?;
    /// assert!((push.volume.get::<milliliter>() - 89.443).abs() < 1e-3);
    /// # Ok::<(), bleedwright_hydraulics::PurgeError>(())
    /// ```
    pub fn push_until(&self, residual: Ratio) -> Result<Push, PurgeError> {
        let unmixed = self.unmixed_push_until(residual)?;
        let level = self.clean_inlet_level(residual)?;
        let volume = unmixed * self.mixing_factor(level)?;
        let level = level.get::<ratio>();
        let at_joints = volume;
        let followed_to = LEAST_FOLLOWED.min(SHARE_FOLLOWED * level);
        let volume = match mixed_outflow(&self.tube, self.diffusion, followed_to, 0.0) {
            Some(mixed) => volume.max(self.push_through(&Outflow::Mixed(mixed), level)?),
            None => volume,
        };
        Ok(Push {
            volume,
            unmixed,
            is_mixed_at_tees: volume > at_joints,
        })
    }

    /// The same when nothing mixes at the joints of the pipework: [`Push::unmixed`] alone, without the cost of the
    /// other rule.
    ///
    /// ```
    /// use bleedwright_hydraulics::{Tube, Washout};
    /// use uom::si::{f64::{Ratio, Volume}, ratio::percent, volume::milliliter};
    ///
    /// let tube = Tube::fresh(Volume::new::<milliliter>(40.0))?;
    /// let run = Washout::new(tube, vec![], Ratio::new::<percent>(0.0))?;
    /// let push = run.unmixed_push_until(Ratio::new::<percent>(25.0))?;
    /// assert!((push.get::<milliliter>() - 40.0).abs() < 1e-9);
    /// # Ok::<(), bleedwright_hydraulics::PurgeError>(())
    /// ```
    pub fn unmixed_push_until(&self, residual: Ratio) -> Result<Volume, PurgeError> {
        let level = self.clean_inlet_level(residual)?.get::<ratio>();
        self.outflows()
            .map(|outflow| self.push_through(&outflow, level))
            .try_fold(Volume::default(), |most, push| Ok(most.max(push?)))
    }

    /// The push after which what the cavities make of an outflow stays at or below a level.
    fn push_through(&self, outflow: &Outflow<'_>, level: f64) -> Result<Volume, PurgeError> {
        let mut march = self.march(SHARE_OF_RESIDUAL * level.min(0.1));
        let push_m3 = if march.has_no_cavities() {
            outflow.push_m3(level)
        } else {
            march.push_m3_to_stay_below(outflow, level)?
        };
        Ok(Volume::new::<cubic_meter>(push_m3))
    }

    /// The residual that clean fluid flowing in must reach for the same result.
    fn clean_inlet_level(&self, residual: Ratio) -> Result<Ratio, PurgeError> {
        let residual = checked_residual(residual)?;
        let inlet = self.inlet_old_fraction.get::<ratio>();
        if residual <= inlet {
            return Err(PurgeError::ResidualBelowInlet {
                residual,
                inlet_old_fraction: inlet,
            });
        }
        Ok(Ratio::new::<ratio>((residual - inlet) / (1.0 - inlet)))
    }

    /// By how much mixing at the joints lengthens the push; 1 where it does not.
    fn mixing_factor(&self, level: Ratio) -> Result<Ratio, PurgeError> {
        let one = Ratio::new::<ratio>(1.0);
        if level.get::<ratio>() <= MIXING_RESIDUAL || self.tube.segments().len() < 2 {
            return Ok(one);
        }
        let pieces: Vec<Volume> = self
            .tube
            .segments()
            .iter()
            .map(|segment| segment.contents)
            .collect();
        let factor = fully_mixed_theta_for(&pieces, level)? / laminar_theta_for(level);
        Ok(factor.max(one))
    }

    fn total_m3(&self) -> f64 {
        let cavities: f64 = self
            .tanks
            .iter()
            .map(|tank| tank.volume().get::<cubic_meter>())
            .sum();
        self.tube.contents_m3() + cavities
    }

    fn march(&self, tolerance: f64) -> March {
        let inlet = self.inlet_old_fraction.get::<ratio>();
        let tanks = self.tanks.iter().map(|tank| {
            let start = (tank.old_fraction().get::<ratio>() - inlet) / (1.0 - inlet);
            // An inflow that is all old leaves nothing to follow: zero over zero becomes zero here.
            (tank.volume().get::<cubic_meter>(), start.max(0.0))
        });
        March::new(&self.tube, tanks, tolerance)
    }

    /// What leaves the tube where streamlines keep their fluid. With a history diffusion is an estimate
    /// ([`crate::outflow`]): the outflow without any stands beside it, so that no push is smaller for the estimate.
    fn outflows(&self) -> impl Iterator<Item = Outflow<'_>> {
        let is_estimate = self.diffusion.is_upper_bound() && self.tube.has_history();
        let undiffused = is_estimate.then_some(Outflow::Kept(&self.tube));
        std::iter::once(Outflow::kept(&self.tube, self.diffusion)).chain(undiffused)
    }

    /// What leaves the last cavity after a push, for clean fluid flowing in.
    fn leaving(&self, outflow: &Outflow<'_>, pushed_m3: f64) -> f64 {
        let (march, tube_fraction) = self.march_through(outflow, pushed_m3);
        march.states().last().copied().unwrap_or(tube_fraction)
    }

    /// The cavities after a push, and what then leaves the tube, both for clean fluid flowing in.
    fn march_through(&self, outflow: &Outflow<'_>, pushed_m3: f64) -> (March, f64) {
        let mut march = self.march(FRACTION_TOLERANCE);
        let tube_fraction = outflow.fraction_at(pushed_m3);
        if !march.has_no_cavities() {
            // Out of steps the states are those of a smaller push: more old fluid for a run that clears up.
            let _unfinished = march.advance_to(outflow, pushed_m3);
        }
        (march, tube_fraction)
    }

    fn pushed_m3(&self, pushed: Volume) -> f64 {
        let longest_m3 = self.total_m3() * LONGEST_PUSH;
        pushed.get::<cubic_meter>().max(0.0).min(longest_m3)
    }

    /// Adds the old fluid that flows in to a fraction found for clean fluid.
    fn with_inlet(&self, clean_inlet_fraction: f64) -> Ratio {
        let inlet = self.inlet_old_fraction.get::<ratio>();
        let fraction = inlet + (1.0 - inlet) * clean_inlet_fraction;
        Ratio::new::<ratio>(fraction.clamp(inlet, 1.0))
    }
}
