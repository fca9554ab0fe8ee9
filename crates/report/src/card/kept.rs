//! What a record keeps beside its checks, in the words of its blanks on paper.

use crate::words::listed;

/// The blanks, as they stand beside each other.
pub const KEPT: [&[&str]; 3] = [
    &["Water before", "sample from", "after", "sample from"],
    &["Bottle", "opened on", "Fluid next due"],
    &["Parts fitted", "Torque tool", "Refused by the owner"],
];

/// Who did it, who checked it, when.
pub const SIGNED: &[&str] = &["Done by", "Checked by", "Date, time"];

/// A row of blanks as a line of text.
pub(crate) fn blanks(names: &[&str]) -> String {
    listed(names, "  ", |name| format!("{name} _______"))
}
