//! A whole run: what flows in, the pipework as a laminar tube, then its cavities one after the other.

use crate::error::{PurgeError, checked_fraction, checked_m3, checked_residual};
use crate::laminar::laminar_theta_for;
use crate::march::{March, is_counted};
use crate::mixing::fully_mixed_theta_for;
use crate::tank::Tank;
use crate::tube::Tube;
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

/// The share of a residual to which the signals behind a push are followed.
const SHARE_OF_RESIDUAL: f64 = 1e-8;

/// The absolute accuracy to which an outgoing fraction is followed.
const FRACTION_TOLERANCE: f64 = 1e-9;

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
}

/// How much must be pushed, and which rule decided it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Push {
    /// What must be pushed: the larger of the two rules for the joints.
    pub volume: Volume,
    /// What must be pushed when nothing mixes at the joints.
    pub unmixed: Volume,
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
        })
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
        let (march, tube_fraction) = self.march_to(pushed);
        self.with_inlet(march.states().last().copied().unwrap_or(tube_fraction))
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
        let (march, mut last) = self.march_to(pushed);
        let mut states = march.states().iter();
        let total_m3 = self.total_m3();
        self.tanks
            .iter()
            .map(|tank| {
                // A cavity too small to be followed holds what flows past it.
                if is_counted(tank.volume().get::<cubic_meter>(), total_m3) {
                    last = states.next().copied().unwrap_or(last);
                }
                self.with_inlet(last)
            })
            .collect()
    }

    /// The smallest push after which the outflow's old fraction is at or below a residual, and stays there.
    ///
    /// Formula: the smallest `v` with `c(v') <= r` for all `v' >= v`, with `c` from [`Washout`]. Where full mixing at
    /// the joints asks for more than none, the push is multiplied by `theta_mixed / theta`.
    ///
    /// Symbols: `r` residual (dimensionless); `theta` what a fresh tube needs without mixing and `theta_mixed` with
    /// full mixing, both divided by its contents (dimensionless); `v`, `c` as for [`Washout`].
    ///
    /// Range: `f < r < 1`. The fraction at the push is `r` to within 1e-8. Mixing can only ask for more where a fresh
    /// tube needs less than twice its contents (`(r - f) / (1 - f)` above 1/16), so it is looked at only there. Each
    /// segment of the tube counts as one piece between joints.
    ///
    /// ASSUMPTION: for a tube with history or with cavities behind it, the ratio of the fresh tube alone is applied
    /// to the whole push.
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
        let volume = unmixed * self.mixing_factor(self.clean_inlet_level(residual)?)?;
        Ok(Push { volume, unmixed })
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
        let mut march = self.march(SHARE_OF_RESIDUAL * level.min(0.1));
        let unmixed_m3 = if march.has_no_cavities() {
            self.tube.push_m3(level)
        } else {
            march
                .push_m3_to_stay_below(&self.tube, level)
                .map_err(|stop| PurgeError::NotSettled { steps: stop.steps })?
        };
        Ok(Volume::new::<cubic_meter>(unmixed_m3))
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

    /// The cavities after a push, and what then leaves the tube, both for clean fluid flowing in.
    fn march_to(&self, pushed: Volume) -> (March, f64) {
        let longest_m3 = self.total_m3() * LONGEST_PUSH;
        let pushed_m3 = pushed.get::<cubic_meter>().max(0.0).min(longest_m3);
        let mut march = self.march(FRACTION_TOLERANCE);
        let tube_fraction = self.tube.fraction_at(pushed_m3);
        if !march.has_no_cavities() {
            // Out of steps the states are those of a smaller push: more old fluid for a run that clears up.
            let _unfinished = march.advance_to(&self.tube, pushed_m3);
        }
        (march, tube_fraction)
    }

    /// Adds the old fluid that flows in to a fraction found for clean fluid.
    fn with_inlet(&self, clean_inlet_fraction: f64) -> Ratio {
        let inlet = self.inlet_old_fraction.get::<ratio>();
        let fraction = inlet + (1.0 - inlet) * clean_inlet_fraction;
        Ratio::new::<ratio>(fraction.clamp(inlet, 1.0))
    }
}
