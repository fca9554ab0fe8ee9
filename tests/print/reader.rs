//! A small reader of PDF: text with its places, upright lines, fonts. It follows the file format (ISO 32000-1, 8.3, 9.4,
//! 9.7, 9.10) on what `lopdf` takes apart, and knows nothing of the library that writes.

mod content;
mod font;
mod matrix;

use content::read_page;
use lopdf::{Document, Object};

/// A page as it is seen.
pub(crate) struct Page {
    pub(crate) width: f64,
    pub(crate) height: f64,
    /// Stretches of text in the order of the file.
    pub(crate) runs: Vec<Run>,
    pub(crate) uprights: Vec<Upright>,
}

/// A stretch of text from one font, in points from the upper left corner.
#[derive(Debug)]
pub(crate) struct Run {
    pub(crate) text: String,
    pub(crate) left: f64,
    pub(crate) right: f64,
    pub(crate) base: f64,
    pub(crate) em: f64,
    /// Foot lines and the like, which are no part of what is said.
    pub(crate) is_artifact: bool,
}

/// An upright line.
#[derive(Debug)]
pub(crate) struct Upright {
    pub(crate) x: f64,
    pub(crate) top: f64,
    pub(crate) bottom: f64,
}

impl Run {
    /// Of its capital letters.
    pub(crate) fn top(&self) -> f64 {
        self.base - 0.72 * self.em
    }

    /// Of its descenders.
    pub(crate) fn bottom(&self) -> f64 {
        self.base + 0.22 * self.em
    }

    pub(crate) fn touches(&self, other: &Self) -> bool {
        let is_beside = self.left >= other.right - 0.05 || other.left >= self.right - 0.05;
        let is_below = self.top() >= other.bottom() || other.top() >= self.bottom();
        !is_beside && !is_below
    }
}

impl Upright {
    pub(crate) fn cuts(&self, run: &Run) -> bool {
        let is_beside = self.x <= run.left || self.x >= run.right;
        let is_below = self.top >= run.bottom() || run.top() >= self.bottom;
        !is_beside && !is_below
    }
}

/// Reads a file.
pub(crate) fn read(bytes: &[u8]) -> Vec<Page> {
    let document = open(bytes);
    let pages = document.get_pages();
    pages
        .values()
        .map(|page| read_page(&document, *page))
        .collect()
}

/// What all pages say, foot lines and the like left out.
pub(crate) fn said(pages: &[Page]) -> String {
    let runs = pages.iter().flat_map(|page| &page.runs);
    let said = runs.filter(|run| !run.is_artifact);
    said.map(|run| run.text.as_str())
        .collect::<Vec<_>>()
        .join("\n")
}

/// The names of all fonts, each of which must have its file inside.
pub(crate) fn fonts(bytes: &[u8]) -> Vec<String> {
    let document = open(bytes);
    let descriptors = document
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok());
    descriptors
        .filter(|dictionary| dictionary.has_type(b"FontDescriptor"))
        .map(|descriptor| {
            let name = descriptor
                .get(b"FontName")
                .and_then(Object::as_name)
                .expect("a font has a name");
            let name = String::from_utf8_lossy(name).into_owned();
            let file = descriptor
                .get(b"FontFile2")
                .or_else(|_| descriptor.get(b"FontFile3"));
            let file = file
                .and_then(Object::as_reference)
                .unwrap_or_else(|_| panic!("{name} is not embedded"));
            let stream = document
                .get_object(file)
                .and_then(Object::as_stream)
                .expect("the file of a font is there");
            let content = stream.decompressed_content().expect("it can be unpacked");
            assert!(content.len() > 500, "{name} is empty");
            name
        })
        .collect()
}

fn open(bytes: &[u8]) -> Document {
    Document::load_mem(bytes).expect("what was written can be read")
}

fn number(object: &Object) -> f64 {
    match object {
        Object::Integer(whole) => *whole as f64,
        Object::Real(real) => f64::from(*real),
        other => panic!("{other:?} is no number"),
    }
}
