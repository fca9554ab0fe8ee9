//! What a reading is asked by, in words.

/// The question behind a field of a record; `None` where a card does not ask for it.
pub(super) fn question(section: &str, field: &str) -> Option<&'static str> {
    Some(match (section, field) {
        ("readings_of", "fluid") => "Fluid that the maker asks for",
        ("readings_of", "interval") => "Interval of renewal, by the maker",
        ("readings_of", "over_10000_lb") => "Over 10,000 lb (4536 kg)",
        ("work", "date") => "Date of the readings",
        ("work", "done_by") => "Done by",
        ("work", "checked_by") => "Checked by",
        ("work", "parts_fitted") => "Parts fitted",
        ("work", "torque_tool") => "Torque tool, by its number",
        ("work", "refused") => "Work refused by the owner",
        ("work", "next_due") => "Fluid next due",
        ("work", "notes") => "Notes",
        ("readings_of", "registration") => "Registration, chassis or fleet number",
        ("tasks", "done") => "Done",
        ("tasks", "by") => "Run by: tester, or steps of the manual",
        ("tasks", "date") => "On the day",
        ("controls", "booster") => "Booster fitted",
        ("controls", "free") => "A: free, to the floor or stop",
        ("controls", "depressed") => "B: pressed, to the floor or stop",
        ("controls", "force") => "Force at B",
        ("controls", "engine_running") => "Engine running at B",
        ("controls", "firm") => "Firm: no spring, no rise by pumping",
        ("controls", "hold_force") => "Force of the hard press",
        ("controls", "hold_time") => "Held for",
        ("controls", "hold_dropped") => "Went on sinking",
        ("brakes", "disc") => "Disc at its thinnest",
        ("brakes", "disc_minimum") => "Least, embossed on the disc",
        ("brakes", "drum") => "Drum at its widest",
        ("brakes", "drum_maximum") => "Largest, embossed on the drum",
        ("brakes", "lining") => "Lining, over rivets if any",
        ("brakes", "riveted") => "Lining riveted",
        ("brakes", "lining_minimum") => "Least lining, by the maker",
        ("screws", "torque") => "Torque at the second check",
        ("screws", "torque_wanted") => "Torque, by the maker",
        ("screws", "dry") => "Dry after the hard press",
        ("screws", "cap") => "Dust cap on",
        ("compartments", "level") => "Level",
        ("compartments", "cap") => "Cap on, switch connected",
        ("checks", "leak_found") => "Leak found anywhere",
        ("checks", "hoses_sound") => "Hoses and pipes sound, lock to lock",
        ("checks", "lamp_lights") => "Brake lamp lights with the ignition",
        ("checks", "lamp_goes_out") => "It goes out and stays out",
        ("checks", "fluid_clear") => "Fluid clear: no water, no dirt",
        ("checks", "moisture_before") => "BEFORE the work: water, by the tester",
        ("checks", "boiling_point_before") => "Before the work: or boiling point",
        ("checks", "sample_before") => "Before: sample from (screw, reservoir)",
        ("checks", "fluid") => "Fluid filled in, by its bottle",
        ("checks", "bottle") => "Bottle: maker, batch, date",
        ("checks", "bottle_opened") => "Bottle opened on",
        ("checks", "moisture") => "AFTER the work: water, by the tester",
        ("checks", "boiling_point") => "After the work: or boiling point",
        ("checks", "sample") => "After: sample from (name the screw)",
        _ => return None,
    })
}

/// The heading of a part of a record; an item's name follows it.
pub(super) fn heading(section: &str) -> &'static str {
    match section {
        "readings_of" => "Vehicle",
        "work" => "Work",
        "controls" => "Control:",
        "brakes" => "Brake:",
        "screws" => "Screw:",
        "compartments" => "Reservoir:",
        "tasks" => "To finish:",
        _ => "Whole vehicle",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use bleedwright_inspection::record::{
        BrakeReadings, CompartmentReadings, ControlReadings, ScrewReadings, StepReadings,
        TaskReadings,
    };
    use bleedwright_inspection::{Record, record_form};

    #[test]
    fn what_the_plan_and_the_card_tell_by_themselves_is_not_asked_for() {
        let record = Record {
            controls: vec![ControlReadings::default()],
            brakes: vec![BrakeReadings::default()],
            screws: vec![ScrewReadings::default()],
            compartments: vec![CompartmentReadings::default()],
            steps: vec![StepReadings::default()],
            tasks: vec![TaskReadings::default()],
            ..Record::default()
        };
        let silent: Vec<String> = record_form(&record)
            .into_iter()
            .filter(|field| question(field.section, field.field).is_none())
            .map(|field| field.name)
            .collect();
        assert_eq!(silent, ["vehicle name", "done", "pushed", "level kept"]);
    }
}
