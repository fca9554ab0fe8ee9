//! Whether tolerances can change the order, and what is worth measuring.

mod corners;
mod demos;
mod worth;
