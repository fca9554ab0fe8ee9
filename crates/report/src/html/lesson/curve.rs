//! Air, or old fluid, left against strokes: one line for each side.

use crate::lesson::LessonSide;
use crate::text::letter;
use crate::words::listed;
use bleedwright_drawing::chart::{Chart, Series, chart};
use bleedwright_drawing::svg_for_page;
use maud::{Markup, PreEscaped, html};
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// Reads the line of one side.
type Read = fn(&LessonSide<'_>) -> Vec<(f64, f64)>;

pub(super) fn section(sides: &[LessonSide<'_>]) -> Markup {
    let has_air = sides
        .iter()
        .any(|side| side.side.outcome.air_at_start.get::<milliliter>() > 0.0);
    let (what, series): (&str, Read) = if has_air {
        ("Air left", air)
    } else {
        ("Old fluid left", old)
    };
    let across = if has_air {
        "strokes, or fiftieths of a step without strokes"
    } else {
        "steps done"
    };
    let picture = chart(&Chart {
        title: format!(
            "{what} against {}",
            if has_air { "strokes" } else { "steps" }
        ),
        description: description(what, sides, series),
        across: across.to_owned(),
        upward: format!("{}, ml", what.to_lowercase()),
        series: sides
            .iter()
            .enumerate()
            .map(|(nth, side)| Series {
                name: letter(nth).to_string(),
                points: series(side),
                band: Vec::new(),
            })
            .collect(),
        ..Chart::default()
    });
    html! {
        section aria-labelledby="curve" {
            h2 id="curve" { (what) }
            div class="picture chart" tabindex="0" role="region" aria-label={ (what) "; scrolls sideways" } {
                (PreEscaped(svg_for_page(&picture)))
            }
        }
    }
}

fn description(what: &str, sides: &[LessonSide<'_>], series: Read) -> String {
    let ends = listed(sides.iter().enumerate(), "; ", |(nth, side)| {
        let points = series(side);
        let at = |point: Option<&(f64, f64)>| point.map_or(0.0, |(_, ml)| *ml);
        format!(
            "{}: from {:.1} ml to {:.1} ml",
            letter(nth),
            at(points.first()),
            at(points.last())
        )
    });
    format!("{what}. {ends}.")
}

fn air(side: &LessonSide<'_>) -> Vec<(f64, f64)> {
    let points = side.side.outcome.curve.iter();
    points
        .map(|point| (point.strokes as f64, point.air.get::<milliliter>()))
        .collect()
}

fn old(side: &LessonSide<'_>) -> Vec<(f64, f64)> {
    let scenes = side.side.scenes.iter();
    scenes
        .map(|scene| {
            let old: Volume = scene.held.iter().filter_map(|held| held.old).sum();
            (scene.step as f64, old.get::<milliliter>())
        })
        .collect()
}
