//! A symbol with what the way-finder must know of it: its outline, its screws, where lines may end.

use super::super::frame::Frame;
use crate::picture::{Mark, Point};
use bleedwright_network::CellId;

/// The direction in which a line leaves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Facing {
    Up,
    Down,
    Left,
    Right,
}

impl Facing {
    pub(super) fn is_level(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }
}

/// What may end at a port.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Serves {
    /// This line only.
    Wire(usize),
    /// Any line of a cell, or the feed of a chamber.
    Cell(CellId),
    /// The feed of this intake only.
    Feed(usize),
}

/// A place at a symbol where one line may end.
#[derive(Clone, Copy, Debug)]
pub(super) struct Port {
    pub(super) at: Point,
    pub(super) facing: Facing,
    pub(super) serves: Serves,
}

/// A symbol; drawn anywhere, then moved to its place.
#[derive(Clone, Debug)]
pub(super) struct Sign {
    pub(super) name: String,
    pub(super) marks: Vec<Mark>,
    pub(super) ports: Vec<Port>,
    /// Around the symbol, without its screws: its centre is the part's place.
    pub(super) frame: Frame,
    pub(super) screws: Vec<Frame>,
    /// Its chambers, if it is a cylinder, with their names.
    pub(super) chambers: Vec<(String, Frame)>,
}

impl Sign {
    pub(super) fn new(name: &str, marks: Vec<Mark>, ports: Vec<Port>) -> Self {
        let screws = marks.iter().filter_map(|mark| match mark {
            Mark::Group(group) if group.class == "screw" => Some(Frame::of_symbol(&group.marks)),
            _ => None,
        });
        Self {
            name: name.to_owned(),
            frame: Frame::of_symbol(&marks),
            screws: screws.collect(),
            chambers: Vec::new(),
            ports,
            marks,
        }
    }

    /// The same with the centre of its symbol there.
    pub(super) fn centred(mut self, at: Point) -> Self {
        let centre = self.frame.centre();
        let (right, down) = (at.x - centre.x, at.y - centre.y);
        let marks = self.marks.into_iter();
        self.marks = marks.map(|mark| mark.moved(right, down)).collect();
        for port in &mut self.ports {
            port.at = port.at.moved(right, down);
        }
        let chambers = self.chambers.iter_mut().map(|(_, frame)| frame);
        for frame in self.screws.iter_mut().chain(chambers) {
            *frame = frame.moved(right, down);
        }
        self.frame = self.frame.moved(right, down);
        self
    }

    /// The symbol and its screws.
    pub(super) fn frames(&self) -> impl Iterator<Item = Frame> + '_ {
        std::iter::once(self.frame).chain(self.screws.iter().copied())
    }

    /// Around symbol and screws.
    pub(super) fn reach(&self) -> Frame {
        self.frames().fold(Frame::NOTHING, Frame::with)
    }
}
