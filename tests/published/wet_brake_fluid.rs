//! Boiling points of brake fluid with water in it. A DOT 4 fluid measured for a university thesis (read; author and title
//! were not recorded): 233 degC at 0.28 %, 140 degC at 4.0 %. Typical DOT 3 by a trade article (second-hand): 187, 160, 145
//! degC at 1, 2, 3 %. The law's wet minima at the nominal 3.7 %: 140, 155, 180 degC (FMVSS 116 S5.1.2). A data sheet of a
//! DOT 4 fluid (second-hand): 290 degC dry, 198 wet. All in whole degrees.

use bleedwright_inspection::fluid::{BoilingEstimate, WaterCurve};
use bleedwright_network::{Bounds, Fluid};
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::{percent, ratio};
use uom::si::thermodynamic_temperature::degree_celsius;

fn estimate(grade: Fluid, water_percent: f64) -> BoilingEstimate {
    let moisture = Bounds::exact(Ratio::new::<percent>(water_percent));
    BoilingEstimate::new(grade, moisture, None).expect("the grade takes up water")
}

#[test]
fn every_published_point_lies_inside_the_bounds() {
    for (grade, water, printed_degc) in [
        (Fluid::Dot4, 0.28, 233.0),
        (Fluid::Dot4, 4.0, 140.0),
        (Fluid::Dot3, 1.0, 187.0),
        (Fluid::Dot3, 2.0, 160.0),
        (Fluid::Dot3, 3.0, 145.0),
        (Fluid::Dot3, 3.7, 140.0),
        (Fluid::Dot4, 3.7, 155.0),
        (Fluid::Dot51, 3.7, 180.0),
        (Fluid::Dot4, 3.7, 198.0),
        (Fluid::Dot4, 0.0, 290.0),
        (Fluid::Dot3, 0.0, 205.0),
        (Fluid::Dot4, 0.0, 230.0),
        (Fluid::Dot51, 0.0, 260.0),
    ] {
        let boiling = estimate(grade, water).boiling;
        let low = boiling.low.get::<degree_celsius>();
        let high = boiling.high.get::<degree_celsius>();
        assert!(
            low - 0.01 <= printed_degc && printed_degc <= high + 0.01,
            "{grade:?} at {water} %: {printed_degc} not in {low:.1} to {high:.1}"
        );
    }
}

/// The sources conflict: at 3.7 % the fluid of the thesis boils below the law's minimum for new fluid. That is shown, not
/// smoothed over.
#[test]
fn the_conflict_is_shown() {
    let sources = estimate(Fluid::Dot4, 3.7).sources;
    let says = |word: &str| {
        sources
            .iter()
            .find(|source| source.source.contains(word))
            .and_then(|source| source.boiling)
            .unwrap_or_else(|| panic!("no source with {word}: {sources:?}"))
            .get::<degree_celsius>()
    };
    assert!((says("thesis") - 142.1).abs() < 0.1, "{}", says("thesis"));
    assert!((says("minima") - 155.0).abs() < 1e-6);
    assert!((says("data sheet") - 198.0).abs() < 1e-6);
}

/// An ideal mixture, with nothing fitted but a dry point of 288 degC, comes within half a degree of the thesis and stands -1.8,
/// 0.7 and 3.2 K from the article. It speaks for the shape of the curve, not for its exactness.
#[test]
fn an_ideal_mixture_comes_near_both() {
    let dry = ThermodynamicTemperature::new::<degree_celsius>(288.0);
    let ideal = WaterCurve::new(dry, Ratio::new::<ratio>(1.0));
    for (water, printed_degc, known_difference_k) in [
        (1.0, 187.0, -1.8),
        (2.0, 160.0, 0.7),
        (3.0, 145.0, 3.2),
        (4.0, 140.0, 0.3),
        (0.28, 233.0, 0.4),
    ] {
        let found = ideal
            .boiling(Ratio::new::<percent>(water))
            .get::<degree_celsius>();
        let difference_k = found - printed_degc;
        assert!(
            (difference_k - known_difference_k).abs() < 0.06,
            "{water} %: {found:.2} against {printed_degc}"
        );
    }
}

/// Beyond the last published point the estimate says so, and beyond 8 % there is none.
#[test]
fn extrapolation_is_marked_and_ends() {
    assert!(!estimate(Fluid::Dot4, 4.0).is_extrapolated);
    assert!(estimate(Fluid::Dot4, 4.1).is_extrapolated);
    assert!(!estimate(Fluid::Dot51, 3.7).is_extrapolated);
    assert!(estimate(Fluid::Dot51, 3.8).is_extrapolated);
    let moisture = Bounds::exact(Ratio::new::<percent>(8.1));
    assert_eq!(BoilingEstimate::new(Fluid::Dot4, moisture, None), None);
}
