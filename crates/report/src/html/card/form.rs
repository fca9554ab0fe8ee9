//! The record of the checks as a form.

use super::question::{heading, question};
use crate::clean::clean;
use bleedwright_inspection::record::{FieldKind, FieldUnit, FormField, QuantityField};
use bleedwright_inspection::{Record, record_form};
use bleedwright_network::Fluid;
use maud::{Markup, html};
use serde::Serialize;
use std::collections::BTreeSet;

/// From so many words on they are a list to choose from.
const MANY_WORDS: usize = 5;

/// Texts that may take several lines.
const LONG: [&str; 3] = ["notes", "parts_fitted", "refused"];

/// The fields that are asked for, and the kinds of quantity among them.
pub(super) struct Form {
    fields: Vec<FormField>,
    quantities: Vec<QuantityField>,
}

#[derive(Serialize)]
pub(super) struct QuantityData<'q> {
    least: f64,
    most: f64,
    allowed: &'static str,
    units: Vec<UnitData<'q>>,
}

#[derive(Serialize)]
struct UnitData<'q> {
    names: &'q [&'static str],
    scale: f64,
    zero: f64,
}

impl<'q> QuantityData<'q> {
    pub(super) fn new(quantity: &'q QuantityField) -> Self {
        let unit = |unit: &'q FieldUnit| UnitData {
            names: &unit.names,
            scale: unit.scale,
            zero: unit.zero,
        };
        Self {
            least: quantity.least,
            most: quantity.most,
            allowed: quantity.allowed,
            units: quantity.units.iter().map(unit).collect(),
        }
    }
}

impl Form {
    /// The form of a record. Of the tasks that are ticked elsewhere on the card nobody asks whether they are done.
    pub(super) fn new(record: &Record, ticked: &BTreeSet<usize>) -> Self {
        let is_ticked = |field: &FormField| {
            (field.section, field.field) == ("tasks", "done")
                && field.item.is_some_and(|item| ticked.contains(&item))
        };
        let asked =
            |field: &FormField| question(field.section, field.field).is_some() && !is_ticked(field);
        let fields: Vec<FormField> = record_form(record).into_iter().filter(asked).collect();
        let mut quantities: Vec<QuantityField> = Vec::new();
        for field in &fields {
            if let FieldKind::Quantity(quantity) = &field.kind
                && !quantities.contains(quantity)
            {
                quantities.push(quantity.clone());
            }
        }
        Self { fields, quantities }
    }

    /// Units and what is believable, for the script.
    pub(super) fn quantities(&self) -> String {
        let quantities: Vec<QuantityData<'_>> =
            self.quantities.iter().map(QuantityData::new).collect();
        super::json(&quantities)
    }

    pub(super) fn markup(&self) -> Markup {
        html! {
            section class="readings" aria-labelledby="readings" {
                h2 id="readings" { "Readings" }
                p class="note" {
                    "What is left blank counts as not checked. Go by the figures on the parts and by the maker's manual."
                }
                div class="groups" {
                    @for group in self.fields.chunk_by(|a, b| (a.section, a.item) == (b.section, b.item)) {
                        fieldset data-section=(group[0].section) data-item=[group[0].item] {
                            legend { (heading(group[0].section)) " " (clean(&group[0].owner)) }
                            @for field in group { (self.field(field)) }
                        }
                    }
                }
            }
        }
    }

    /// The unit to begin with. Who torques in lbf ft reads the wrench in them too.
    fn usual_unit(&self, field: &FormField) -> &'static str {
        let FieldKind::Quantity(quantity) = &field.kind else {
            return "";
        };
        let is_alike = |other: &FormField| matches!(&other.kind, FieldKind::Quantity(other) if other.units == quantity.units);
        self.fields
            .iter()
            .filter(|other| (other.section, other.item) == (field.section, field.item))
            .filter(|other| is_alike(other))
            .find_map(|other| parted(&other.value, quantity))
            .map_or(quantity.units[0].names[0], |(_, unit)| unit)
    }

    fn field(&self, field: &FormField) -> Markup {
        let label = question(field.section, field.field).unwrap_or_default();
        let item = field
            .item
            .map_or_else(String::new, |item| format!("{item}-"));
        let id = format!("{}-{item}{}", field.section, field.field);
        let shown = Shown {
            field,
            label,
            id: &id,
        };
        match &field.kind {
            FieldKind::Quantity(quantity) => {
                shown.quantity(quantity, &self.quantities, self.usual_unit(field))
            }
            FieldKind::Words(words) if words.len() < MANY_WORDS => shown.radios(words),
            FieldKind::Words(words) => shown.list(words),
            FieldKind::Day => shown.line("date", 10),
            FieldKind::Text(most) if LONG.contains(&field.field) => shown.lines(*most),
            FieldKind::Text(most) => shown.line("text", *most),
            FieldKind::Kept => html! {},
        }
    }
}

