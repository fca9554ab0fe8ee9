//! A value as it was given, and as the file is to have it.

use super::error::EditError;
use bleedwright_network::{Entry, EntryKind, Presence, quoted, unquoted};

/// What was meant by a value.
pub(super) struct Meant {
    /// What is written into the file.
    pub(super) token: String,
    /// The same without quotes, as it will be read.
    pub(super) value: String,
}

/// The value for a field. Whether it is in range and fits the vehicle is the loader's to say.
pub(super) fn meant(
    text: &str,
    entry: &Entry,
    name: &str,
    given: &str,
) -> Result<Meant, EditError> {
    let wrong = |allowed: String| EditError::WrongKind {
        name: name.to_owned(),
        found: given.to_owned(),
        allowed,
    };
    // Quotes may come along from the file; inch signs and quotes inside a text stay.
    let value = Some(given)
        .filter(|given| given.starts_with('"'))
        .and_then(unquoted)
        .unwrap_or_else(|| given.to_owned());
    match entry.kind {
        EntryKind::Quantity if is_plain_number(&value) && may_be_bare(text, entry) => {
            Ok(bare(value))
        }
        EntryKind::Quantity | EntryKind::Text => Ok(Meant {
            token: quoted(&value),
            value,
        }),
        // A wrong word goes to the loader too, which knows what is meant by `DOT 4`.
        EntryKind::Word(words) if !is_word(&value) || value == "None" => {
            Err(wrong(format!("one of {}", words.join(", "))))
        }
        EntryKind::Count if !is_whole_number(&value) => {
            Err(wrong("a whole number, such as 2".to_owned()))
        }
        EntryKind::YesNo => match value.as_str() {
            "true" | "yes" => Ok(bare("true".to_owned())),
            "false" | "no" => Ok(bare("false".to_owned())),
            _ => Err(wrong("`true` or `false`".to_owned())),
        },
        _ => Ok(bare(value)),
    }
}

fn bare(value: String) -> Meant {
    Meant {
        token: value.clone(),
        value,
    }
}

/// A ratio in quotes stays in quotes.
fn may_be_bare(text: &str, entry: &Entry) -> bool {
    match &entry.standing {
        Presence::Written { range, .. } => !text[range.clone()].ends_with(['"', '#']),
        Presence::Absent(_) => true,
    }
}

/// A number as every reader of RON takes it, with digits on both sides of its point.
fn is_plain_number(value: &str) -> bool {
    let number = value.strip_prefix('-').unwrap_or(value);
    let (whole, part) = number.split_once('.').unwrap_or((number, "0"));
    is_whole_number(whole) && !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit())
}

fn is_whole_number(value: &str) -> bool {
    let has_leading_zero = value.len() > 1 && value.starts_with('0');
    !value.is_empty() && !has_leading_zero && value.bytes().all(|b| b.is_ascii_digit())
}

fn is_word(value: &str) -> bool {
    let is_part = |c: char| c.is_alphanumeric() || matches!(c, '_' | '.' | '-' | ' ');
    value.starts_with(char::is_alphabetic) && value.chars().all(is_part)
}
