//! What `draft` takes: its options, their words and their measures.

use crate::destination::Destination;
use crate::quantity_args::fluid;
use crate::words::{ALIAS, Word, one_of};
use bleedwright_drafting::{Half, MasterKind, Measures, PipeSort, RearAxle, Units, WheelBrake};
use bleedwright_network::{Bounds, Fluid, Split, Steering, is_in_inches, parse_quantity};
use clap::Args;
use std::path::PathBuf;
use uom::si::f64::Length;

const EXAMPLES: &str = "\
Examples:
  bleedwright draft --split II --steering right --wheelbase \"3.70 m\" \\
      --track \"1.62 m\" --cylinder-behind-axle \"-0.2 m\" --pipe \"3/16 in\" \\
      --front disc --rear drum -o van.ron
  bleedwright draft --split X --steering left
  bleedwright draft --from lapwing -o van.ron
  bleedwright draft --update van.ron --set \"rear pipe length = 3.1 m\"

Without any option it asks. What is left out is guessed, and the file says so.
Count the pipes that leave the cylinder and the hoses at each wheel: II has one
circuit an axle, X one front wheel and the rear one across, HI all wheels and
the front ones twice, LL both front wheels and one rear wheel each, HH all
wheels twice, single one circuit for all.";

pub(crate) const CYLINDERS: [Word<MasterKind>; 3] = [
    ("single", "One piston", MasterKind::Single),
    ("tandem", "Two pistons in one bore", MasterKind::Tandem),
    ("twin", "Two cylinders and a balance bar", MasterKind::Twin),
];
pub(crate) const HALVES: [Word<Half>; 2] = [
    ("nearest", "The half nearest the pedal", Half::Nearest),
    ("farthest", "The half farthest from it", Half::Farthest),
];
/// Whether there is one.
pub(crate) const BOOSTERS: [Word<bool>; 2] = [
    ("vacuum", "A vacuum booster", true),
    ("none", "No booster", false),
];
pub(crate) const BRAKES: [Word<WheelBrake>; 4] = [
    ("disc", "A caliper", WheelBrake::Disc),
    ("disk", ALIAS, WheelBrake::Disc),
    ("drum", "A drum with one wheel cylinder", WheelBrake::Drum),
    (
        "double-drum",
        "A drum with two wheel cylinders",
        WheelBrake::DoubleDrum,
    ),
];
pub(crate) const REAR_AXLES: [Word<RearAxle>; 2] = [
    (
        "rigid",
        "One hose to the axle, pipes on it",
        RearAxle::Rigid,
    ),
    ("independent", "A hose at each wheel", RearAxle::Independent),
];
pub(crate) const UNITS: [Word<Units>; 2] = [
    ("mm", "Metres and millimetres", Units::Millimetres),
    ("inch", "Inches", Units::Inches),
];

