//! Pipes and screws.

use crate::liquid;
use bleedwright_hydraulics::HydraulicResistance;
use bleedwright_hydraulics::elastic::hose::{Expansion, expansion_limit};
use bleedwright_hydraulics::fluid::{Grade, Properties};
use bleedwright_hydraulics::pipe::Pipe;
use bleedwright_hydraulics::screw::Drilling;
use proptest::prelude::*;
use uom::si::f64::{Length, Pressure, ThermodynamicTemperature};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::{pascal, psi};
use uom::si::thermodynamic_temperature::degree_celsius;

fn pipe(bore_mm: f64, length_m: f64) -> Pipe {
    Pipe::new(
        Length::new::<millimeter>(bore_mm),
        Length::new::<meter>(length_m),
    )
    .expect("both are above zero")
}

fn drilling(bore_mm: f64, length_mm: f64) -> Drilling {
    Drilling::new(
        Length::new::<millimeter>(bore_mm),
        Length::new::<millimeter>(length_mm),
    )
    .expect("both are above zero")
}

fn pa(pressure_pa: f64) -> Pressure {
    Pressure::new::<pascal>(pressure_pa)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn more_viscosity_is_never_less_resistance(
        bore_mm in 0.5_f64..10.0, length_m in 0.01_f64..10.0, nu in 0.5_f64..2000.0, more in 0.0_f64..2000.0,
        pressure_pa in 0.0_f64..1e6,
    ) {
        let (thin, thick) = (liquid(1050.0, nu, 33.0), liquid(1050.0, nu + more, 33.0));
        let pipe = pipe(bore_mm, length_m);
        prop_assert!(pipe.resistance(thick.dynamic_viscosity()) >= pipe.resistance(thin.dynamic_viscosity()));
        let drilling = drilling(bore_mm, 8.0);
        let behind = |liquid| {
            drilling.loss(liquid).flow_behind(HydraulicResistance::default(), pa(pressure_pa))
        };
        prop_assert!(behind(&thick) <= behind(&thin));
    }

    #[test]
    fn flow_is_odd_in_the_sign_of_the_pressure(
        bore_mm in 0.5_f64..10.0, nu in 0.5_f64..2000.0, pressure_pa in -1e6_f64..1e6, pipework in 0.0_f64..1e12,
    ) {
        let loss = drilling(bore_mm, 8.0).loss(&liquid(1050.0, nu, 33.0));
        let pipework = HydraulicResistance::new(pipework);
        let through = |pressure| loss.flow_behind(pipework, pressure);
        prop_assert_eq!(through(pa(pressure_pa)), -through(pa(-pressure_pa)));
    }

    #[test]
    fn the_closed_form_takes_up_the_whole_pressure(
        bore_mm in 0.5_f64..4.0, length_mm in 1.0_f64..20.0, nu in 0.5_f64..2000.0, pressure_pa in -1e6_f64..1e6,
        pipework in 0.0_f64..1e12,
    ) {
        let liquid = liquid(1050.0, nu, 33.0);
        let pipework = HydraulicResistance::new(pipework);
        let drilling = drilling(bore_mm, length_mm);
        let flow = drilling.loss(&liquid).flow_behind(pipework, pa(pressure_pa));
        let lost = pipework.pressure(flow) + drilling.loss(&liquid).pressure(flow);
        prop_assert!((lost.value - pressure_pa).abs() <= 1e-9 * pressure_pa.abs());
    }

    #[test]
    fn warmer_fluid_is_never_thicker(celsius in -40.0_f64..100.0, warmer in 0.0_f64..140.0, index in 0_usize..6) {
        let fluid = Properties::of(Grade::ALL[index]).expect("the table is sound");
        let at = |value: f64| {
            fluid.at(ThermodynamicTemperature::new::<degree_celsius>(value)).expect("inside the range")
        };
        let (cold, warm) = (at(celsius), at((celsius + warmer).min(100.0)));
        let slack = 1.0 + 1e-9;
        let (thick, thin) = (cold.kinematic_viscosity, warm.kinematic_viscosity);
        prop_assert!(thin.low.value <= thick.low.value * slack);
        prop_assert!(thin.nominal.value <= thick.nominal.value * slack);
        prop_assert!(thin.high.value <= thick.high.value * slack);
        prop_assert!(warm.density.nominal <= cold.density.nominal);
    }

    #[test]
    fn more_pressure_swells_a_hose_no_less(
        bore_mm in 1.0_f64..5.9, pressure_psi in 0.0_f64..2900.0, more in 0.0_f64..1.0, length_m in 0.05_f64..2.0,
    ) {
        let swell = |expansion, pressure| {
            expansion_limit(
                Length::new::<millimeter>(bore_mm),
                expansion,
                Pressure::new::<psi>(pressure),
                Length::new::<meter>(length_m),
            )
            .expect("inside the table")
        };
        let higher = pressure_psi + more * (2900.0 - pressure_psi);
        for expansion in [Expansion::Regular, Expansion::Low] {
            prop_assert!(swell(expansion, higher) >= swell(expansion, pressure_psi));
        }
        prop_assert!(swell(Expansion::Regular, higher) >= swell(Expansion::Low, higher));
    }
}
