//! One circuit whose parts follow each other in a row.

use super::Lists;

/// A layout of `parts` parts: a row of unions behind one single cylinder, with
/// a caliper at its end. One run passes everything.
pub fn union_chain(parts: usize) -> String {
    let mut lists = Lists::default();
    lists.add_cylinder("cylinder");
    let mut above = "cylinder".to_owned();
    for nth in 1..parts {
        let union = format!("union {nth}");
        lists.add_junction(&union, "union");
        lists.add_pipe(&above, &union, nth);
        above = union;
    }
    lists.add_caliper("caliper", parts);
    lists.add_pipe(&above, "caliper", parts);
    lists.into_layout("Dotterel, one row of unions")
}

/// A layout of `parts` parts: a row of tees behind one single cylinder, with a
/// caliper on each. The runs together pass a quarter of the square of `parts`.
pub fn tee_chain(parts: usize) -> String {
    let mut lists = Lists::default();
    lists.add_cylinder("cylinder");
    let mut above = "cylinder".to_owned();
    for nth in 1..=parts / 2 {
        let tee = format!("tee {nth}");
        lists.add_junction(&tee, "tee");
        lists.add_pipe(&above, &tee, nth);
        let caliper = format!("caliper {nth}");
        lists.add_caliper(&caliper, nth);
        lists.add_pipe(&tee, &caliper, nth + 1);
        above = tee;
    }
    lists.into_layout("Dotterel, one row of tees")
}

/// A layout of `parts` calipers of one wheel, each fed through the one before
/// it. The runs together pass half of the square of `parts`.
pub fn caliper_chain(parts: usize) -> String {
    let mut lists = Lists::default();
    lists.add_cylinder("cylinder");
    let mut above = "cylinder".to_owned();
    for nth in 1..=parts {
        let caliper = format!("caliper {nth}");
        // All of them on one side: an axle is not fed through a brake.
        lists.add_caliper(&caliper, 14 * nth);
        lists.add_pipe(&above, &caliper, nth);
        above = caliper;
    }
    lists.into_layout("Dotterel, one row of calipers")
}