#[derive(Clone, Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct DraftArguments {
    /// Which wheels each circuit works: II, X, HI, LL, HH or single
    #[arg(long, value_parser = split)]
    pub(crate) split: Option<Split>,

    /// The side of the steering wheel: left, right or centre
    #[arg(long, value_parser = steering)]
    pub(crate) steering: Option<Steering>,

    /// From the front axle to the rear one, as in "2.55 m" or "100 in +- 1 in"
    #[arg(long, value_name = "LENGTH", value_parser = wheelbase)]
    pub(crate) wheelbase: Option<Wheelbase>,

    /// From the middle of one tyre to the middle of the other, as in "1.46 m"
    #[arg(long, value_name = "LENGTH", value_parser = track)]
    pub(crate) track: Option<Bounds<Length>>,

    /// How far the cylinder stands behind the front axle; ahead of it as in "-0.2 m"
    #[arg(long, value_name = "LENGTH", value_parser = behind_axle, allow_hyphen_values = true)]
    pub(crate) cylinder_behind_axle: Option<Bounds<Length>>,

    /// The master cylinder [default: single for one circuit, else tandem]
    #[arg(long, value_parser = one_of(CYLINDERS))]
    pub(crate) cylinder: Option<MasterKind>,

    /// Which half of a tandem cylinder feeds the front wheels; of X the front left wheel, of HI the rear wheels, of LL
    /// the rear right wheel [default: nearest, as a guess]
    #[arg(long, value_parser = one_of(HALVES))]
    pub(crate) half: Option<Half>,

    /// The booster behind the cylinder [default: vacuum; none with a balance bar]
    #[arg(long, value_parser = one_of(BOOSTERS))]
    pub(crate) booster: Option<bool>,

    /// The front brakes [default: disc]
    #[arg(long, value_parser = one_of(BRAKES))]
    pub(crate) front: Option<WheelBrake>,

    /// The rear brakes [default: drum]
    #[arg(long, value_parser = one_of(BRAKES))]
    pub(crate) rear: Option<WheelBrake>,

    /// One hose to a rigid rear axle, or one at each wheel [default: by the split]
    #[arg(long, value_parser = one_of(REAR_AXLES))]
    pub(crate) rear_axle: Option<RearAxle>,

    /// The size the pipe is sold by, as in "3/16 in" or "4.75 mm x 0.70 mm" with its wall
    #[arg(long, value_name = "SIZE", value_parser = pipe)]
    pub(crate) pipe: Option<PipeSort>,

    /// The size of the long pipe to the rear, where it is another one
    #[arg(long, value_name = "SIZE", value_parser = pipe)]
    pub(crate) rear_pipe: Option<PipeSort>,

    /// There is an anti-lock unit between cylinder and wheels
    #[arg(long)]
    pub(crate) anti_lock: bool,

    /// The fluid on the reservoir's cap, as in a layout file: `dot3`, `dot4`, `dot4_low_viscosity`, `dot5` (silicone, not DOT 5.1), `dot5_1` or `mineral`
    #[arg(long, value_parser = fluid)]
    pub(crate) fluid: Option<Fluid>,

    /// The units to write [default: those of the wheelbase, else mm]
    #[arg(long, value_parser = one_of(UNITS))]
    pub(crate) units: Option<Units>,

    /// What the vehicle is called
    #[arg(long)]
    pub(crate) name: Option<String>,

    /// Ask for everything that no option gives; so it is too when there is no option at all
    #[arg(long, conflicts_with = "from")]
    pub(crate) ask: bool,

    /// Start from one of the demo vehicles, or from a file in the folder --shapes
    #[arg(long, value_name = "NAME", conflicts_with_all = ["split", "steering", "wheelbase", "track",
        "cylinder_behind_axle", "cylinder", "half", "booster", "rear_axle", "pipe", "rear_pipe", "anti_lock", "fluid", "units"])]
    pub(crate) from: Option<String>,

    /// Set values in this layout file and keep every other byte of it
    #[arg(long, value_name = "FILE", requires = "set")]
    pub(crate) update: Option<PathBuf>,

    /// A value for --update, as in "rear pipe length = 3.1 m"; may be given several times, and then all are set or none
    #[arg(long, value_name = "NAME = VALUE", requires = "update")]
    pub(crate) set: Vec<String>,

    /// A folder of layout files to start from
    #[arg(long, value_name = "FOLDER", requires = "from")]
    pub(crate) shapes: Option<PathBuf>,

    #[command(flatten)]
    pub(crate) destination: Destination,
}

/// A wheelbase, and the units in which it was measured.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wheelbase {
    pub(crate) length: Bounds<Length>,
    units: Units,
}

impl DraftArguments {
    /// The units to write: those asked for, else those of the wheelbase.
    pub(crate) fn units(&self) -> Units {
        let of_wheelbase = || self.wheelbase.map(|it| it.units);
        self.units
            .or_else(of_wheelbase)
            .unwrap_or(Units::Millimetres)
    }
}

