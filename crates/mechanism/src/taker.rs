//! What takes up fluid in a zone: its lines and its brakes.

use crate::assumed::{self, range};
use crate::build::{Builder, plain};
use crate::chamber::{PedalBrake, PedalHose, Zone};
use crate::guessed::Guessed;
use crate::swelling::{growth, wall_growth};
use crate::unknown::Unknown;
use bleedwright_network::{
    Bounds, BrakeKind, Cavity, CellId, CellKind, HoseMaterial, LineKind, LinkId, LinkKind, Owner,
    PartKind, Piston,
};
use std::f64::consts::FRAC_PI_4;
use uom::si::f64::Length;
use uom::si::length::{meter, millimeter};
use uom::si::volume::milliliter;

impl Builder<'_> {
    pub(crate) fn add_link(&mut self, link: LinkId, zone: &mut Zone) {
        let network = self.network;
        zone.fluid_ml += network.link(link).contents.nominal.get::<milliliter>();
        let LinkKind::Line(index) = network.link(link).kind else {
            return;
        };
        let line = &network.layout().lines[index];
        match &line.kind {
            LineKind::Pipe { bore, .. } => {
                self.assume(Guessed::PipeWall);
                zone.wall_ml_per_100_bar +=
                    wall_growth(bore.bounds.nominal) * line.contents().nominal.get::<milliliter>();
            }
            LineKind::Hose {
                bore,
                length,
                material,
                expansion,
            } => {
                zone.hoses.push(PedalHose {
                    name: line.id.clone(),
                    line: index,
                    length_m: length.nominal.get::<meter>(),
                    growth_ml_per_m: growth(bore.bounds.nominal, *material, *expansion),
                });
                self.assume(if *material == Some(HoseMaterial::Braided) {
                    Guessed::BraidedHoses
                } else {
                    Guessed::RubberHoses
                });
            }
            LineKind::Direct => {}
        }
    }

    pub(crate) fn add_brake(&mut self, cell: CellId, zone: &mut Zone) {
        let network = self.network;
        let Owner::Part(index, nth) = network.cell(cell).owner else {
            return;
        };
        let part = &network.layout().parts[index];
        let PartKind::Brake(brake) = &part.kind else {
            return;
        };
        if network.cell(cell).kind != CellKind::Cavity || brake.kind == BrakeKind::ClutchSlave {
            return;
        }
        let is_drum = brake.kind == BrakeKind::WheelCylinder;
        let mounting = match brake.kind {
            BrakeKind::Caliper { mounting } => mounting,
            _ => None,
        };
        let areas: Vec<f64> = brake.cavities.iter().map(piston_area_mm2).collect();
        let area = areas[nth];
        let per_mm_ml = corner_areas_mm2(&brake.cavities[nth]).map(|area| area / 1000.0);
        let clearance = if let Some(clearance) = brake.running_clearance {
            plain(clearance, clearance_unknown(is_drum), |value| {
                value.get::<millimeter>()
            })
        } else if is_drum {
            self.assume(Guessed::DrumClearance);
            range(assumed::DRUM_CLEARANCE_MM, Unknown::DrumClearance)
        } else {
            self.assume(Guessed::DiscClearance);
            let travel = assumed::of_mounting(assumed::DISC_CLEARANCE_MM, mounting);
            range(travel, Unknown::DiscClearance)
        };
        let give = if let Some(give) = brake.gives_at_100_bar {
            let share = area / areas.iter().sum::<f64>();
            plain(give, give_unknown(is_drum), |value| {
                value.get::<milliliter>()
            })
            .times(share)
        } else {
            let travel = if is_drum {
                self.assume(Guessed::DrumGive);
                assumed::DRUM_GIVE_MM
            } else {
                self.assume(Guessed::DiscGive);
                assumed::of_mounting(assumed::DISC_GIVE_MM, mounting)
            };
            range(travel, give_unknown(is_drum)).times_each(per_mm_ml)
        };
        let touch = if is_drum {
            self.assume(Guessed::DrumTouch);
            range(assumed::DRUM_TOUCH_BAR, Unknown::DrumTouch)
        } else {
            self.assume(Guessed::DiscTouch);
            range(assumed::DISC_TOUCH_BAR, Unknown::DiscTouch)
        };
        zone.brakes.push(PedalBrake {
            name: network.cell_name(cell),
            part: index,
            is_drum,
            clearance_ml: clearance.times_each(per_mm_ml),
            touch_bar: touch,
            give_ml_per_100_bar: give,
        });
    }
}

fn clearance_unknown(is_drum: bool) -> Unknown {
    if is_drum {
        Unknown::DrumClearance
    } else {
        Unknown::DiscClearance
    }
}

fn give_unknown(is_drum: bool) -> Unknown {
    if is_drum {
        Unknown::DrumGive
    } else {
        Unknown::DiscGive
    }
}

/// The area of all pistons of a cavity.
pub fn piston_area_mm2(cavity: &Cavity) -> f64 {
    area_mm2(cavity, |bore| bore.nominal)
}

/// The same at the narrowest, the nominal and the widest bores: what nobody measured widens what a brake takes up.
fn corner_areas_mm2(cavity: &Cavity) -> [f64; 3] {
    let corners: [fn(Bounds<Length>) -> Length; 3] =
        [|bore| bore.low, |bore| bore.nominal, |bore| bore.high];
    corners.map(|corner| area_mm2(cavity, corner))
}

fn area_mm2(cavity: &Cavity, corner: fn(Bounds<Length>) -> Length) -> f64 {
    let of_piston = |piston: &Piston| {
        let bore_mm = corner(piston.bore).get::<millimeter>();
        f64::from(piston.count) * FRAC_PI_4 * bore_mm * bore_mm
    };
    cavity.pistons.iter().map(of_piston).sum()
}
