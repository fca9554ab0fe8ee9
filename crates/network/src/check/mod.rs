//! What is wrong, or worth knowing, about the pipework as a whole.

mod attention;
mod axle;
mod declared;
mod declared_split;
mod height;
mod pipework;
mod reach;
mod run;

pub use axle::USUAL_TORQUE_NM;
pub use declared::most_visits;

use crate::finding::Finding;
use crate::network::Network;

/// Checks a network. What follows from quantities is only looked at when all
/// of them are known, and the shape of the pipework only when every name has
/// one meaning: else one mistake would raise findings about what is sound.
pub(crate) fn check(network: &Network, are_values_known: bool) -> Vec<Finding> {
    let mut findings = Vec::new();
    if network.cells.are_names_clear {
        pipework::joined_circuits(network, &mut findings);
        pipework::loops(network, &mut findings);
        pipework::backward_valves(network, &mut findings);
        reach::loose_parts(network, &mut findings);
        reach::unbleedable_brakes(network, &mut findings);
        declared_split::split(network, &mut findings);
        declared::series_wheels(network, &mut findings);
        declared::brakes_of_one_wheel(network, &mut findings);
    }
    if are_values_known {
        declared::positions(network, &mut findings);
        height::screws_below_cavity(network, &mut findings);
        height::screws_below_top(network, &mut findings);
        height::brakes_above_their_fluid(network, &mut findings);
        attention::small_reservoirs(network, &mut findings);
        run::rear_before_front(network, &mut findings);
        axle::pistons(network, &mut findings);
        axle::torques(network, &mut findings);
    }
    axle::partners(network, &mut findings);
    reach::cylinders(network, &mut findings);
    reach::brakes_without_wheel(network, &mut findings);
    declared::car_wheels(network, &mut findings);
    declared::maker_order(network, &mut findings);
    declared::balance_bars(network, &mut findings);
    attention::valves_and_units(network, &mut findings);
    attention::shared_reservoirs(network, &mut findings);
    attention::fluid(network, &mut findings);
    attention::guesses(network, &mut findings);
    findings
}

/// What may have been left out: asked only of a layout without errors, each of which would leave a line or a brake out too.
pub(crate) fn ask(network: &Network, findings: &mut Vec<Finding>) {
    pipework::tees(network, findings);
    axle::one_brake(network, findings);
    attention::limited_front_brakes(network, findings);
}
