//! What heights mean at a step.

use super::Verdict;
use bleedwright_network::Bounds;
use strum::IntoStaticStr;
use uom::si::f64::{Length, Pressure};

/// What a height means at a step.
#[derive(Clone, Debug, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum StepHeight {
    #[strum(serialize = "high_point")]
    /// The way to the screw leads over a high point that no step before passed.
    Over(HighPointOnWay),
    #[strum(serialize = "above_fluid")]
    /// The screw stands higher than what feeds it.
    Above(AboveFluid),
}

/// A point on the way to a screw that is clearly higher than known points on both sides of it.
#[derive(Clone, Debug, PartialEq)]
pub struct HighPointOnWay {
    /// The part, or the line that it lies in.
    pub name: String,
    /// How far it rises above the higher of the two dips beside it.
    pub rise: Bounds<Length>,
    /// Whether air was let into its circuit, or may have been.
    pub holds_air: bool,
    /// What a long bubble does in the lines there while the fluid rests.
    pub bubble: Option<Verdict>,
    /// Whether its air may be let out first at a union there, see TM 10-3930-633-12.
    pub may_be_loosened: bool,
}

impl HighPointOnWay {
    /// Whether a finding warns of it: air was let in, or its bore lets air climb to it.
    pub fn is_warned_of(&self) -> bool {
        self.holds_air || self.bubble == Some(Verdict::Climbs)
    }
}

/// A screw that stands higher than the reservoir, or than its cylinder.
#[derive(Clone, Debug, PartialEq)]
pub struct AboveFluid {
    /// The screw.
    pub screw: String,
    /// The reservoir or the cylinder that stands lower.
    pub lower: String,
    /// How much lower.
    pub by: Bounds<Length>,
    /// What a column of fluid of that height weighs.
    pub head: Bounds<Pressure>,
    /// The same up to the highest known point of the way: what keeps the line from running back.
    pub head_to_top: Bounds<Pressure>,
    /// Whether an open screw may draw air: not where the reservoir is known to stand higher.
    pub may_draw_air: bool,
    /// The residual valve on the way.
    pub residual: Option<HeldBack>,
}

/// What a residual valve keeps from running back.
#[derive(Clone, Debug, PartialEq)]
pub struct HeldBack {
    /// The valve.
    pub valve: String,
    /// The pressure that it holds, where the layout says so.
    pub holds: Option<Bounds<Pressure>>,
}
