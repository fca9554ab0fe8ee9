//! How far the pedal travels in a step.

use crate::stroke::is_secondary;
use bleedwright_hydraulics::displacement::pedal_travel;
use bleedwright_network::{Bounds, CircuitId, Network};
use uom::si::f64::{Length, Ratio};
use uom::si::ratio::ratio;

/// Travel at the pedal for a share of the stroke. These circuits are open, one
/// or both of a balance bar; every other one is shut and firm.
pub(crate) fn travel(network: &Network, open: &[CircuitId], share: Ratio) -> Bounds<Length> {
    under_bar(network, open, share).unwrap_or_else(|| of_cylinder(network, open[0], share))
}

fn of_cylinder(network: &Network, circuit: CircuitId, share: Ratio) -> Bounds<Length> {
    let cylinder = network.cylinder_of(circuit);
    let stroke = network.chamber_of(circuit).stroke;
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
    Bounds {
        low: travel(|bounds| bounds.low, lever.low),
        nominal: travel(|bounds| bounds.nominal, lever.nominal),
        high: travel(|bounds| bounds.high, lever.high),
    }
}

/// Travel at the pedal where a balance bar shares it between two cylinders, of
/// which these circuits are open; none for a cylinder without a bar. The shut
/// one stands firm once its port is closed, so that the bar tilts about it and
/// the open one gets more of the pedal's travel than its share.
fn under_bar(network: &Network, open: &[CircuitId], share: Ratio) -> Option<Bounds<Length>> {
    let first = network.cylinder_of(*open.first()?);
    let bar = &network.layout().balance_bars[network.balance_bar(*open.first()?)?];
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
