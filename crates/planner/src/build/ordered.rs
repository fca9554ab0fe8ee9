//! The order with everything it rests on.

use crate::certainty::OrderCertainty;
use crate::options::Options;
use crate::order::{
    Authority, Constraint, Derived, certainty, constraints, derive, given_order, violations,
};
use crate::request::Request;
use crate::scope::Scope;
use bleedwright_network::{Code, Finding, Network, Place, ScrewId};
use uom::si::f64::Length;
use uom::si::length::meter;

/// The order with everything it rests on.
pub(super) struct Ordered {
    pub(super) constraints: Vec<Constraint>,
    pub(super) derived: Derived,
    pub(super) order: Vec<ScrewId>,
    pub(super) authority: Authority,
    pub(super) given: usize,
    pub(super) is_unsafe_by_options: bool,
    pub(super) certainty: OrderCertainty,
}

impl Ordered {
    pub(super) fn new(request: &Request<'_>, scope: &Scope) -> (Self, Vec<Finding>) {
        let constraints = constraints(request, scope);
        let derived = derive(request, scope, &constraints, request.options.begin);
        let (order, authority, given) = given_order(request, scope, &derived);
        let broken = violations(request, scope, &constraints, &order);
        let mut findings = Vec::new();
        for rule in &broken {
            let (code, place, help) = match authority {
                Authority::Maker => (
                    Code::MakerOrderUnsafe,
                    Place::Path(vec![bleedwright_network::PathStep::Field("maker_order")]),
                    "the maker's manual governs; check that the layout copies it rightly",
                ),
                Authority::User | Authority::Pipework => (
                    Code::OrderUnsafe,
                    Place::Option("--order"),
                    "follow the derived order, or bleed the screw named first once more at the end",
                ),
            };
            findings.push(Finding::new(code, place, rule.clone(), help));
        }
        findings.extend(circuit_first_refused(request, &derived, &order, authority));
        let certainty = certainty(
            request,
            scope,
            &constraints,
            &derived,
            (&order, authority, given),
        );
        findings.extend(uncertain_order(request.network, &certainty));
        let ordered = Self {
            certainty,
            is_unsafe_by_options: authority == Authority::User && !broken.is_empty(),
            constraints,
            derived,
            order,
            authority,
            given,
        };
        (ordered, findings)
    }
}

/// The order of the screws that the pipework gives, whatever order was given;
/// empty where an option names something that the layout does not have.
pub fn derived_order(network: &Network, options: &Options) -> Vec<ScrewId> {
    let Some((request, scope)) = sound_request(network, options) else {
        return Vec::new();
    };
    let constraints = constraints(&request, &scope);
    derive(&request, &scope, &constraints, options.begin).screws
}

/// Whether lengths within their tolerances could change the order, as in
/// [`crate::Plan::order_certainty`] but without a plan; none where an option
/// names something that the layout does not have.
pub fn order_certainty(network: &Network, options: &Options) -> Option<OrderCertainty> {
    let (request, scope) = sound_request(network, options)?;
    Some(Ordered::new(&request, &scope).0.certainty)
}

/// What is asked and what that makes of the network, where neither holds an error.
pub(super) fn sound_request<'n>(
    network: &'n Network,
    options: &'n Options,
) -> Option<(Request<'n>, Scope)> {
    let mut findings = Vec::new();
    let request = Request::new(network, options, &mut findings);
    let scope = Scope::new(&request, &mut findings);
    (!findings.iter().any(Finding::is_error)).then_some((request, scope))
}

/// A pair of screws of which one measurement would tell the first.
fn uncertain_order(network: &Network, certainty: &OrderCertainty) -> Option<Finding> {
    let pair = certainty.settled_by_one()?;
    let line = pair.measure.first()?;
    let lines = &network.layout().lines;
    let index = lines.iter().position(|other| other.id == *line)?;
    let metres = |length: Length| length.get::<meter>();
    Some(Finding::new(
        Code::OrderUncertain,
        Place::item("lines", index),
        format!(
            "within the tolerances of the lengths `{}` or `{}` goes first: the run of the one \
             minus that of the other is {:.2} m, between {:.2} m and {:.2} m",
            pair.first,
            pair.then,
            metres(pair.difference.nominal),
            metres(pair.difference.low),
            metres(pair.difference.high),
        ),
        format!("measure the length of `{line}`: found as it is written, it decides"),
    ))
}

/// Why the circuit asked for does not go first, if it does not.
fn circuit_first_refused(
    request: &Request<'_>,
    derived: &Derived,
    order: &[ScrewId],
    authority: Authority,
) -> Option<Finding> {
    let network = request.network;
    let asked = request.circuit_first?;
    let first = network.screw_place(*order.first()?).circuit?;
    if first == asked {
        return None;
    }
    let name = &network.circuit(asked).name;
    let (message, help) = if !derived
        .circuits
        .iter()
        .any(|(circuit, _)| *circuit == asked)
    {
        (
            format!("{name} cannot go first: none of its screws is opened"),
            "leave the option out, or name what was opened in that circuit",
        )
    } else if authority == Authority::Pipework {
        (
            format!(
                "{name} cannot go first: both circuits hold air, and {} must be bled before the \
                 secondary piston gets any stroke",
                network.circuit(first).name
            ),
            "the plan begins with the primary circuit",
        )
    } else {
        (
            format!("{name} does not go first: a given order is followed"),
            "give the whole order with `--order`",
        )
    };
    let place = Place::Option("--circuit-first");
    Some(Finding::new(Code::CircuitFirstUnsafe, place, message, help))
}
