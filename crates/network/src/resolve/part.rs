//! Tees, valves and anti-lock units.

use super::range::{
    BELOW_TOP, CUT_IN, HEIGHT, HOLD_OFF, HOLDS, PART_CONTENTS, REDUCTION, SCREW_BORE, SPANNER,
    TORQUE,
};
use super::reader::Reader;
use crate::bounds::{Bounds, Figure};
use crate::code::Code;
use crate::file::{
    Amount, AntiLockCircuitFile, AntiLockFile, Name, PartFile, PartKindFile, ScrewFile, Text,
    ValveFile, known, words,
};
use crate::finding::Finding;
use crate::layout::{AntiLockCircuit, ParkingBrake, Part, PartKind, Screw, Valve, ValveKind};
use crate::look::look;
use crate::place::Walk;
use crate::usual::Usual;
use std::collections::HashSet;
use uom::si::f64::{Length, Volume};
use uom::si::length::millimeter;

impl Reader {
    pub(crate) fn parts(&mut self, files: &[PartFile]) -> Vec<Part> {
        let list = Walk::ROOT.field("parts");
        list.items(files)
            .map(|(walk, file)| self.part(file, &walk))
            .collect()
    }

    fn part(&mut self, file: &PartFile, walk: &Walk<'_>) -> Part {
        // A tee stands for a part whose kind could not be read.
        let kind = match file.kind.value() {
            Some(kind_file) => {
                let kind = self.part_kind(kind_file, &walk.field("kind"));
                self.check_fields(file, &kind, walk);
                kind
            }
            None => PartKind::Junction { word: "tee" },
        };
        let contents = self.figure(
            &file.contents,
            &walk.field("contents"),
            &PART_CONTENTS,
            Figure::assumed(Usual::PartContents, |_| Volume::default()),
        );
        Part {
            id: words(&file.id),
            kind,
            wheel: known(&file.wheel).copied(),
            place: known(&file.place).copied(),
            sections: file.sections.iter().flatten().map(words).collect(),
            contents,
            height: self.optional(&file.height, &walk.field("height"), &HEIGHT),
            position: self.position(&file.position, &walk.field("position")),
            screws: self.screws(&file.screws, &walk.field("screws")),
            accumulator: self.accumulator(&file.accumulator, &walk.field("accumulator")),
            parking_brake: known(&file.parking_brake).copied().or_else(|| {
                // The spelling of older files.
                let is_electric = known(&file.electric_parking_brake) == Some(&true);
                is_electric.then_some(ParkingBrake::Electric)
            }),
        }
    }

    /// Fields that only some kinds of part have.
    fn check_fields(&mut self, file: &PartFile, kind: &PartKind, walk: &Walk<'_>) {
        let is_on_the_way = matches!(kind, PartKind::Junction { .. } | PartKind::Valve(_));
        if file.contents.is_some() && !is_on_the_way {
            let help = "its volume follows from `dead_volume` and pistons, or from `through`";
            self.no_such_field(kind.text(), "contents", help, walk);
        }
        let is_electric_given = file.electric_parking_brake.is_some();
        for (name, is_given) in [
            ("wheel", file.wheel.is_some()),
            ("place", file.place.is_some()),
            ("parking_brake", file.parking_brake.is_some()),
            ("electric_parking_brake", is_electric_given),
        ] {
            if is_given && !kind.is_wheel_brake() {
                let help = "only brakes have it: give it to the caliper or wheel cylinder";
                self.no_such_field(kind.text(), name, help, walk);
            }
        }
        if is_electric_given && file.parking_brake.is_some() {
            let help = "`parking_brake` says it already: take this one out";
            self.no_such_field(kind.text(), "electric_parking_brake", help, walk);
        }
        if let Some(sections) = &file.sections
            && (!matches!(kind, PartKind::Valve(_)) || has_twins(sections.iter()))
        {
            self.findings.push(Finding::new(
                Code::Chambers,
                walk.field("sections").place(),
                "these sections do not fit the part",
                "only valves have sections, each with its own name, one for each circuit",
            ));
        }
    }

