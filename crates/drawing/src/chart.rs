//! Line charts.

mod scale;

use crate::ink::{Ink, Stroke, circuit_stroke};
use crate::picture::{Anchor, Group, Mark, Path, Picture, Point, Text};
use scale::Scale;

/// A line chart: one or more series over a common axis.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chart {
    /// What it shows.
    pub title: String,
    /// The same for those who cannot see it.
    pub description: String,
    /// What the axis to the right counts, with its unit.
    pub across: String,
    /// What the axis upward counts, with its unit.
    pub upward: String,
    /// The lines.
    pub series: Vec<Series>,
    /// Places along the axis to the right that are marked by an upright line.
    pub uprights: Vec<Upright>,
    /// Values that are marked by a level line.
    pub levels: Vec<Level>,
}

/// One line of a chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What it is; written at its end. Empty where the chart has one line, which its title names.
    pub name: String,
    /// Its points, from left to right.
    pub points: Vec<(f64, f64)>,
    /// The lowest and the highest value at each of its points; empty without bounds.
    pub band: Vec<(f64, f64)>,
}

/// A mark at one place of the axis to the right.
#[derive(Clone, Debug, PartialEq)]
pub struct Upright {
    /// Where.
    pub at: f64,
    /// What is there, in a sign or two.
    pub label: String,
}

/// A mark at one value.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Which.
    pub at: f64,
    /// What it means.
    pub label: String,
}

const WIDTH: f64 = 170.0;
const HEIGHT: f64 = 105.0;
const LEFT: f64 = 18.0;
const TOP: f64 = 21.0;
const BOTTOM: f64 = 16.0;
const SIZE: f64 = 3.2;
/// The most that the names of the series take at the right edge.
const NAMES: f64 = 38.0;
const GAP: f64 = 1.4;

/// Draws a chart.
pub fn chart(chart: &Chart) -> Picture {
    let frame = Frame::of(chart);
    let mut marks =
        vec![Path::rectangle(Point::default(), WIDTH, HEIGHT, Some(Ink::WHITE), None).into()];
    marks.push(
        Text::new(Point::new(5.0, 7.5), 4.2, &chart.title)
            .bold()
            .within(WIDTH - 10.0)
            .into(),
    );
    marks.push(
        Text::new(Point::new(5.0, 14.0), SIZE, &chart.upward)
            .within(WIDTH - 10.0)
            .into(),
    );
    frame.draw_axes(chart, &mut marks);
    for (index, series) in chart.series.iter().enumerate() {
        marks.push(frame.draw_band(index, series));
    }
    frame.draw_marks(chart, &mut marks);
    for (index, series) in chart.series.iter().enumerate() {
        marks.push(frame.draw_series(index, series));
    }
    frame.draw_names(&chart.series, &mut marks);
    Picture {
        width_mm: WIDTH,
        height_mm: HEIGHT,
        title: chart.title.clone(),
        description: chart.description.clone(),
        marks,
    }
}

/// Where values are on the paper.
struct Frame {
    across: Scale,
    upward: Scale,
    right: f64,
}

impl Frame {
    fn of(chart: &Chart) -> Self {
        let points = || chart.series.iter().flat_map(|series| &series.points);
        let across = points()
            .map(|point| point.0)
            .chain(chart.uprights.iter().map(|mark| mark.at));
        let bands = chart.series.iter().flat_map(|series| &series.band);
        let upward = points()
            .map(|point| point.1)
            .chain(bands.flat_map(|band| [band.0, band.1]))
            .chain(chart.levels.iter().map(|mark| mark.at));
        let widest = chart
            .series
            .iter()
            .map(|series| Text::new(Point::default(), SIZE, &series.name).width_mm());
        let names = widest.fold(0.0, f64::max).min(NAMES);
        Self {
            across: Scale::of(across, 10.0),
            upward: Scale::of(upward, 6.0),
            right: WIDTH - 6.0 - names - GAP,
        }
    }

    fn x(&self, value: f64) -> f64 {
        LEFT + self.across.share(value) * (self.right - LEFT)
    }

    fn y(&self, value: f64) -> f64 {
        HEIGHT - BOTTOM - self.upward.share(value) * (HEIGHT - BOTTOM - TOP)
    }

    fn at(&self, (across, upward): (f64, f64)) -> Point {
        Point::new(self.x(across), self.y(upward))
    }

