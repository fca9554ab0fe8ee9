//! What a pedal stroke displaces, and how many of them an amount takes.

use crate::plan::Strokes;
use bleedwright_hydraulics::displacement::stroke_displacement;
use bleedwright_network::{Bounds, Circuit, CircuitId, CylinderKind, Network};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;

/// A stroke that moves less than this share of a full one is refused: the
/// number of strokes would mean nothing.
///
/// ASSUMPTION: a twentieth.
pub(crate) const LEAST_SHARE_OF_FULL: f64 = 0.05;

/// The stroke of the chamber that feeds a circuit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stroke {
    /// What the used share of the stroke displaces.
    pub(crate) displacement: Bounds<Volume>,
    /// What a whole stroke displaces at most: for the reservoir.
    pub(crate) full: Volume,
}

impl Stroke {
    /// One screw of the circuit is open, the other circuit shut and firm.
    pub(crate) fn new(network: &Network, circuit: CircuitId, share: Ratio) -> Self {
        let chamber = network.chamber_of(circuit);
        let (area, stroke, cut_off) = (chamber.area(), chamber.stroke, chamber.cut_off.bounds);
        let displacement = Bounds {
            low: stroke_displacement(area.low, stroke.low, share, cut_off.high),
            nominal: stroke_displacement(area.nominal, stroke.nominal, share, cut_off.nominal),
            high: stroke_displacement(area.high, stroke.high, share, cut_off.low),
        };
        Self {
            displacement,
            full: chamber.contents().high,
        }
    }

    /// Whether it moves enough to count strokes by.
    pub(crate) fn moves_fluid(&self) -> bool {
        self.displacement.low > self.full * LEAST_SHARE_OF_FULL
    }

    /// The strokes that an amount takes.
    pub(crate) fn count(&self, push: Bounds<Volume>) -> Strokes {
        let strokes = |amount: Volume, displacement: Volume| whole(amount / displacement);
        Strokes {
            low: strokes(push.low, self.displacement.high),
            expected: strokes(push.nominal, self.displacement.nominal),
            nominal: strokes(push.nominal, self.displacement.low),
            high: strokes(push.high, self.displacement.low),
        }
    }
}

impl Strokes {
    /// The larger of two counts, for screws opened together.
    pub(crate) fn max(self, other: Self) -> Self {
        Self {
            low: self.low.max(other.low),
            expected: self.expected.max(other.expected),
            nominal: self.nominal.max(other.nominal),
            high: self.high.max(other.high),
        }
    }
}

/// Rounds up, forgiving the last digits of a division.
fn whole(strokes: Ratio) -> u64 {
    let strokes = strokes.get::<ratio>();
    (strokes - 1e-9).ceil().max(1.0) as u64
}

/// Whether the circuit hangs on the secondary chamber of a tandem cylinder.
pub(crate) fn is_secondary(network: &Network, circuit: CircuitId) -> bool {
    network.cylinder_of(circuit).kind == CylinderKind::Tandem
        && network.circuit(circuit).chamber_index == 1
}

/// The circuit of the primary chamber, for one that hangs on the secondary.
pub(crate) fn primary_of(network: &Network, circuit: CircuitId) -> Option<CircuitId> {
    if !is_secondary(network, circuit) {
        return None;
    }
    let cylinder = network.circuit(circuit).cylinder;
    let is_primary = |data: &Circuit| data.cylinder == cylinder && data.chamber_index == 0;
    network
        .circuits()
        .find_map(|(id, data)| is_primary(data).then_some(id))
}