    fn no_such_field(&mut self, kind: &str, name: &'static str, help: &str, walk: &Walk<'_>) {
        self.findings.push(Finding::new(
            Code::UnknownField,
            walk.field(name).place(),
            format!("a {kind} has no `{name}`"),
            help,
        ));
    }

    fn part_kind(&mut self, file: &PartKindFile, walk: &Walk<'_>) -> PartKind {
        let junction = |word| PartKind::Junction { word };
        match file {
            PartKindFile::Tee => junction("tee"),
            PartKindFile::Block => junction("block"),
            PartKindFile::Union => junction("union"),
            PartKindFile::DifferentialSwitch => {
                self.valve(ValveKind::DifferentialSwitch, &ValveFile::default(), walk)
            }
            PartKindFile::Proportioning(valve) => self.valve(ValveKind::Proportioning, valve, walk),
            PartKindFile::PressureLimiting(valve) => {
                self.valve(ValveKind::PressureLimiting, valve, walk)
            }
            PartKindFile::LoadSensing(valve) => self.valve(ValveKind::LoadSensing, valve, walk),
            PartKindFile::Metering(valve) => self.valve(ValveKind::Metering, valve, walk),
            PartKindFile::Residual(valve) => self.valve(ValveKind::Residual, valve, walk),
            PartKindFile::Check(valve) => self.valve(ValveKind::Check, valve, walk),
            PartKindFile::AntiLock(unit) => self.anti_lock(unit, walk),
            PartKindFile::Caliper(caliper) => self.caliper(caliper, walk),
            PartKindFile::WheelCylinder(cylinder) => self.wheel_cylinder(cylinder, walk),
            PartKindFile::ClutchSlave(slave) => self.clutch_slave(slave, walk),
        }
    }

    fn anti_lock(&mut self, file: &AntiLockFile, walk: &Walk<'_>) -> PartKind {
        let circuits = walk.field("circuits");
        let given = file.circuits.value();
        if given.is_some_and(Vec::is_empty) {
            self.findings.push(Finding::new(
                Code::Chambers,
                circuits.place(),
                "the anti-lock unit has no circuit",
                "give each passage its `inlet`, `outlets`, `through` and `trapped` volume",
            ));
        }
        let nothing = Bounds::exact(Volume::default());
        let mut is_trapped_known = true;
        let mut circuits: Vec<AntiLockCircuit> = circuits
            .items(given.into_iter().flatten())
            .map(|(walk, file)| {
                let trapped = self.read(&file.trapped, &walk.field("trapped"), &PART_CONTENTS);
                is_trapped_known &= trapped.is_some();
                self.anti_lock_circuit(file, trapped.unwrap_or(nothing), &walk)
            })
            .collect();
        if !is_trapped_known {
            // A sum that lacks one of its summands would be told as too little.
            for circuit in &mut circuits {
                circuit.trapped = nothing;
            }
        }
        PartKind::AntiLock {
            circuits,
            routine: known(&file.routine).cloned(),
        }
    }

    fn anti_lock_circuit(
        &mut self,
        file: &AntiLockCircuitFile,
        trapped: Bounds<Volume>,
        walk: &Walk<'_>,
    ) -> AntiLockCircuit {
        let outlets = file.outlets.value();
        if outlets.is_some_and(Vec::is_empty) {
            self.findings.push(Finding::new(
                Code::Chambers,
                walk.field("outlets").place(),
                "this circuit of the anti-lock unit has no outlet",
                "name the ports toward the brakes",
            ));
        }
        AntiLockCircuit {
            inlet: words(&file.inlet),
            outlets: outlets.into_iter().flatten().map(words).collect(),
            through: self.value(&file.through, &walk.field("through"), &PART_CONTENTS),
            trapped,
        }
    }

