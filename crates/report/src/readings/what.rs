//! What a check of a handover sheet is called.

use bleedwright_inspection::readings::What;

/// What was looked at, as a sheet calls it.
pub fn check_name(what: What) -> &'static str {
    match what {
        What::Plan => "plan of the work",
        What::Done => "done",
        What::LevelKept => "level kept, every stop seen to",
        What::RoutineBy => "by what",
        What::RoutineOn => "when",
        What::List => "list of the vehicle",
        What::Travel => "travel used",
        What::Firm => "firm, not springy, not higher after pumping",
        What::Hold => "hard press held",
        What::Brake => "disc or drum",
        What::Disc => "disc thickness",
        What::Drum => "drum diameter",
        What::Lining => "lining thickness",
        What::Torque => "torque checked again",
        What::Dry => "dry after the hard press",
        What::DustCap => "dust cap on",
        What::Level => "level",
        What::Cap => "cap on, level switch connected",
        What::Leak => "leak found anywhere",
        What::Hoses => "hoses and pipes sound, supported, free of the body, also at full lock",
        What::LampLights => "brake warning lamp lights with the ignition",
        What::LampGoesOut => "lamp then goes out, and stays off under the hard press",
        What::FluidClear => "fluid clear in a glass, no water or dirt to be seen",
        What::Fluid => "fluid filled in",
        What::Boiling => "boiling point of the fluid",
        What::BottleOpened => "bottle opened",
        What::Vehicle => "vehicle",
        What::Registration => "registration, chassis or fleet number",
        What::DoneBy => "done by",
        What::CheckedBy => "checked by",
        What::Date => "date",
        What::SampleBefore => "place of the sample before the work",
        What::Bottle => "bottle",
        What::TorqueTool => "torque tool",
        What::PartsFitted => "parts fitted",
        What::Refused => "work refused by the owner",
        What::NextDue => "next due",
    }
}
