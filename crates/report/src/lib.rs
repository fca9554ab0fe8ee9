//! Plans, findings, volumes and handover sheets as text for people, JSON for programs and pages for a printer.
//!
//! Invariant: a renderer only reads. What it prints was computed before; it
//! rounds, wraps and chooses words.
//!
//! Invariant: no control character of a layout file reaches a terminal, and nothing of a file reaches a page unescaped.
//!
//! Invariant: a page asks nobody for anything. Its policy names its styles and its script by fingerprint; what the script knows
//! of a plan stands in `data-` attributes; nothing in it is written by `innerHTML`.
//!
//! Invariant: a card saves no record that `read_record` refuses, and opens no file that it refuses. What it keeps belongs to
//! one job, and no job is shown, changed or closed before somebody says which it is.
//!
//! Invariant: what a plan leaves to be finished stands in its record as steps and tasks; a blank there is not finished. Where
//! a unit may keep air, the second bleed is among them, and the one hard press comes after it.
//!
//! # Map
//!
//! Words:
//!
//! - `card`: a plan in words, which every sheet is made from: `instruction` is a line to work by with what page 2 adds, `column` what a
//!   hand needs of a `step`; `head`, `heading`, `ready`, `warning`, `before`, `made`, `call`, `done`, `otherwise`, `reason`, `run`, `note`, `height`,
//!   `after`, `second`, `bought`, `caution`
//! - `assumed`, `measure`: what a plan rests on; what is worth measuring
//! - `pedal`: an answer about a pedal: its causes, cautions, and what it rests on
//! - `drawn`: the words of a drawing
//! - `record`: the blank record of a plan's job
//! - `fluid`: the words of a judgement of fluid: of the `car`, the `bottle`, `advice`; its `figure`s
//! - `readings`: the words of a handover sheet: `what` was looked at, `found` and `wanted`, with which `remark`; what is `assumed`
//! - `kept`: the words of what a record keeps beside its checks, and of what is in doubt
//! - `difference`, `lesson`: what changes from one plan to another, in words; a comparison to step through, as plain data
//! - `said`: a sentence in pieces: words, names of the file, figures
//! - `number`, `words`, `clean`: figures as a technician reads them; pieces of sentences; control characters
//!
//! Formats:
//!
//! - `text`: for a terminal or paper, one file for each verb; `paper` for width and colour
//! - `markdown`: a plan; `escape` for what names carry
//! - `html`: the pages and their policy: `card` with its styles, scripts, `form` and each `question`; `readings`; `lesson`
//! - [`json`]: documents for other programs
//! - `finding`, `lines`: findings with their place; where lines of a file begin
//! - `curve`, `travel`: air against strokes as table and picture; travel against force as picture

mod assumed;
mod card;
mod clean;
mod curve;
mod difference;
mod drawn;
mod finding;
mod fluid;
mod html;
pub mod json;
mod kept;
mod lesson;
mod lines;
mod markdown;
mod measure;
mod number;
mod pedal;
mod readings;
mod record;
mod said;
mod text;
mod travel;
mod words;

pub use card::{
    AFTER, AFTER_SECOND, BEFORE, Card, CardIf, CardSecond, CardStep, CardStop, Heading,
    Instruction, KEPT, LOOK_FIRST, Row, Run, SECOND, SIGNED, Titles,
};
pub use clean::clean;
pub use curve::{curve_csv, curve_svg};
pub use drawn::drawn_words;
pub use finding::{findings_plain, findings_terminal};
pub use html::{card_html, lesson_html, readings_html};
pub use lesson::{LessonPedal, LessonSide};
pub use markdown::plan_markdown;
pub use measure::measurement_text;
pub use readings::{check_name, sheet_verdict};
pub use record::record_of;
pub use said::{Piece, Said};
pub use text::{
    Pages, Paper, checks_text, comparison_text, fluid_text, order_text, orders_text, paragraph,
    pedal_text, plan_text, readings_text, simulation_text, volumes_text,
};
pub use travel::travel_svg;
