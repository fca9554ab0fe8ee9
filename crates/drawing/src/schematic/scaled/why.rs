//! Why a picture is not to scale.

use crate::lettering::{printable, shortened};
use crate::picture::Weight;

/// A name in the legend is at most so long, in ems.
const NAME_EM: f64 = 16.0;

/// What stands in the way of a picture to scale, with the names of the culprits.
#[derive(Clone, Debug, PartialEq)]
pub(in super::super) enum Why {
    /// The layout gives no position at all.
    NoPositions,
    /// A part has no position and is not screwed straight onto one that has.
    NoPosition(String),
    TooNear(String, String),
    TooMany(usize),
    NoRoom(String),
    NoRoomForName(String),
    NoWay(String),
    NoRoomForNumber(String),
    /// No scale keeps the picture on a sheet.
    TooLarge,
    /// There is a picture to scale, but it is higher than this one.
    AnotherPage,
}

impl Why {
    /// In a few words, for the legend.
    pub(in super::super) fn text(&self) -> String {
        match self {
            Self::NoPositions => "not to scale".to_owned(),
            Self::NoPosition(name) => format!("not to scale: {} has no position", quoted(name)),
            Self::TooNear(a, b) => format!(
                "not to scale: {} and {} stand too near each other",
                quoted(a),
                quoted(b)
            ),
            Self::TooMany(count) => {
                format!("not to scale: {count} cylinders and parts are too many for a sheet")
            }
            Self::NoRoom(name) => {
                format!(
                    "not to scale: no room for {} beside its carrier",
                    quoted(name)
                )
            }
            Self::NoRoomForName(name) => {
                format!("not to scale: no room for the name of {}", quoted(name))
            }
            Self::NoWay(line) => format!("not to scale: no way is left for {}", quoted(line)),
            Self::NoRoomForNumber(line) => {
                format!("not to scale: no room for the number of {}", quoted(line))
            }
            Self::AnotherPage => "not to scale: that would take a page more".to_owned(),
            Self::TooLarge => "not to scale: it would not fit on a sheet".to_owned(),
        }
    }
}

fn quoted(name: &str) -> String {
    let name = printable(name);
    let short = shortened(&name, NAME_EM, Weight::Normal);
    format!("`{}`", short.unwrap_or(name))
}
