//! The grades of brake fluid.

/// A grade of brake fluid.
///
/// Source of the names: [FMVSS116](crate#sources); of the low-viscosity grade: [ISO4925](crate#sources), class 6.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Grade {
    /// Glycol ether.
    Dot3,
    /// Glycol ether and borate ester.
    Dot4,
    /// The same, thinner in the cold, for control units.
    Dot4LowViscosity,
    /// Silicone.
    Dot5,
    /// Borate ester, with the limits of DOT 5.
    Dot5_1,
    /// Mineral oil for hydraulic systems. It mixes with none of the others.
    Mineral,
}

impl Grade {
    /// Every grade.
    pub const ALL: [Self; 6] = [
        Self::Dot3,
        Self::Dot4,
        Self::Dot4LowViscosity,
        Self::Dot5,
        Self::Dot5_1,
        Self::Mineral,
    ];
}
