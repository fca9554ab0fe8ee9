//! What is said of new parts, and what opens nothing.

use bleedwright_network::{Code, Finding, Place};

/// What stands behind a name: `unit=dry`.
pub(super) fn state_said(given: &str) -> Option<(&str, &str)> {
    let (name, said) = given.rsplit_once('=')?;
    Some((name.trim(), said.trim()))
}

/// Whether a new part is full of fluid. Only a new anti-lock unit is sold filled
/// or dry, and of it one of the two must be said.
///
/// # Errors
///
/// The finding where the word is missing, unknown, or said of another part.
pub(super) fn new_unit_unsaid(
    name: &str,
    is_unit: bool,
    said: Option<&str>,
) -> Result<bool, Box<Finding>> {
    let place = Place::Option("--replaced");
    let ask = format!("write `--replaced \"{name}=filled\"` or `--replaced \"{name}=dry\"`");
    match (is_unit, said) {
        (true, Some("filled")) => Ok(true),
        (true, Some("dry")) | (false, None) => Ok(false),
        (true, said) => {
            let found = said.map_or_else(
                || format!("`--replaced` does not say how the new `{name}` came: filled or dry"),
                |said| format!("`--replaced` says `{said}` of the new `{name}`"),
            );
            let finding = Finding::new(Code::NewUnit, place, found, ask);
            Err(Box::new(finding.allowing("filled, dry")))
        }
        (false, Some(said)) => Err(Box::new(Finding::new(
            Code::NewUnit,
            place,
            format!("`--replaced` says `{said}` of `{name}`, which is no anti-lock unit"),
            format!("a new part comes full of air: write `--replaced \"{name}\"`"),
        ))),
    }
}

/// The finding where one unit is said to have come both ways.
pub(super) fn said_both(name: &str) -> Finding {
    Finding::new(
        Code::NewUnit,
        Place::Option("--replaced"),
        format!("`--replaced` says of the new `{name}` that it came filled and that it came dry"),
        "leave one of the two out; where nobody knows, dry",
    )
    .allowing("filled, dry")
}

/// What is changed without opening a joint.
const DRY_WORK: [&str; 12] = [
    "pad", "pads", "shoe", "shoes", "disc", "discs", "disk", "disks", "rotor", "rotors", "lining",
    "linings",
];

/// The finding where somebody names pads, shoes or discs: no joint is opened for
/// them, and no air gets in.
pub(super) fn opens_nothing(option: &'static str, name: &str) -> Option<Finding> {
    let mut words = name.split(|sign: char| !sign.is_alphanumeric());
    let last = words.rfind(|word| !word.is_empty())?.to_lowercase();
    DRY_WORK.contains(&last.as_str()).then(|| {
        Finding::new(
            Code::OpensNothing,
            Place::Option(option),
            format!("`{option}` names `{name}`: pads, shoes, discs and linings alone open nothing"),
            "no air gets in: leave it out; if a hose, a pipe or a screw was undone as well, name \
             that part or line",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pads_are_known_in_any_company() {
        for name in ["pads", "Front pads", "rear-shoes", "brake discs", "linings"] {
            assert!(opens_nothing("--opened", name).is_some(), "{name}");
        }
        for name in ["paddock pipe", "front tee", "disc brake hose", ""] {
            assert!(opens_nothing("--opened", name).is_none(), "{name}");
        }
    }
}
