//! What the finished pedal should feel like, and how much air a measured travel implies.
//!
//! A layout becomes a [`Mechanism`]: one pedal or lever ([`Control`]) with its cylinders, and behind each chamber the
//! zones between the valves, as plain numbers with bounds. Everything else is asked of that; [`assess`] asks all of it.
//!
//! # The model
//!
//! Formula: `y = f + r x + k F`, `R = F r + min(F r (B - 1), H)`, `p = 10 (R - d) / A`, `x = c + 1000 V(p) / A` until the
//! piston is on its stop; `V(p)` is the sum of all that takes up fluid at that pressure, trapped air included.
//!
//! Symbols: `y` travel of the pedal, `f` free play, `x` travel of the rod, `c` travel that closes the port (mm); `r` ratio
//! of the lever, `B` of the booster; `k` flexing (mm/N); `F` force of the foot, `R` on the rod, `H` the most that the
//! booster adds, `d` what springs and seals take (N); `p` pressure above the atmosphere (bar); `A` area of the piston
//! (mm2); `V` volume (ml).
//!
//! Range: at rest, the pedal held still; one temperature, 20 degC; no leak; pistons move without friction but for `d`.
//! `docs/model.md` has tandem cylinders, balance bars, valves, stops and the estimate from readings.
//!
//! Source: [Limpert2011](crate#sources) for displacements and lever, [Merritt1967](crate#sources) for air under pressure,
//! [FMVSS106](crate#sources) for hoses, [Timoshenko1970](crate#sources) for pipes; the balance of the pistons is derived
//! in `docs/model.md`.
//!
//! Example, one press of a demo vehicle's pedal:
//!
//! ```
//! use bleedwright_pedal::{AirPocket, Choice, Mechanism, Press, controls};
//!
//! let layout = include_bytes!("../../../layouts/curlew.ron");
//! let loaded = bleedwright_network::load(layout);
//! let network = loaded.sound_network().expect("the demo vehicle is sound");
//! let pedal = &controls(network)[0];
//! let mechanism = Mechanism::new(network, pedal);
//! let press = Press { force_n: 300.0, ..Press::default() };
//! let pocket = AirPocket { chamber: (0, 0), zone: 0, volume_ml: 1.0 };
//! let soft = Press { air: vec![pocket], ..press.clone() };
//! let nominal = Choice::nominal();
//! assert!(mechanism.travel_mm(&nominal, &soft) > mechanism.travel_mm(&nominal, &press));
//! ```
//!
//! Invariant: every figure that the layout does not give stands in `mechanism::assumed`, and each one that is used is named in
//! [`Mechanism::assumptions`].
//!
//! Invariant: no amount of air is left out unless readings or unknowns would have to be off by more than 95 in 100 are;
//! an amount that would not show has no upper bound.
//!
//! Invariant: an output of a press rises or falls all the way with each unknown, so that bounds are corners.
//!
//! # Map
//!
//! - `assessment`: all that is asked of a pedal, answered as plain data; the entrance
//! - `mechanism`: lever, booster and cylinders of a control, with bounds, and with one choice of the unknowns
//! - `equilibrium`: where the pistons rest under a force, stops and lost circuits included
//! - `feel`, `output`: travel, pressures and what takes up the fluid; the numbers read off a press, and their corners
//! - `push`: pushes that nobody measured
//! - `estimate`: the air that measured travels imply, best amount and bounds
//! - `profile`, `tangent`: how well one amount explains the readings; travels and their slopes in every unknown
//! - `whereabouts`: how the air may be shared between circuits and behind valves
//! - `trial`: what shutting a place would show
//! - `sizing`: other bores, lever ratios and settings of a balance bar
//! - `symptom`, `cause`: what a symptom points to, most likely first; each cause
//! - `next`: what to do next
//! - `premise`, `caution`: what an answer rests on; what to beware of
//! - `remaining`: what is still braked when a circuit is lost
//!
//! # Sources
//!
//! The keys in square brackets stand with their full references in `docs/references.md`. The keys that this crate
//! uses:
//!
//! \[CFR570\], \[FMVSS106\], \[Gelb1974\], \[Limpert2011\], \[Merritt1967\],
//! \[Pawitan2001\], \[TB9-2300-426\], \[Timoshenko1970\].

mod assessment;
mod cause;
mod caution;
mod equilibrium;
mod estimate;
mod feel;
mod mechanism;
mod next;
mod output;
mod premise;
mod profile;
mod push;
mod remaining;
mod sizing;
mod symptom;
mod tangent;
mod trial;
mod whereabouts;

pub use bleedwright_mechanism::{
    AirPocket, BrakeWear, Capacity, CapacityVerdict, Choice, Control, Curve, Guessed,
    HOSE_PRESSURES_BAR, MasterCylinder, PedalBrake, PedalChamber, PedalHose, Range, Unknown, Zone,
    assumed, capacities, controls,
};

pub use assessment::{Assessment, AssessmentError, Question, assess};
pub use cause::Cause;
pub use caution::PedalCaution;
pub use equilibrium::Press;
pub use estimate::{AirBounds, Estimate, EstimateError, Reading, USUAL_TOLERANCE_MM};
pub use feel::{BrakeFeel, CircuitFeel, Contribution, Feel, OnStop, Taker};
pub use mechanism::{FLEX_FORCE_N, Mechanism};
pub use next::NextStep;
pub use premise::Premise;
pub use push::Push;
pub use remaining::{Remaining, WheelLeft, remaining};
pub use sizing::{Candidate, Sized};
pub use symptom::{Symptom, causes};
pub use trial::{Trial, TrialPlace};
