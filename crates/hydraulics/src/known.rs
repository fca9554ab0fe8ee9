//! A figure that is not known exactly: its bounds, and how well it stands.

/// How well a figure stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Evidence {
    /// What was measured or is printed for articles of the kind.
    Typical,
    /// An assumption. Nothing published was found.
    Guess,
}

impl Evidence {
    /// How well something stands that is computed from two figures: as badly as the worse of them.
    ///
    /// ```
    /// use bleedwright_hydraulics::Evidence;
    ///
    /// assert_eq!(Evidence::Typical.weaker(Evidence::Guess), Evidence::Guess);
    /// ```
    #[must_use]
    pub fn weaker(self, other: Self) -> Self {
        match (self, other) {
            (Self::Guess, _) | (_, Self::Guess) => Self::Guess,
            (Self::Typical, Self::Typical) => Self::Typical,
        }
    }
}

/// A quantity with its bounds and its standing.
///
/// ```
/// use bleedwright_hydraulics::{Known, Evidence};
///
/// let bore_mm = Known { low: 1.0, nominal: 1.5, high: 2.0, standing: Evidence::Guess };
/// let area_mm2 = bore_mm.map(|bore| bore * bore * 0.785_398);
/// assert!(area_mm2.low < area_mm2.nominal && area_mm2.standing == Evidence::Guess);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known<Q> {
    /// The smallest value to reckon with.
    pub low: Q,
    /// The value to compute with where only one can be used.
    pub nominal: Q,
    /// The largest value to reckon with.
    pub high: Q,
    /// How well the three stand.
    pub standing: Evidence,
}

impl<Q: Copy> Known<Q> {
    /// The same function of all three. The function must rise with its argument, otherwise low and high change
    /// places.
    pub fn map<R>(self, rising: impl Fn(Q) -> R) -> Known<R> {
        Known {
            low: rising(self.low),
            nominal: rising(self.nominal),
            high: rising(self.high),
            standing: self.standing,
        }
    }
}

impl<Q: PartialOrd> Known<Q> {
    /// Whether the three stand in their order.
    pub fn is_ordered(&self) -> bool {
        self.low <= self.nominal && self.nominal <= self.high
    }
}
