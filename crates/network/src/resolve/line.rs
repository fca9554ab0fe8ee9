//! Lines: bore by size or by measure, length, heights on the way.

use super::range::{
    Allowed, DISTANCE_ALONG, HEIGHT, HOSE_BORE, HOSE_LENGTH, PIPE_BORE, PIPE_LENGTH, PIPE_OUTSIDE,
    PIPE_WALL,
};
use super::reader::{Reader, without_mark};
use crate::bounds::{Bounds, Figure};
use crate::code::Code;
use crate::file::{
    Amount, Given, LineFile, LineKindFile, Name, PipeFile, Text, ViaFile, known, words,
};
use crate::finding::Finding;
use crate::layout::{Line, LineEnd, LineKind, PipeSize, Via};
use crate::pipe_size::{KNOWN_SIZES, bore_of_size};
use crate::place::Walk;
use crate::usual::Usual;
use std::collections::HashSet;
use uom::si::f64::Length;
use uom::si::length::{meter, millimeter};

impl Reader {
    /// Reads the lines; `parts` are the names that ends may mean.
    pub(crate) fn lines(&mut self, files: &[LineFile], parts: &HashSet<&str>) -> Vec<Line> {
        let list = Walk::ROOT.field("lines");
        list.items(files)
            .map(|(walk, file)| {
                let (kind, length) = self.line_kind(file.kind.value(), &walk.field("kind"));
                Line {
                    id: words(&file.id),
                    from: self.end(&file.from, parts, &walk.field("from")),
                    to: self.end(&file.to, parts, &walk.field("to")),
                    kind,
                    via: self.via(&file.via, length, &walk.field("via")),
                }
            })
            .collect()
    }

    /// An end; with a `?` nobody looked whether the line leads there.
    fn end(&mut self, name: &Name, parts: &HashSet<&str>, walk: &Walk<'_>) -> LineEnd {
        let text = name.value().map_or("", String::as_str);
        let (end, is_guess) = match without_mark(text) {
            // A part may be called so.
            (_, true) if parts.contains(text.trim()) => (text, false),
            other => other,
        };
        self.note_guess(is_guess, walk);
        line_end(end, parts)
    }

    fn via(
        &mut self,
        files: &[ViaFile],
        length: Option<Bounds<Length>>,
        walk: &Walk<'_>,
    ) -> Vec<Via> {
        walk.items(files)
            .map(|(walk, file)| {
                let at = self.optional(&file.at, &walk.field("at"), &DISTANCE_ALONG);
                if let (Some(at), Some(length)) = (at, length)
                    && at.low > length.high
                {
                    let m = |length: Length| length.get::<meter>();
                    self.findings.push(
                        Finding::new(
                            Code::Implausible,
                            walk.field("at").place(),
                            format!(
                                "{:.2} m along lie behind the end of the line",
                                m(at.nominal)
                            ),
                            "count the distance from the `from` end",
                        )
                        .allowing(format!("0 to {:.2} m", m(length.high))),
                    );
                }
                Via {
                    at,
                    height: self.value(&file.height, &walk.field("height"), &HEIGHT),
                }
            })
            .collect()
    }

    /// What a line is, and its length where that is known.
    fn line_kind(
        &mut self,
        file: Option<&LineKindFile>,
        walk: &Walk<'_>,
    ) -> (LineKind, Option<Bounds<Length>>) {
        let shortest = |allowed: &Allowed<Length>| Bounds::exact(allowed.limits()[0]);
        match file {
            Some(LineKindFile::Pipe(pipe)) => {
                let (bore, size) = self.pipe_bore(pipe, walk);
                let length = self.read(&pipe.length, &walk.field("length"), &PIPE_LENGTH);
                let kind = LineKind::Pipe {
                    bore,
                    length: length.unwrap_or_else(|| shortest(&PIPE_LENGTH)),
                    size,
                };
                (kind, length)
            }
            Some(LineKindFile::Hose(hose)) => {
                // ASSUMPTION: brake hoses are sold as 1/8 in or 3 mm bore, rarely
                // larger (FMVSS 106 Table I, from memory).
                let mm = Length::new::<millimeter>;
                let usual = Figure::assumed(Usual::HoseBore, mm);
                let bore = self.figure(&hose.bore, &walk.field("bore"), &HOSE_BORE, usual);
                let length = self.read(&hose.length, &walk.field("length"), &HOSE_LENGTH);
                let kind = LineKind::Hose {
                    bore,
                    length: length.unwrap_or_else(|| shortest(&HOSE_LENGTH)),
                    material: known(&hose.material).copied(),
                    expansion: known(&hose.expansion).copied(),
                };
                (kind, length)
            }
            Some(LineKindFile::Direct) => {
                (LineKind::Direct, Some(Bounds::exact(Length::default())))
            }
            None => (LineKind::Direct, None),
        }
    }

