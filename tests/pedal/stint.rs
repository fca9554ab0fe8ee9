//! Stint, a workshop trolley with one brake: an invented vehicle small enough to be reckoned by hand.

use crate::demo::network_of;
use bleedwright_network::Network;
use bleedwright_pedal::{Mechanism, Press, Range, controls};
use uom::si::pressure::bar;

/// The sizes that a test varies.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stint {
    pub(crate) master_mm: f64,
    pub(crate) lever: f64,
    pub(crate) piston_mm: f64,
    pub(crate) clearance_mm: f64,
    pub(crate) wear_mm: f64,
    pub(crate) reservoir_ml: f64,
}

impl Default for Stint {
    fn default() -> Self {
        Self {
            master_mm: 22.225,
            lever: 4.0,
            piston_mm: 54.0,
            clearance_mm: 0.0,
            wear_mm: 10.0,
            reservoir_ml: 60.0,
        }
    }
}

impl Stint {
    /// The layout file.
    pub(crate) fn text(&self) -> String {
        let Self {
            master_mm,
            lever,
            piston_mm,
            clearance_mm,
            wear_mm,
            reservoir_ml,
        } = self;
        format!(
            r#"(
    format: 1,
    name: "Stint, workshop trolley",
    fluid: dot4,
    reservoirs: [(id: "cup", height: "0.9 m", compartments: [
        (id: "pot", max: "{reservoir_ml} ml", min: "1 ml", feeds: "cylinder"),
    ])],
    cylinders: [(
        id: "cylinder",
        kind: single(bore: "{master_mm} mm", stroke: "30 mm", cut_off: "1 mm"),
        pedal_ratio: {lever},
        free_play: "2 mm",
        flex_at_500_n: "0 mm",
        height: "0.8 m",
    )],
    parts: [(
        id: "brake",
        kind: caliper(
            mounting: sliding,
            pistons: [(bore: "{piston_mm} mm", extension: "4 mm")],
            dead_volume: "2 ml",
            wear_travel: "{wear_mm} mm",
            running_clearance: "{clearance_mm} mm",
        ),
        wheel: rear_left,
        height: "0.4 m",
        screws: [(id: "screw", at_top: true)],
    )],
    lines: [
        (id: "pipe", from: "cylinder", to: "brake", kind: pipe(size: "3/16 in", length: "1 m")),
    ],
)
"#
        )
    }

    /// The layout, which must be free of errors.
    pub(crate) fn load(&self) -> Network {
        network_of(&self.text())
    }

    pub(crate) fn mechanism(&self) -> Mechanism {
        let network = &self.load();
        let all = controls(network);
        Mechanism::new(network, &all[0])
    }

    /// Its pedal with no spring and no seal in the master cylinder, as the books draw it.
    pub(crate) fn without_drag(&self) -> Mechanism {
        let mut mechanism = self.mechanism();
        for chamber in mechanism
            .cylinders
            .iter_mut()
            .flat_map(|cylinder| &mut cylinder.chambers)
        {
            chamber.drag_n = Range {
                low: 0.0,
                nominal: 0.0,
                high: 0.0,
                ..chamber.drag_n
            };
        }
        mechanism
    }
}

/// What a force on the pedal presses in the circuit and in the brake, with all bounds, springs and seals taken away.
pub(crate) fn bar_of(stint: &Stint, force_n: f64) -> f64 {
    let feel = stint.without_drag().feel(&Press {
        force_n,
        ..Press::default()
    });
    let circuit = &feel.circuits[0];
    let found = circuit.pressure.nominal.get::<bar>();
    for pressure in [&circuit.pressure, &circuit.brakes[0].pressure] {
        for corner in [pressure.low, pressure.nominal, pressure.high] {
            assert!((corner.get::<bar>() - found).abs() <= 5e-5, "{pressure:?}");
        }
    }
    found
}
