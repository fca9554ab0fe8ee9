//! What can be wrong with a flow network.

/// Why a flow network gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FlowError {
    /// A branch has a coefficient that is negative, infinite or not a number.
    #[error(
        "branch {branch} must have coefficients that are finite and zero or more, found {linear_pa_s_per_m3} Pa s/m3 \
         and {quadratic_pa_s2_per_m6} Pa s2/m6"
    )]
    BranchOutOfRange {
        /// The branch, counted from zero in the order of adding.
        branch: usize,
        /// The linear coefficient found, in Pa s/m3.
        linear_pa_s_per_m3: f64,
        /// The quadratic coefficient found, in Pa s2/m6.
        quadratic_pa_s2_per_m6: f64,
    },
    /// A height or the pressure of an end is infinite or not a number.
    #[error(
        "node {node} must have a finite height and pressure, found {height_m} m and {gauge_pa} Pa"
    )]
    NodeOutOfRange {
        /// The node, counted from zero in the order of adding.
        node: usize,
        /// The height found, in metres.
        height_m: f64,
        /// The gauge pressure found, in pascals; 0 at a joint.
        gauge_pa: f64,
    },
    /// A branch names a node that the network does not have.
    #[error("branch {branch} names node {node}, which the network does not have")]
    UnknownNode {
        /// The branch, counted from zero in the order of adding.
        branch: usize,
        /// The node named.
        node: usize,
    },
    /// The density is no density.
    #[error("the density must be finite and above zero, found {density_kg_per_m3} kg/m3")]
    DensityOutOfRange {
        /// The density found, in kg/m3.
        density_kg_per_m3: f64,
    },
    /// Nothing gives a pressure.
    #[error("the network has no end with a given pressure")]
    NoEnd,
    /// Two ends of different pressure are joined without any resistance, so that no flow would be large enough.
    #[error(
        "nodes {first} and {second} are ends {difference_pa} Pa apart, joined without any resistance"
    )]
    EndsJoined {
        /// One end, counted from zero in the order of adding nodes.
        first: usize,
        /// The other.
        second: usize,
        /// By how much their pressures differ once their heights are taken off, in pascals.
        difference_pa: f64,
    },
    /// The flows have not settled.
    #[error(
        "the flows have not settled after {iterations} iterations; around one loop {remaining} of the largest flow \
         is left over"
    )]
    NotConverged {
        /// The number of iterations made.
        iterations: u32,
        /// What is left over around the worst loop, as a flow against the largest flow.
        remaining: f64,
    },
}
