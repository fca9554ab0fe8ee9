//! The order of the screws, with a reason for every place in it.

mod certainty;
mod constraint;
mod contest;
mod evidence;
mod given;
mod preference;
mod reason;
mod sequence;
mod standing;

pub(crate) use certainty::certainty;
pub(crate) use constraint::{Constraint, constraints};
pub(crate) use given::{Authority, differences, given_order, violations};
pub(crate) use reason::reasons;
pub(crate) use sequence::{Derived, Visit, derive, pair_for_balance_bars};
