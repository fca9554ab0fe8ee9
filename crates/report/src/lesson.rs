//! A comparison to be stepped through, as plain data: what each step of each side flushes, and what is left where.

use crate::card::here_text;
use crate::number::{ml, ml_mark};
use crate::said::Said;
use crate::text::lost_words;
use crate::words::listed;
use bleedwright_drawing::Picture;
use bleedwright_network::{CellId, Element, LinkKind, Network, Owner};
use bleedwright_pedal::{Assessment, Remaining, WheelLeft};
use bleedwright_simulation::{Held, Scene, Side};
use std::collections::BTreeMap;
use uom::si::f64::Volume;
use uom::si::ratio::percent;

/// Up to this share of old fluid an element counts as clean in the picture.
///
/// ASSUMPTION: a tenth; the page says so.
const CLEAN_SHARE: f64 = 0.1;

/// One side of a lesson.
#[derive(Clone, Debug)]
pub struct LessonSide<'s> {
    /// The plan with what following it comes to.
    pub side: &'s Side,
    /// The pipework it was made for.
    pub network: &'s Network,
    /// The pipework as a picture.
    pub picture: Picture,
    /// What each pedal or lever still brakes when one of its circuits is lost.
    pub pedals: Vec<LessonPedal>,
}

/// A pedal or lever with its circuits lost in turn.
#[derive(Clone, Debug)]
pub struct LessonPedal {
    /// Its name.
    pub name: String,
    /// The wheels.
    pub remaining: Vec<Remaining>,
    /// Its travel with each circuit lost, where it was worked out.
    pub assessment: Option<Assessment>,
}

/// What is seen after one step.
pub(crate) struct View {
    /// The step that was done; zero before the first.
    pub(crate) step: usize,
    /// What the step is.
    pub(crate) title: String,
    /// Its work and the reason for its place; none before the first.
    pub(crate) work: Option<(String, Said)>,
    /// What is left in all circuits.
    pub(crate) left: String,
    /// How every line and part of the picture is drawn.
    pub(crate) states: BTreeMap<String, &'static str>,
    /// Every element that holds fluid.
    pub(crate) rows: Vec<Row>,
}

/// One element after a step.
pub(crate) struct Row {
    /// `line` or `part`, as in the picture.
    pub(crate) kind: &'static str,
    /// The name in the layout of what it belongs to, as in the picture.
    pub(crate) owner: String,
    /// Its own name.
    pub(crate) name: String,
    /// Whether fluid of this step passed it.
    pub(crate) is_passed: bool,
    /// Whether it holds neither air nor more than a little old fluid.
    pub(crate) is_clean: bool,
    /// What it holds, the air and the old fluid in it, as printed.
    pub(crate) holds: String,
    pub(crate) air: String,
    pub(crate) old: String,
}

