//! What works the circuits of a pedal, and what each circuit takes up under pressure, as plain numbers with bounds.
//!
//! [`Builder`] makes [`MasterCylinder`]s of the pipework, whose [`PedalChamber`]s have the zones between the valves. A
//! [`SettledChamber`] is one of these with one [`Choice`] of everything [`Unknown`].
//!
//! Formula: `p_1 A_2 = p_2 A_2 + d` for a floating piston, and `V(p)` the sum of all that takes up fluid.
//!
//! Symbols: `p_1`, `p_2` pressures before and behind the piston (bar), `A_2` its area (mm2), `d` what its springs and
//! seals take (N), `V` what the circuit takes up (ml).
//!
//! Range: at rest; the pistons of brakes move without friction. Source: derived in `docs/model.md`; the figures by
//! [FMVSS106](crate#sources) for hoses and [Timoshenko1970](crate#sources) for pipes.
//!
//! Invariant: everything uncertain is a [`Range`] with its [`Unknown`], and [`PedalChamber::for_each_range`] visits every one of
//! a chamber. Every figure that the layout does not give stands in [`assumed`] and is named in what [`Builder::into_assumptions`] gives.
//!
//! # Map
//!
//! - `control`: which cylinders one foot or hand works
//! - `build`, `taker`: from the pipework to cylinders and zones; what takes up fluid in a zone
//! - `chamber`: cylinders, chambers, zones and what takes up fluid, as plain numbers with bounds
//! - `settled`: a chamber with one choice of the unknowns, and what its circuit takes up
//! - `shut`: what a shut circuit takes up of a stroke while a screw of the one beside it is open
//! - `curve`, `swelling`: what a valve does to a pressure; what lines take up
//! - `air`: where trapped air is
//! - `capacity`: whether a compartment holds enough for the linings to wear down
//! - `unknown`: what nobody knows exactly, with its range, and one choice of all
//! - `fluid`: what is known about the fluid
//! - [`assumed`], `guessed`: every guessed figure with its bounds; what was guessed, as facts
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
mod fluid;
mod guessed;
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
pub use fluid::{fluid_state, measured_state, usual_temperature};
pub use guessed::Guessed;
pub use settled::{Medium, N_PER_BAR_MM2, SettledChamber, SettledZone, TakenUp};
pub use shut::{ShutCircuits, TakeUp};
pub use taker::piston_area_mm2;
pub use unknown::{Choice, Range, Unknown};
