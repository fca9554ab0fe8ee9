//! What was drawn to scale, on a sheet: how much of it there may be, and what the circuits and the scale are.

use super::super::bodies::group;
use super::super::frame::Frame;
use super::super::measure::LETTER;
use super::super::pen::Pen;
use super::super::reservoir::feed;
use super::super::sheet::{Body, MARGIN, Sheet};
use super::super::{LEAST_WIDTH, legend};
use super::feeds::Feed;
use super::stand::{Drawn, Stand};
use crate::ink::{Ink, Stroke};
use crate::picture::{Anchor, Group, Mark, Path, Point, Text};

/// A sheet of A4 with margins of a centimetre, on which letters of [`LETTER`] are shrunk to 2.4 mm.
const SHEET: [f64; 2] = [190.0 * LETTER / 2.4, 277.0 * LETTER / 2.4];
/// How wide the circuits are at most inside or beside the drawing; they stand above it where neither can be.
const BESIDE: f64 = 90.0;
/// Between the drawing and what is beside or above it.
const GAP: f64 = 5.0;
/// From one place for the circuits to the next.
const STEP: f64 = 3.0;
/// How high the bar with the scale is.
const BAR: f64 = 6.5;
/// The bar is at most so long.
const LONGEST_BAR: f64 = 50.0;
/// Lengths of a bar, in metres.
const BARS: [(f64, &str); 7] = [
    (5.0, "5 m"),
    (2.0, "2 m"),
    (1.0, "1 m"),
    (0.5, "0.5 m"),
    (0.2, "0.2 m"),
    (0.1, "0.1 m"),
    (0.05, "0.05 m"),
];

/// Whether a drawing around this frame may fit.
pub(super) fn has_room(sheet: &Sheet<'_, '_>, frame: Frame) -> bool {
    let height = frame.height() + sheet.height_around(LEAST_WIDTH, &words(1.0, false, false));
    frame.width() + 2.0 * MARGIN <= SHEET[0] && height <= SHEET[1]
}

/// The body of the picture and the words about its scale; nothing where it does not fit on the sheet.
pub(super) fn body(
    pen: &Pen<'_, '_>,
    sheet: &Sheet<'_, '_>,
    scale: f64,
    stand: &Stand<'_, '_, '_>,
    drawn: &Drawn,
) -> Option<(Body, Vec<String>)> {
    let arrangement = pen.arrangement;
    let network = arrangement.network;
    let has_reservoirs = drawn.signs.len() > arrangement.bodies.len();
    let words = words(scale, has_reservoirs, stand.has_riders());
    let (width, height) = (drawn.frame.width(), drawn.frame.height());
    let needed = legend::circuits_width(network).clamp(LONGEST_BAR + 16.0, BESIDE);
    let (_, circuits) = legend::circuits(network, Point::default(), needed);
    let page = Frame {
        right: drawn.frame.right.max(drawn.frame.left + LEAST_WIDTH),
        ..drawn.frame
    };
    let inside = free_place(page, &drawn.frames, needed, circuits + BAR);
    let is_beside = width + GAP + needed + 2.0 * MARGIN <= SHEET[0];
    // The drawing keeps its own measures; the circuits are put into it, beside it or above it.
    let right = match inside {
        None if is_beside => LEAST_WIDTH.max(width + GAP + needed),
        _ => LEAST_WIDTH.max(width),
    };
    let middle = (right - width) / 2.0;
    let (corner, room, left, top) = match inside {
        Some(place) => {
            let (dx, dy) = (-drawn.frame.left, -drawn.frame.top);
            (place.moved(dx, dy), needed, 0.0, 0.0)
        }
        None if is_beside => {
            let room = right - width - GAP;
            (Point::new(width + GAP, 0.0), room, 0.0, 0.0)
        }
        None => (Point::default(), right, middle, circuits + BAR + GAP),
    };
    let bottom = (top + height).max(circuits + BAR) + GAP;
    let height = bottom + sheet.height_around(right, &words);
    if right + 2.0 * MARGIN > SHEET[0] || height > SHEET[1] {
        return None;
    }
    let (legends, _) = legend::circuits(network, corner, room);
    let mut marks = vec![legends, bar(corner.moved(0.0, circuits + 2.5), scale)];
    let (dx, dy) = (left - drawn.frame.left, top - drawn.frame.top);
    marks.extend(
        drawing(pen, sheet, stand.feeds(), drawn)
            .into_iter()
            .map(|mark| mark.moved(dx, dy)),
    );
    let body = Body {
        marks,
        top: 0.0,
        bottom,
        right,
    };
    Some((body, words))
}

