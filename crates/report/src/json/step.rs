//! The steps of a plan as JSON.

use super::fact::{FactJson, with_facts};
use super::height::{HeightJson, height, verdict};
use super::level::{LevelRuleJson, LevelStopJson, level_rule, level_stops, ml_of, strokes_of};
use super::{Range, each, ml, range, range_bar, range_m, range_ml, range_mm, range_of};
use crate::card::{after_text, height_reason, here_text, told_notes as notes};
use crate::said::Said;
use bleedwright_network::Bounds;
use bleedwright_planner::{self as planner, AtLeast, Drive, LeastFrom, LevelAction, Method};
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::velocity::millimeter_per_second;
use uom::si::volume_rate::milliliter_per_second;

/// One step.
#[derive(Debug, Serialize, JsonSchema)]
pub struct StepJson {
    /// Counted from one.
    pub number: usize,
    /// The screws opened, each with its own amounts.
    pub screws: Vec<ScrewJson>,
    /// What goes into the jars: the sum of the screws' amounts.
    pub push_ml: Range,
    /// What plug flow would need: a comparison, not a bound.
    pub plug_ml: f64,
    /// What the runs hold.
    pub contents_ml: ContentsJson,
    /// Old share of what leaves at the end, the larger one of two screws.
    pub old_fraction_out: Option<f64>,
    /// Pedal strokes; null where no pedal drives the fluid.
    pub strokes: Option<StrokesJson>,
    /// Travel at the pedal or lever to its block; null where no pedal drives
    /// the fluid, or where the block stands at the firm pedal. All three
    /// figures are those of the block.
    pub pedal_mm: Option<Range>,
    /// What one stroke brings through the open screws; the low bound is a least amount. Null where no pedal drives the fluid.
    pub stroke_ml: Option<Range>,
    /// What the circuit that stays shut takes up of each stroke; null where no pedal drives the fluid.
    pub taken_up_ml: Option<Range>,
    /// How long the pedal is held before the screw is shut; null where no pedal drives the fluid.
    pub hold_s: Option<f64>,
    /// Whether the block stands where the pedal was firm before the work,
    /// since no travel is known that is safe.
    pub is_block_at_firm_pedal: bool,
    /// The steady flow; null where strokes drive the fluid.
    pub flow: Option<FlowJson>,
    /// What is drawn back at the end by the reverse method; null elsewhere.
    pub draw_back_ml: Option<f64>,
    /// How long the step takes in seconds, without the walk from wheel to
    /// wheel. The high bound is null where the fluid may not flow at all.
    pub time_s: TimeJson,
    /// How often to see to each compartment that needs it.
    pub level_rules: Vec<LevelRuleJson>,
    /// Stops for topping up, up to the amount at which the step is given up.
    pub top_up_after: Vec<LevelStopJson>,
    /// Stops for drawing off what came back: the reverse method.
    pub draw_off_after: Vec<LevelStopJson>,
    /// When the step is finished.
    pub stop_rule: StopRuleJson,
    /// What the jars hold after this step, all steps together, as the sheet counts it: the sum of their marks.
    pub jar_mark_ml: u64,
    /// The jar of each screw, in whole millilitres, as its marks are read.
    pub jars: Vec<JarMarkJson>,
    /// Why this screw stands here, and why after the one before.
    pub reasons: Vec<Said>,
    /// The facts of these, one for one.
    pub reason_facts: Vec<FactJson>,
    /// What heights mean here.
    pub heights: Vec<HeightJson>,
    /// Anything else worth saying at this wheel.
    pub notes: Vec<Said>,
    /// The facts of these, one for one.
    pub note_facts: Vec<FactJson>,
}

/// The jar of a screw in one step.
#[derive(Debug, Serialize, JsonSchema)]
pub struct JarMarkJson {
    /// The screw that fills it.
    pub screw: String,
    /// The circuit whose jar it is; null where one jar serves all.
    pub circuit: Option<String>,
    /// What to push into it.
    pub push_ml: u64,
    /// What it holds afterwards.
    pub mark_ml: u64,
    /// The mark at which to stop and look for the cause.
    pub stop_ml: u64,
    /// Whether it is emptied before this step, since it could not hold that much; its marks count from zero again.
    pub is_emptied: bool,
}

/// One screw of a step.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ScrewJson {
    /// The screw.
    pub screw: String,
    /// The part it sits on.
    pub part: String,
    /// The wheel.
    pub wheel: Option<String>,
    /// The circuit.
    pub circuit: String,
    /// Length of the run.
    pub run_length_m: f64,
    /// The same with its tolerance.
    pub run_length_range_m: Range,
    /// What is pushed through it.
    pub push_ml: Range,
    /// What plug flow would need.
    pub plug_ml: f64,
    /// What must be pushed whatever came before, at the upper corner of the
    /// tolerances, because a joint on its run was opened; null where none asks.
    pub at_least_ml: Option<f64>,
    /// The joint that asks for it.
    pub at_least_joint: Option<OpenedJointJson>,
    /// What its run holds.
    pub contents_ml: ContentsJson,
    /// Old share of what leaves at the end.
    pub old_fraction_out: Option<f64>,
    /// Old share of what stays on its run, chamber and brake included. The highest is without diffusion and with dead
    /// corners in the brake.
    pub old_fraction_left: Option<Range>,
    /// What decided the push where earlier screws used a part of the run: `kept` (streamlines keep their fluid) or
    /// `mixed` (the flow mixes at the joints), whichever asks for more.
    pub joints: Option<&'static str>,
    /// Spanner size as the layout writes it.
    pub spanner: Option<String>,
    /// Torque as the layout writes it.
    pub torque: Option<String>,
}

