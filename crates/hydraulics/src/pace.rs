//! How long the next interval of a march is.
//!
//! What a polynomial leaves out of a signal falls like the ninth power of its interval. The rule is the predictive
//! one of Gustafsson [Hairer1996](crate#sources), section IV.8: the last two intervals also tell how the signal itself
//! changes, and the further a push has come, the smoother everything is.

/// By how much an interval may be longer than the one before.
const WIDEST_CHANGE: f64 = 4.0;

/// Up to this excess the next interval would be longer than that: `0.9 * 1e-6^(-1/9)` is 4.18.
const WIDEST_EXCESS: f64 = 1e-6;

/// Chooses intervals of a push, in cubic metres.
pub(crate) struct Pace {
    width_m3: f64,
    smallest_m3: f64,
    /// The share of the way back to its pole on which a falling outflow is a polynomial.
    share_followed: f64,
    /// The interval before, unless it was short for another reason.
    before: Option<Followed>,
}

/// An interval that was followed well enough.
struct Followed {
    width_m3: f64,
    /// By how much it could have been longer.
    change: f64,
}

/// An interval that is to be tried.
#[derive(Clone, Copy)]
pub(crate) struct Trial {
    pub(crate) start_m3: f64,
    pub(crate) width_m3: f64,
    /// Whether it ends where it does because it may go no further.
    pub(crate) is_landing: bool,
}

impl Pace {
    /// Signals may differ from their polynomials by the tolerance.
    pub(crate) fn new(first_m3: f64, smallest_m3: f64, tolerance: f64) -> Self {
        // The terms of a function with a pole fall by the sum of the half axes of the ellipse that has its foci at the
        // ends of the interval and passes through the pole, here after nine terms to the tolerance. Half of the length
        // that follows leaves room for what the terms begin with. It is a guess: the first trial checks it.
        let ratio = tolerance.powf(-1.0 / 9.0);
        let pole = f64::midpoint(ratio, 1.0 / ratio);
        Self {
            width_m3: first_m3,
            smallest_m3,
            share_followed: 1.0 / (pole - 1.0),
            before: None,
        }
    }

    /// What flows in follows another law from here on.
    pub(crate) fn begin_stretch(&mut self) {
        self.before = None;
    }

    /// The same for a law with a pole so far behind.
    pub(crate) fn begin_fall(&mut self, from_pole_m3: f64) {
        self.begin_stretch();
        self.width_m3 = self.width_m3.min(self.share_followed * from_pole_m3);
    }

    /// The interval to try next.
    pub(crate) fn trial(&self, start_m3: f64, limit_m3: f64) -> Trial {
        let room_m3 = limit_m3 - start_m3;
        let is_landing = self.width_m3 >= room_m3 * 0.999;
        Trial {
            start_m3,
            width_m3: if is_landing { room_m3 } else { self.width_m3 },
            is_landing,
        }
    }

    /// Whether a trial is good enough, given by how much it exceeds the tolerance; decides on the next one.
    pub(crate) fn accepts(&mut self, trial: Trial, excess: f64) -> bool {
        let Trial { width_m3, .. } = trial;
        let change = if excess > WIDEST_EXCESS {
            0.9 * ninth_root_of_inverse(excess)
        } else {
            WIDEST_CHANGE
        };
        let smallest_m3 = self.smallest_m3.max(4.0 * f64::EPSILON * trial.start_m3);
        if excess > 1.0 && width_m3 > smallest_m3 {
            self.width_m3 = width_m3 * change.clamp(0.1, 0.8);
            return false;
        }
        if trial.is_landing {
            // It is short because of where it had to end, which says nothing about the next.
            self.width_m3 = self
                .width_m3
                .max(width_m3 * change.clamp(0.3, WIDEST_CHANGE));
            self.before = None;
            return true;
        }
        let trend = self.before.as_ref().map_or(1.0, |before| {
            (width_m3 / before.width_m3) * (change / before.change)
        });
        self.width_m3 = width_m3 * (change * trend).clamp(0.3, WIDEST_CHANGE);
        self.before = Some(Followed { width_m3, change });
        true
    }
}

/// `x^(-1/9)` of a positive number, or up to seven hundredths more.
///
/// The bits of a number are its logarithm, with a straight line between powers of two. A length needs no more, and a
/// real power costs as much as a cavity.
fn ninth_root_of_inverse(x: f64) -> f64 {
    const ONE: u64 = 1.0_f64.to_bits();
    f64::from_bits(ONE + ONE / 9 - x.to_bits() / 9)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ninth_root_is_good_enough_for_a_length() {
        for i in -200..200 {
            let x = 10.0_f64.powf(f64::from(i) / 17.0);
            let ratio = ninth_root_of_inverse(x) / x.powf(-1.0 / 9.0);
            assert!(ratio > 0.999_999 && ratio < 1.07, "{x}: {ratio}");
        }
    }
}
