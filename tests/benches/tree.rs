//! One circuit that branches again and again.

use super::Lists;

/// A layout of `parts` parts: a balanced binary tree of tees behind one single
/// cylinder, with a caliper at every leaf. Parts are numbered level by level,
/// so that part `n` feeds parts `2 n + 1` and `2 n + 2`.
pub fn tee_tree(parts: usize) -> String {
    let mut lists = Lists::default();
    let is_tee = |nth: usize| 2 * nth + 1 < parts;
    let name = |nth: usize| {
        if is_tee(nth) {
            format!("tee {nth}")
        } else {
            format!("caliper {nth}")
        }
    };
    lists.add_cylinder("cylinder");
    for nth in 0..parts {
        let id = name(nth);
        if is_tee(nth) {
            lists.add_junction(&id, "tee");
        } else {
            lists.add_caliper(&id, nth);
        }
        let above = match nth.checked_sub(1) {
            Some(before) => name(before / 2),
            None => "cylinder".to_owned(),
        };
        lists.add_pipe(&above, &id, nth);
    }
    lists.into_layout("Dotterel, one balanced tree")
}
