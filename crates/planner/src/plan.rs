//! The plan as plain data. Renderers read it; nothing in it is computed later.

mod after;
mod assumed;
mod before;
mod call;
mod caution;
mod change;
mod drawn_off;
mod height;
mod jar;
mod job;
mod left;
mod made;
mod note;
mod otherwise;
mod pedal_block;
mod reason;
mod second;
mod step;

pub use after::*;
pub use assumed::*;
pub use before::*;
pub use call::*;
pub use caution::*;
pub use change::*;
pub use drawn_off::*;
pub use height::*;
pub use jar::*;
pub use job::*;
pub use left::*;
pub use made::*;
pub use note::*;
pub use otherwise::*;
pub use pedal_block::*;
pub use reason::*;
pub use second::*;
pub use step::*;

use crate::certainty::OrderCertainty;
use crate::measurable::Measurable;
use crate::options::{Begin, Method, Purpose};
use crate::spread::Spread;
pub(crate) use bleedwright_hydraulics::bubble::Verdict;
use bleedwright_network::{Bounds, Finding, Fluid, ScrewId, Split, Steering};
use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature, Velocity, Volume};

/// A bleed plan.
#[derive(Clone, Debug)]
pub struct Plan {
    /// What the sheet says at its head.
    pub head: Head,
    /// Which circuits are bled and which stay shut, and why.
    pub scope: Vec<CircuitScope>,
    /// What comes before the first screw.
    pub preparations: Vec<Before>,
    /// How many people it takes.
    pub hands: u8,
    /// Who says and does what, at each stroke or at each screw.
    pub calls: Calls,
    /// What becomes of a long bubble in each line that fluid passes.
    pub bubbles: Vec<LineBubble>,
    /// Screws that are opened by gravity before the first step.
    pub gravity_first: Vec<ScrewId>,
    /// The old share of what the reservoir gives once it is refilled; nothing
    /// where nothing old is renewed.
    pub reservoir_old: Ratio,
    /// How often each compartment is rinsed now, and what other numbers would take.
    pub rinsing: Vec<Rinsing>,
    /// The screws in their order.
    pub steps: Vec<Step>,
    /// What to do when something goes otherwise.
    pub otherwise: Vec<Otherwise>,
    /// Why the other school's order was not taken, in numbers.
    pub other_order: Option<OtherOrder>,
    /// Where the maker's order departs from the derived one.
    pub order_notes: Vec<OrderNote>,
    /// What bleeding does not reach.
    pub remains: Vec<Remains>,
    /// The bleed after the routine of units that keep air, or may; none where no unit does, or no screw lies behind one.
    pub second: Option<SecondBleed>,
    /// What to buy.
    pub buy: Shopping,
    /// What comes after the last screw.
    pub checks_after: Vec<Check>,
    /// What can hurt.
    pub cautions: Vec<Caution>,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
    /// Where the uncertainty of the total comes from.
    pub spread: Spread,
    /// Everything found in the layout and the options.
    pub findings: Vec<Finding>,
    /// Whether the user's own order breaks a rule of the pipework.
    pub is_unsafe_by_options: bool,
    /// Whether lengths within their tolerances could change the order.
    pub order_certainty: OrderCertainty,
    /// What is worth measuring, once it was put here by
    /// [`worth_measuring`](crate::worth_measuring): it takes many plans to find
    /// out.
    pub worth: Option<Worth>,
}

impl Plan {
    /// The measurement that would narrow the fluid to buy most, where it was
    /// asked for and there is one.
    pub fn best_measurement(&self) -> Option<&Measurement> {
        let best = self.worth.as_ref()?.measurements.first()?;
        (best.gain > Volume::default()).then_some(best)
    }
}

/// The head of the sheet.
#[derive(Clone, Debug)]
pub struct Head {
    /// The vehicle.
    pub vehicle: String,
    /// The layout's remark.
    pub notes: Option<String>,
    /// How the circuits are shared among the wheels.
    pub split: Split,
    /// The driver's side.
    pub steering: Option<Steering>,
    /// The layout's fluid.
    pub fluid: Option<Fluid>,
    /// The fluid poured in.
    pub new_fluid: Option<Fluid>,
    /// What tells this vehicle from its like, when the user gave it.
    pub registration: Option<String>,
    /// The date, when the user gave one.
    pub date: Option<String>,
    /// Why the brakes are bled.
    pub purpose: Purpose,
    /// How.
    pub method: Method,
    /// Which end first.
    pub begin: Begin,
    /// When renewal is finished.
    pub residual: Ratio,
    /// Share of the stroke.
    pub stroke: Ratio,
    /// Pressure in the tank, by the pressure method.
    pub tank_pressure: Option<Bounds<Pressure>>,
    /// Temperature of the fluid.
    pub temperature: ThermodynamicTemperature,
    /// Parts and lines that were opened, as the user named them.
    pub opened: Vec<String>,
    /// Parts and lines that are new, as the user named them.
    pub replaced: Vec<String>,
    /// Screws finished earlier.
    pub done: Vec<String>,
    /// Whether it stood for long.
    pub is_laid_up: bool,
}

