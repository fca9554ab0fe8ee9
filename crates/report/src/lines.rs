//! Where the lines of a source begin, found once for many places.

use std::ops::Range;

/// The lines of one source.
pub(crate) struct Lines<'s> {
    source: &'s str,
    /// The byte at which each line begins.
    starts: Vec<usize>,
}

impl<'s> Lines<'s> {
    pub(crate) fn new(source: &'s str) -> Self {
        let ends = source.match_indices('\n').map(|(end, _)| end + 1);
        Self {
            source,
            starts: std::iter::once(0).chain(ends).collect(),
        }
    }

    /// The line of a byte, counted from zero.
    pub(crate) fn line_of(&self, offset: usize) -> usize {
        self.starts.partition_point(|start| *start <= offset) - 1
    }

    /// The bytes of a line, without its end.
    pub(crate) fn bytes_of(&self, line: usize) -> Range<usize> {
        let start = self.starts[line];
        let next = self.starts.get(line + 1).copied();
        let end = next.unwrap_or(self.source.len());
        let text = self.source[start..end].trim_end_matches(['\n', '\r']);
        start..start + text.len()
    }

    /// Line and column of a byte, both counted from one, columns in
    /// characters; a byte-order mark is no column.
    pub(crate) fn line_and_column(&self, offset: usize) -> (usize, usize) {
        let offset = self.boundary(offset);
        let line = self.line_of(offset);
        let before = &self.source[self.starts[line]..offset];
        let column = before.trim_start_matches('\u{feff}').chars().count() + 1;
        (line + 1, column)
    }

    /// The part of a span on its first line, on character boundaries: a whole
    /// part of a layout would fill the screen.
    pub(crate) fn first_line(&self, span: &Range<usize>) -> Range<usize> {
        let start = self.boundary(span.start);
        let line_end = self.bytes_of(self.line_of(start)).end.max(start);
        start..self.boundary(span.end).clamp(start, line_end)
    }

    fn boundary(&self, offset: usize) -> usize {
        let mut offset = offset.min(self.source.len());
        while !self.source.is_char_boundary(offset) {
            offset -= 1;
        }
        offset
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_counted_in_characters() {
        let lines = Lines::new("\u{feff}(\r\n  µ: 3,\n)");
        assert_eq!(lines.line_and_column(3), (1, 1));
        assert_eq!(lines.line_and_column(10), (2, 4));
        assert_eq!(lines.first_line(&(3..16)), 3..4);
        assert_eq!(lines.line_and_column(999), (3, 2));
    }
}
