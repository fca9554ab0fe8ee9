//! Every demo layout with every option: a plan comes out, and each screw in
//! scope is visited once.

use crate::demo::{ALL, load_demo, screws};
use bleedwright_network::{CircuitId, HoseMaterial, LineKind, Network};
use bleedwright_planner::{Begin, Options, Purpose, plan};
use std::collections::BTreeSet;
use uom::si::f64::{Ratio, ThermodynamicTemperature, Volume};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume::milliliter;

/// A name, and the circuits it belongs to.
type Named = (String, BTreeSet<usize>);

/// What the options of one layout can name.
struct Names {
    opened: Vec<Named>,
    compartments: Vec<Named>,
    rubber_hoses: Vec<String>,
    circuits: Vec<String>,
    screws: Vec<(String, usize)>,
}

impl Names {
    fn new(network: &Network) -> Self {
        let layout = network.layout();
        let mut opened: Vec<Named> = Vec::new();
        for (index, part) in layout.parts.iter().enumerate() {
            let circuits = network
                .cells_of_part(index)
                .filter_map(|cell| network.circuit_of_cell(cell))
                .map(CircuitId::index);
            opened.push((part.id.clone(), circuits.collect()));
        }
        for (index, cylinder) in layout.cylinders.iter().enumerate() {
            let circuits = network.circuits_of_cylinder(index).map(CircuitId::index);
            opened.push((cylinder.id.clone(), circuits.collect()));
        }
        for (index, line) in layout.lines.iter().enumerate() {
            let circuit = network
                .link_of_line(index)
                .and_then(|link| network.circuit_of_link(link));
            let circuits = circuit.map(CircuitId::index);
            opened.push((line.id.clone(), circuits.into_iter().collect()));
        }
        let mut compartments = Vec::new();
        for (r, reservoir) in layout.reservoirs.iter().enumerate() {
            let of_reservoir = |wanted: Option<usize>| {
                network
                    .circuits()
                    .filter(|(_, circuit)| {
                        circuit
                            .compartment
                            .is_some_and(|(a, b)| a == r && wanted.is_none_or(|c| b == c))
                    })
                    .map(|(id, _)| id.index())
                    .collect::<BTreeSet<usize>>()
            };
            opened.push((reservoir.id.clone(), of_reservoir(None)));
            for (c, compartment) in reservoir.compartments.iter().enumerate() {
                compartments.push((compartment.id.clone(), of_reservoir(Some(c))));
            }
        }
        let is_rubber = |kind: &LineKind| {
            matches!(
                kind,
                LineKind::Hose {
                    material: Some(HoseMaterial::Rubber),
                    ..
                }
            )
        };
        Self {
            opened,
            compartments,
            rubber_hoses: layout
                .lines
                .iter()
                .filter(|line| is_rubber(&line.kind))
                .map(|line| line.id.clone())
                .collect(),
            circuits: network
                .circuits()
                .map(|(_, circuit)| circuit.name.clone())
                .collect(),
            screws: network
                .screws()
                .map(|(id, place)| {
                    let circuit = place.circuit.expect("the demo layouts are sound");
                    (network.screw(id).id.clone(), circuit.index())
                })
                .collect(),
        }
    }
}

/// Options, and the circuits in scope; all of them where it is none.
type Variant = (Options, Option<BTreeSet<usize>>);

/// Every option of a plan, one at a time.
fn variants(names: &Names, purpose: Purpose) -> Vec<Variant> {
    let plain = Options {
        purpose: Some(purpose),
        depressurised: true,
        ..Options::default()
    };
    let mut variants = vec![(plain.clone(), None)];
    variants.extend(openings(names, &plain));
    variants.extend(settings(names, &plain));
    variants
}

/// The options that say where the system was open. Air is sought only there.
fn openings(names: &Names, plain: &Options) -> Vec<Variant> {
    let scope = |circuits: &BTreeSet<usize>| {
        (plain.purpose == Some(Purpose::Air)).then(|| circuits.clone())
    };
    let mut variants = Vec::new();
    for (name, circuits) in &names.opened {
        let mut opened = plain.clone();
        opened.opened = vec![name.clone()];
        for hose in &names.rubber_hoses {
            let mut clamped = opened.clone();
            clamped.clamped = vec![hose.clone()];
            variants.push((clamped, scope(circuits)));
        }
        variants.push((opened, scope(circuits)));
        let mut drained = plain.clone();
        drained.drained = vec![name.clone()];
        variants.push((drained, scope(circuits)));
    }
    let mut all_dry = plain.clone();
    for (name, circuits) in &names.compartments {
        all_dry.ran_dry.push(name.clone());
        let mut dry = plain.clone();
        dry.ran_dry = vec![name.clone()];
        variants.push((dry, scope(circuits)));
    }
    variants.push((all_dry, None));
    variants
}

