//! What comes before the first screw, as facts; renderers have the words.

use super::{Change, DrawnOff, Fed, Made, Worked};
use crate::options::Method;
use bleedwright_network::{BoosterKind, Bounds, Control, Fluid, ParkingBrake};
use strum::IntoStaticStr;
use uom::si::f64::{Length, Pressure, Volume};

/// Something to look at or to do before the first screw.
#[derive(Clone, Debug, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Before {
    /// A look at what is there.
    Look(Look),
    /// It stood for long: no stroke goes to the end of the bore.
    ShortStrokes,
    /// A change to the vehicle.
    Made(Made),
    /// Joints that were opened beside the screws are made up before fluid is poured.
    Joints {
        /// The parts and lines, by name.
        at: Vec<String>,
        /// Whether pipes may have been exchanged, at a unit.
        may_be_crossed: bool,
    },
    /// No level fell to the outlet of its compartment; those whose outlet for this job lies higher, with the level.
    LevelHeld(Vec<(String, Volume)>),
    /// The shuttle of a differential switch is kept in the middle; the part.
    SwitchCentred(String),
    /// No booster helps any more, or the maker lets nobody bleed by its pedal.
    Booster(BoosterKind),
    /// The parking brake is let off, once the vehicle stands safely.
    ParkingBrakeOff(Option<ParkingBrake>),
    /// Brakes that are new, by name.
    NewBrakes {
        /// The parts.
        parts: Vec<String>,
        /// Whether calipers are among them.
        has_calipers: bool,
    },
    /// The slave cylinders of the clutch sit in their place; the parts.
    SlavesInPlace(Vec<String>),
    /// The handlebar is turned until the reservoirs of these cylinders stand level and high.
    BarTurned(Vec<String>),
    /// Controls that brake both wheels of a motorcycle.
    Linked(Vec<Worked>),
    /// The shaft of this coupler's cylinder is pushed in by a lever.
    ShaftByLever(String),
    /// What works the cylinders is left alone, all the way back.
    PortsOpen(Vec<Control>),
    /// A pump that wakes by a door or the pedal, at an anti-lock unit or a store of pressure.
    PumpMayWake,
    /// Residual valves let fluid out in a spurt.
    ResidualHeld {
        /// The valves.
        valves: Vec<String>,
        /// How the fluid is moved: what opens them is not always known.
        method: Method,
    },
    /// The shoes of drum brakes are adjusted.
    ShoesAdjusted,
    /// The maker's routine for a unit is at hand.
    RoutineAtHand {
        /// The unit.
        unit: String,
        /// The routine, where the layout has it.
        routine: Option<String>,
    },
    /// Cylinders that are taken for bled on the bench, since a screw behind them is done.
    BenchDone(Vec<String>),
    /// Dry cylinders are bled on the bench.
    BenchFirst {
        /// The cylinders.
        cylinders: Vec<String>,
        /// How far their pistons are pushed into the reservoir.
        stroke: Length,
    },
    /// The old fluid is drawn off these compartments.
    DrawnOff(Vec<DrawnOff>),
    /// The same, where it is taken for done in an earlier part of the job.
    TakenAsDrawnOff {
        /// The compartments.
        compartments: Vec<DrawnOff>,
        /// What is to buy beside the rest if it was not done.
        poured: Volume,
    },
    /// The fluid that is poured in.
    NewFluid {
        /// Its grade; none where that is the maker's alone.
        fluid: Option<Fluid>,
        /// How it is moved: by the reverse method the reservoir is not filled.
        method: Method,
        /// The compartments whose take-off for a clutch may lie above the usual lowest level, with its level.
        take_offs: Vec<(String, Volume)>,
    },
    /// Runs that gravity fills before anything is pressed.
    GravityFirst {
        /// What works the cylinders, and stays back.
        controls: Vec<Control>,
        /// The circuits, or the screws where not all of a circuit are opened.
        through: Vec<String>,
    },
    /// Screws of both circuits under a balance bar are open at once.
    OpenInPairs,
    /// A vacuum pump at the screw.
    VacuumPump {
        /// How far below the air outside it draws.
        below: Bounds<Pressure>,
        /// What tells afterwards whether air is left.
        controls: Vec<Control>,
    },
    /// A vacuum may draw air past the cups of wheel cylinders.
    CupsMayLeak,
    /// By gravity the cap is loose, and one screw open at a time.
    CapLoose,
    /// By the reverse method compartments are lowered, or filled, to so much below the maximum mark.
    LevelLowered(Vec<(String, Volume)>),
    /// By the reverse method fluid may come over the rim.
    CapOff,
    /// By the reverse method dirt would go into an anti-lock unit.
    DirtIntoUnit,
}

/// What is looked at before anything else: what is not right is mended, and planned anew.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Look {
    /// Everything is dry, before fluid is poured.
    #[strum(serialize = "look_dry")]
    Dry(Fed),
    /// Hoses, pipes and what is worn are sound.
    #[strum(serialize = "look_sound")]
    Sound(Fed),
    /// It stood for long: what sticks is found and freed before fluid is poured.
    #[strum(serialize = "freed_dry")]
    Freed(Fed),
    /// It stood for long: hoses are judged by their date.
    HosesByDate,
    /// The old fluid is one, and of the right kind.
    #[strum(serialize = "look_fluid")]
    Fluid,
    /// Every screw opens and shuts, while nothing is drawn off yet.
    #[strum(serialize = "look_screws")]
    Screws,
}

impl Before {
    /// Whether it is a look at what is there.
    pub fn is_look(&self) -> bool {
        matches!(self, Self::Look(_))
    }

    /// Its name for programs, and that of what is made.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Made(made) => made.into(),
            Self::Look(look) => look.into(),
            other => other.into(),
        }
    }

    /// What it changes on the vehicle, to be undone afterwards.
    pub fn change(&self) -> Option<Change> {
        match self {
            Self::Made(made) => Some(made.change()),
            _ => None,
        }
    }
}
