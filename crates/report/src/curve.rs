//! Air left against strokes: as a table for other programs and as a picture.

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

const WIDTH: f64 = 640.0;
const HEIGHT: f64 = 360.0;
const LEFT: f64 = 64.0;
const RIGHT: f64 = 16.0;
const TOP: f64 = 40.0;
const BOTTOM: f64 = 48.0;

/// The curve as a picture, with a mark where each step ends.
pub fn curve_svg(vehicle: &str, outcome: &Outcome) -> String {
    let strokes = outcome.curve.last().map_or(1, |point| point.strokes.max(1));
    let most_ml = outcome
        .curve
        .iter()
        .map(|point| point.air.get::<milliliter>())
        .fold(0.0, f64::max);
    let top_ml = round_up(most_ml);
    let x = |count: f64| LEFT + count / strokes as f64 * (WIDTH - LEFT - RIGHT);
    let y = |air_ml: f64| HEIGHT - BOTTOM - air_ml / top_ml * (HEIGHT - TOP - BOTTOM);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" \
         font-family=\"sans-serif\" font-size=\"12\" role=\"img\">\n\
         <title>Air left against strokes: {}</title>\n\
         <rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"white\"/>\n\
         <text x=\"{LEFT}\" y=\"20\" font-size=\"14\">Air left against strokes: {}</text>\n",
        escaped(vehicle),
        escaped(vehicle)
    );
    for nth in 0..=4 {
        let air_ml = top_ml * f64::from(nth) / 4.0;
        svg.push_str(&format!(
            "<line x1=\"{LEFT}\" x2=\"{:.1}\" y1=\"{:.1}\" y2=\"{:.1}\" stroke=\"#ccc\"/>\n\
             <text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{}</text>\n",
            WIDTH - RIGHT,
            y(air_ml),
            y(air_ml),
            LEFT - 6.0,
            y(air_ml) + 4.0,
            trimmed(air_ml)
        ));
    }
    for end in step_ends(&outcome.curve) {
        svg.push_str(&format!(
            "<line x1=\"{0:.1}\" x2=\"{0:.1}\" y1=\"{TOP}\" y2=\"{1:.1}\" stroke=\"#999\" \
             stroke-dasharray=\"3 3\"/>\n<text x=\"{0:.1}\" y=\"{2:.1}\" \
             text-anchor=\"middle\">{3}</text>\n",
            x(end.strokes as f64),
            HEIGHT - BOTTOM,
            HEIGHT - BOTTOM + 16.0,
            end.strokes
        ));
    }
    let points: Vec<String> = outcome
        .curve
        .iter()
        .map(|point| {
            format!(
                "{:.1},{:.1}",
                x(point.strokes as f64),
                y(point.air.get::<milliliter>())
            )
        })
        .collect();
    svg.push_str(&format!(
        "<polyline fill=\"none\" stroke=\"black\" stroke-width=\"2\" points=\"{}\"/>\n\
         <text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\">strokes, each step to its mark</text>\n\
         <text x=\"16\" y=\"{:.1}\" text-anchor=\"middle\" \
         transform=\"rotate(-90 16 {:.1})\">air in ml</text>\n</svg>\n",
        points.join(" "),
        (LEFT + WIDTH - RIGHT) / 2.0,
        HEIGHT - 10.0,
        HEIGHT / 2.0,
        HEIGHT / 2.0
    ));
    svg
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

/// The next of 1, 2, 5 times a power of ten, so that a scale has round numbers.
fn round_up(value: f64) -> f64 {
    if value <= 0.0 || value.is_nan() {
        return 1.0;
    }
    let power = 10_f64.powf(value.log10().floor());
    let step = [1.0, 2.0, 4.0, 10.0]
        .into_iter()
        .find(|step| step * power >= value);
    step.unwrap_or(10.0) * power
}

fn trimmed(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn escaped(text: &str) -> String {
    crate::clean(text)
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}
