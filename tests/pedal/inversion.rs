//! Air that is drawn, sent through the pedal's model, and asked for again.
//!
//! The model is the program's own: what is tested is that the way back never says more than the way there allows. The way
//! there is held against an independent script in `readings`.

use super::vehicles::mechanisms;
use bleedwright_network::Bounds;
use bleedwright_pedal::{AirPocket, Choice, Estimate, Mechanism, Press, Reading};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use uom::si::f64::{Force, Length};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

const DRAWS: usize = 1_000;

/// A drawn reading deviates by a normal error of 1 mm, and says 2 mm.
const DEVIATION_MM: f64 = 1.0;

/// The median width of the bounds over all draws without a piston near its stop, with bounds as they were found before
/// whole circuits were looked at: 1.632 of the air.
const WIDTH_BEFORE: f64 = 1.632;

struct Draw {
    truth_ml: f64,
    /// How near a piston came to its stop, in mm.
    left_mm: f64,
    estimate: Estimate,
}

impl Draw {
    fn bounds_ml(&self) -> [f64; 2] {
        let air = self.estimate.air;
        let high = air.high.map(|high| high.get::<milliliter>());
        [air.low.get::<milliliter>(), high.unwrap_or(f64::INFINITY)]
    }
}

/// Draws with forces known within a ratio of most to least; 1 where a gauge showed them.
fn draws(count: usize, ratio: f64) -> Vec<Draw> {
    let mechanisms = mechanisms();
    let mut runner = TestRunner::deterministic();
    let mut share = move || {
        let tree = (0.0..1.0_f64).new_tree(&mut runner);
        tree.expect("a number can be drawn").current()
    };
    (0..count)
        .map(|nth| draw(&mechanisms[nth % mechanisms.len()].2, ratio, &mut share))
        .collect()
}

/// A circuit, an amount from a tenth of a millilitre to all that it holds, everything unknown anywhere in its range, and
/// two first pushes and a pumped one.
fn draw(mechanism: &Mechanism, ratio: f64, share: &mut dyn FnMut() -> f64) -> Draw {
    let places: Vec<(usize, usize)> = (mechanism.cylinders.iter().enumerate())
        .flat_map(|(nth, cylinder)| (0..cylinder.chambers.len()).map(move |at| (nth, at)))
        .collect();
    let chamber = places[(share() * places.len() as f64) as usize];
    let zones = &mechanism.cylinders[chamber.0].chambers[chamber.1].zones;
    let whole_ml: f64 = zones.iter().map(|zone| zone.fluid_ml).sum();
    let truth_ml = 0.1 * (whole_ml.max(0.2) / 0.1).powf(share());
    let choice = (mechanism.unknowns().into_iter()).fold(Choice::nominal(), |choice, unknown| {
        choice.with(unknown, share())
    });
    let most_n = if mechanism.booster_ratio.is_some() {
        400.0
    } else {
        700.0
    };
    let mut left_mm = f64::INFINITY;
    let readings: Vec<Reading> = [(0.3, false), (1.0, false), (1.0, true)]
        .map(|(of_most, is_pumped)| {
            let press = Press {
                force_n: most_n * of_most * (0.7 + 0.3 * share()),
                is_boosted: false,
                is_pumped,
                lost: None,
                air: vec![AirPocket {
                    chamber,
                    zone: 0,
                    volume_ml: truth_ml,
                }],
            };
            left_mm = left_mm.min(mechanism.stroke_left_mm(&choice, &press));
            // Twelve even ones make a normal one of deviation 1.
            let error: f64 = (0..12).map(|_| share() - 0.5).sum();
            let travel_mm = mechanism.travel_mm(&choice, &press) + DEVIATION_MM * error;
            let known_from = if ratio > 1.0 { share() } else { 0.0 };
            let least_n = press.force_n / ratio.powf(known_from);
            Reading {
                force: Bounds {
                    low: least_n,
                    nominal: press.force_n,
                    high: least_n * ratio,
                }
                .map(Force::new::<newton>),
                travel: Length::new::<millimeter>(travel_mm),
                tolerance: Length::new::<millimeter>(2.0 * DEVIATION_MM),
                is_pumped,
                is_boosted: false,
            }
        })
        .to_vec();
    Draw {
        truth_ml,
        left_mm,
        estimate: mechanism
            .air_from_readings(&readings)
            .expect("the forces move every piston"),
    }
}

/// 95 in 100 is what the bounds promise.
#[test]
fn bounds_hold_the_air_up_to_whole_circuits() {
    let draws = draws(DRAWS, 1.0);
    let mut under = 0;
    let mut within = 0;
    let [mut on_stop, mut told_so] = [0; 2];
    let mut widths: Vec<f64> = Vec::new();
    for draw in &draws {
        let [low, high] = draw.bounds_ml();
        within += usize::from((low..=high).contains(&draw.truth_ml));
        if high < draw.truth_ml {
            under += 1;
        }
        if draw.left_mm > 2.0 {
            widths.push((high - low) / draw.truth_ml);
        }
        if draw.left_mm <= 0.0 {
            on_stop += 1;
            let is_told = draw.estimate.is_at_end || draw.estimate.is_contradiction;
            told_so += usize::from(is_told);
        }
    }
    widths.sort_by(f64::total_cmp);
    let bounded = widths.iter().filter(|width| width.is_finite()).count();
    let median = widths[widths.len() / 2];
    let told = format!(
        "{within} of {DRAWS} within, {under} understated, {told_so} of {on_stop} on a stop told so; {bounded} of {} free of the stop bounded, median width {median:.3}",
        widths.len()
    );
    assert!(within >= 950 && under <= 25, "{told}");
    assert!(on_stop >= 300 && 100 * told_so >= 98 * on_stop, "{told}");
    assert!(
        widths.len() >= 300 && 10 * bounded >= 9 * widths.len(),
        "{told}"
    );
    assert!(median <= 1.2 * WIDTH_BEFORE, "{told}");
}

/// A foot without a gauge is known within a ratio of three, about what light and hard pushes are taken to be: the bounds
/// are wider, and hold.
#[test]
fn bounds_hold_where_nobody_measured_the_force() {
    const FELT_DRAWS: usize = 200;
    let [mut within, mut on_stop, mut told_so, mut free, mut bounded] = [0; 5];
    for draw in draws(FELT_DRAWS, 3.0) {
        let [low, high] = draw.bounds_ml();
        within += usize::from((low..=high).contains(&draw.truth_ml));
        let is_told = draw.estimate.is_at_end || draw.estimate.is_contradiction;
        if draw.left_mm <= 0.0 {
            on_stop += 1;
            told_so += usize::from(is_told);
        } else if draw.left_mm > 2.0 {
            free += 1;
            bounded += usize::from(high.is_finite());
        }
    }
    let told = format!(
        "{within} of {FELT_DRAWS} within, {told_so} of {on_stop} on a stop told so, {bounded} of {free} free of it bounded"
    );
    assert!(100 * within >= 95 * FELT_DRAWS, "{told}");
    assert!(on_stop >= 50 && 100 * told_so >= 98 * on_stop, "{told}");
    assert!(free >= 50 && 4 * bounded >= 3 * free, "{told}");
}
