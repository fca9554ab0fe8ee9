//! Bounds of a vehicle of which hardly anything is known: what lies within its ranges lies within the bounds.

use crate::demo::drafted;
use bleedwright_pedal::{Choice, Mechanism, Press, controls};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use uom::si::length::millimeter;
use uom::si::pressure::bar;

const DRAWS: usize = 400;

/// A bound is tried at nine places of a range where a stop turns the direction round: so much may lie between them.
const BETWEEN_PLACES: f64 = 0.03;

fn mechanism_of_a_draft() -> Mechanism {
    let network = &drafted("X");
    let control = controls(network).swap_remove(0);
    Mechanism::new(network, &control)
}

/// Each unknown at an end of its range as often as anywhere in it: the ends are what bounds are made of.
#[test]
fn every_car_within_the_ranges_lies_within_the_bounds() {
    let mechanism = mechanism_of_a_draft();
    let mut runner = TestRunner::deterministic();
    let mut share = || {
        let tree = (-0.5..1.5_f64).new_tree(&mut runner);
        let drawn = tree.expect("a number can be drawn").current();
        drawn.clamp(0.0, 1.0)
    };
    for (force_n, is_boosted) in [(150.0, true), (300.0, true), (300.0, false), (500.0, true)] {
        let press = Press {
            force_n,
            is_boosted,
            ..Press::default()
        };
        let feel = mechanism.feel(&press);
        let holds = |value: f64, low: f64, high: f64| {
            let between = BETWEEN_PLACES * high;
            (low - between..=high + between).contains(&value)
        };
        for _ in 0..DRAWS {
            let unknowns = mechanism.unknowns().into_iter();
            let choice = unknowns.fold(Choice::nominal(), |choice, unknown| {
                choice.with(unknown, share())
            });
            let travel_mm = mechanism.travel_mm(&choice, &press);
            let [low, high] = [feel.travel.low, feel.travel.high].map(|it| it.get::<millimeter>());
            assert!(
                holds(travel_mm, low, high),
                "{force_n} N: {travel_mm} mm, bounds {low} to {high}"
            );
            let pressures = mechanism.pressures_bar(&choice, &press);
            for (circuit, pressure) in feel.circuits.iter().zip(pressures) {
                let [low, high] =
                    [circuit.pressure.low, circuit.pressure.high].map(|it| it.get::<bar>());
                assert!(
                    holds(pressure, low, high),
                    "{force_n} N, {}: {pressure} bar, bounds {low} to {high}",
                    circuit.name
                );
            }
        }
    }
}
