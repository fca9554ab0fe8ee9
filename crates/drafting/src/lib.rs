//! Layout files as text: drafted from a few measurements ([`draft()`]), or with single values set anew ([`set_values`]).
//!
//! Invariant: what is written here is read by the loader without an error before it is handed out. A text that was changed
//! has no error that it did not have, and no value but those asked for differs.
//!
//! # Map
//!
//! - `measures`: what was measured or seen, and what is taken where nothing is known
//! - `circuit`: the circuits of a split and their wheels; which vehicles cannot be
//! - `route`: where parts sit, and how long a pipe between two of them is
//! - `pipework`: joints and lines of a circuit, from its chamber to its brakes
//! - `draft`, `text`: the file as text, its comments, its figures with `?`
//! - `edit`: single values set, every other byte kept: `name` finds them by words, `token` writes them as the file wants them,
//!   `splice` puts them in, `compare` looks for new errors and other changes

mod circuit;
mod draft;
mod edit;
mod measures;
mod pipework;
mod route;
mod text;

pub use circuit::Impossible;
pub use draft::{Draft, draft};
pub use edit::{Change, EditError, Edited, NamedValue, Structural, named_values, set_values};
pub use measures::{
    FirstWheels, Half, MasterKind, Measures, PipeSort, RearAxle, Units, WheelBrake,
};
