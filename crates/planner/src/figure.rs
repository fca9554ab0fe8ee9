//! The figures of a layout that may not be known exactly and decide how much
//! fluid there is: which they are, what they are called, and the layout once
//! one of them is measured.

mod open;

pub(crate) use open::figures_of;

use bleedwright_network::{Bounds, Brake, Layout, LineKind, Network, PartKind};

/// One written figure, by its place in the layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Figure {
    /// Length of a line.
    LineLength(usize),
    /// Bore of a line.
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

/// How a figure is known.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Known {
    /// Whether it has a range at all.
    pub(crate) is_uncertain: bool,
    /// Whether the file is silent about it, or marks it as a guess.
    pub(crate) is_assumed: bool,
}

impl Known {
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
            Figure::LineLength(line) => match &$($mutable)? $layout.lines[line].kind {
                LineKind::Pipe { length, .. } | LineKind::Hose { length, .. } => $of_bounds(length),
                LineKind::Direct => $nothing,
            },
            Figure::LineBore(line) => match &$($mutable)? $layout.lines[line].kind {
                LineKind::Pipe { bore, .. } | LineKind::Hose { bore, .. } => $of_figure(bore),
                LineKind::Direct => $nothing,
            },
            Figure::PartContents(part) => $of_figure(&$($mutable)? $layout.parts[part].contents),
            Figure::Through(part, nth) => match &$($mutable)? $layout.parts[part].kind {
                PartKind::AntiLock { circuits, .. } => {
                    $of_bounds(&$($mutable)? circuits[nth].through)
                }
                _ => $nothing,
            },
            Figure::Crossover(part) => match &$($mutable)? $layout.parts[part].kind {
                PartKind::Brake(Brake { crossover: Some(crossover), .. }) => $of_bounds(crossover),
                _ => $nothing,
            },
            Figure::DeadVolume(part, nth)
            | Figure::Extension(part, nth, _)
            | Figure::PistonBore(part, nth, _) => match &$($mutable)? $layout.parts[part].kind {
                PartKind::Brake(brake) => {
                    let cavity = &$($mutable)? brake.cavities[nth];
                    match $figure {
                        Figure::Extension(.., nth) => {
                            $of_figure(&$($mutable)? cavity.pistons[nth].extension)
                        }
                        Figure::PistonBore(.., nth) => {
                            $of_bounds(&$($mutable)? cavity.pistons[nth].bore)
                        }
                        _ => $of_figure(&$($mutable)? cavity.dead_volume),
                    }
                }
                _ => $nothing,
            },
            Figure::ChamberBore(index, nth) => {
                $of_bounds(&$($mutable)? $layout.cylinders[index].chambers[nth].bore)
            }
            Figure::Stroke(index, nth) => {
                $of_bounds(&$($mutable)? $layout.cylinders[index].chambers[nth].stroke)
            }
            Figure::CutOff(index, nth) => {
                $of_figure(&$($mutable)? $layout.cylinders[index].chambers[nth].cut_off)
            }
            Figure::Maximum(r, c) => {
                $of_bounds(&$($mutable)? $layout.reservoirs[r].compartments[c].max)
            }
            Figure::Minimum(r, c) => match &$($mutable)? $layout.reservoirs[r].compartments[c].min {
                Some(min) => $of_bounds(min),
                None => $nothing,
            },
            Figure::LeftWhenDrawnOff(r, c) => $of_figure(
                &$($mutable)? $layout.reservoirs[r].compartments[c].left_when_drawn_off,
            ),
            Figure::FeedHose(r, c) => match &$($mutable)? $layout.reservoirs[r].compartments[c].hose {
                Some(hose) => $of_bounds(&$($mutable)? hose.contents),
                None => $nothing,
            },
        }
    };
}

impl Figure {
    /// How it is known.
    pub(crate) fn known(self, layout: &Layout) -> Known {
        let range = self.range(layout);
        Known {
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
    fn range(self, layout: &Layout) -> Known {
        at_place!(
            self,
            layout,
            [],
            Known::stated,
            Known::figure,
            Known::NOTHING
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

    /// What it is, in words that follow "measure".
    pub(crate) fn what(self, network: &Network) -> String {
        let layout = network.layout();
        let compartment = |r: usize, c: usize| &layout.reservoirs[r].compartments[c].id;
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
        match self {
            Self::LineLength(line) => format!("the length of `{}`", layout.lines[line].id),
            Self::LineBore(line) => format!("the bore of `{}`", layout.lines[line].id),
            Self::PartContents(part) => format!("the contents of `{}`", layout.parts[part].id),
            Self::Through(part, nth) => format!("the contents of `{}`", cavity(part, nth)),
            Self::Crossover(part) => {
                format!(
                    "the contents of the crossover of `{}`",
                    layout.parts[part].id
                )
            }
            Self::DeadVolume(part, nth) => format!("the dead volume of `{}`", cavity(part, nth)),
            Self::Extension(part, nth, _) => {
                format!("how far the pistons of `{}` stand out", cavity(part, nth))
            }
            Self::PistonBore(part, nth, _) => format!("the piston bore of `{}`", cavity(part, nth)),
            Self::ChamberBore(index, nth) => {
                let chambers = &layout.cylinders[index].chambers;
                if chambers
                    .iter()
                    .all(|other| other.bore == chambers[nth].bore)
                {
                    format!("the bore of `{}`", layout.cylinders[index].id)
                } else {
                    format!("the bore of `{}`", chamber(index, nth))
                }
            }
            Self::Stroke(index, nth) => format!("the stroke of `{}`", chamber(index, nth)),
            Self::CutOff(index, nth) => {
                format!(
                    "the travel that closes the port of `{}`",
                    chamber(index, nth)
                )
            }
            Self::Maximum(r, c) => format!("the maximum of `{}`", compartment(r, c)),
            Self::Minimum(r, c) => format!("the minimum of `{}`", compartment(r, c)),
            Self::LeftWhenDrawnOff(r, c) => {
                format!("what a syringe leaves in `{}`", compartment(r, c))
            }
            Self::FeedHose(r, c) => format!("the contents of the hose of `{}`", compartment(r, c)),
        }
    }
}

fn collapse<T: Copy>(bounds: &mut Bounds<T>) {
    *bounds = bounds.collapsed();
}

fn set_measured<T: Copy>(figure: &mut bleedwright_network::Figure<T>) {
    *figure = figure.measured();
}
