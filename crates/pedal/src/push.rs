//! Pushes that nobody measured: without a gauge, a foot tells light from hard and no more.

use bleedwright_network::{Bounds, Control};
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
    pub fn force(self, on: Control) -> Bounds<Force> {
        let [low, nominal, high] = match (self, on) {
            (Self::Light, Control::Pedal) => [30.0, 50.0, 100.0],
            (Self::Hard, Control::Pedal) => [200.0, 300.0, 500.0],
            (Self::Light, Control::HandLever) => [10.0, 20.0, 50.0],
            (Self::Hard, Control::HandLever) => [60.0, 100.0, 200.0],
            (Self::Light, Control::Coupler) => [100.0, 200.0, 500.0],
            (Self::Hard, Control::Coupler) => [500.0, 1000.0, 2000.0],
        };
        Bounds { low, nominal, high }.map(Force::new::<newton>)
    }
}