    fn pipe_bore(
        &mut self,
        pipe: &PipeFile,
        walk: &Walk<'_>,
    ) -> (Figure<Length>, Option<PipeSize>) {
        let fallback = Figure::stated(Bounds::exact(PIPE_BORE.limits()[0]));
        if let Some([size, wall]) = size_and_wall(pipe) {
            let parted = PipeFile {
                size: Some(size),
                wall: Some(wall),
                ..pipe.clone()
            };
            // A wall that cannot be read stands in the size.
            let before = self.findings.len();
            let read = self.pipe_bore(&parted, walk);
            let place = walk.field("size").place();
            for finding in &mut self.findings[before..] {
                finding.place = place.clone();
            }
            return read;
        }
        match (&pipe.size, &pipe.bore) {
            (None, Some(bore)) => {
                if pipe.wall.is_some() {
                    self.findings.push(Finding::new(
                        Code::SizeOrBore,
                        walk.field("wall").place(),
                        "a wall is given beside a bore",
                        "leave the wall out: the bore says all",
                    ));
                }
                let bore = self.value(bore, &walk.field("bore"), &PIPE_BORE);
                (Figure::stated(bore), None)
            }
            (Some(size), None) => {
                let outside = self.read(size, &walk.field("size"), &PIPE_OUTSIDE);
                let wall = pipe
                    .wall
                    .as_ref()
                    .map(|wall| self.read(wall, &walk.field("wall"), &PIPE_WALL));
                let (Some(outside), None | Some(Some(_))) = (outside, wall) else {
                    return (fallback, None);
                };
                let wall = wall.flatten().map(|wall| wall.nominal);
                if let Some((size, bore)) = bore_of_size(outside.nominal, wall) {
                    return (bore, Some(size));
                }
                let with = if wall.is_some() {
                    " with such a wall"
                } else {
                    ""
                };
                self.findings.push(
                    Finding::new(
                        Code::UnknownSize,
                        walk.field("size").place(),
                        format!(
                            "there is no nominal pipe size of {:.2} mm{with}",
                            outside.nominal.get::<millimeter>()
                        ),
                        "give the outside diameter the pipe is sold by, or its `bore`",
                    )
                    .allowing(KNOWN_SIZES),
                );
                (fallback, None)
            }
            (given, _) => {
                let (message, help) = if given.is_some() {
                    (
                        "the pipe has both a size and a bore",
                        "keep the one you know: the size it is sold by, or the bore you measured",
                    )
                } else {
                    (
                        "the pipe has neither a size nor a bore",
                        "add `size: \"3/16 in\"` or `bore: \"3.3 mm\"`",
                    )
                };
                self.findings
                    .push(Finding::new(Code::SizeOrBore, walk.place(), message, help));
                (fallback, None)
            }
        }
    }
}

/// The two halves of a size that is written with its wall, as pipes are sold:
/// `4.75 mm x 0.70 mm`.
fn size_and_wall(pipe: &PipeFile) -> Option<[Amount; 2]> {
    let (Some(Given::Value(Text::Written(size))), None) = (&pipe.size, &pipe.wall) else {
        return None;
    };
    let (outside, wall) = size.split_once(['x', '×'])?;
    Some([outside, wall].map(|half| Given::Value(Text::Written(half.trim().to_owned()))))
}

/// Splits `part.port`. Names hold no dot, so the first one decides; a name
/// that has one all the same was reported, and its ends still find it.
fn line_end(text: &str, parts: &HashSet<&str>) -> LineEnd {
    let text = text.trim();
    match text.split_once('.') {
        Some((part, port)) if !parts.contains(text) => LineEnd {
            part: part.trim().to_owned(),
            port: Some(port.trim().to_owned()),
        },
        _ => LineEnd {
            part: text.to_owned(),
            port: None,
        },
    }
}
