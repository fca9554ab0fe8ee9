//! Calipers, wheel cylinders and clutch slaves: cavities and their pistons.

use super::brake_default::{
    Defaults, caliper_defaults, clutch_defaults, mm, wheel_cylinder_defaults,
};
use super::part::has_twins;
use super::range::{
    CAVITY_DEAD, CLEARANCE, EXTENSION, GIVE, PART_CONTENTS, PISTON_BORE, WEAR_TRAVEL,
};
use super::reader::Reader;
use crate::bounds::{Bounds, Figure};
use crate::code::Code;
use crate::file::{
    Amount, CaliperFile, CavityFile, Given, Name, PistonFile, WheelCylinderFile, known,
};
use crate::finding::Finding;
use crate::layout::{Brake, BrakeKind, Cavity, Lining, PartKind, Piston};
use crate::place::Walk;
use crate::usual::Usual;
use uom::si::f64::{Length, Volume};

/// Most pistons of one size in one cavity.
const MOST_PISTONS: u32 = 12;

/// Most chambers in one caliper, and sizes of pistons in one of them.
///
/// ASSUMPTION: as many as pistons; calipers that are known have two halves.
const MOST_CHAMBERS: usize = 12;

impl Reader {
    pub(crate) fn caliper(&mut self, file: &CaliperFile, walk: &Walk<'_>) -> PartKind {
        let defaults = caliper_defaults(known(&file.mounting).copied());
        let wear_travel = self.figure(
            &file.wear_travel,
            &walk.field("wear_travel"),
            &WEAR_TRAVEL,
            defaults.wear_travel,
        );
        let state = LiningState::new(known(&file.lining).copied(), wear_travel, &defaults);
        let cavities = match (&file.pistons, &file.chambers) {
            (Some(pistons), None) => {
                let dead_volume = file.dead_volume.as_ref();
                vec![self.cavity(String::new(), pistons, dead_volume, walk, &state)]
            }
            (None, Some(chambers)) => {
                if file.dead_volume.is_some() {
                    self.findings.push(Finding::new(
                        Code::Chambers,
                        walk.field("dead_volume").place(),
                        "a dead volume is given for the caliper and not for its chambers",
                        "move `dead_volume` into each chamber",
                    ));
                }
                self.chambers(chambers, &walk.field("chambers"), &state)
            }
            (given, _) => {
                let (message, help) = if given.is_some() {
                    (
                        "the caliper has both `pistons` and `chambers`",
                        "keep `chambers`, each with its own pistons",
                    )
                } else {
                    (
                        "the caliper has no pistons",
                        "add `pistons: [(bore: \"54 mm\", extension: \"5 mm\")]`",
                    )
                };
                self.findings
                    .push(Finding::new(Code::Chambers, walk.place(), message, help));
                vec![unknown_cavity(&state)]
            }
        };
        let bleed_first = known(&file.bleed_first);
        if let Some(first) = bleed_first
            && file
                .chambers
                .iter()
                .flatten()
                .all(|chamber| known(&chamber.id).is_some())
            && !cavities.iter().any(|cavity| cavity.id == *first)
        {
            self.findings.push(Finding::new(
                Code::Chambers,
                walk.field("bleed_first").place(),
                format!("the caliper has no chamber `{first}`"),
                "name one of its chambers",
            ));
        }
        if file.crossover.is_some() && file.chambers.is_none() {
            self.findings.push(Finding::new(
                Code::Chambers,
                walk.field("crossover").place(),
                "a crossover is given for a caliper with one chamber",
                "give its `chambers`, or leave the crossover out",
            ));
        }
        // One that cannot be read joins the chambers nevertheless.
        let crossover = file
            .crossover
            .as_ref()
            .map(|contents| self.value(contents, &walk.field("crossover"), &PART_CONTENTS));
        PartKind::Brake(Brake {
            kind: BrakeKind::Caliper {
                mounting: known(&file.mounting).copied(),
            },
            cavities,
            crossover,
            bleed_first: bleed_first.cloned(),
            lining: known(&file.lining).copied(),
            wear_travel,
            running_clearance: self.optional(
                &file.running_clearance,
                &walk.field("running_clearance"),
                &CLEARANCE,
            ),
            gives_at_100_bar: self.optional(
                &file.gives_at_100_bar,
                &walk.field("gives_at_100_bar"),
                &GIVE,
            ),
        })
    }