impl LessonSide<'_> {
    /// What is seen before the first step and after each.
    pub(crate) fn views(&self) -> Vec<View> {
        self.side
            .scenes
            .iter()
            .map(|scene| self.view(scene))
            .collect()
    }

    fn view(&self, scene: &Scene) -> View {
        let steps = &self.side.plan.steps;
        let step = scene.step.checked_sub(1).and_then(|nth| steps.get(nth));
        let title = match step {
            None => "Before the first step".to_owned(),
            Some(step) => {
                let names = listed(&step.screws, " + ", |screw| screw.screw.as_str());
                format!("Step {} of {}: {}", step.number, steps.len(), names)
            }
        };
        let work = step.map(|step| {
            let amounts = listed(&step.screws, " + ", |screw| ml_mark(screw.push.nominal));
            let strokes = match step.strokes() {
                Some(strokes) => format!(", {} strokes", strokes.nominal),
                None => String::new(),
            };
            let why = step.why_here.as_ref().map_or_else(Said::default, here_text);
            (format!("{amounts} ml{strokes}"), why)
        });
        let sum = |read: &dyn Fn(&Held) -> Volume| -> Volume { scene.held.iter().map(read).sum() };
        let (all, air) = (sum(&|held| held.volume), sum(&|held| held.air));
        let mut left = format!("Air in the circuits: {} ml of {} ml.", ml(air), ml(all));
        if scene.held.iter().any(|held| held.old.is_some()) {
            let old = sum(&|held| held.old.unwrap_or_default());
            left.push_str(&format!(
                " Old fluid: {} ml, {:.0} %.",
                ml(old),
                (old / all).get::<percent>()
            ));
        }
        let rows: Vec<Row> = scene
            .held
            .iter()
            .map(|held| self.row(scene, held))
            .collect();
        View {
            step: scene.step,
            title,
            work,
            left,
            states: self.states(scene, &rows),
            rows,
        }
    }

    /// The state of every line and part of the picture by kind and name: passed
    /// in this step, clean, or neither. A part is as clean as the worst of its
    /// cavities, and what holds no fluid as clean as what stands before it.
    fn states(&self, scene: &Scene, rows: &[Row]) -> BTreeMap<String, &'static str> {
        let mut states: BTreeMap<String, (bool, bool)> = BTreeMap::new();
        for row in rows {
            let state = states
                .entry(format!("{} {}", row.kind, row.owner))
                .or_insert((false, true));
            state.0 |= row.is_passed;
            state.1 &= row.is_clean;
        }
        let network = self.network;
        for (circuit, _) in network.circuits() {
            for cell in network.cells_of(circuit) {
                let Some((parent, link)) = network.step_to(*cell) else {
                    continue;
                };
                let mut before = self.key(Element::Cell(parent));
                for element in [Element::Link(link), Element::Cell(*cell)] {
                    let key = self.key(element);
                    if !states.contains_key(&key) {
                        let is_clean = states.get(&before).is_some_and(|(_, is_clean)| *is_clean);
                        let is_passed = scene.passed.contains(&element);
                        states.insert(key.clone(), (is_passed, is_clean));
                    }
                    before = key;
                }
            }
        }
        let word = |(is_passed, is_clean)| match (is_passed, is_clean) {
            (true, _) => "passed",
            (false, true) => "clean",
            (false, false) => "old",
        };
        states
            .into_iter()
            .map(|(key, state)| (key, word(state)))
            .collect()
    }

    /// Kind and name of what an element belongs to in the picture.
    fn key(&self, element: Element) -> String {
        let (kind, owner) = self.owner(element);
        format!("{kind} {owner}")
    }

    fn owner(&self, element: Element) -> (&'static str, String) {
        let network = self.network;
        match element {
            Element::Link(link) => match network.link(link).kind {
                LinkKind::Line(index) => ("line", network.layout().lines[index].id.clone()),
                LinkKind::Crossover(part) => ("part", network.layout().parts[part].id.clone()),
            },
            Element::Cell(cell) => ("part", owner_of(network, cell)),
        }
    }

    fn row(&self, scene: &Scene, held: &Held) -> Row {
        let (kind, owner) = self.owner(held.element);
        let old_share = held.old.map(|old| old / held.volume);
        let has_air = ml(held.air) != "0";
        Row {
            kind,
            owner,
            name: self.network.element_name(held.element),
            is_passed: scene.passed.contains(&held.element),
            is_clean: !has_air && old_share.is_none_or(|share| share.value <= CLEAN_SHARE),
            holds: ml(held.volume),
            air: ml(held.air),
            old: old_share.map_or_else(
                || "-".to_owned(),
                |share| format!("{:.0} %", share.get::<percent>()),
            ),
        }
    }
}

fn owner_of(network: &Network, cell: CellId) -> String {
    let layout = network.layout();
    match network.cell(cell).owner {
        Owner::Cylinder(index, _) => layout.cylinders[index].id.clone(),
        Owner::Part(index, _) => layout.parts[index].id.clone(),
    }
}

/// What one lost circuit leaves, as a row of a table.
pub(crate) struct Loss {
    pub(crate) circuit: String,
    pub(crate) whole: String,
    pub(crate) partly: String,
    pub(crate) gone: String,
    pub(crate) pedal: String,
}

impl LessonPedal {
    /// The circuits lost in turn.
    pub(crate) fn losses(&self) -> Vec<Loss> {
        self.remaining
            .iter()
            .map(|remaining| {
                let list = |text: &dyn Fn(&WheelLeft) -> Option<String>| {
                    let found: Vec<String> = remaining.wheels.iter().filter_map(text).collect();
                    if found.is_empty() {
                        "none".to_owned()
                    } else {
                        found.join(", ")
                    }
                };
                let feel = self
                    .assessment
                    .iter()
                    .flat_map(|assessment| &assessment.lost);
                let feel = feel
                    .filter(|(circuit, _)| *circuit == remaining.lost)
                    .map(|(_, feel)| lost_words(feel))
                    .next();
                Loss {
                    circuit: remaining.lost.clone(),
                    whole: list(&|wheel| wheel.is_whole().then(|| wheel.name.clone())),
                    partly: list(&|wheel| {
                        let is_part = !wheel.is_whole() && !wheel.is_gone();
                        is_part.then(|| {
                            format!("{} ({:.0} %)", wheel.name, wheel.share.get::<percent>())
                        })
                    }),
                    gone: list(&|wheel| wheel.is_gone().then(|| wheel.name.clone())),
                    pedal: feel.unwrap_or_else(|| "not worked out".to_owned()),
                }
            })
            .collect()
    }
}
