//! What stops a pedal or lever in a job.

use super::Block;
use bleedwright_network::Control;

/// What stops a pedal or lever before an old cylinder bottoms.
#[derive(Clone, Debug, PartialEq)]
pub struct PedalBlock {
    /// The cylinder, or the two under one balance bar.
    pub cylinders: Vec<String>,
    /// Pedal, lever or coupler.
    pub control: Control,
    /// Whether it works the clutch.
    pub is_clutch: bool,
    /// Whether a firm pedal moved two pistons, of which one alone is open now.
    pub moves_two: bool,
    /// Where it stops, and the screws of each step that it stops there for; one place for all of them as a rule.
    pub stops: Vec<(Block, Vec<Vec<String>>)>,
}
