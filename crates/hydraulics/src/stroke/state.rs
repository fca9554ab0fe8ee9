//! What a network carries from one run to the next.

/// How much every node stores and how every branch with inertance flows.
///
/// Made by [`StrokeNetwork::rest`](super::StrokeNetwork::rest) and by [`Trace::end_state`](super::Trace::end_state). It
/// fits every network with the same nodes and branches, also after motions, laws and times of shutting were changed;
/// pockets keep their gas.
#[derive(Debug, Clone, PartialEq)]
pub struct StrokeState {
    pub(super) stored_m3: Vec<f64>,
    /// Nothing for a branch without inertance, whose flow follows from the pressures.
    pub(super) flows_m3_per_s: Vec<f64>,
}
