//! An answer about a pedal in words, one file for each kind of fact.

mod cause;
mod caution;
mod premise;
mod taker;

pub(crate) use cause::cause_and_check;
pub(crate) use caution::caution_text;
pub(crate) use premise::{premise_texts, usual_texts};
pub(crate) use taker::taker_text;
