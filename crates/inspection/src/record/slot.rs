//! Fields of a record seen from outside: how each takes a written value, and how it is written.

use super::entry::{Answer, BrakeType, Day, Entry, FluidLevel, Interval, StepEnd, TaskKind};
use bleedwright_network::{Code, Control, Fluid, suggest};

/// The word for a reading that nobody took.
pub(crate) const NOT_CHECKED: &str = "not_checked";

/// Free text longer than this is a paste gone wrong.
const LONGEST_TEXT: usize = 2000;

/// A value as somebody wrote it.
#[derive(Clone, Copy)]
pub(crate) enum Given<'g> {
    Text(&'g str),
    /// A word or number without quotes.
    Bare(&'g str),
    /// On the command line, where nothing has quotes.
    Command(&'g str),
    /// A list of quoted names.
    Names(&'g [String]),
    /// Brackets of another kind.
    Other,
}

#[derive(Debug)]
pub(crate) enum Written<'w> {
    /// Nobody looked.
    Blank,
    /// A fixed word.
    Word(&'static str),
    /// Anything in quotes.
    Text(std::borrow::Cow<'w, str>),
    Names(&'w [String]),
}

/// What may stand in a field.
#[derive(Clone, Debug, PartialEq)]
pub enum FieldKind {
    /// Any text of up to so many characters.
    Text(usize),
    /// A day of the calendar.
    Day,
    /// One of these words.
    Words(Vec<&'static str>),
    /// A number with a unit.
    Quantity(QuantityField),
    /// Nothing that a person enters.
    Kept,
}

/// A number with a unit. Figures are compared in the first unit.
#[derive(Clone, Debug, PartialEq)]
pub struct QuantityField {
    /// The units.
    pub units: Vec<FieldUnit>,
    /// The least believable value.
    pub least: f64,
    /// The largest believable value.
    pub most: f64,
    /// Both in words.
    pub allowed: &'static str,
}

/// A unit of a field.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldUnit {
    /// Its spellings; the first is the one to write.
    pub names: Vec<&'static str>,
    /// What one of it is in the first unit, above its zero.
    pub scale: f64,
    /// What its zero is in the first unit.
    pub zero: f64,
}

/// Why a value cannot stand in a field.
#[derive(Clone, Debug, PartialEq)]
pub struct Wrong {
    /// The code of the finding.
    pub code: Code,
    /// What was found.
    pub message: String,
    /// What is allowed, where that is a range or a list.
    pub allowed: Option<String>,
    /// What to do.
    pub help: String,
}

pub(crate) trait Slot {
    /// Takes a value into the field of that name, or says what is wrong with it and stays as it was.
    fn take(&mut self, field: &str, given: Given<'_>) -> Result<(), Wrong>;
    fn written(&self) -> Written<'_>;
    /// What may stand in it, being the field of that name.
    fn kind(&self, _field: &str) -> FieldKind {
        FieldKind::Kept
    }
    /// Whether the command line may set it.
    fn is_settable(&self) -> bool {
        true
    }
}

/// A structure of fields, in the order of the file.
pub(crate) trait Slots {
    fn slots(&self) -> Vec<(&'static str, &dyn Slot)>;
    fn slots_mut(&mut self) -> Vec<(&'static str, &mut dyn Slot)>;

    fn slot(&self, field: &str) -> Option<&dyn Slot> {
        let mut slots = self.slots().into_iter();
        slots.find_map(|(name, slot)| (name == field).then_some(slot))
    }

    /// The name of an item of a list.
    fn name(&self) -> String {
        match self.slot("name").map(Slot::written) {
            Some(Written::Text(name)) => name.into_owned(),
            _ => String::new(),
        }
    }
}

/// Whether a field is one of a disc on a brake that has a drum, or the other way round, or one of a routine on a task that is
/// none.
pub(crate) fn is_of_the_other_kind(slots: &dyn Slots, field: &str) -> bool {
    let Some(Written::Word(word)) = slots.slot("kind").map(Slot::written) else {
        return false;
    };
    match field {
        // Pads are bonded to their plates (common practice, no source).
        "drum" | "drum_maximum" | "riveted" => word == BrakeType::Disc.word(),
        "disc" | "disc_minimum" => word == BrakeType::Drum.word(),
        "by" | "date" => word != TaskKind::Routine.word(),
        _ => false,
    }
}

impl Written<'_> {
    /// Whether it says nothing: no reading, or an empty text.
    pub(crate) fn is_blank(&self) -> bool {
        match self {
            Self::Blank => true,
            Self::Word(_) => false,
            Self::Text(text) => text.is_empty(),
            Self::Names(names) => names.is_empty(),
        }
    }
}

pub(super) fn wrong_type(found: &str, wanted: &str, help: impl Into<String>) -> Wrong {
    Wrong {
        code: Code::WrongType,
        message: format!("{found} stands where {wanted} is expected"),
        allowed: None,
        help: help.into(),
    }
}

/// The text of a value that is one word or one quoted text.
pub(super) fn one_text<'g>(
    given: Given<'g>,
    wanted: &str,
    example: &str,
) -> Result<&'g str, Wrong> {
    match given {
        Given::Text(text) | Given::Bare(text) | Given::Command(text) => Ok(text.trim()),
        Given::Names(_) | Given::Other => Err(wrong_type(
            "a list or a structure",
            wanted,
            format!("write it like {example}"),
        )),
    }
}

/// Words that say that nobody looked, in whatever case they are written.
pub const BLANK_WORDS: [&str; 7] = [
    NOT_CHECKED,
    "null",
    "none",
    "not checked",
    "unknown",
    "n/a",
    "nobody",
];

/// Whether a value says that nobody looked, or that whoever wrote it was not sure.
pub(super) fn is_blank_word(text: &str) -> bool {
    let is_blank = |word: &&str| word.eq_ignore_ascii_case(text);
    text.contains('?') || BLANK_WORDS.iter().any(is_blank)
}

/// Whether a word is written as one, with nothing that turns it round: `!= yes` is no yes.
fn is_plain(text: &str) -> bool {
    text.chars()
        .all(|c| c.is_ascii_alphanumeric() || matches!(c, ' ' | '_' | '-' | '.'))
}

macro_rules! word_slot {
    ($($type:ident, $wanted:literal;)+) => { $(
        impl Slot for Entry<$type> {
            fn take(&mut self, _field: &str, given: Given<'_>) -> Result<(), Wrong> {
                let words: Vec<&str> = $type::ALL.iter().map(|word| word.word()).collect();
                let text = one_text(given, $wanted, words[0])?;
                if is_blank_word(text) {
                    *self = Self::NotChecked;
                    return Ok(());
                }
                let is_word = |word: &&$type| letters(word.word()) == letters(text);
                let known = $type::ALL.iter().find(is_word).filter(|_| is_plain(text));
                let Some(word) = known else {
                    return Err(Wrong {
                        code: Code::UnknownWord,
                        message: format!("`{text}` is not {}", $wanted),
                        allowed: Some(format!("{}, {NOT_CHECKED}", words.join(", "))),
                        help: suggest(&text.replace([' ', '-'], "_"), &words),
                    });
                };
                *self = Self::Found(*word);
                Ok(())
            }

            fn written(&self) -> Written<'_> {
                match self {
                    Self::NotChecked => Written::Blank,
                    Self::Found(word) => Written::Word(word.word()),
                }
            }

            fn kind(&self, _field: &str) -> FieldKind {
                FieldKind::Words($type::ALL.iter().map(|word| word.word()).collect())
            }
        }
    )+ };
}
word_slot! {
    Answer, "an answer";
    BrakeType, "a kind of brake";
    Control, "a kind of control";
    Fluid, "a fluid";
    FluidLevel, "a level";
    Interval, "an interval";
    StepEnd, "the end of a step";
    TaskKind, "a kind of task";
}

/// What makes a word: `DOT 5.1` is `dot5_1`, `At maximum` is `at_maximum`.
fn letters(word: &str) -> String {
    let letters = word.chars().filter(char::is_ascii_alphanumeric);
    letters.collect::<String>().to_lowercase()
}

impl Slot for Entry<Day> {
    fn take(&mut self, _field: &str, given: Given<'_>) -> Result<(), Wrong> {
        let text = one_text(given, "a day", "\"2026-11-25\"")?;
        if text.is_empty() || is_blank_word(text) {
            *self = Self::NotChecked;
            return Ok(());
        }
        match Day::parse(text) {
            Some(day) => {
                *self = Self::Found(day);
                Ok(())
            }
            None => Err(Wrong {
                code: Code::NotANumber,
                message: format!("`{text}` is not a day of the calendar"),
                allowed: Some("year-month-day, as ISO 8601 writes it".to_owned()),
                help: "write it like \"2026-11-25\"".to_owned(),
            }),
        }
    }

    fn written(&self) -> Written<'_> {
        match self {
            Self::NotChecked => Written::Blank,
            Self::Found(day) => Written::Text(day.to_string().into()),
        }
    }

    fn kind(&self, _field: &str) -> FieldKind {
        FieldKind::Day
    }
}

impl Slot for String {
    fn take(&mut self, _field: &str, given: Given<'_>) -> Result<(), Wrong> {
        let text = match given {
            Given::Text(text) => text,
            Given::Command(text) => text.trim(),
            Given::Bare(word) if is_blank_word(word) => "",
            Given::Bare(word) => {
                return Err(wrong_type(word, "a text", "put it in quotes"));
            }
            Given::Names(_) | Given::Other => {
                return Err(wrong_type(
                    "a list or a structure",
                    "a text",
                    "put it in quotes",
                ));
            }
        };
        if text.chars().count() > LONGEST_TEXT {
            return Err(Wrong {
                code: Code::BadName,
                message: format!("this text has more than {LONGEST_TEXT} characters"),
                allowed: Some(format!("up to {LONGEST_TEXT} characters")),
                help: "shorten it".to_owned(),
            });
        }
        text.clone_into(self);
        Ok(())
    }

    fn written(&self) -> Written<'_> {
        Written::Text(self.into())
    }

    fn kind(&self, _field: &str) -> FieldKind {
        FieldKind::Text(LONGEST_TEXT)
    }
}

impl Slot for Vec<String> {
    fn take(&mut self, _field: &str, given: Given<'_>) -> Result<(), Wrong> {
        let Given::Names(names) = given else {
            return Err(wrong_type(
                "something else",
                "a list of names",
                "write it like [\"front left\", \"front right\"]",
            ));
        };
        names.clone_into(self);
        Ok(())
    }

    fn written(&self) -> Written<'_> {
        Written::Names(self)
    }

    fn is_settable(&self) -> bool {
        false
    }
}
