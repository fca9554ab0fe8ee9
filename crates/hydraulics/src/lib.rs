//! The physics of bleeding hydraulic brakes: pure functions, numbers in, numbers out.
//!
//! A figure that is not known exactly is a [`Known`], with bounds and with a [`Evidence`]: a guess is not a
//! typical value. An equation outside its range answers with [`OutOfRange`] or says so in its result.
//!
//! Every equation is documented in the same order: what it is, formula, symbols with units, range of validity,
//! source key, a runnable example. A line that starts with `ASSUMPTION:` has no published source.
//!
//! Invariant: nothing here keeps state or knows about layouts; all public quantities carry their unit in their type, and
//! no input makes a function panic.
//!
//! # Map
//!
//! The purge model: how much fluid must be pushed through a run of pipework before what leaves its bleed screw is new.
//!
//! - [`laminar`]: one fresh pipe, everything as a function of the ratio of pushed volume to contents
//! - [`tube`]: the same for a run whose first parts were already pushed through by earlier screws
//! - [`tank`]: one perfectly stirred cavity (caliper, wheel cylinder)
//! - [`washout`]: the whole run, tube first, then its cavities, and the push that a residual asks for
//! - [`diffusion`]: what diffusion across the bore does to a tube; its `table` is that of tests/reference/diffusion
//! - [`mixing`], `tee`: the opposite assumption at joints: in a fresh tube; at tees that earlier screws pushed through
//! - `outflow`, `curve`: what leaves a tube by either rule; a monotone curve
//! - `march`, `legendre`, `pace`: the integration behind a washout: the way, one interval, how long the next one is
//!
//! Geometry and strokes as volumes:
//!
//! - [`geometry`]: the area of a bore
//! - [`gas`]: how much of a gas volume a pressure absorbs
//! - [`displacement`]: what a stroke displaces and how far the pedal travels for it
//!
//! Flow, bubbles and the pedal:
//!
//! - [`fluid`]: density, viscosity, surface tension and stiffness of the grades of fluid
//! - [`pipe`], [`screw`]: flow through pipework and through an open bleed screw
//! - `resistance`, `side_by_side`: pressure for each unit of flow; pipes with loops as one resistance
//! - [`bubble`]: which bubbles stand, climb or are carried along
//! - [`elastic`]: what swells under pressure
//! - `elimination`: fewest neighbours first, for the small systems of loops and strokes
//! - [`stroke`]: a network of nodes, branches and pistons, followed in time while the pedal moves
//!
//! Figures and refusals:
//!
//! - `known`: a figure with its bounds and its standing
//! - `root`: where a function passes zero
//! - `error`, `range`: what can be wrong with the numbers given: to the purge model, to the other equations
//!
//! # Sources
//!
//! The keys in square brackets stand with their full references in `docs/references.md`. The keys that this crate
//! uses:
//!
//! \[ASTMD341\], \[Abramowitz1964\], \[Avila2011\], \[Bretherton1961\], \[Bronshtein2007\], \[Dagan1982\],
//! \[Danckwerts1953\], \[Dowell1971\], \[FMVSS106\], \[FMVSS116\], \[Hairer1996\], \[ISO2533\], \[ISO4925\], \[Langhaar1942\],
//! \[Lasaint1974\], \[Levenspiel1999\], \[Limpert2011\], \[Marcotte2024\], \[Merritt1967\], \[Ralston1978\],
//! \[Rosen1924\], \[Sampson1891\], \[Shah1978\], \[Steinebach1995\], \[Timoshenko1970\], \[Tinney1967\],
//! \[Viana2003\], \[White2006\], \[White2011\], \[Zukoski1966\].
//!
//! # Example
//!
//! A run of 40 ml pipework with one 15 ml cavity, to be pushed until at most a twentieth of what leaves is old:
//!
//! ```
//! use bleedwright_hydraulics::{Tank, Tube, Washout};
//! use uom::si::f64::{Ratio, Volume};
//! use uom::si::{ratio::percent, volume::milliliter};
//!
//! let tube = Tube::fresh(Volume::new::<milliliter>(40.0))?;
//! let cavity = Tank::full_of_old(Volume::new::<milliliter>(15.0))?;
//! let run = Washout::new(tube, vec![cavity], Ratio::new::<percent>(0.0))?;
//! let push = run.push_until(Ratio::new::<percent>(5.0))?;
//! assert!((push.volume.get::<milliliter>() - 112.2).abs() < 0.05);
//! # Ok::<(), bleedwright_hydraulics::PurgeError>(())
//! ```

pub mod bubble;
mod curve;
pub mod diffusion;
pub mod displacement;
pub mod elastic;
mod elimination;
mod error;
pub mod fluid;
pub mod gas;
pub mod geometry;
mod known;
pub mod laminar;
mod legendre;
mod march;
pub mod mixing;
mod outflow;
mod pace;
pub mod pipe;
mod range;
mod resistance;
mod root;
pub mod screw;
mod side_by_side;
pub mod stroke;
pub mod tank;
mod tee;
pub mod tube;
pub mod washout;

pub use diffusion::Diffusion;
pub use error::PurgeError;
pub use known::{Evidence, Known};
pub use laminar::laminar_theta_for;
pub use mixing::fully_mixed_theta_for;
pub use range::OutOfRange;
pub use resistance::HydraulicResistance;
pub use root::rising_root;
pub use side_by_side::{Branch, effective_resistance};
pub use tank::Tank;
pub use tube::{Segment, Tube};
pub use washout::{Push, Washout};
