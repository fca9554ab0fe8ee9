//! The figures of a layout that may not be known exactly and decide how much
//! fluid there is: which they are, what they are called, and the layout once
//! one of them is measured.

mod open;

pub(crate) use open::figures_of;

use crate::measurable::{Dimension, Measurable};
use bleedwright_network::{Bounds, Brake, Layout, LineKind, Network, PartKind};

/// One written figure, by its place in the layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum LayoutFigure {
    LineLength(usize),
    LineBore(usize),
    /// Contents of a tee or valve, the same in each of its passages.
    PartContents(usize),
    /// What one passage of an anti-lock unit holds.
    Through(usize, usize),
    /// The drilling between the cavities of a brake.
    Crossover(usize),
    /// Dead volume of a cavity.
    DeadVolume(usize, usize),
    /// How far pistons of one size stand out.
    Extension(usize, usize, usize),
    /// Bore of pistons of one size.
    PistonBore(usize, usize, usize),
    /// Bore of a cylinder, or of one chamber of a stepped one.
    ChamberBore(usize, usize),
    /// Stroke of a chamber.
    Stroke(usize, usize),
    /// Travel that closes the port of a chamber.
    CutOff(usize, usize),
    /// Contents of a compartment at its maximum mark.
    Maximum(usize, usize),
    /// Contents of a compartment at its minimum mark.
    Minimum(usize, usize),
    /// What a syringe leaves in a compartment.
    LeftWhenDrawnOff(usize, usize),
    /// Contents of the hose from a compartment.
    FeedHose(usize, usize),
}

#[derive(Clone, Copy, Debug)]
pub(crate) struct KnownFigure {
    pub(crate) is_uncertain: bool,
    /// Whether the file is silent about it, or marks it as a guess.
    pub(crate) is_assumed: bool,
}

impl KnownFigure {
    fn stated<T: PartialOrd>(bounds: &Bounds<T>) -> Self {
        Self {
            is_uncertain: bounds.low < bounds.high,
            is_assumed: false,
        }
    }

    fn figure<T: PartialOrd + Copy>(figure: &bleedwright_network::Figure<T>) -> Self {
        Self {
            is_assumed: figure.is_assumed(),
            ..Self::stated(&figure.bounds)
        }
    }

    const NOTHING: Self = Self {
        is_uncertain: false,
        is_assumed: false,
    };
}

