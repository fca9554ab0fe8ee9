//! Words of the trade for what the format calls otherwise.

/// What a workshop says, and the word of the format.
const TRADE_WORDS: &[(&str, &str)] = &[
    ("abs", "anti_lock"),
    ("diagonal", "X"),
    ("disc", "caliper"),
    ("disk", "caliper"),
    ("drum", "wheel_cylinder"),
    ("left_hand_drive", "left"),
    ("lever", "hand_lever"),
    ("lhd", "left"),
    ("limiter", "pressure_limiting"),
    ("rhd", "right"),
    ("right_hand_drive", "right"),
    ("slave", "clutch_slave"),
    ("t_piece", "tee"),
];

/// The word of the format that is meant, if it can stand here.
pub(super) fn meant(written: &str, words: &[&'static str]) -> Option<&'static str> {
    let plain = plain(written);
    let of_trade = TRADE_WORDS
        .iter()
        .filter(|(trade, _)| self::plain(trade) == plain)
        .map(|(_, word)| *word);
    let same = words
        .iter()
        .copied()
        .find(|word| self::plain(word) == plain);
    same.or_else(|| of_trade.into_iter().find(|word| words.contains(word)))
}

/// The letters and figures alone: `DOT 5.1` and `dot5_1` are one word.
fn plain(word: &str) -> String {
    word.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::meant;

    #[test]
    fn only_a_word_that_can_stand_here_is_offered() {
        let brakes = ["caliper", "wheel_cylinder", "tee"];
        assert_eq!(meant("Drum", &brakes), Some("wheel_cylinder"));
        assert_eq!(meant("abs", &brakes), None);
        assert_eq!(meant("DOT 5.1", &["dot5", "dot5_1"]), Some("dot5_1"));
        assert_eq!(meant("DOT5", &["dot5", "dot5_1"]), Some("dot5"));
    }
}
