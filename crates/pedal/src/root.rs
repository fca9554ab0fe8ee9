//! Where a function passes zero.

/// Steps towards a root; an interval halved every third step is gone long before.
const MOST_STEPS: u32 = 300;

/// Where a rising function passes zero between two places; the nearer end where it does not. The two places
/// may stand in either order: the function rises from the first to the second.
///
/// The method is the Illinois form of false position, halving the interval whenever that stalls, as it does where the
/// function jumps. Source: [Dowell1971](crate#sources).
pub(crate) fn rising_root(
    [mut low, mut high]: [f64; 2],
    tolerance: f64,
    value: impl Fn(f64) -> f64,
) -> f64 {
    let (mut below, mut above) = (value(low), value(high));
    if below >= 0.0 {
        return low;
    }
    if above <= 0.0 {
        return high;
    }
    let least = tolerance.max(f64::EPSILON * (low.abs() + high.abs()));
    let mut width = (high - low).abs();
    let mut last = None;
    let mut before = f64::NAN;
    for nth in 0..MOST_STEPS {
        if (high - low).abs() <= least {
            break;
        }
        let middle = 0.5 * (low + high);
        let guess = low - below * (high - low) / (above - below);
        let is_stalled = nth % 3 == 2 && (high - low).abs() > 0.5 * width;
        if nth % 3 == 2 {
            width = (high - low).abs();
        }
        let here = if is_stalled || !is_between(guess, low, high) {
            middle
        } else {
            guess
        };
        let found = value(here);
        if found == 0.0 || (here - before).abs() <= least {
            return here;
        }
        before = here;
        let is_below = found < 0.0;
        // An end that stays a second time counts for half, so that it does not stay for ever.
        let is_repeated = last == Some(is_below);
        if is_below {
            (low, below) = (here, found);
            above *= if is_repeated { 0.5 } else { 1.0 };
        } else {
            (high, above) = (here, found);
            below *= if is_repeated { 0.5 } else { 1.0 };
        }
        last = Some(is_below);
    }
    0.5 * (low + high)
}

fn is_between(guess: f64, one: f64, other: f64) -> bool {
    guess > one.min(other) && guess < one.max(other)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_of_smooth_and_broken_functions() {
        let smooth = rising_root([0.0, 2.0], 0.0, |x| x * x - 2.0);
        assert!((smooth - 2.0_f64.sqrt()).abs() < 1e-15, "{smooth}");
        let jump = rising_root([0.0, 10.0], 0.0, |x| if x < 7.0 { -1.0 } else { 5.0 });
        assert!((jump - 7.0).abs() < 1e-14, "{jump}");
        let falling_places = rising_root([5.0, 1.0], 1e-9, |x| 3.0 - x);
        assert!((falling_places - 3.0).abs() < 1e-8, "{falling_places}");
        assert_eq!(
            rising_root([1.0, 2.0], 0.0, |x| x).to_bits(),
            1.0_f64.to_bits()
        );
    }
}
