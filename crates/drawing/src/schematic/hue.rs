//! Circuits that are named after colours: a circuit called "red" must not be drawn in blue.

use crate::ink::{Ink, Stroke};
use crate::picture::{Mark, Picture};
use bleedwright_network::Network;

const COLOURS: [&str; 14] = [
    "red", "green", "blue", "yellow", "orange", "brown", "purple", "violet", "pink", "white",
    "black", "grey", "gray", "silver",
];

/// Whether the name of a circuit holds the word of a colour.
pub(super) fn are_in_names(network: &Network) -> bool {
    network.circuits().any(|(_, circuit)| {
        let words = circuit.name.split(|c: char| !c.is_alphanumeric());
        words
            .map(str::to_lowercase)
            .any(|word| COLOURS.contains(&word.as_str()))
    })
}

/// The picture in black and grey: circuits are told apart by their patterns alone.
pub(super) fn taken_out(picture: &mut Picture) {
    picture.marks.iter_mut().for_each(take_out);
}

fn take_out(mark: &mut Mark) {
    let paint = |fill: &mut Option<Ink>, stroke: &mut Option<Stroke>| {
        if let Some(ink) = fill {
            neutralise(ink);
        }
        if let Some(stroke) = stroke {
            neutralise(&mut stroke.ink);
        }
    };
    match mark {
        Mark::Path(path) => paint(&mut path.fill, &mut path.stroke),
        Mark::Circle(circle) => paint(&mut circle.fill, &mut circle.stroke),
        Mark::Text(text) => neutralise(&mut text.ink),
        Mark::Group(group) => group.marks.iter_mut().for_each(take_out),
    }
}

/// Black for what is drawn in a colour, and black thinned for an area.
fn neutralise(ink: &mut Ink) {
    let [red, green, blue] = ink.rgb;
    if red == green && green == blue {
        return;
    }
    let is_area = ink.rgb.iter().all(|channel| *channel > 0xc8);
    *ink = if is_area {
        Ink::BLACK.thinned()
    } else {
        Ink::BLACK
    };
}
