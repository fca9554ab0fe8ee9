//! All that is asked of one pedal, answered as plain data.

use crate::cause::Cause;
use crate::caution::PedalCaution;
use crate::equilibrium::Press;
use crate::estimate::{Estimate, EstimateError, Reading};
use crate::feel::Feel;
use crate::mechanism::Mechanism;
use crate::next::NextStep;
use crate::premise::Premise;
use crate::sizing::{Candidate, Sized};
use crate::symptom::{Symptom, causes};
use crate::trial::Trial;
use bleedwright_mechanism::{AirPocket, Capacity, Control, capacities};
use bleedwright_network::{Bounds, Control as WorkedBy, Network};
use uom::si::f64::{Force, Length, Volume};
use uom::si::force::{newton, pound_force};
use uom::si::volume::milliliter;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Question {
    /// The force on the pedal.
    pub force: Force,
    /// Whether a booster helps.
    pub is_boosted: bool,
    /// Air that is taken to be trapped, and the circuit it is in; without one it is in the first.
    pub air: Option<(Volume, Option<String>)>,
    /// Travels that were measured.
    pub readings: Vec<Reading>,
    /// What is wrong with the pedal.
    pub symptom: Option<Symptom>,
    /// Other sizes of cylinder and lever.
    pub candidates: Vec<Candidate>,
}

