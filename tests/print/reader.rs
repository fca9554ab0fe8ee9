//! A small reader of PDF: text with its places, upright lines, fonts. It follows the file format (ISO 32000-1, 8.3, 9.4,
//! 9.7, 9.10) on what `lopdf` takes apart, and knows nothing of the library that writes.

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId};
use std::collections::BTreeMap;

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

/// A transformation: x' = a x + c y + e, y' = b x + d y + f.
#[derive(Clone, Copy)]
struct Matrix([f64; 6]);

impl Matrix {
    const IDENTITY: Self = Self([1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);

    /// First this, then `next`.
    fn then(self, next: Self) -> Self {
        let ([a, b, c, d, e, f], [p, q, r, s, t, u]) = (self.0, next.0);
        Self([
            a * p + b * r,
            a * q + b * s,
            c * p + d * r,
            c * q + d * s,
            e * p + f * r + t,
            e * q + f * s + u,
        ])
    }

    fn at(self, x: f64, y: f64) -> (f64, f64) {
        let [a, b, c, d, e, f] = self.0;
        (a * x + c * y + e, b * x + d * y + f)
    }
}

/// A font with two-byte codes.
struct Font {
    characters: BTreeMap<u16, String>,
    widths: BTreeMap<u16, f64>,
}

/// What the operators of a page change.
struct State {
    fonts: BTreeMap<Vec<u8>, Font>,
    page: Page,
    now: Matrix,
    saved: Vec<Matrix>,
    text: Matrix,
    font: Vec<u8>,
    em: f64,
    /// Marked content that is open: whether it is an artifact, and what it says instead of its glyphs.
    marked: Vec<(bool, Option<String>)>,
    from: (f64, f64),
    drawn: Vec<((f64, f64), (f64, f64))>,
}

fn read_page(document: &Document, id: ObjectId) -> Page {
    let dictionary = document.get_dictionary(id).expect("a page is a dictionary");
    let sides: Vec<f64> = dictionary
        .get(b"MediaBox")
        .and_then(Object::as_array)
        .expect("a page has a size")
        .iter()
        .map(number)
        .collect();
    let fonts = document
        .get_page_fonts(id)
        .expect("a page with text has fonts");
    let fonts = fonts
        .into_iter()
        .map(|(name, font)| (name, Font::new(document, font)))
        .collect();
    let mut state = State {
        fonts,
        page: Page {
            width: sides[2] - sides[0],
            height: sides[3] - sides[1],
            runs: Vec::new(),
            uprights: Vec::new(),
        },
        now: Matrix::IDENTITY,
        saved: Vec::new(),
        text: Matrix::IDENTITY,
        font: Vec::new(),
        em: 0.0,
        marked: Vec::new(),
        from: (0.0, 0.0),
        drawn: Vec::new(),
    };
    let content = document.get_page_content(id);
    let content = Content::decode(&content).expect("the operators of a page can be read");
    for operation in &content.operations {
        state.take(operation);
    }
    assert!(
        state.saved.is_empty() && state.marked.is_empty(),
        "whatever opens is closed"
    );
    state.page
}

impl State {
    fn take(&mut self, operation: &Operation) {
        let operands = &operation.operands;
        let matrix = || {
            let numbers: Vec<f64> = operands.iter().map(number).collect();
            Matrix(numbers.try_into().expect("a matrix has six numbers"))
        };
        let place = || (number(&operands[0]), number(&operands[1]));
        match operation.operator.as_str() {
            "q" => self.saved.push(self.now),
            "Q" => {
                self.now = self
                    .saved
                    .pop()
                    .expect("nothing is restored that was not saved")
            }
            "cm" => self.now = matrix().then(self.now),
            "BT" => self.text = Matrix::IDENTITY,
            "Tm" => self.text = matrix(),
            "Td" => {
                let (x, y) = place();
                self.text = Matrix([1.0, 0.0, 0.0, 1.0, x, y]).then(self.text);
            }
            "Tf" => {
                self.font = operands[0].as_name().expect("a font has a name").to_vec();
                self.em = number(&operands[1]);
            }
            "Tj" => self.show(operands),
            "TJ" => self.show(operands[0].as_array().expect("it is a list")),
            "BDC" => self.open(&operands[0], &operands[1]),
            "BMC" => self
                .marked
                .push((operands[0].as_name().ok() == Some(b"Artifact"), None)),
            "EMC" => {
                self.marked
                    .pop()
                    .expect("nothing is closed that was not opened");
            }
            "m" => self.from = place(),
            "l" => {
                let to = place();
                self.drawn.push((self.from, to));
                self.from = to;
            }
            "S" => self.stroke(),
            "f" | "f*" | "n" | "B" | "B*" => self.drawn.clear(),
            "'" | "\"" | "T*" | "TD" | "Do" => {
                panic!("this reader does not know {}", operation.operator)
            }
            _ => {}
        }
    }

    fn open(&mut self, tag: &Object, properties: &Object) {
        let properties = properties
            .as_dict()
            .cloned()
            .unwrap_or_else(|_| Dictionary::new());
        let instead = properties
            .get(b"ActualText")
            .ok()
            .map(|text| lopdf::decode_text_string(text).expect("it is text"));
        self.marked
            .push((tag.as_name().ok() == Some(b"Artifact"), instead));
    }

