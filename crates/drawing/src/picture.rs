//! A picture as plain data.

use crate::ink::{Ink, Stroke};
use crate::lettering::{Weight, printable, shortened, width_em};

/// A picture: millimetres, y downward, the origin at the upper left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Its width.
    pub width_mm: f64,
    /// Its height.
    pub height_mm: f64,
    /// What it shows, in a few words.
    pub title: String,
    /// The same for those who cannot see it.
    pub description: String,
    /// What it is made of; later marks cover earlier ones.
    pub marks: Vec<Mark>,
}

/// A place in a picture.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// From the left edge, in millimetres.
    pub x: f64,
    /// From the upper edge, in millimetres.
    pub y: f64,
}

impl Point {
    /// A place.
    pub fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The place that is so far to the right and so far down from here.
    #[must_use]
    pub fn moved(self, right: f64, down: f64) -> Self {
        Self::new(self.x + right, self.y + down)
    }
}

/// One thing that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line, a curve or an area.
    Path(Path),
    /// A circle.
    Circle(Circle),
    /// A text in one line.
    Text(Text),
    /// Marks that belong together.
    Group(Group),
}

/// A line, a curve or an area.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// Where it begins.
    pub start: Point,
    /// How it goes on.
    pub segments: Vec<Segment>,
    /// Whether it returns to its beginning.
    pub closed: bool,
    /// What its inside is filled with.
    pub fill: Option<Ink>,
    /// How its outline is drawn.
    pub stroke: Option<Stroke>,
}

/// One piece of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// Straight to a place.
    Line(Point),
    /// A cubic curve: two control points and its end.
    Curve(Point, Point, Point),
}

/// A circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Its centre.
    pub centre: Point,
    /// Its radius.
    pub radius_mm: f64,
    /// What it is filled with.
    pub fill: Option<Ink>,
    /// How its outline is drawn.
    pub stroke: Option<Stroke>,
}

/// A text in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Where its base line is held.
    pub at: Point,
    /// The size of its letters: the em.
    pub size_mm: f64,
    /// Which end is held.
    pub anchor: Anchor,
    /// How heavy it is.
    pub weight: Weight,
    /// Its colour.
    pub ink: Ink,
    /// What is shown.
    pub text: String,
    /// The whole text, where only its beginning is shown.
    pub whole: Option<String>,
}

/// Which end of a text its place holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The left end.
    Start,
    /// The middle.
    Middle,
    /// The right end.
    End,
}

/// Marks that belong together, and what they show.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// What kind of thing it is, such as `line`, `part` or `screw`.
    pub class: &'static str,
    /// What it is called in the layout; empty where it has no name.
    pub name: String,
    /// The circuit it belongs to, by its number in the network.
    pub circuit: Option<usize>,
    /// What is said when it is pointed at.
    pub title: Option<String>,
    /// Its marks.
    pub marks: Vec<Mark>,
}

impl Text {
    /// A text in black of normal weight, held at its left end. Characters that cannot be shown are left out.
    pub fn new(at: Point, size_mm: f64, text: &str) -> Self {
        Self {
            at,
            size_mm,
            anchor: Anchor::Start,
            weight: Weight::Normal,
            ink: Ink::BLACK,
            text: printable(text),
            whole: None,
        }
    }

    /// The same, held elsewhere.
    #[must_use]
    pub fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    /// The same in bold letters.
    #[must_use]
    pub fn bold(mut self) -> Self {
        self.weight = Weight::Bold;
        self
    }

    /// The same in another colour.
    #[must_use]
    pub fn inked(mut self, ink: Ink) -> Self {
        self.ink = ink;
        self
    }

    /// The same, shortened with an ellipsis where it would be longer than this.
    #[must_use]
    pub fn within(mut self, most_mm: f64) -> Self {
        if let Some(short) = shortened(&self.text, most_mm / self.size_mm, self.weight) {
            self.whole = Some(std::mem::replace(&mut self.text, short));
        }
        self
    }

    /// How long it is.
    pub fn width_mm(&self) -> f64 {
        width_em(&self.text, self.weight) * self.size_mm
    }
}

impl Circle {
    /// A circle without an outline.
    pub fn filled(centre: Point, radius_mm: f64, ink: Ink) -> Self {
        Self {
            centre,
            radius_mm,
            fill: Some(ink),
            stroke: None,
        }
    }

    /// The same with an outline.
    #[must_use]
    pub fn outlined(mut self, stroke: Stroke) -> Self {
        self.stroke = Some(stroke);
        self
    }
}

impl Group {
    /// Marks of one kind of thing, without a name.
    pub fn new(class: &'static str, marks: Vec<Mark>) -> Self {
        Self {
            class,
            name: String::new(),
            circuit: None,
            title: None,
            marks,
        }
    }

    /// The same with its name in the layout.
    #[must_use]
    pub fn named(mut self, name: &str) -> Self {
        name.clone_into(&mut self.name);
        self
    }

    /// The same as a part of a circuit.
    #[must_use]
    pub fn of(mut self, circuit: Option<usize>) -> Self {
        self.circuit = circuit;
        self
    }

    /// The same with what is said when it is pointed at.
    #[must_use]
    pub fn titled(mut self, title: String) -> Self {
        self.title = Some(title);
        self
    }
}

impl Path {
    /// A line through some places.
    pub fn line(points: &[Point], stroke: Stroke) -> Self {
        Self {
            closed: false,
            ..Self::polygon(points, None, Some(stroke))
        }
    }

    /// An outline with these corners.
    pub fn polygon(points: &[Point], fill: Option<Ink>, stroke: Option<Stroke>) -> Self {
        let (start, rest) = points
            .split_first()
            .map_or((Point::default(), points), |(first, rest)| (*first, rest));
        Self {
            start,
            segments: rest.iter().copied().map(Segment::Line).collect(),
            closed: true,
            fill,
            stroke,
        }
    }

    /// A rectangle with its sides along the axes, from its upper left corner.
    pub fn rectangle(
        corner: Point,
        width_mm: f64,
        height_mm: f64,
        fill: Option<Ink>,
        stroke: Option<Stroke>,
    ) -> Self {
        let corners = [
            corner,
            corner.moved(width_mm, 0.0),
            corner.moved(width_mm, height_mm),
            corner.moved(0.0, height_mm),
        ];
        Self::polygon(&corners, fill, stroke)
    }
}

impl Mark {
    /// The same so far to the right and so far down.
    #[must_use]
    pub fn moved(mut self, right: f64, down: f64) -> Self {
        let shift = |point: &mut Point| *point = point.moved(right, down);
        match &mut self {
            Self::Path(path) => {
                shift(&mut path.start);
                for segment in &mut path.segments {
                    match segment {
                        Segment::Line(to) => shift(to),
                        Segment::Curve(a, b, to) => [a, b, to].into_iter().for_each(shift),
                    }
                }
            }
            Self::Circle(circle) => shift(&mut circle.centre),
            Self::Text(text) => shift(&mut text.at),
            Self::Group(group) => {
                let marks = std::mem::take(&mut group.marks);
                group.marks = marks
                    .into_iter()
                    .map(|mark| mark.moved(right, down))
                    .collect();
            }
        }
        self
    }
}

impl From<Path> for Mark {
    fn from(path: Path) -> Self {
        Self::Path(path)
    }
}

impl From<Circle> for Mark {
    fn from(circle: Circle) -> Self {
        Self::Circle(circle)
    }
}

impl From<Text> for Mark {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}

impl From<Group> for Mark {
    fn from(group: Group) -> Self {
        Self::Group(group)
    }
}