/// One field about to be shown.
struct Shown<'s> {
    field: &'s FormField,
    label: &'static str,
    id: &'s str,
}

impl Shown<'_> {
    fn quantity(&self, quantity: &QuantityField, all: &[QuantityField], usual: &str) -> Markup {
        let nth = all.iter().position(|known| known == quantity);
        let (number, unit) =
            parted(&self.field.value, quantity).unwrap_or((&self.field.value, usual));
        html! {
            div class="field" {
                label for=(self.id) { (self.label) }
                span class="pair" {
                    input id=(self.id) type="text" inputmode="decimal" autocomplete="off" maxlength="60"
                        data-field=(self.field.field) data-name=(self.field.name) data-quantity=[nth]
                        value=(clean(number));
                    select data-unit-of=(self.id) aria-label=(format!("Unit: {}", self.label)) {
                        @for known in &quantity.units {
                            option selected[known.names[0] == unit] { (known.names[0]) }
                        }
                    }
                }
            }
        }
    }

    fn radios(&self, words: &[&str]) -> Markup {
        html! {
            div class="field answers" role="radiogroup" aria-labelledby=(format!("{}-asked", self.id))
                data-field=(self.field.field) data-name=(self.field.name) data-words=(self.id) {
                span class="asked" id=(format!("{}-asked", self.id)) { (self.label) }
                span class="choices" {
                    @for word in words {
                        label {
                            input type="radio" autocomplete="off" name=(self.id) value=(word)
                                checked[*word == self.field.value];
                            span { (spoken(word)) }
                        }
                    }
                    label class="unchecked" {
                        input type="radio" autocomplete="off" name=(self.id) value=""
                            checked[self.field.value.is_empty()];
                        span { "not checked" }
                    }
                }
            }
        }
    }

    fn list(&self, words: &[&str]) -> Markup {
        html! {
            div class="field" {
                label for=(self.id) { (self.label) }
                select id=(self.id) autocomplete="off" data-field=(self.field.field) data-name=(self.field.name) {
                    option value="" selected[self.field.value.is_empty()] { "not checked" }
                    @for word in words {
                        option value=(word) selected[*word == self.field.value] { (spoken(word)) }
                    }
                }
            }
        }
    }

    fn line(&self, kind: &str, most: usize) -> Markup {
        html! {
            div class="field" {
                label for=(self.id) { (self.label) }
                input id=(self.id) type=(kind) autocomplete="off" maxlength=[(kind == "text").then_some(most)]
                    data-field=(self.field.field) data-name=(self.field.name) value=(self.field.value);
            }
        }
    }

    fn lines(&self, most: usize) -> Markup {
        html! {
            div class="field wide" {
                label for=(self.id) { (self.label) }
                textarea id=(self.id) rows="2" autocomplete="off" maxlength=(most)
                    data-field=(self.field.field) data-name=(self.field.name) { (self.field.value) }
            }
        }
    }
}

/// `"6 lbf ft"` as its number and a unit of the list; none where the value is not so plain.
fn parted<'v>(value: &'v str, quantity: &QuantityField) -> Option<(&'v str, &'static str)> {
    let (number, unit) = value.split_once(' ')?;
    let known = quantity.units.iter().find(|known| known.names[0] == unit)?;
    number.parse::<f64>().ok()?;
    Some((number, known.names[0]))
}

/// A word of the file as people say it.
fn spoken(word: &str) -> String {
    let fluid = Fluid::ALL.iter().find(|fluid| fluid.word() == word);
    fluid.map_or_else(|| word.replace('_', " "), |fluid| fluid.text().to_owned())
}