/// Calls the one function with the bounds that stand at the place of a figure in
/// a layout, or the other with the figure there, both borrowed as `[mut]` or
/// `[]` says; the last where the layout has no such place.
macro_rules! at_place {
    ($figure:ident, $layout:ident, [$($mutable:tt)?], $of_bounds:path, $of_figure:path, $nothing:expr) => {
        match $figure {
            LayoutFigure::LineLength(line) => match &$($mutable)? $layout.lines[line].kind {
                LineKind::Pipe { length, .. } | LineKind::Hose { length, .. } => $of_bounds(length),
                LineKind::Direct => $nothing,
            },
            LayoutFigure::LineBore(line) => match &$($mutable)? $layout.lines[line].kind {
                LineKind::Pipe { bore, .. } | LineKind::Hose { bore, .. } => $of_figure(bore),
                LineKind::Direct => $nothing,
            },
            LayoutFigure::PartContents(part) => $of_figure(&$($mutable)? $layout.parts[part].contents),
            LayoutFigure::Through(part, nth) => match &$($mutable)? $layout.parts[part].kind {
                PartKind::AntiLock { circuits, .. } => {
                    $of_bounds(&$($mutable)? circuits[nth].through)
                }
                _ => $nothing,
            },
            LayoutFigure::Crossover(part) => match &$($mutable)? $layout.parts[part].kind {
                PartKind::Brake(Brake { crossover: Some(crossover), .. }) => $of_bounds(crossover),
                _ => $nothing,
            },
            LayoutFigure::DeadVolume(part, nth)
            | LayoutFigure::Extension(part, nth, _)
            | LayoutFigure::PistonBore(part, nth, _) => match &$($mutable)? $layout.parts[part].kind {
                PartKind::Brake(brake) => {
                    let cavity = &$($mutable)? brake.cavities[nth];
                    match $figure {
                        LayoutFigure::Extension(.., nth) => {
                            $of_figure(&$($mutable)? cavity.pistons[nth].extension)
                        }
                        LayoutFigure::PistonBore(.., nth) => {
                            $of_bounds(&$($mutable)? cavity.pistons[nth].bore)
                        }
                        _ => $of_figure(&$($mutable)? cavity.dead_volume),
                    }
                }
                _ => $nothing,
            },
            LayoutFigure::ChamberBore(index, nth) => {
                $of_bounds(&$($mutable)? $layout.cylinders[index].chambers[nth].bore)
            }
            LayoutFigure::Stroke(index, nth) => {
                $of_bounds(&$($mutable)? $layout.cylinders[index].chambers[nth].stroke)
            }
            LayoutFigure::CutOff(index, nth) => {
                $of_figure(&$($mutable)? $layout.cylinders[index].chambers[nth].cut_off)
            }
            LayoutFigure::Maximum(r, c) => {
                $of_bounds(&$($mutable)? $layout.reservoirs[r].compartments[c].max)
            }
            LayoutFigure::Minimum(r, c) => match &$($mutable)? $layout.reservoirs[r].compartments[c].min {
                Some(min) => $of_bounds(min),
                None => $nothing,
            },
            LayoutFigure::LeftWhenDrawnOff(r, c) => $of_figure(
                &$($mutable)? $layout.reservoirs[r].compartments[c].left_when_drawn_off,
            ),
            LayoutFigure::FeedHose(r, c) => match &$($mutable)? $layout.reservoirs[r].compartments[c].hose {
                Some(hose) => $of_bounds(&$($mutable)? hose.contents),
                None => $nothing,
            },
        }
    };
}

impl LayoutFigure {
    pub(crate) fn known(self, layout: &Layout) -> KnownFigure {
        let range = self.range(layout);
        KnownFigure {
            is_assumed: range.is_assumed || range.is_uncertain && self.is_guessed(layout),
            ..range
        }
    }

    /// Whether the file gives it with the mark of a guess.
    fn is_guessed(self, layout: &Layout) -> bool {
        let is = |item, fields: &[&str], inner: &[usize]| layout.is_guessed(item, fields, inner);
        let line = |index| ("lines", index);
        let part = |index| ("parts", index);
        let cylinder = |index| ("cylinders", index);
        let reservoir = |index| ("reservoirs", index);
        // A brake with one cavity need not list its cavities, and a wheel
        // cylinder lists no pistons.
        let piston = |index, field, cavity, nth| {
            is(part(index), &[field], &[cavity, nth])
                || cavity == 0 && is(part(index), &[field], &[nth])
                || is(part(index), &[field], &[])
        };
        match self {
            Self::LineLength(index) => is(line(index), &["length"], &[]),
            Self::LineBore(index) => is(line(index), &["bore", "size", "wall"], &[]),
            Self::PartContents(index) => is(part(index), &["contents"], &[]),
            Self::Through(index, nth) => is(part(index), &["through"], &[nth]),
            Self::Crossover(index) => is(part(index), &["crossover"], &[]),
            Self::DeadVolume(index, cavity) => {
                is(part(index), &["dead_volume"], &[cavity])
                    || cavity == 0 && is(part(index), &["dead_volume"], &[])
            }
            Self::Extension(index, cavity, nth) => piston(index, "extension", cavity, nth),
            Self::PistonBore(index, cavity, nth) => piston(index, "bore", cavity, nth),
            Self::ChamberBore(index, _) => is(cylinder(index), &["bore"], &[]),
            Self::Stroke(index, _) => is(cylinder(index), &["stroke"], &[]),
            Self::CutOff(index, _) => is(cylinder(index), &["cut_off"], &[]),
            Self::Maximum(r, c) => is(reservoir(r), &["max"], &[c]),
            Self::Minimum(r, c) => is(reservoir(r), &["min"], &[c]),
            Self::LeftWhenDrawnOff(r, c) => is(reservoir(r), &["left_when_drawn_off"], &[c]),
            Self::FeedHose(r, c) => is(reservoir(r), &["bore", "length"], &[c]),
        }
    }

