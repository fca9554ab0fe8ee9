//! How long pipes are, from where their ends sit: the routing rule.
//!
//! Formula: `length = 1.1 |dx| + |dy| + |dz| + 0.15 m`, within 15 %.
//!
//! Symbols: `dx`, `dy`, `dz` distances along the vehicle, across it and up, in metres. Pipes follow the body: across,
//! down and along, never straight through. Along the body they go round tank and spring hangers, a tenth more; the
//! 0.15 m are the bends at both ends.
//!
//! ASSUMPTION: the rule and its 15 % are a guess, held against the hand-measured vehicles of the folder `layouts`. Of
//! one pipe they may be further off than of all together.

use crate::measures::{Measures, Run};

/// More than the straight way along the vehicle.
const DETOUR: f64 = 1.1;

/// Bends at the two ends, in metres.
const BENDS_M: f64 = 0.15;

/// How far the rule is trusted.
const TRUST: f64 = 0.15;

/// A point of the vehicle by the share of each measure: along it behind the front axle, across it from the middle to
/// the cylinder's side, up from the ground.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Spot {
    /// Shares of the wheelbase and of the cylinder's distance behind the front axle, and metres.
    along: (f64, f64, f64),
    /// Share of the track, and metres.
    across: (f64, f64),
    up_m: f64,
}

impl Spot {
    /// The master cylinder: on the bulkhead before the driver.
    pub(crate) const CYLINDER: Self = Self {
        along: (0.0, 1.0, 0.0),
        across: (0.35, 0.0),
        up_m: 0.80,
    };

    /// A tee or block below the cylinder.
    pub(crate) const BLOCK: Self = Self {
        up_m: 0.60,
        ..Self::CYLINDER
    };

    /// An anti-lock unit, in the wing ahead of the cylinder.
    pub(crate) const ANTI_LOCK: Self = Self {
        along: (0.0, 1.0, -0.5),
        across: (0.35, 0.0),
        up_m: 0.55,
    };

    /// The joint of pipe and hose at a front wheel; `side` is 1 on the cylinder's side, -1 on the other.
    pub(crate) fn front_joint(side: f64) -> Self {
        Self {
            along: (0.0, 0.0, 0.0),
            across: (0.5 * side, -0.20 * side),
            up_m: 0.55,
        }
    }

    /// The joint of pipe and hose before a rigid rear axle.
    pub(crate) const AXLE_JOINT: Self = Self {
        along: (1.0, 0.0, -0.2),
        across: (0.0, 0.0),
        up_m: 0.45,
    };

    /// The tee on a rigid rear axle.
    pub(crate) const AXLE_TEE: Self = Self {
        along: (1.0, 0.0, 0.0),
        across: (0.0, 0.0),
        up_m: 0.42,
    };

    /// The brake at the end of a rigid rear axle.
    pub(crate) fn axle_end(side: f64) -> Self {
        Self {
            across: (0.5 * side, -0.12 * side),
            ..Self::AXLE_TEE
        }
    }

    /// The tee ahead of wheels that are hung one by one.
    pub(crate) const REAR_TEE: Self = Self {
        along: (1.0, 0.0, -0.3),
        across: (0.0, 0.0),
        up_m: 0.40,
    };

    /// The joint of pipe and hose ahead of such a wheel.
    pub(crate) fn rear_joint(side: f64) -> Self {
        Self {
            across: (0.5 * side, -0.25 * side),
            ..Self::REAR_TEE
        }
    }

    fn along_m(&self, wheelbase: f64, cylinder: f64) -> f64 {
        self.along.0 * wheelbase + self.along.1 * cylinder + self.along.2
    }

    fn across_m(&self, track: f64) -> f64 {
        self.across.0 * track + self.across.1
    }
}

/// The length of a pipe between two points.
pub(crate) fn route(measures: &Measures, from: Spot, to: Spot) -> Run {
    let length = |wheelbase: f64, track: f64, cylinder: f64| {
        let along = from.along_m(wheelbase, cylinder) - to.along_m(wheelbase, cylinder);
        let across = from.across_m(track) - to.across_m(track);
        DETOUR * along.abs() + across.abs() + (from.up_m - to.up_m).abs() + BENDS_M
    };
    let wheelbase = measures.wheelbase_m().length;
    let track = measures.track_m().length;
    let cylinder = measures.cylinder_m().length;
    let ends = |it: Run| [it.low, it.nominal, it.high];
    let nominal = length(wheelbase.nominal, track.nominal, cylinder.nominal);
    let (mut low, mut high) = (nominal, nominal);
    // Distances are absolute values, so that the middle counts as well as the ends.
    for wheelbase in ends(wheelbase) {
        for track in ends(track) {
            for cylinder in ends(cylinder) {
                let here = length(wheelbase, track, cylinder);
                low = here.min(low);
                high = here.max(high);
            }
        }
    }
    Run {
        low: low * (1.0 - TRUST),
        nominal,
        high: high * (1.0 + TRUST),
    }
}