    fn valve(&mut self, kind: ValveKind, file: &ValveFile, walk: &Walk<'_>) -> PartKind {
        use ValveKind::{Check, LoadSensing, Metering, PressureLimiting, Proportioning, Residual};
        let settings: [(&'static str, Option<&Amount>, &[ValveKind]); 6] = [
            (
                "cut_in",
                file.cut_in.as_ref(),
                &[Proportioning, PressureLimiting, LoadSensing],
            ),
            ("cut_in_laden", file.cut_in_laden.as_ref(), &[LoadSensing]),
            ("ratio", file.ratio.as_ref(), &[Proportioning, LoadSensing]),
            ("hold_off", file.hold_off.as_ref(), &[Metering]),
            ("holds", file.holds.as_ref(), &[Residual]),
            ("opens", file.opens.as_ref(), &[Check]),
        ];
        let help = "leave it out, or check which valve this is";
        if file.held_open_by.is_some() && kind != Metering {
            self.no_such_field(kind.text(), "held_open_by", help, walk);
        }
        for (name, given, kinds) in settings {
            if given.is_some() && !kinds.contains(&kind) {
                self.no_such_field(kind.text(), name, help, walk);
            }
        }
        PartKind::Valve(Valve {
            kind,
            held_open_by: known(&file.held_open_by).cloned(),
            cut_in: self.optional(&file.cut_in, &walk.field("cut_in"), &CUT_IN),
            cut_in_laden: self.optional(&file.cut_in_laden, &walk.field("cut_in_laden"), &CUT_IN),
            ratio: self.optional(&file.ratio, &walk.field("ratio"), &REDUCTION),
            hold_off: self.optional(&file.hold_off, &walk.field("hold_off"), &HOLD_OFF),
            holds: self.optional(&file.holds, &walk.field("holds"), &HOLDS),
            opens: self.optional(&file.opens, &walk.field("opens"), &HOLDS),
        })
    }

    pub(crate) fn screws(&mut self, files: &[ScrewFile], walk: &Walk<'_>) -> Vec<Screw> {
        walk.items(files)
            .map(|(walk, file)| {
                let at_top = known(&file.at_top).copied();
                if file.below_top.is_some() && at_top == Some(true) {
                    self.findings.push(Finding::new(
                        Code::Chambers,
                        walk.field("below_top").place(),
                        "the screw is said to be at the top and below the top",
                        "keep `at_top: true`, or give how far `below_top` it opens",
                    ));
                }
                Screw {
                    id: words(&file.id),
                    chamber: known(&file.chamber).cloned(),
                    at_top: at_top.or(file.below_top.is_some().then_some(false)),
                    below_top: self.optional(&file.below_top, &walk.field("below_top"), &BELOW_TOP),
                    bore: self.figure(
                        &file.bore,
                        &walk.field("bore"),
                        &SCREW_BORE,
                        usual_screw_bore(),
                    ),
                    spanner: self.optional(&file.spanner, &walk.field("spanner"), &SPANNER),
                    spanner_text: written(&file.spanner),
                    torque: self.optional(&file.torque, &walk.field("torque"), &TORQUE),
                    torque_text: written(&file.torque),
                }
            })
            .collect()
    }
}

/// ASSUMPTION: 1.5 mm (1 to 2), no source; half a turn open the seat may be
/// narrower than the drilling.
fn usual_screw_bore() -> Figure<Length> {
    let mm = Length::new::<millimeter>;
    Figure::assumed(Usual::ScrewBore, mm)
}

fn written<'f>(amount: impl Into<Option<&'f Amount>>) -> Option<String> {
    match known(amount)? {
        Text::Written(written) => Some(written.trim().to_owned()),
        Text::Bare(_) => None,
    }
}

/// Whether two of the names look the same, or one is empty.
pub(crate) fn has_twins<'f>(names: impl IntoIterator<Item = &'f Name>) -> bool {
    let mut seen = HashSet::new();
    names
        .into_iter()
        .filter_map(Name::value)
        .any(|name| name.trim().is_empty() || !seen.insert(look(name)))
}
