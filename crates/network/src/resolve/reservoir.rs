//! Reservoirs: marks, and what a syringe leaves behind.

use super::range::{COMPARTMENT, FEED_BORE, HEIGHT, HOSE_LENGTH, MINIMUM_MARK, REMAINDER};
use super::reader::Reader;
use crate::bounds::{Bounds, Figure};
use crate::code::Code;
use crate::file::{CompartmentFile, FeedHoseFile, ReservoirFile, known, words};
use crate::finding::Finding;
use crate::layout::{Compartment, FeedHose, Reservoir, bore_area, is_less};
use crate::place::Walk;
use crate::usual::Usual;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// Marks nearer to each other leave nothing to draw between two fillings.
///
/// ASSUMPTION: 1 ml.
const LEAST_ROOM_ML: f64 = 1.0;

impl Reader {
    pub(crate) fn reservoirs(&mut self, files: &[ReservoirFile]) -> Vec<Reservoir> {
        let list = Walk::ROOT.field("reservoirs");
        list.items(files)
            .map(|(walk, file)| {
                let compartments = walk.field("compartments");
                let given = file.compartments.value();
                if given.is_some_and(Vec::is_empty) {
                    self.findings.push(Finding::new(
                        Code::Chambers,
                        compartments.place(),
                        "the reservoir has no compartment",
                        "give one compartment with its `max` and what it `feeds`",
                    ));
                }
                Reservoir {
                    id: words(&file.id),
                    height: self.optional(&file.height, &walk.field("height"), &HEIGHT),
                    level_switch: known(&file.level_switch).copied(),
                    compartments: compartments
                        .items(given.into_iter().flatten())
                        .map(|(walk, file)| self.compartment(file, &walk))
                        .collect(),
                }
            })
            .collect()
    }

    fn compartment(&mut self, file: &CompartmentFile, walk: &Walk<'_>) -> Compartment {
        let max = self.read(&file.max, &walk.field("max"), &COMPARTMENT);
        let min = self.optional(&file.min, &walk.field("min"), &MINIMUM_MARK);
        let take_off = self.optional(&file.take_off, &walk.field("take_off"), &MINIMUM_MARK);
        let left = self.optional(
            &file.left_when_drawn_off,
            &walk.field("left_when_drawn_off"),
            &REMAINDER,
        );
        if let Some(max) = max {
            self.check_marks(max, [min, take_off], left, walk);
        }
        let max = max.unwrap_or_else(|| Bounds::exact(COMPARTMENT.limits()[0]));
        let left = left.map_or_else(
            || {
                Figure::assumed(Usual::LeftBySyringe, |percent| {
                    max.nominal * (percent / 100.0)
                })
            },
            Figure::stated,
        );
        let feeds: Vec<String> = file
            .feeds
            .value()
            .map_or(Vec::new(), |feeds| feeds.names.iter().map(words).collect());
        Compartment {
            id: words(&file.id),
            max,
            min,
            take_off,
            left_when_drawn_off: left,
            hose: file
                .hose
                .as_ref()
                .map(|hose| self.feed_hose(hose, &feeds, &walk.field("hose"))),
            feeds,
        }
    }

