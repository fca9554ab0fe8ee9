//! Fluid that moves without a push through an open screw: by gravity before the first step, back into the syringe, back
//! out of the hose.

use crate::bleed::{Bleed, air_of};
use crate::done::Done;
use crate::slug::{Direction, Matter, Slug};
use crate::system::Passed;
use bleedwright_network::{CircuitId, ScrewId};
use bleedwright_planner::Plan;
use uom::si::f64::Volume;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// Gravity is followed in drips; when less than a drip of air comes, fluid has arrived.
const DRIP_ML: f64 = 0.2;

/// A screw that takes longer than this many drips is shut.
const MOST_DRIPS: u32 = 100_000;

impl Bleed<'_, '_> {
    /// What the plan does before the first step: each of these screws is open
    /// until fluid drips from it.
    pub(crate) fn fill_by_gravity(&mut self, plan: &Plan) {
        let height = self.parameters.passage_height.get::<ratio>();
        for screw in &plan.gravity_first {
            let way = self.system.way(*screw, height, Direction::Out);
            for _ in 0..MOST_DRIPS {
                let out = self.system.push(&way, DRIP_ML, Direction::Out);
                let air_ml = air_of(&out);
                self.leave(air_ml);
                // Pieces of a drip need not add up to it in the last digit.
                if air_ml < DRIP_ML * (1.0 - 1e-9) {
                    break;
                }
            }
        }
    }

    /// Air that is out of the circuits.
    pub(crate) fn leave(&mut self, air_ml: f64) {
        self.air_out_ml += air_ml;
        self.air_ml -= air_ml;
    }

    /// The reverse method's last part: air at the top of the brake comes out
    /// at the screw.
    pub(crate) fn draw_back(
        &mut self,
        ways: &[(ScrewId, CircuitId, Vec<Passed>)],
        back: Volume,
        done: &mut Done,
    ) {
        let height = self.parameters.passage_height.get::<ratio>();
        for (screw, _, _) in ways {
            let way = self.system.way(*screw, height, Direction::Out);
            let out = self
                .system
                .push(&way, back.get::<milliliter>(), Direction::Out);
            let air_ml = air_of(&out);
            done.air_ml += air_ml;
            self.leave(air_ml);
        }
    }

    /// Fluid and air that the hose gives back: what left last comes first, and
    /// fluid from the jar once the hose is empty. It pushes the way back into
    /// the chamber and the reservoir.
    pub(crate) fn come_back(&mut self, way: &[Passed], volume_ml: f64, done: &mut Done) {
        if volume_ml <= 0.0 {
            return;
        }
        let mut slugs = self.hose.take(volume_ml, Direction::Back);
        let given_ml: f64 = slugs.iter().map(|slug| slug.volume_ml).sum();
        slugs.push(Slug {
            matter: Matter::Liquid,
            volume_ml: (volume_ml - given_ml).max(0.0),
        });
        let entered_ml = air_of(&slugs);
        let up = self.system.push_slugs(way, slugs, Direction::Back);
        done.out_ml -= volume_ml;
        done.air_ml -= entered_ml;
        self.out_ml -= volume_ml;
        // Air that reaches the reservoir is out as well.
        self.leave(air_of(&up) - entered_ml);
    }
}
