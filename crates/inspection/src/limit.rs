//! What readings are held against, where that stands, and how well it was known.
//!
//! Sections 570.51 to 570.63 of the inspection standard are for vehicles of more than 10,000 lb (570.51, read); lighter ones
//! have 570.5, which asks for the same figures but for linings. Which of them is cited follows the vehicle's mass.

use uom::si::f64::{Force, Length, Ratio, Time};
use uom::si::force::newton;
use uom::si::length::{inch, millimeter};
use uom::si::ratio::percent;
use uom::si::time::second;

/// How well a source was known when the limit was taken from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Provenance {
    /// The passage was read in the source or in an official copy.
    Read,
    /// Read where somebody else quotes it.
    SecondHand,
    /// From memory, not looked up.
    FromMemory,
    /// A fact of the trade without a source.
    CommonPractice,
    /// Assumed here.
    Assumption,
    /// A figure that the record itself gives: embossed on the part, or the maker's.
    RecordedFigure,
    /// A rule of this sheet: what is needed so that it means anything.
    SheetRule,
}

/// Where a limit stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// The place.
    pub place: Place,
    /// How well it was known.
    pub standing: Provenance,
}

/// A place in a law, a standard or a manual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// There is none.
    Nowhere,
    /// A clause, such as `49 CFR 570.55(c)`.
    Clause(&'static str),
    /// The first for a vehicle over 10,000 lb, the second, of the same law, for a lighter one.
    ByMass(&'static str, &'static str),
    /// Lines drawn around a clause.
    Around(&'static str),
}

/// The places of one limit, by the gross mass of the vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ByMass {
    heavy: Source,
    light: Source,
    unknown: Source,
}

impl ByMass {
    /// The place for a vehicle over 10,000 lb, for a lighter one, or both where nobody says which.
    pub fn of(self, is_over_10000_lb: Option<bool>) -> Source {
        match is_over_10000_lb {
            Some(true) => self.heavy,
            Some(false) => self.light,
            None => self.unknown,
        }
    }
}

/// The place for heavy vehicles, and how well that for lighter ones was known.
macro_rules! by_mass {
    ($heavy:literal, $light:expr) => {
        ByMass {
            heavy: source($heavy, Provenance::Read),
            light: source("49 CFR 570.5", $light),
            unknown: Source {
                place: Place::ByMass($heavy, "570.5"),
                standing: $light,
            },
        }
    };
}

const fn source(clause: &'static str, standing: Provenance) -> Source {
    let place = Place::Clause(clause);
    Source { place, standing }
}

const fn nowhere(standing: Provenance) -> Source {
    let place = Place::Nowhere;
    Source { place, standing }
}

/// Travel of the pedal at a given force [CFR570](crate#sources).
pub const PEDAL_RESERVE: ByMass = by_mass!("49 CFR 570.55(c)", Provenance::FromMemory);

/// The pedal pressed hard and held; no further drop, lamp stays off [CFR570](crate#sources).
pub const PEDAL_HOLD: ByMass = by_mass!("49 CFR 570.55(b)", Provenance::FromMemory);

/// Hoses and pipes [CFR570](crate#sources).
pub const HOSES: ByMass = by_mass!("49 CFR 570.55(d)", Provenance::SecondHand);

/// Discs and drums within the figure embossed on the part [CFR570](crate#sources). That a disc **at** the figure is
/// replaced too is common practice, no source, and stricter.
pub const DISC_AND_DRUM: ByMass = by_mass!("49 CFR 570.59(b)", Provenance::SecondHand);

/// The least lining of any vehicle in use [CFR570](crate#sources).
pub const LINING_OF_THE_LAW: ByMass = by_mass!("49 CFR 570.59(c)", Provenance::SecondHand);

/// The least lining of commercial vehicles with hydraulic brakes [CFR393](crate#sources).
pub const LINING_FLOOR: Source = source("49 CFR 393.47(d)", Provenance::Read);

/// The maker's least lining.
///
/// ASSUMPTION: a lining at the maker's figure is worn out, as a disc is.
pub const LINING: Source = nowhere(Provenance::RecordedFigure);

/// The maker's torque; its spread, where the figure has none, is [`torque_spread`].
pub const TORQUE: Source = nowhere(Provenance::RecordedFigure);

/// A level under the minimum mark [MOT](crate#sources).
pub const LOW_LEVEL: Source = source("UK MOT manual, 1.1 and 1.8", Provenance::Read);

