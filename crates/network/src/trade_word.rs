//! What the trade calls the things that the format has one word for: common
//! practice, no source.

/// What a workshop says and the word of the format, where nothing else can be meant.
const SURE: &[(&str, &str)] = &[
    ("abs", "anti_lock"),
    ("abs_pump", "anti_lock"),
    ("coupling", "coupler"),
    ("diagonal", "X"),
    ("disc", "caliper"),
    ("disk", "caliper"),
    ("drum", "wheel_cylinder"),
    ("floating", "sliding"),
    ("hcu", "anti_lock"),
    ("left_hand_drive", "left"),
    ("lever", "hand_lever"),
    ("lhd", "left"),
    ("limiter", "pressure_limiting"),
    ("lsv", "load_sensing"),
    ("opposed", "fixed"),
    ("overrun", "coupler"),
    ("prop_valve", "proportioning"),
    ("rhd", "right"),
    ("right_hand_drive", "right"),
    ("slave", "clutch_slave"),
    ("t_piece", "tee"),
];

/// The format's word, and what else its thing may be called, parted by commas: worth a question only.
const LIKELY: &[(&str, &str)] = &[
    ("anti_lock", "abs unit, modulator, hydraulic unit"),
    ("block", "manifold, junction, distribution block, four way"),
    ("booster", "servo, brake servo"),
    ("bore", "diameter, dia, inner diameter"),
    ("caliper", "disc brake, disk brake"),
    (
        "check",
        "non return, one way, non return valve, one way valve",
    ),
    ("clutch_slave", "slave cylinder, clutch cylinder"),
    ("compartments", "chambers, tanks, bottles"),
    ("cylinders", "masters, master cylinders"),
    (
        "differential_switch",
        "warning switch, pressure switch, shuttle",
    ),
    ("hose", "flexible, flexi, flex line, brake hose"),
    ("lines", "pipes, tubes, hoses, pipework"),
    (
        "load_sensing",
        "load apportioning, load dependent, load valve",
    ),
    ("metering", "hold off valve"),
    ("parts", "components, brakes, calipers"),
    (
        "pipe",
        "line, tube, tubing, brake pipe, brake line, hard line, copper, copper pipe",
    ),
    ("pistons", "pots, bores"),
    ("pressure_limiting", "limiting, limiting valve"),
    (
        "proportioning",
        "reducing, pressure reducing, compensator, proportioner, bias, bias valve, pcv",
    ),
    ("reservoirs", "tanks, bottles, reservoir tanks"),
    ("residual", "residual pressure, residual valve"),
    (
        "screws",
        "bleeders, bleed screws, bleed nipples, nipples, bleed valves",
    ),
    ("tee", "t, splitter, three way, four way, y piece"),
    (
        "union",
        "coupling, connector, joint, joiner, adapter, adaptor",
    ),
    ("vacuum", "servo, vacuum servo"),
    ("wheel_cylinder", "drum brake, wheel slave"),
];

/// What is screwed to a part and holds no fluid worth counting.
const NO_PARTS: &[&str] = &[
    "banjo",
    "banjo_bolt",
    "banjo_fitting",
    "banjo_union",
    "brake_light_switch",
    "stop_light_switch",
    "stop_switch",
];

/// Whether the trade calls something so that is no part of the format.
pub(crate) fn is_no_part(written: &str) -> bool {
    NO_PARTS.iter().any(|name| plain(name) == plain(written))
}

/// The word of the format that is meant, if it can stand here.
pub(crate) fn meant(written: &str, words: &[&'static str]) -> Option<&'static str> {
    let plain = plain(written);
    let of_trade = SURE
        .iter()
        .filter(|(trade, _)| self::plain(trade) == plain)
        .map(|(_, word)| *word);
    let same = words
        .iter()
        .copied()
        .find(|word| self::plain(word) == plain);
    same.or_else(|| of_trade.into_iter().find(|word| words.contains(word)))
}

/// Whether the trade calls the thing of the format's word so, singular or plural.
pub(crate) fn is_called(wanted: &str, word: &str) -> bool {
    let singular = |name: &str| plain(name).trim_end_matches('s').to_owned();
    let wanted = singular(wanted);
    let sure = SURE.iter().filter(|(_, own)| *own == word);
    let likely = LIKELY.iter().filter(|(own, _)| *own == word);
    sure.map(|(other, _)| *other)
        .chain(likely.flat_map(|(_, others)| others.split(", ")))
        .any(|other| singular(other) == wanted)
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
        assert_eq!(meant("floating", &["fixed", "sliding"]), Some("sliding"));
        assert_eq!(
            meant("prop valve", &["proportioning"]),
            Some("proportioning")
        );
        assert_eq!(meant("DOT5", &["dot5", "dot5_1"]), Some("dot5"));
    }
}
