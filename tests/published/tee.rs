//! Three laminar pipes at a tee: the split of the flow in closed form.
//!
//! 3.33 mm pipe, 15 mm2/s, 1050 kg/m3, 1 bar; trunk 3.0 m, branches 0.6 m and 2.4 m, both open. Hagen and Poiseuille's
//! law makes it two resistances side by side behind a third; the values were computed from that by hand and confirmed
//! by EPANET within its rounded constants.

use bleedwright_hydraulics::flow::{BranchLaw, FlowNetwork};
use std::f64::consts::PI;
use uom::si::f64::{Length, MassDensity, Pressure};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::{bar, pascal};
use uom::si::volume_rate::milliliter_per_second;

#[test]
fn flows_and_pressure_at_the_tee() {
    let pipe = |length_m: f64| {
        BranchLaw::linear(128.0 * 15e-6 * 1050.0 * length_m / (PI * 3.33e-3_f64.powi(4)))
    };
    let level = Length::default();
    let mut network = FlowNetwork::new();
    let source = network.add_end(level, Pressure::new::<bar>(1.0));
    let near = network.add_end(level, Pressure::default());
    let far = network.add_end(level, Pressure::default());
    let tee = network.add_joint(level);
    let trunk = network.add_branch(source, tee, pipe(3.0));
    let short = network.add_branch(tee, near, pipe(0.6));
    let long = network.add_branch(tee, far, pipe(2.4));
    let flows = network
        .solve(MassDensity::new::<kilogram_per_cubic_meter>(1050.0))
        .expect("it has one solution");
    for (branch, expected) in [
        (trunk, 5.506_264_064),
        (short, 4.405_011_251),
        (long, 1.101_252_813),
    ] {
        let flow = flows.through(branch).get::<milliliter_per_second>();
        assert!((flow - expected).abs() < 5e-10, "{flow} and {expected}");
    }
    let pressure = flows.gauge_pressure(tee).expect("it is reached");
    assert!((pressure.get::<pascal>() - 13_793.103_448).abs() < 5e-7);
}
