//! Bubbles.

use crate::liquid;
use bleedwright_hydraulics::bubble::film::pushed_speed;
use bleedwright_hydraulics::bubble::free::stokes_speed;
use bleedwright_hydraulics::bubble::sweep::{is_swept_down, largest_swept_bubble};
use bleedwright_hydraulics::bubble::{Slope, Verdict, verdict};
use bleedwright_hydraulics::pipe::Pipe;
use bleedwright_hydraulics::{Known, Standing};
use proptest::prelude::*;
use uom::si::f64::{Length, MassDensity, Pressure, Ratio, SurfaceTension, Velocity};
use uom::si::length::{meter, millimeter};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::millinewton_per_meter;
use uom::si::velocity::meter_per_second;

fn spread(nominal: f64, share: f64) -> Known<f64> {
    Known {
        low: nominal * (1.0 - share),
        nominal,
        high: nominal * (1.0 + share),
        standing: Standing::Guess,
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

    /// The criterion has no viscosity in it; the mean flow and the rise that it compares both have.
    #[test]
    fn viscosity_does_not_change_which_bubbles_are_swept(
        bore_mm in 1.0_f64..10.0, length_m in 0.1_f64..10.0, pressure_pa in 100.0_f64..1e6,
        share in 0.01_f64..0.999, nu in 0.5_f64..2000.0,
    ) {
        let bore = Length::new::<millimeter>(bore_mm);
        let pipe = Pipe::new(bore, Length::new::<meter>(length_m)).expect("both are above zero");
        let pressure = Pressure::new::<pascal>(pressure_pa);
        let liquid = liquid(1050.0, nu, 33.0);
        let bubble = bore * Ratio::new::<ratio>(share);
        let limit = largest_swept_bubble(&pipe, pressure, liquid.density()).expect("above zero");
        // At the limit itself rounding decides.
        prop_assume!((bubble / limit).value < 1.0 - 1e-9 || (bubble / limit).value > 1.0 + 1e-9);
        let mean = pipe.flow(pressure, &liquid).mean_velocity;
        let rise = stokes_speed(bubble, liquid.kinematic_viscosity());
        let is_swept = is_swept_down(bubble, &pipe, pressure, liquid.density()).expect("above zero");
        prop_assert_eq!(mean > rise, is_swept);
    }

    #[test]
    fn a_pushed_bubble_is_never_slower_than_the_flow(
        mean_m_s in 0.0_f64..0.5, more in 0.0_f64..0.1, nu in 1.0_f64..30.0, tension in 20.0_f64..40.0,
    ) {
        let liquid = liquid(1050.0, nu, tension);
        let speed = |mean: f64| pushed_speed(Velocity::new::<meter_per_second>(mean), &liquid);
        if let (Ok(slow), Ok(fast)) = (speed(mean_m_s), speed(mean_m_s + more)) {
            prop_assert!(slow.value >= mean_m_s);
            prop_assert!(slow.value <= mean_m_s / 0.36);
            prop_assert!(fast >= slow);
        }
    }
}
