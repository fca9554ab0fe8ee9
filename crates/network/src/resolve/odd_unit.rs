//! Lengths in other units than the rest of the file: `62 mm` where inches are meant reads well.

use crate::bounds::Bounds;
use crate::code::Code;
use crate::finding::Finding;
use crate::place::{PathStep, Place, Walk};
use crate::quantity::is_in_inches;
use crate::units::Quantity;

/// ASSUMPTION: a file is written in the units of four fifths of its lengths, and of four lengths at least.
const FEWEST: usize = 4;

/// The lengths of a file as they were read.
#[derive(Default)]
pub(super) struct Lengths(Vec<Written>);

struct Written {
    place: Place,
    text: String,
    is_in_inches: bool,
    low_mm: f64,
    high_mm: f64,
}

impl Lengths {
    pub(super) fn note<Q: Quantity>(&mut self, text: &str, bounds: Bounds<Q>, walk: &Walk<'_>) {
        let unit = &Q::units()[0];
        let place = walk.place();
        // Pipes and spanners are sold by sizes of both kinds, and fractions are sizes too.
        let is_size =
            text.contains('/') || matches!(field(&place), Some("size" | "wall" | "spanner"));
        if unit.names[0] == "mm"
            && !is_size
            && let Some(is_in_inches) = is_in_inches(text)
        {
            self.0.push(Written {
                place,
                text: text.trim().to_owned(),
                is_in_inches,
                low_mm: (unit.read)(&bounds.low),
                high_mm: (unit.read)(&bounds.high),
            });
        }
    }

    /// Whether nearly all lengths are in inches; none where the file is mixed.
    pub(super) fn inches(&self) -> Option<bool> {
        let inches = self.0.iter().filter(|it| it.is_in_inches).count();
        let metric = self.0.len() - inches;
        if inches >= FEWEST && inches >= 4 * metric {
            Some(true)
        } else if metric >= FEWEST && metric >= 4 * inches {
            Some(false)
        } else {
            None
        }
    }

    /// A warning for every length that is in other units than the rest and lies outside of all its like.
    pub(super) fn odd(&self) -> Vec<Finding> {
        let Some(inches) = self.inches() else {
            return Vec::new();
        };
        let (usual, odd): (Vec<&Written>, Vec<&Written>) =
            self.0.iter().partition(|it| it.is_in_inches == inches);
        let findings = odd.into_iter().filter_map(|odd| {
            let like = || {
                usual
                    .iter()
                    .filter(|it| kind(&it.place) == kind(&odd.place))
            };
            let low = like().map(|it| it.low_mm).reduce(f64::min)?;
            let high = like().map(|it| it.high_mm).reduce(f64::max)?;
            let is_far = odd.high_mm < low || odd.low_mm > high;
            let [theirs, shown] = if inches {
                ["inches", "in"]
            } else {
                ["metric units", "mm"]
            };
            let size = if inches { 25.4 } else { 1.0 };
            is_far.then(|| {
                Finding::new(
                    Code::OddUnit,
                    odd.place.clone(),
                    format!(
                        "`{}` in a file of {theirs}, and far from every other `{}` of its kind",
                        odd.text,
                        field(&odd.place).unwrap_or_default()
                    ),
                    "measure it again, and write it in the units of the others",
                )
                .allowing(format!(
                    "the others are {:.3} to {:.3} {shown}",
                    low / size,
                    high / size
                ))
            })
        });
        findings.collect()
    }
}

fn field(place: &Place) -> Option<&'static str> {
    match place {
        Place::Path(steps) => steps.iter().rev().find_map(|step| match step {
            PathStep::Field(name) => Some(*name),
            PathStep::Item(_) => None,
        }),
        Place::Bytes(_) | Place::Option(_) => None,
    }
}

/// What is compared with each other: the same field, of lines or of other things.
fn kind(place: &Place) -> Option<(bool, &'static str)> {
    let Place::Path(steps) = place else {
        return None;
    };
    Some((
        steps.first() == Some(&PathStep::Field("lines")),
        field(place)?,
    ))
}
