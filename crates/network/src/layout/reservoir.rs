//! Reservoirs.

use crate::bounds::{Bounds, Figure};
use uom::si::f64::{Length, Volume};
use uom::si::volume::milliliter;

/// A reservoir with one or more compartments.
#[derive(Clone, Debug)]
pub struct Reservoir {
    /// Its name.
    pub id: String,
    /// Height of the fluid above the ground.
    pub height: Option<Bounds<Length>>,
    /// Whether a switch watches its level; none where nobody said.
    pub level_switch: Option<bool>,
    /// Its compartments; at least one.
    pub compartments: Vec<Compartment>,
}

/// One compartment: fluid that only its own chambers can draw.
#[derive(Clone, Debug)]
pub struct Compartment {
    /// Its name.
    pub id: String,
    /// Contents at the maximum mark.
    pub max: Bounds<Volume>,
    /// Contents at the minimum mark.
    pub min: Option<Bounds<Volume>>,
    /// Contents at the level of a take-off above the ports: a clutch that
    /// draws from the same bottle runs dry below it.
    pub take_off: Option<Bounds<Volume>>,
    /// What a syringe leaves when it draws the fluid off to just above the
    /// ports.
    pub left_when_drawn_off: Figure<Volume>,
    /// The chambers it feeds, as written.
    pub feeds: Vec<String>,
    /// The hose to a remote cylinder.
    pub hose: Option<FeedHose>,
}

impl Compartment {
    /// What may be drawn between two fillings, wherever inside its tolerance
    /// each mark is: half of the smallest maximum, less where the minimum
    /// mark or a take-off is higher than that (TM 10-3930-618-20 keeps the
    /// reservoir at least half full; elsewhere it is common practice).
    pub fn usable(&self) -> Volume {
        let down_to_half = self.max.low / 2.0;
        self.levels().fold(down_to_half, |usable, level| {
            usable.min(self.max.low - level.high)
        })
    }

    fn levels(&self) -> impl Iterator<Item = Bounds<Volume>> {
        self.min.into_iter().chain(self.take_off)
    }
}

/// The hose from a remote reservoir to its cylinder.
#[derive(Clone, Debug)]
pub struct FeedHose {
    /// The chamber it leads to, where the compartment feeds several.
    pub to: Option<String>,
    /// Its contents.
    pub contents: Bounds<Volume>,
}

/// Two volumes nearer to each other than this are one: the same millilitres, written or added up in another way.
const NO_DIFFERENCE_ML: f64 = 1e-6;

/// Whether a volume is less than another one, and not by the last digits of its float alone.
pub(crate) fn is_less(volume: Volume, other: Volume) -> bool {
    volume + Volume::new::<milliliter>(NO_DIFFERENCE_ML) < other
}
