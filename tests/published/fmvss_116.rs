//! 49 CFR 571.116 (FMVSS 116), S5.1.1: the least equilibrium reflux boiling
//! point of a dry fluid. DOT 3 205 degC (401 degF), DOT 4 230 degC (446 degF),
//! DOT 5 and DOT 5.1 260 degC (500 degF). Read as quoted elsewhere, not in the
//! law itself; printed in whole degrees.

use bleedwright_network::Fluid;

#[test]
fn least_dry_boiling_points() {
    for (fluid, printed_degc, printed_degf) in [
        (Fluid::Dot3, 205.0_f64, 401.0_f64),
        (Fluid::Dot4, 230.0, 446.0),
        (Fluid::Dot5, 260.0, 500.0),
        (Fluid::Dot51, 260.0, 500.0),
    ] {
        let found_degc = fluid
            .least_dry_boiling_point_degc()
            .expect("every DOT grade has a least boiling point");
        assert!(
            (found_degc - printed_degc).abs() < 0.5,
            "{fluid:?}: {found_degc}"
        );
        let found_degf = found_degc * 9.0 / 5.0 + 32.0;
        assert!(
            (found_degf - printed_degf).abs() < 0.5,
            "{fluid:?}: {found_degf}"
        );
    }
    // S4 and S5.1.14 know hydraulic system mineral oil, S5.1.1 sets no boiling
    // point for it.
    assert_eq!(Fluid::Mineral.least_dry_boiling_point_degc(), None);
}

/// A grade with a lower boiling point than the layout's is warned about, a
/// higher one is for the maker to allow, one of another base is refused.
#[test]
fn grades_are_held_against_the_layout() {
    use bleedwright_planner::{Options, plan};
    let network = &crate::demo::load_demo("lapwing");
    let codes = |fluid| -> Vec<&str> {
        let options = Options {
            new_fluid: Some(fluid),
            ..Options::default()
        };
        plan(network, &options)
            .findings
            .iter()
            .map(|finding| finding.code.text())
            // High points, where the bore lets air climb in that fluid.
            .filter(|code| *code != "BW302")
            .collect()
    };
    assert_eq!(codes(Fluid::Dot3), ["BW310"]);
    assert_eq!(codes(Fluid::Dot4), [""; 0]);
    assert_eq!(codes(Fluid::Dot51), ["BW324"]);
    assert_eq!(codes(Fluid::Dot5), ["BW309"]);
    assert_eq!(codes(Fluid::Mineral), ["BW309"]);
}
