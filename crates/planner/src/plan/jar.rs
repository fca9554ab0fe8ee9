//! Where the old fluid goes: jars at the screws, and a can for the rest.

use super::{AtLeast, Plan, StepScrew};
use crate::options::Method;
use std::collections::BTreeMap;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// What a catch jar holds that people have at hand (common practice, no source). Of one step it may have to hold more.
pub const JAR_ML: u64 = 1000;

/// What a catch jar must hold. Its marks count what leaves the screws, so that
/// nothing else may be poured into it.
#[derive(Clone, Debug, PartialEq)]
pub struct CatchJar {
    /// The circuit whose jar it is, where screws of two are open at once; else
    /// one jar serves all.
    pub circuit: Option<String>,
    /// What leaves the screws, at most.
    pub volume: Volume,
    /// What it holds at the most that a step may come to before it is emptied, in whole millilitres.
    pub holds_ml: u64,
}

/// The jar of one screw in one step. In whole millilitres, as a mark is read, so that those of a plan add up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JarMark {
    /// The screw that fills it.
    pub screw: String,
    /// The circuit whose jar it is, where screws of two are open at once; else one jar serves all.
    pub circuit: Option<String>,
    /// What comes into it in this step.
    pub push_ml: u64,
    /// What it holds afterwards.
    pub mark_ml: u64,
    /// The mark at which somebody stops and looks for the cause: what it held before, and what the step is given up at.
    pub stop_ml: u64,
    /// Whether it is emptied before this step, since it could not hold that much; its marks count from zero again.
    pub is_emptied: bool,
}

impl AtLeast {
    /// In whole millilitres, rounded up: more is safe.
    pub fn whole_ml(&self) -> u64 {
        (self.volume.get::<milliliter>() - 1e-9).ceil() as u64
    }
}

impl StepScrew {
    /// What to push in whole millilitres: rounded, but never below the least.
    pub fn push_ml(&self) -> u64 {
        let push_ml = self.push.nominal.get::<milliliter>().round() as u64;
        let least = self.at_least.as_ref().map(AtLeast::whole_ml);
        least.map_or(push_ml, |least| push_ml.max(least))
    }
}

impl Plan {
    /// Whether screws of two circuits are open at once: each has a jar.
    pub fn is_paired(&self) -> bool {
        self.all_steps().any(|step| step.screws.len() > 1)
    }

    /// The same plan with the marks of its jars at every step, one bleed after the other.
    pub(crate) fn with_jars(mut self) -> Self {
        let is_paired = self.is_paired();
        let is_reverse = self.head.method == Method::Reverse;
        let mut marks: BTreeMap<Option<String>, u64> = BTreeMap::new();
        let second = self.second.iter_mut().flat_map(|second| &mut second.steps);
        for step in self.steps.iter_mut().chain(second) {
            let give_up = step.stop_rule.give_up;
            let pushed: u64 = step.screws.iter().map(StepScrew::push_ml).sum();
            let fill = |screw: &StepScrew| {
                let circuit = is_paired.then(|| screw.circuit.clone());
                let mark = marks.entry(circuit.clone()).or_default();
                let share = screw.push_ml() as f64 / pushed.max(1) as f64;
                let give_up_ml = (give_up * share).get::<milliliter>().round() as u64;
                let is_emptied = *mark > 0 && !is_reverse && *mark + give_up_ml > JAR_ML;
                if is_emptied {
                    *mark = 0;
                }
                let stop_ml = *mark + give_up_ml;
                *mark += screw.push_ml();
                JarMark {
                    screw: screw.screw.clone(),
                    circuit,
                    push_ml: screw.push_ml(),
                    mark_ml: *mark,
                    stop_ml,
                    is_emptied,
                }
            };
            step.jars = step.screws.iter().map(fill).collect();
            step.jar_mark_ml = marks.values().sum();
        }
        self
    }

    /// The jars, by circuit; none by the reverse method, which lets nothing
    /// out at a screw.
    pub fn jars(&self) -> Vec<CatchJar> {
        if self.head.method == Method::Reverse {
            return Vec::new();
        }
        let is_paired = self.is_paired();
        let mut jars: BTreeMap<Option<String>, CatchJar> = BTreeMap::new();
        for step in self.all_steps() {
            for (screw, mark) in step.screws.iter().zip(&step.jars) {
                let circuit = is_paired.then(|| screw.circuit.clone());
                let jar = jars.entry(circuit.clone()).or_insert(CatchJar {
                    circuit,
                    volume: Volume::default(),
                    holds_ml: 0,
                });
                jar.volume += screw.push.high;
                jar.holds_ml = jar.holds_ml.max(mark.stop_ml).max(mark.mark_ml);
            }
        }
        jars.into_values().collect()
    }

    /// What is drawn off the reservoir, at most: it goes into a can of its own.
    pub fn drawn_off(&self) -> Volume {
        let in_jars = (self.jars().iter()).fold(Volume::default(), |sum, jar| sum + jar.volume);
        let rest = self.buy.catch - in_jars;
        // The two sums are made in different orders.
        if rest > self.buy.catch * ROUNDING {
            rest
        } else {
            Volume::default()
        }
    }
}

/// Sums of the same volumes differ by no more than this share.
const ROUNDING: f64 = 1e-9;
