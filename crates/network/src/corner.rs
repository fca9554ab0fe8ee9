//! Which corner of the vehicle a name speaks of.
//!
//! A guess at a misspelt name must never lead to another corner: on a diagonal
//! split the other front wheel is on the other circuit.

/// What a name says about its place; silent where it says nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Corner {
    is_front: Option<bool>,
    is_left: Option<bool>,
}

impl Corner {
    /// Reads words such as "front", "left", and short forms such as "RL".
    pub(crate) fn of(name: &str) -> Self {
        let mut corner = Self::default();
        let words = name.split(|c: char| !c.is_alphanumeric());
        for word in words {
            let (is_front, is_left) = match word.to_lowercase().as_str() {
                "front" => (Some(true), None),
                "rear" | "back" => (Some(false), None),
                "left" | "lh" => (None, Some(true)),
                "right" | "rh" => (None, Some(false)),
                "fl" | "lf" => (Some(true), Some(true)),
                "fr" | "rf" => (Some(true), Some(false)),
                "rl" | "lr" => (Some(false), Some(true)),
                "rr" => (Some(false), Some(false)),
                _ => (None, None),
            };
            corner.is_front = corner.is_front.or(is_front);
            corner.is_left = corner.is_left.or(is_left);
        }
        corner
    }

    /// Whether both may mean one place.
    pub(crate) fn agrees_with(self, other: Self) -> bool {
        let agree = |a: Option<bool>, b: Option<bool>| a.is_none() || b.is_none() || a == b;
        agree(self.is_front, other.is_front) && agree(self.is_left, other.is_left)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn other_corners_disagree() {
        let agree = |a, b| Corner::of(a).agrees_with(Corner::of(b));
        assert!(agree("Front left caliper", "FL caliper"));
        assert!(agree("front caliper", "FL caliper"));
        assert!(agree("master", "FL caliper"));
        assert!(!agree("Front left caliper", "FR caliper"));
        assert!(!agree("RL cylinder", "FL caliper"));
        assert!(!agree("RR", "rear left"));
    }
}
