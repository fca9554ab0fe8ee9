//! What a job may have on its sheet, and vehicles that have it.

use crate::demo::{demo_text, text_of_file};

/// What every job has.
pub(super) const ALWAYS: [&str; 10] = [
    "sample from",
    "opened on",
    "Parts fitted",
    "Torque tool",
    "Fluid next due",
    "efused by the owner",
    "Dry everywhere",
    "Not bled: NOT to be driven",
    "find the air leak",
    "No harder press",
];

/// What a job may have, and the words that say so; a name stands in as many rows as it has words.
pub(super) const HAD: &str = "
level switch | level switch connected, lamp out
joints | Not opened again after the bleed
joints pressed | screws, brakes, joints opened at
cable | Then the parking brake off, its cable slack
cable | shoes first, then the cable adjusted
bench | bled on the bench first: strokes
road test | tops at walking pace
electric unit | A pump may wake by a door or the pedal
electric unit | fault memory empty, maker's bleed check passed
electric unit | An electric booster may simulate the feel
second bleed | on the way of what the routine frees in anti-lock unit
new caliper | screw on top, plugs out, new washers, hose not twisted
new caliper | Left and right not exchanged
electric parking brake | the electric parking brake off
service mode | Electric parking brake in service mode
drums | inside the drums
clutch | its pedal comes back by itself
clutch | clutch slave does not creep; cylinder, hose, slave DRY
clutch | every gear without grating
clutch | clutch slave bolted in place: pressed without, the piston comes out
clutch | Clutch pedal held down a minute
clutch | Or it does not come back
clutch alone | every gear tried
clutch alone | clutch dust
brakes | every wheel free
brakes | Never press with a drum off
brakes | Higher when pumped
foot alone | Pressed HARD, held 10 s
wheels off | Wheel nuts snug, lowered, to torque
cups under vacuum | past cups of wheel cylinders
old fluid | Layers, swollen seals
long standing | moved by hand, screw open into a jar
long standing | Rust goes out, not up
long standing | What sticks is freed or renewed now, before fluid is poured
long standing | past the maker's life renewed first
long standing | short strokes, never to the end
long standing | second renewal booked within weeks of use
motorcycle | machine upright on a firm stand
motorcycle | calipers, loosened axles to torque
motorcycle | each control; slow ride
lever | Bar turned until the reservoir of lever cylinder is level and highest
lever | Topped up; pumped gently until firm, each control by itself
lever | ever of lever cylinder and pedal of pedal cylinder, before anybody rides
lever | Each control HARD, held 10 s
banjo | the banjo at lever cylinder, cracked like a screw
banjo | It has no screw: cloth around
banjo | Banjo at lever cylinder to the maker's torque, dry
linked | Linked: pedal of pedal cylinder brakes both wheels
coupler | Reverse lock-out of coupler cylinder set so that the wheels brake
coupler | Reverse lock-out of coupler cylinder works again
coupler | Breakaway cable off
coupler | Breakaway cable pulled: the parking brake holds
coupler | Uncoupled; load off
coupler | pushed in slowly by a bar as a lever
coupler | Shaft stop after
coupler | Shaft pushed in and let out gently until firm
coupler | Shaft held in lightly
coupler | Shaft pushed in HARD
coupler | Coupled, locked, cable on
coupler | Head pulled up to prove it
";

/// What a kind of vehicle has.
const KINDS: [(&str, &str); 4] = [
    (
        "a car",
        "road test, brakes, foot alone, wheels off, old fluid",
    ),
    (
        "a motorcycle",
        "road test, brakes, motorcycle, lever, old fluid",
    ),
    ("an empty car", "road test, brakes, foot alone, wheels off"),
    // Nobody may drive it yet.
    (
        "a car that stays",
        "brakes, foot alone, wheels off, old fluid",
    ),
];

