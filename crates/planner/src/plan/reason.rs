//! Why the steps stand in their order.

use crate::options::Begin;
use strum::IntoStaticStr;
use uom::si::f64::Length;

/// Why one screw must come before another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Precedence {
    /// The first one's part feeds the second one's.
    Upstream,
    /// By the reverse method: the second one's part feeds the first one's.
    Downstream,
    /// Two cylinders on one wheel: the upper first.
    UpperFirst,
    /// The layout declares which chamber of a caliper comes first.
    DeclaredFirst,
}

/// A rule of the pipework, seen from the screw that waits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rule {
    /// Why.
    pub why: Precedence,
    /// The screw that comes before.
    pub first: String,
}

/// Whose order is followed in place of the pipework's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Giver {
    /// The user.
    User,
    /// The maker, in the layout.
    Maker,
}

/// Why a step stands where it stands.
#[derive(Clone, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum WhyHere {
    /// An order that was given puts it there.
    Given {
        /// Whose.
        by: Giver,
        /// Whether its screw was opened before.
        is_again: bool,
    },
    /// Another must come before it.
    Rule(Rule),
    /// Its run was opened.
    Opened,
    /// Its part feeds others.
    FeedsOthers,
    /// Its circuit has no other screw.
    OnlyScrew,
    /// The length of its run among those of its circuit.
    Length {
        /// Which end goes first.
        begin: Begin,
        /// Whether longer, or shorter, ones went before.
        is_next: bool,
        /// How it compares with those that tolerances cannot tell apart.
        among: AmongEquals,
    },
}

/// A run among those that tolerances cannot tell apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmongEquals {
    /// It goes first by its nominal length.
    First,
    /// Another would by its nominal length, and this one goes first.
    FirstWithinTolerance,
    /// It goes after another.
    AsLong,
}

/// Why a step comes after the one before it.
#[derive(Clone, Debug, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum WhyAfter {
    /// As given; the screw before it.
    Given(String),
    /// That one must come before it.
    Rule(Rule),
    /// The run of this one was opened.
    Opened(String),
    /// Its run is shorter or longer.
    Length {
        /// Than the run of this screw.
        of: String,
        /// By so much, above nothing.
        difference: Length,
        /// Whether it is the shorter one.
        is_shorter: bool,
        /// Whether tolerances can turn the two round.
        is_within_tolerance: bool,
    },
    /// Runs are equal within tolerance, the wheels' distance from the cylinder decides.
    Distance {
        /// The screw before it.
        of: String,
        /// Which end goes first.
        begin: Begin,
    },
    /// Nothing tells it from this one.
    Equal(String),
    /// It begins a circuit.
    Circuit {
        /// The circuit that was finished.
        finished: String,
        /// Why that went first.
        why: CircuitFirst,
    },
}

/// Why one circuit goes before another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CircuitFirst {
    /// While the primary one is empty, the secondary piston gets no stroke.
    Primary,
    /// It was asked for.
    Asked,
    /// It was opened.
    Opened,
    /// The other one works the clutch.
    ClutchLast,
    /// By the length of its run.
    Length(Begin),
    /// Runs equal: by the distance of its wheel from the cylinder.
    Distance(Begin),
    /// Runs equal within tolerance: by the nominal length.
    NominalLength(Begin),
    /// Nothing tells them apart.
    Either,
}

/// Where an order that was given departs from the pipework's.
#[derive(Clone, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum OrderNote {
    /// Nowhere.
    Agrees(Giver),
    /// It is followed.
    Followed {
        /// Whose it is.
        by: Giver,
        /// The screws in the order of the pipework.
        pipework: Vec<String>,
    },
    /// The first place where they differ.
    Differs {
        /// Counted from 1.
        place: usize,
        /// The screw given there.
        given: String,
        /// The screw that the pipework gives.
        pipework: String,
    },
    /// It differs only in visiting a screw more than once.
    VisitsTwice(Giver),
}
