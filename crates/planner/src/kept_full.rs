//! Whether what was to keep lines full while the system was open could do it.

use crate::joint::Joints;
use crate::options::Purpose;
use crate::request::{Request, Target};
use crate::sheet::pressure_stores;
use bleedwright_network::{CellId, Code, Element, Finding, LinkId, Place};

/// The findings of plugs and of a propped pedal.
pub(crate) fn examine_kept_full(request: &Request<'_>, findings: &mut Vec<Finding>) {
    let joints = Joints::new(request).all();
    for target in &request.plugged {
        if keeps_something_full(request, target, &joints) {
            continue;
        }
        findings.push(Finding::new(
            Code::KeepsNothingFull,
            Place::Option("--plugged"),
            format!(
                "a plug in `{}` keeps nothing full: no joint that was opened lies behind it",
                request.name_of(target)
            ),
            "name the line or part with the plug on the cylinder's side of what was opened, and \
             what was opened with `--opened` or `--replaced`",
        ));
    }
    if request.options.propped {
        findings.extend(propped(request, &joints));
    }
}

fn propped(request: &Request<'_>, joints: &[(LinkId, CellId)]) -> Option<Finding> {
    let place = Place::Option("--propped");
    let stores = pressure_stores(request.network);
    if !stores.is_empty() {
        let names: Vec<String> = stores.iter().map(|(name, _)| format!("`{name}`")).collect();
        return Some(Finding::new(
            Code::ProppedUnderPressure,
            place,
            format!(
                "a propped pedal may let stored pressure of {} into the lines",
                names.join(", ")
            ),
            "never prop the pedal there: let the line run, or clamp a rubber hose or plug the line \
             by the maker's manual",
        ));
    }
    (joints.is_empty() || request.options.purpose() == Purpose::Fill).then(|| {
        Finding::new(
            Code::KeepsNothingFull,
            place,
            "a propped pedal keeps nothing full here: no joint of a full system was opened",
            "say what was opened with `--opened` or `--replaced`, or leave it out",
        )
    })
}

/// Whether an opened joint lies behind what holds the plug, in a system that
/// was full.
fn keeps_something_full(
    request: &Request<'_>,
    target: &Target,
    joints: &[(LinkId, CellId)],
) -> bool {
    let network = request.network;
    let elements = request.elements_of(target);
    // A plug in a line that leads on from the joint keeps nothing above full.
    let is_behind = |(_, cell): &(LinkId, CellId)| {
        network
            .way_to(*cell)
            .iter()
            .any(|element| elements.contains(element))
            || network.circuit_of_cell(*cell).is_some_and(|circuit| {
                elements.contains(&Element::Cell(network.circuit(circuit).chamber))
            })
    };
    request.options.purpose() != Purpose::Fill && joints.iter().any(is_behind)
}
