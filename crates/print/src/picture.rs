//! A drawing of `bleedwright-drawing` on a page of the file.

use crate::font::Fonts;
use crate::lines::{Line, Span};
use crate::paint::{draw, filled, set_ink, write};
use bleedwright_drawing as drawing;
use bleedwright_drawing::{Anchor, Ink, Mark, Picture, Segment};
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Transform};
use krilla::paint::{LineJoin, Paint, Stroke, StrokeDash};
use krilla::surface::Surface;

/// How far letters may be squeezed before they become smaller instead.
const NARROWEST: f32 = 0.85;

/// How far a quarter of a circle's control points lie from its ends, in radii: 4/3 (√2 - 1).
const QUARTER: f64 = 0.552_284_749_830_793_6;

/// Draws a picture whose upper left corner is at `at`.
pub(crate) fn paint(
    surface: &mut Surface<'_>,
    picture: &Picture,
    at: (f32, f32),
    scale: f32,
    fonts: &Fonts,
) {
    let transform = Transform::from_row(scale, 0.0, 0.0, scale, at.0, at.1);
    surface.push_transform(&transform);
    paint_all(surface, &picture.marks, fonts);
    surface.pop();
}

fn paint_all(surface: &mut Surface<'_>, marks: &[Mark], fonts: &Fonts) {
    for mark in marks {
        match mark {
            Mark::Path(path) => {
                set_paint(surface, path.fill, path.stroke);
                draw(surface, outline(path));
            }
            Mark::Circle(circle) => {
                set_paint(surface, circle.fill, circle.stroke);
                draw(surface, round(circle));
            }
            Mark::Text(text) => paint_text(surface, text, fonts),
            Mark::Group(group) => paint_all(surface, &group.marks, fonts),
        }
    }
}

/// Writes a text in the length that the picture keeps free for it.
fn paint_text(surface: &mut Surface<'_>, text: &drawing::Text, fonts: &Fonts) {
    let span = match text.weight {
        drawing::Weight::Normal => Span::regular(text.text.as_str()),
        drawing::Weight::Bold => Span::bold(text.text.as_str()),
    };
    let line = Line::whole(&span, fonts);
    let (kept, em) = (text.width_mm() as f32, text.size_mm as f32);
    if line.width <= 0.0 || kept <= 0.0 {
        return;
    }
    // Letters are never spread: what is shorter than its place stands where it is held.
    let share = (kept / (line.width * em)).min(1.0);
    let (across, up) = (
        share,
        if share < NARROWEST {
            share / NARROWEST
        } else {
            1.0
        },
    );
    let width = line.width * em * across;
    let left = text.at.x as f32
        - match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => width / 2.0,
            Anchor::End => width,
        };
    surface.push_transform(&Transform::from_row(
        across,
        0.0,
        0.0,
        up,
        left,
        text.at.y as f32,
    ));
    set_ink(surface, coloured(text.ink));
    write(surface, &line, (0.0, 0.0), em, fonts);
    surface.pop();
}

fn set_paint(surface: &mut Surface<'_>, fill: Option<Ink>, stroke: Option<drawing::Stroke>) {
    surface.set_fill(fill.map(|ink| filled(coloured(ink))));
    surface.set_stroke(stroke.map(|stroke| {
        let dashes = stroke.pattern.dashes_mm(stroke.width_mm);
        Stroke {
            paint: coloured(stroke.ink),
            width: stroke.width_mm as f32,
            line_join: LineJoin::Round,
            dash: (!dashes.is_empty()).then(|| StrokeDash {
                array: dashes.into_iter().map(|length| length as f32).collect(),
                offset: 0.0,
            }),
            ..Stroke::default()
        }
    }));
}

fn coloured(ink: Ink) -> Paint {
    let [red, green, blue] = ink.rgb;
    rgb::Color::new(red, green, blue).into()
}

fn outline(path: &drawing::Path) -> Option<Path> {
    let mut builder = PathBuilder::new();
    builder.move_to(path.start.x as f32, path.start.y as f32);
    for segment in &path.segments {
        match segment {
            Segment::Line(to) => builder.line_to(to.x as f32, to.y as f32),
            Segment::Curve(a, b, to) => curve(&mut builder, (a.x, a.y), (b.x, b.y), (to.x, to.y)),
        }
    }
    if path.closed {
        builder.close();
    }
    builder.finish()
}

fn round(circle: &drawing::Circle) -> Option<Path> {
    let (x, y, r) = (circle.centre.x, circle.centre.y, circle.radius_mm);
    let c = r * QUARTER;
    let mut builder = PathBuilder::new();
    builder.move_to((x + r) as f32, y as f32);
    curve(&mut builder, (x + r, y + c), (x + c, y + r), (x, y + r));
    curve(&mut builder, (x - c, y + r), (x - r, y + c), (x - r, y));
    curve(&mut builder, (x - r, y - c), (x - c, y - r), (x, y - r));
    curve(&mut builder, (x + c, y - r), (x + r, y - c), (x + r, y));
    builder.close();
    builder.finish()
}

fn curve(builder: &mut PathBuilder, a: (f64, f64), b: (f64, f64), to: (f64, f64)) {
    builder.cubic_to(
        a.0 as f32,
        a.1 as f32,
        b.0 as f32,
        b.1 as f32,
        to.0 as f32,
        to.1 as f32,
    );
}
