//! Findings that depend on the options: what `check` says beside the layout's
//! own findings.

mod reservoir;

use crate::drive::{Flows, assumed_height, stated_height, usual_tank, weight};
use crate::heights::{high_points, is_open, siphons};
use crate::kept_full::examine_kept_full;
use crate::options::{Method, Options, Purpose};
use crate::request::Request;
use crate::scope::Scope;
use crate::sheet::pressure_stores;
use crate::stroke::{LEAST_SHARE_OF_FULL, Stroke};
use bleedwright_mechanism::measured_state;
use bleedwright_network::{
    Bounds, Code, Element, Finding, Network, Owner, PartKind, PathStep, Place, ScrewId, ValveKind,
};
use std::collections::BTreeSet;
use uom::si::f64::{Length, Pressure, Ratio, VolumeRate};
use uom::si::length::millimeter;
use uom::si::pressure::{bar, psi};
use uom::si::ratio::percent;
use uom::si::volume::milliliter;

/// Everything the options and the layout say together.
pub(crate) fn examine(request: &Request<'_>, scope: &Scope, findings: &mut Vec<Finding>) {
    let (network, options) = (request.network, request.options);
    reservoir::compartments(network, findings);
    stored_pressure(network, options, findings);
    examine_kept_full(request, findings);
    reservoir::new_fluid(network, options, findings);
    if options.method == Method::Reverse && options.purpose() == Purpose::Renew {
        findings.push(Finding::new(
            Code::NoReverseRenewal,
            Place::Option("--method"),
            "the reverse method pushes the old fluid into the reservoir",
            "renew with another method, or use reverse with `--for air`",
        ));
    }
    tank_pressure(options, findings);
    valves_on_runs(request, scope, findings);
    strokes(request, scope, findings);
    running(request, scope, findings);
    siphons(request, scope, findings);
    high_points(request, scope, findings);
    viscosity(network, options, findings);
}

/// A tank above the pressure that is enough.
fn tank_pressure(options: &Options, findings: &mut Vec<Finding>) {
    let usual = usual_tank();
    let given = options.tank_pressure.filter(|given| *given > usual.high);
    let Some(given) = given.filter(|_| options.method == Method::Pressure) else {
        return;
    };
    findings.push(
        Finding::new(
            Code::TankPressure,
            Place::Option("--tank-pressure"),
            format!(
                "{:.2} bar in the tank is more than is needed",
                given.get::<bar>()
            ),
            "make sure that the makers of tank, adapter and vehicle allow it: a reservoir or its \
             cap may burst or come off",
        )
        .allowing(format!(
            "usually {:.2} to {:.2} bar ({:.0} to {:.0} psi)",
            usual.low.get::<bar>(),
            usual.high.get::<bar>(),
            usual.low.get::<psi>(),
            usual.high.get::<psi>()
        )),
    );
}

/// Measured points that cannot be followed to the temperature asked for.
fn viscosity(network: &Network, options: &Options, findings: &mut Vec<Finding>) {
    if let Some(Err(error)) =
        measured_state(network, options.new_fluid, options.usual_temperature())
    {
        findings.push(Finding::new(
            Code::ViscosityPoints,
            Place::Path(vec![PathStep::Field("viscosity")]),
            format!("the points cannot be followed to the temperature of the job: {error}"),
            "measure nearer to that temperature, or leave the points out",
        ));
    }
}

fn stored_pressure(network: &Network, options: &Options, findings: &mut Vec<Finding>) {
    let stores = pressure_stores(network);
    if stores.is_empty() || options.depressurised {
        return;
    }
    let names: Vec<String> = stores.iter().map(|(name, _)| format!("`{name}`")).collect();
    findings.push(Finding::new(
        Code::Depressurise,
        Place::Option("--depressurised"),
        format!(
            "nothing is planned while {} may hold stored pressure",
            names.join(", ")
        ),
        "release it by the maker's routine, then say so with `--depressurised`",
    ));
}

