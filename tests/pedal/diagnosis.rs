//! Where a fault is looked for, on drawn layouts: trials and causes.

use super::properties::{config, for_each_pedal, presses};
use crate::generated::cases;
use bleedwright_network::{HoseMaterial, LineKind};
use bleedwright_pedal::{Cause, Press, Symptom, TrialPlace, causes};
use proptest::prelude::*;
use std::collections::BTreeSet;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

proptest! {
    #![proptest_config(config())]

    /// A place is shut by a plug in an outlet or a clamp on a plain rubber hose, and never in another way.
    #[test]
    fn only_rubber_hoses_are_clamped(case in cases(), press in presses(), air_ml in 0.1..10.0_f64) {
        for_each_pedal(&case, |network, control, mechanism| {
            let press = Press { air: Vec::new(), ..press.clone() };
            let air = Volume::new::<milliliter>(air_ml);
            for trial in mechanism.trials(network, control, &press, air, &|_| true) {
                let TrialPlace::Hose(name) = &trial.place else { continue };
                let line = network.layout().lines.iter().find(|line| line.id == *name);
                let is_rubber = line.is_some_and(|line| matches!(
                    line.kind,
                    LineKind::Hose { material: Some(HoseMaterial::Rubber), .. }
                ));
                prop_assert!(is_rubber, "{name}: {line:?}");
                prop_assert!(!trial.behind.is_empty());
            }
            Ok(())
        })?;
    }

    /// Every symptom has causes on every vehicle, each once.
    #[test]
    fn every_symptom_has_causes(case in cases()) {
        for_each_pedal(&case, |network, control, mechanism| {
            for symptom in [
                Symptom::Low, Symptom::RisesWhenPumped, Symptom::Springy,
                Symptom::Sinking, Symptom::Hard, Symptom::SoftAgain,
            ] {
                let list = causes(network, control, symptom);
                prop_assert!(list.len() >= 2, "{symptom:?}: {list:?}");
                let named: BTreeSet<Cause> = list.iter().copied().collect();
                prop_assert_eq!(named.len(), list.len(), "{:?}: {:?}", symptom, list);
                // What the vehicle has not got is no cause.
                let is_named = |causes: &[Cause]| causes.iter().any(|it| named.contains(it));
                let has_drums = mechanism.chambers().flat_map(|it| &it.zones).flat_map(|it| &it.brakes).any(|it| it.is_drum);
                prop_assert!(has_drums || !is_named(&[Cause::ShoesFarLow, Cause::ShoesFar, Cause::ShoesNotBedded]), "{symptom:?}: {list:?}");
                let has_booster = control.cylinders.iter().any(|it| network.layout().cylinders[*it].booster.is_some());
                prop_assert!(has_booster || !is_named(&[Cause::NoHelp, Cause::BoosterComesIn]), "{symptom:?}: {list:?}");
            }
            Ok(())
        })?;
    }
}
