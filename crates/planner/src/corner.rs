//! Which of its three values a figure with bounds is taken at.

use bleedwright_network::Bounds;

/// The low ends of all bounds, the values to work with, or the high ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Corner {
    Low,
    Nominal,
    High,
}

impl Corner {
    pub(crate) fn of<Q: Copy>(self, bounds: Bounds<Q>) -> Q {
        match self {
            Self::Low => bounds.low,
            Self::Nominal => bounds.nominal,
            Self::High => bounds.high,
        }
    }

    pub(crate) fn opposite(self) -> Self {
        match self {
            Self::Low => Self::High,
            Self::Nominal => Self::Nominal,
            Self::High => Self::Low,
        }
    }
}

/// The bounds with their ends exchanged, for a function that falls with them.
pub(crate) fn against<Q>(bounds: Bounds<Q>) -> Bounds<Q> {
    Bounds {
        low: bounds.high,
        nominal: bounds.nominal,
        high: bounds.low,
    }
}