/// Valves that matter for a method, each reported once.
fn valves_on_runs(request: &Request<'_>, scope: &Scope, findings: &mut Vec<Finding>) {
    let network = request.network;
    let method = request.options.method;
    if method == Method::Pedal {
        return;
    }
    let mut seen: BTreeSet<usize> = BTreeSet::new();
    let mut screws: Vec<ScrewId> = scope.screws.iter().copied().collect();
    screws.sort_by_key(|screw| network.screw(*screw).id.clone());
    for screw in screws {
        for element in network.run(screw) {
            let Element::Cell(cell) = element else {
                continue;
            };
            let Owner::Part(index, _) = network.cell(cell).owner else {
                continue;
            };
            let part = &network.layout().parts[index];
            let PartKind::Valve(valve) = &part.kind else {
                continue;
            };
            if !seen.insert(index) {
                continue;
            }
            let place = Place::item("parts", index);
            match (valve.kind, method) {
                (ValveKind::Check, Method::Reverse) => findings.push(Finding::new(
                    Code::ValveBlocksReverse,
                    place,
                    format!(
                        "the check valve `{}` lets nothing back toward the reservoir",
                        part.id
                    ),
                    "use another method, or take the valve out of the line",
                )),
                (ValveKind::Metering, Method::Pressure) => {
                    let how = valve
                        .held_open_by
                        .as_deref()
                        .unwrap_or("its stem or button");
                    findings.push(Finding::new(
                        Code::HoldMetering,
                        place,
                        format!(
                            "tank pressure lies in the range where `{}` is shut",
                            part.id
                        ),
                        format!("hold it open ({how}) while its circuit is bled"),
                    ));
                }
                (ValveKind::Residual, Method::Reverse | Method::Gravity) => {
                    let lift = lift(request, scope, screw);
                    findings.push(residual_valve(request, lift, place, &part.id, valve.holds));
                }
                _ => {}
            }
        }
    }
}

/// How high fluid is lifted between reservoir and screw, or falls: by the reverse method over the highest point of a way
/// that is not full.
fn lift(request: &Request<'_>, scope: &Scope, screw: ScrewId) -> Bounds<Length> {
    let network = request.network;
    let height = stated_height(network, screw).unwrap_or_else(assumed_height);
    let place = network.screw_place(screw);
    let is_full = (place.circuit).is_none_or(|circuit| !is_open(request, scope, circuit));
    let foot = network.height_of(network.cell(place.cell).owner);
    let Some(foot) = foot.filter(|_| request.options.method == Method::Reverse && !is_full) else {
        return height;
    };
    let points = network.profile(screw).points;
    points.iter().fold(height, |highest, point| {
        highest.zip(point.height.zip(foot, |top, foot| top - foot), Length::max)
    })
}

/// A residual valve acts on what flows back; what opens it the other way no layout says.
fn residual_valve(
    request: &Request<'_>,
    height: Bounds<Length>,
    place: Place,
    valve: &str,
    holds: Option<Bounds<Pressure>>,
) -> Finding {
    let (network, method) = (request.network, request.options.method);
    let head = weight(network, request.options, height).map(|head| head.get::<bar>());
    let weighs = if head.nominal < 0.0 {
        format!("less {:.2} bar of head", -head.nominal)
    } else {
        format!("and {:.2} bar of head", head.nominal)
    };
    let message = match (method, holds) {
        (Method::Reverse, Some(holds)) => format!(
            "pushed back, the residual valve `{valve}` opens only above its setting of {:.2} bar \
             {weighs}, {:.2} bar in all",
            holds.nominal.get::<bar>(),
            holds.nominal.get::<bar>() + head.nominal
        ),
        (Method::Reverse, None) => format!(
            "pushed back, the residual valve `{valve}` opens only above its setting, which is not \
             given, {weighs}"
        ),
        _ if head.nominal <= 0.0 => format!(
            "what opens the residual valve `{valve}` toward the brakes is not known, and the fluid \
             stands no higher than the screw"
        ),
        _ => format!(
            "what opens the residual valve `{valve}` toward the brakes is not known, and the fluid \
             weighs no more than {:.2} bar",
            head.nominal
        ),
    };
    let help = match (method, holds) {
        (Method::Reverse, Some(_)) => "press harder than that; the pedal method passes it",
        (Method::Reverse, None) => "give `holds`; the pedal method passes it",
        _ => {
            "expect little or no flow: its setting acts on what flows back; the pedal method \
             passes it"
        }
    };
    Finding::new(Code::ResidualValve, place, message, help)
}

