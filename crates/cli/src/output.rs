//! Printing: one buffered writer, colour where it is wanted, and silence when
//! the reader of a pipe has gone.

use anstream::AutoStream;
use anyhow::{Context, Result};
use bleedwright_network::Finding;
use bleedwright_report::{Paper, findings_terminal, paragraph};
use clap::ColorChoice;
use std::io::{self, BufWriter, IsTerminal, Write};

/// Columns where there is no terminal to ask.
const DEFAULT_WIDTH: usize = 80;

/// A sheet is not printed wider than this: longer lines are hard to follow.
const WIDEST: usize = 100;

/// When standard output takes no more.
const NOT_PRINTED: &str = "cannot write to standard output; what was printed is not whole";

/// Standard output.
pub(crate) struct Output {
    writer: BufWriter<io::StdoutLock<'static>>,
    has_colour: bool,
    width: usize,
}

impl Output {
    pub(crate) fn new(color: ColorChoice, width: Option<u16>) -> Self {
        let stdout = io::stdout();
        let has_colour = match color {
            ColorChoice::Always => true,
            ColorChoice::Never => false,
            ColorChoice::Auto => AutoStream::choice(&stdout) != anstream::ColorChoice::Never,
        };
        let width = width.map_or_else(|| terminal_width(&stdout), usize::from);
        Self {
            writer: BufWriter::new(stdout.lock()),
            has_colour,
            width,
        }
    }

    pub(crate) fn has_colour(&self) -> bool {
        self.has_colour
    }

    pub(crate) fn width(&self) -> usize {
        self.width
    }

    /// The paper of a text that is printed.
    pub(crate) fn paper(&self) -> Paper {
        Paper::new(self.width, self.has_colour)
    }

    /// Findings with the lines of the file `name` that they are about.
    pub(crate) fn findings(&self, findings: &[Finding], name: &str, source: &str) -> String {
        findings_terminal(findings, name, source, self.width, self.has_colour)
    }

    /// Prints a paragraph.
    pub(crate) fn say(&mut self, text: &str) -> Result<()> {
        self.print(&paragraph(text, self.width))
    }

    pub(crate) fn print(&mut self, text: &str) -> Result<()> {
        self.write(text.as_bytes())
    }

    /// Writes what need not be text.
    pub(crate) fn write(&mut self, bytes: &[u8]) -> Result<()> {
        self.writer.write_all(bytes).context(NOT_PRINTED)
    }

    pub(crate) fn finish(&mut self) -> Result<()> {
        self.writer.flush().context(NOT_PRINTED)
    }
}

fn terminal_width(stdout: &io::Stdout) -> usize {
    if !stdout.is_terminal() {
        return DEFAULT_WIDTH;
    }
    columns(terminal_size::terminal_size_of(stdout))
}

fn columns(size: Option<(terminal_size::Width, terminal_size::Height)>) -> usize {
    size.map_or(DEFAULT_WIDTH, |(width, _)| usize::from(width.0).min(WIDEST))
}

/// Whether an error only says that nobody reads any more.
pub(crate) fn is_broken_pipe(error: &anyhow::Error) -> bool {
    error
        .chain()
        .filter_map(|cause| cause.downcast_ref::<io::Error>())
        .any(|cause| cause.kind() == io::ErrorKind::BrokenPipe)
}

/// Writes to standard error; nobody is left to tell when that fails. A terminal
/// gets whole words on its lines, a log one line for each complaint.
pub(crate) fn complain(text: &str) {
    let stderr = io::stderr();
    let text = format!("bleedwright: {}", bleedwright_report::clean(text));
    let text = if stderr.is_terminal() && !text.contains('\n') {
        paragraph(&text, columns(terminal_size::terminal_size_of(&stderr)))
    } else {
        text + "\n"
    };
    let _ = stderr.lock().write_all(text.as_bytes());
}

/// Writes to standard error what has lines of its own, as it is.
pub(crate) fn complain_at_length(text: &str) {
    let _ = io::stderr().lock().write_all(text.as_bytes());
}