/// The end of a line where the system was opened.
#[derive(Debug, Serialize, JsonSchema)]
pub struct OpenedJointJson {
    /// The part, line or cylinder that was opened.
    pub opened: String,
    /// The line.
    pub line: String,
    /// The part, or the chamber of one, that this end of the line is at.
    pub at: String,
    /// Where the way that is pushed through begins: `joint`, `high_point`,
    /// `swept` (where an earlier step had pushed to) or `screw` (by the reverse
    /// method, up to the reservoir).
    pub from: String,
    /// The part or line that is the high point; null elsewhere.
    pub high_point: Option<String>,
}

/// The contents of a run in millilitres, whatever was flushed before.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ContentsJson {
    /// Pipes that other screws use too.
    pub shared: f64,
    /// Pipes of this screw alone.
    pub own: f64,
    /// Brake cavities.
    pub cavities: f64,
}

/// What becomes of a long bubble in a line.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BubbleJson {
    /// The line.
    pub line: String,
    /// `stuck`, `borderline` or `climbs`, where the fluid rests.
    pub verdict: &'static str,
    /// How fast it climbs in an upright pipe.
    pub rise_mm_per_s: f64,
    /// How fast the fluid moves on the average, rests included.
    pub flow_mm_per_s: f64,
    /// Whether it leaves with the fluid.
    pub is_carried: bool,
    /// Whether the layout says how the line leads.
    pub are_heights_known: bool,
}

/// A number of strokes.
#[derive(Debug, Serialize, JsonSchema)]
pub struct StrokesJson {
    /// Least amount at the largest displacement.
    pub low: u64,
    /// What it will most likely take: the nominal amount at the nominal displacement.
    pub expected: u64,
    /// What to count to: the nominal amount at the least that the piston displaces, the shut circuit taking up what it nominally does.
    pub nominal: u64,
    /// Largest amount at the least that a stroke brings, at a twentieth of a full one where it may be less.
    pub high: u64,
}

/// A flow that lasts while the screw is open.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FlowJson {
    /// The pressure difference that drives it, heights included.
    pub pressure_bar: Range,
    /// What flows, in millilitres a second.
    pub flow_ml_per_s: Range,
    /// The largest Reynolds number on the run at the largest flow; the model
    /// holds up to about 2000.
    pub reynolds: f64,
}

/// A time with its bounds.
#[derive(Debug, Serialize, JsonSchema)]
pub struct TimeJson {
    /// Least amount at the fastest.
    pub low: f64,
    /// Nominal amount at the nominal speed.
    pub nominal: f64,
    /// Largest amount at the slowest; null where it may not flow at all.
    pub high: Option<f64>,
}

/// When a step is finished.
#[derive(Debug, Serialize, JsonSchema)]
pub struct StopRuleJson {
    /// At least this much in the jar.
    pub at_least_ml: f64,
    /// Clear during this many last strokes.
    pub clear_strokes: Option<u64>,
    /// Clear during the last of it, where no strokes are counted.
    pub clear_ml: Option<f64>,
    /// Beyond this, stop and look for the cause.
    pub give_up_ml: f64,
}

/// Why this screw stands here, and why after the one before.
fn reasons(step: &planner::Step) -> Vec<(&'static str, Said)> {
    let here = match &step.why_here {
        Some(why) => (why.into(), here_text(why)),
        None => ("none", Said::default()),
    };
    let after = step.after_previous.as_ref();
    let after = after.map(|why| (why.into(), after_text(why)));
    let heights = step.heights.iter();
    let heights = heights.filter_map(|it| Some((it.into(), height_reason(it)?)));
    std::iter::once(here).chain(after).chain(heights).collect()
}