    /// Its range, and whether the file is silent about it.
    fn range(self, layout: &Layout) -> KnownFigure {
        at_place!(
            self,
            layout,
            [],
            KnownFigure::stated,
            KnownFigure::figure,
            KnownFigure::NOTHING
        )
    }

    /// Puts its nominal value in the place of its range, as if it had been
    /// measured and found as expected.
    pub(crate) fn measure(self, layout: &mut Layout) {
        if let Self::ChamberBore(index, nth) = self {
            let written = layout.cylinders[index].chambers[nth].bore;
            for chamber in &mut layout.cylinders[index].chambers {
                // One bore is written for both chambers of a cylinder that is
                // not stepped.
                if chamber.bore == written {
                    chamber.bore = written.collapsed();
                }
            }
        } else {
            at_place!(self, layout, [mut], collapse, set_measured, ());
        }
    }

    pub(crate) fn what(self, network: &Network) -> Measurable {
        let layout = network.layout();
        let line = |index: usize| layout.lines[index].id.clone();
        let part = |index: usize| layout.parts[index].id.clone();
        let compartment = |r: usize, c: usize| layout.reservoirs[r].compartments[c].id.clone();
        let cavity = |part: usize, nth: usize| {
            let cell = network.cells_of_part(part).nth(nth);
            cell.map_or_else(String::new, |cell| network.cell_name(cell))
        };
        let chamber = |index: usize, nth: usize| {
            let cylinder = &layout.cylinders[index];
            match cylinder.chambers[nth].port {
                "" => cylinder.id.clone(),
                port => format!("{}.{port}", cylinder.id),
            }
        };
        let (what, of) = match self {
            Self::LineLength(index) => (Dimension::Length, line(index)),
            Self::LineBore(index) => (Dimension::Bore, line(index)),
            Self::PartContents(index) => (Dimension::Contents, part(index)),
            Self::Through(part, nth) => (Dimension::Contents, cavity(part, nth)),
            Self::Crossover(index) => (Dimension::Crossover, part(index)),
            Self::DeadVolume(part, nth) => (Dimension::DeadVolume, cavity(part, nth)),
            Self::Extension(part, nth, _) => (Dimension::Extension, cavity(part, nth)),
            Self::PistonBore(part, nth, _) => (Dimension::PistonBore, cavity(part, nth)),
            Self::ChamberBore(index, nth) => {
                let cylinder = &layout.cylinders[index];
                let bore = cylinder.chambers[nth].bore;
                let is_one = cylinder.chambers.iter().all(|other| other.bore == bore);
                let of = if is_one {
                    cylinder.id.clone()
                } else {
                    chamber(index, nth)
                };
                (Dimension::Bore, of)
            }
            Self::Stroke(index, nth) => (Dimension::Stroke, chamber(index, nth)),
            Self::CutOff(index, nth) => (Dimension::CutOff, chamber(index, nth)),
            Self::Maximum(r, c) => (Dimension::Maximum, compartment(r, c)),
            Self::Minimum(r, c) => (Dimension::Minimum, compartment(r, c)),
            Self::LeftWhenDrawnOff(r, c) => (Dimension::LeftWhenDrawnOff, compartment(r, c)),
            Self::FeedHose(r, c) => (Dimension::FeedHose, compartment(r, c)),
        };
        Measurable { what, of }
    }
}

fn collapse<T: Copy>(bounds: &mut Bounds<T>) {
    *bounds = bounds.collapsed();
}

fn set_measured<T: Copy>(figure: &mut bleedwright_network::Figure<T>) {
    *figure = figure.measured();
}
