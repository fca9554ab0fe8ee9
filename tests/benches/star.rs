//! One circuit whose brakes all hang on one part.

use super::Lists;

/// A layout of `parts` parts: one block behind one single cylinder, with a
/// caliper at each of its lines.
pub fn block_star(parts: usize) -> String {
    let mut lists = Lists::default();
    lists.add_cylinder("cylinder");
    lists.add_junction("block", "block");
    lists.add_pipe("cylinder", "block", 0);
    for nth in 1..parts {
        let caliper = format!("caliper {nth}");
        lists.add_caliper(&caliper, nth);
        lists.add_pipe("block", &caliper, nth);
    }
    lists.into_layout("Dotterel, one block")
}
