//! Volumes of a simulated bleed.

use super::{config, plan_of};
use crate::generated::cases;
use bleedwright_simulation::{Parameters, simulate};
use proptest::prelude::*;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

proptest! {
    #![proptest_config(config())]

    /// Air leaves by the screws and by nothing else, and what comes out is
    /// what was pushed.
    #[test]
    fn air_and_fluid_balance(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        let outcome = simulate(network, &case.options, &plan, &Parameters::default())
            .map_err(|error| TestCaseError::fail(error.to_string()))?;
        let contents_ml = outcome.contents.get::<milliliter>();
        prop_assert!(outcome.balance_residual.get::<milliliter>() <= 1e-9 * contents_ml);
        prop_assert!(outcome.air_left <= outcome.air_at_start * (1.0 + 1e-9));
        prop_assert!(outcome.air_left >= Volume::default());
        prop_assert_eq!(outcome.steps.len(), plan.steps.len());
        for (done, step) in outcome.steps.iter().zip(&plan.steps) {
            prop_assert!(done.air_out <= done.out * (1.0 + 1e-9) + step.draw_back.unwrap_or_default());
            if let Some(old) = done.old_left {
                prop_assert!(old >= Volume::default() && old <= outcome.contents * (1.0 + 1e-9));
            }
        }
        let last = outcome.curve.last().expect("the curve has its start");
        prop_assert!((last.air - outcome.air_left).abs().get::<milliliter>() <= 1e-9 * contents_ml);
    }
}
