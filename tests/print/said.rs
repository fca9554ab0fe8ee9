//! What a card says, in the order in which its pages must say it.

use bleedwright_report::{Card, CardStep, Instruction, Piece, Run, Said};

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

    /// What hands need of a step.
    fn step(&mut self, step: &CardStep) {
        self.figure(step.number.to_string());
        for row in &step.rows {
            self.bare(&row.screw);
            self.all(row.cells.iter().filter(|cell| !cell.is_empty()));
            self.all(&row.tool);
        }
        self.all(&step.hands);
    }

    /// Lines to work by.
    fn lines<'t>(&mut self, lines: impl IntoIterator<Item = &'t Instruction>) {
        self.all(lines.into_iter().map(|line| &line.does));
    }
}

/// Every text of a card.
pub(crate) fn texts(card: &Card) -> Vec<String> {
    said(card).iter().map(Said::plain).collect()
}

/// The same in pieces: the first page, then the second.
pub(crate) fn said(card: &Card) -> Vec<Said> {
    let mut texts = Texts::default();
    texts.bare([&card.vehicle]);
    texts.one(&card.job);
    texts.bare(&card.notes);
    texts.all(&card.danger);
    texts.all(&card.warnings);
    texts.one(&card.ready);
    texts.lines(&card.cautions);
    texts.lines(card.all_before());
    texts.all(&card.each);
    texts.all(&card.done);
    for step in &card.steps {
        texts.step(step);
    }
    texts.lines(card.otherwise.iter().map(|it| &it.then));
    texts.lines(&card.after);
    if let Some(second) = &card.second {
        texts.one(&second.how);
        for step in &second.steps {
            texts.step(step);
        }
        texts.lines(&second.after);
    }
    texts.one(&card.facts);
    texts.0.extend(card.all_steps().map(CardStep::in_full));
    texts.all(&card.order);
    let runs = card.all_steps().flat_map(|step| &step.runs);
    texts.0.extend(runs.map(Run::in_full));
    texts.one(&card.buy);
    texts.0.extend(card.in_full());
    texts.all(&card.assumed);
    texts.all(&card.certainty);
    texts.0
}
