//! What stands around the drawing itself: title, tables, how to read it, the paper.

use super::arrange::Arrangement;
use super::measure::LETTER;
use super::told::{Told, Words};
use super::{key, legend};
use crate::ink::Ink;
use crate::picture::{Group, Mark, Path, Picture, Point, Text};
use bleedwright_network::Split;
use bleedwright_planner::Plan;

/// Around everything.
const MARGIN: f64 = 3.0;
/// From the upper edge of the picture's body to the middle of the title's two lines.
const TITLE: f64 = 6.5;

/// Everything between the title and the tables.
pub(super) struct Body {
    pub(super) marks: Vec<Mark>,
    pub(super) top: f64,
    pub(super) bottom: f64,
    pub(super) right: f64,
}

pub(super) struct Sheet<'a, 'n> {
    pub(super) arrangement: &'a Arrangement<'n>,
    pub(super) plan: &'a Plan,
    pub(super) words: Words,
    /// Whether name, steps and lines are written as well.
    pub(super) has_tables: bool,
}

impl Sheet<'_, '_> {
    pub(super) fn picture(&self, body: Body) -> Picture {
        let (top, right) = (body.top, body.right);
        if !self.has_tables {
            let at = Point::new(0.0, body.bottom + 2.0);
            let network = self.arrangement.network;
            let (signs, end) = legend::signs(network, false, at, right, self.words);
            let mut marks = body.marks;
            marks.push(signs);
            return self.finished(marks, [top - 3.0, end, right]);
        }
        let title_y = top - TITLE;
        let mut marks = self.title(title_y, right);
        marks.extend(body.marks);
        let (tables, end) = self.tables(body.bottom, right);
        marks.extend(tables);
        self.finished(marks, [title_y - 5.0, end, right])
    }

    /// Tables and signs below each other; gives their lower edge.
    fn tables(&self, top: f64, right: f64) -> (Vec<Mark>, f64) {
        let network = self.arrangement.network;
        let (steps, end) = key::steps(network, self.plan, Point::new(0.0, top), right, self.words);
        let at = Point::new(0.0, end + 3.6);
        let (lines, end) = key::lines(self.arrangement, at, right);
        let at = Point::new(0.0, end + 2.8);
        let (signs, end) = legend::signs(network, true, at, right, self.words);
        (vec![steps, lines, signs], end)
    }

    fn finished(&self, marks: Vec<Mark>, [top, bottom, right]: [f64; 3]) -> Picture {
        let layout = self.arrangement.network.layout();
        let (width_mm, height_mm) = (right + 2.0 * MARGIN, bottom - top + MARGIN);
        let paper = Path::rectangle(
            Point::default(),
            width_mm,
            height_mm,
            Some(Ink::WHITE),
            None,
        );
        let paper = Group::new("paper", vec![paper.into()]);
        let moved = marks
            .into_iter()
            .map(|mark| mark.moved(MARGIN, MARGIN - top));
        Picture {
            width_mm,
            height_mm,
            title: (self.words)(Told::Title(&layout.name)),
            description: self.description(),
            marks: std::iter::once(paper.into()).chain(moved).collect(),
        }
    }

    /// The picture in words: what each circuit feeds, through what.
    fn description(&self) -> String {
        let network = self.arrangement.network;
        let circuits = network.circuits().map(|(id, circuit)| Told::Described {
            name: &circuit.name,
            lines: network.cells_of(id).len().saturating_sub(1),
            screws: circuit.screws.len(),
            wheels: &circuit.wheels,
        });
        let told = std::iter::once(Told::Split(network.split())).chain(circuits);
        let told = told.chain(self.has_tables.then_some(Told::Listed));
        told.map(self.words).collect()
    }

    fn title(&self, y: f64, right: f64) -> Vec<Mark> {
        let layout = self.arrangement.network.layout();
        let split = match self.arrangement.network.split() {
            Split::Single | Split::Other => None,
            split => Some(format!("Split {}", split.text())),
        };
        let steering = layout.steering.map(|steering| steering.text().to_owned());
        let fluid = layout.fluid.map(|fluid| fluid.text().to_owned());
        let about: Vec<String> = [split, steering, fluid].into_iter().flatten().collect();
        vec![
            Text::new(Point::new(0.0, y - 1.0), 4.4, &layout.name)
                .bold()
                .within(right)
                .into(),
            Text::new(Point::new(0.0, y + 4.0), LETTER, &about.join(", "))
                .inked(Ink::GREY)
                .within(right)
                .into(),
        ]
    }
}
