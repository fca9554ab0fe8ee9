//! Master cylinders: chambers, ratios, boosters.

use super::range::{
    Allowed, BAR_SHARE, BOOSTER_HELP, BOOSTER_RATIO, CUT_OFF, CYLINDER_BORE, CYLINDER_STROKE,
    FREE_PLAY, HEIGHT, PEDAL_FLEX, PEDAL_RATIO, STORED,
};
use super::reader::Reader;
use crate::bounds::{Bounds, Figure};
use crate::code::Code;
use crate::file::{
    AccumulatorFile, BalanceBarFile, BoosterFile, ChamberFile, CylinderFile, CylinderKindFile,
    known, words,
};
use crate::finding::Finding;
use crate::layout::{
    Accumulator, BalanceBar, Booster, Chamber, Control, Cylinder, CylinderKind, Works,
};
use crate::place::Walk;
use crate::usual::Usual;
use uom::si::f64::{Length, Ratio};
use uom::si::length::millimeter;
use uom::si::ratio::{percent, ratio};

impl Reader {
    pub(crate) fn cylinders(&mut self, files: &[CylinderFile]) -> Vec<Cylinder> {
        let list = Walk::ROOT.field("cylinders");
        list.items(files)
            .map(|(walk, file)| self.cylinder(file, &walk))
            .collect()
    }

    fn cylinder(&mut self, file: &CylinderFile, walk: &Walk<'_>) -> Cylinder {
        let kind_walk = walk.field("kind");
        let (kind, chambers) = match file.kind.value() {
            Some(CylinderKindFile::Single(chamber)) => (
                CylinderKind::Single,
                vec![self.chamber("", Some(chamber), None, &kind_walk)],
            ),
            Some(CylinderKindFile::Tandem(tandem)) => {
                let common = tandem
                    .bore
                    .as_ref()
                    .map(|bore| self.value(bore, &kind_walk.field("bore"), &CYLINDER_BORE));
                let (primary, secondary) =
                    (kind_walk.field("primary"), kind_walk.field("secondary"));
                (
                    CylinderKind::Tandem,
                    vec![
                        self.chamber("primary", tandem.primary.value(), common, &primary),
                        self.chamber("secondary", tandem.secondary.value(), common, &secondary),
                    ],
                )
            }
            None => (
                CylinderKind::Single,
                vec![self.chamber("", None, None, &kind_walk)],
            ),
        };
        // ASSUMPTION: pedal ratio and free play when the file is silent; the
        // free play is about 1/4 in by TB 9-2300-426-20.
        let default_ratio = Figure::assumed(Usual::PedalRatio, Ratio::new::<ratio>);
        let mm = Length::new::<millimeter>;
        let default_play = Figure::assumed(Usual::FreePlay, mm);
        Cylinder {
            id: words(&file.id),
            kind,
            chambers,
            purpose: known(&file.purpose).copied().unwrap_or(Works::Brake),
            control: known(&file.control).copied().unwrap_or(Control::Pedal),
            pedal_ratio: self.figure(
                &file.pedal_ratio,
                &walk.field("pedal_ratio"),
                &PEDAL_RATIO,
                default_ratio,
            ),
            free_play: self.figure(
                &file.free_play,
                &walk.field("free_play"),
                &FREE_PLAY,
                default_play,
            ),
            flex_at_500_n: self.optional(
                &file.flex_at_500_n,
                &walk.field("flex_at_500_n"),
                &PEDAL_FLEX,
            ),
            booster: file
                .booster
                .as_ref()
                .and_then(|booster| self.booster(booster, &walk.field("booster"))),
            height: self.optional(&file.height, &walk.field("height"), &HEIGHT),
            position: self.position(&file.position, &walk.field("position")),
            screws: self.screws(&file.screws, &walk.field("screws")),
        }
    }

