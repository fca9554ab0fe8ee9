//! From the text of a layout file to a hydraulic network.
//!
//! [`load`] reads a layout, says everything that is wrong with it, and builds
//! the [`Network`]: circuits derived from the pipework, the run of every bleed
//! screw, and the fluid in every part with the bounds its tolerances allow.
//!
//! Invariant: circuits and the split come from the pipework alone. What a file
//! declares about them is only compared.
//!
//! # Map
//!
//! From text to structures:
//!
//! - `load`: bytes to network, with all findings; the entrance
//! - `parse`: the structures of the file; `tolerant` reads on where the RON reader refused, and lists every value
//! - `syntax`: the shape of the text, for places and for broken files; `scanner` reads over a `slip`
//! - `file`: the structures as written, one file for each part of the format; `given` for values that may be unreadable
//! - `outline`: every value that a text holds or could hold, with its way, kind and bytes
//! - `writing`: pieces of RON put into somebody else's text
//!
//! From structures to values:
//!
//! - `resolve`: written values to read ones; `reader` for one quantity, `range` for what is plausible, `name` for names, the
//!   others for one kind of part each, with what is assumed
//! - `layout`: the layout with every value read; `words` are the fixed words of the format, `substitute` says what one grade of
//!   fluid means in place of another
//! - `quantity`, `quantity_error`, `number`: `"1.2 m ± 0.1 m"` read or refused
//! - `units`, `spelling`: the units allowed and how they may be written
//! - `pipe_size`: nominal sizes and their bores
//! - `bounds`: a quantity with the corners of its tolerance
//! - `usual`: what is taken where the file is silent
//!
//! From values to the network:
//!
//! - `graph`, `port`: cells that hold fluid and links that join them; which cell the end of a line means
//! - `tree`: shortest ways from every chamber at once
//! - `network`: what the planner reads: each `circuit`, runs and contents, each `screw`, each `dominator`; `split` recognises II,
//!   X, HI, LL and HH
//! - `profile`: heights along a run, high points of one run or of all
//!
//! What is said:
//!
//! - `check`: findings of the pipework, one file for each subject
//! - `finding`, `code`: a finding; the catalogue of codes
//! - `place`, `source`: where something was found; line and column of it
//! - `look`: what a name looks like on a sheet, and characters that cannot be seen
//! - `guess`, `corner`, `trade_word`: the name that was meant: alike, of the same corner of the vehicle, or called otherwise in
//!   the trade

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
mod syntax;
mod trade_word;
mod tree;
mod units;
mod usual;
mod writing;

pub use bounds::{Basis, Bounds, Figure};
pub use check::{USUAL_TORQUE_NM, most_visits};
pub use code::{Code, Severity};
pub use finding::{Finding, Label};
pub use graph::{Cell, CellId, CellKind, Link, LinkId, LinkKind, Owner};
pub use guess::{did_you_mean, is_near, nearest, suggest, ticked};
pub use layout::*;
pub use load::{DEFAULT_SIZE_LIMIT, Loaded, load, load_up_to};
pub use look::{is_invisible, json_escape};
pub use network::{BelowBrake, Circuit, CircuitId, Element, Lower, Network, ScrewId, ScrewPlace};
pub use outline::{Entry, EntryKind, Gap, Presence, outline};
pub use pipe_size::{KNOWN_SIZES, bore_of_size};
pub use place::{PathStep, Place};
pub use profile::{HighPoint, HighPoints, Judged, Profile, ProfilePoint, Spot};
pub use quantity::{is_in_inches, parse_quantity};
pub use quantity_error::QuantityError;
pub use source::Locator;
pub use units::{Quantity, Unit, unit_list};
pub use uom;
pub use usual::Usual;
pub use writing::{behind_last_field, quoted, quoted_with, unquoted};
