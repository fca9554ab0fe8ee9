//! Names beside symbols, near them and off everything else.

use super::super::frame::Frame;
use super::super::label;
use super::super::measure::LETTER;
use super::sign::{Facing, Serves, Sign};
use crate::ink::{Ink, Stroke};
use crate::picture::{Anchor, Group, Mark, Path, Point};

/// A name with its place.
#[derive(Clone, Debug)]
pub(super) struct Name {
    pub(super) sign: usize,
    pub(super) marks: Vec<Mark>,
    pub(super) frames: Vec<Frame>,
}

/// A name in one line is at most so long, in two lines each.
const WIDTHS: [(f64, usize); 2] = [(36.0, 1), (22.0, 2)];
/// How far a name may stand from its symbol.
const GAPS: [f64; 3] = [0.7, 2.2, 4.2];
/// How far a name may stand that points at its symbol.
const POINTERS: [f64; 5] = [5.0, 8.0, 11.0, 15.0, 19.0];
/// From a pointer to its name.
const TO_NAME: f64 = 0.5;
/// Between a name and what is not its own.
const CLEAR: f64 = 0.6;
/// Lines keep so far from names.
const LINE_CLEAR: f64 = 1.2;

/// What a name belongs to.
struct Bearer<'s> {
    name: &'s str,
    sign: usize,
    /// The name of a chamber is left out where it has no room: its circuit's colour and name are in the legend.
    is_chamber: bool,
    /// The symbol, or a chamber of it.
    frame: Frame,
    /// The same with its screws.
    reach: Frame,
}

fn bearers(signs: &[Sign]) -> Vec<Bearer<'_>> {
    let mut bearers = Vec::new();
    for (sign, found) in signs.iter().enumerate() {
        bearers.push(Bearer {
            name: &found.name,
            sign,
            is_chamber: false,
            frame: found.frame,
            reach: found.reach(),
        });
        bearers.extend(found.chambers.iter().map(|(name, frame)| Bearer {
            name,
            sign,
            is_chamber: true,
            frame: *frame,
            reach: *frame,
        }));
    }
    bearers
}

/// The names of the first `count` signs and of their chambers; else the sign for one of whose names no place is free.
pub(super) fn names(signs: &[Sign], count: usize) -> Result<Vec<Name>, usize> {
    let bearers = bearers(&signs[..count]);
    let symbols: Vec<Frame> = signs.iter().flat_map(Sign::frames).collect();
    let ports = port_ways(signs);
    let choices: Vec<Vec<Name>> = bearers
        .iter()
        .map(|bearer| choices(bearer, &symbols, &ports))
        .collect();
    // Chambers last, those with the fewest choices first; whoever finds none left comes first the next time.
    let mut order: Vec<usize> = (0..bearers.len()).collect();
    order.sort_by_key(|nth| (bearers[*nth].is_chamber, choices[*nth].len(), *nth));
    let mut last = 0;
    for _ in 0..=bearers.len() {
        match placed(&bearers, &choices, &order) {
            Ok(names) => return Ok(names),
            Err(nth) => {
                last = nth;
                if choices[nth].is_empty() || order[0] == nth {
                    break;
                }
                order.retain(|other| *other != nth);
                order.insert(0, nth);
            }
        }
    }
    Err(bearers[last].sign)
}

