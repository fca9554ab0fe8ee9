//! The plan as JSON.

use super::certainty::{MeasurementJson, OrderCertaintyJson, measurement};
use super::change::change_name;
use super::fact::{FactJson, with_facts};
use super::remains::{RemainsJson, remains};
use super::rinsing::{RinsingJson, rinsing};
use super::second::{SecondBleedJson, second_bleed};
use super::step::{BubbleJson, StepJson, bubble, step};
use super::{FindingJson, Range, SCHEMA_VERSION, each, ml, range_bar};
use crate::assumed::assumptions;
use crate::card::{
    Card, KEPT, before_text, bled_text, call_lines, caution_text, check_text, order_note,
    otherwise_text, use_text,
};
use crate::measure::{measurable_text, too_much_text};
use crate::said::Said;
use bleedwright_planner as planner;
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;

/// A bleed plan.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PlanJson {
    /// The version of this document.
    pub schema_version: u32,
    /// The vehicle.
    pub vehicle: String,
    /// The layout's remark.
    pub notes: Option<String>,
    /// What tells the vehicle from its like, when it was given.
    pub registration: Option<String>,
    /// The date, when one was given.
    pub date: Option<String>,
    /// `II`, `X`, `HI`, `LL`, `HH`, `single` or `other`.
    pub split: String,
    /// `left`, `right` or `centre`.
    pub steering: Option<String>,
    /// The layout's fluid.
    pub fluid: Option<String>,
    /// The fluid poured in.
    pub new_fluid: Option<String>,
    /// The options the plan was made with.
    pub options: OptionsJson,
    /// Every circuit, whether it is bled, and why.
    pub scope: Vec<ScopeJson>,
    /// What comes before the first screw.
    pub preparations: Vec<PreparationJson>,
    /// What to do when something goes otherwise.
    pub otherwise: Vec<Said>,
    /// The facts of these, one for one.
    pub otherwise_facts: Vec<FactJson>,
    /// Who says and does what at each stroke.
    pub calls: Vec<CallJson>,
    /// What becomes of a long bubble in each line that fluid passes.
    pub bubbles: Vec<BubbleJson>,
    /// How many people it takes.
    pub hands: u8,
    /// The steps in their order.
    pub steps: Vec<StepJson>,
    /// The bleed after the routine of anti-lock units, which stands among the checks as `bleed_again`; null where none is
    /// needed.
    pub second_bleed: Option<SecondBleedJson>,
    /// How often each compartment is rinsed before renewal.
    pub rinsing: Vec<RinsingJson>,
    /// The same job in the other school's order; null where it is the same.
    pub other_order: Option<OtherOrderJson>,
    /// Where a given order departs from the pipework's.
    pub order_notes: Vec<Said>,
    /// The facts of these, one for one.
    pub order_facts: Vec<FactJson>,
    /// Whether the order given breaks a rule of the pipework.
    pub is_unsafe: bool,
    /// Fluid that no screw reaches.
    pub remains: Vec<RemainsJson>,
    /// What to buy.
    pub buy: BuyJson,
    /// What comes after the last screw.
    pub checks_after: Vec<CheckAfterJson>,
    /// What is written down beside the checks.
    pub record: Vec<&'static str>,
    /// What can hurt.
    pub cautions: Vec<Said>,
    /// The facts of these, one for one.
    pub caution_facts: Vec<FactJson>,
    /// What was assumed.
    pub assumptions: Vec<AssumptionJson>,
    /// Where the spread of the contents comes from.
    pub spread: SpreadJson,
    /// Whether lengths within their tolerances could change the order.
    pub order_certainty: OrderCertaintyJson,
    /// What would narrow the fluid to buy most if it were measured, the best
    /// first; behind them what settles the order.
    pub worth_measuring: Vec<MeasurementJson>,
    /// Why nothing is said of what is worth measuring.
    pub worth_left_out: Option<String>,
    /// Everything found in the layout and the options.
    pub findings: Vec<FindingJson>,
}

/// The options of a plan.
#[derive(Debug, Serialize, JsonSchema)]
pub struct OptionsJson {
    /// `renew`, `air` or `fill`.
    pub purpose: String,
    /// How the fluid is driven.
    pub method: String,
    /// `farthest` or `nearest`.
    pub begin: String,
    /// Old share of what leaves at which renewal ends.
    pub residual: f64,
    /// Share of the chamber's stroke that is used.
    pub stroke: f64,
    /// Pressure in the tank by the pressure method.
    pub tank_pressure_bar: Option<Range>,
    /// Temperature of the fluid in degrees Celsius.
    pub temperature_degc: f64,
    /// Parts and lines that were opened.
    pub opened: Vec<String>,
    /// Parts and lines that are new.
    pub replaced: Vec<String>,
    /// Screws finished earlier.
    pub done: Vec<String>,
    /// Whether the vehicle stood for long.
    pub is_laid_up: bool,
}

