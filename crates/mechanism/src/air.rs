//! Where trapped air is.

/// Air in one zone of one circuit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirPocket {
    /// The chamber whose circuit it is in: the cylinder, and the chamber of it, by their places in the mechanism.
    pub chamber: (usize, usize),
    /// The zone, by its place in the chamber's list.
    pub zone: usize,
    /// Its volume at atmospheric pressure, in ml.
    pub volume_ml: f64,
}

/// The pockets of one chamber.
pub fn of_chamber(air: &[AirPocket], chamber: (usize, usize)) -> Vec<AirPocket> {
    air.iter()
        .filter(|pocket| pocket.chamber == chamber)
        .copied()
        .collect()
}
