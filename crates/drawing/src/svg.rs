//! A picture as SVG: attributes only, so that a page with a strict policy may hold it, and no identifiers, so that a
//! page may hold several.

use crate::ink::{Ink, Stroke};
use crate::lettering::{Weight, printable, runs_right_to_left};
use crate::picture::{Anchor, Group, Mark, Path, Picture, Point, Segment, Text};

/// Fonts to look for; each text has its length whichever is found.
const FONTS: &str = "Noto Sans, DejaVu Sans, Liberation Sans, Arial, sans-serif";

/// A picture as a file of its own.
pub fn svg(picture: &Picture) -> String {
    let drawn = drawn(picture, " xmlns=\"http://www.w3.org/2000/svg\"");
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{drawn}")
}

/// A picture as a piece of an HTML page.
pub fn svg_for_page(picture: &Picture) -> String {
    drawn(picture, "")
}

fn drawn(picture: &Picture, namespace: &str) -> String {
    let (width, height) = (number(picture.width_mm), number(picture.height_mm));
    let (title, description) = (escaped(&picture.title), escaped(&picture.description));
    let mut out = format!(
        "<svg{namespace} width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" role=\"img\" \
         font-family=\"{FONTS}\" stroke-linecap=\"butt\" stroke-linejoin=\"round\">\n\
         <title>{title}</title>\n<desc>{description}</desc>\n"
    );
    write_marks(&mut out, &picture.marks);
    out.push_str("</svg>\n");
    out
}

fn write_marks(out: &mut String, marks: &[Mark]) {
    for mark in marks {
        match mark {
            Mark::Path(path) => write_path(out, path),
            Mark::Circle(circle) => {
                let (x, y) = (number(circle.centre.x), number(circle.centre.y));
                let (r, paint) = (number(circle.radius_mm), paint(circle.fill, circle.stroke));
                *out += &format!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\"{paint}/>\n");
            }
            Mark::Text(text) => write_text(out, text),
            Mark::Group(group) => write_group(out, group),
        }
    }
}

fn write_group(out: &mut String, group: &Group) {
    *out += &format!("<g data-kind=\"{}\"", escaped(group.class));
    if !group.name.is_empty() {
        *out += &format!(" data-name=\"{}\"", escaped(&group.name));
    }
    if let Some(circuit) = group.circuit {
        *out += &format!(" data-circuit=\"{circuit}\"");
    }
    out.push_str(">\n");
    if let Some(title) = &group.title {
        *out += &format!("<title>{}</title>\n", escaped(title));
    }
    write_marks(out, &group.marks);
    out.push_str("</g>\n");
}

fn write_path(out: &mut String, path: &Path) {
    let place = |point: &Point| format!("{} {}", number(point.x), number(point.y));
    *out += &format!("<path d=\"M{}", place(&path.start));
    for segment in &path.segments {
        *out += &match segment {
            Segment::Line(to) => format!("L{}", place(to)),
            Segment::Curve(a, b, to) => format!("C{} {} {}", place(a), place(b), place(to)),
        };
    }
    let close = if path.closed { "Z" } else { "" };
    *out += &format!("{close}\"{}/>\n", paint(path.fill, path.stroke));
}

/// The attributes of an inside and an outline.
fn paint(fill: Option<Ink>, stroke: Option<Stroke>) -> String {
    let fill = fill.map_or_else(|| "none".to_owned(), Ink::hex);
    let mut paint = format!(" fill=\"{fill}\"");
    if let Some(stroke) = stroke {
        let (ink, width) = (stroke.ink.hex(), number(stroke.width_mm));
        paint += &format!(" stroke=\"{ink}\" stroke-width=\"{width}\"");
        let dashes = stroke.pattern.dashes_mm(stroke.width_mm);
        let dashes: Vec<String> = dashes.into_iter().map(number).collect();
        if !dashes.is_empty() {
            paint += &format!(" stroke-dasharray=\"{}\"", dashes.join(" "));
        }
    }
    paint
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
    let [x, y, size, length] = [text.at.x, text.at.y, text.size_mm, text.width_mm()].map(number);
    let ink = text.ink.hex();
    *out += &format!(
        "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" text-anchor=\"{anchor}\" fill=\"{ink}\""
    );
    if text.weight == Weight::Bold {
        out.push_str(" font-weight=\"bold\"");
    }
    if turns {
        out.push_str(" direction=\"rtl\" unicode-bidi=\"isolate\"");
    }
    *out += &format!(" textLength=\"{length}\" lengthAdjust=\"spacingAndGlyphs\">");
    if let Some(whole) = &text.whole {
        *out += &format!("<title>{}</title>", escaped(whole));
    }
    *out += &format!("{}</text>\n", escaped(&text.text));
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

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(text: &str) -> Picture {
        let text = Text::new(Point::new(5.0, 5.0), 3.0, text);
        let group = Group::new("part", vec![text.into()])
            .named("a \"tee\" & <more>")
            .of(Some(1))
            .titled("</title>".to_owned());
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
