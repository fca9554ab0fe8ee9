//! Quantities on the command line.

use bleedwright_network::{Bounds, Fluid, Quantity, is_invisible, parse_quantity};
use bleedwright_pedal::{Push, USUAL_TOLERANCE_MM};
use bleedwright_planner::TEMPERATURES_DEGC;
use bleedwright_simulation::POCKET_RANGE_MM;
use uom::si::f64::{Force, Length, Pressure, Ratio, ThermodynamicTemperature, Time, Volume};
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::ratio::{percent, ratio};
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// Names of a list. An alias, so that one value of the command line may hold several of them.
pub(crate) type Names = Vec<String>;

/// One bore, or one for each cylinder of a balance bar.
pub(crate) type Bores = std::sync::Arc<[Length]>;

/// The longest text printed into the date field of a sheet.
const LONGEST_DATE: usize = 40;

/// A registration, chassis or fleet number is a few characters; more is something else.
const LONGEST_REGISTRATION: usize = 40;

/// What a foot or a hand presses with, in N.
///
/// ASSUMPTION: from less than moves a piston to more than a standing man weighs.
const LEAST_FORCE_N: f64 = 10.0;
const MOST_FORCE_N: f64 = 2_000.0;

fn within<Q: Quantity>(text: &str, low: Q, high: Q, allowed: &str) -> Result<Q, String> {
    let bounds = parse_quantity::<Q>(text)
        .map_err(|error| format!("{error}; {}", error.help(Q::EXAMPLE)))?;
    if bounds.low < bounds.high {
        return Err(format!(
            "a tolerance is not used here; leave it out, as in {}",
            Q::EXAMPLE
        ));
    }
    let value = bounds.nominal;
    if value < low || value > high {
        return Err(format!("allowed is {allowed}"));
    }
    Ok(value)
}

/// A share; a bare `5` is five times the whole, which nobody means, and a bare `0.5` one half or half a per cent.
fn share(text: &str, low: f64, high: f64, allowed: &str) -> Result<Ratio, String> {
    if let Ok(number) = text.trim().parse::<f64>()
        && number.is_finite()
    {
        return Err(format!(
            "a share is written with its sign, as in {number} %; allowed is {allowed}"
        ));
    }
    let share = Ratio::new::<percent>;
    within(text, share(low), share(high), allowed)
}

/// So many orders at most are asked for.
///
/// ASSUMPTION: each is remembered; of 300 screws these take 240 MB.
const MOST_ORDERS_ASKED: usize = 100_000;

pub(crate) fn count_of_orders(text: &str) -> Result<usize, String> {
    let count = text.trim().parse().ok();
    count
        .filter(|count| (1..=MOST_ORDERS_ASKED).contains(count))
        .ok_or_else(|| format!("allowed is a whole number from 1 to {MOST_ORDERS_ASKED}"))
}

pub(crate) fn residual(text: &str) -> Result<Ratio, String> {
    share(text, 0.1, 50.0, "0.1 % to 50 %")
}

pub(crate) fn stroke(text: &str) -> Result<Ratio, String> {
    share(text, 1.0, 100.0, "1 % to 100 %")
}

/// A time of a person's work, in seconds, with or without the unit.
pub(crate) fn seconds(text: &str) -> Result<Time, String> {
    let number = text.trim().trim_end_matches('s').trim();
    let seconds: f64 = number
        .parse()
        .map_err(|_| "write a number of seconds, as in 2.5".to_owned())?;
    if (0.1..=60.0).contains(&seconds) {
        Ok(Time::new::<second>(seconds))
    } else {
        Err("allowed is 0.1 to 60 seconds".to_owned())
    }
}

/// How far air reaches into a line from an opened joint.
pub(crate) fn pocket(text: &str) -> Result<Length, String> {
    let [least, most] = POCKET_RANGE_MM.map(Length::new::<millimeter>);
    within(text, least, most, "0 mm to 300 mm")
}

pub(crate) fn polytropic_index(text: &str) -> Result<Ratio, String> {
    let index = Ratio::new::<ratio>;
    within(text, index(1.0), index(1.4), "1 to 1.4")
}

pub(crate) fn force(text: &str) -> Result<Force, String> {
    let newtons = Force::new::<newton>;
    let allowed = format!("{LEAST_FORCE_N} N to {MOST_FORCE_N} N");
    within(
        text,
        newtons(LEAST_FORCE_N),
        newtons(MOST_FORCE_N),
        &allowed,
    )
}

pub(crate) fn air(text: &str) -> Result<Volume, String> {
    let ml = Volume::new::<milliliter>;
    within(text, ml(0.01), ml(200.0), "0.01 ml to 200 ml")
}

pub(crate) fn pedal_ratio(text: &str) -> Result<Ratio, String> {
    let lever = Ratio::new::<ratio>;
    within(text, lever(1.0), lever(15.0), "1 to 15")
}

pub(crate) fn bar_share(text: &str) -> Result<Ratio, String> {
    share(text, 20.0, 80.0, "20 % to 80 %")
}