    fn show(&mut self, pieces: &[Object]) {
        let font = &self.fonts[&self.font];
        let (mut text, mut x) = (String::new(), 0.0);
        for piece in pieces {
            if let Object::String(codes, _) = piece {
                for code in codes.chunks_exact(2) {
                    let code = u16::from_be_bytes([code[0], code[1]]);
                    text.push_str(&font.characters[&code]);
                    x += font.widths[&code] / 1000.0 * self.em;
                }
            } else {
                x -= number(piece) / 1000.0 * self.em;
            }
        }
        let all = self.text.then(self.now);
        let ((left, base), (right, _)) = (all.at(0.0, 0.0), all.at(x, 0.0));
        self.text = Matrix([1.0, 0.0, 0.0, 1.0, x, 0.0]).then(self.text);
        if let Some(instead) = self
            .marked
            .iter_mut()
            .rev()
            .find_map(|(_, instead)| instead.as_mut())
        {
            text = std::mem::take(instead);
        }
        self.page.runs.push(Run {
            // What has no ink at its end needs no room.
            right: right - (right - left) * trailing_share(&text, font, x / self.em),
            text,
            left,
            base: self.page.height - base,
            em: self.em * (all.at(0.0, 1.0).1 - base).abs(),
            is_artifact: self.marked.iter().any(|(is_artifact, _)| *is_artifact),
        });
    }

    fn stroke(&mut self) {
        for (from, to) in std::mem::take(&mut self.drawn) {
            let (from, to) = (self.now.at(from.0, from.1), self.now.at(to.0, to.1));
            if (from.0 - to.0).abs() < 0.01 && (from.1 - to.1).abs() > 1.0 {
                let height = self.page.height;
                self.page.uprights.push(Upright {
                    x: from.0,
                    top: height - from.1.max(to.1),
                    bottom: height - from.1.min(to.1),
                });
            }
        }
    }
}

/// The share of a run's length, in ems, that blanks at its end take.
fn trailing_share(text: &str, font: &Font, length: f64) -> f64 {
    let blanks = text.len() - text.trim_end_matches(' ').len();
    let blank = font.characters.iter().find(|(_, text)| *text == " ");
    let width = blank.map_or(0.0, |(code, _)| font.widths[code] / 1000.0);
    if length > 0.0 {
        blanks as f64 * width / length
    } else {
        0.0
    }
}

impl Font {
    fn new(document: &Document, font: &Dictionary) -> Self {
        let unicode = font
            .get(b"ToUnicode")
            .and_then(Object::as_reference)
            .expect("a font says its characters");
        let unicode = document
            .get_object(unicode)
            .and_then(Object::as_stream)
            .expect("it is a stream");
        let unicode = unicode
            .decompressed_content()
            .unwrap_or_else(|_| unicode.content.clone());
        let descendants = resolved(
            document,
            font.get(b"DescendantFonts")
                .expect("a font of two-byte codes"),
        );
        let descendant = resolved(document, &descendants.as_array().expect("it is a list")[0]);
        let widths = descendant
            .as_dict()
            .and_then(|font| font.get(b"W"))
            .expect("glyphs have widths");
        Self {
            characters: characters(&String::from_utf8_lossy(&unicode)),
            widths: widths_of(resolved(document, widths).as_array().expect("it is a list")),
        }
    }
}

fn resolved<'d>(document: &'d Document, object: &'d Object) -> &'d Object {
    document
        .dereference(object)
        .expect("whatever is referred to is there")
        .1
}

/// The pairs of code and text between `beginbfchar` and `endbfchar`; the writer uses no ranges.
fn characters(map: &str) -> BTreeMap<u16, String> {
    assert!(
        !map.contains("beginbfrange"),
        "this reader does not know ranges"
    );
    let mut characters = BTreeMap::new();
    for part in map.split("beginbfchar").skip(1) {
        let part = part.split("endbfchar").next().unwrap_or_default();
        let codes: Vec<Vec<u16>> = part
            .split(['<', '>'])
            .filter(|code| !code.trim().is_empty())
            .map(|code| {
                let digits = code.as_bytes().chunks(4);
                let unit = |digits| u16::from_str_radix(std::str::from_utf8(digits).ok()?, 16).ok();
                digits
                    .map(|digits| unit(digits).expect("four digits make a unit"))
                    .collect()
            })
            .collect();
        for pair in codes.chunks_exact(2) {
            characters.insert(pair[0][0], String::from_utf16_lossy(&pair[1]));
        }
    }
    characters
}

/// `first [w w w]` and `first last w`.
fn widths_of(list: &[Object]) -> BTreeMap<u16, f64> {
    let mut widths = BTreeMap::new();
    let mut rest = list;
    while let [first, second, after @ ..] = rest {
        let first = number(first) as u16;
        if let Ok(each) = second.as_array() {
            widths.extend((first..).zip(each.iter().map(number)));
            rest = after;
        } else {
            let (width, after) = after.split_first().expect("a range has a width");
            widths.extend((first..=number(second) as u16).map(|code| (code, number(width))));
            rest = after;
        }
    }
    widths
}

fn number(object: &Object) -> f64 {
    match object {
        Object::Integer(whole) => *whole as f64,
        Object::Real(real) => f64::from(*real),
        other => panic!("{other:?} is no number"),
    }
}
