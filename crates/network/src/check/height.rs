//! Where air stays because something is higher than the screw.

use crate::bounds::Bounds;
use crate::code::Code;
use crate::finding::Finding;
use crate::layout::{Cavity, Position};
use crate::network::Network;
use crate::place::Place;
use std::collections::HashMap;
use uom::si::f64::{Length, Volume};
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// A screw cannot open further below the top than its cavity is high.
pub(crate) fn screws_below_cavity(network: &Network, findings: &mut Vec<Finding>) {
    for (id, place) in network.screws() {
        let (Some(below), Some(bore)) = (
            network.screw(id).below_top,
            network.cavity(place.cell).and_then(Cavity::largest_bore),
        ) else {
            continue;
        };
        if below.nominal > bore.high {
            let mm = |length: Length| length.get::<millimeter>();
            findings.push(
                Finding::new(
                    Code::Implausible,
                    network.place_of_screw(id).field("below_top"),
                    format!(
                        "{:.0} mm below the top lie outside the cavity",
                        mm(below.nominal)
                    ),
                    "give the distance from the top of the cavity down to the screw's hole",
                )
                .allowing(format!("up to the largest bore, {:.0} mm", mm(bore.high))),
            );
        }
    }
}

pub(crate) fn screws_below_top(network: &Network, findings: &mut Vec<Finding>) {
    for (id, place) in network.screws() {
        let screw = network.screw(id);
        if screw.at_top != Some(false) {
            continue;
        }
        // A lower screw on a cavity with a top screw stays shut anyway.
        if network.top_screw(network.screws_on(place.cell)) != Some(id) {
            continue;
        }
        let how_much = match network.air_kept_by(id) {
            Some(kept) => format!(
                "keeps about {:.1} ml of air ({:.1} to {:.1} ml)",
                kept.nominal.get::<milliliter>(),
                kept.low.get::<milliliter>(),
                kept.high.get::<milliliter>()
            ),
            None => "keeps air".to_owned(),
        };
        findings.push(Finding::new(
            Code::NotAtTop,
            network.place_of_screw(id),
            format!(
                "the screw `{}` is not the top of its cavity: `{}` {how_much}",
                screw.id,
                network.cell_name(place.cell)
            ),
            "unbolt the brake and tilt it until the screw is the highest point, the pistons \
             blocked by a spacer as thick as the disc; bolt it back before anyone presses the \
             pedal without the spacer",
        ));
    }
}

impl Network {
    /// The air that stays above a screw which is not the top of its cavity;
    /// none when the screw is at the top or the part is not a brake.
    ///
    /// With the distance below the top known it is the segment of the largest
    /// piston's circle above the screw, times the cavity's contents over that
    /// circle: the cavity is taken for a cylinder lying on its side. Without
    /// it, anything from nothing to half the cavity (an assumption).
    pub fn air_kept_by(&self, id: crate::network::ScrewId) -> Option<Bounds<Volume>> {
        let screw = self.screw(id);
        if screw.at_top != Some(false) {
            return None;
        }
        let cavity = self.cavity(self.screw_place(id).cell)?;
        let contents = cavity.contents();
        let bore = cavity.largest_bore()?;
        Some(match screw.below_top {
            Some(below) => Bounds {
                low: contents.low * segment_share(below.low, bore.high),
                nominal: contents.nominal * segment_share(below.nominal, bore.nominal),
                high: contents.high * segment_share(below.high, bore.low),
            },
            // ASSUMPTION: a screw that is not at the top is at mid-height or
            // above.
            None => Bounds {
                low: Volume::default(),
                nominal: contents.nominal * 0.25,
                high: contents.high * 0.5,
            },
        })
    }

    /// The brake cavity that a cell is, if it is one.
    pub fn cavity(&self, cell: crate::graph::CellId) -> Option<&Cavity> {
        let crate::graph::Owner::Part(part, nth) = self.cell(cell).owner else {
            return None;
        };
        match &self.layout.parts[part].kind {
            crate::layout::PartKind::Brake(brake) => brake.cavities.get(nth),
            _ => None,
        }
    }

