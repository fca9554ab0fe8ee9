//! Layout files as text: drafted from a few measurements, or with single values set anew.
//!
//! - [`set_values`]: single values of a text, every other byte kept;
//! - [`draft()`]: a whole file from [`Measures`], by the routing rule of `route`.
//!
//! Invariant: what is written here is read by the loader without an error before it is handed out.
//!
//! Invariant: nothing here reads files, clocks or the environment, and nothing prints.

mod circuit;
mod draft;
mod edit;
mod measures;
mod pipework;
mod route;
mod text;

pub use draft::{Draft, Impossible, draft};
pub use edit::{Change, EditError, Edited, NamedValue, Structural, named_values, set_values};
pub use measures::{
    FirstWheels, Half, MasterKind, Measures, PipeSort, RearAxle, Units, WheelBrake,
};
