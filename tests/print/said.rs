//! What a card says, in the order in which its pages must say it.

use bleedwright_report::{Card, CardStep};

/// Texts in a row.
#[derive(Default)]
struct Texts(Vec<String>);

impl Texts {
    fn one(&mut self, text: &impl ToString) {
        self.0.push(text.to_string());
    }

    fn all<'t, T: ToString + 't>(&mut self, texts: impl IntoIterator<Item = &'t T>) {
        texts.into_iter().for_each(|text| self.one(text));
    }

    fn step(&mut self, step: &CardStep) {
        self.one(&step.number);
        self.all(&step.screws);
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
        self.all(&step.strokes.map(|strokes| format!("of {strokes}")));
    }
}

/// Every text of a card.
pub(crate) fn texts(card: &Card) -> Vec<String> {
    let mut texts = Texts::default();
    texts.one(&card.vehicle);
    texts.one(&card.facts);
    texts.all(&card.notes);
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
