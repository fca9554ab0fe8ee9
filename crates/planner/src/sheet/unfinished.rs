//! Screws that the user left out: the vehicle is not driven before they are bled.

use super::Sheet;
use std::collections::BTreeSet;

/// The screws left out that are in scope, by name.
pub(super) fn left_out<'n>(sheet: &Sheet<'_, 'n>) -> BTreeSet<&'n str> {
    let network = sheet.network();
    sheet
        .left_out
        .difference(&sheet.request.done)
        .map(|screw| network.screw(*screw).id.as_str())
        .collect()
}
