//! Whether the fluid is fit, and the checks after the work: limits with their sources, verdicts, the record of what was
//! measured.
//!
//! - [`fluid`]: the fluid in the car and the new bottle;
//! - [`record`]: what somebody wrote down, read from a file and written to one;
//! - [`limit`]: against what it is held, and how well each source was known;
//! - [`readings`]: the record judged, check by check.
//!
//! Invariant: no verdict is good on missing data. What was not measured is not checked, which is a state of its own, of
//! each check and of the whole.
//!
//! Invariant: nothing here reads files, clocks or the environment, and nothing prints.
//!
//! # Sources
//!
//! The keys in square brackets stand with their full references in `docs/references.md`. The keys that this crate
//! uses:
//!
//! \[CFR393\], \[CFR570\], \[FMVSS116\], \[FMVSS135\], \[IAPWS97\], \[ISO4925\], \[ISO8601\],
//! \[MOT\], \[Raoult1887\], \[SAEJ1705\].

pub mod fluid;
pub mod limit;
pub mod readings;
pub mod record;

pub use readings::{Check, Group, HandoverSheet, State, judge_record, pedal_reserve_used};
pub use record::{
    Job, Record, SetError, Spelling, blank_record, read_record, reading_names, record_form,
    set_readings,
};