    fn chambers(
        &mut self,
        files: &[CavityFile],
        walk: &Walk<'_>,
        state: &LiningState,
    ) -> Vec<Cavity> {
        let names = || files.iter().filter_map(|file| file.id.as_ref());
        let is_unnamed = files.iter().any(|file| file.id.is_none());
        let has_dot = names()
            .filter_map(Name::value)
            .any(|name| name.contains('.'));
        if files.len() < 2 || is_unnamed || has_dot || has_twins(names()) {
            self.findings.push(Finding::new(
                Code::Chambers,
                walk.place(),
                "a caliper with chambers needs two or more of them, each with its own `id`",
                "name them by where they are, e.g. \"upper\" and \"lower\"; one chamber needs only `pistons`",
            ));
        }
        if files.is_empty() {
            return vec![unknown_cavity(state)];
        }
        self.check_count(files.len(), "chambers", walk);
        walk.items(files)
            .map(|(walk, file)| self.cavity_of(file, &walk, state))
            .collect()
    }

    pub(crate) fn wheel_cylinder(&mut self, file: &WheelCylinderFile, walk: &Walk<'_>) -> PartKind {
        let defaults = wheel_cylinder_defaults();
        let wear_travel = self.figure(
            &file.wear_travel,
            &walk.field("wear_travel"),
            &WEAR_TRAVEL,
            defaults.wear_travel,
        );
        let state = LiningState::new(known(&file.lining).copied(), wear_travel, &defaults);
        let piston = PistonFile {
            bore: file.bore.clone(),
            extension: file.extension.clone(),
            count: Some(Given::Value(known(&file.pistons).copied().unwrap_or(2))),
        };
        let cavity = Cavity {
            id: String::new(),
            pistons: vec![Piston {
                is_count_assumed: file.pistons.is_none(),
                ..self.piston(&piston, walk, "pistons", &state)
            }],
            dead_volume: self.figure(
                &file.dead_volume,
                &walk.field("dead_volume"),
                &CAVITY_DEAD,
                state.dead_volume,
            ),
        };
        PartKind::Brake(Brake {
            kind: BrakeKind::WheelCylinder,
            cavities: vec![cavity],
            crossover: None,
            bleed_first: None,
            lining: known(&file.lining).copied(),
            wear_travel,
            running_clearance: self.optional(
                &file.running_clearance,
                &walk.field("running_clearance"),
                &CLEARANCE,
            ),
            gives_at_100_bar: self.optional(
                &file.gives_at_100_bar,
                &walk.field("gives_at_100_bar"),
                &GIVE,
            ),
        })
    }

    pub(crate) fn clutch_slave(&mut self, file: &CavityFile, walk: &Walk<'_>) -> PartKind {
        let defaults = clutch_defaults();
        let state = LiningState::new(None, defaults.wear_travel, &defaults);
        PartKind::Brake(Brake {
            kind: BrakeKind::ClutchSlave,
            cavities: vec![Cavity {
                id: String::new(),
                ..self.cavity_of(file, walk, &state)
            }],
            crossover: None,
            bleed_first: None,
            lining: None,
            wear_travel: defaults.wear_travel,
            running_clearance: None,
            gives_at_100_bar: None,
        })
    }

    fn cavity_of(&mut self, file: &CavityFile, walk: &Walk<'_>, state: &LiningState) -> Cavity {
        let id = known(&file.id).cloned().unwrap_or_default();
        self.cavity(id, &file.pistons, file.dead_volume.as_ref(), walk, state)
    }

