//! What gives way under pressure: pipe walls, hoses, fluid, air.
//!
//! - [`wall`]: thick tubes of metal;
//! - [`hose`]: flexible hoses, the limits of the law and what is typical;
//! - [`modulus`]: fluid, vessel and air together.

pub mod hose;
pub mod modulus;
pub mod wall;
