//! What is seen between the steps.

use crate::demo::{ALL, load_demo};
use bleedwright_planner::{Options, Purpose, plan};
use bleedwright_simulation::{Parameters, Scene, simulate, watch};
use uom::si::volume::milliliter;

/// What is seen between the steps adds up to what the outcome says of them.
#[test]
fn scenes_add_up_to_the_steps() {
    for name in ALL {
        let network = &load_demo(name);
        for purpose in [Purpose::Renew, Purpose::Fill] {
            let options = Options {
                purpose: Some(purpose),
                depressurised: true,
                ..Options::default()
            };
            let plan = plan(network, &options).plan.expect("it can be planned");
            let parameters = Parameters::default();
            let (outcome, scenes) =
                watch(network, &options, &plan, &parameters).expect("strokes can be followed");
            assert_eq!(
                simulate(network, &options, &plan, &parameters).as_ref(),
                Ok(&outcome),
                "{name}: watching changes nothing"
            );
            assert_eq!(scenes.len(), plan.steps.len() + 1, "{name}");
            let sum = |scene: &Scene, read: &dyn Fn(&bleedwright_simulation::Held) -> f64| -> f64 {
                scene.held.iter().map(read).sum()
            };
            for (step, scene) in outcome.steps.iter().zip(&scenes[1..]) {
                assert_eq!(step.number, scene.step, "{name}");
                let air = sum(scene, &|held| held.air.get::<milliliter>());
                assert!(
                    (air - step.air_left.get::<milliliter>()).abs() < 1e-9,
                    "{name} {air}"
                );
                // Old fluid that chamber and reservoir sent after it is in no element.
                if let Some(left) = step.old_left {
                    let old = sum(scene, &|held| {
                        held.old.expect("it is renewed").get::<milliliter>()
                    });
                    let left = left.get::<milliliter>();
                    assert!(old <= left + 1e-9, "{name}: {old} of {left}");
                }
                let volume = sum(scene, &|held| held.volume.get::<milliliter>());
                assert!(
                    (volume - outcome.contents.get::<milliliter>()).abs() < 1e-9,
                    "{name}"
                );
                assert!(!scene.passed.is_empty(), "{name}");
            }
            // Nothing that a step passes grows older.
            for pair in scenes.windows(2) {
                for (before, after) in pair[0].held.iter().zip(&pair[1].held) {
                    if pair[1].passed.contains(&before.element)
                        && let (Some(before), Some(after)) = (before.old, after.old)
                    {
                        assert!(
                            after.get::<milliliter>() <= before.get::<milliliter>() + 0.5,
                            "{name}: {before:?} {after:?}"
                        );
                    }
                }
            }
        }
    }
}
