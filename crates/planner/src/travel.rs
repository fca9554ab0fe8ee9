//! How far the pedal travels in a step, and how far a block lets the pistons go.

use crate::corner::against;
use crate::stroke::is_secondary;
use bleedwright_hydraulics::displacement::pedal_travel;
use bleedwright_network::{Bounds, CircuitId, Cylinder, Network};
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
        pedal_travel(lever, pick(stroke) * share, pick(other), pick(play))
    };
    Bounds {
        low: travel(|bounds| bounds.low, lever.low),
        nominal: travel(|bounds| bounds.nominal, lever.nominal),
        high: travel(|bounds| bounds.high, lever.high),
    }
}

/// How far each open circuit's piston goes until the pedal stands at its block.
/// The other circuit is shut and firm, as for [`travel`].
pub(crate) fn pistons(network: &Network, open: &[CircuitId], block: Length) -> Vec<Bounds<Length>> {
    let cylinder = under_pedal(network, open[0]);
    let (lever, play) = (cylinder.pedal_ratio.bounds, cylinder.free_play.bounds);
    // What the rod moves, or the middle of a balance bar.
    let rod = against(play.zip(lever, |play, lever| (block - play) / lever));
    let none = Bounds::exact(Length::default());
    let bar = network.balance_bar(open[0]);
    open.iter()
        .map(|circuit| {
            let piston = match (bar, open) {
                (None, _) if is_secondary(network, *circuit) => rod.zip(
                    against(cylinder.chambers[0].cut_off.bounds),
                    |rod, other| rod - other,
                ),
                (None, _) => rod,
                (Some(_), [alone]) => tilted(network, *alone, rod),
                (Some(_), _) => level(network, *circuit, open, rod),
            };
            // Bounds of figures without tolerance differ in the last digit.
            let piston = piston.zip(none, Length::max);
            Bounds {
                low: piston.low.min(piston.nominal),
                nominal: piston.nominal,
                high: piston.high.max(piston.nominal),
            }
        })
        .collect()
}

/// The cylinder whose lever and play are the pedal's: under a balance bar the first one of the bar, whichever is open.
fn under_pedal(network: &Network, circuit: CircuitId) -> &Cylinder {
    let bars = &network.layout().balance_bars;
    let first = (network.balance_bar(circuit)).and_then(|bar| bars[bar].cylinders.first());
    let mut cylinders = network.layout().cylinders.iter();
    first
        .and_then(|first| cylinders.find(|cylinder| cylinder.id == *first))
        .unwrap_or_else(|| network.cylinder_of(circuit))
}

/// The share of a balance bar's force that a circuit's cylinder gets.
fn share_of(network: &Network, circuit: CircuitId) -> Bounds<Ratio> {
    let whole = Ratio::new::<ratio>(1.0);
    let bars = &network.layout().balance_bars;
    let bar = network.balance_bar(circuit).map(|index| &bars[index]);
    bar.map_or(Bounds::exact(whole), |bar| {
        let share = bar.share.bounds;
        if bar.cylinders.first() == Some(&network.cylinder_of(circuit).id) {
            share
        } else {
            against(share).map(|share| whole - share)
        }
    })
}

/// The piston of the one open circuit under a bar that tilts about the shut
/// one: `x = c + (m - c) / b`.
fn tilted(network: &Network, circuit: CircuitId, rod: Bounds<Length>) -> Bounds<Length> {
    let partner = network.bar_partner(circuit);
    let shut = partner.map_or(Bounds::exact(Length::default()), |partner| {
        network.chamber_of(partner).cut_off.bounds
    });
    let share = share_of(network, circuit);
    let piston = |rod: Length, shut: Length, share: Ratio| shut + (rod - shut) / share;
    // A shut piston that goes further leaves less to the open one, as long as
    // the share is below the whole.
    let ends =
        |rod: Length, shut: Length| [share.low, share.high].map(|share| piston(rod, shut, share));
    let [low, other] = ends(rod.low, shut.high);
    let low = low.min(other);
    let [high, other] = ends(rod.high, shut.low);
    Bounds {
        low,
        nominal: piston(rod.nominal, shut.nominal, share.nominal),
        high: high.max(other),
    }
}

/// A piston under a bar whose circuits are both open: each goes the same share
/// of its stroke.
fn level(
    network: &Network,
    circuit: CircuitId,
    open: &[CircuitId],
    rod: Bounds<Length>,
) -> Bounds<Length> {
    let own = network.chamber_of(circuit).stroke;
    let other = open.iter().find(|other| **other != circuit);
    let other = other.map_or(own, |other| network.chamber_of(*other).stroke);
    let share = share_of(network, circuit);
    let whole = Ratio::new::<ratio>(1.0);
    let piston = |rod: Length, own: Length, other: Length, share: Ratio| {
        own * (rod / (own * share + other * (whole - share)))
    };
    let ends = |rod: Length, own: Length, other: Length| {
        [share.low, share.high].map(|share| piston(rod, own, other, share))
    };
    let [low, second] = ends(rod.low, own.low, other.high);
    let low = low.min(second);
    let [high, second] = ends(rod.high, own.high, other.low);
    Bounds {
        low,
        nominal: piston(rod.nominal, own.nominal, other.nominal, share.nominal),
        high: high.max(second),
    }
}

/// Travel at the pedal where a balance bar shares it between two cylinders, of
/// which these circuits are open; none for a cylinder without a bar. The shut
/// one stands firm once its port is closed, so that the bar tilts about it and
/// the open one gets more of the pedal's travel than its share.
fn under_bar(network: &Network, open: &[CircuitId], share: Ratio) -> Option<Bounds<Length>> {
    let first = under_pedal(network, *open.first()?);
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
        pedal_travel(lever, middle, Length::default(), play)
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
