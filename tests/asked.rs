//! Options of a plan of which one thing is asked for.

use bleedwright_planner::{Method, Options, Purpose};

/// Where these parts or lines were opened.
pub(crate) fn opening(names: &[&str]) -> Options {
    Options {
        opened: names.iter().map(|&name| name.to_owned()).collect(),
        ..Options::default()
    }
}

pub(crate) fn by(method: Method) -> Options {
    Options {
        method,
        ..Options::default()
    }
}

pub(crate) fn with_purpose(purpose: Purpose) -> Options {
    Options {
        purpose: Some(purpose),
        ..Options::default()
    }
}
