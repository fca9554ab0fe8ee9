//! A layout as pieces of text that can be put into any order, with what a test
//! must know about it to check a plan without asking the program.

use super::choices::Choices;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// A layout file in pieces.
#[derive(Clone, Default)]
pub(crate) struct Layout {
    pub(crate) head: String,
    pub(crate) reservoirs: Vec<Holder>,
    pub(crate) cylinders: Vec<Holder>,
    pub(crate) bars: Vec<String>,
    pub(crate) parts: Vec<Holder>,
    pub(crate) lines: Vec<String>,
    pub(crate) known: Known,
}

/// An item of a list that holds a list itself: compartments or screws.
#[derive(Clone, Default)]
pub(crate) struct Holder {
    /// Everything before the list, without the closing bracket.
    pub(crate) text: String,
    pub(crate) list: &'static str,
    pub(crate) items: Vec<String>,
}

/// What the generator knows about its layout.
#[derive(Clone, Default)]
pub(crate) struct Known {
    pub(crate) circuits: Vec<Circuit>,
    pub(crate) screws: Vec<Screw>,
    /// Joints between bodies of fluid, by name.
    pub(crate) joints: Vec<[String; 2]>,
    /// Halves of calipers of which the first must be bled first.
    pub(crate) declared: Vec<[String; 2]>,
    pub(crate) parts: Vec<String>,
    pub(crate) lines: Vec<String>,
    pub(crate) rubber_hoses: Vec<String>,
    pub(crate) compartments: Vec<String>,
    /// For each compartment its contents at the maximum and at the lowest
    /// level allowed.
    pub(crate) levels_ml: BTreeMap<String, [f64; 2]>,
    /// Contents in millilitres that follow from the text by hand: low, nominal
    /// and high of lines given by bore.
    pub(crate) line_contents_ml: BTreeMap<String, [f64; 3]>,
    /// The circuits that each part, line and compartment belongs to.
    pub(crate) circuits_of: BTreeMap<String, BTreeSet<usize>>,
    /// Whether a valve lets nothing back, or not at a syringe's pressure.
    pub(crate) holds_back: bool,
    pub(crate) has_bar: bool,
    pub(crate) has_accumulator: bool,
    pub(crate) fluid: Option<&'static str>,
}

/// A chamber and what hangs on it.
#[derive(Clone)]
pub(crate) struct Circuit {
    pub(crate) name: String,
    pub(crate) root: String,
    /// For a tandem cylinder: whether it is the secondary one.
    pub(crate) tandem: Option<bool>,
    /// What the cylinder's chamber displaces in a whole stroke, at most.
    pub(crate) full_stroke_ml: f64,
}

#[derive(Clone)]
pub(crate) struct Screw {
    pub(crate) id: String,
    pub(crate) body: String,
    pub(crate) circuit: usize,
    pub(crate) wheel: Option<&'static str>,
    pub(crate) level: Option<&'static str>,
    /// A second screw on one cavity, below another one.
    pub(crate) stays_shut: bool,
}

impl Holder {
    fn render(&self) -> String {
        if self.items.is_empty() {
            return format!("({})", self.text);
        }
        format!(
            "({}, {}: [{}])",
            self.text,
            self.list,
            self.items.join(", ")
        )
    }
}

impl Layout {
    pub(crate) fn text(&self) -> String {
        let plain = |list: &[String]| {
            list.iter().fold(String::new(), |mut text, item| {
                text += &format!("        {item},\n");
                text
            })
        };
        let holders = |list: &[Holder]| {
            let items: Vec<String> = list.iter().map(Holder::render).collect();
            plain(&items)
        };
        format!(
            "(\n    format: 1,\n    name: \"Drawn at random\",\n{}    reservoirs: [\n{}    ],\n    \
             cylinders: [\n{}    ],\n    balance_bars: [\n{}    ],\n    parts: [\n{}    ],\n    \
             lines: [\n{}    ],\n)\n",
            self.head,
            holders(&self.reservoirs),
            holders(&self.cylinders),
            plain(&self.bars),
            holders(&self.parts),
            plain(&self.lines),
        )
    }

    /// The same vehicle written down in another order.
    pub(crate) fn shuffled(&self, choices: &mut Choices) -> Self {
        let mut other = self.clone();
        choices.shuffle(&mut other.reservoirs);
        choices.shuffle(&mut other.cylinders);
        choices.shuffle(&mut other.parts);
        choices.shuffle(&mut other.lines);
        for holder in other
            .reservoirs
            .iter_mut()
            .chain(&mut other.cylinders)
            .chain(&mut other.parts)
        {
            choices.shuffle(&mut holder.items);
        }
        other
    }
}

impl Known {
    /// The bodies that a chamber still reaches when one body is taken away.
    pub(crate) fn reached_without(&self, root: &str, removed: Option<&str>) -> BTreeSet<&str> {
        let mut next: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for [a, b] in &self.joints {
            next.entry(a).or_default().push(b);
            next.entry(b).or_default().push(a);
        }
        let mut reached = BTreeSet::new();
        let start = self.joints.iter().flatten().find(|body| *body == root);
        let mut waiting: Vec<&str> = start.map(String::as_str).into_iter().collect();
        while let Some(body) = waiting.pop() {
            if Some(body) == removed || !reached.insert(body) {
                continue;
            }
            waiting.extend(next.get(body).into_iter().flatten());
        }
        reached
    }

    pub(crate) fn screw(&self, id: &str) -> &Screw {
        self.screws
            .iter()
            .find(|screw| screw.id == id)
            .unwrap_or_else(|| panic!("the layout has no screw `{id}`"))
    }
}

impl fmt::Debug for Layout {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "\n{}", self.text())
    }
}
