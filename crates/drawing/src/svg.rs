//! A picture as SVG: attributes only, so that a page with a strict policy may hold it, and no identifiers, so that a
//! page may hold several.

use crate::ink::{Ink, Stroke};
use crate::lettering::{printable, runs_right_to_left};
use crate::picture::{Anchor, Group, Mark, Path, Picture, Point, Segment, Text, Weight};
use std::fmt::Write;

/// Fonts to look for; each text has its length whichever is found.
const FONTS: &str = "Noto Sans, DejaVu Sans, Liberation Sans, Arial, sans-serif";

/// A picture as a file of its own.
pub fn svg(picture: &Picture) -> String {
    let mut out = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    write_picture(&mut out, picture, " xmlns=\"http://www.w3.org/2000/svg\"");
    out
}

/// A picture as a piece of an HTML page.
pub fn svg_for_page(picture: &Picture) -> String {
    let mut out = String::new();
    write_picture(&mut out, picture, "");
    out
}

fn write_picture(out: &mut String, picture: &Picture, namespace: &str) {
    let (width, height) = (number(picture.width_mm), number(picture.height_mm));
    put(
        out,
        format_args!(
            "<svg{namespace} width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" role=\"img\" \
             font-family=\"{FONTS}\" stroke-linecap=\"butt\" stroke-linejoin=\"round\">\n"
        ),
    );
    put(
        out,
        format_args!("<title>{}</title>\n", escaped(&picture.title)),
    );
    put(
        out,
        format_args!("<desc>{}</desc>\n", escaped(&picture.description)),
    );
    for mark in &picture.marks {
        write_mark(out, mark);
    }
    out.push_str("</svg>\n");
}

fn write_mark(out: &mut String, mark: &Mark) {
    match mark {
        Mark::Path(path) => write_path(out, path),
        Mark::Circle(circle) => {
            put(
                out,
                format_args!(
                    "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"",
                    number(circle.centre.x),
                    number(circle.centre.y),
                    number(circle.radius_mm)
                ),
            );
            write_paint(out, circle.fill, circle.stroke);
            out.push_str("/>\n");
        }
        Mark::Text(text) => write_text(out, text),
        Mark::Group(group) => write_group(out, group),
    }
}

fn write_group(out: &mut String, group: &Group) {
    put(
        out,
        format_args!("<g data-kind=\"{}\"", escaped(group.class)),
    );
    if !group.name.is_empty() {
        put(out, format_args!(" data-name=\"{}\"", escaped(&group.name)));
    }
    if let Some(circuit) = group.circuit {
        put(out, format_args!(" data-circuit=\"{circuit}\""));
    }
    out.push_str(">\n");
    if let Some(title) = &group.title {
        put(out, format_args!("<title>{}</title>\n", escaped(title)));
    }
    for mark in &group.marks {
        write_mark(out, mark);
    }
    out.push_str("</g>\n");
}

fn write_path(out: &mut String, path: &Path) {
    let place = |point: &Point| format!("{} {}", number(point.x), number(point.y));
    put(out, format_args!("<path d=\"M{}", place(&path.start)));
    for segment in &path.segments {
        match segment {
            Segment::Line(to) => put(out, format_args!("L{}", place(to))),
            Segment::Curve(a, b, to) => put(
                out,
                format_args!("C{} {} {}", place(a), place(b), place(to)),
            ),
        }
    }
    out.push_str(if path.closed { "Z\"" } else { "\"" });
    write_paint(out, path.fill, path.stroke);
    out.push_str("/>\n");
}

fn write_paint(out: &mut String, fill: Option<Ink>, stroke: Option<Stroke>) {
    let fill = fill.map_or_else(|| "none".to_owned(), Ink::hex);
    put(out, format_args!(" fill=\"{fill}\""));
    let Some(stroke) = stroke else {
        return;
    };
    put(
        out,
        format_args!(
            " stroke=\"{}\" stroke-width=\"{}\"",
            stroke.ink.hex(),
            number(stroke.width_mm)
        ),
    );
    let dashes: Vec<String> = stroke
        .pattern
        .dashes_mm(stroke.width_mm)
        .into_iter()
        .map(number)
        .collect();
    if !dashes.is_empty() {
        put(
            out,
            format_args!(" stroke-dasharray=\"{}\"", dashes.join(" ")),
        );
    }
}

fn write_text(out: &mut String, text: &Text) {
    if text.text.is_empty() {
        return;
    }
    let turns = runs_right_to_left(&text.text);
    // From right to left the start of a text is its right end.
    let anchor = match (text.anchor, turns) {
        (Anchor::Start, false) | (Anchor::End, true) => "start",
        (Anchor::Middle, _) => "middle",
        (Anchor::End, false) | (Anchor::Start, true) => "end",
    };
    put(
        out,
        format_args!(
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"{anchor}\" fill=\"{}\"",
            number(text.at.x),
            number(text.at.y),
            number(text.size_mm),
            text.ink.hex()
        ),
    );
    if text.weight == Weight::Bold {
        out.push_str(" font-weight=\"bold\"");
    }
    if turns {
        out.push_str(" direction=\"rtl\" unicode-bidi=\"isolate\"");
    }
    put(
        out,
        format_args!(
            " textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\">",
            number(text.width_mm())
        ),
    );
    if let Some(whole) = &text.whole {
        put(out, format_args!("<title>{}</title>", escaped(whole)));
    }
    put(out, format_args!("{}</text>\n", escaped(&text.text)));
}

/// A hundredth of a millimetre is finer than any printer.
fn number(value: f64) -> String {
    let value = if value.is_finite() { value } else { 0.0 };
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

fn escaped(text: &str) -> String {
    printable(text)
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
        .replace('\'', "&#39;")
}

fn put(out: &mut String, what: std::fmt::Arguments<'_>) {
    out.write_fmt(what)
        .expect("a string takes whatever is written to it");
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(text: &str) -> Picture {
        let text = Text::new(Point::new(5.0, 5.0), 3.0, text);
        let group = Group {
            class: "part",
            name: "a \"tee\" & <more>".to_owned(),
            circuit: Some(1),
            title: Some("</title>".to_owned()),
            marks: vec![text.into()],
        };
        Picture {
            width_mm: 40.0,
            height_mm: 10.0,
            title: "<script>".to_owned(),
            description: String::new(),
            marks: vec![group.into()],
        }
    }

    #[test]
    fn whatever_a_name_holds_stays_a_name() {
        let text = svg(&picture("it's <b>\u{7}"));
        assert!(text.contains("<title>&lt;script&gt;</title>"));
        assert!(
            text.contains("data-name=\"a &quot;tee&quot; &amp; &lt;more&gt;\" data-circuit=\"1\"")
        );
        assert!(text.contains(">it&#39;s &lt;b&gt;</text>"), "{text}");
    }

    #[test]
    fn a_page_gets_the_same_marks_without_what_only_a_file_needs() {
        let (file, page) = (svg(&picture("tee")), svg_for_page(&picture("tee")));
        assert!(file.contains("xmlns") && !page.contains("xmlns") && !page.contains("<?xml"));
        let marks = |text: &str| text[text.find("<title>").expect("it has one")..].to_owned();
        assert_eq!(marks(&file), marks(&page));
    }

    /// From right to left the start of a text is its right end, so that the left end, which is held, is its end.
    #[test]
    fn a_text_from_right_to_left_keeps_its_left_end() {
        let text = svg(&picture("\u{5d1}\u{5dc}\u{5dd}"));
        assert!(text.contains("text-anchor=\"end\""));
        assert!(text.contains("direction=\"rtl\" unicode-bidi=\"isolate\""));
    }
}
