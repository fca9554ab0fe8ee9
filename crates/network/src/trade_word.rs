//! What the trade calls the things that the format has one word for: common
//! practice, no source.

/// The format's word, and what else its thing is called.
const TRADE_WORDS: &[(&str, &[&str])] = &[
    (
        "anti_lock",
        &["abs", "abs unit", "modulator", "hydraulic unit"],
    ),
    ("block", &["manifold", "junction", "distribution block"]),
    ("booster", &["servo", "brake servo"]),
    ("bore", &["diameter", "dia", "inner diameter"]),
    ("caliper", &["disc", "disk", "disc brake", "disk brake"]),
    (
        "check",
        &["non return", "one way", "non return valve", "one way valve"],
    ),
    (
        "clutch_slave",
        &["slave", "slave cylinder", "clutch cylinder"],
    ),
    ("compartments", &["chambers", "tanks", "bottles"]),
    ("cylinders", &["masters", "master cylinders"]),
    (
        "differential_switch",
        &["warning switch", "pressure switch", "shuttle"],
    ),
    ("hose", &["flexible", "flexi", "flex line", "brake hose"]),
    ("lines", &["pipes", "tubes", "hoses", "pipework"]),
    (
        "load_sensing",
        &["load apportioning", "load dependent", "load valve"],
    ),
    ("metering", &["hold off valve"]),
    ("parts", &["components", "brakes", "calipers"]),
    (
        "pipe",
        &[
            "line",
            "tube",
            "tubing",
            "brake pipe",
            "brake line",
            "hard line",
        ],
    ),
    ("pistons", &["pots", "bores"]),
    (
        "pressure_limiting",
        &["limiter", "limiting", "limiting valve"],
    ),
    (
        "proportioning",
        &[
            "reducing",
            "pressure reducing",
            "compensator",
            "proportioner",
            "bias",
        ],
    ),
    ("reservoirs", &["tanks", "bottles", "reservoir tanks"]),
    ("residual", &["residual pressure", "residual valve"]),
    (
        "screws",
        &[
            "bleeders",
            "bleed screws",
            "bleed nipples",
            "nipples",
            "bleed valves",
        ],
    ),
    ("tee", &["t piece", "t", "splitter", "three way", "y piece"]),
    (
        "union",
        &["coupling", "connector", "joint", "joiner", "adapter"],
    ),
    ("wheel_cylinder", &["drum", "drum brake", "wheel slave"]),
];

/// Whether the trade calls the thing of the format's word so, singular or
/// plural; both in lower case.
pub(crate) fn is_called(wanted: &str, word: &str) -> bool {
    let wanted = wanted.replace(['_', '-'], " ");
    let singular = wanted.strip_suffix('s').unwrap_or(&wanted);
    TRADE_WORDS
        .iter()
        .filter(|(own, _)| *own == word)
        .flat_map(|(_, others)| *others)
        .any(|other| *other == wanted || other.strip_suffix('s').unwrap_or(other) == singular)
}