pub(super) fn step(step: &planner::Step, method: Method) -> StepJson {
    let screws: Vec<ScrewJson> = each(&step.screws, screw);
    let of_strokes = match step.drive {
        Drive::Strokes {
            brought,
            taken_up,
            hold,
            ..
        } => Some((brought, taken_up, hold)),
        Drive::Steady { .. } => None,
    };
    let sum = |part: fn(&ScrewJson) -> f64| screws.iter().map(part).sum::<f64>() + 0.0;
    let (reasons, reason_facts) = with_facts(reasons(step));
    let (notes, note_facts) = with_facts(notes(step, method));
    StepJson {
        number: step.number,
        push_ml: range_ml(step.push),
        plug_ml: sum(|screw| screw.plug_ml),
        contents_ml: ContentsJson {
            shared: sum(|screw| screw.contents_ml.shared),
            own: sum(|screw| screw.contents_ml.own),
            cavities: sum(|screw| screw.contents_ml.cavities),
        },
        old_fraction_out: screws
            .iter()
            .filter_map(|screw| screw.old_fraction_out)
            .reduce(f64::max),
        screws,
        strokes: step.strokes().map(|strokes| StrokesJson {
            low: strokes.low,
            expected: strokes.expected,
            nominal: strokes.nominal,
            high: strokes.high,
        }),
        pedal_mm: step.pedal_travel().map(Bounds::exact).map(range_mm),
        is_block_at_firm_pedal: step.block() == Some(planner::Block::FirmPedal),
        stroke_ml: of_strokes.map(|(brought, _, _)| range_ml(brought)),
        taken_up_ml: of_strokes.map(|(_, taken_up, _)| range_ml(taken_up)),
        hold_s: of_strokes.map(|(_, _, hold)| hold.get::<second>()),
        flow: flow(step.drive),
        draw_back_ml: step.draw_back.map(ml),
        time_s: TimeJson {
            low: step.time.low.get::<second>(),
            nominal: step.time.nominal.get::<second>(),
            high: Some(step.time.high.get::<second>()).filter(|high| high.is_finite()),
        },
        level_rules: each(&step.level_rules, level_rule),
        top_up_after: level_stops(step, LevelAction::TopUp),
        draw_off_after: level_stops(step, LevelAction::DrawOff),
        stop_rule: StopRuleJson {
            at_least_ml: ml(step.stop_rule.at_least),
            clear_strokes: strokes_of(step.stop_rule.clear),
            clear_ml: ml_of(step.stop_rule.clear),
            give_up_ml: ml(step.stop_rule.give_up),
        },
        jar_mark_ml: step.jar_mark_ml,
        jars: each(&step.jars, |jar| JarMarkJson {
            screw: jar.screw.clone(),
            circuit: jar.circuit.clone(),
            push_ml: jar.push_ml,
            mark_ml: jar.mark_ml,
            stop_ml: jar.stop_ml,
            is_emptied: jar.is_emptied,
        }),
        reasons,
        reason_facts,
        heights: each(&step.heights, height),
        notes,
        note_facts,
    }
}

pub(super) fn bubble(bubble: &planner::LineBubble) -> BubbleJson {
    BubbleJson {
        line: bubble.line.clone(),
        verdict: verdict(bubble.verdict),
        rise_mm_per_s: bubble.rise.get::<millimeter_per_second>(),
        flow_mm_per_s: bubble.flow.get::<millimeter_per_second>(),
        is_carried: bubble.is_carried,
        are_heights_known: bubble.are_heights_known,
    }
}

fn flow(drive: Drive) -> Option<FlowJson> {
    let Drive::Steady {
        pressure,
        flow,
        reynolds,
    } = drive
    else {
        return None;
    };
    Some(FlowJson {
        pressure_bar: range_bar(pressure),
        flow_ml_per_s: range(flow, |flow| flow.get::<milliliter_per_second>()),
        reynolds,
    })
}

fn opened_joint(least: &AtLeast) -> OpenedJointJson {
    let (from, high_point) = match &least.from {
        LeastFrom::Joint => ("joint", None),
        LeastFrom::HighPoint(name) => ("high_point", Some(name.clone())),
        LeastFrom::Swept => ("swept", None),
        LeastFrom::Screw => ("screw", None),
    };
    OpenedJointJson {
        opened: least.joint.opened.clone(),
        line: least.joint.line.clone(),
        at: least.joint.at.clone(),
        from: from.to_owned(),
        high_point,
    }
}

fn screw(screw: &planner::StepScrew) -> ScrewJson {
    let length = range_m(screw.run_length);
    ScrewJson {
        screw: screw.screw.clone(),
        part: screw.part.clone(),
        wheel: screw.wheel.map(|wheel| wheel.word().to_owned()),
        circuit: screw.circuit.clone(),
        run_length_m: length.nominal,
        run_length_range_m: length,
        push_ml: range_ml(screw.push),
        plug_ml: ml(screw.plug),
        at_least_ml: (screw.at_least.as_ref()).map(|least| ml(least.volume)),
        at_least_joint: screw.at_least.as_ref().map(opened_joint),
        contents_ml: ContentsJson {
            shared: ml(screw.contents.shared.nominal),
            own: ml(screw.contents.own.nominal),
            cavities: ml(screw.contents.cavities.nominal),
        },
        old_fraction_out: screw.old_fraction_out.map(|old| old.get::<ratio>()),
        old_fraction_left: screw.old_left.map(range_of),
        joints: screw.joints.map(|joints| match joints {
            planner::JointRule::Kept => "kept",
            planner::JointRule::Mixed => "mixed",
        }),
        spanner: screw.spanner.clone(),
        torque: screw.torque.clone(),
    }
}