/// Screws through which nothing would run.
fn running(request: &Request<'_>, scope: &Scope, findings: &mut Vec<Finding>) {
    let network = request.network;
    let method = request.options.method;
    if method == Method::Pedal {
        return;
    }
    let flows = Flows::new(network, request.options);
    let mut dry: Vec<&str> = scope
        .screws
        .iter()
        .filter(|screw| flows.through(**screw).flow.nominal <= VolumeRate::default())
        .map(|screw| network.screw(*screw).id.as_str())
        .collect();
    dry.sort_unstable();
    unknown_fall(request, scope, findings);
    if dry.is_empty() {
        return;
    }
    findings.push(Finding::new(
        Code::DoesNotRun,
        Place::Option("--method"),
        format!(
            "by the {} method nothing runs at `{}`: the reservoir stands too low, or a valve on \
             the way stays shut",
            method.word(),
            dry.join("`, `")
        ),
        "use another method, or check the heights and the settings of the valves",
    ));
}

/// Screws that stand above their cylinder while nobody says how high the fluid stands: no flow is known by gravity.
fn unknown_fall(request: &Request<'_>, scope: &Scope, findings: &mut Vec<Finding>) {
    let network = request.network;
    if request.options.method != Method::Gravity {
        return;
    }
    let mut unknown: Vec<&str> = (scope.screws.iter())
        .filter(|screw| {
            let below = network.below_brake(network.screw_place(**screw).cell);
            stated_height(network, **screw).is_none() && below.is_some_and(|it| it.may_draw_air)
        })
        .map(|screw| network.screw(*screw).id.as_str())
        .collect();
    unknown.sort_unstable();
    if unknown.is_empty() {
        return;
    }
    findings.push(Finding::new(
        Code::DoesNotRun,
        Place::Option("--method"),
        format!(
            "the cylinder stands lower than `{}`, and how high its fluid stands is not given: by \
             gravity nothing may run, and an open screw may draw air",
            unknown.join("`, `")
        ),
        "give the reservoir's `height`, or use another method",
    ));
}

/// A share of the stroke that leaves no displacement, or reaches the end.
fn strokes(request: &Request<'_>, scope: &Scope, findings: &mut Vec<Finding>) {
    let network = request.network;
    if request.options.method != Method::Pedal {
        return;
    }
    let circuits: BTreeSet<_> = scope
        .screws
        .iter()
        .filter_map(|screw| network.screw_place(*screw).circuit)
        .collect();
    for circuit in circuits {
        let stroke = Stroke::of_share(network, circuit, request.options.stroke, None);
        if !stroke.moves_fluid() {
            findings.push(
                Finding::new(
                    Code::StrokeTooShort,
                    Place::Option("--stroke"),
                    format!(
                        "{:.0} % of the stroke of {} moves {:.2} ml: the cut-off uses it up",
                        request.options.stroke.get::<percent>(),
                        network.circuit(circuit).name,
                        stroke.displacement.low.get::<milliliter>()
                    ),
                    "use more of the stroke",
                )
                .allowing(format!(
                    "at least {:.0} % of a full stroke's displacement",
                    LEAST_SHARE_OF_FULL * 100.0
                )),
            );
            return;
        }
        if request.options.stroke >= Ratio::new::<percent>(100.0) {
            let least = network.chamber_of(circuit).stroke.low;
            findings.push(
                Finding::new(
                    Code::StrokeToTheEnd,
                    Place::Option("--stroke"),
                    format!(
                        "the piston of {} may be at its end after {:.1} mm, and the block lets it \
                         go as far",
                        network.circuit(circuit).name,
                        least.get::<millimeter>()
                    ),
                    "use less of the stroke: beyond their usual way the seals run over rust and \
                     dirt",
                )
                .allowing("less than 100 %"),
            );
        }
    }
}
