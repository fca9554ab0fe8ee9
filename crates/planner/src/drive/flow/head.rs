//! What weight adds to the driving pressure and what valves take from it.

use super::fluid_state;
use crate::corner::against;
use crate::options::{Method, Options};
use bleedwright_network::{Bounds, Element, Network, Part, PartKind, ScrewId, Valve, ValveKind};
use uom::si::f64::{Length, MassDensity, Pressure};
use uom::si::length::meter;
use uom::si::pressure::pascal;

/// Standard gravity in m/s2 (ISO 80000-3).
const GRAVITY_M_S2: f64 = 9.806_65;

/// How far a reservoir stands above a screw when the layout does not say.
///
/// ASSUMPTION: 0.4 m (0.1 to 0.8), no source.
pub(crate) fn assumed_height() -> Bounds<Length> {
    let m = Length::new::<meter>;
    Bounds {
        low: m(0.1),
        nominal: m(0.4),
        high: m(0.8),
    }
}

/// The height of the reservoir above a screw; none where the layout does not
/// give both.
///
/// ASSUMPTION: the surface in the catch jar, or in the syringe, is as high as
/// the screw.
pub(crate) fn stated_height(network: &Network, screw: ScrewId) -> Option<Bounds<Length>> {
    let place = network.screw_place(screw);
    let layout = network.layout();
    let (reservoir, _) = network.circuit(place.circuit?).compartment?;
    let upper = layout.reservoirs[reservoir].height?;
    let lower = network.height_of(network.cell(place.cell).owner)?;
    Some(upper.zip(against(lower), |upper, lower| upper - lower))
}

/// What a column of the poured fluid weighs, as a pressure.
pub(crate) fn weight(
    network: &Network,
    options: &Options,
    height: Bounds<Length>,
) -> Bounds<Pressure> {
    let density = fluid_state(network, options).density;
    Bounds {
        low: column(density.low, height.low).min(column(density.high, height.low)),
        nominal: column(density.nominal, height.nominal),
        high: column(density.low, height.high).max(column(density.high, height.high)),
    }
}

fn column(density: MassDensity, height: Length) -> Pressure {
    Pressure::new::<pascal>(density.value * GRAVITY_M_S2 * height.get::<meter>())
}

/// The weight of the fluid between reservoir and screw; for the reverse
/// method it works against the flow.
pub(super) fn head(
    network: &Network,
    method: Method,
    screw: ScrewId,
    density: MassDensity,
) -> Bounds<Pressure> {
    // Under a foot half a metre of fluid is nothing.
    if method == Method::Pedal {
        return Bounds::exact(Pressure::default());
    }
    let height = stated_height(network, screw).unwrap_or_else(assumed_height);
    let weight = height.map(|height| column(density, height));
    match method {
        Method::Reverse => against(weight).map(|weight| -weight),
        _ => weight,
    }
}

/// What the valves on the run take before they open.
pub(super) fn valves(network: &Network, method: Method, screw: ScrewId) -> Bounds<Pressure> {
    if method == Method::Pedal {
        return Bounds::exact(Pressure::default());
    }
    let run = network.run(screw).into_iter();
    run.filter_map(|element| valve_at(network, element))
        .filter_map(|(_, valve)| match (valve.kind, method) {
            (ValveKind::Residual, Method::Reverse) => valve.holds,
            (ValveKind::Check, _) => valve.opens,
            _ => None,
        })
        .sum()
}

/// The valve that an element of a run is.
pub(crate) fn valve_at(network: &Network, element: Element) -> Option<(&Part, &Valve)> {
    let Element::Cell(cell) = element else {
        return None;
    };
    let part = network.part(network.cell(cell).owner)?;
    match &part.kind {
        PartKind::Valve(valve) => Some((part, valve)),
        _ => None,
    }
}