/// All other options: the scope is the whole vehicle.
fn settings(names: &Names, plain: &Options) -> Vec<Variant> {
    let mut variants = Vec::new();
    let mut with = |change: &dyn Fn(&mut Options)| {
        let mut options = plain.clone();
        change(&mut options);
        variants.push((options, None));
    };
    with(&|options| options.begin = Begin::Nearest);
    for circuit in &names.circuits {
        with(&|options| options.circuit_first = Some(circuit.clone()));
    }
    for share in [1.0, 2.0, 10.0, 30.0] {
        with(&|options| options.residual = Ratio::new::<percent>(share));
    }
    for share in [30.0, 80.0, 100.0] {
        with(&|options| options.stroke = Ratio::new::<percent>(share));
    }
    for sizes_ml in [&[20.0][..], &[500.0, 1000.0], &[60_000.0]] {
        let sizes = || sizes_ml.iter().copied().map(Volume::new::<milliliter>);
        with(&|options| options.bottles = sizes().collect());
    }
    for degc in [-40.0, 60.0] {
        let temperature = ThermodynamicTemperature::new::<degree_celsius>(degc);
        with(&|options| options.temperature = temperature);
    }
    with(&|options| options.date = Some("5 April".to_owned()));
    for (screw, _) in &names.screws {
        with(&|options| options.done = vec![screw.clone()]);
        with(&|options| options.skip = vec![screw.clone()]);
    }
    variants
}

fn assert_plans(name: &str, purpose: Purpose) {
    let network = &load_demo(name);
    let names = Names::new(network);
    for (options, circuits) in variants(&names, purpose) {
        let is_left_out =
            |screw: &String| options.skip.contains(screw) || options.done.contains(screw);
        let mut expected: Vec<&str> = names
            .screws
            .iter()
            .filter(|(screw, circuit)| {
                !is_left_out(screw)
                    && circuits
                        .as_ref()
                        .is_none_or(|scope| scope.contains(circuit))
            })
            .map(|(screw, _)| screw.as_str())
            .collect();
        expected.sort_unstable();
        let planned = plan(network, &options);
        let codes: Vec<&str> = planned
            .findings
            .iter()
            .map(|finding| finding.code.text())
            .collect();
        if expected.is_empty() {
            assert!(
                planned.plan.is_none() && codes.contains(&"BW410"),
                "{name}: {options:?}"
            );
            continue;
        }
        let Some(plan) = planned.plan else {
            panic!("{name}: no plan with {options:?}: {:#?}", planned.findings);
        };
        let mut found = screws(&plan);
        found.sort_unstable();
        assert_eq!(found, expected, "{name}: {options:?}");
        for step in &plan.steps {
            let is_sensible = step
                .strokes()
                .is_none_or(|strokes| strokes.low >= 1 && strokes.high < 10_000);
            assert!(is_sensible, "{name}: {options:?}");
            assert!(step.push.nominal > Volume::default(), "{name}: {options:?}");
        }
    }
}

#[test]
fn renewing_with_every_option() {
    for name in ALL {
        assert_plans(name, Purpose::Renew);
    }
}

#[test]
fn removing_air_with_every_option() {
    for name in ALL {
        assert_plans(name, Purpose::Air);
    }
}

#[test]
fn filling_with_every_option() {
    for name in ALL {
        assert_plans(name, Purpose::Fill);
    }
}

/// New fluid of the same family and at least the same grade is poured in
/// without a word; another family is refused.
#[test]
fn new_fluid_of_every_grade() {
    use bleedwright_network::Fluid;
    for name in ALL {
        let network = &load_demo(name);
        let own = network
            .layout()
            .fluid
            .expect("every demo layout names its fluid");
        for fluid in Fluid::ALL {
            let options = Options {
                new_fluid: Some(*fluid),
                depressurised: true,
                ..Options::default()
            };
            let planned = plan(network, &options);
            let is_same_family = fluid.family() == own.family();
            assert_eq!(planned.plan.is_some(), is_same_family, "{name}: {fluid:?}");
            let codes: Vec<&str> = planned.findings.iter().map(|f| f.code.text()).collect();
            assert_eq!(
                codes.contains(&"BW309"),
                !is_same_family,
                "{name}: {fluid:?}"
            );
        }
    }
}

/// The plain plan of a layout without an option named: renewal of everything.
#[test]
fn a_plan_without_options_renews_everything() {
    for name in ALL {
        let network = &load_demo(name);
        let options = Options {
            depressurised: true,
            ..Options::default()
        };
        let plan = plan(network, &options)
            .plan
            .unwrap_or_else(|| panic!("{name}: no plan"));
        assert_eq!(plan.head.purpose, Purpose::Renew);
        assert_eq!(screws(&plan).len(), network.screws().count(), "{name}");
        assert!(plan.scope.iter().all(|circuit| circuit.is_bled), "{name}");
    }
}
