//! What no vehicle has, or no workshop: it ends in a finding, not in a panic or
//! in minutes of work.

use crate::demo::{load_demo, plan_of};
use bleedwright_benches::{block_star, caliper_chain, tee_chain, union_chain};
use bleedwright_network::{Code, Finding, load_up_to};
use bleedwright_planner::{
    MOST_WORK, Options, TEMPERATURES_DEGC, derived_order, fluid_state, liquid, order_certainty,
    plan, worth_measuring,
};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

/// The codes of what stops a plan.
fn errors(findings: &[Finding]) -> Vec<Code> {
    let errors = findings.iter().filter(|finding| finding.is_error());
    errors.map(|finding| finding.code).collect()
}

/// Whoever calls the planner may write any number into its options.
#[test]
fn no_temperature_is_a_panic() {
    let network = &load_demo("lapwing");
    let [coldest, warmest] = TEMPERATURES_DEGC;
    let infinite = f64::INFINITY;
    for degc in [
        f64::NAN,
        infinite,
        -infinite,
        f64::MAX,
        f64::MIN,
        -273.15,
        -300.0,
        -40.1,
        60.1,
        100.0,
        150.0,
        1e9,
    ] {
        let options = Options {
            temperature: ThermodynamicTemperature::new::<degree_celsius>(degc),
            ..Options::default()
        };
        let planned = plan(network, &options);
        assert!(planned.plan.is_none(), "{degc}");
        assert_eq!(errors(&planned.findings), [Code::Temperature], "{degc}");
        assert!(order_certainty(network, &options).is_none(), "{degc}");
        assert!(derived_order(network, &options).is_empty(), "{degc}");
        let [state, usual] = [&options, &Options::default()].map(|it| fluid_state(network, it));
        assert_eq!(state.density.nominal, usual.density.nominal);
        let _of_the_default = liquid(network, &options);
    }
    for degc in [coldest, -0.0, 20.0, warmest] {
        let options = Options {
            temperature: ThermodynamicTemperature::new::<degree_celsius>(degc),
            ..Options::default()
        };
        assert!(plan(network, &options).plan.is_some(), "{degc}");
    }
}

/// The runs of a chain with a brake at every joint grow with the square of its
/// parts, the work of brakes in a row with the cube. Counted, not timed.
#[test]
fn runs_that_are_too_long_together_are_refused() {
    let default = Options::default();
    let found = |text: &str| {
        let loaded = load_up_to(text.as_bytes(), text.len());
        let network = loaded.sound_network().expect("it is sound");
        let planned = plan(network, &default);
        let findings = errors(&planned.findings);
        assert_eq!(
            planned.plan.is_none(),
            findings.contains(&Code::RunsTooLong)
        );
        if planned.plan.is_none() {
            assert!(derived_order(network, &default).is_empty());
            assert!(order_certainty(network, &default).is_none());
        }
        planned.plan.map(|plan| plan.steps.len())
    };
    assert_eq!(found(&tee_chain(200)), Some(100));
    // 2,100 runs of 2 to 2,101 lines: 2,208,150 in all.
    assert_eq!(found(&tee_chain(4_200)), None);
    assert_eq!(found(&tee_chain(20_000)), None);
    assert_eq!(found(&caliper_chain(40)), Some(40));
    // The squares of 1 to 200 make 2,686,700.
    assert_eq!(found(&caliper_chain(200)), None);
    assert_eq!(found(&caliper_chain(10_000)), None);
    assert_eq!(found(&block_star(1_000)), Some(999));
    assert_eq!(found(&union_chain(5_000)), Some(1));
}

/// One long run: few amounts, but each passes thousands of parts, and so does
/// every network that is built for a figure.
#[test]
fn measuring_is_not_weighed_over_runs_that_are_too_long() {
    let text = union_chain(500);
    let loaded = load_up_to(text.as_bytes(), text.len());
    let network = loaded.sound_network().expect("it is sound");
    let plan = plan_of(network, &Options::default());
    let worth = worth_measuring(network, &Options::default(), &plan, 5);
    let why = worth.left_out.expect("500 figures times 2,000 parts");
    assert!(!why.is_by_amounts, "{why:?}");
    assert!(why.figures * why.visits <= MOST_WORK, "{why:?}");
    assert!(worth.measurements.is_empty());
}
