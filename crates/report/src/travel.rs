//! Pedal travel against force, as a picture.

use crate::text::help_words;
use bleedwright_drawing::chart::{Chart, Series, chart};
use bleedwright_drawing::svg;
use bleedwright_network::Control;
use bleedwright_pedal::{Assessment, Feel};
use uom::si::f64::Force;
use uom::si::force::newton;
use uom::si::length::millimeter;

/// The travel under the usual forces with its bounds, and with each circuit lost under the force that was asked for.
pub fn travel_svg(pedal: &Assessment) -> String {
    let mut feels: Vec<(Force, &Feel)> = pedal
        .forces
        .iter()
        .map(|(force, feel)| (*force, feel))
        .collect();
    feels.push((pedal.force, &pedal.feel));
    feels.sort_by(|a, b| a.0.value.total_cmp(&b.0.value));
    feels.dedup_by(|a, b| a.0 == b.0);
    let help = help_words(pedal);
    let mm = |feel: &Feel| {
        let travel = feel.travel;
        [travel.low, travel.nominal, travel.high].map(|length| length.get::<millimeter>())
    };
    let all = Series {
        name: "all circuits".to_owned(),
        points: feels
            .iter()
            .map(|(force, feel)| (force.get::<newton>(), mm(feel)[1]))
            .collect(),
        band: feels
            .iter()
            .map(|(_, feel)| (mm(feel)[0], mm(feel)[2]))
            .collect(),
    };
    let description = feels.iter().map(|(force, feel)| {
        let [low, nominal, high] = mm(feel);
        format!(
            "{:.0} N: {nominal:.0} mm ({low:.0}-{high:.0}).",
            force.get::<newton>()
        )
    });
    svg(&chart(&Chart {
        title: format!("Travel against force: {}, {}", pedal.vehicle, pedal.control),
        description: description.collect::<Vec<_>>().join(" "),
        across: format!("force in N, {help}"),
        upward: format!(
            "travel at the {} in mm, with what tolerances and assumptions allow",
            match pedal.worked_by {
                Control::HandLever => "lever",
                Control::Pedal => "pedal",
                Control::Coupler => "shaft",
            }
        ),
        series: vec![all],
        levels: pedal
            .lost
            .iter()
            .map(|(name, feel)| bleedwright_drawing::chart::Level {
                at: mm(feel)[1],
                label: format!("{name} lost, {:.0} N", pedal.force.get::<newton>()),
            })
            .collect(),
        ..Chart::default()
    }))
}
