//! Layouts of any size, written as text, for the benchmarks here and the tests.
//!
//! Nothing in them is random: the same size gives the same text. Lengths vary
//! from line to line, so that some runs tie within their tolerances and others
//! do not, as in a real file.

mod chain;
mod circuits;
mod star;
mod tree;

pub use chain::{caliper_chain, tee_chain, union_chain};
pub use circuits::short_circuits;
pub use star::block_star;
pub use tree::tee_tree;

/// The lists of a layout while they are written.
#[derive(Default)]
struct Lists {
    compartments: String,
    cylinders: String,
    parts: String,
    lines: String,
}

impl Lists {
    /// A single cylinder with a compartment of its own.
    fn add_cylinder(&mut self, id: &str) {
        self.compartments.push_str(&format!(
            "(id: \"bottle of {id}\", max: \"260 ml\", min: \"120 ml\", feeds: \"{id}\"),\n"
        ));
        self.cylinders.push_str(&format!(
            "(id: \"{id}\", kind: single(bore: \"23.8 mm\", stroke: \"30 mm\"), \
             pedal_ratio: 4.2),\n"
        ));
    }

    fn add_junction(&mut self, id: &str, kind: &str) {
        self.parts
            .push_str(&format!("(id: \"{id}\", kind: {kind}),\n"));
    }

    /// A caliper with one screw; `nth` chooses wheel and piston. Only a train of
    /// trailers has so many wheels on either side.
    fn add_caliper(&mut self, id: &str, nth: usize) {
        const WHEELS: [&str; 2] = ["trailer_left", "trailer_right"];
        let wheel = WHEELS[nth % WHEELS.len()];
        let bore_mm = 36 + 2 * (nth % 7);
        self.parts.push_str(&format!(
            "(id: \"{id}\", kind: caliper(pistons: [(bore: \"{bore_mm} mm\", \
             extension: \"4 mm ± 1.5 mm\")], dead_volume: \"2 ml ± 0.5 ml\"), wheel: {wheel}, \
             screws: [(id: \"screw of {id}\", at_top: true)]),\n"
        ));
    }

    /// A pipe between two parts, named after the one it leads to; `nth`
    /// chooses its length.
    fn add_pipe(&mut self, from: &str, to: &str, nth: usize) {
        let length_m = 0.4 + 0.07 * (nth % 23) as f64;
        self.lines.push_str(&format!(
            "(id: \"pipe to {to}\", from: \"{from}\", to: \"{to}\", kind: pipe(size: \"3/16 in\", \
             length: \"{length_m:.2} m ± 0.05 m\")),\n"
        ));
    }

    fn into_layout(self, name: &str) -> String {
        format!(
            "(\nformat: 1,\nname: \"{name}\",\nsteering: right,\nfluid: dot4,\n\
             reservoirs: [(id: \"reservoir\", compartments: [\n{}])],\n\
             cylinders: [\n{}],\nparts: [\n{}],\nlines: [\n{}],\n)\n",
            self.compartments, self.cylinders, self.parts, self.lines
        )
    }
}