/// Jobs: the vehicle, the options of its plan, and what it has, by the names of [`HAD`] and [`KINDS`].
pub(super) const JOBS: &str = "
lapwing | | a car, drums, level switch
lapwing | --replaced 'front left caliper' | a car, new caliper, level switch, joints, joints pressed
lapwing | --method vacuum | a car, drums, cups under vacuum, level switch
lapwing | --for fill | an empty car, drums, level switch, bench
lapwing | --replaced master | a car, drums, level switch, bench, joints, joints pressed
lapwing | --laid-up | a car, drums, long standing, level switch
avocet | | a car
avocet | --laid-up --method pressure | a car, long standing
ruff | | a car, drums, clutch
ruff | --opened 'clutch slave' | clutch, clutch alone, old fluid, joints
clutch | | clutch, clutch alone, old fluid
godwit | | a car, electric parking brake, electric unit
godwit | --opened 'rear left caliper' | a car, electric parking brake, service mode, electric unit, joints, joints pressed
godwit | --opened 'anti-lock unit' | a car that stays, electric parking brake, electric unit, second bleed, joints, joints pressed
turnstone | | a motorcycle
turnstone | --opened 'rear caliper' | road test, brakes, motorcycle, foot alone, old fluid, joints, joints pressed
turnstone without a screw at the lever | | a motorcycle, banjo
turnstone without a screw at the lever | --method pressure | a motorcycle
turnstone with linked brakes | | a motorcycle, linked
knot | | road test, brakes, wheels off, old fluid, drums, coupler, cable
";

/// The names of what a job has, those of its kind of vehicle written out.
pub(super) fn names(has: &'static str) -> Vec<&'static str> {
    let each = has.split(", ").flat_map(|name| {
        let kind = KINDS.iter().find(|(kind, _)| *kind == name);
        kind.map_or(name, |(_, names)| names).split(", ")
    });
    each.collect()
}

/// A demo vehicle, or another one made of it.
pub(super) fn job_layout(name: &str) -> String {
    let replaced = |demo: &str, old: &str, new: &str| {
        let text = demo_text(demo);
        assert!(text.contains(old), "{demo}: {old}");
        text.replace(old, new)
    };
    match name {
        "knot" => text_of_file("tests/layouts/knot.ron"),
        "turnstone without a screw at the lever" => replaced(
            "turnstone",
            "screws: [(id: \"lever\", at_top: true, spanner: \"8 mm\", torque: \"5 N m\")],",
            "",
        ),
        "turnstone with linked brakes" => replaced(
            "turnstone",
            "(id: \"rear hose\", from: \"pedal cylinder\", to: \"rear caliper\",",
            "(id: \"linking hose\", from: \"pedal cylinder\", to: \"linking tee\",
             kind: hose(bore: \"3.2 mm\", length: \"0.2 m\")),
            (id: \"linked hose\", from: \"linking tee\", to: \"linked caliper\",
             kind: hose(bore: \"3.2 mm\", length: \"0.9 m\")),
            (id: \"rear hose\", from: \"linking tee\", to: \"rear caliper\",",
        )
        .replace(
            "    parts: [",
            "    parts: [
            (id: \"linking tee\", kind: tee),
            (id: \"linked caliper\", kind: caliper(mounting: fixed, pistons: [(bore: \"27 mm\", \
             extension: \"2 mm\")], dead_volume: \"1 ml\"), wheel: front, \
             screws: [(id: \"linked\", at_top: true)]),",
        ),
        "clutch" => "(
            format: 1, name: \"Ruff, its clutch alone\", fluid: dot4,
            reservoirs: [(id: \"pot\", compartments: [(id: \"clutch pot\", max: \"60 ml\", min: \"25 ml\",
                feeds: \"clutch master\")])],
            cylinders: [(id: \"clutch master\", purpose: clutch, pedal_ratio: 5.8,
                kind: single(bore: \"15.9 mm\", stroke: \"30 mm\", circuit: \"clutch\"))],
            parts: [(id: \"clutch slave\", kind: clutch_slave(pistons: [(bore: \"20.6 mm\",
                extension: \"9 mm\")], dead_volume: \"2 ml\"), screws: [(id: \"clutch\", at_top: true)])],
            lines: [(id: \"pipe\", from: \"clutch master\", to: \"clutch slave\",
                kind: pipe(size: \"1/4 in\", length: \"1.1 m\"))],
        )"
        .to_owned(),
        demo => demo_text(demo),
    }
}