/// One circuit of the scope.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ScopeJson {
    /// The circuit.
    pub circuit: String,
    /// Whether its screws are opened.
    pub is_bled: bool,
    /// Why.
    pub why: String,
}

/// One preparation.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PreparationJson {
    /// What to do.
    pub text: Said,
    /// Its fact.
    pub fact: FactJson,
    /// What it changes on the vehicle, to be undone; null for nothing.
    pub changes: Option<String>,
}

/// One line of the two-person sequence.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CallJson {
    /// `wheel`, or the pedal or lever.
    pub who: String,
    /// What is called out.
    pub says: String,
    /// What is done.
    pub does: Said,
}

/// The other school's order.
#[derive(Debug, Serialize, JsonSchema)]
pub struct OtherOrderJson {
    /// `farthest` or `nearest`.
    pub begin: String,
    /// What this plan pushes.
    pub this_push_ml: f64,
    /// What the other order would push.
    pub other_push_ml: f64,
}

/// What to buy.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BuyJson {
    /// New fluid drawn, at the high bound of every amount.
    pub needed_ml: f64,
    /// New fluid drawn, at the low bound of every amount.
    pub needed_at_least_ml: f64,
    /// How it is made up.
    pub parts: Vec<BuyPartJson>,
    /// Sealed bottles, largest first.
    pub bottles: Vec<BottleJson>,
    /// What the bottles hold.
    pub bought_ml: f64,
    /// What leaves the screws and what is drawn off the reservoir, together.
    pub catch_ml: f64,
    /// The catch jars, whose marks count what leaves the screws; none by the
    /// reverse method.
    pub jars: Vec<JarJson>,
    /// What a syringe draws off the reservoir, at most. It goes into a can of
    /// its own, never into a jar.
    pub drawn_off_ml: f64,
    /// What a bleed after the routine of units that keep old fluid would take beside all this; null where there is none.
    pub if_routine_ml: Option<f64>,
}

/// A catch jar.
#[derive(Debug, Serialize, JsonSchema)]
pub struct JarJson {
    /// The circuit whose jar it is, where screws of two circuits are open at
    /// once; null where one jar serves all.
    pub circuit: Option<String>,
    /// What leaves the screws into it, at most.
    pub volume_ml: f64,
}

/// A part of what is drawn.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BuyPartJson {
    /// What for.
    pub what: String,
    /// How much.
    pub volume_ml: f64,
}

/// Bottles of one size.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BottleJson {
    /// The size.
    pub size_ml: f64,
    /// How many.
    pub count: u64,
}

/// One check after the last screw.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CheckAfterJson {
    /// What it is about, such as `undo`, `hard_press`, `routine`.
    pub kind: String,
    /// What to do and what is right.
    pub text: Said,
    /// Its fact.
    pub fact: FactJson,
    /// The change it undoes, in the words of the preparation.
    pub undoes: Option<String>,
    /// Whether it is the hard press that shows leaks.
    pub is_hard_press: bool,
}

/// An assumption.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AssumptionJson {
    /// What is assumed.
    pub text: Said,
    /// Its fact.
    pub fact: FactJson,
    /// Of which parts and lines; empty for the method itself.
    pub of: Vec<String>,
}

/// Where the spread of the contents comes from.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SpreadJson {
    /// High minus low, source by source, summed.
    pub total_ml: f64,
    /// Share that comes from assumptions.
    pub assumed_share: f64,
    /// The measurement that would shrink it most.
    pub measure_next: Option<Said>,
    /// By how much.
    pub measure_next_ml: Option<f64>,
}

impl SpreadJson {
    pub(super) fn new(spread: &planner::Spread) -> Self {
        let next = spread.measure_next.as_ref();
        Self {
            total_ml: ml(spread.total),
            assumed_share: spread.assumed_share().get::<ratio>(),
            measure_next: next.map(|source| measurable_text(&source.what)),
            measure_next_ml: next.map(|source| ml(source.volume)),
        }
    }
}