pub(crate) fn measures(arguments: &DraftArguments) -> Measures {
    let mut measures = Measures::of_split(arguments.split.unwrap_or(Split::II));
    if let Some(name) = &arguments.name {
        measures.name.clone_from(name);
    }
    measures.is_split_guessed = arguments.split.is_none();
    measures.steering = arguments.steering;
    measures.wheelbase = arguments.wheelbase.map(|it| it.length);
    measures.track = arguments.track;
    measures.cylinder_behind_axle = arguments.cylinder_behind_axle;
    measures.cylinder = arguments.cylinder.unwrap_or(measures.cylinder);
    measures.half = arguments.half;
    measures.has_booster = arguments.booster;
    measures.front = arguments.front.unwrap_or(measures.front);
    measures.rear = arguments.rear.unwrap_or(measures.rear);
    measures.rear_axle = arguments.rear_axle.unwrap_or(measures.rear_axle);
    measures.pipe.clone_from(&arguments.pipe);
    measures.rear_pipe.clone_from(&arguments.rear_pipe);
    measures.has_anti_lock = arguments.anti_lock;
    measures.fluid = arguments.fluid;
    measures.units = arguments.units();
    measures
}

fn split(text: &str) -> Result<Split, String> {
    word(text, Split::ALL, Split::word, |it| *it != Split::Other)
}

pub(crate) fn steering(text: &str) -> Result<Steering, String> {
    word(text, Steering::ALL, Steering::word, |_| true)
}

/// One of the fixed words of a layout file; capitals do not matter.
fn word<W: Copy>(
    text: &str,
    all: &[W],
    written: impl Fn(W) -> &'static str,
    is_meant: impl Fn(&W) -> bool,
) -> Result<W, String> {
    let words: Vec<W> = all.iter().copied().filter(is_meant).collect();
    let found = words
        .iter()
        .find(|word| written(**word).eq_ignore_ascii_case(text.trim()));
    found.copied().ok_or_else(|| {
        let known: Vec<&str> = words.iter().map(|word| written(*word)).collect();
        format!("give one of {}", known.join(", "))
    })
}

pub(crate) fn wheelbase(text: &str) -> Result<Wheelbase, String> {
    let length = within(text, [0.9, 8.0])?;
    let units = if is_in_inches(text) == Some(true) {
        Units::Inches
    } else {
        Units::Millimetres
    };
    Ok(Wheelbase { length, units })
}

pub(crate) fn track(text: &str) -> Result<Bounds<Length>, String> {
    within(text, [0.6, 2.6])
}

pub(crate) fn behind_axle(text: &str) -> Result<Bounds<Length>, String> {
    within(text, [-1.5, 2.5])
}

/// A length between believable ends, in metres.
fn within(text: &str, [low, high]: [f64; 2]) -> Result<Bounds<Length>, String> {
    use uom::si::length::meter;
    let length = parse_quantity::<Length>(text)
        .map_err(|error| format!("{error}; {}", error.help("\"2.55 m\" or \"100 in\"")))?;
    if length.low.get::<meter>() < low || length.high.get::<meter>() > high {
        return Err(format!(
            "a vehicle's is between {low} m and {high} m; check the unit and the decimal point"
        ));
    }
    Ok(length)
}

/// `3/16 in`, or with its wall `4.75 mm x 0.70 mm`.
pub(crate) fn pipe(text: &str) -> Result<PipeSort, String> {
    let (size, wall) = match text.split_once(['x', '×']) {
        Some((size, wall)) => (size.trim(), Some(wall.trim())),
        None => (text.trim(), None),
    };
    for length in [Some(size), wall].into_iter().flatten() {
        parse_quantity::<Length>(length).map_err(|error| {
            let help = error.help("\"3/16 in\" or \"4.75 mm x 0.70 mm\"");
            format!("{error}; {help}")
        })?;
    }
    Ok(PipeSort {
        size: size.to_owned(),
        wall: wall.map(str::to_owned),
    })
}
