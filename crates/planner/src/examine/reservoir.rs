//! What the reservoir holds, and what is poured into it.

use crate::options::Options;
use bleedwright_mechanism::{CapacityVerdict, capacities};
use bleedwright_network::{Bounds, Code, Finding, Network, Place, Substitute, Usual};
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// Compartments that the wear of the linings empties, or may empty.
pub(super) fn compartments(network: &Network, findings: &mut Vec<Finding>) {
    for capacity in capacities(network) {
        let (code, certainty) = match capacity.verdict {
            CapacityVerdict::Fail => (Code::SmallForWear, "too small"),
            CapacityVerdict::Open => (Code::WearOpen, "perhaps too small, perhaps not,"),
            CapacityVerdict::Pass | CapacityVerdict::NotShown => continue,
        };
        let ml = |volume: Bounds<Volume>| {
            let [low, high] = [volume.low, volume.high].map(|end| end.get::<milliliter>());
            if high - low < 0.1 {
                format!("{high:.0} ml")
            } else {
                format!("{low:.0} to {high:.0} ml")
            }
        };
        let (reservoir, nth) = capacity.place;
        let mut assumed: Vec<String> = capacity
            .assumptions
            .iter()
            .copied()
            .map(wear_travel)
            .collect();
        assumed.sort_unstable();
        let assumed = match assumed.as_slice() {
            [] => String::new(),
            all => format!("; assumed is {}", all.join(", ")),
        };
        findings.push(
            Finding::new(
                code,
                Place::item("reservoirs", reservoir)
                    .field("compartments")
                    .nth(nth)
                    .field("max"),
                format!(
                    "the compartment `{}` holds {} and is {certainty} for the wear of the linings it serves",
                    capacity.compartment,
                    ml(capacity.holds)
                ),
                format!(
                    "measure the compartment, pistons and `wear_travel`{assumed}; if it is so, top up while the linings wear"
                ),
            )
            .allowing(format!(
                "what the pistons take from new to worn linings: {}",
                ml(capacity.needed)
            )),
        );
    }
}

/// What was assumed of the travel from new to worn linings.
fn wear_travel(usual: Usual) -> String {
    let (whose, of) = match usual {
        Usual::SlidingWearTravel => ("sliding caliper's", ", of both linings"),
        Usual::FixedWearTravel => ("fixed caliper's", ""),
        Usual::WheelCylinderWearTravel => ("wheel-cylinder", ""),
        _ => ("caliper", ""),
    };
    let [low, nominal, high] = usual.figures();
    format!("{whose} wear travel {nominal} mm ({low}-{high}){of}")
}

/// A fluid that the layout does not ask for.
pub(super) fn new_fluid(network: &Network, options: &Options, findings: &mut Vec<Finding>) {
    let Some(new) = options.new_fluid else {
        return;
    };
    let Some(own) = network.layout().fluid else {
        findings.push(
            Finding::new(
                Code::NewFluidUnjudged,
                Place::Option("--new-fluid"),
                format!(
                    "the layout names no fluid, so whether {} may go in cannot be told",
                    new.text()
                ),
                "read the grade on the reservoir's cap or in the manual, write it into the layout as `fluid: dot4` or the \
                 like, and plan again",
            )
            .allowing("new fluid beside a layout with `fluid`"),
        );
        return;
    };
    let (code, help) = match new.in_place_of(own) {
        Substitute::Same => return,
        Substitute::OtherFamily => (
            Code::OtherFamily,
            "the two do not mix and may destroy the seals: use the fluid on the reservoir's cap",
        ),
        Substitute::BoilsLower => (
            Code::LowerGrade,
            "a mixture is only as good as the lower grade: use the layout's grade",
        ),
        Substitute::Thicker { .. } => (
            Code::ThickerFluid,
            "use the layout's grade; another bottle of this one is no cure",
        ),
        Substitute::IfAllowed { .. } => (
            Code::OtherGrade,
            "look in the maker's manual whether it may go in, else use the layout's grade",
        ),
    };
    findings.push(
        Finding::new(
            code,
            Place::Option("--new-fluid"),
            new.in_place_of(own).text(new, own),
            help,
        )
        .allowing(own.text().to_owned()),
    );
}