    fn draw_axes(&self, chart: &Chart, marks: &mut Vec<Mark>) {
        let (base, grid) = (
            Stroke::solid(Ink::BLACK, 0.3),
            Stroke::solid(Ink::PALE, 0.18),
        );
        for (value, text) in self.upward.ticks() {
            let y = self.y(value);
            let line = [Point::new(LEFT, y), Point::new(self.right, y)];
            marks.push(Path::line(&line, grid).into());
            let at = Point::new(LEFT - GAP, y + SIZE * 0.36);
            marks.push(
                Text::new(at, SIZE, &text)
                    .anchored(Anchor::End)
                    .within(LEFT - 2.0 * GAP)
                    .into(),
            );
        }
        let mut free_from = 0.0;
        for (value, text) in self.across.ticks() {
            let x = self.x(value);
            let foot = [
                Point::new(x, HEIGHT - BOTTOM),
                Point::new(x, HEIGHT - BOTTOM + 1.2),
            ];
            marks.push(Path::line(&foot, base).into());
            let text = Text::new(Point::new(x, HEIGHT - BOTTOM + 5.2), SIZE, &text)
                .anchored(Anchor::Middle);
            if x - text.width_mm() / 2.0 > free_from {
                free_from = x + text.width_mm() / 2.0 + GAP;
                marks.push(text.into());
            }
        }
        let axes = [
            Point::new(LEFT, TOP),
            Point::new(LEFT, HEIGHT - BOTTOM),
            Point::new(self.right, HEIGHT - BOTTOM),
        ];
        marks.push(Path::line(&axes, base).into());
        let at = Point::new(f64::midpoint(LEFT, self.right), HEIGHT - 3.6);
        let across = Text::new(at, SIZE, &chart.across).anchored(Anchor::Middle);
        marks.push(across.within(self.right - LEFT).into());
    }

    fn draw_marks(&self, chart: &Chart, marks: &mut Vec<Mark>) {
        let stroke = Stroke {
            pattern: crate::Pattern::ShortDashed,
            ..Stroke::solid(Ink::GREY, 0.25)
        };
        let mut free_from = 0.0;
        for upright in &chart.uprights {
            let x = self.x(upright.at);
            let line = [Point::new(x, TOP), Point::new(x, HEIGHT - BOTTOM)];
            marks.push(Path::line(&line, stroke).into());
            let label =
                Text::new(Point::new(x, TOP - 1.2), SIZE, &upright.label).anchored(Anchor::Middle);
            if x - label.width_mm() / 2.0 > free_from {
                free_from = x + label.width_mm() / 2.0 + GAP;
                marks.push(label.inked(Ink::GREY).into());
            }
        }
        // Labels of levels that lie close to each other stand side by side.
        let mut taken: Vec<(f64, f64)> = Vec::new();
        for level in &chart.levels {
            let y = self.y(level.at);
            let line = [Point::new(LEFT, y), Point::new(self.right, y)];
            marks.push(Path::line(&line, stroke).into());
            let beside = taken
                .iter()
                .filter(|other| (other.0 - y).abs() < SIZE * 1.25);
            let x = beside.map(|other| other.1).fold(LEFT + GAP, f64::max);
            if x > self.right - SIZE * 4.0 {
                continue;
            }
            let label =
                Text::new(Point::new(x, y - 1.0), SIZE, &level.label).within(self.right - x - GAP);
            taken.push((y, x + label.width_mm() + 2.0 * GAP));
            marks.push(label.inked(Ink::GREY).into());
        }
    }

    fn draw_band(&self, index: usize, series: &Series) -> Mark {
        let ink = circuit_stroke(index, 1.0).ink;
        let edge = |pick: fn(&(f64, f64)) -> f64| -> Vec<Point> {
            let across = series.points.iter().map(|point| point.0);
            let values = series.band.iter().map(pick);
            across.zip(values).map(|point| self.at(point)).collect()
        };
        let (low, high) = (edge(|band| band.0), edge(|band| band.1));
        let mut marks = Vec::new();
        if !low.is_empty() {
            let around: Vec<Point> = low.iter().chain(high.iter().rev()).copied().collect();
            marks.push(Path::polygon(&around, Some(ink.thinned()), None).into());
            let thin = Stroke::solid(ink, 0.18);
            marks.push(Path::line(&low, thin).into());
            marks.push(Path::line(&high, thin).into());
        }
        Self::group("bounds", index, series, marks)
    }

    fn draw_series(&self, index: usize, series: &Series) -> Mark {
        let points: Vec<Point> = series.points.iter().map(|point| self.at(*point)).collect();
        let line = Path::line(&points, circuit_stroke(index, 0.6)).into();
        Self::group("series", index, series, vec![line])
    }

    fn group(class: &'static str, index: usize, series: &Series, marks: Vec<Mark>) -> Mark {
        let group = Group::new(class, marks).named(&series.name).of(Some(index));
        if series.name.is_empty() {
            group.into()
        } else {
            group.titled(series.name.clone()).into()
        }
    }

    /// The names at the ends of their lines, moved apart where two lines end close to each other.
    fn draw_names(&self, series: &[Series], marks: &mut Vec<Mark>) {
        let named = series
            .iter()
            .enumerate()
            .filter(|(_, series)| !series.name.is_empty());
        let mut ends: Vec<(usize, f64)> = named
            .filter_map(|(index, series)| Some((index, self.y(series.points.last()?.1))))
            .collect();
        ends.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
        let row = SIZE * 1.25;
        for nth in 1..ends.len() {
            ends[nth].1 = ends[nth].1.max(ends[nth - 1].1 + row);
        }
        let mut lowest = HEIGHT - BOTTOM;
        for end in ends.iter_mut().rev() {
            end.1 = end.1.min(lowest);
            lowest = end.1 - row;
        }
        for (index, y) in ends {
            let at = Point::new(self.right + GAP, y + SIZE * 0.36);
            let text = Text::new(at, SIZE, &series[index].name).within(NAMES);
            marks.push(text.inked(circuit_stroke(index, 1.0).ink).into());
        }
    }
}
