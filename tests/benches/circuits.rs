//! Many short circuits side by side.

use super::Lists;

/// Calipers behind the block of one circuit.
const CALIPERS: usize = 4;

/// A layout of `parts` parts: circuits that do not touch each other, each a
/// single cylinder, a block and four calipers. The last circuit has fewer
/// calipers where the number does not come out even.
pub fn short_circuits(parts: usize) -> String {
    let mut lists = Lists::default();
    let mut first = 0;
    // A block alone would be a circuit without a screw.
    while first + 1 < parts {
        let circuit = first / (CALIPERS + 1);
        let cylinder = format!("cylinder {circuit}");
        let block = format!("block {circuit}");
        lists.add_cylinder(&cylinder);
        lists.add_junction(&block, "block");
        lists.add_pipe(&cylinder, &block, circuit);
        for nth in first + 1..parts.min(first + 1 + CALIPERS) {
            let caliper = format!("caliper {nth}");
            lists.add_caliper(&caliper, nth);
            lists.add_pipe(&block, &caliper, nth);
        }
        first += CALIPERS + 1;
    }
    lists.into_layout("Dotterel, many short circuits")
}
