//! Axes with round numbers.

/// A scale from zero, or from below it, with round steps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) step: f64,
}

impl Scale {
    /// The scale that holds all values and zero, with at most so many steps of 1, 2 or 5 times a power of ten.
    pub(super) fn of(values: impl Iterator<Item = f64>, most_steps: f64) -> Self {
        let (mut low, mut high) = (0.0_f64, 0.0_f64);
        for value in values.filter(|value| value.is_finite()) {
            low = low.min(value);
            high = high.max(value);
        }
        if high - low < 1e-12 {
            high = low + 1.0;
        }
        let raw = (high - low) / most_steps;
        let power = 10_f64.powf(raw.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0]
            .into_iter()
            .map(|factor| factor * power)
            .find(|step| *step >= raw * (1.0 - 1e-9))
            .unwrap_or(10.0 * power);
        Self {
            low: (low / step + 1e-9).floor() * step,
            high: (high / step - 1e-9).ceil() * step,
            step,
        }
    }

    /// Where a value is between the ends, from 0 to 1.
    pub(super) fn share(&self, value: f64) -> f64 {
        let value = if value.is_finite() { value } else { self.high };
        ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0)
    }

    /// The values to write at the axis, with their texts.
    pub(super) fn ticks(&self) -> Vec<(f64, String)> {
        let decimals = (-self.step.log10().floor()).max(0.0) as usize;
        let count = ((self.high - self.low) / self.step).round() as u32;
        (0..=count)
            .map(|nth| {
                let value = self.low + f64::from(nth) * self.step;
                // Adding zero turns a negative zero into a plain one.
                (value, format!("{:.decimals$}", value + 0.0))
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_have_round_steps_and_hold_every_value() {
        for (most, step, high) in [
            (7.3, 2.0, 8.0),
            (0.031, 0.01, 0.04),
            (100.0, 20.0, 100.0),
            (999.0, 200.0, 1000.0),
        ] {
            let scale = Scale::of([most].into_iter(), 5.0);
            assert!((scale.step - step).abs() < 1e-9 * step, "{most}: {scale:?}");
            assert!((scale.high - high).abs() < 1e-9 * high, "{most}: {scale:?}");
        }
        assert_eq!(Scale::of(std::iter::empty(), 5.0).ticks().len(), 6);
        let texts: Vec<String> = Scale::of([0.4].into_iter(), 5.0)
            .ticks()
            .into_iter()
            .map(|tick| tick.1)
            .collect();
        assert_eq!(texts, ["0.0", "0.1", "0.2", "0.3", "0.4"]);
    }
}
