//! Drawing the old fluid off before renewal, and how clean that leaves the
//! reservoir.

use crate::plan::{DrawnOff, RinseChoice};
use crate::request::Request;
use bleedwright_network::{CircuitId, Compartment};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// In a large system the refilled reservoir may hold this share of the residual
/// asked for; what a rinse takes is little beside what is pushed there.
///
/// ASSUMPTION: half, so that the pipes and not the reservoir decide how much
/// is pushed.
const SHARE_OF_RESIDUAL: f64 = 0.5;

/// A rinse pours this many times what the syringe leaves.
///
/// ASSUMPTION: three times, which thins it to a quarter.
const RINSE_TIMES_LEFT: f64 = 3.0;

/// Rinses are poured in steps that a bottle's scale shows.
///
/// ASSUMPTION: 10 ml.
const RINSE_STEP_ML: f64 = 10.0;

/// Nobody rinses more often than this.
///
/// ASSUMPTION: five times.
const MOST_RINSES: u32 = 5;

/// The work on one compartment.
#[derive(Clone, Debug)]
pub(crate) struct DrawOff {
    pub(crate) work: DrawnOff,
    /// New fluid poured in, at most.
    pub(crate) poured: Volume,
    /// New fluid poured in, at least.
    pub(crate) poured_at_least: Volume,
    /// Old and rinsing fluid drawn off, at most.
    pub(crate) drawn: Volume,
    /// What filling takes, without rinses: at most and at least.
    filled: [Volume; 2],
    /// The old fraction without rinses.
    unrinsed: f64,
    /// The share by which one rinse thins.
    thinned: f64,
    /// What each number of rinses that keeps the wanted old share takes.
    pub(crate) choices: Vec<RinseChoice>,
}

impl DrawOff {
    /// Rinses until half of the residual is left in the full compartment: each
    /// one thins what the syringe leaves to left / (left + rinse), and filling
    /// thins it to left / full. Worked out at the worst corner, most left in
    /// the smallest compartment.
    fn new(compartment: &Compartment, residual: Ratio) -> Self {
        let left = compartment.left_when_drawn_off.bounds;
        let room = compartment.max.low - left.high;
        let wanted_ml = left.nominal.get::<milliliter>() * RINSE_TIMES_LEFT;
        let stepped_ml = (wanted_ml / RINSE_STEP_ML).ceil() * RINSE_STEP_ML;
        let rinse = Volume::new::<milliliter>(stepped_ml)
            .min(room)
            .max(Volume::default());
        let thinned = (left.high / (left.high + rinse)).get::<ratio>();
        let unrinsed = (left.high / compartment.max.low)
            .get::<ratio>()
            .clamp(0.0, 1.0);
        let filled = compartment.max.high - left.low;
        let mut draw_off = Self {
            work: DrawnOff {
                compartment: compartment.id.clone(),
                left: left.nominal,
                rinses: 0,
                rinse,
                old: Ratio::new::<ratio>(unrinsed),
            },
            poured: filled,
            poured_at_least: room.max(Volume::default()),
            drawn: filled,
            filled: [filled, room.max(Volume::default())],
            unrinsed,
            thinned,
            choices: Vec::new(),
        };
        while draw_off.work.old > residual * SHARE_OF_RESIDUAL && draw_off.can_rinse_more() {
            draw_off.set_rinses(draw_off.work.rinses + 1);
        }
        draw_off
    }

    /// Whether one more rinse thins what is left.
    pub(crate) fn can_rinse_more(&self) -> bool {
        self.work.rinses < MOST_RINSES && self.thinned < 1.0
    }

    /// Rinses so often.
    pub(crate) fn set_rinses(&mut self, rinses: u32) {
        let times = i32::try_from(rinses).unwrap_or(i32::MAX);
        self.work.old = Ratio::new::<ratio>(self.unrinsed * self.thinned.powi(times));
        let rinsed = self.work.rinse * f64::from(rinses);
        let [most, least] = self.filled;
        (self.poured, self.poured_at_least, self.drawn) =
            (rinsed + most, rinsed + least, rinsed + most);
        self.work.rinses = rinses;
    }
}

/// The compartments to draw off, in the order of their names, and the one of
/// each circuit.
pub(crate) fn draw_offs(
    request: &Request<'_>,
    circuits: &BTreeSet<CircuitId>,
) -> (Vec<DrawOff>, BTreeMap<CircuitId, usize>) {
    let network = request.network;
    let mut by_place: BTreeMap<(usize, usize), DrawOff> = BTreeMap::new();
    for circuit in circuits {
        let Some((r, c)) = network.circuit(*circuit).compartment else {
            continue;
        };
        by_place.entry((r, c)).or_insert_with(|| {
            let compartment = &network.layout().reservoirs[r].compartments[c];
            DrawOff::new(compartment, request.options.residual)
        });
    }
    let mut places: Vec<(usize, usize)> = by_place.keys().copied().collect();
    places.sort_by(|a, b| {
        by_place[a]
            .work
            .compartment
            .cmp(&by_place[b].work.compartment)
    });
    let indices: BTreeMap<(usize, usize), usize> = (places.iter().enumerate())
        .map(|(index, place)| (*place, index))
        .collect();
    let of_circuit = circuits
        .iter()
        .filter_map(|circuit| {
            let place = network.circuit(*circuit).compartment?;
            Some((*circuit, *indices.get(&place)?))
        })
        .collect();
    let list = places
        .into_iter()
        .filter_map(|place| by_place.remove(&place))
        .collect();
    (list, of_circuit)
}
