//! What a card says, in the order in which its pages must say it.

use bleedwright_report::{Card, CardStep, Piece, Said};

/// Texts in a row.
#[derive(Default)]
struct Texts(Vec<Said>);

impl Texts {
    fn one(&mut self, text: &Said) {
        self.0.push(text.clone());
    }

    fn all<'t>(&mut self, texts: impl IntoIterator<Item = &'t Said>) {
        texts.into_iter().for_each(|text| self.one(text));
    }

    /// What stands in the file.
    fn bare<'t>(&mut self, texts: impl IntoIterator<Item = &'t String>) {
        let texts = texts.into_iter();
        self.0
            .extend(texts.map(|text| vec![Piece::Bare(text.clone())].into()));
    }

    fn figure(&mut self, figure: String) {
        self.0.push(vec![Piece::Figure(figure)].into());
    }

    fn step(&mut self, step: &CardStep) {
        self.figure(step.number.to_string());
        self.bare(&step.screws);
        self.one(&step.tools);
        self.one(&step.work);
        self.one(&step.marks);
        self.all(&step.level);
        self.all(&step.draw_back);
        self.one(&step.bounds);
        self.all(&step.least);
        self.one(&step.why);
        self.all(&step.runs);
        self.all(&step.notes);
        if let Some(strokes) = step.strokes {
            self.figure(format!("of {strokes}"));
        }
    }
}

/// Every text of a card.
pub(crate) fn texts(card: &Card) -> Vec<String> {
    said(card).iter().map(Said::to_string).collect()
}

/// The same in pieces.
pub(crate) fn said(card: &Card) -> Vec<Said> {
    let mut texts = Texts::default();
    texts.bare([&card.vehicle]);
    texts.one(&card.facts);
    texts.bare(&card.notes);
    texts.all(&card.danger);
    texts.all(&card.warnings);
    texts.all(&card.cautions);
    texts.all(&card.before);
    texts.one(&card.rhythm);
    for step in &card.steps {
        texts.step(step);
    }
    texts.all(&card.otherwise);
    texts.all(&card.order);
    texts.one(&card.buy);
    texts.all(&card.after);
    if let Some(second) = &card.second {
        texts.one(&second.how);
        for step in &second.steps {
            texts.step(step);
        }
        texts.all(&second.after);
    }
    texts.all(&card.assumed);
    texts.all(&card.certainty);
    texts.0
}
