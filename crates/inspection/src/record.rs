//! The record: what was measured after the work, on one vehicle, by whom and when.
//!
//! A record is a small text file, in RON or as the same structure in JSON. Whatever was not looked at stands in it as
//! `not_checked`, and a field that is left out counts as not checked too.

mod blank;
mod edit;
mod entry;
mod form;
mod marks;
mod meant;
mod measured;
mod quoted;
mod read;
mod scan;
mod slot;
mod tree;
mod write;

pub use blank::{Job, blank_record};
pub use edit::{SetError, reading_names, set_readings};
pub use entry::{Answer, BrakeType, Day, Entry, FluidLevel, Interval, Measured, StepEnd, TaskKind};
pub use form::{FormField, record_form};
pub use marks::{Counted, Ticked};
pub use measured::{believable_length, believable_torque};
pub use read::{RECORD_FORMAT, ReadRecord, read_record};
pub use scan::Spelling;
pub use slot::{BLANK_WORDS, FieldKind, FieldUnit, QuantityField, Wrong};

use bleedwright_network::{Control, Fluid};
use slot::{Slot, Slots};
use uom::si::f64::{Force, Length, Ratio, ThermodynamicTemperature, Time, Torque, Volume};

/// A structure whose fields are all readings.
macro_rules! readings {
    ($(#[$doc:meta])* $name:ident { $($(#[$field_doc:meta])* $field:ident: $type:ty,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct $name {
            $($(#[$field_doc])* pub $field: $type,)+
        }

        impl Slots for $name {
            fn slots(&self) -> Vec<(&'static str, &dyn Slot)> {
                vec![$((stringify!($field), &self.$field as &dyn Slot)),+]
            }

            fn slots_mut(&mut self) -> Vec<(&'static str, &mut dyn Slot)> {
                vec![$((stringify!($field), &mut self.$field as &mut dyn Slot)),+]
            }
        }
    };
}

/// What was written down after the work on one vehicle.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Record {
    /// The vehicle, and everything on it that has to be looked at.
    pub vehicle: Vehicle,
    /// Who and when.
    pub work: Work,
    /// Pedals and hand levers.
    pub controls: Vec<ControlReadings>,
    /// Discs, drums and linings.
    pub brakes: Vec<BrakeReadings>,
    /// Bleed screws.
    pub screws: Vec<ScrewReadings>,
    /// Compartments of the reservoirs.
    pub compartments: Vec<CompartmentReadings>,
    /// The steps of the plan that was followed.
    pub steps: Vec<StepReadings>,
    /// What the plan leaves to be finished after them.
    pub tasks: Vec<TaskReadings>,
    /// What is looked at once for the whole vehicle.
    pub checks: VehicleReadings,
    /// How far the work has come, where a job card is kept.
    pub card: CardMarks,
}

readings! {
    /// What was ticked and counted on a job card. No verdict depends on it: what it means stands in the steps and tasks.
    CardMarks {
        /// The fingerprint of the plan that the card was made from; on another plan the marks mean nothing.
        plan: String,
        /// The [`AMOUNTS_REVISION`] of that plan; none before the second one.
        amounts: String,
        /// The lines that were ticked.
        ticked: Ticked,
        /// Strokes or millilitres, and readings of the jars.
        counted: Counted,
    }
}

/// Which way of working out amounts the plans of this program follow. It goes up whenever the same layout and options
/// get other amounts, so that a record tells by what it was worked.
pub const AMOUNTS_REVISION: u32 = 2;

impl CardMarks {
    /// Whether the card was made from a plan with the amounts of an older revision.
    pub fn is_of_older_plan(&self) -> bool {
        let revision: u32 = self.amounts.trim().parse().unwrap_or(1);
        !self.plan.trim().is_empty() && revision < AMOUNTS_REVISION
    }
}

readings! {
    /// The vehicle a record belongs to. The lists come from its layout: an item that was lost from the record is
    /// missed because its name still stands here.
    Vehicle {
        /// The vehicle's name.
        name: String,
        /// What tells it from its like: its registration, chassis or fleet number.
        registration: String,
        /// The fluid that the maker asks for.
        fluid: Entry<Fluid>,
        /// After how long the maker wants it renewed.
        interval: Entry<Interval>,
        /// Whether its gross mass is more than 10,000 lb (4536 kg), by which the law's sections are told apart.
        over_10000_lb: Entry<Answer>,
        /// Every pedal and hand lever that works brakes.
        controls: Vec<String>,
        /// Every brake that needs readings.
        brakes: Vec<String>,
        /// Every bleed screw.
        screws: Vec<String>,
        /// Every compartment of a reservoir.
        compartments: Vec<String>,
        /// Every step of the plan.
        steps: Vec<String>,
        /// Everything that the plan leaves to be finished.
        tasks: Vec<String>,
    }
}

readings! {
    /// Who did the work, who looked at it, when, and what was done beside the steps.
    Work {
        /// The day of the readings.
        date: Entry<Day>,
        /// Who did the work.
        done_by: String,
        /// Who checked it.
        checked_by: String,
        /// Parts and lines that the plan counts as new.
        replaced: Vec<String>,
        /// Compartments that ran dry, by the plan.
        ran_dry: Vec<String>,
        /// Screws that were finished before this plan.
        bled_earlier: Vec<String>,
        /// Parts that were fitted.
        parts_fitted: String,
        /// By what the torques were set, as the workshop tells it from its like.
        torque_tool: String,
        /// Work that the owner did not want done.
        refused: String,
        /// The day on which the fluid is due again.
        next_due: Entry<Day>,
        /// Anything else, printed on the sheet.
        notes: String,
    }
}

readings! {
    /// One brake: its disc or its drum, and its linings.
    BrakeReadings {
        /// The wheel, or the part where a wheel has several calipers.
        name: String,
        /// Disc or drum.
        kind: Entry<BrakeType>,
        /// Thickness of the disc at its thinnest place.
        disc: Entry<Measured<Length>>,
        /// The least thickness, embossed on the disc; where it carries none, the maker's figure.
        disc_minimum: Entry<Measured<Length>>,
        /// Inside diameter of the drum at its widest place.
        drum: Entry<Measured<Length>>,
        /// The largest diameter, embossed on the drum; where it carries none, the maker's figure.
        drum_maximum: Entry<Measured<Length>>,
        /// Thickness of the thinnest lining: over its rivets where it is riveted, else over its backing plate or shoe.
        lining: Entry<Measured<Length>>,
        /// Whether it is riveted; what nobody says is counts as bonded.
        riveted: Entry<Answer>,
        /// The maker's least thickness of the lining.
        lining_minimum: Entry<Measured<Length>>,
    }
}

readings! {
    /// One bleed screw.
    ScrewReadings {
        /// Its name in the layout.
        name: String,
        /// The torque at the second check.
        torque: Entry<Measured<Torque>>,
        /// The maker's torque.
        torque_wanted: Entry<Measured<Torque>>,
        /// Whether it is dry after the hard press.
        dry: Entry<Answer>,
        /// Whether its dust cap is on.
        cap: Entry<Answer>,
    }
}

readings! {
    /// One compartment of a reservoir.
    CompartmentReadings {
        /// Its name in the layout.
        name: String,
        /// The level against the marks.
        level: Entry<FluidLevel>,
        /// Whether its cap is on.
        cap: Entry<Answer>,
    }
}

readings! {
    /// One step of the plan that was followed.
    StepReadings {
        /// `step 1`, as the plan counts.
        name: String,
        /// The screws that it opens.
        screws: Vec<String>,
        /// What the plan pushes through them.
        wanted: Entry<Measured<Volume>>,
        /// At this amount the plan says to stop and to find where air enters.
        give_up: Entry<Measured<Volume>>,
        /// How it was finished.
        done: Entry<StepEnd>,
        /// What was pushed; of two screws at a time what the worse one got counts for both.
        pushed: Entry<Measured<Volume>>,
        /// Whether every stop for the reservoir was seen to before the next was due.
        level_kept: Entry<Answer>,
    }
}

readings! {
    /// Something that the plan leaves to be finished: until it is done the job is not.
    TaskReadings {
        /// What is to be done.
        name: String,
        /// What kind of task it is.
        kind: Entry<TaskKind>,
        /// Whether it was done.
        done: Entry<Answer>,
        /// By what a maker's routine was run.
        by: String,
        /// When it was run.
        date: Entry<Day>,
    }
}

readings! {
    /// One pedal or hand lever: its travel, its feel, and what it does when it is pressed hard and held.
    ControlReadings {
        /// Its name: `pedal`, `hand lever`.
        name: String,
        /// Pedal or hand lever.
        kind: Entry<Control>,
        /// Whether a booster helps.
        booster: Entry<Answer>,
        /// A: from the free pedal to the floor, or to the stop.
        free: Entry<Measured<Length>>,
        /// B: from the depressed pedal to the floor, or to the stop.
        depressed: Entry<Measured<Length>>,
        /// The force at which B was measured.
        force: Entry<Measured<Force>>,
        /// Whether the engine ran meanwhile, where a booster helps.
        engine_running: Entry<Answer>,
        /// Whether the pedal is firm: neither springy nor higher after pumping.
        firm: Entry<Answer>,
        /// The force of the hard press.
        hold_force: Entry<Measured<Force>>,
        /// How long it was held.
        hold_time: Entry<Measured<Time>>,
        /// Whether the pedal went on sinking meanwhile.
        hold_dropped: Entry<Answer>,
    }
}

readings! {
    /// What is looked at once for the whole vehicle.
    VehicleReadings {
        /// Whether fluid leaks anywhere.
        leak_found: Entry<Answer>,
        /// Whether hoses and pipes are sound, supported and free of the body, looked at from lock to lock.
        hoses_sound: Entry<Answer>,
        /// Whether the brake warning lamp lights when the ignition is switched on.
        lamp_lights: Entry<Answer>,
        /// Whether it then goes out and stays out, also under the hard press.
        lamp_goes_out: Entry<Answer>,
        /// Whether a sample of the fluid is clear: no drops of water, no dirt.
        fluid_clear: Entry<Answer>,
        /// Water in the fluid before the work, as the tester showed it.
        moisture_before: Entry<Measured<Ratio>>,
        /// Its boiling point before the work.
        boiling_point_before: Entry<Measured<ThermodynamicTemperature>>,
        /// Where that sample was taken: at a screw, or from the reservoir.
        sample_before: String,
        /// The fluid that was filled in, by its bottle.
        fluid: Entry<Fluid>,
        /// What tells the bottle from its like: maker, batch, date.
        bottle: String,
        /// The day on which it was opened.
        bottle_opened: Entry<Day>,
        /// Water in the fluid, as the tester shows it.
        moisture: Entry<Measured<Ratio>>,
        /// Its boiling point, as the tester shows it; where it is measured, moisture need not be.
        boiling_point: Entry<Measured<ThermodynamicTemperature>>,
        /// Where the sample of these two was taken; one from the reservoir says nothing of the wheels.
        sample: String,
    }
}

/// One part of a record, for whoever walks through all of them.
pub(crate) enum Section<'r> {
    One(&'r dyn Slots),
    /// A list of structures with names.
    Many(Vec<&'r dyn Slots>),
}

/// A part of a record as a file has it.
pub(crate) struct SectionName {
    pub(crate) field: &'static str,
    /// The word before, or for items behind the name, when a reading is named on the command line; none where nothing
    /// in it is a reading.
    pub(crate) word: Option<&'static str>,
    /// Whether it is left out where nothing stands in it.
    pub(crate) is_optional: bool,
}

/// The parts in the order of the file.
pub(crate) const SECTIONS: [SectionName; 10] = {
    const fn section(field: &'static str, word: &'static str) -> SectionName {
        SectionName {
            field,
            word: Some(word),
            is_optional: false,
        }
    }
    [
        section("readings_of", "vehicle"),
        section("work", ""),
        section("controls", ""),
        section("brakes", ""),
        section("screws", "screw"),
        section("compartments", "reservoir"),
        section("steps", ""),
        section("tasks", ""),
        section("checks", ""),
        SectionName {
            field: "card",
            word: None,
            is_optional: true,
        },
    ]
};

impl Record {
    /// The parts, in the order of [`SECTIONS`].
    pub(crate) fn sections(&self) -> [Section<'_>; 10] {
        fn many<S: Slots>(items: &[S]) -> Section<'_> {
            Section::Many(items.iter().map(|item| item as &dyn Slots).collect())
        }
        [
            Section::One(&self.vehicle),
            Section::One(&self.work),
            many(&self.controls),
            many(&self.brakes),
            many(&self.screws),
            many(&self.compartments),
            many(&self.steps),
            many(&self.tasks),
            Section::One(&self.checks),
            Section::One(&self.card),
        ]
    }
}