/// One bore, or two with a plus between them.
pub(crate) fn bores(text: &str) -> Result<Bores, String> {
    let mm = Length::new::<millimeter>;
    let bores = text
        .split('+')
        .map(|bore| within(bore, mm(5.0), mm(80.0), "5 mm to 80 mm"))
        .collect::<Result<Vec<Length>, String>>()?;
    if bores.len() > 2 {
        return Err("allowed are one bore, or two for the cylinders of a balance bar".to_owned());
    }
    Ok(bores.into())
}

/// A reading of force and travel, and how far the travel is trusted.
/// How hard was pressed for a reading.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Pressed {
    Measured(Bounds<Force>),
    Felt(Push),
}

fn pressed(text: &str) -> Result<Pressed, String> {
    match plain(text).as_str() {
        "lightpush" | "light" => return Ok(Pressed::Felt(Push::Light)),
        "hardpush" | "hard" => return Ok(Pressed::Felt(Push::Hard)),
        _ => {}
    }
    let bounds = parse_quantity::<Force>(text).map_err(|error| {
        let help = error.help("\"222 N\", or without a gauge `light push` or `hard push`");
        format!("{error}; {help}")
    })?;
    let newtons = Force::new::<newton>;
    if bounds.low < newtons(LEAST_FORCE_N) || bounds.high > newtons(MOST_FORCE_N) {
        return Err(format!("allowed is {LEAST_FORCE_N} N to {MOST_FORCE_N} N"));
    }
    Ok(Pressed::Measured(bounds))
}

pub(crate) fn reading(text: &str) -> Result<(Pressed, Length, Length), String> {
    let (force_text, travel_text) = text
        .split_once(':')
        .ok_or("write force and travel with a colon between them, as in \"300 N: 62 mm\"")?;
    let travel = parse_quantity::<Length>(travel_text)
        .map_err(|error| format!("{error}; {}", error.help("\"62 mm\" or \"62 mm ± 1 mm\"")))?;
    let mm = Length::new::<millimeter>;
    if travel.nominal <= mm(0.0) || travel.nominal > mm(400.0) {
        return Err("allowed is a travel above 0 mm, to 400 mm".to_owned());
    }
    let stated = travel.high - travel.nominal;
    let tolerance = if stated > mm(0.0) {
        stated
    } else {
        mm(USUAL_TOLERANCE_MM)
    };
    Ok((pressed(force_text)?, travel.nominal, tolerance.max(mm(0.1))))
}

pub(crate) fn bottle(text: &str) -> Result<Volume, String> {
    let ml = Volume::new::<milliliter>;
    within(text, ml(20.0), ml(60_000.0), "20 ml to 60 l")
}

/// ASSUMPTION: below 0.2 bar a tank drives next to nothing, and no reservoir is
/// made for more than 4 bar.
pub(crate) fn tank_pressure(text: &str) -> Result<Pressure, String> {
    let bars = Pressure::new::<bar>;
    within(text, bars(0.2), bars(4.0), "0.2 bar to 4 bar")
}

pub(crate) fn temperature(text: &str) -> Result<ThermodynamicTemperature, String> {
    let [coldest, warmest] = TEMPERATURES_DEGC;
    let allowed = format!("{coldest} degC to {warmest} degC");
    let degc = ThermodynamicTemperature::new::<degree_celsius>;
    within(text, degc(coldest), degc(warmest), &allowed)
}

pub(crate) fn fluid(text: &str) -> Result<Fluid, String> {
    let words: Vec<&str> = Fluid::ALL.iter().map(|fluid| fluid.word()).collect();
    Fluid::ALL
        .iter()
        .copied()
        .find(|fluid| plain(fluid.word()) == plain(text))
        .ok_or_else(|| format!("allowed are {}", words.join(", ")))
}

/// The letters and figures alone: `DOT 5.1` is `dot5_1`.
fn plain(word: &str) -> String {
    word.chars()
        .filter(char::is_ascii_alphanumeric)
        .collect::<String>()
        .to_lowercase()
}

/// The names of a list such as "rear left, rear right".
pub(crate) fn names(list: &str) -> Result<Names, String> {
    let names = list.split(',').map(|name| name.trim().to_owned());
    let names: Names = names.filter(|name| !name.is_empty()).collect();
    if names.is_empty() {
        return Err(
            "it names no screw: write their names in the order wanted, as in \"a, b, c\""
                .to_owned(),
        );
    }
    Ok(names)
}

pub(crate) fn date(text: &str) -> Result<String, String> {
    printable(text, LONGEST_DATE)
}

pub(crate) fn registration(text: &str) -> Result<String, String> {
    printable(text, LONGEST_REGISTRATION)
}

fn printable(text: &str, longest: usize) -> Result<String, String> {
    // The mark stands for what could not be printed.
    let is_unprintable = |c: char| is_invisible(c) || c == char::REPLACEMENT_CHARACTER;
    let length = text.chars().count();
    if text.trim().is_empty() || length > longest || text.chars().any(is_unprintable) {
        return Err(format!("allowed are 1 to {longest} printable characters"));
    }
    Ok(text.to_owned())
}
