//! Drafts from a few measurements: against the hand-written vehicles, and for every combination of words.

mod combinations;
mod dialogue;
mod vehicles;
