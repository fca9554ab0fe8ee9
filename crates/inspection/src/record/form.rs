//! A record as a form: every reading with what may stand in it, for whoever asks for them one by one.

use super::edit::addresses;
use super::slot::{FieldKind, Slots, Written};
use super::{Record, SECTIONS, Section};

/// One reading of a record, and what may stand in it.
#[derive(Clone, Debug, PartialEq)]
pub struct FormField {
    /// Its name, as `--set` knows it.
    pub name: String,
    /// The part of the record, as the file calls it.
    pub section: &'static str,
    /// The item of that part, counted from zero, where the part is a list.
    pub item: Option<usize>,
    /// The name of the item.
    pub owner: String,
    /// The field, as the file calls it.
    pub field: &'static str,
    /// What may stand in it.
    pub kind: FieldKind,
    /// What stands in it; empty where nothing does.
    pub value: String,
}

/// Every reading of a record, in the order of the file.
pub fn record_form(record: &Record) -> Vec<FormField> {
    addresses(record)
        .into_iter()
        .map(|(name, address)| {
            let section = &record.sections()[address.section];
            let slots: &dyn Slots = match (section, address.item) {
                (Section::Many(items), Some(item)) => items[item],
                (Section::Many(items), None) => items[0],
                (Section::One(slots), _) => *slots,
            };
            let slot = slots
                .slot(address.field)
                .expect("the address was made from these fields");
            FormField {
                name,
                section: SECTIONS[address.section].field,
                item: address.item,
                owner: address.item.map_or_else(String::new, |_| slots.name()),
                field: address.field,
                kind: slot.kind(address.field),
                value: match slot.written() {
                    Written::Word(word) => word.to_owned(),
                    Written::Text(text) => text.into_owned(),
                    Written::Blank | Written::Names(_) => String::new(),
                },
            }
        })
        .collect()
}
