//! A record as text, in RON or JSON.

use super::scan::Spelling;
use super::slot::{NOT_CHECKED, Slots, Written, is_of_the_other_kind};
use super::{RECORD_FORMAT, Record, SECTIONS, Section};
use bleedwright_network::{is_invisible, json_escape, quoted_with};

const EXPLANATION: &str = "\
// What was measured after the work. Write a value with its unit in quotes, such
// as \"21.3 mm\", answer yes or no, or leave not_checked what nobody looked at.
// The maker's manual and local rules govern; so do the figures on the parts.
";

impl Record {
    /// The record as RON, with a few lines of explanation on top.
    pub fn to_ron(&self) -> String {
        EXPLANATION.to_owned() + &self.text(Spelling::Ron)
    }

    /// The record as JSON: the same structure, `null` for what was not checked, words in quotes.
    pub fn to_json(&self) -> String {
        self.text(Spelling::Json)
    }

    fn text(&self, spelling: Spelling) -> String {
        let (open, close) = brackets(spelling);
        let mut parts = vec![format!("    {}{RECORD_FORMAT}", name(spelling, "format"))];
        for (section, part) in SECTIONS.iter().zip(self.sections()) {
            if let (true, Section::One(slots)) = (section.is_optional, &part)
                && slots
                    .slots()
                    .iter()
                    .all(|(_, slot)| slot.written().is_blank())
            {
                continue;
            }
            let head = format!("    {}", name(spelling, section.field));
            parts.push(match part {
                Section::One(slots) => head + &structure(slots, spelling, 1),
                Section::Many(items) => {
                    let items: Vec<String> = items
                        .into_iter()
                        .map(|item| format!("        {}", structure(item, spelling, 2)))
                        .collect();
                    let end = end(spelling);
                    if items.is_empty() {
                        head + "[]"
                    } else {
                        format!("{head}[\n{}{end}\n    ]", items.join(",\n"))
                    }
                }
            });
        }
        format!("{open}\n{}{}\n{close}\n", parts.join(",\n"), end(spelling))
    }
}

fn brackets(spelling: Spelling) -> (char, char) {
    match spelling {
        Spelling::Ron => ('(', ')'),
        Spelling::Json => ('{', '}'),
    }
}

/// RON may have a comma behind the last value, which makes lines alike.
fn end(spelling: Spelling) -> &'static str {
    match spelling {
        Spelling::Ron => ",",
        Spelling::Json => "",
    }
}

/// A field's name, with its colon.
pub(crate) fn name(spelling: Spelling, field: &str) -> String {
    match spelling {
        Spelling::Ron => format!("{field}: "),
        Spelling::Json => format!("{}: ", quoted(field, spelling)),
    }
}

fn structure(slots: &dyn Slots, spelling: Spelling, level: usize) -> String {
    let (open, close) = brackets(spelling);
    let all = slots.slots();
    let fields: Vec<String> = all
        .into_iter()
        .filter(|(name, slot)| !(is_of_the_other_kind(slots, name) && slot.written().is_blank()))
        .map(|(field, slot)| name(spelling, field) + &token(&slot.written(), spelling))
        .collect();
    let indent = "    ".repeat(level);
    format!(
        "{open}\n{indent}    {}{}\n{indent}{close}",
        fields.join(&format!(",\n{indent}    ")),
        end(spelling)
    )
}

pub(crate) fn token(written: &Written<'_>, spelling: Spelling) -> String {
    match (written, spelling) {
        (Written::Blank, Spelling::Ron) => NOT_CHECKED.to_owned(),
        (Written::Blank, Spelling::Json) => "null".to_owned(),
        (Written::Word(word), Spelling::Ron) => (*word).to_owned(),
        (Written::Word(word), Spelling::Json) => quoted(word, spelling),
        (Written::Text(text), _) => quoted(text, spelling),
        (Written::Names(names), _) => {
            let names: Vec<String> = names.iter().map(|name| quoted(name, spelling)).collect();
            format!("[{}]", names.join(", "))
        }
    }
}

fn quoted(text: &str, spelling: Spelling) -> String {
    match spelling {
        Spelling::Ron => bleedwright_network::quoted(text),
        Spelling::Json => quoted_with(text, |c| is_invisible(c).then(|| json_escape(c))),
    }
}