    /// Top-ups are counted between the marks, so they must be in order.
    fn check_marks(
        &mut self,
        max: Bounds<Volume>,
        [min, take_off]: [Option<Bounds<Volume>>; 2],
        left: Option<Bounds<Volume>>,
        walk: &Walk<'_>,
    ) {
        let ml = |volume: Volume| volume.get::<milliliter>();
        let mut note = |field, message: String, help: &str| {
            self.findings.push(
                Finding::new(Code::LevelMarks, walk.field(field).place(), message, help)
                    .allowing(format!("less than {:.0} ml", ml(max.nominal)))
                    .also_at(walk.field("max").place(), "the maximum mark"),
            );
        };
        let levels = [
            ("min", min, "the minimum mark", "at each of its two marks"),
            ("take_off", take_off, "the take-off", "at the take-off"),
        ];
        for (field, level, what, where_) in levels {
            let Some(level) = level else {
                continue;
            };
            let room = max.low - level.high;
            if !is_less(level.nominal, max.nominal) {
                note(
                    field,
                    format!(
                        "{what} ({:.0} ml) is not below the maximum mark ({:.0} ml)",
                        ml(level.nominal),
                        ml(max.nominal)
                    ),
                    &format!("give the contents of the compartment {where_}"),
                );
            } else if is_less(room, Volume::new::<milliliter>(LEAST_ROOM_ML)) {
                note(
                    field,
                    format!(
                        "with their tolerances {what} and the maximum mark may be only {:.1} ml \
                         apart",
                        ml(room).max(0.0)
                    ),
                    &format!(
                        "give the contents {where_} more exactly; below the maximum mark must be \
                         at least 1 ml to work with"
                    ),
                );
            }
        }
        if let Some(left) = left
            && !is_less(left.nominal, max.nominal)
        {
            note(
                "left_when_drawn_off",
                format!(
                    "the {:.0} ml left when drawn off are not less than the maximum contents",
                    ml(left.nominal)
                ),
                "give what a syringe cannot reach",
            );
        }
    }

    fn feed_hose(&mut self, file: &FeedHoseFile, feeds: &[String], walk: &Walk<'_>) -> FeedHose {
        let bore = self.value(&file.bore, &walk.field("bore"), &FEED_BORE);
        let length = self.value(&file.length, &walk.field("length"), &HOSE_LENGTH);
        let is_named = match &file.to {
            Some(to) => to.value().is_none_or(|to| feeds.contains(to)),
            None => feeds.len() == 1,
        };
        if !is_named {
            self.findings.push(
                Finding::new(
                    Code::UnknownPart,
                    walk.field("to").place(),
                    "the hose does not say which of the fed chambers it leads to",
                    "add `to: ...` with one of the names in `feeds`",
                )
                .allowing(feeds.join(", ")),
            );
        }
        FeedHose {
            to: known(&file.to).cloned(),
            contents: bore_area(bore).zip(length, |area, length| area * length),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::{Code, load};

    fn has_bad_marks(max: &str, min: &str) -> bool {
        let text = format!(
            "(format: 1, name: \"marks\", fluid: dot4,
            reservoirs: [(id: \"pot\", compartments: [(id: \"pot\", max: \"{max}\", \
                min: \"{min}\", feeds: \"cylinder\")])],
            cylinders: [(id: \"cylinder\", kind: single(bore: \"22 mm\", stroke: \"30 mm\"))],
            parts: [(id: \"brake\", kind: wheel_cylinder(bore: \"20 mm\"), wheel: trailer_left, \
                screws: [(id: \"screw\")])],
            lines: [(id: \"pipe\", from: \"cylinder\", to: \"brake\", \
                kind: pipe(bore: \"3 mm\", length: \"1 m\"))])"
        );
        let loaded = load(text.as_bytes());
        loaded
            .findings
            .iter()
            .any(|finding| finding.code == Code::LevelMarks)
    }

    /// One millilitre is enough, whatever its two marks are as floats.
    #[test]
    fn marks_one_millilitre_apart_pass_everywhere() {
        for ml in 5..=400 {
            let marks =
                |max: f64, min: f64| has_bad_marks(&format!("{max} ml"), &format!("{min} ml"));
            let max = f64::from(ml);
            assert!(!marks(max, max - 1.0), "{ml}");
            assert!(marks(max, max - 0.999), "{ml}");
            assert!(marks(max, max), "{ml}");
        }
    }

    #[test]
    fn one_mark_written_in_two_units_is_one_mark() {
        for ml in [60, 70, 110, 130, 290, 310, 570] {
            let litres = format!("{} l", f64::from(ml) / 1000.0);
            assert!(has_bad_marks(&litres, &format!("{ml} ml")), "{ml}");
            assert!(has_bad_marks(&format!("{ml} ml"), &litres), "{ml}");
        }
    }
}
