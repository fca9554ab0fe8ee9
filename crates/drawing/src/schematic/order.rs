//! Numbers with an order, for heaps.

/// A height, a cost: ordered as numbers are, and those that are none at the ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Order(pub(super) f64);

impl Eq for Order {}

impl PartialOrd for Order {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Order {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}
