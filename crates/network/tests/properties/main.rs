//! What must hold for every file, sound or spoilt.

mod file_order;
mod spoilt;

use proptest::prelude::*;

/// The demo vehicles of the repository: among them every kind of part.
const LAYOUTS: [&str; 10] = [
    include_str!("../../../../layouts/avocet.ron"),
    include_str!("../../../../layouts/curlew.ron"),
    include_str!("../../../../layouts/dunlin.ron"),
    include_str!("../../../../layouts/godwit.ron"),
    include_str!("../../../../layouts/lapwing.ron"),
    include_str!("../../../../layouts/plover.ron"),
    include_str!("../../../../layouts/redshank.ron"),
    include_str!("../../../../layouts/ruff.ron"),
    include_str!("../../../../layouts/turnstone.ron"),
    include_str!("../../../../layouts/whimbrel.ron"),
];

fn layouts() -> impl Strategy<Value = &'static str> {
    prop::sample::select(&LAYOUTS[..])
}

/// A thousand cases of each property; a case that fails is printed whole.
fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 1000,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}
