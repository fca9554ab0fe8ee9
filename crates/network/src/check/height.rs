//! Where air stays, or is drawn in, because something is higher than it should be.

use crate::bounds::Bounds;
use crate::code::Code;
use crate::finding::Finding;
use crate::graph::{CellKind, Owner};
use crate::layout::Cavity;
use crate::network::{Lower, Network};
use crate::place::Place;
use std::collections::BTreeMap;
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

/// Brakes that stand higher than what feeds them, told once for each reservoir or cylinder.
pub(crate) fn brakes_above_their_fluid(network: &Network, findings: &mut Vec<Finding>) {
    // What stands lower and whether it may draw air; by how much each brake is higher, and its part.
    type Higher = Vec<(Bounds<Length>, usize)>;
    let mut found: BTreeMap<(Lower, bool), Higher> = BTreeMap::new();
    for (cell, data) in network.all_cells() {
        if let (CellKind::Cavity, Owner::Part(part, _)) = (data.kind, data.owner)
            && let Some(below) = network.below_brake(cell)
        {
            let brakes = found.entry((below.what, below.may_draw_air)).or_default();
            if brakes.last().is_none_or(|(_, last)| *last != part) {
                brakes.push((below.by, part));
            }
        }
    }
    for ((what, may_draw_air), mut brakes) in found {
        let layout = &network.layout;
        brakes.sort_by(|a, b| {
            let id = |part: usize| layout.parts[part].id.as_str();
            (b.0.high.value.total_cmp(&a.0.high.value)).then_with(|| id(a.1).cmp(id(b.1)))
        });
        let (by, highest) = brakes[0];
        let more = match brakes.len() {
            1 => "stands".to_owned(),
            more => format!("and {} more stand", more - 1),
        };
        let (place, name) = match what {
            Lower::Reservoir(index) => (
                Place::item("reservoirs", index),
                &layout.reservoirs[index].id,
            ),
            Lower::Cylinder(index) => {
                let name = &layout.cylinders[index].id;
                (Place::item("cylinders", index), name)
            }
        };
        let help = if may_draw_air {
            "an open screw draws air in there: by the pedal press lightly, open, shut before the \
             end of the stroke; not by gravity; air rises to these brakes. Discs so placed usually \
             have a residual valve of about 0.14 bar, which holds about 1.3 m of fluid; never one \
             for drums. Check the heights if this is not so"
        } else {
            "nothing runs back while the reservoir stands higher, but air rises to these brakes \
             and not to the cylinder: bleed them by the pedal, a tank or a pump"
        };
        findings.push(
            Finding::new(
                Code::BrakeAbove,
                place.field("id"),
                format!(
                    "`{}` {more} up to {:.0} mm higher than `{name}`",
                    layout.parts[highest].id,
                    by.high.get::<millimeter>()
                ),
                help,
            )
            .also_at(Place::item("parts", highest).field("id"), "the highest"),
        );
    }
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

    /// Areas of partly filled pipes as tabulated in hydraulics handbooks, `area / D^2` at `depth / D`
    /// ([King1963], values from memory).
    #[test]
    fn tabulated_areas_of_partly_filled_pipes() {
        let mm = Length::new::<millimeter>;
        for (depth, area) in [
            (0.1, 0.0409),
            (0.2, 0.1118),
            (0.25, 0.1535),
            (0.3, 0.1982),
            (0.4, 0.2934),
            (0.6, 0.4920),
            (0.8, 0.6736),
        ] {
            let found = segment_share(mm(10.0 * depth), mm(10.0)) * std::f64::consts::FRAC_PI_4;
            assert!((found - area).abs() < 0.00005, "{depth}: {found}");
        }
    }
}
