//! Where a function passes zero: three searches, for what is known of the function and asked of the place.

/// Steps towards a root; an interval halved every third step is gone long before.
const MOST_STEPS: u32 = 300;

/// Where a rising function passes zero between two places; the nearer end where it does not. The two places
/// may stand in either order: the function rises from the first to the second.
///
/// The method is the Illinois form of false position, halving the interval whenever that stalls, as it does where the
/// function jumps. Source: [Dowell1971](crate#sources).
pub fn rising_root(
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

/// Where a function that is above zero at one place and not at a later one passes zero, from the later side.
///
/// False position with the Illinois correction [Ralston1978](crate#sources); it keeps the bracket, so it cannot run away.
pub(crate) fn falling_root(mut low: f64, mut high: f64, function: impl Fn(f64) -> f64) -> f64 {
    let (mut at_low, mut at_high) = (function(low), function(high));
    let mut was_high = None;
    for _ in 0..100 {
        if high - low <= 1e-13 * high.abs().max(1.0) || at_low <= 0.0 || at_high >= 0.0 {
            break;
        }
        let middle = (low + (high - low) * at_low / (at_low - at_high)).clamp(low, high);
        let at_middle = function(middle);
        let is_high = at_middle <= 0.0;
        if is_high {
            (high, at_high) = (middle, at_middle);
        } else {
            (low, at_low) = (middle, at_middle);
        }
        if at_middle.abs() <= 1e-13 {
            return middle;
        }
        // An end that stays put twice is given less weight, so that the bracket closes from both sides.
        if was_high == Some(is_high) {
            if is_high {
                at_low *= 0.5;
            } else {
                at_high *= 0.5;
            }
        }
        was_high = Some(is_high);
    }
    high
}

/// The ends of what is left of an interval after so many halvings; below its low end the function is as it is there.
pub(crate) fn halved(
    [mut low, mut high]: [f64; 2],
    halvings: u32,
    is_low: impl Fn(f64) -> bool,
) -> [f64; 2] {
    for _ in 0..halvings {
        let middle = f64::midpoint(low, high);
        if is_low(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    [low, high]
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
    #[test]
    fn halvings_close_on_a_root() {
        let [low, high] = halved([0.0, 2.0], 200, |x| x * x < 2.0);
        assert!(low * low < 2.0 && high * high >= 2.0 && high - low < 1e-15);
    }
}