impl PlanJson {
    /// The document for one plan; `source` is the layout's text, for places.
    pub fn new(plan: &planner::Plan, source: &str) -> Self {
        let (head, worth) = (&plan.head, plan.worth.as_ref());
        let otherwise = plan.otherwise.iter();
        let (otherwise, otherwise_facts) =
            with_facts(otherwise.map(|it| (it.into(), otherwise_text(*it).whole())));
        let order_notes = plan.order_notes.iter();
        let (order_notes, order_facts) =
            with_facts(order_notes.map(|it| (it.into(), order_note(it))));
        let cautions = plan.cautions.iter();
        let (cautions, caution_facts) =
            with_facts(cautions.map(|it| (it.into(), caution_text(it).whole())));
        Self {
            schema_version: SCHEMA_VERSION,
            vehicle: head.vehicle.clone(),
            notes: head.notes.clone(),
            registration: head.registration.clone(),
            date: head.date.clone(),
            split: head.split.word().to_owned(),
            steering: head.steering.map(|steering| steering.word().to_owned()),
            fluid: head.fluid.map(|fluid| fluid.word().to_owned()),
            new_fluid: head.new_fluid.map(|fluid| fluid.word().to_owned()),
            options: OptionsJson {
                purpose: head.purpose.word().to_owned(),
                method: head.method.word().to_owned(),
                begin: head.begin.word().to_owned(),
                residual: head.residual.get::<ratio>(),
                stroke: head.stroke.get::<ratio>(),
                tank_pressure_bar: head.tank_pressure.map(range_bar),
                temperature_degc: head.temperature.get::<degree_celsius>(),
                opened: head.opened.clone(),
                replaced: head.replaced.clone(),
                done: head.done.clone(),
                is_laid_up: head.is_laid_up,
            },
            scope: each(&plan.scope, |circuit| ScopeJson {
                circuit: circuit.circuit.clone(),
                is_bled: circuit.is_bled,
                why: bled_text(circuit.why).to_owned(),
            }),
            preparations: each(&plan.preparations, |preparation| {
                let text = before_text(preparation).whole();
                PreparationJson {
                    fact: FactJson::new(preparation.kind(), &text),
                    text,
                    changes: preparation.change().as_ref().map(change_name),
                }
            }),
            otherwise,
            otherwise_facts,
            bubbles: each(&plan.bubbles, bubble),
            hands: plan.hands,
            calls: each(&call_lines(&plan.calls), |call| CallJson {
                who: call.who.to_owned(),
                says: call.says.to_owned(),
                does: call.does.clone(),
            }),
            steps: each(&plan.steps, |it| step(it, plan.head.method)),
            second_bleed: second_bleed(plan, Card::new(plan).second.as_ref()),
            rinsing: each(&plan.rinsing, rinsing),
            other_order: plan.other_order.as_ref().map(|other| OtherOrderJson {
                begin: other.begin.word().to_owned(),
                this_push_ml: ml(other.this_push),
                other_push_ml: ml(other.other_push),
            }),
            order_notes,
            order_facts,
            is_unsafe: plan.is_unsafe_by_options,
            remains: remains(plan),
            buy: buy(plan),
            record: KEPT.concat(),
            checks_after: each(&plan.checks_after, |check| {
                let (kind, text): (&str, _) = (check.into(), check_text(check).whole());
                CheckAfterJson {
                    kind: kind.to_owned(),
                    fact: FactJson::new(kind, &text),
                    text,
                    undoes: check.undoes().map(change_name),
                    is_hard_press: check.is_hard_press(),
                }
            }),
            cautions,
            caution_facts,
            assumptions: each(&assumptions(plan), |told| AssumptionJson {
                text: told.text.clone(),
                fact: FactJson::new(told.kind, &told.text),
                of: told.of.clone(),
            }),
            spread: SpreadJson::new(&plan.spread),
            order_certainty: OrderCertaintyJson::new(&plan.order_certainty),
            worth_measuring: worth
                .map(|worth| each(&worth.measurements, measurement))
                .unwrap_or_default(),
            worth_left_out: match worth {
                Some(worth) => worth
                    .left_out
                    .as_ref()
                    .map(|why| too_much_text(why).to_string()),
                None => Some("not asked for".to_owned()),
            },
            findings: FindingJson::list(&plan.findings, source),
        }
    }
}

fn buy(plan: &planner::Plan) -> BuyJson {
    let buy = &plan.buy;
    let jars = plan.jars().into_iter().map(|jar| JarJson {
        circuit: jar.circuit,
        volume_ml: ml(jar.volume),
    });
    BuyJson {
        jars: jars.collect(),
        drawn_off_ml: ml(plan.drawn_off()),
        needed_ml: ml(buy.needed),
        needed_at_least_ml: ml(buy.needed_at_least),
        parts: each(&buy.parts, |(what, volume)| BuyPartJson {
            what: use_text(*what).to_owned(),
            volume_ml: ml(*volume),
        }),
        bottles: each(&buy.bottles, |(size, count)| BottleJson {
            size_ml: ml(*size),
            count: *count,
        }),
        bought_ml: ml(buy.bought),
        catch_ml: ml(buy.catch),
        if_routine_ml: buy.if_routine.map(ml),
    }
}
