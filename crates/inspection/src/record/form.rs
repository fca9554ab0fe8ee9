//! A record as a form: every reading with what may stand in it, for whoever asks for them one by one.

use super::edit::addresses;
use super::measured::Believable;
use super::slot::{Slots, Written};
use super::{Record, SECTIONS, Section};
use bleedwright_network::Quantity;

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

impl QuantityField {
    pub(super) fn of<Q: Quantity>(believable: &Believable<Q>) -> Self {
        let named = |unit: &&bleedwright_network::Unit<Q>| !unit.names[0].is_empty();
        let units: Vec<_> = Q::units().iter().filter(named).collect();
        let read = units[0].read;
        Self {
            least: read(&believable.least),
            most: read(&believable.most),
            allowed: believable.allowed,
            units: units
                .iter()
                .map(|unit| {
                    let zero = read(&(unit.make)(0.0));
                    FieldUnit {
                        names: unit.names.to_vec(),
                        scale: read(&(unit.make)(1.0)) - zero,
                        zero,
                    }
                })
                .collect(),
        }
    }
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
