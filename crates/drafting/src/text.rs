//! How a draft writes figures.

use crate::measures::{Run, Units};

const MM_PER_INCH: f64 = 25.4;
const CM_PER_M: f64 = 100.0;
const MM_PER_M: f64 = 1000.0;

/// Figures in the units of the draft, all of them marked as guesses.
#[derive(Clone, Copy)]
pub(crate) struct Quantities(pub(crate) Units);

impl Quantities {
    pub(crate) fn length(self, run: Run) -> String {
        format!("\"{} ?\"", self.bounded(run))
    }

    pub(crate) fn plain_length(self, run: Run) -> String {
        if run.high - run.low < 1e-9 {
            match self.0 {
                Units::Millimetres => format!("{:.2} m", run.nominal),
                Units::Inches => format!("{:.0} in", run.nominal * MM_PER_M / MM_PER_INCH),
            }
        } else {
            self.bounded(run)
        }
    }

    /// The middle of a run and how far it reaches, outwards to whole centimetres or half inches.
    fn bounded(self, run: Run) -> String {
        let (unit_m, decimals, unit) = match self.0 {
            Units::Millimetres => (1.0 / CM_PER_M, 2, "m"),
            Units::Inches => (0.5 * MM_PER_INCH / MM_PER_M, 1, "in"),
        };
        let middle = (f64::midpoint(run.low, run.high) / unit_m).round();
        let reach = ((run.high / unit_m - middle).max(middle - run.low / unit_m) - 1e-9).ceil();
        let shown = |units: f64| match self.0 {
            Units::Millimetres => units / CM_PER_M,
            Units::Inches => units / 2.0,
        };
        format!(
            "{:.decimals$} {unit} ± {:.decimals$} {unit}",
            shown(middle),
            shown(reach)
        )
    }

    /// A bore or a stroke in millimetres, with its reach.
    pub(crate) fn small_length(self, mm: f64, reach_mm: f64) -> String {
        match self.0 {
            Units::Millimetres => format!("\"{mm} mm ± {reach_mm} mm ?\""),
            Units::Inches => format!(
                "\"{:.2} in ± {:.2} in ?\"",
                mm / MM_PER_INCH,
                reach_mm / MM_PER_INCH
            ),
        }
    }
}

/// A volume in millilitres, with its reach.
pub(crate) fn volume(ml: f64, reach_ml: f64) -> String {
    format!("\"{ml} ml ± {reach_ml} ml ?\"")
}
