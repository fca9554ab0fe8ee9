//! What is said, in pieces: words from here, names from a file, figures. Marks such as quotes are put round a name where
//! it is set, and no renderer has to find it again in a sentence.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt::{self, Display, Formatter};

/// A sentence, or a part of one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Said(Vec<Piece>);

/// A piece of what is said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// Words that stand here, in the source.
    Words(Cow<'static, str>),
    /// A name of the file, set between marks.
    Name(String),
    /// A name or a remark of the file that stands without marks.
    Bare(String),
    /// A figure, with its unit.
    Figure(String),
}

/// A sentence from a template: each `{}` is filled by what follows, which is [`Said`] or words. That there are as many
/// of them is seen when it is compiled.
macro_rules! say {
    ($template:literal $(, $hole:expr)* $(,)?) => {{
        const { assert!($crate::said::holes($template) == 0 $(+ $crate::said::one(stringify!($hole)))*) }
        $crate::said::Said::filled($template, vec![$($crate::said::Said::from($hole)),*])
    }};
}
pub(crate) use say;

/// How many `{}` a template has.
pub(crate) const fn holes(template: &str) -> usize {
    let bytes = template.as_bytes();
    let (mut at, mut holes) = (0, 0);
    while at + 1 < bytes.len() {
        if bytes[at] == b'{' && bytes[at + 1] == b'}' {
            holes += 1;
        }
        at += 1;
    }
    holes
}

/// One, whatever is counted.
pub(crate) const fn one(_: &str) -> usize {
    1
}

impl Said {
    /// Use [`say`], which counts the holes.
    pub(crate) fn filled(template: &'static str, holes: Vec<Said>) -> Self {
        let mut all = Self::default();
        let mut holes = holes.into_iter();
        for (nth, words) in template.split("{}").enumerate() {
            if nth > 0 {
                all.extend(holes.next().unwrap_or_default());
            }
            all.extend(words.into());
        }
        all
    }

    /// Its pieces in their order.
    pub fn pieces(&self) -> &[Piece] {
        &self.0
    }

    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Adds `more` to the end.
    pub(crate) fn extend(&mut self, more: Said) {
        self.0.extend(more.0);
    }

    /// All of them, with `between` two of them.
    pub(crate) fn joined(all: impl IntoIterator<Item = Said>, between: &'static str) -> Self {
        let mut joined = Self::default();
        for (nth, said) in all.into_iter().enumerate() {
            if nth > 0 {
                joined.extend(between.into());
            }
            joined.extend(said);
        }
        joined
    }

    /// One text of several, a blank between two of them.
    pub(crate) fn paragraph<'s>(all: impl IntoIterator<Item = &'s Said>) -> Self {
        Self::joined(all.into_iter().cloned(), " ")
    }

    /// With a capital letter, where it begins with words.
    pub(crate) fn capitalised(mut self) -> Self {
        if let Some(Piece::Words(words)) = self.0.first_mut() {
            *words = crate::words::capitalised(words).into();
        }
        self
    }

    /// As text, what is between marks as `name` says it.
    pub(crate) fn set(&self, name: impl Fn(&str) -> String) -> String {
        let pieces = self.0.iter().map(|piece| match piece {
            Piece::Words(words) => words.to_string(),
            Piece::Name(given) => name(given),
            Piece::Bare(text) | Piece::Figure(text) => text.clone(),
        });
        pieces.collect()
    }
}

impl Said {
    /// As plain text, names without any mark, for what is read in a hurry.
    pub fn plain(&self) -> String {
        self.set(str::to_owned)
    }
}

/// As plain text, where a name stands between backticks.
impl Display for Said {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        f.write_str(&self.set(|name| format!("`{name}`")))
    }
}

/// In JSON it is its plain text.
impl Serialize for Said {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl JsonSchema for Said {
    fn inline_schema() -> bool {
        String::inline_schema()
    }

    fn schema_name() -> Cow<'static, str> {
        String::schema_name()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        String::json_schema(generator)
    }
}

impl From<Said> for String {
    fn from(said: Said) -> Self {
        said.to_string()
    }
}

impl From<Vec<Piece>> for Said {
    fn from(pieces: Vec<Piece>) -> Self {
        Self(pieces)
    }
}

impl From<&'static str> for Said {
    fn from(words: &'static str) -> Self {
        Self(if words.is_empty() {
            Vec::new()
        } else {
            vec![Piece::Words(words.into())]
        })
    }
}

/// A name of the file, between marks.
pub(crate) fn name(name: &str) -> Said {
    Said(vec![Piece::Name(name.to_owned())])
}

/// Names of the file, each between marks.
pub(crate) fn names<S: AsRef<str>>(names: &[S]) -> Said {
    Said::joined(names.iter().map(|it| name(it.as_ref())), ", ")
}

/// What stands in the file, without marks.
pub(crate) fn bare(text: &str) -> Said {
    Said(vec![Piece::Bare(text.to_owned())])
}

/// The same of several.
pub(crate) fn bares<S: AsRef<str>>(texts: &[S]) -> Said {
    Said::joined(texts.iter().map(|it| bare(it.as_ref())), ", ")
}

/// The message or the help of a finding, which is words already, its names between backticks.
pub(crate) fn finding(message: &str) -> Said {
    let pieces = message.split('`').enumerate();
    let pieces = pieces.map(|(nth, piece)| match nth % 2 {
        0 => Piece::Words(piece.to_owned().into()),
        _ => Piece::Name(piece.to_owned()),
    });
    // An odd mark is part of a name.
    match message.matches('`').count() % 2 {
        0 => Said(pieces.collect()),
        _ => bare(message),
    }
}

/// A figure, with its unit.
pub(crate) fn figure(figure: impl Display) -> Said {
    Said(vec![Piece::Figure(figure.to_string())])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_hole_is_filled_in_its_turn() {
        let said = say!("{} off {}: {}.", name("a"), figure(3), bare("b{}"));
        assert_eq!(said.to_string(), "`a` off 3: b{}.");
        assert_eq!(said.set(str::to_uppercase), "A off 3: b{}.");
        assert_eq!(say!("nothing").to_string(), "nothing");
        assert_eq!(say!("shut").capitalised().to_string(), "Shut");
        assert_eq!(names(&["a", "b"]).to_string(), "`a`, `b`");
        assert!(say!("").is_empty());
    }
}
