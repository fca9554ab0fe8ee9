//! What a pedal stroke displaces, and how many of them an amount takes.

use crate::drive::fluid_state;
use crate::options::Options;
use crate::plan::Strokes;
use bleedwright_hydraulics::displacement::stroke_displacement;
use bleedwright_mechanism::{ShutCircuits, TakeUp};
use bleedwright_network::{Bounds, Circuit, CircuitId, CylinderKind, Network};
use uom::si::f64::{Length, Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// A stroke that moves less than this share of a full one is refused: the
/// number of strokes would mean nothing.
///
/// ASSUMPTION: a twentieth.
pub(crate) const LEAST_SHARE_OF_FULL: f64 = 0.05;

/// Strokes that bring less are printed as bringing nothing, and have no highest number.
pub fn nothing_to_speak_of() -> Volume {
    Volume::new::<milliliter>(0.1)
}

/// The stroke of the chamber that feeds a circuit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stroke {
    /// How far the piston goes.
    pub(crate) piston: Bounds<Length>,
    /// What leaves by the screw in a stroke: what the piston displaces less what the shut circuit takes up. The low bound
    /// holds at every corner.
    pub(crate) displacement: Bounds<Volume>,
    /// What the piston displaces.
    pub(crate) displaced: Bounds<Volume>,
    /// What the shut circuit does; none where there is none.
    pub(crate) taken_up: Option<TakeUp>,
    /// What a whole stroke displaces at most: for the reservoir.
    pub(crate) full: Volume,
}

impl Stroke {
    /// The piston goes as far as the block lets it, and the shut circuit takes up its part; none where nothing is shut.
    pub(crate) fn new(
        network: &Network,
        circuit: CircuitId,
        piston: Bounds<Length>,
        taken_up: Option<TakeUp>,
    ) -> Self {
        let chamber = network.chamber_of(circuit);
        let (area, cut_off) = (chamber.area(), chamber.cut_off.bounds);
        let displaced = Bounds {
            low: stroke_displacement(area.low, piston.low, cut_off.high),
            nominal: stroke_displacement(area.nominal, piston.nominal, cut_off.nominal),
            high: stroke_displacement(area.high, piston.high, cut_off.low),
        };
        let none = Volume::default();
        let displacement = taken_up.map_or(displaced, |taken| Bounds {
            low: (displaced.low - taken.volume.high).max(none),
            nominal: (displaced.nominal - taken.volume.nominal).max(none),
            high: displaced.high - taken.volume.low + taken.more,
        });
        Self {
            piston,
            displacement,
            displaced,
            taken_up,
            full: chamber.contents().high,
        }
    }

    /// The piston goes this share of its stroke, whatever that is.
    pub(crate) fn of_share(
        network: &Network,
        circuit: CircuitId,
        share: Ratio,
        taken_up: Option<TakeUp>,
    ) -> Self {
        let stroke = network.chamber_of(circuit).stroke;
        let piston = stroke.map(|stroke| stroke * share);
        Self::new(network, circuit, piston, taken_up)
    }

    /// What strokes are counted by: the least that the piston displaces, less what the shut circuit nominally takes up. All
    /// of it at its worst together would make a count that nobody follows; the jar decides.
    pub(crate) fn counted(&self) -> Volume {
        let taken_up = (self.taken_up).map_or(Volume::default(), |it| it.volume.nominal);
        (self.displaced.low - taken_up).max(self.useful())
    }

    /// Strokes that bring less are not counted by.
    pub(crate) fn useful(&self) -> Volume {
        self.full * LEAST_SHARE_OF_FULL
    }

    /// Whether the shut circuit may take up nearly all of a stroke, so that no count is of use.
    pub(crate) fn may_bring_nothing(&self) -> bool {
        self.displacement.low < self.useful()
    }

    /// The strokes that an amount takes.
    pub(crate) fn count(&self, push: Bounds<Volume>) -> Strokes {
        let strokes = |amount: Volume, each: Volume| whole(amount / each);
        let brought = self.displacement;
        Strokes {
            low: strokes(push.low, brought.high),
            expected: strokes(push.nominal, brought.nominal.max(self.useful())),
            nominal: strokes(push.nominal, self.counted()),
            high: strokes(push.high, brought.low.max(nothing_to_speak_of())),
        }
    }

    /// Whether it moves enough to count strokes by.
    pub(crate) fn moves_fluid(&self) -> bool {
        self.displaced.low > self.useful()
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

/// The circuits that are shut in turn, with the fluid of this job.
pub fn shut_circuits<'n>(network: &'n Network, options: &Options) -> ShutCircuits<'n> {
    let modulus = fluid_state(network, options).bulk_modulus;
    let modulus = Bounds {
        low: modulus.low,
        nominal: modulus.nominal,
        high: modulus.high,
    };
    ShutCircuits::new(network, modulus)
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
