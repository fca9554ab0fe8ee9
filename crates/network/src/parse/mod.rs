//! From text to the structures of the file, with every structural mistake.
//!
//! A sound file is read by the RON reader alone. Only when that refuses it
//! is the file read a second time, by a reader that notes each mistake and
//! goes on.

mod access;
mod notes;
mod refused;
mod tolerant;

pub(crate) use tolerant::entries;

use crate::code::Code;
use crate::file::{FORMAT, LayoutFile};
use crate::finding::Finding;
use crate::place::{PathStep, Place};
use crate::source::dialect;
use crate::syntax::{Slip, scan};
use ron::error::SpannedError;

/// Reads the structures. The file is `None` when nothing of it can be used;
/// it has gaps when there are findings.
pub(crate) fn parse(text: &str) -> (Option<LayoutFile>, Vec<Finding>) {
    let (file, mut findings) = match dialect().from_str(text.trim_start_matches('\u{feff}')) {
        Ok(file) => (Some(file), Vec::new()),
        Err(error) => explain(text, &error),
    };
    if let Some(format) = file.as_ref().and_then(|file| file.format.value())
        && *format != FORMAT
    {
        findings.push(
            Finding::new(
                Code::UnknownFormat,
                Place::Path(vec![PathStep::Field("format")]),
                format!("the format number is {format}"),
                format!("write `format: {FORMAT}`; a higher number needs a newer version"),
            )
            .allowing(FORMAT.to_string()),
        );
    }
    (file, findings)
}

/// Says what is wrong with a text that RON refused.
fn explain(text: &str, error: &SpannedError) -> (Option<LayoutFile>, Vec<Finding>) {
    let scan = scan(text);
    let mut findings: Vec<Finding> = scan.slips.into_iter().map(Slip::finding).collect();
    let file = scan
        .root
        .and_then(|root| tolerant::read(text, &root, &mut findings));
    if findings.is_empty() {
        findings.push(unexplained(text, error));
    }
    (file, findings)
}

/// RON has corners that no layout needs. Its own words name the program's
/// inside, so only the place is taken from it.
fn unexplained(text: &str, error: &SpannedError) -> Finding {
    let start = text.len() - text.trim_start_matches('\u{feff}').len();
    let line = text[start..]
        .split_inclusive('\n')
        .scan(start, |next, line| {
            let from = *next;
            *next += line.len();
            Some((from, line))
        })
        .nth(error.span.start.line.saturating_sub(1));
    let at = line.map_or(text.len(), |(from, line)| {
        let column = line
            .char_indices()
            .nth(error.span.start.col.saturating_sub(1));
        from + column.map_or(line.len(), |(offset, _)| offset)
    });
    Finding::new(
        Code::Syntax,
        Place::Bytes(at..at),
        "this cannot be read as part of a layout",
        "compare the place with the example in docs/layout-format.md",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const SOUND: [&str; 4] = [
        include_str!("../../../../layouts/curlew.ron"),
        include_str!("../../../../layouts/godwit.ron"),
        include_str!("../../../../layouts/ruff.ron"),
        // RON's corners: a header, written-out options, raw text, escapes,
        // comments between all tokens, a word in RON's own marks.
        "#![enable(implicit_some)]\n(format: /* a */ 1, name: r#\"a \"b\" c\"#, // d\n\
         notes: Some(\"\\\"\\u{e4}\\\\\"), steering: None, r#fluid: dot4, \
         cylinders: [(id: \"m\", kind: single(bore: \"1 in\", stroke: \"1 in\"), \
         pedal_ratio: 4.5e0, screws: [],)],)",
    ];

    /// Where RON finds nothing wrong the tolerant reader must not either, or
    /// one mistake in a file would bring findings about what is sound.
    #[test]
    fn both_readers_agree_on_sound_files() {
        for text in SOUND {
            let (file, findings) = parse(text);
            assert!(file.is_some() && findings.is_empty(), "{findings:#?}");
            let scan = scan(text);
            assert!(scan.slips.is_empty(), "{:?}", scan.slips);
            let root = scan.root.expect("a text without slips has a root");
            let mut findings = Vec::new();
            let file = tolerant::read(text, &root, &mut findings);
            assert!(file.is_some() && findings.is_empty(), "{findings:#?}");
        }
    }
}
