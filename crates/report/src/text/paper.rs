//! Lines of a given width, with or without colour.

use crate::clean::clean;
use std::fmt::Display;
use textwrap::{Options, WordSplitter, fill};

/// The narrowest sheet that is still filled; below it lines are cut anyway.
const NARROWEST: usize = 24;

/// A text wrapped to a width, without colour.
pub fn paragraph(text: &str, width: usize) -> String {
    let mut paper = Paper::new(width, false);
    paper.paragraph(text);
    paper.into_text()
}

/// What is written on.
#[derive(Clone, Debug)]
pub struct Paper {
    width: usize,
    colour: bool,
    text: String,
}

const BOLD: &str = "\u{1b}[1m";
const YELLOW: &str = "\u{1b}[33m";
const RED: &str = "\u{1b}[31m";
const RESET: &str = "\u{1b}[0m";

impl Paper {
    /// A blank sheet.
    pub fn new(width: usize, colour: bool) -> Self {
        Self {
            width: width.max(NARROWEST),
            colour,
            text: String::new(),
        }
    }

    /// What was written.
    pub fn into_text(self) -> String {
        self.text
    }

    pub(crate) fn width(&self) -> usize {
        self.width
    }

    /// A heading in bold.
    pub(crate) fn heading(&mut self, text: &str) {
        self.styled(BOLD, &self.wrapped(text, "", "    "));
    }

    pub(crate) fn warning(&mut self, text: &str) {
        self.styled(YELLOW, &self.wrapped(text, "", "  "));
    }

    pub(crate) fn danger(&mut self, text: &str) {
        self.styled(RED, &self.wrapped(text, "", "  "));
    }

    /// A paragraph; the lines after the first are indented.
    pub(crate) fn paragraph(&mut self, text: &(impl Display + ?Sized)) {
        self.indented("", "  ", &text.to_string());
    }

    /// A paragraph behind a mark, such as a number or a tick box.
    pub(crate) fn item(&mut self, mark: &str, text: &(impl Display + ?Sized)) {
        let indent = " ".repeat(mark.chars().count());
        self.indented(mark, &indent, &text.to_string());
    }

    pub(crate) fn indented(&mut self, first: &str, rest: &str, text: &str) {
        let lines = self.wrapped(text, first, rest);
        self.text.push_str(&lines);
        self.text.push('\n');
    }

    /// A line as it stands, which the caller has made fit.
    pub(crate) fn line(&mut self, text: &str) {
        let text = clean(text).replace('\n', " ");
        self.text.push_str(text.trim_end());
        self.text.push('\n');
    }

    /// The same in bold.
    pub(crate) fn strong_line(&mut self, text: &str) {
        let text = clean(text).replace('\n', " ");
        self.styled(BOLD, text.trim_end());
    }

    /// A paragraph whose first word stands out.
    pub(crate) fn strong_start(&mut self, start: &str, text: &(impl Display + ?Sized)) {
        let lines = self.wrapped(&format!("{start}{text}"), "", "  ");
        if self.colour {
            // Short enough that no line ends in it.
            let end = start.trim_end().len();
            let (start, rest) = lines.split_at_checked(end).unwrap_or((&lines, ""));
            self.text.push_str(&format!("{BOLD}{start}{RESET}{rest}\n"));
        } else {
            self.text.push_str(&format!("{lines}\n"));
        }
    }

    /// Items with a tick box; two short ones share a line.
    pub(crate) fn tick_list(&mut self, texts: impl Iterator<Item = String>) {
        self.pairs("[ ] ", texts);
    }

    /// Items behind a mark; two short ones share a line.
    pub(crate) fn pairs(&mut self, mark: &str, texts: impl Iterator<Item = String>) {
        let half = self.width / 2;
        let fits = |text: &str| textwrap::core::display_width(text) + mark.len() < half;
        let mut waiting: Option<String> = None;
        for text in texts {
            let text = clean(&text).replace('\n', " ");
            match waiting.take() {
                Some(first) if fits(&text) => {
                    let gap = " ".repeat(half - mark.len() - textwrap::core::display_width(&first));
                    self.text
                        .push_str(&format!("{mark}{first}{gap}{mark}{text}\n"));
                }
                first => {
                    if let Some(first) = first {
                        self.item(mark, &first);
                    }
                    if fits(&text) {
                        waiting = Some(text);
                    } else {
                        self.item(mark, &text);
                    }
                }
            }
        }
        if let Some(last) = waiting {
            self.item(mark, &last);
        }
    }

    /// Two texts on one line, the second at the right edge, or on two lines.
    pub(crate) fn apart(&mut self, left: &str, right: &str) {
        let (left, right) = (clean(left).into_owned(), clean(right).into_owned());
        let used = textwrap::core::display_width(&left) + textwrap::core::display_width(&right);
        if used < self.width {
            let gap = " ".repeat(self.width - used);
            self.styled(BOLD, &format!("{left}{gap}{right}"));
        } else {
            self.heading(&left);
            self.paragraph(&right);
        }
    }

    fn wrapped(&self, text: &str, first: &str, rest: &str) -> String {
        let options = Options::new(self.width)
            .initial_indent(first)
            .subsequent_indent(rest)
            .word_splitter(WordSplitter::NoHyphenation);
        // A number and its unit stay on one line.
        let text = clean(text)
            .replace('\n', " ")
            .replace(" %", "\u{a0}%")
            .replace(" ml", "\u{a0}ml")
            .replace(" m:", "\u{a0}m:")
            .replace("mm2/s", "mm2\u{2215}s");
        fill(&text, options)
            .replace('\u{a0}', " ")
            .replace("mm2\u{2215}s", "mm2/s")
    }

    fn styled(&mut self, style: &str, lines: &str) {
        for line in lines.split('\n') {
            if self.colour {
                self.text.push_str(style);
                self.text.push_str(line);
                self.text.push_str(RESET);
            } else {
                self.text.push_str(line.trim_end());
            }
            self.text.push('\n');
        }
    }
}
