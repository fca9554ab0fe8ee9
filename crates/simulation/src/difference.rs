//! What changes from one side of a comparison to the other, and why.

use bleedwright_network::Split;
use bleedwright_planner::{Method, WhyHere};
use uom::si::f64::{Ratio, Time, Volume};

/// One thing that is not the same on both sides; pairs hold the first side's and the second's.
#[derive(Clone, Debug, PartialEq)]
pub enum Difference {
    /// Other screws share pipes and go together.
    Circuits {
        /// How the circuits are split.
        splits: [Split; 2],
        /// Their names, each with its screws.
        circuits: [Vec<(String, Vec<String>)>; 2],
    },
    /// The first place where the orders part.
    Order {
        /// Counted from 1.
        place: usize,
        /// The screw there with the reason of its place; none where the order has ended.
        there: [Option<(String, Option<WhyHere>)>; 2],
    },
    /// A screw is opened on one side only.
    OnlyIn {
        /// The screw.
        screw: String,
        /// Whether that is the first.
        is_first: bool,
    },
    /// A screw takes another amount.
    Amount {
        /// The screw.
        screw: String,
        /// Nominal.
        pushes: [Volume; 2],
        /// Why, where it is known.
        why: Option<WhyAmount>,
    },
    /// All pushes together are almost the same.
    PushedTheSame,
    /// What the second pushes more of all that the first does; less than nothing where it is less.
    Pushed(Ratio),
    /// What is to be bought.
    Buy {
        /// In all.
        needed: [Volume; 2],
        /// Of that pushed, at most.
        pushed: [Volume; 2],
    },
    /// Time at the screws.
    Time([Time; 2]),
    /// Air that stays when both are simulated.
    AirLeft([Volume; 2]),
    /// How many people it takes.
    Hands {
        /// People.
        hands: [u8; 2],
        /// By which method.
        methods: [Method; 2],
    },
}

/// Why a screw takes another amount.
#[derive(Clone, Debug, PartialEq)]
pub enum WhyAmount {
    /// So much of its run was not pushed through before.
    NotPushedBefore([Volume; 2]),
    /// Its run holds so much.
    RunHolds([Volume; 2]),
    /// These are opened together with it.
    Together([Vec<String>; 2]),
    /// This one of its circuit is opened right before it; none where it is the first.
    RightBefore([Option<String>; 2]),
}