    fn cavity(
        &mut self,
        id: String,
        files: &Given<Vec<PistonFile>>,
        dead_volume: Option<&Amount>,
        walk: &Walk<'_>,
        state: &LiningState,
    ) -> Cavity {
        let pistons = walk.field("pistons");
        if files.value().is_some_and(Vec::is_empty) {
            self.findings.push(Finding::new(
                Code::Chambers,
                pistons.place(),
                "the list of pistons is empty",
                "add `(bore: \"54 mm\", extension: \"5 mm\")`",
            ));
        }
        let sizes = files.value().map_or(0, Vec::len);
        self.check_count(sizes, "sizes of pistons", &pistons);
        Cavity {
            id,
            pistons: pistons
                .items(files.value().into_iter().flatten())
                .map(|(walk, file)| self.piston(file, &walk, "count", state))
                .collect(),
            dead_volume: self.figure(
                dead_volume,
                &walk.field("dead_volume"),
                &CAVITY_DEAD,
                state.dead_volume,
            ),
        }
    }

    /// More of something than any caliper has: a list that was copied, and the
    /// work of a plan grows with the cube of chambers in a row.
    fn check_count(&mut self, count: usize, what: &str, walk: &Walk<'_>) {
        if count > MOST_CHAMBERS {
            self.findings.push(
                Finding::new(
                    Code::Implausible,
                    walk.place(),
                    format!("{count} {what} in one caliper"),
                    "count them on the vehicle: calipers have one chamber, or one in each half",
                )
                .allowing(format!("up to {MOST_CHAMBERS}")),
            );
        }
    }

    fn piston(
        &mut self,
        file: &PistonFile,
        walk: &Walk<'_>,
        count_field: &'static str,
        state: &LiningState,
    ) -> Piston {
        let count = known(&file.count).copied().unwrap_or(1);
        if count == 0 || count > MOST_PISTONS {
            self.findings.push(
                Finding::new(
                    Code::Implausible,
                    walk.field(count_field).place(),
                    format!("{count} pistons"),
                    "count the pistons of this size in this cavity",
                )
                .allowing(format!("1 to {MOST_PISTONS}")),
            );
        }
        Piston {
            bore: self.value(&file.bore, &walk.field("bore"), &PISTON_BORE),
            extension: self.figure(
                &file.extension,
                &walk.field("extension"),
                &EXTENSION,
                state.extension,
            ),
            count: count.clamp(1, MOST_PISTONS),
            is_count_assumed: false,
        }
    }
}

/// Stands for a cavity that the file fails to describe, so that the rest of
/// the pipework can still be checked.
fn unknown_cavity(state: &LiningState) -> Cavity {
    Cavity {
        id: String::new(),
        pistons: Vec::new(),
        dead_volume: state.dead_volume,
    }
}

/// The piston extension that a lining state implies, and the dead volume.
struct LiningState {
    extension: Figure<Length>,
    dead_volume: Figure<Volume>,
}

impl LiningState {
    fn new(lining: Option<Lining>, wear_travel: Figure<Length>, defaults: &Defaults) -> Self {
        // ASSUMPTION: pistons stand out by what the linings have used of the wear
        // travel, and 0.5 mm of clearance and unevenness comes on top.
        let wear = wear_travel.bounds;
        let share = |worn: Usual| {
            let [low, nominal, high] = worn.figures().map(|percent| percent / 100.0);
            Figure {
                bounds: Bounds {
                    low: wear.low * low + mm(0.2),
                    nominal: wear.nominal * nominal + mm(0.5),
                    high: wear.high * high + mm(1.0),
                },
                basis: crate::bounds::Basis::Assumed(worn),
            }
        };
        let extension = match lining {
            None => defaults.unknown_extension,
            Some(Lining::New) => share(Usual::NewLinings),
            Some(Lining::HalfWorn) => share(Usual::HalfWornLinings),
            Some(Lining::Worn) => share(Usual::WornLinings),
        };
        Self {
            extension,
            dead_volume: defaults.dead_volume,
        }
    }
}
