//! Bubbles.

use bleedwright_hydraulics::bubble::{Slope, Verdict, verdict};
use bleedwright_hydraulics::{Evidence, Known};
use proptest::prelude::*;
use uom::si::f64::{Length, MassDensity, SurfaceTension};
use uom::si::length::millimeter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::surface_tension::millinewton_per_meter;

fn spread(nominal: f64, share: f64) -> Known<f64> {
    Known {
        low: nominal * (1.0 - share),
        nominal,
        high: nominal * (1.0 + share),
        standing: Evidence::Guess,
    }
}

fn judge(bore_mm: Known<f64>, tension_mn_m: Known<f64>, slope: Slope) -> Verdict {
    verdict(
        bore_mm.map(Length::new::<millimeter>),
        spread(1050.0, 0.02).map(MassDensity::new::<kilogram_per_cubic_meter>),
        tension_mn_m.map(SurfaceTension::new::<millinewton_per_meter>),
        slope,
    )
    .expect("all are above zero and in their order")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_wider_bore_is_never_judged_more_stuck(
        bore_mm in 0.5_f64..10.0, wider_mm in 0.0_f64..5.0, tension in 15.0_f64..50.0, share in 0.0_f64..0.3,
    ) {
        for slope in [Slope::Upright, Slope::Sloping] {
            let at = |bore| judge(spread(bore, 0.03), spread(tension, share), slope);
            prop_assert!(at(bore_mm) <= at(bore_mm + wider_mm));
        }
    }

    #[test]
    fn knowing_less_only_leads_to_borderline(
        bore_mm in 0.5_f64..10.0, tension in 15.0_f64..50.0, share in 0.0_f64..0.15, more in 0.0_f64..0.15,
    ) {
        let sharp = judge(spread(bore_mm, 0.03), spread(tension, share), Slope::Upright);
        let blunt = judge(spread(bore_mm, 0.03), spread(tension, share + more), Slope::Upright);
        prop_assert!(blunt == sharp || blunt == Verdict::Borderline);
        let sloping = judge(spread(bore_mm, 0.03), spread(tension, share), Slope::Sloping);
        prop_assert!(sloping == sharp || sloping == Verdict::Borderline);
        prop_assert!(sloping != Verdict::Stuck);
    }
}