/// Fluid that is visibly contaminated [MOT](crate#sources).
pub const CLEAR_FLUID: Source = source("UK MOT manual, 1.1 and 1.8", Provenance::Read);

/// Caps on reservoirs [MOT](crate#sources).
pub const RESERVOIR_CAP: Source = source("UK MOT manual, 1.1.10 to 1.1.17", Provenance::Read);

/// No hydraulic leak [MOT](crate#sources).
pub const LEAK: Source = source("UK MOT manual, 1.1.10 to 1.1.17", Provenance::Read);

/// Whether the warning lamp works at all. The clause asks for a check of the bulb at every switching on
/// [FMVSS135](crate#sources).
pub const LAMP_LIGHTS: Source = source("FMVSS 135 S5.5", Provenance::SecondHand);

/// The fluid that the maker asks for.
pub const FLUID_GRADE: Source = nowhere(Provenance::RecordedFigure);

/// Boiling points between which fluid is renewed: the wet minima of the grades [FMVSS116](crate#sources), and lines
/// beside them that [`crate::fluid`] draws.
pub const BOILING: Source = Source {
    place: Place::Around("FMVSS 116 S5.1.2"),
    standing: Provenance::Assumption,
};

/// How long before the work its bottle was opened: [`crate::fluid`] draws the lines.
pub const BOTTLE_OPENED: Source = nowhere(Provenance::Assumption);

/// The maker's interval between two renewals.
pub const INTERVAL: Source = nowhere(Provenance::RecordedFigure);

/// What the trade looks at without a source.
pub const PRACTICE: Source = nowhere(Provenance::CommonPractice);

/// What makes a sheet a record: who and when.
pub const SHEET: Source = nowhere(Provenance::SheetRule);

/// The share of the travel that the depressed pedal may use up: 80 %, 49 CFR 570.55(c).
pub fn most_pedal_travel() -> Ratio {
    Ratio::new::<percent>(80.0)
}

/// The least distance that a reading beside a pedal shows. A pedal nearer to the floor touches it, and one that moves by
/// less has not moved.
///
/// ASSUMPTION: 1 mm, about what a rule held beside a pedal can be read to. Free play alone is more.
pub fn least_shown() -> Length {
    Length::new::<millimeter>(1.0)
}

/// The force at which the travel is measured: 50 lbf, printed as 222 N, 49 CFR 570.55(c).
pub fn reserve_force() -> Force {
    Force::new::<newton>(222.0)
}

/// The force of the hard press: 125 lbf, printed as 556 N, 49 CFR 570.55(b).
pub fn hold_force() -> Force {
    Force::new::<newton>(556.0)
}

/// How long the pedal is held: 10 s, 49 CFR 570.55(b).
pub fn hold_time() -> Time {
    Time::new::<second>(10.0)
}

/// The least lining under which no maker's figure helps: 1.6 mm (1/16 in), 49 CFR 393.47(d), which is written for
/// commercial vehicles.
pub fn lining_floor() -> Length {
    Length::new::<millimeter>(1.6)
}

/// The least lining of a vehicle in use, in thirty-seconds of an inch: one over a rivet or other fastener; of a vehicle over
/// 10,000 lb two over the shoe where the lining is bonded, of a lighter one one. 49 CFR 570.59(c), 570.5. What nobody says is
/// light and riveted counts as heavy and bonded. With it whether it is one over the shoe.
pub fn lining_of_the_law(
    is_over_10000_lb: Option<bool>,
    is_riveted: Option<bool>,
) -> (Length, bool) {
    let is_over_shoe = is_over_10000_lb != Some(false) && is_riveted != Some(true);
    let count = if is_over_shoe { 2.0 } else { 1.0 };
    (Length::new::<inch>(count / 32.0), is_over_shoe)
}

/// The widest tolerance of a torque that is still one to hold against.
///
/// ASSUMPTION: 30 %. Makers' ranges for bleed screws are narrower; a wider one passes screws that weep or shear.
pub fn widest_torque_tolerance() -> Ratio {
    Ratio::new::<percent>(30.0)
}

/// How far a torque may be from a maker's figure that has no tolerance.
///
/// ASSUMPTION: 10 %. No published figure was found.
pub fn torque_spread() -> Ratio {
    Ratio::new::<percent>(10.0)
}
