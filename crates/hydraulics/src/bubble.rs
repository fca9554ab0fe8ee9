//! Bubbles: which stand still, which climb, which are carried along.
//!
//! - [`eotvos`]: weight against surface tension, and the bore below which a long bubble does not rise;
//! - [`mod@verdict`]: stuck, borderline or climbing, with all that is not known exactly;
//! - [`creep`]: the slow rise just above the threshold;
//! - [`drift`]: the rise in wider bores.
//!
//! Everywhere the gas is taken for weightless and free of viscosity, which is an error of about 1 in 800.

pub mod creep;
pub mod drift;
pub mod eotvos;
pub mod verdict;

pub use verdict::{Slope, Verdict, verdict};

/// Standard gravity in m/s2, [ISO2533](crate#sources).
pub(crate) const GRAVITY_M_S2: f64 = 9.806_65;
