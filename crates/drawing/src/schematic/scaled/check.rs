//! The rules of a picture, checked once more in what was drawn, whatever was meant to keep them.

use super::super::arrange::Arrangement;
use super::super::frame::{Frame, for_each_overlap};
use super::names::Name;
use super::sign::Sign;
use super::ways::Ways;
use super::why::Why;

/// Lines nearer than this look like one.
const NEAR: f64 = 0.7;

/// What a frame belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Owner {
    Sign(usize),
    Name(usize),
    Number(usize),
    /// A piece of a line; feeds come after the lines.
    Line(usize),
}

/// The first rule that is broken, if any: nothing lies on anything else, no line runs through what it does not end at.
pub(super) fn broken_rule(
    arrangement: &Arrangement<'_>,
    signs: &[Sign],
    names: &[Name],
    ways: &Ways,
) -> Option<Why> {
    let mut owners = Vec::new();
    let mut frames: Vec<Frame> = Vec::new();
    let mut add = |owner: Owner, frame: Frame| {
        owners.push(owner);
        frames.push(frame);
    };
    for (nth, sign) in signs.iter().enumerate() {
        sign.frames().for_each(|frame| add(Owner::Sign(nth), frame));
    }
    for (nth, name) in names.iter().enumerate() {
        name.frames
            .iter()
            .for_each(|frame| add(Owner::Name(nth), *frame));
    }
    for (nth, number) in ways.numbers.iter().enumerate() {
        number
            .frames()
            .for_each(|frame| add(Owner::Number(nth), frame));
    }
    for (nth, way) in ways.lines.iter().chain(&ways.feeds).enumerate() {
        for pair in way.windows(2) {
            add(Owner::Line(nth), Frame::around(pair).grown(NEAR / 2.0));
        }
    }
    let line = |nth: usize| match arrangement.wires.get(nth) {
        Some(wire) => arrangement.network.layout().lines[wire.line].id.clone(),
        None => "a feed".to_owned(),
    };
    let mut broken = None;
    for_each_overlap(&frames, |a, b| {
        let why = match (owners[a], owners[b]) {
            (Owner::Sign(a), Owner::Sign(b)) if a != b => {
                Why::TooNear(signs[a].name.clone(), signs[b].name.clone())
            }
            (Owner::Sign(_), Owner::Name(name)) => {
                Why::NoRoomForName(signs[names[name].sign].name.clone())
            }
            (Owner::Name(a), Owner::Name(b)) if a != b => {
                Why::NoRoomForName(signs[names[b].sign].name.clone())
            }
            (Owner::Sign(_) | Owner::Name(_), Owner::Number(number)) => {
                Why::NoRoomForNumber(line(number))
            }
            (Owner::Number(a), Owner::Number(b)) if a != b => Why::NoRoomForNumber(line(b)),
            (Owner::Number(number), Owner::Line(other)) if number != other => {
                Why::NoRoomForNumber(line(number))
            }
            (Owner::Name(_), Owner::Line(nth)) => Why::NoWay(line(nth)),
            (Owner::Sign(sign), Owner::Line(nth)) if !ends_at(arrangement, signs, nth, sign) => {
                Why::NoWay(line(nth))
            }
            (Owner::Line(one), Owner::Line(other))
                if one != other && !crosses(frames[a], frames[b]) =>
            {
                if share_a_sign(arrangement, one, other) {
                    return;
                }
                Why::NoWay(line(one.min(other)))
            }
            _ => return,
        };
        broken.get_or_insert(why);
    });
    broken
}

/// Whether a line may touch a symbol: it ends there. A feed ends at reservoirs and cylinders.
fn ends_at(arrangement: &Arrangement<'_>, signs: &[Sign], line: usize, sign: usize) -> bool {
    match arrangement.wires.get(line) {
        Some(wire) => [wire.near, wire.far]
            .iter()
            .any(|cell| arrangement.body_of_cell[cell.index()] == sign),
        None => {
            sign >= arrangement.bodies.len()
                || sign < signs.len()
                    && arrangement.bodies[sign].seat == super::super::arrange::Seat::Head
        }
    }
}

/// Two lines that end at one symbol come near each other there.
fn share_a_sign(arrangement: &Arrangement<'_>, one: usize, other: usize) -> bool {
    let ends = |line: usize| {
        arrangement
            .wires
            .get(line)
            .map(|wire| [wire.near, wire.far].map(|cell| arrangement.body_of_cell[cell.index()]))
    };
    match (ends(one), ends(other)) {
        (Some(one), Some(other)) => one.iter().any(|sign| other.contains(sign)),
        // Feeds are no lines of the layout.
        _ => true,
    }
}

/// Whether one of two pieces runs level through the other, which runs upright, with room at all ends.
fn crosses(a: Frame, b: Frame) -> bool {
    let passes = |level: Frame, upright: Frame| {
        level.left < upright.left
            && level.right > upright.right
            && upright.top < level.top
            && upright.bottom > level.bottom
    };
    passes(a, b) || passes(b, a)
}
