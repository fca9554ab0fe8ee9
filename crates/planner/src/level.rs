//! When to top up, so that no compartment is let down below its limit.

use crate::plan::{LevelAction, LevelRule, LevelStop, Progress, Rhythm};
use bleedwright_network::{CircuitId, Network};
use std::collections::BTreeMap;
use uom::si::f64::Volume;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// A reservoir compartment, by its places in the layout.
type CompartmentId = (usize, usize);

/// What a stroke takes from the reservoir at most.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Draw {
    pub(crate) to_block: Volume,
    /// A whole one, to the stop of the piston.
    pub(crate) whole: Volume,
}

/// The levels as the worst helper leaves them: strokes as large as they may
/// be, and each step ended where least was left.
#[derive(Clone, Debug, Default)]
pub(crate) struct Levels {
    /// What may have been drawn since the last top-up.
    drawn: BTreeMap<CompartmentId, Volume>,
}

/// When the compartments of one step are seen to.
#[derive(Clone, Debug, Default)]
pub(crate) struct Looks {
    pub(crate) rules: Vec<LevelRule>,
    pub(crate) stops: Vec<LevelStop>,
}

impl Looks {
    /// Adds a rule, and its stops up to where the step is given up.
    fn add(&mut self, rule: LevelRule, start: Progress, places: impl Iterator<Item = Progress>) {
        let start = rule.is_before_start.then_some(start);
        self.stops
            .extend(start.into_iter().chain(places).map(|after| LevelStop {
                compartment: rule.compartment.clone(),
                after,
                action: rule.action,
            }));
        self.rules.push(rule);
    }
}

impl Levels {
    /// When to top up in one step by strokes. `draws` are what a stroke takes
    /// for each open circuit; the step is given up at `give_up`, in all, and
    /// after `strokes` of the smallest strokes.
    ///
    /// Whoever keeps to the rule stays above the lowest level with the block,
    /// and with whole strokes at half the number.
    pub(crate) fn step(
        &mut self,
        network: &Network,
        draws: &[(CircuitId, Draw)],
        give_up: Volume,
        strokes: u64,
    ) -> Looks {
        let mut per_stroke: BTreeMap<CompartmentId, Draw> = BTreeMap::new();
        for (circuit, draw) in draws {
            if let Some(compartment) = network.circuit(*circuit).compartment {
                let sum = per_stroke.entry(compartment).or_insert(Draw {
                    to_block: Volume::default(),
                    whole: Volume::default(),
                });
                sum.to_block += draw.to_block;
                sum.whole += draw.whole;
            }
        }
        let mut looks = Looks::default();
        for (compartment, draw) in per_stroke {
            let room = usable(network, compartment);
            // A compartment smaller than a stroke is topped up after each one;
            // the layout's findings say so.
            let every = whole_strokes(room, draw.to_block)
                .min(whole_strokes(room * 2.0, draw.whole))
                .max(1);
            let without_block = Some(every / 2).filter(|strokes| *strokes > 0);
            // The last stroke begins before the amount is reached.
            let most = give_up + draw.whole;
            let between = draw.to_block * every as f64;
            let between = between.max(draw.whole * without_block.unwrap_or(0) as f64);
            let Some([is_before_start, is_repeated]) =
                self.needs_look(compartment, most, room, between)
            else {
                continue;
            };
            let of = |circuit: CircuitId| network.circuit(circuit).compartment == Some(compartment);
            let mut drawing = draws.iter().filter(|(circuit, _)| of(*circuit));
            let circuit = drawing.next().map(|(circuit, _)| *circuit);
            let rule = LevelRule {
                compartment: name(network, compartment),
                circuit: circuit.filter(|_| drawing.next().is_none()),
                action: LevelAction::TopUp,
                is_before_start,
                every: is_repeated.then_some(Rhythm::Strokes {
                    every,
                    without_block,
                }),
            };
            let places = (1..)
                .map(|nth| nth * every)
                .take_while(|stroke| is_repeated && *stroke < strokes);
            looks.add(rule, Progress::Strokes(0), places.map(Progress::Strokes));
        }
        let strokes = |stop: &LevelStop| match stop.after {
            Progress::Strokes(strokes) => strokes,
            Progress::Volume(_) => 0,
        };
        looks
            .stops
            .sort_by(|a, b| (strokes(a), &a.compartment).cmp(&(strokes(b), &b.compartment)));
        looks
            .rules
            .sort_by(|a, b| a.compartment.cmp(&b.compartment));
        looks
    }

    /// When to see to the level in a step that lets one circuit's fluid run,
    /// or pushes it back into the reservoir, up to `give_up`. Of what is pushed
    /// back `kept` is left in the compartment at each stop, to be drawn back
    /// from there; that it leaves more room is not counted on.
    pub(crate) fn run(
        &mut self,
        network: &Network,
        circuit: CircuitId,
        give_up: Volume,
        action: LevelAction,
        kept: Volume,
    ) -> Looks {
        let mut looks = Looks::default();
        let Some(compartment) = network.circuit(circuit).compartment else {
            return looks;
        };
        let room = whole_ml(usable(network, compartment) - kept);
        if room <= Volume::default() {
            return looks;
        }
        if let Some([is_before_start, is_repeated]) =
            self.needs_look(compartment, give_up, room, room)
        {
            let rule = LevelRule {
                compartment: name(network, compartment),
                circuit: Some(circuit),
                action,
                is_before_start,
                every: is_repeated.then_some(Rhythm::Volume(room)),
            };
            let places = (1..)
                .map(|nth| room * f64::from(nth))
                .take_while(|place| is_repeated && *place < give_up);
            let start = Progress::Volume(Volume::default());
            looks.add(rule, start, places.map(Progress::Volume));
        }
        looks
    }

    /// Whether a step that draws `most` needs a look before it starts, and
    /// again and again: none where there is room for all of it. Between two
    /// looks `between` is drawn at most. The step may end anywhere, and what
    /// may be drawn by then is carried on.
    fn needs_look(
        &mut self,
        compartment: CompartmentId,
        most: Volume,
        room: Volume,
        between: Volume,
    ) -> Option<[bool; 2]> {
        let drawn = self.drawn.entry(compartment).or_default();
        if *drawn + most <= room {
            *drawn += most;
            return None;
        }
        let is_before_start = *drawn > Volume::default();
        let is_repeated = most > room;
        *drawn = if is_repeated { between.min(most) } else { most };
        Some([is_before_start, is_repeated])
    }
}

fn name(network: &Network, (reservoir, nth): CompartmentId) -> String {
    let reservoir = &network.layout().reservoirs[reservoir];
    reservoir.compartments[nth].id.clone()
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
