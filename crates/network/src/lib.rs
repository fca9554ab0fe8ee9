//! From the text of a layout file to a hydraulic network.
//!
//! [`load`] reads a layout, says everything that is wrong with it, and builds
//! the [`Network`]: circuits derived from the pipework, the run of every bleed
//! screw, and the fluid in every part with the bounds its tolerances allow.
//!
//! Invariant: nothing in this crate reads files, clocks or the environment,
//! and nothing prints.
//!
//! Invariant: circuits and the split come from the pipework alone. What a file
//! declares about them is only compared.

mod bounds;
mod check;
mod code;
mod corner;
mod file;
mod finding;
mod graph;
mod guess;
mod layout;
mod load;
mod look;
mod network;
mod number;
mod outline;
mod parse;
mod pipe_size;
mod place;
mod port;
mod profile;
mod quantity;
mod quantity_error;
mod resolve;
mod source;
mod spelling;
mod split;
mod syntax;
mod trade_word;
mod tree;
mod units;
mod writing;

pub use bounds::{Basis, Bounds, Figure};
pub use check::{USUAL_TORQUE_NM, most_visits};
pub use code::Code;
pub use finding::{Finding, Label, Severity};
pub use graph::{Cell, CellId, CellKind, Link, LinkId, LinkKind, Owner};
pub use guess::{is_near, nearest, suggest};
pub use layout::*;
pub use load::{DEFAULT_SIZE_LIMIT, Loaded, load, load_up_to};
pub use look::{is_invisible, json_escape};
pub use network::{BelowBrake, Circuit, CircuitId, Element, Lower, Network, ScrewId, ScrewPlace};
pub use outline::{Entry, EntryKind, Gap, Standing, outline};
pub use pipe_size::{KNOWN_SIZES, bore_of_size};
pub use place::{Place, Step};
pub use profile::{HighPoint, HighPoints, Judged, Profile, ProfilePoint, Spot};
pub use quantity::{is_in_inches, parse_quantity};
pub use quantity_error::QuantityError;
pub use source::Locator;
pub use units::{Quantity, Unit, unit_list};
pub use writing::{behind_last_field, quoted, unquoted};
