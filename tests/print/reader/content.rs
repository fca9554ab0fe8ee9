//! What the operators of a page do (ISO 32000-1, 8.3, 8.5, 9.4 and 14.6).

use super::font::Font;
use super::matrix::Matrix;
use super::{Page, Run, Upright, number};
use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId};
use std::collections::BTreeMap;

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

pub(super) fn read_page(document: &Document, id: ObjectId) -> Page {
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
                    .expect("nothing is restored that was not saved");
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
