//! What the heights on the way to a screw mean for a job.

use crate::bubble::Bubbles;
use crate::drive::{SteadyFlow, stated_height, valve_at, weight};
use crate::options::{Method, Purpose};
use crate::plan::{AboveFluid, HeldBack, HighPointOnWay, Verdict};
use crate::request::Request;
use crate::scope::Scope;
use crate::sheet::pressure_stores;
use bleedwright_network::{
    CircuitId, Code, Finding, HighPoint, HighPoints, Judged, Lower, Network, PartKind, Place,
    ScrewId, Spot, Valve, ValveKind,
};
use std::collections::{BTreeSet, HashSet};
use uom::si::f64::{Length, Pressure};
use uom::si::length::millimeter;

/// Whether the lines of a circuit are not full: it was opened, ran dry or is filled. A spongy pedal, of which nobody
/// knows where the air is, has full lines but for bubbles.
pub(crate) fn is_open(request: &Request<'_>, scope: &Scope, circuit: CircuitId) -> bool {
    request.options.purpose() == Purpose::Fill || scope.circuits_let_in_air.contains(&circuit)
}

/// Whether air was let into a circuit, or may have been.
fn holds_air(request: &Request<'_>, scope: &Scope, circuit: CircuitId) -> bool {
    scope.is_air_anywhere || is_open(request, scope, circuit)
}

/// The high points on the ways to the screws of a job, each once.
pub(crate) struct Ways<'a, 'n> {
    request: &'a Request<'n>,
    scope: &'a Scope,
    bubbles: &'a Bubbles<'n>,
    high: HighPoints,
    seen: HashSet<Spot>,
    /// Circuits on which no union is opened: stored pressure, or a pump that wakes, may be behind it.
    guarded: BTreeSet<CircuitId>,
}

impl<'a, 'n> Ways<'a, 'n> {
    pub(crate) fn new(
        request: &'a Request<'n>,
        scope: &'a Scope,
        bubbles: &'a Bubbles<'n>,
    ) -> Self {
        Self {
            request,
            scope,
            bubbles,
            high: request.network.high_points(Judged::Nominally),
            seen: HashSet::new(),
            guarded: guarded(request.network),
        }
    }

    /// Those on the way to a screw that were not on the way to one asked for before, the nearest to the chamber first.
    /// A brake with a screw of its own keeps nothing.
    pub(crate) fn new_on_way_to(&mut self, screw: ScrewId) -> Vec<(Spot, HighPointOnWay)> {
        let network = self.request.network;
        let place = network.screw_place(screw);
        let Some(circuit) = place.circuit else {
            return Vec::new();
        };
        let mut new: Vec<HighPoint> = Vec::new();
        for high in self.high.on_way_to(place.cell) {
            // What lies before it was on the same way.
            if !self.seen.insert(high.spot) {
                break;
            }
            let has_screw =
                matches!(high.spot, Spot::Cell(cell) if network.screws_on(cell).next().is_some());
            if !has_screw {
                new.push(*high);
            }
        }
        new.reverse();
        new.into_iter()
            .map(|high| (high.spot, self.described(&high, circuit)))
            .collect()
    }

    fn described(&self, high: &HighPoint, circuit: CircuitId) -> HighPointOnWay {
        let network = self.request.network;
        let holds_air = holds_air(self.request, self.scope, circuit);
        HighPointOnWay {
            name: network.spot_name(high.spot),
            rise: high.rise,
            holds_air,
            bubble: self.verdict_at(high.spot),
            may_be_loosened: holds_air
                && self.request.options.method == Method::Pedal
                && is_joint(network, high.spot)
                && !self.guarded.contains(&circuit)
                && self.is_safe_to_loosen(high, circuit),
        }
    }

