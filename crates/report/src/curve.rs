//! Air left against strokes: as a table for other programs and as a picture.

use crate::number::two_figures;
use bleedwright_drawing::chart::{Chart, Series, Upright, chart};
use bleedwright_drawing::svg;
use bleedwright_simulation::{CurvePoint, Outcome};
use uom::si::volume::milliliter;

/// The curve as CSV: a line of names, then one line a stroke.
pub fn curve_csv(outcome: &Outcome) -> String {
    let mut text = String::from("step,strokes,out_ml,air_ml\n");
    for point in &outcome.curve {
        text.push_str(&format!(
            "{},{},{:.4},{:.6}\n",
            point.step,
            point.strokes,
            point.out.get::<milliliter>(),
            point.air.get::<milliliter>()
        ));
    }
    text
}

/// The curve as a picture, with a mark where each step ends.
pub fn curve_svg(vehicle: &str, outcome: &Outcome) -> String {
    let points: Vec<(f64, f64)> = outcome
        .curve
        .iter()
        .map(|point| (point.strokes as f64, point.air.get::<milliliter>()))
        .collect();
    let (first, last) = (points.first().copied(), points.last().copied());
    let air = |point: Option<(f64, f64)>| two_figures(point.map_or(0.0, |point| point.1));
    svg(&chart(&Chart {
        title: format!("Air left against strokes: {vehicle}"),
        description: format!(
            "{} ml of air at the start, {} ml after {} strokes.",
            air(first),
            air(last),
            last.map_or(0.0, |point| point.0)
        ),
        across: "strokes; an upright line where each step ends".to_owned(),
        upward: "air in ml".to_owned(),
        series: vec![Series {
            name: String::new(),
            points,
            band: Vec::new(),
        }],
        uprights: step_ends(&outcome.curve)
            .into_iter()
            .map(|end| Upright {
                at: end.strokes as f64,
                label: end.step.to_string(),
            })
            .collect(),
        ..Chart::default()
    }))
}

/// The last point of every step.
fn step_ends(curve: &[CurvePoint]) -> Vec<CurvePoint> {
    let mut ends: Vec<CurvePoint> = Vec::new();
    for point in curve.iter().filter(|point| point.step > 0) {
        match ends.last_mut() {
            Some(last) if last.step == point.step => *last = *point,
            _ => ends.push(*point),
        }
    }
    ends
}
