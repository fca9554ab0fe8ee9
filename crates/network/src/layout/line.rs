//! Pipes, hoses and direct joints.

use super::words::{Expansion, HoseMaterial};
use crate::bounds::{Bounds, Figure};
use uom::si::f64::{Area, Length, Volume};

/// A line between two parts.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its name.
    pub id: String,
    /// One end.
    pub from: LineEnd,
    /// The other end.
    pub to: LineEnd,
    /// What it is made of.
    pub kind: LineKind,
    /// Points on the way whose height is known.
    pub via: Vec<Via>,
}

/// An end as written: `part` or `part.port`.
#[derive(Clone, Debug)]
pub struct LineEnd {
    /// The part's name.
    pub part: String,
    /// The port, where one is named.
    pub port: Option<String>,
}

impl LineEnd {
    /// As it is written.
    pub fn text(&self) -> String {
        match &self.port {
            Some(port) => format!("{}.{port}", self.part),
            None => self.part.clone(),
        }
    }
}

/// What a line is.
#[derive(Clone, Debug)]
pub enum LineKind {
    /// A rigid pipe.
    Pipe {
        /// Inside diameter.
        bore: Figure<Length>,
        /// Developed length.
        length: Bounds<Length>,
        /// The nominal size the bore came from.
        size: Option<PipeSize>,
    },
    /// A flexible hose.
    Hose {
        /// Inside diameter.
        bore: Figure<Length>,
        /// Free length.
        length: Bounds<Length>,
        /// What it is made of, where the layout says so.
        material: Option<HoseMaterial>,
        /// Its expansion class, where the layout says so.
        expansion: Option<Expansion>,
    },
    /// A part screwed straight into another.
    Direct,
}

/// A nominal pipe size, as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PipeSize {
    /// Outside diameter by wall, for printing.
    pub name: String,
}

/// A point on the way of a line.
#[derive(Clone, Debug)]
pub struct Via {
    /// Distance from the `from` end.
    pub at: Option<Bounds<Length>>,
    /// Height above the ground.
    pub height: Bounds<Length>,
}

impl Line {
    /// Its length; a direct joint has none.
    pub fn length(&self) -> Bounds<Length> {
        match &self.kind {
            LineKind::Pipe { length, .. } | LineKind::Hose { length, .. } => *length,
            LineKind::Direct => Bounds::exact(Length::default()),
        }
    }

    /// Its bore; a direct joint has none.
    pub fn bore(&self) -> Option<Bounds<Length>> {
        match &self.kind {
            LineKind::Pipe { bore, .. } | LineKind::Hose { bore, .. } => Some(bore.bounds),
            LineKind::Direct => None,
        }
    }

    /// Bore area times length.
    pub fn contents(&self) -> Bounds<Volume> {
        let area = self
            .bore()
            .map_or(Bounds::exact(Area::default()), bore_area);
        area.zip(self.length(), |area, length| area * length)
    }

    /// Whether a clamp may be put on it without spoiling it: rubber hoses
    /// only, and only with a clamp made for the purpose.
    pub fn may_be_clamped(&self) -> bool {
        matches!(
            self.kind,
            LineKind::Hose {
                material: Some(HoseMaterial::Rubber),
                ..
            }
        )
    }
}

/// The area of a round bore.
pub(crate) fn bore_area(bore: Bounds<Length>) -> Bounds<Area> {
    bore.map(|bore| bore * bore * std::f64::consts::FRAC_PI_4)
}
