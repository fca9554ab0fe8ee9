//! What works the circuits of a pedal, and what each circuit takes up under pressure, as plain numbers with bounds.
//!
//! - [`controls`]: which cylinders one foot or hand works;
//! - [`Builder`]: from the pipework to [`MasterCylinder`]s, whose [`PedalChamber`]s have the zones between the valves;
//! - [`SettledChamber`]: a chamber with one [`Choice`] of everything [`Unknown`], and what its circuit takes up;
//! - [`capacities`]: whether a compartment holds enough for the linings to wear down;
//! - [`ShutCircuits`]: what a circuit takes up of a stroke while a screw of the one beside it is open.
//!
//! Formula: `p_1 A_2 = p_2 A_2 + d` for a floating piston, and `V(p)` the sum of all that takes up fluid.
//!
//! Symbols: `p_1`, `p_2` pressures before and behind the piston (bar), `A_2` its area (mm2), `d` what its springs and
//! seals take (N), `V` what the circuit takes up (ml).
//!
//! Range: at rest; the pistons of brakes move without friction. Source: derived in `docs/model.md`; the figures by
//! [FMVSS106](crate#sources) for hoses and [Timoshenko1970](crate#sources) for pipes.
//!
//! Invariant: everything uncertain is a [`Range`] with its [`Unknown`], and every figure that the layout does not give
//! stands in [`assumed`] and is named in what [`Builder::into_assumptions`] gives.
//!
//! # Sources
//!
//! The keys in square brackets stand with their full references in `docs/references.md`. The keys that this crate
//! uses:
//!
//! \[FMVSS105\], \[FMVSS106\], \[FMVSS135\], \[Timoshenko1970\].

mod air;
pub mod assumed;
mod build;
mod capacity;
mod chamber;
mod control;
mod curve;
mod settled;
mod shut;
mod swelling;
mod taker;
mod unknown;

pub use air::{AirPocket, of_chamber};
pub use build::{Builder, plain};
pub use capacity::{BrakeWear, Capacity, CapacityVerdict, capacities};
pub use chamber::{HOSE_PRESSURES_BAR, MasterCylinder, PedalBrake, PedalChamber, PedalHose, Zone};
pub use control::{Control, controls};
pub use curve::Curve;
pub use settled::{Medium, N_PER_BAR_MM2, SettledChamber, SettledZone, TakenUp};
pub use shut::{ShutCircuits, TakeUp};
pub use taker::piston_area_mm2;
pub use unknown::{Choice, Range, Unknown};