    /// Not while the line is empty, which gives nothing but air; not under a balance bar, where one circuit alone needs a
    /// block of its own; and not where the point may stand higher than the fluid, so that it draws air.
    fn is_safe_to_loosen(&self, high: &HighPoint, circuit: CircuitId) -> bool {
        let network = self.request.network;
        let reservoir = network.circuit(circuit).compartment;
        let fluid = reservoir.and_then(|(r, _)| network.layout().reservoirs[r].height);
        self.request.options.purpose() != Purpose::Fill
            && network.bar_partner(circuit).is_none()
            && fluid.is_some_and(|fluid| high.height.high < fluid.low)
    }

    /// What a long bubble does in the lines at a point, in the one where it climbs most easily.
    fn verdict_at(&self, spot: Spot) -> Option<Verdict> {
        match spot {
            Spot::Via(link, _) => self.bubbles.verdict_of(link),
            Spot::Cell(cell) => {
                let links = self.request.network.links_at(cell);
                links.filter_map(|link| self.bubbles.verdict_of(link)).max()
            }
        }
    }
}

fn is_joint(network: &Network, spot: Spot) -> bool {
    let Spot::Cell(cell) = spot else {
        return false;
    };
    network
        .part(network.cell(cell).owner)
        .is_some_and(|part| matches!(part.kind, PartKind::Junction { .. }))
}

/// Every circuit where the layout has stored pressure anywhere, and those of anti-lock units, whose pumps can wake.
fn guarded(network: &Network) -> BTreeSet<CircuitId> {
    if !pressure_stores(network).is_empty() {
        return network.circuits().map(|(id, _)| id).collect();
    }
    let units = network.all_cells().filter(|(_, data)| {
        network
            .part(data.owner)
            .is_some_and(|part| matches!(part.kind, PartKind::AntiLock { .. }))
    });
    units
        .filter_map(|(cell, _)| network.circuit_of_cell(cell))
        .collect()
}

/// High points where air was let in, or where the bore lets air climb.
pub(crate) fn high_points(request: &Request<'_>, scope: &Scope, findings: &mut Vec<Finding>) {
    let network = request.network;
    let bubbles = Bubbles::new(network, request.options);
    let mut ways = Ways::new(request, scope, &bubbles);
    if ways.high.all().is_empty() {
        return;
    }
    let mut found: Vec<(Spot, HighPointOnWay)> = (scope.screws.iter())
        .flat_map(|screw| ways.new_on_way_to(*screw))
        .filter(|(_, high)| high.is_warned_of())
        .collect();
    let nth = |spot: &Spot| match spot {
        Spot::Cell(_) => 0,
        Spot::Via(_, nth) => *nth,
    };
    found.sort_by(|a, b| a.1.name.cmp(&b.1.name).then(nth(&a.0).cmp(&nth(&b.0))));
    for (spot, high) in found {
        let does = match spot {
            Spot::Cell(_) => "stands",
            Spot::Via(..) => "rises",
        };
        findings.push(Finding::new(
            Code::HighPoint,
            network.place_of_spot(spot),
            format!(
                "`{}` {does} {:.0} mm above both of its sides: air stays there",
                high.name,
                high.rise.nominal.get::<millimeter>()
            ),
            "push the contents of the way through without a pause, or lead it lower; if the \
             pedal stays springy, loosen the nearest union a quarter turn under a light foot, two \
             spanners, cloth and goggles, nip it up before the pedal rises, torque it again; not \
             on a rusted pipe, never with stored pressure or a pump that can wake",
        ));
    }
}

