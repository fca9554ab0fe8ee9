//! Pushes that nobody measured: without a gauge, a foot tells light from hard and no more.

use bleedwright_network::Bounds;
use uom::si::f64::Force;
use uom::si::force::newton;

/// How hard somebody pushed who has no gauge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Push {
    /// As a driver brakes before a bend.
    Light,
    /// As hard as before an obstacle, short of bracing against the seat.
    Hard,
}

impl Push {
    /// The force that it stands for, in N: least, usual, most.
    ///
    /// ASSUMPTION, no source: wide enough that two people mean the same by it.
    pub fn force(self, is_by_hand: bool) -> Bounds<Force> {
        let [low, nominal, high] = match (self, is_by_hand) {
            (Self::Light, false) => [30.0, 50.0, 100.0],
            (Self::Hard, false) => [200.0, 300.0, 500.0],
            (Self::Light, true) => [10.0, 20.0, 50.0],
            (Self::Hard, true) => [60.0, 100.0, 200.0],
        };
        Bounds {
            low,
            nominal,
            high,
        }
        .map(Force::new::<newton>)
    }
}