fn placed(
    bearers: &[Bearer<'_>],
    choices: &[Vec<Name>],
    order: &[usize],
) -> Result<Vec<Name>, usize> {
    let mut names: Vec<Option<Name>> = vec![None; choices.len()];
    let mut taken: Vec<Frame> = Vec::new();
    for sign in order {
        let free = |name: &&Name| {
            let frames = name.frames.iter();
            frames
                .map(|frame| frame.grown(CLEAR))
                .all(|frame| !taken.iter().any(|other| frame.overlaps(other)))
        };
        let Some(name) = choices[*sign].iter().find(free) else {
            if bearers[*sign].is_chamber {
                continue;
            }
            return Err(*sign);
        };
        taken.extend(&name.frames);
        names[*sign] = Some(name.clone());
    }
    Ok(names.into_iter().flatten().collect())
}

/// Places along which lines leave, with what it costs to stand there.
fn port_ways(signs: &[Sign]) -> Vec<(Point, f64)> {
    let mut ways = Vec::new();
    for port in signs.iter().flat_map(|sign| &sign.ports) {
        let cost = match port.serves {
            Serves::Wire(_) => 9.0,
            // There are others for the same line.
            Serves::Feed(_) | Serves::Cell(_) => 1.5,
        };
        for outward in [1.3, 3.0, 5.0] {
            let (right, down) = match port.facing {
                Facing::Up => (0.0, -outward),
                Facing::Down => (0.0, outward),
                Facing::Left => (-outward, 0.0),
                Facing::Right => (outward, 0.0),
            };
            ways.push((port.at.moved(right, down), cost));
        }
    }
    ways
}

/// Where a name could stand, the best place first.
fn choices(found: &Bearer<'_>, symbols: &[Frame], ports: &[(Point, f64)]) -> Vec<Name> {
    let mut choices: Vec<(f64, Name)> = Vec::new();
    for (most_mm, most_lines) in WIDTHS {
        let lines = label::wrapped(found.name, most_mm, most_lines).len();
        if most_lines > 1 && lines < 2 {
            continue;
        }
        let near = GAPS.into_iter().flat_map(|gap| {
            let places = places(found, lines, gap).into_iter();
            places.map(move |(at, anchor)| (gap, at, anchor, None))
        });
        let far = POINTERS.into_iter().flat_map(|gap| {
            let places = pointing(found, lines, gap).into_iter();
            places.map(move |(at, anchor, from)| (gap + 4.0, at, anchor, Some(from)))
        });
        for (nth, (gap, at, anchor, pointer)) in near.chain(far).enumerate() {
            let mut marks = label::write(found.name, at, anchor, most_mm, most_lines);
            let mut frames: Vec<Frame> = marks
                .iter()
                .filter_map(|mark| match mark {
                    Mark::Text(text) => Some(Frame::of_text(text)),
                    _ => None,
                })
                .collect();
            if let Some(ends) = pointer {
                let line = Path::line(&ends, Stroke::solid(Ink::GREY, 0.2));
                marks.push(Mark::from(Group {
                    class: "pointer",
                    name: String::new(),
                    circuit: None,
                    title: None,
                    marks: vec![line.into()],
                }));
                frames.push(Frame::around(&ends));
            }
            let is_free = frames.iter().all(|frame| {
                let is_off = |other: &Frame| !frame.grown(CLEAR).overlaps(other);
                symbols
                    .iter()
                    .all(|other| is_off(other) || pointer.is_some() && touches(frame, other))
            });
            if is_free {
                let in_the_way = ports.iter().filter(|(place, _)| {
                    frames
                        .iter()
                        .any(|frame| frame.grown(LINE_CLEAR).holds(*place))
                });
                let cost = gap * 1.5
                    + nth as f64 * 0.02
                    + (most_lines - 1) as f64 * 0.8
                    + in_the_way.map(|(_, cost)| cost).sum::<f64>();
                let sign = found.sign;
                choices.push((
                    cost,
                    Name {
                        sign,
                        marks,
                        frames,
                    },
                ));
            }
        }
    }
    choices.sort_by(|a, b| a.0.total_cmp(&b.0));
    choices.into_iter().map(|(_, name)| name).collect()
}

/// Whether a pointer ends at the edge of this symbol.
fn touches(pointer: &Frame, symbol: &Frame) -> bool {
    pointer.width().min(pointer.height()) < 1e-6 && !pointer.overlaps(symbol) && {
        let near = pointer.grown(TO_NAME);
        near.overlaps(symbol)
    }
}

/// Straight away from a symbol: the place of the first base line, and the pointer from the symbol to the name.
fn pointing(bearer: &Bearer<'_>, lines: usize, gap: f64) -> Vec<(Point, Anchor, [Point; 2])> {
    let more = super::super::measure::LEADING * (lines.max(1) - 1) as f64;
    if bearer.is_chamber {
        return Vec::new();
    }
    let (centre, symbol) = (bearer.frame.centre(), bearer.frame);
    let (below, above) = (symbol.bottom + gap, symbol.top - gap);
    let mut places = Vec::new();
    let to_end = gap - TO_NAME;
    for anchor in [Anchor::Middle, Anchor::Start, Anchor::End] {
        let x = centre.x
            + match anchor {
                Anchor::Start => -1.0,
                Anchor::Middle => 0.0,
                Anchor::End => 1.0,
            };
        let foot = Point::new(centre.x, symbol.bottom);
        places.push((
            Point::new(x, below + RISE),
            anchor,
            [foot, foot.moved(0.0, to_end)],
        ));
        let head = Point::new(centre.x, symbol.top);
        places.push((
            Point::new(x, above - FALL - more),
            anchor,
            [head, head.moved(0.0, -to_end)],
        ));
    }
    let level = centre.y + (RISE - FALL) / 2.0 - more / 2.0;
    for (x, way, anchor) in [
        (symbol.right, 1.0, Anchor::Start),
        (symbol.left, -1.0, Anchor::End),
    ] {
        let from = Point::new(x, centre.y);
        places.push((
            Point::new(x + way * gap, level),
            anchor,
            [from, from.moved(way * to_end, 0.0)],
        ));
    }
    places
}

/// Letters rise so far above their base line and fall so far below it.
const RISE: f64 = 0.78 * LETTER;
const FALL: f64 = 0.24 * LETTER;

/// Below, above, beside and at the corners of a symbol; each is the place of the first base line.
fn places(bearer: &Bearer<'_>, lines: usize, gap: f64) -> Vec<(Point, Anchor)> {
    let (symbol, reach) = (bearer.frame, bearer.reach);
    let more = super::super::measure::LEADING * (lines.max(1) - 1) as f64;
    let below = reach.bottom + gap + RISE;
    let above = reach.top - gap - FALL - more;
    let level = symbol.centre().y + (RISE - FALL) / 2.0 - more / 2.0;
    let upper = symbol.top + RISE;
    let lower = symbol.bottom - FALL - more;
    let (left, right) = (reach.left - gap, reach.right + gap);
    let middle = symbol.centre().x;
    if bearer.is_chamber {
        // Anywhere else it could be taken for the name of something else.
        let beside = [level, upper, lower].into_iter();
        return beside
            .flat_map(|y| {
                [
                    (Point::new(right, y), Anchor::Start),
                    (Point::new(left, y), Anchor::End),
                ]
            })
            .collect();
    }
    let mut places = vec![
        (Point::new(middle, below), Anchor::Middle),
        (Point::new(middle, above), Anchor::Middle),
        (Point::new(reach.left, below), Anchor::Start),
        (Point::new(reach.right, below), Anchor::End),
        (Point::new(reach.left, above), Anchor::Start),
        (Point::new(reach.right, above), Anchor::End),
    ];
    for y in [level, upper, lower, below, above, below - 1.5, above + 1.5] {
        places.push((Point::new(right, y), Anchor::Start));
        places.push((Point::new(left, y), Anchor::End));
    }
    places
}

#[cfg(test)]
mod tests {
    use super::super::sign::Sign;
    use super::*;
    use crate::picture::Circle;

    #[test]
    fn neighbours_leave_each_other_room() {
        let dot = |x: f64| {
            let circle = Circle {
                centre: Point::new(x, 0.0),
                radius_mm: 1.0,
                fill: None,
                stroke: None,
            };
            Sign::new("front left joint", vec![circle.into()], Vec::new())
        };
        let signs: Vec<Sign> = (0..6).map(|nth| dot(f64::from(nth) * 8.0)).collect();
        let names = names(&signs, signs.len()).expect("there is room all around");
        let frames: Vec<Frame> = names.iter().flat_map(|name| name.frames.clone()).collect();
        super::super::super::frame::for_each_overlap(&frames, |a, b| {
            panic!("{:?} and {:?}", frames[a], frames[b])
        });
    }
}
