//! Where the old fluid goes: jars at the screws, and a can for the rest.

use super::Plan;
use crate::options::Method;
use std::collections::BTreeMap;
use uom::si::f64::Volume;

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

impl Plan {
    /// Whether screws of two circuits are open at once: each has a jar.
    pub fn is_paired(&self) -> bool {
        self.all_steps().any(|step| step.screws.len() > 1)
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
