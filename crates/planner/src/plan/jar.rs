//! Where the old fluid goes: jars at the screws, and a can for the rest.

use super::{AtLeast, Plan, StepScrew};
use crate::options::Method;
use std::collections::BTreeMap;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// What a catch jar must hold. Its marks count what leaves the screws, so that
/// nothing else may be poured into it.
#[derive(Clone, Debug, PartialEq)]
pub struct CatchJar {
    /// The circuit whose jar it is, where screws of two are open at once; else
    /// one jar serves all.
    pub circuit: Option<String>,
    /// What leaves the screws, at most.
    pub volume: Volume,
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
        let mut marks: BTreeMap<Option<String>, u64> = BTreeMap::new();
        let second = self.second.iter_mut().flat_map(|second| &mut second.steps);
        for step in self.steps.iter_mut().chain(second) {
            let fill = |screw: &StepScrew| {
                let circuit = is_paired.then(|| screw.circuit.clone());
                let mark = marks.entry(circuit.clone()).or_default();
                *mark += screw.push_ml();
                JarMark {
                    screw: screw.screw.clone(),
                    circuit,
                    push_ml: screw.push_ml(),
                    mark_ml: *mark,
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
        let mut jars: BTreeMap<Option<String>, Volume> = BTreeMap::new();
        for screw in self.all_steps().flat_map(|step| &step.screws) {
            let circuit = is_paired.then(|| screw.circuit.clone());
            *jars.entry(circuit).or_default() += screw.push.high;
        }
        jars.into_iter()
            .map(|(circuit, volume)| CatchJar { circuit, volume })
            .collect()
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
