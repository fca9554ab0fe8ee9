//! Findings with their place in the file.

use crate::clean::{clean, mask};
use crate::lines::Lines;
use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use bleedwright_network::{Finding, Locator, Place, Severity};
use std::borrow::Cow;
use std::fmt::Write;
use std::ops::Range;
use textwrap::{Options, WordSplitter, fill};

/// The longest message; a paste gone wrong may hold thousands of characters.
const LONGEST_MESSAGE: usize = 600;

/// A line of more bytes than this is named and not shown.
const LONGEST_LINE: usize = 1000;

/// Columns before a title: severity and code.
const TITLE_INDENT: usize = "warning[BW000]: ".len();

/// Columns before a help line, with room for a line number of four figures.
const HELP_INDENT: usize = "     = help: ".len();

/// Text is not wrapped narrower than this.
const NARROWEST: usize = 24;

/// Findings with the lines of the file they are about, carets under the place.
pub fn findings_terminal(
    findings: &[Finding],
    name: &str,
    source: &str,
    width: usize,
    colour: bool,
) -> String {
    let renderer = if colour {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    let renderer = renderer.term_width(width);
    let shown = mask(source);
    let page = Page {
        name,
        source: &shown,
        width,
        lines: Lines::new(source),
        locator: Locator::new(source),
    };
    let mut text = String::new();
    for finding in findings {
        let _ = writeln!(text, "{}\n", renderer.render(&[page.group(finding)]));
    }
    text
}

/// What findings are shown on: the source, its name and its places.
struct Page<'s> {
    name: &'s str,
    /// The source without what would steer a terminal, byte for byte.
    source: &'s str,
    width: usize,
    lines: Lines<'s>,
    locator: Locator<'s>,
}

/// A place to mark, and what to say beside it.
struct Mark {
    kind: AnnotationKind,
    span: Range<usize>,
    label: Option<String>,
}

impl Page<'_> {
    fn group(&self, finding: &Finding) -> Group<'_> {
        let level = match finding.severity {
            Severity::Error => Level::ERROR,
            Severity::Warning => Level::WARNING,
            Severity::Advice => Level::NOTE.with_name("advice"),
        };
        let title = level
            .primary_title(self.wrapped(&finding.message, TITLE_INDENT))
            .id(finding.code.text());
        let mut group = Group::with_title(title);
        let marks = self.marks(finding);
        let is_placed = !marks.is_empty();
        if marks.iter().any(|mark| self.is_too_long(mark)) {
            let (line, column) = self.lines.line_and_column(marks[0].span.start);
            let origin = Origin::path(self.name).line(line).char_column(column);
            group = group.element(origin);
        } else if is_placed {
            group = group.element(self.snippet(marks));
        }
        if let Some(allowed) = allowed(finding)
            && !(is_placed && self.fits_beside(&allowed))
        {
            group = group.element(Level::NOTE.message(self.wrapped(&allowed, HELP_INDENT)));
        }
        group.element(Level::HELP.message(self.wrapped(&finding.help, HELP_INDENT)))
    }

    /// The renderer puts the lines after the first under the first word, and
    /// breaks none itself.
    fn wrapped(&self, message: &str, indent: usize) -> String {
        let width = self.width.saturating_sub(indent).max(NARROWEST);
        let options = Options::new(width).word_splitter(WordSplitter::NoHyphenation);
        fill(&shorten(message), options)
    }

    fn marks(&self, finding: &Finding) -> Vec<Mark> {
        let place = |place: &Place| {
            let span = self.locator.find(place)?;
            Some(self.lines.first_line(&span))
        };
        let own = place(&finding.place).map(|span| Mark {
            kind: AnnotationKind::Primary,
            span,
            label: allowed(finding).filter(|allowed| self.fits_beside(allowed)),
        });
        let others = finding.labels.iter().filter_map(|label| {
            Some(Mark {
                kind: AnnotationKind::Context,
                span: place(&label.place)?,
                label: Some(shorten(&label.text)),
            })
        });
        own.into_iter().chain(others).collect()
    }

    /// Whether a label may stand behind a mark, where the renderer cuts it at
    /// the edge; half of the width is for the line above it.
    fn fits_beside(&self, label: &str) -> bool {
        textwrap::core::display_width(label) <= self.width / 2
    }

    fn is_too_long(&self, mark: &Mark) -> bool {
        self.lines
            .bytes_of(self.lines.line_of(mark.span.start))
            .len()
            > LONGEST_LINE
    }

    /// The lines from the first mark to the last; the renderer reads all it
    /// is given, and a file may be large.
    fn snippet(&self, marks: Vec<Mark>) -> Snippet<'_, annotate_snippets::Annotation<'_>> {
        let line_of = |mark: &Mark| self.lines.line_of(mark.span.start);
        let first = marks.iter().map(line_of).min().unwrap_or(0);
        let last = marks.iter().map(line_of).max().unwrap_or(0);
        let start = self.lines.bytes_of(first).start;
        let end = self.lines.bytes_of(last).end;
        let marks = marks.into_iter().map(|mark| {
            mark.kind
                .span(mark.span.start - start..mark.span.end - start)
                .label(mark.label)
        });
        Snippet::source(&self.source[start..end])
            .path(self.name)
            .line_start(first + 1)
            .fold(true)
            .annotations(marks)
    }
}

/// One line for each finding, for other programs: `file:line:column: severity
/// code: message; help`.
pub fn findings_plain(findings: &[Finding], name: &str, source: &str) -> String {
    let locator = Locator::new(source);
    let lines = Lines::new(source);
    let mut text = String::new();
    for finding in findings {
        let place = match (&finding.place, locator.find(&finding.place)) {
            (Place::Option(option), _) => (*option).to_owned(),
            (_, Some(span)) => {
                let (line, column) = lines.line_and_column(span.start);
                format!("{}:{line}:{column}", clean(name))
            }
            (_, None) => clean(name).into_owned(),
        };
        let _ = writeln!(
            text,
            "{place}: {} {}: {}; {}",
            finding.severity.name(),
            finding.code.text(),
            shorten(&finding.message).replace('\n', " "),
            shorten(&finding.help).replace('\n', " ")
        );
    }
    text
}

/// What would be right.
fn allowed(finding: &Finding) -> Option<String> {
    let allowed = finding.allowed.as_ref()?;
    Some(format!("allowed: {}", shorten(allowed)))
}

/// A message that fits on a screen and steers no terminal.
fn shorten(message: &str) -> String {
    cut(&clean(message)).into_owned()
}

/// The start of a message that is too long to be read.
pub(crate) fn cut(message: &str) -> Cow<'_, str> {
    match message.char_indices().nth(LONGEST_MESSAGE) {
        None => Cow::Borrowed(message),
        Some((end, _)) => Cow::Owned(format!("{} ...", &message[..end])),
    }
}
