//! Layout files written and changed by the program.

mod edit;
mod edit_random;
mod edit_refusals;
