//! What a pedal stroke displaces, and how many of them an amount takes.

use crate::plan::Strokes;
use bleedwright_hydraulics::displacement::{pedal_travel, stroke_displacement};
use bleedwright_network::{Bounds, Circuit, CircuitId, CylinderKind, Network};
use uom::si::f64::{Length, Ratio, Volume};
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
    /// Travel at the pedal.
    pub(crate) travel: Bounds<Length>,
}

impl Stroke {
    /// One screw of the circuit is open, the other circuit shut and firm.
    pub(crate) fn new(network: &Network, circuit: CircuitId, share: Ratio) -> Self {
        let chamber = network.chamber_of(circuit);
        let cylinder = network.cylinder_of(circuit);
        let (area, stroke, cut_off) = (chamber.area(), chamber.stroke, chamber.cut_off.bounds);
        let displacement = Bounds {
            low: stroke_displacement(area.low, stroke.low, share, cut_off.high),
            nominal: stroke_displacement(area.nominal, stroke.nominal, share, cut_off.nominal),
            high: stroke_displacement(area.high, stroke.high, share, cut_off.low),
        };
        // Only the primary piston is pushed by the pedal: before the secondary
        // one moves, the primary port must be closed.
        let other = if is_secondary(network, circuit) {
            cylinder.chambers[0].cut_off.bounds
        } else {
            Bounds::exact(Length::default())
        };
        let (lever, play) = (cylinder.pedal_ratio.bounds, cylinder.free_play.bounds);
        let travel = |pick: fn(Bounds<Length>) -> Length, lever: Ratio| {
            pedal_travel(lever, pick(stroke), share, pick(other), pick(play))
        };
        Self {
            displacement,
            full: chamber.contents().high,
            travel: Bounds {
                low: travel(|bounds| bounds.low, lever.low),
                nominal: travel(|bounds| bounds.nominal, lever.nominal),
                high: travel(|bounds| bounds.high, lever.high),
            },
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

/// Travel at the pedal where a balance bar shares it between two cylinders, of
/// which these circuits are open; none for a cylinder without a bar. The shut
/// one stands firm once its port is closed, so that the bar tilts about it and
/// the open one gets more of the pedal's travel than its share.
pub(crate) fn bar_travel(
    network: &Network,
    open: &[CircuitId],
    share: Ratio,
) -> Option<Bounds<Length>> {
    let first = network.cylinder_of(*open.first()?);
    let bar =
        (network.layout().balance_bars.iter()).find(|bar| bar.cylinders.contains(&first.id))?;
    let rod = |name: &String| -> Option<Bounds<Length>> {
        let cylinders = &network.layout().cylinders;
        let cylinder = cylinders.iter().find(|cylinder| cylinder.id == *name)?;
        let chamber = &cylinder.chambers[0];
        let is_open = open.iter().any(|it| network.cylinder_of(*it).id == *name);
        Some(if is_open {
            chamber.stroke.map(|stroke| stroke * share)
        } else {
            chamber.cut_off.bounds
        })
    };
    let [one, other] = [rod(bar.cylinders.first()?)?, rod(bar.cylinders.get(1)?)?];
    let (lever, play) = (first.pedal_ratio.bounds, first.free_play.bounds);
    let whole = Ratio::new::<ratio>(1.0);
    let travel = |one: Length, other: Length, share: Ratio, lever: Ratio, play: Length| {
        let middle = one * share + other * (whole - share);
        pedal_travel(lever, middle, whole, Length::default(), play)
    };
    let share = bar.share.bounds;
    let least = if one.low < other.low {
        share.high
    } else {
        share.low
    };
    let most = if one.high > other.high {
        share.high
    } else {
        share.low
    };
    let nominal = travel(
        one.nominal,
        other.nominal,
        share.nominal,
        lever.nominal,
        play.nominal,
    );
    // Of two equal pistons every share makes the same, but for the last digit.
    Some(Bounds {
        low: travel(one.low, other.low, least, lever.low, play.low).min(nominal),
        nominal,
        high: travel(one.high, other.high, most, lever.high, play.high).max(nominal),
    })
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
