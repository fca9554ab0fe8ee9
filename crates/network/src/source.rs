//! Where in the text of a layout file a value stands.

use crate::place::{PathStep, Place};
use crate::syntax::{Value, scan};
use ron::Options;
use ron::extensions::Extensions;
use std::cell::OnceCell;
use std::ops::Range;

/// The RON dialect of layout files: no header line is needed.
pub(crate) fn dialect() -> Options {
    Options::default().with_default_extension(
        Extensions::IMPLICIT_SOME
            | Extensions::UNWRAP_NEWTYPES
            | Extensions::UNWRAP_VARIANT_NEWTYPES,
    )
}

/// Finds the bytes of places in one text.
///
/// The text is taken apart once, at the first place that needs it, so that
/// many places cost little more than one.
pub struct Locator<'t> {
    text: &'t str,
    root: OnceCell<Option<Value>>,
}

impl<'t> Locator<'t> {
    /// For places in this text.
    pub fn new(text: &'t str) -> Self {
        Self {
            text,
            root: OnceCell::new(),
        }
    }

    /// The bytes that a place means, or those of the innermost value that
    /// could be found on the way to it; none for a place outside the file.
    /// They lie on the boundaries of characters.
    pub fn find(&self, place: &Place) -> Option<Range<usize>> {
        match place {
            Place::Bytes(range) => {
                let start = self.boundary_before(range.start);
                let end = self.boundary_before(range.end).max(start);
                Some(start..end)
            }
            Place::Option(_) => None,
            Place::Path(steps) => Some(self.walk_to(steps)),
        }
    }

    fn boundary_before(&self, byte: usize) -> usize {
        (0..=byte.min(self.text.len()))
            .rev()
            .find(|at| self.text.is_char_boundary(*at))
            .unwrap_or(0)
    }

    fn walk_to(&self, steps: &[PathStep]) -> Range<usize> {
        let root = self.root.get_or_init(|| scan(self.text).root);
        let Some(root) = root else {
            return 0..0;
        };
        let mut here = root;
        for step in steps {
            let found = match step {
                PathStep::Field(name) => here.field(self.text, name),
                PathStep::Item(index) => here.item(self.text, *index),
            };
            let Some(found) = found else { break };
            here = found;
        }
        if std::ptr::eq(here, root) {
            // Marking the whole file would mark nothing; its first character,
            // which is a bracket in every layout, stands for it.
            let first = self.text[root.range.clone()].chars().next();
            return root.range.start..root.range.start + first.map_or(0, char::len_utf8);
        }
        here.range.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "// a layout
(
    name: \"x\",
    parts: [
        (id: \"a\", kind: tee),
        /* second */ (id: \"b\", kind: caliper(pistons: [(bore: \"3.3 m\" /* ! */)])),
    ],
)
";

    #[test]
    fn finds_values_by_their_path() {
        let at = |place: Place| &TEXT[Locator::new(TEXT).find(&place).expect("a path has a place")];
        let second = Place::item("parts", 1);
        assert_eq!(at(second.clone().field("id")), "\"b\"");
        let bore = second.field("kind").field("pistons").nth(0).field("bore");
        assert_eq!(at(bore), "\"3.3 m\"");
        assert_eq!(at(Place::item("parts", 0)), "(id: \"a\", kind: tee)");
        assert_eq!(at(Place::Path(vec![])), "(");
    }

    #[test]
    fn a_path_that_leads_nowhere_ends_at_the_last_value_found() {
        let place = Place::item("parts", 0).field("wheel");
        let range = Locator::new(TEXT).find(&place).expect("a path has a place");
        assert_eq!(&TEXT[range], "(id: \"a\", kind: tee)");
    }
}