/// The answer.
#[derive(Clone, Debug)]
pub struct Assessment {
    /// The vehicle.
    pub vehicle: String,
    /// The pedal or lever.
    pub control: String,
    /// What works it.
    pub worked_by: WorkedBy,
    /// Whether it has a booster.
    pub has_booster: bool,
    /// Whether that was taken to help.
    pub is_boosted: bool,
    /// The force asked for.
    pub force: Force,
    /// The pedal under it.
    pub feel: Feel,
    /// The pedal under the usual forces, the smallest first.
    pub forces: Vec<(Force, Feel)>,
    /// The force of 49 CFR 570.55(c), and the pedal under it; a booster helps then, whatever was asked.
    pub reserve: Option<(Force, Feel)>,
    /// Under the force asked for with each circuit lost in turn.
    pub lost: Vec<(String, Feel)>,
    /// Air that was taken to be trapped, and the circuit.
    pub air: Option<(Volume, String)>,
    /// What the readings imply.
    pub estimate: Option<Estimate>,
    /// By how much pumping raised the pedal, where the same force was read both ways.
    pub pumping_gain: Option<Length>,
    /// Where to look for the air; nowhere where the readings fit no air.
    pub trials: Vec<Trial>,
    /// The force for the trials: the largest that was read; none without trials.
    pub trials_force: Option<Force>,
    /// What to do next; nothing where other sizes are compared.
    pub next: Option<NextStep>,
    /// What a symptom points to.
    pub causes: Vec<Cause>,
    /// Other sizes.
    pub sized: Vec<Sized>,
    /// The rule on reservoirs, one by one.
    pub capacities: Vec<Capacity>,
    /// What was assumed.
    pub assumptions: Vec<Premise>,
    /// What to beware of.
    pub cautions: Vec<PedalCaution>,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum AssessmentError {
    /// The circuit does not hang on this pedal.
    #[error("no circuit `{found}` hangs on {control}; its circuits are {known}")]
    UnknownCircuit {
        /// The name that was given.
        found: String,
        /// The pedal.
        control: String,
        /// The names there are.
        known: String,
    },
    /// The readings cannot be used.
    #[error(transparent)]
    Estimate(#[from] EstimateError),
}

/// The forces of the table under a foot, in N.
const FOOT_FORCES_N: [f64; 4] = [50.0, 150.0, 300.0, 500.0];

/// The same under a hand. UN R78 tests a hand lever with at most 200 N (from memory).
const HAND_FORCES_N: [f64; 4] = [20.0, 50.0, 100.0, 200.0];

/// The same at a coupler.
///
/// ASSUMPTION: about a tenth of the weight of trailers of 250 kg to 2 t; common practice, no source.
const COUPLER_FORCES_N: [f64; 4] = [250.0, 500.0, 1000.0, 2000.0];

/// The force at which the pedal reserve is judged, in lbf.
///
/// Source: [CFR570](crate#sources) 570.55(c).
const RESERVE_LBF: f64 = 50.0;

/// Answers a question about a pedal of a sound layout.
///
/// # Errors
///
/// See [`AssessmentError`].
pub fn assess(
    network: &Network,
    control: &Control,
    question: &Question,
) -> Result<Assessment, AssessmentError> {
    let mechanism = Mechanism::new(network, control);
    let air = question
        .air
        .as_ref()
        .map(|(volume, circuit)| place_air(&mechanism, control, *volume, circuit.as_deref()))
        .transpose()?;
    let press = |force: Force| Press {
        force_n: force.get::<newton>(),
        is_boosted: question.is_boosted,
        is_pumped: false,
        lost: None,
        air: air.iter().map(|(pocket, _)| *pocket).collect(),
    };
    let asked = press(question.force);
    // The rule's force is a foot's; none is known for a hand lever or a coupler.
    let worked_by = control.worked_by(network);
    let is_pedal = worked_by == WorkedBy::Pedal;
    let reserve = Force::new::<pound_force>(RESERVE_LBF);
    // The law has the engine run where there is a booster.
    let at_reserve = Press {
        is_boosted: true,
        ..press(reserve)
    };
    let estimate = if question.readings.is_empty() {
        None
    } else {
        Some(mechanism.air_from_readings(&question.readings)?)
    };
    // Where no amount of air fits, nothing says where to look for it.
    let trials = estimate
        .as_ref()
        .filter(|estimate| !estimate.is_contradiction)
        .map(|estimate| trials(&mechanism, network, control, question, estimate))
        .unwrap_or_default();
    let mut assumptions = mechanism.assumptions.clone();
    if !question.readings.is_empty() {
        assumptions.push(Premise::MeasuredTravel);
    }
    let rough = rough_forces(&question.readings);
    if !rough.is_empty() {
        assumptions.push(Premise::RoughForces(rough));
    }
    Ok(Assessment {
        next: question
            .candidates
            .is_empty()
            .then(|| NextStep::after(estimate.as_ref(), question.symptom.is_some())),
        vehicle: network.layout().name.clone(),
        control: control.name.clone(),
        has_booster: mechanism.booster_ratio.is_some(),
        is_boosted: question.is_boosted && mechanism.booster_ratio.is_some(),
        force: question.force,
        feel: mechanism.feel(&asked),
        worked_by,
        forces: match worked_by {
            WorkedBy::Pedal => FOOT_FORCES_N,
            WorkedBy::HandLever => HAND_FORCES_N,
            WorkedBy::Coupler => COUPLER_FORCES_N,
        }
        .into_iter()
        .map(Force::new::<newton>)
        .map(|force| (force, mechanism.feel(&press(force))))
        .collect(),
        reserve: is_pedal.then(|| (reserve, mechanism.feel(&at_reserve))),
        lost: mechanism.feel_each_lost(&asked),
        air: air.map(|(pocket, name)| (Volume::new::<milliliter>(pocket.volume_ml), name)),
        pumping_gain: pumping_gain(&question.readings),
        trials_force: (!trials.is_empty()).then(|| most_force(&question.readings)),
        trials,
        estimate,
        causes: question
            .symptom
            .map(|symptom| causes(network, control, symptom))
            .unwrap_or_default(),
        sized: question
            .candidates
            .iter()
            .map(|candidate| mechanism.size(candidate, &asked))
            .collect(),
        capacities: capacities(network),
        assumptions,
        cautions: cautions(question),
    })
}

fn place_air(
    mechanism: &Mechanism,
    control: &Control,
    volume: Volume,
    circuit: Option<&str>,
) -> Result<(AirPocket, String), AssessmentError> {
    let names: Vec<String> = mechanism
        .chambers()
        .map(|chamber| chamber.name.clone())
        .collect();
    let nth = match circuit {
        None => 0,
        Some(circuit) => names
            .iter()
            .position(|name| name == circuit)
            .ok_or_else(|| AssessmentError::UnknownCircuit {
                found: circuit.to_owned(),
                control: control.name.clone(),
                known: names.join(", "),
            })?,
    };
    let pocket = AirPocket {
        chamber: mechanism.places()[nth],
        zone: 0,
        volume_ml: volume.get::<milliliter>(),
    };
    Ok((pocket, names[nth].clone()))
}

/// The trials at the largest force that was read, for the amount that explains the readings best.
fn trials(
    mechanism: &Mechanism,
    network: &Network,
    control: &Control,
    question: &Question,
    estimate: &Estimate,
) -> Vec<Trial> {
    let air = estimate.air.nominal;
    if air <= Volume::default() {
        return Vec::new();
    }
    let press = Press {
        force_n: most_force(&question.readings).get::<newton>(),
        is_boosted: question.is_boosted,
        ..Press::default()
    };
    let is_possible = |name: &str| {
        estimate
            .circuits
            .iter()
            .any(|(circuit, bounds)| circuit == name && bounds.is_some())
    };
    mechanism.trials(network, control, &press, air, &is_possible)
}

fn most_force(readings: &[Reading]) -> Force {
    readings
        .iter()
        .map(|reading| reading.force.nominal)
        .fold(Force::default(), Force::max)
}

/// The forces that nobody measured, each once.
fn rough_forces(readings: &[Reading]) -> Vec<Bounds<Force>> {
    let mut rough: Vec<Bounds<Force>> = Vec::new();
    for force in readings.iter().map(|reading| reading.force) {
        if force.low < force.high && !rough.contains(&force) {
            rough.push(force);
        }
    }
    rough
}

fn pumping_gain(readings: &[Reading]) -> Option<Length> {
    readings
        .iter()
        .filter(|reading| !reading.is_pumped)
        .find_map(|first| {
            let pumped = readings
                .iter()
                .find(|other| other.is_pumped && other.force == first.force)?;
            Some(first.travel - pumped.travel)
        })
}

fn cautions(question: &Question) -> Vec<PedalCaution> {
    let mut all = vec![
        PedalCaution::Model,
        PedalCaution::BeforePressing,
        PedalCaution::Leak,
    ];
    if !question.readings.is_empty() || question.symptom.is_some() {
        all.extend([PedalCaution::Clamps, PedalCaution::Plugs]);
    }
    if !question.candidates.is_empty() {
        all.push(PedalCaution::OtherCylinder);
    }
    all
}
