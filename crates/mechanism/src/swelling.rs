//! What lines take up under pressure: hoses by the tables, pipes by the elasticity of their wall.

use crate::HOSE_PRESSURES_BAR;
use crate::assumed::{self, range};
use crate::unknown::{Range, Unknown};
use bleedwright_hydraulics::elastic::hose::{
    Expansion as Mark, expansion_limit, typical_expansion,
};
use bleedwright_hydraulics::elastic::wall::TubeWall;
use bleedwright_network::{Expansion, HoseMaterial};
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::{bar, pascal};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// By which share a steel pipe grows under 100 bar.
pub(crate) fn wall_growth(bore: Length) -> f64 {
    let wall = Length::new::<millimeter>(assumed::PIPE_WALL_MM);
    TubeWall::new(
        bore + wall * 2.0,
        wall,
        Pressure::new::<pascal>(assumed::STEEL_PA),
        Ratio::new::<ratio>(assumed::STEEL_POISSON),
    )
    .map(|tube| tube.growth(Pressure::new::<bar>(100.0)).get::<ratio>())
    .expect("the loader lets no pipe through whose bore is not above zero")
}

/// What a hose grows for each metre at the tabled pressures. No figure is known for wide hoses at the last one, where
/// the line through the two before it is drawn on.
pub(crate) fn growth(
    bore: Length,
    material: Option<HoseMaterial>,
    expansion: Option<Expansion>,
) -> [Range; 4] {
    let metre = Length::new::<meter>(1.0);
    let mut growth = [Range::new(0.0, 0.0, 0.0, Unknown::HoseGrowth); 4];
    for (index, pressure) in HOSE_PRESSURES_BAR.into_iter().enumerate().skip(1) {
        // The tables end at 2900 psi exactly, which bar does not say in a few digits.
        let pressure = Pressure::new::<bar>(pressure - 1e-5);
        let typical = typical_expansion(bore, pressure, metre);
        let limit = match expansion {
            Some(Expansion::Low) => expansion_limit(bore, Mark::Low, pressure, metre),
            Some(Expansion::Regular) | None => {
                expansion_limit(bore, Mark::Regular, pressure, metre)
            }
        };
        growth[index] = match (typical, limit) {
            (Ok(typical), Ok(limit)) => {
                let ml = |volume: uom::si::f64::Volume| volume.get::<milliliter>();
                let nominal = ml(typical.nominal);
                if material == Some(HoseMaterial::Braided) {
                    range(assumed::BRAIDED_SHARE, Unknown::HoseGrowth).times(nominal)
                } else {
                    Range::new(ml(typical.low), nominal, ml(limit), Unknown::HoseGrowth)
                }
            }
            _ => drawn_on(&growth, index),
        };
    }
    growth
}

fn drawn_on(growth: &[Range; 4], index: usize) -> Range {
    let [before, last] = [growth[index - 2], growth[index - 1]];
    let bars = HOSE_PRESSURES_BAR;
    let reach = (bars[index] - bars[index - 1]) / (bars[index - 1] - bars[index - 2]);
    let on = |before: f64, last: f64| last + (last - before) * reach;
    Range::new(
        on(before.low, last.low),
        on(before.nominal, last.nominal),
        on(before.high, last.high),
        Unknown::HoseGrowth,
    )
}
