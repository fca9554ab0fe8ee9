//! What must hold for every reading.

use bleedwright_inspection::fluid::{
    BottleReading, BottleVerdict, FluidReading, Label, Look, Subject, Verdict, judge,
};
use bleedwright_network::{Bounds, Fluid};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::year;

const GLYCOL: [Fluid; 4] = [
    Fluid::Dot3,
    Fluid::Dot4,
    Fluid::Dot4LowViscosity,
    Fluid::Dot51,
];

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 1000,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

fn degc(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(value)
}

fn moisture(low: f64, more: f64, still_more: f64) -> Bounds<Ratio> {
    Bounds {
        low,
        nominal: low + more,
        high: low + more + still_more,
    }
    .map(Ratio::new::<percent>)
}

prop_compose! {
    fn label()(
        dry in option::of(200.0..350.0_f64),
        wet in option::of(120.0..199.0_f64),
    ) -> Label {
        Label { dry: dry.map(degc), wet: wet.map(degc) }
    }
}

prop_compose! {
    fn bottle()(
        grade in option::of(select(Fluid::ALL)),
        wetness in option::of(0.0..20.0_f64),
        opened in option::of(0.0..20.0_f64),
        label in label(),
    ) -> BottleReading {
        BottleReading {
            grade,
            moisture: wetness.map(|wet| moisture(wet, 0.0, 0.0)),
            opened_for: opened.map(Time::new::<year>),
            label,
        }
    }
}

prop_compose! {
    fn reading()(
        grade in option::of(select(Fluid::ALL)),
        required in option::of(select(Fluid::ALL)),
        mixed_with in proptest::collection::vec(select(Fluid::ALL), 0..3),
        wetness in option::of((0.0..10.0_f64, 0.0..1.0_f64, 0.0..1.0_f64)),
        boiling in option::of((90.0..330.0_f64, 0.0..20.0_f64)),
        age in option::of(0.0..20.0_f64),
        interval in option::of(0.1..10.0_f64),
        look in option::of(select(vec![Look::Clear, Look::Water, Look::Dirt])),
        bottle in option::of(bottle()),
        is_of_the_label in any::<bool>(),
    ) -> FluidReading {
        FluidReading {
            grade,
            required,
            mixed_with,
            moisture: wetness.map(|(low, more, still_more)| moisture(low, more, still_more)),
            boiling: boiling.map(|(low, more)| Bounds { low, nominal: low + more / 2.0, high: low + more }.map(degc)),
            age: age.map(Time::new::<year>),
            interval: interval.map(Time::new::<year>),
            look,
            bottle,
            is_of_the_label,
        }
    }
}

proptest! {
    #![proptest_config(config())]

    /// Fit needs a measurement and a grade; a bottle's fit needs its moisture. The bounds stand in their order.
    #[test]
    fn fit_rests_on_a_measurement(reading in reading()) {
        let Ok(judged) = judge(&reading) else { return Ok(()) };
        if judged.verdict == Verdict::Fit {
            prop_assert!(reading.moisture.is_some() || reading.boiling.is_some());
            prop_assert!(judged.grade.is_some());
            prop_assert!(reading.grade.is_some() || reading.required.is_some());
        }
        for item in &judged.items {
            prop_assert!(item.verdict <= judged.verdict || judged.verdict == Verdict::NotChecked);
        }
        prop_assert!(judged.reasons().next().is_some());
        prop_assert!(!judged.cautions.is_empty());
        if let Some(bottle) = &judged.bottle
            && bottle.verdict == BottleVerdict::Fit
        {
            let moisture = reading.bottle.as_ref().and_then(|bottle| bottle.moisture);
            prop_assert!(moisture.is_some_and(|moisture| moisture.high.get::<percent>() < 1.0));
        }
        if let Some(estimate) = &judged.boiling {
            let boiling = estimate.boiling;
            prop_assert!(boiling.low <= boiling.nominal && boiling.nominal <= boiling.high, "{:?}", boiling);
            prop_assert!(boiling.low.get::<degree_celsius>() > 99.9);
        }
    }

    /// What is left out never makes a verdict better than it was with a bad reading, and never fit.
    #[test]
    fn leaving_a_measurement_out_never_makes_fit(reading in reading()) {
        let Ok(judged) = judge(&FluidReading { moisture: None, boiling: None, ..reading }) else { return Ok(()) };
        prop_assert_ne!(judged.verdict, Verdict::Fit);
        prop_assert!(judged.not_checked().any(|subject| subject == Subject::Moisture));
    }

    /// More water never gives a higher boiling point nor a better verdict.
    #[test]
    fn more_water_is_never_better(
        grade in select(&GLYCOL[..]),
        label in option::of(label()),
        one in (0.0..8.0_f64, 0.0..0.5_f64),
        more in 0.0..8.0_f64,
    ) {
        let at = |water: f64| {
            let bottle = label.map(|label| BottleReading { label, ..BottleReading::default() });
            let is_of_the_label = label.is_some_and(|label| label != Label::default());
            judge(&FluidReading {
                grade: Some(grade),
                moisture: Some(moisture(water, one.1, one.1)),
                bottle,
                is_of_the_label,
                ..FluidReading::default()
            })
        };
        let (drier, wetter) = (at(one.0)?, at((one.0 + more).min(19.0))?);
        prop_assert!(drier.verdict <= wetter.verdict);
        if let (Some(drier), Some(wetter)) = (drier.boiling, wetter.boiling) {
            let hair_k = 1e-9;
            for (dry, wet) in [
                (drier.boiling.low, wetter.boiling.low),
                (drier.boiling.nominal, wetter.boiling.nominal),
                (drier.boiling.high, wetter.boiling.high),
            ] {
                prop_assert!(wet.get::<degree_celsius>() <= dry.get::<degree_celsius>() + hair_k);
            }
        }
    }

    /// A higher boiling point never gives a worse verdict.
    #[test]
    fn a_higher_boiling_point_is_never_worse(
        grade in select(Fluid::ALL),
        low in 90.0..350.0_f64,
        high in 90.0..350.0_f64,
    ) {
        let at = |point: f64| {
            judge(&FluidReading {
                grade: Some(grade),
                boiling: Some(Bounds::exact(degc(point))),
                ..FluidReading::default()
            })
        };
        let (lower, higher) = (at(low.min(high))?, at(low.max(high))?);
        prop_assert!(higher.verdict <= lower.verdict);
    }

    /// The order in which fluids were added means nothing.
    #[test]
    fn the_order_of_mixing_means_nothing(reading in reading()) {
        let mut turned = reading.clone();
        turned.mixed_with.reverse();
        let verdict = |reading: &FluidReading| judge(reading).map(|judged| (judged.grade, judged.verdict));
        prop_assert_eq!(verdict(&reading), verdict(&turned));
    }
}
