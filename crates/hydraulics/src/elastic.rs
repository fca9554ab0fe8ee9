//! What gives way under pressure: pipe walls and hoses.
//!
//! - [`wall`]: thick tubes of metal;
//! - [`hose`]: flexible hoses, the limits of the law and what is typical.

pub mod hose;
pub mod wall;