    /// Of several screws on one cavity the one to bleed at: the one said to
    /// be at the top, else the first that is not said to be below it.
    pub fn top_screw(
        &self,
        screws: impl Iterator<Item = crate::network::ScrewId>,
    ) -> Option<crate::network::ScrewId> {
        screws.min_by_key(|id| {
            let screw = self.screw(*id);
            let rank = match screw.at_top {
                Some(true) => 0,
                None => 1,
                Some(false) => 2,
            };
            (rank, screw.id.clone())
        })
    }
}

/// Share of a circle's area above a chord that lies `below` its top.
///
/// share = (a - sin a cos a) / pi, cos a = 1 - 2 below / bore.
fn segment_share(below: Length, bore: Length) -> f64 {
    let depth = (below / bore).value.clamp(0.0, 1.0);
    let angle = (1.0 - 2.0 * depth).acos();
    (angle - angle.sin() * angle.cos()) / std::f64::consts::PI
}

/// A point of a line that is higher than what is known on both sides of it:
/// air stays there.
pub(crate) fn high_points(network: &Network, findings: &mut Vec<Finding>) {
    let clearly = Length::new::<millimeter>(5.0);
    let heights = heights(network);
    for (index, line) in network.layout.lines.iter().enumerate() {
        let end = |part: &str| heights.get(part).copied();
        let via: Vec<Length> = line.via.iter().map(|via| via.height.nominal).collect();
        let top = via
            .iter()
            .enumerate()
            .max_by(|a, b| a.1.value.total_cmp(&b.1.value));
        let Some((nth, top)) = top else { continue };
        let lowest = |side: &[Length], end: Option<Length>| {
            let known = side.iter().copied().chain(end);
            known.min_by(|a, b| a.value.total_cmp(&b.value))
        };
        let before = lowest(&via[..nth], end(&line.from.part));
        let after = lowest(&via[nth + 1..], end(&line.to.part));
        let (Some(before), Some(after)) = (before, after) else {
            continue;
        };
        let rise = *top - before.max(after);
        if rise > clearly {
            findings.push(Finding::new(
                Code::HighPoint,
                Place::item("lines", index)
                    .field("via")
                    .nth(nth)
                    .field("height"),
                format!(
                    "`{}` rises {:.0} mm above both of its sides: air stays there",
                    line.id,
                    rise.get::<millimeter>()
                ),
                "push its contents through without a pause, or lead it lower; if the pedal stays \
                 springy, loosen the nearest union with no pressure on it, let it run, tighten \
                 it before the pedal is released, and torque it again",
            ));
        }
    }
}

/// The height of every part and cylinder that has one, by name.
fn heights(network: &Network) -> HashMap<&str, Length> {
    let layout = &network.layout;
    let height_of = |height: Option<Bounds<Length>>, position: Option<Position>| {
        height
            .or(position.and_then(|position| position.z))
            .map(|height| height.nominal)
    };
    let parts = layout
        .parts
        .iter()
        .filter_map(|part| Some((part.id.as_str(), height_of(part.height, part.position)?)));
    let cylinders = layout.cylinders.iter().filter_map(|cylinder| {
        Some((
            cylinder.id.as_str(),
            height_of(cylinder.height, cylinder.position)?,
        ))
    });
    parts.chain(cylinders).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_segment_runs_from_nothing_to_the_whole_circle() {
        let mm = Length::new::<millimeter>;
        assert!(segment_share(mm(0.0), mm(50.0)).abs() < 1e-12);
        assert!((segment_share(mm(25.0), mm(50.0)) - 0.5).abs() < 1e-12);
        assert!((segment_share(mm(50.0), mm(50.0)) - 1.0).abs() < 1e-12);
    }
}
