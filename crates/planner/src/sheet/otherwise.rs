//! What to do when something goes otherwise, where it can.

use super::Sheet;
use crate::options::{Method, Purpose};
use crate::plan::Otherwise;

pub(crate) fn otherwise(sheet: &Sheet<'_, '_>) -> Vec<Otherwise> {
    let is_open_to_the_foot = sheet.has_brakes();
    let list = [
        (Otherwise::ScrewStuck, true),
        (Otherwise::NothingComes, true),
        (Otherwise::RanDry, sheet.method() != Method::Reverse),
        (Otherwise::WrongFluid, sheet.purpose() != Purpose::Fill),
        (Otherwise::Sinks, is_open_to_the_foot),
        (Otherwise::StaysSoft, is_open_to_the_foot),
        (Otherwise::ClutchDrags, sheet.has_clutch()),
    ];
    list.into_iter()
        .filter_map(|(what, can_be)| can_be.then_some(what))
        .collect()
}
