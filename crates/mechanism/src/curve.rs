//! What a valve does to the pressure.

use crate::unknown::{Choice, Range};

/// The pressure behind a valve as a function of the pressure before it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Curve {
    /// The same on both sides.
    Open,
    /// No further rise beyond the cut-in.
    Limiting {
        /// In bar.
        cut_in_bar: Range,
    },
    /// A slower rise beyond the cut-in.
    Proportioning {
        /// In bar.
        cut_in_bar: Range,
        /// Rise behind the valve for each rise before it.
        ratio: Range,
    },
    /// Nothing below the hold-off.
    Metering {
        /// In bar.
        hold_off_bar: Range,
    },
    /// Never less than what it holds.
    Residual {
        /// In bar.
        holds_bar: Range,
    },
}

/// A curve with one choice of the unknowns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum SettledCurve {
    Open,
    Reducing { cut_in_bar: f64, ratio: f64 },
    Metering { hold_off_bar: f64 },
    Residual { holds_bar: f64 },
}

impl Curve {
    pub(crate) fn ranges(&self) -> Vec<&Range> {
        match self {
            Self::Open => Vec::new(),
            Self::Limiting { cut_in_bar } => vec![cut_in_bar],
            Self::Proportioning { cut_in_bar, ratio } => vec![cut_in_bar, ratio],
            Self::Metering { hold_off_bar } => vec![hold_off_bar],
            Self::Residual { holds_bar } => vec![holds_bar],
        }
    }

    pub(crate) fn settle(&self, choice: &Choice) -> SettledCurve {
        match self {
            Self::Open => SettledCurve::Open,
            Self::Limiting { cut_in_bar } => SettledCurve::Reducing {
                cut_in_bar: cut_in_bar.at(choice),
                ratio: 0.0,
            },
            Self::Proportioning { cut_in_bar, ratio } => SettledCurve::Reducing {
                cut_in_bar: cut_in_bar.at(choice),
                ratio: ratio.at(choice),
            },
            Self::Metering { hold_off_bar } => SettledCurve::Metering {
                hold_off_bar: hold_off_bar.at(choice),
            },
            Self::Residual { holds_bar } => SettledCurve::Residual {
                holds_bar: holds_bar.at(choice),
            },
        }
    }
}

impl SettledCurve {
    /// The pressure behind the valve.
    pub(crate) fn behind(self, before_bar: f64) -> f64 {
        match self {
            Self::Open => before_bar,
            Self::Reducing { cut_in_bar, ratio } => {
                if before_bar <= cut_in_bar {
                    before_bar
                } else {
                    cut_in_bar + ratio * (before_bar - cut_in_bar)
                }
            }
            Self::Metering { hold_off_bar } => {
                if before_bar < hold_off_bar {
                    0.0
                } else {
                    before_bar
                }
            }
            Self::Residual { holds_bar } => before_bar.max(holds_bar),
        }
    }

    /// The pressure behind it with the pedal released.
    pub(crate) fn rest(self, before_bar: f64) -> f64 {
        match self {
            Self::Residual { holds_bar } => before_bar.max(holds_bar),
            _ => before_bar,
        }
    }
}
