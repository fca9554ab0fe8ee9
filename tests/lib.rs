//! Synthetic layouts shared by tests and benchmarks.
//!
//! They are the text of a layout file, grown to any number of parts. Nothing
//! in them is random: the same size gives the same text. Lengths vary from
//! line to line, so that some runs tie within their tolerances and others do
//! not, as in a real file.

mod synthetic;

pub use synthetic::{block_star, caliper_chain, short_circuits, tee_chain, tee_tree, union_chain};