/// Screws that do not run by gravity because the way to them is not full and leads over a high point.
pub(crate) fn siphons(request: &Request<'_>, scope: &Scope, findings: &mut Vec<Finding>) {
    let network = request.network;
    if request.options.method != Method::Gravity {
        return;
    }
    let high = network.high_points(Judged::Nominally);
    let mut over: Vec<(&str, String)> = Vec::new();
    for screw in &scope.screws {
        let place = network.screw_place(*screw);
        if let Some(circuit) = place.circuit
            && is_open(request, scope, circuit)
            && let Some(last) = high.on_way_to(place.cell).next()
        {
            over.push((&network.screw(*screw).id, network.spot_name(last.spot)));
        }
    }
    if over.is_empty() {
        return;
    }
    let joined = |mut names: Vec<&str>| {
        names.sort_unstable();
        names.dedup();
        names.join("`, `")
    };
    findings.push(Finding::new(
        Code::DoesNotRun,
        Place::Option("--method"),
        format!(
            "the lines are not full, so `{}` will not run by gravity: the way leads over `{}`, and \
             a siphon runs only when its line is full",
            joined(over.iter().map(|(screw, _)| *screw).collect()),
            joined(over.iter().map(|(_, high)| high.as_str()).collect()),
        ),
        "use the pedal, a tank or a pump; gravity is for renewal in full lines",
    ));
}

/// Whether a screw whose run holds air fills by gravity for sure, as far as heights and valves tell: from a reservoir that
/// stands above everything, and downhill all the way where the lines are not full.
pub(crate) fn fills_by_gravity(
    request: &Request<'_>,
    scope: &Scope,
    possible: &HighPoints,
    screw: ScrewId,
    by_gravity: &SteadyFlow,
) -> bool {
    let network = request.network;
    let place = network.screw_place(screw);
    let is_siphon = (place.circuit).is_none_or(|circuit| is_open(request, scope, circuit))
        && possible.on_way_to(place.cell).next().is_some();
    if is_siphon || by_gravity.pressure.low <= Pressure::default() {
        return false;
    }
    let profile = network.profile(screw);
    // Some heights without those of both ends: what rises between them is not known.
    let are_ends_known = stated_height(network, screw).is_some();
    if !are_ends_known && (profile.reservoir.is_some() || !profile.points.is_empty()) {
        return false;
    }
    let is_below = |height: Length| {
        let mut points = profile.points.iter();
        points.all(|point| point.height.high <= height)
    };
    // What opens a residual valve toward the brakes is not known.
    profile.reservoir.is_none_or(|fluid| is_below(fluid.low))
        && residual_valve(network, screw).is_none()
}

/// That a screw stands higher than what feeds it.
pub(crate) fn above_fluid(request: &Request<'_>, screw: ScrewId) -> Option<AboveFluid> {
    let network = request.network;
    let below = network.below_brake(network.screw_place(screw).cell)?;
    let layout = network.layout();
    // What a residual valve must hold is the weight up to the highest point of the way.
    let foot = network.height_of(network.cell(network.screw_place(screw).cell).owner);
    let none = Length::default();
    let over_screw = foot.map_or(none, |foot| {
        let points = network.profile(screw).points;
        let above = points
            .iter()
            .map(|point| point.height.nominal - foot.nominal);
        above.fold(none, Length::max)
    });
    let top = below.by.map(|by| by + over_screw);
    Some(AboveFluid {
        screw: network.screw(screw).id.clone(),
        lower: match below.what {
            Lower::Reservoir(index) => layout.reservoirs[index].id.clone(),
            Lower::Cylinder(index) => layout.cylinders[index].id.clone(),
        },
        by: below.by,
        head: weight(network, request.options, below.by),
        head_to_top: weight(network, request.options, top),
        may_draw_air: below.may_draw_air,
        residual: residual_valve(network, screw).map(|(part, valve)| HeldBack {
            valve: part.to_owned(),
            holds: valve.holds,
        }),
    })
}

/// The residual valve on the way to a screw, the last one if there are several.
fn residual_valve(network: &Network, screw: ScrewId) -> Option<(&str, &Valve)> {
    let run = network.run(screw).into_iter().rev();
    let mut valves = run.filter_map(|element| valve_at(network, element));
    valves.find_map(|(part, valve)| {
        (valve.kind == ValveKind::Residual).then_some((part.id.as_str(), valve))
    })
}
