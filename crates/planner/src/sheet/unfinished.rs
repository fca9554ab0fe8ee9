//! Screws that the user left out: the vehicle is not driven before they are bled.

use super::Sheet;
use crate::options::Options;
use crate::request::Request;
use crate::scope::Scope;
use bleedwright_network::ScrewId;
use std::collections::BTreeSet;

/// The screws left out that are in scope, by name.
pub(super) fn left_out<'n>(sheet: &Sheet<'_, 'n>) -> BTreeSet<&'n str> {
    let request = sheet.request;
    if request.skip.is_empty() {
        return BTreeSet::new();
    }
    // What would be opened if nothing were left out. Whatever is found on the
    // way was found before.
    let network = request.network;
    let all = Options {
        skip: Vec::new(),
        ..request.options.clone()
    };
    let mut findings = Vec::new();
    let request_of_all = Request::new(network, &all, &mut findings);
    let scope = Scope::new(&request_of_all, &mut findings);
    let is_left_out =
        |screw: &&ScrewId| request.skip.contains(screw) && !request.done.contains(screw);
    let screws = scope.screws.iter().filter(is_left_out);
    screws
        .map(|screw| network.screw(*screw).id.as_str())
        .collect()
}
