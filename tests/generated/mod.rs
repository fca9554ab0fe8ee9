//! Random but sound layouts, and random plan options that fit them.

mod brake;
mod choices;
mod layout;
mod options;
mod pipework;
mod reservoir;
mod system;
mod unit;

pub(crate) use choices::Choices;
pub(crate) use layout::{Known, Layout};
pub(crate) use options::screws_in_scope;

use bleedwright_network::{Network, Severity, load};
use bleedwright_planner::Options;
use proptest::prelude::*;
use std::fmt;

/// A layout and options for it.
#[derive(Clone)]
pub(crate) struct Case {
    pub(crate) layout: Layout,
    pub(crate) options: Options,
    /// Numbers left for the test itself, such as for shuffling.
    pub(crate) spare: Vec<u16>,
}

impl fmt::Debug for Case {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}\n{:#?}", self.layout, self.options)
    }
}

impl Case {
    fn new(numbers: Vec<u16>, spare: Vec<u16>) -> Self {
        let mut choices = Choices::new(numbers);
        let layout = system::draw(&mut choices);
        let options = options::draw(&mut choices, &layout.known);
        Self {
            layout,
            options,
            spare,
        }
    }

    /// The network of the layout, which must be sound: no error, no small reservoir.
    pub(crate) fn load(&self) -> Network {
        let loaded = load(self.layout.text().as_bytes());
        let unwanted: Vec<_> = loaded
            .findings
            .iter()
            .filter(|finding| finding.severity == Severity::Error || finding.code.text() == "BW314")
            .collect();
        assert!(unwanted.is_empty(), "{unwanted:#?}\n{:?}", self.layout);
        let network = loaded.network;
        network.expect("without an error it is read")
    }
}

/// Layouts with 2 to 24 screws, each with options that give a plan.
pub(crate) fn cases() -> impl Strategy<Value = Case> {
    let numbers = prop::collection::vec(any::<u16>(), 0..700);
    let spare = prop::collection::vec(any::<u16>(), 0..200);
    (numbers, spare).prop_map(|(numbers, spare)| Case::new(numbers, spare))
}
