//! Whether the order of the screws is certain whatever the lengths are within
//! their tolerances, as plain data.

use bleedwright_network::Bounds;
use uom::si::f64::Length;

/// Whether another choice of lengths would give another order.
///
/// Every line has one length somewhere between its low and high bound, the
/// same for all the runs that pass it. For one choice of all lengths the order
/// is what [`crate::plan`] derives from a layout with these lengths and no
/// tolerances: constraints first, then the longer run (or the shorter one),
/// runs of equal length by the distance of their wheels, then by name. The
/// order is certain if every choice gives the order that was derived. Wheel
/// positions and heights stand at their nominal values.
#[derive(Clone, Debug)]
pub struct OrderCertainty {
    /// What can be said.
    pub verdict: Certainty,
    /// Neighbours that some choice of lengths turns round, in the order of the
    /// plan: the first [`MOST_PAIRS`] of them.
    pub uncertain: Vec<UncertainPair>,
    /// How many such neighbours there are.
    pub uncertain_count: usize,
}

/// So many uncertain neighbours are described; the others are counted.
pub const MOST_PAIRS: usize = 20;

/// What can be said of an order.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Certainty {
    /// No choice of lengths gives another order.
    Certain,
    /// Some choice does.
    Uncertain,
    /// The order was given: lengths do not decide it.
    Given,
    /// It was not worked out.
    Undecided(Undecided),
}

/// Why it was not worked out whether an order is certain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Undecided {
    /// This circuit has a loop with lengths that are not exact.
    Loop(String),
    /// It would take more than [`MOST_STEPS`].
    TooManySteps,
}

/// So many steps up the pipework are made for one order. A vehicle takes some
/// hundreds; a chain of thousands of parts in a row could take millions.
pub const MOST_STEPS: usize = 1_000_000;

/// Two screws, or two circuits, that some choice of lengths turns round.
#[derive(Clone, Debug)]
pub struct UncertainPair {
    /// The screw that the plan opens earlier.
    pub first: String,
    /// The screw that it opens later.
    pub then: String,
    /// The circuits whose places are open, where the two screws stand for
    /// their circuits; none for two screws of one circuit.
    pub circuits: Option<[String; 2]>,
    /// Length of the first one's run minus that of the other's: exactly what
    /// the tolerances allow, since what both runs share cancels. For circuits
    /// it is the difference of their deciding runs.
    pub difference: Bounds<Length>,
    /// The lines that decide, the least certain first.
    pub lines: Vec<DecidingLine>,
    /// The fewest lines whose lengths settle which run is the longer one, once
    /// they are measured and found to be nominal. Empty where three do not,
    /// and where there is no doubt about it: then the plan tied both runs with
    /// a third one, and took the farther wheel.
    pub measure: Vec<String>,
}

/// A line on one of two runs.
#[derive(Clone, Debug, PartialEq)]
pub struct DecidingLine {
    /// Its name.
    pub line: String,
    /// How much of the range of the difference comes from it.
    pub range: Length,
}

impl OrderCertainty {
    /// Whether lengths within their tolerances cannot change the order. False
    /// also where it was not worked out.
    pub fn is_certain(&self) -> bool {
        matches!(self.verdict, Certainty::Certain | Certainty::Given)
    }

    /// The pair of one circuit that a single measurement settles: the one
    /// worth a word on a sheet. Circuits are separate, and which of them goes
    /// first is a free choice anyway.
    pub fn settled_by_one(&self) -> Option<&UncertainPair> {
        self.uncertain
            .iter()
            .find(|pair| pair.circuits.is_none() && pair.measure.len() == 1)
    }

    pub(crate) fn of(verdict: Certainty) -> Self {
        Self {
            verdict,
            uncertain: Vec::new(),
            uncertain_count: 0,
        }
    }
}
