//! Facts of the trade, from general knowledge: common practice, no source. Others stand with the verbs they belong to, marked
//! in the same words: water in the fluid and in a new bottle, discs, silicone fluid, orders.

use crate::demo::{ALL, load_demo};
use bleedwright_network::Network;
use bleedwright_pedal::{Cause, Control, Mechanism, Press, Symptom, causes, controls};
use uom::si::length::millimeter;

fn controls_of(network: &Network) -> Vec<(Control, Mechanism)> {
    controls(network)
        .into_iter()
        .map(|control| {
            let mechanism = Mechanism::new(network, &control);
            (control, mechanism)
        })
        .collect()
}

/// Common practice, no source: with one circuit lost the pedal goes farther down before the other one brakes.
#[test]
fn with_one_circuit_lost_the_pedal_goes_farther_down() {
    let mut looked_at = 0;
    for name in ALL {
        let network = &load_demo(name);
        for (control, mechanism) in controls_of(network) {
            let press = Press {
                force_n: 300.0,
                ..Press::default()
            };
            let whole = mechanism.feel(&press).travel;
            for (circuit, lost) in mechanism.feel_each_lost(&press) {
                assert!(
                    lost.travel.nominal > whole.nominal && lost.travel.low >= whole.low,
                    "{name}, {}: {circuit} lost: {:?}, whole {whole:?}",
                    control.name,
                    lost.travel
                );
                looked_at += 1;
            }
        }
    }
    assert!(looked_at >= 10, "{looked_at}");
}

/// Common practice, no source: a pedal that comes up when it is pumped says clearance first; what stays springy then is
/// air. So clearances come before air in the list, pumping takes clearance away, and it takes no air away.
#[test]
fn pumping_tells_clearance_from_air() {
    for name in ALL {
        let network = &load_demo(name);
        for (control, mechanism) in controls_of(network) {
            let list = causes(network, &control, Symptom::RisesWhenPumped);
            assert!(list.len() > 1, "{name}: {list:?}");
            assert_eq!(list.last(), Some(&Cause::AirAsWell), "{name}");
            let springy = causes(network, &control, Symptom::Springy);
            assert_eq!(springy[0], Cause::Air, "{name}");
            let travel = |is_pumped, air_ml: f64| {
                let press = Press {
                    force_n: 300.0,
                    is_pumped,
                    air: vec![bleedwright_pedal::AirPocket {
                        chamber: (0, 0),
                        zone: 0,
                        volume_ml: air_ml,
                    }],
                    ..Press::default()
                };
                mechanism.feel(&press).travel.nominal.get::<millimeter>()
            };
            assert!(travel(true, 0.0) < travel(false, 0.0), "{name}");
            let by_air =
                [false, true].map(|is_pumped| travel(is_pumped, 0.5) - travel(is_pumped, 0.0));
            assert!(
                by_air[1] >= by_air[0] - 1e-6 && by_air[1] > 0.0,
                "{name}: {by_air:?}"
            );
        }
    }
}
