//! Marks on a page of the file.

use crate::font::Fonts;
use crate::lines::Line;
use crate::mark::{Ink, Mark};
use crate::picture;
use krilla::color::luma;
use krilla::geom::{Path, PathBuilder, Point, Rect};
use krilla::paint::{Fill, Paint, Stroke};
use krilla::surface::Surface;
use krilla::text::{GlyphId, KrillaGlyph};

/// Draws a mark whose block begins at `origin`.
pub(crate) fn paint(surface: &mut Surface<'_>, mark: &Mark<'_>, origin: (f32, f32), fonts: &Fonts) {
    let place = |(x, y): (f32, f32)| (origin.0 + x, origin.1 + y);
    match mark {
        Mark::Text { at, em, ink, line } => {
            set_ink(surface, grey(*ink));
            write(surface, line, place(*at), *em, fonts);
        }
        Mark::Rule { from, to, width } => {
            surface.set_fill(None);
            surface.set_stroke(Some(stroke(*width)));
            draw(surface, polygon(&[place(*from), place(*to)], false));
        }
        Mark::Area {
            corner,
            size,
            outline,
            fill,
        } => {
            surface.set_fill(fill.map(|ink| filled(grey(ink))));
            surface.set_stroke(outline.map(stroke));
            let (x, y) = place(*corner);
            draw(surface, rectangle(x, y, size.0, size.1));
        }
        Mark::Triangle { corner, side, ink } => {
            surface.set_fill(Some(filled(grey(*ink))));
            surface.set_stroke(None);
            let (x, y) = place(*corner);
            let corners = [(x + side / 2.0, y), (x + side, y + side), (x, y + side)];
            draw(surface, polygon(&corners, true));
        }
        Mark::Picture { picture, at, scale } => {
            picture::paint(surface, picture, place(*at), *scale, fonts);
        }
    }
}

/// Writes a line of text in the ink that is set.
pub(crate) fn write(
    surface: &mut Surface<'_>,
    line: &Line,
    at: (f32, f32),
    em: f32,
    fonts: &Fonts,
) {
    for (source, start, run) in line.runs() {
        let glyphs: Vec<KrillaGlyph> = run
            .iter()
            .map(|placed| KrillaGlyph {
                glyph_id: GlyphId::new(placed.glyph.id),
                text_range: placed.bytes.clone(),
                x_advance: placed.glyph.advance,
                x_offset: 0.0,
                y_offset: 0.0,
                y_advance: 0.0,
                location: None,
            })
            .collect();
        let start = Point::from_xy(at.0 + start * em, at.1);
        surface.draw_glyphs(start, &glyphs, fonts.font(source), &line.text, em, false);
    }
}

/// Sets the ink for text.
pub(crate) fn set_ink(surface: &mut Surface<'_>, paint: Paint) {
    surface.set_fill(Some(filled(paint)));
    surface.set_stroke(None);
}

pub(crate) fn draw(surface: &mut Surface<'_>, path: Option<Path>) {
    // No path comes of places that are all the same; nothing would be seen of it.
    if let Some(path) = path {
        surface.draw_path(&path);
    }
}

pub(crate) fn filled(paint: Paint) -> Fill {
    Fill {
        paint,
        ..Fill::default()
    }
}

fn stroke(width: f32) -> Stroke {
    Stroke {
        paint: grey(Ink::Black),
        width,
        ..Stroke::default()
    }
}

fn grey(ink: Ink) -> Paint {
    let lightness = match ink {
        Ink::Black => 0,
        Ink::Pale => 232,
        Ink::White => 255,
    };
    luma::Color::new(lightness).into()
}

fn polygon(places: &[(f32, f32)], is_closed: bool) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let (first, rest) = places.split_first()?;
    builder.move_to(first.0, first.1);
    for (x, y) in rest {
        builder.line_to(*x, *y);
    }
    if is_closed {
        builder.close();
    }
    builder.finish()
}

fn rectangle(x: f32, y: f32, width: f32, height: f32) -> Option<Path> {
    let mut builder = PathBuilder::new();
    builder.push_rect(Rect::from_xywh(x, y, width, height)?);
    builder.finish()
}