/// The upper left corner of a rectangle on which nothing was drawn, as near to the middle of the frame as can be.
fn free_place(frame: Frame, drawn: &[Frame], width: f64, height: f64) -> Option<Point> {
    let middle = frame.centre().moved(-width / 2.0, -height / 2.0);
    let steps = |room: f64| (room / 2.0 / STEP).floor().max(0.0) as i32;
    let (across, down) = (steps(frame.width() - width), steps(frame.height() - height));
    let mut best: Option<(i32, Point)> = None;
    for row in -down..=down {
        for column in -across..=across {
            let distance = row.abs() + column.abs();
            if best.is_some_and(|(other, _)| other <= distance) {
                continue;
            }
            let place = middle.moved(f64::from(column) * STEP, f64::from(row) * STEP);
            let ends = [place, place.moved(width, height)];
            let room = Frame::around(&ends).grown(GAP / 2.0);
            let is_inside = Frame::around(&ends).with(frame) == frame;
            if is_inside && drawn.iter().all(|other| !room.overlaps(other)) {
                best = Some((distance, place));
            }
        }
    }
    best.map(|(_, place)| place)
}

fn drawing(pen: &Pen<'_, '_>, sheet: &Sheet<'_, '_>, feeds: &[Feed], drawn: &Drawn) -> Vec<Mark> {
    let arrangement = pen.arrangement;
    let network = arrangement.network;
    let mut marks = Vec::new();
    let routes = || drawn.routes.iter().enumerate();
    marks.extend(routes().filter_map(|(wire, route)| arrangement.band(wire, route)));
    marks.extend(routes().map(|(wire, route)| arrangement.line(wire, route)));
    for (found, way) in feeds.iter().zip(&drawn.feeds) {
        if let Some((reservoir, compartment)) = found.intake.compartment {
            let compartment = &network.layout().reservoirs[reservoir].compartments[compartment];
            marks.push(feed(compartment, &found.intake, way));
        }
    }
    let (bodies, reservoirs) = drawn.signs.split_at(arrangement.bodies.len());
    marks.extend(reservoirs.iter().flat_map(|sign| sign.marks.clone()));
    let mut names = drawn.names.iter().peekable();
    for (body, sign) in bodies.iter().enumerate() {
        let mut own = sign.marks.clone();
        while let Some(name) = names.next_if(|name| name.sign == body) {
            own.extend(name.marks.clone());
        }
        marks.push(group(arrangement, body, own));
    }
    if sheet.has_tables {
        marks.extend(routes().map(|(wire, route)| arrangement.tag(wire, route)));
    }
    marks
}

/// What the legend says of the scale.
fn words(scale: f64, has_reservoirs: bool, has_riders: bool) -> Vec<String> {
    let mut words = vec![
        format!("centres of symbols to scale 1:{scale:.0}"),
        "Sizes of symbols and ways of lines are not to scale".to_owned(),
    ];
    if has_reservoirs {
        words.push("Reservoirs stand beside their cylinders".to_owned());
    }
    if has_riders {
        words.push("What is screwed straight on stands beside what carries it".to_owned());
    }
    words
}

/// A length of the vehicle as it is in the picture.
fn bar(corner: Point, scale: f64) -> Mark {
    let mm = |metres: f64| metres * 1000.0 / scale;
    let fitting = BARS.iter().find(|(metres, _)| mm(*metres) <= LONGEST_BAR);
    let (metres, name) = fitting.unwrap_or(&BARS[BARS.len() - 1]);
    let (from, to) = (corner, corner.moved(mm(*metres), 0.0));
    let stroke = Stroke::solid(Ink::BLACK, 0.3);
    let mut marks: Vec<Mark> = vec![Path::line(&[from, to], stroke).into()];
    for end in [from, to] {
        let tick = [end.moved(0.0, -1.0), end.moved(0.0, 1.0)];
        marks.push(Path::line(&tick, stroke).into());
    }
    let text = format!("{name}, 1:{scale:.0}");
    let text = Text::new(to.moved(2.0, 0.95), LETTER, &text).anchored(Anchor::Start);
    marks.push(text.into());
    Group {
        class: "scale",
        name: String::new(),
        circuit: None,
        title: None,
        marks,
    }
    .into()
}