/// Whether a circuit is bled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CircuitScope {
    /// The circuit's name.
    pub circuit: String,
    /// What it works.
    pub works: bleedwright_network::Works,
    /// Whether its screws are opened.
    pub is_bled: bool,
    /// Why.
    pub why: WhyBled,
}

/// Why a circuit is bled, or is not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyBled {
    /// It is filled from empty.
    Filled,
    /// It was opened.
    Opened,
    /// Its compartment ran dry.
    RanDry,
    /// Its fluid is renewed.
    Renewed,
    /// Nobody knows where the air is.
    AirUnknown,
    /// The order given names one of its screws.
    InOrder,
    /// It should be, but has no screw.
    NoScrew,
    /// It is separate, was not opened and did not run dry.
    Separate,
}

/// A long bubble in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct LineBubble {
    /// The line.
    pub line: String,
    /// Whether it stands, may climb or climbs where the fluid rests.
    pub verdict: Verdict,
    /// How fast it climbs in an upright pipe.
    pub rise: Velocity,
    /// How fast the fluid moves on the average, rests included.
    pub flow: Velocity,
    /// Whether it leaves with the fluid.
    pub is_carried: bool,
    /// Whether the layout says how the line leads; else it is taken to lead
    /// straight down.
    pub are_heights_known: bool,
    /// What the line holds: the most that can stay.
    pub contents: Bounds<Volume>,
}

/// The same job in the other school's order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OtherOrder {
    /// The other school.
    pub begin: Begin,
    /// What this plan pushes.
    pub this_push: Volume,
    /// What the other order would push.
    pub other_push: Volume,
}

/// What to buy.
#[derive(Clone, Debug)]
pub struct Shopping {
    /// New fluid drawn, at the high bound of every amount.
    pub needed: Volume,
    /// The same at the low bound of every amount: what is between the two is
    /// what measuring can narrow.
    pub needed_at_least: Volume,
    /// How it is made up.
    pub parts: Vec<(Use, Volume)>,
    /// Bottles, largest first, with their number.
    pub bottles: Vec<(Volume, u64)>,
    /// What the bottles hold.
    pub bought: Volume,
    /// What leaves the screws and what is drawn off the reservoir, together, at
    /// most: [`Plan::jars`] and [`Plan::drawn_off`] part it.
    pub catch: Volume,
    /// What a bleed after the routine of units that keep old fluid would take beside all this, if somebody runs it.
    pub if_routine: Option<Volume>,
}

/// What new fluid is used for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// It is pushed through the screws, at most.
    Pushed,
    /// It fills runs by gravity before the pedal is used.
    ByGravity,
    /// It stays in the pressure tank.
    Tank,
    /// It rinses and fills a reservoir that was drawn off.
    Reservoir,
    /// It fills a reservoir that is empty.
    EmptyReservoir,
    /// The bleed after the routine of anti-lock units, at most.
    SecondBleed,
    /// It is spilt.
    Spilt,
}

/// What is worth measuring.
#[derive(Clone, Debug)]
pub struct Worth {
    /// The fluid to buy at most minus that at least, before rounding to
    /// bottles: what measuring can narrow.
    pub width: Volume,
    /// The measurements that narrow it most, the best first; and behind them
    /// those that settle the order alone.
    pub measurements: Vec<Measurement>,
    /// Why measurements were not looked at.
    pub left_out: Option<TooMuch>,
}

/// Why it was not worked out what is worth measuring: so many figures at so many screws take too much.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooMuch {
    /// The figures.
    pub figures: usize,
    /// The screws, each as often as it is visited.
    pub visits: usize,
    /// Whether amounts are too many; else the lines and parts on the runs are.
    pub is_by_amounts: bool,
}

/// One figure that could be measured.
#[derive(Clone, Debug)]
pub struct Measurement {
    /// What to measure.
    pub what: Measurable,
    /// Whether the layout is silent about it; else it is stated with a
    /// tolerance.
    pub is_assumed: bool,
    /// By how much the fluid to buy is narrowed if the figure is measured and
    /// found at its nominal value. Negative where that turns the order round
    /// to one that leaves more open.
    pub gain: Volume,
    /// Pairs of screws whose order it settles by itself, by name.
    pub settles: Vec<[String; 2]>,
}
