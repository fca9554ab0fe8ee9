//! When to top up, so that no compartment is let down below its limit.

use crate::plan::{LevelAction, LevelStop, Progress};
use bleedwright_network::{CircuitId, Network};
use std::collections::BTreeMap;
use uom::si::f64::Volume;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// A reservoir compartment, by its places in the layout.
type CompartmentId = (usize, usize);

/// A first stop that would come within this share of a filling is made before
/// the step begins: sooner is safe, and a step is easier to begin full.
///
/// ASSUMPTION: a quarter.
const BEFORE_SHARE: f64 = 0.25;

/// The levels as the worst helper leaves them: whole strokes throughout, and
/// each step ended where least was left.
#[derive(Clone, Debug, Default)]
pub(crate) struct Levels {
    /// What may have been drawn since the last top-up.
    drawn: BTreeMap<CompartmentId, Volume>,
}

impl Levels {
    /// The stops of one step. `full_strokes` are what a whole stroke of each
    /// open circuit draws; `[least, most]` how many may be made.
    pub(crate) fn step(
        &mut self,
        network: &Network,
        full_strokes: &[(CircuitId, Volume)],
        [least, most]: [u64; 2],
    ) -> Vec<LevelStop> {
        let mut per_stroke: BTreeMap<CompartmentId, Volume> = BTreeMap::new();
        for (circuit, full) in full_strokes {
            if let Some(compartment) = network.circuit(*circuit).compartment {
                *per_stroke.entry(compartment).or_default() += *full;
            }
        }
        let mut stops = Vec::new();
        for (compartment, draw) in per_stroke {
            let drawn = self.drawn.entry(compartment).or_default();
            let capacity = usable(network, compartment);
            let name = &network.layout().reservoirs[compartment.0].compartments[compartment.1].id;
            // A compartment smaller than a stroke is topped up after each one;
            // the layout's findings say so.
            let per_filling = whole_strokes(capacity, draw).max(1);
            let mut next = whole_strokes(capacity - *drawn, draw);
            if (next as f64) < BEFORE_SHARE * per_filling as f64 {
                next = 0;
            }
            let mut own = Vec::new();
            while next < most {
                own.push(next);
                next += per_filling;
            }
            let at = |strokes: u64| draw * strokes as f64;
            let ends: Vec<Volume> = own.iter().map(|strokes| at(*strokes)).collect();
            *drawn = most_drawn(*drawn, &ends, [at(least), at(most)]);
            stops.extend(own.into_iter().map(|strokes| (strokes, name.clone())));
        }
        stops.sort();
        stops
            .into_iter()
            .map(|(strokes, compartment)| LevelStop {
                compartment,
                after: Progress::Strokes(strokes),
                action: LevelAction::TopUp,
            })
            .collect()
    }

    /// The stops of a step that lets one circuit's fluid run, or pushes it
    /// back into the reservoir, somewhere between `[least, most]`. Of what is
    /// pushed back `kept` is left in the compartment at each stop, to be drawn
    /// back from there; that it leaves more room is not counted on.
    pub(crate) fn run(
        &mut self,
        network: &Network,
        circuit: CircuitId,
        [least, most]: [Volume; 2],
        action: LevelAction,
        kept: Volume,
    ) -> Vec<LevelStop> {
        let Some(compartment) = network.circuit(circuit).compartment else {
            return Vec::new();
        };
        let capacity = whole_ml(usable(network, compartment) - kept);
        let drawn = self.drawn.entry(compartment).or_default();
        let name = &network.layout().reservoirs[compartment.0].compartments[compartment.1].id;
        let mut next = capacity - *drawn;
        if next < capacity * BEFORE_SHARE {
            next = Volume::default();
        }
        let mut stops = Vec::new();
        while next < most && capacity > Volume::default() {
            stops.push(next);
            next += capacity;
        }
        *drawn = most_drawn(*drawn, &stops, [least, most]);
        stops
            .into_iter()
            .map(|after| LevelStop {
                compartment: name.clone(),
                after: Progress::Volume(after),
                action,
            })
            .collect()
    }
}

/// The most that may be drawn since the last stop when a step ends: anywhere
/// from `least` to `most`, and where it ends at a stop, before that one.
fn most_drawn(before: Volume, stops: &[Volume], [least, most]: [Volume; 2]) -> Volume {
    let mut worst = Volume::default();
    let (mut start, mut drawn) = (Volume::default(), before);
    for end in stops.iter().copied().chain([most]) {
        if end >= least {
            worst = worst.max(drawn + (end - start));
        }
        (start, drawn) = (end, Volume::default());
    }
    worst
}

/// Rounded down to what a jar shows, where it is large enough for that: stops
/// are printed in whole millilitres, and sooner is safe.
fn whole_ml(volume: Volume) -> Volume {
    let ml = volume.get::<milliliter>() + 1e-9;
    if ml >= 2.0 {
        Volume::new::<milliliter>(ml.floor())
    } else {
        volume
    }
}

/// What is kept above the minimum mark for drawing back, half of what there
/// is room for at most.
pub(crate) fn kept_for_drawing_back(
    network: &Network,
    compartment: (usize, usize),
    most: Volume,
) -> Volume {
    most.min(usable(network, compartment) * 0.5)
}

/// What may be drawn between two fillings.
fn usable(network: &Network, compartment: CompartmentId) -> Volume {
    network.layout().reservoirs[compartment.0].compartments[compartment.1].usable()
}

fn whole_strokes(volume: Volume, draw: Volume) -> u64 {
    let strokes = (volume / draw).get::<ratio>();
    if strokes > 0.0 {
        (strokes + 1e-9).floor() as u64
    } else {
        0
    }
}
