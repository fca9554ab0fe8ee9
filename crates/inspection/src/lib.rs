//! Whether the fluid is fit, and the checks after the work: limits with their sources, verdicts, the record of what was
//! measured.
//!
//! Invariant: no verdict is good on missing data. What was not measured is not checked, which is a state of its own, of
//! each check and of the whole.
//!
//! Invariant: [`set_readings`] changes one value in the text of a record and no other byte of it.
//!
//! # Map
//!
//! - [`fluid`]: the fluid in the car and the new bottle. `judgement` is the answer, `subject` what each item of it is about,
//!   `verdict` what it says, `reason` and `bottle_reason` why; `reading` what was read or is refused, `car`, `mixture` and `bottle`
//!   item by item, `limits` those of the grades, `trade` the rules without a law; `estimate` makes a boiling point of water by `curve` and `saturation`
//! - [`record`]: what somebody wrote down. `entry` is what may stand in a field, `measured` a quantity, `slot` a field from
//!   outside, `form` all of them; `scan`, `quoted` and `tree` take the text apart, `read` and `write` turn it into a record and
//!   back; `blank` makes one for a job, `marks` keeps what was ticked, `edit` sets one value, `meant` guesses at its name
//! - [`limit`]: against what it is held, and how well each source was known
//! - [`readings`]: the record judged, one file for each subject; `what` was looked at, `found` and `wanted`, with which `remark`;
//!   `sister` holds left against right, `kept` what makes no check
//! - `words`: enumerations with the words and texts of their variants, as tables
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
mod words;

pub use readings::{Check, Group, HandoverSheet, State, judge_record, pedal_reserve_used};
pub use record::{
    Job, Record, SetError, Spelling, blank_record, read_record, reading_names, record_form,
    set_readings,
};