    /// Reads one chamber; without a file it stands for one that could not be
    /// read.
    fn chamber(
        &mut self,
        port: &'static str,
        file: Option<&ChamberFile>,
        common_bore: Option<Bounds<Length>>,
        walk: &Walk<'_>,
    ) -> Chamber {
        let mm = Length::new::<millimeter>;
        let default_cut_off = Figure::assumed(Usual::CutOff, mm);
        let least = |allowed: &Allowed<Length>| Bounds::exact(allowed.limits()[0]);
        let Some(file) = file else {
            return Chamber {
                port,
                bore: least(&CYLINDER_BORE),
                stroke: least(&CYLINDER_STROKE),
                cut_off: default_cut_off,
                circuit_label: None,
            };
        };
        let bore = match &file.bore {
            Some(bore) => self.value(bore, &walk.field("bore"), &CYLINDER_BORE),
            None => common_bore.unwrap_or_else(|| {
                self.findings.push(Finding::new(
                    Code::MissingField,
                    walk.place(),
                    "the field `bore` is missing",
                    "give the bore of the cylinder, or of each chamber when it is stepped",
                ));
                least(&CYLINDER_BORE)
            }),
        };
        let stroke = self.read(&file.stroke, &walk.field("stroke"), &CYLINDER_STROKE);
        let cut_off = match &file.cut_off {
            Some(cut_off) => self
                .read(cut_off, &walk.field("cut_off"), &CUT_OFF)
                .map(Figure::stated),
            None => Some(default_cut_off),
        };
        if let (Some(stroke), Some(cut_off)) = (stroke, cut_off) {
            self.check_stroke(stroke, cut_off, walk);
        }
        Chamber {
            port,
            bore,
            stroke: stroke.unwrap_or_else(|| least(&CYLINDER_STROKE)),
            cut_off: cut_off.unwrap_or(default_cut_off),
            circuit_label: known(&file.circuit).cloned(),
        }
    }

    /// The shortest stroke must leave something behind the longest cut-off.
    fn check_stroke(&mut self, stroke: Bounds<Length>, cut_off: Figure<Length>, walk: &Walk<'_>) {
        if stroke.low > cut_off.bounds.high {
            return;
        }
        let mm = |length: Length| length.get::<millimeter>();
        let (shortest, longest) = (mm(stroke.low), mm(cut_off.bounds.high));
        let field = if cut_off.is_assumed() {
            "stroke"
        } else {
            "cut_off"
        };
        let within = if stroke.nominal > cut_off.bounds.nominal {
            " within the tolerances"
        } else {
            ""
        };
        self.findings.push(
            Finding::new(
                Code::StrokeUsedUp,
                walk.field(field).place(),
                format!(
                    "the cut-off of {longest:.1} mm uses up the stroke of {shortest:.1} mm{within}"
                ),
                "the cut-off is the small travel that closes the port to the reservoir",
            )
            .allowing(format!("a cut-off of less than {shortest:.1} mm")),
        );
    }

    fn booster(&mut self, file: &BoosterFile, walk: &Walk<'_>) -> Option<Booster> {
        let force = self.optional(&file.ratio, &walk.field("ratio"), &BOOSTER_RATIO);
        let most_help = self.optional(&file.most_help, &walk.field("most_help"), &BOOSTER_HELP);
        let accumulator = self.accumulator(&file.accumulator, &walk.field("accumulator"));
        Some(Booster {
            kind: *file.kind.value()?,
            ratio: force,
            most_help,
            accumulator,
        })
    }

    pub(crate) fn accumulator<'f>(
        &mut self,
        file: impl Into<Option<&'f AccumulatorFile>>,
        walk: &Walk<'_>,
    ) -> Option<Accumulator> {
        let file = file.into()?;
        Some(Accumulator {
            pressure: self.optional(&file.pressure, &walk.field("pressure"), &STORED),
            routine: known(&file.routine).cloned(),
        })
    }

    pub(crate) fn balance_bars(&mut self, files: &[BalanceBarFile]) -> Vec<BalanceBar> {
        let middle = Figure::assumed(Usual::BarShare, Ratio::new::<percent>);
        let list = Walk::ROOT.field("balance_bars");
        list.items(files)
            .map(|(walk, file)| BalanceBar {
                share: self.figure(&file.share, &walk.field("share"), &BAR_SHARE, middle),
                cylinders: file
                    .cylinders
                    .value()
                    .map_or(Vec::new(), |names| names.iter().map(words).collect()),
            })
            .collect()
    }
}
