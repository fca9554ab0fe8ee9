//! `bleedwright readings`: the checks after the work, as a record.

use crate::destination::{Destination, Source};
use crate::exit::{Exit, nothing_written};
use crate::input::{self, Input};
use crate::layout;
use crate::output::Output;
use crate::plan_args::PlanOptions;
use crate::planned::{Planned, planned};
use crate::refusal::{Told, refuse};
use crate::setting::pairs;
use crate::whole_file::Claim;
use anyhow::{Result, bail};
use bleedwright_inspection::{
    HandoverSheet, Record, SetError, judge_record, read_record, reading_names, set_readings,
};
use bleedwright_network::Finding;
use bleedwright_planner::Options;
use bleedwright_report::json::{ReadingsJson, pretty};
use bleedwright_report::{
    Paper, checks_text, readings_html, readings_text, record_of, sheet_verdict,
};
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

const EXAMPLES: &str = "\
Examples:
  bleedwright readings van.ron --for layouts/lapwing.ron
  bleedwright readings van.ron --for layouts/lapwing.ron \
      --with \"--opened 'front left caliper'\"
  bleedwright readings van.ron --names
  bleedwright readings van.ron --set \"pedal free = 150 mm\" \\
      --set \"pedal depressed = 45 mm\" --set \"front left disc = 21.3 mm\"
  bleedwright readings van.ron
  bleedwright readings van.ron --format html -o van.html

Exit codes: 0 the sheet was made, whatever its verdict, which stands in its
first lines; 1 could not run; 2 a name or value that the record does not take;
3 the record, or the layout, has errors. docs/readings.md has all fields.";

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct ReadingsArguments {
    /// The record, in RON or JSON; - judges one from standard input
    record: PathBuf,

    /// Start a blank record for this vehicle; FILE must not exist yet, and
    /// becomes JSON when its name ends in .json
    #[arg(long = "for", value_name = "LAYOUT", conflicts_with_all = ["names", "format", "output"])]
    layout: Option<PathBuf>,

    /// The options of the plan that is worked by, as in "--method pressure";
    /// what that plan leaves to be finished is asked for
    #[arg(
        long,
        value_name = "PLAN OPTIONS",
        requires = "layout",
        allow_hyphen_values = true
    )]
    with: Option<String>,

    /// Enter a value, as in "front left disc = 21.3 mm"; may be given several
    /// times, and then all are entered or none
    #[arg(long, value_name = "NAME = VALUE", conflicts_with_all = ["names", "format", "output"])]
    set: Vec<String>,

    /// List the names that --set knows in this record
    #[arg(long, conflicts_with_all = ["format", "output"])]
    names: bool,

    /// What to make of the record: the judged sheet as text, html or json, or
    /// the record itself as ron or json [default: text]
    #[arg(long, value_enum)]
    format: Option<Format>,

    #[command(flatten)]
    destination: Destination,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Html,
    Json,
    RecordRon,
    RecordJson,
}

pub(crate) fn run(arguments: &ReadingsArguments, output: &mut Output) -> Result<Exit> {
    if let Some(layout) = &arguments.layout {
        return start(arguments, layout, output);
    }
    if !arguments.set.is_empty() {
        return enter(arguments, output);
    }
    let input = input::read(&arguments.record, "record")?;
    let read = read_record(&input.bytes);
    let Some(record) = read.record else {
        let is_json = matches!(arguments.format, Some(Format::Json | Format::RecordJson));
        let (what, told) = ("no sheet was made", Told::json_if(is_json));
        return refuse_record(&input, &read.findings, what, told, output);
    };
    if arguments.names {
        for name in reading_names(&record) {
            output.print(&format!("{name}\n"))?;
        }
        return Ok(Exit::Done);
    }
    let format = arguments.format.unwrap_or(Format::Text);
    let destination = &arguments.destination;
    let sheet = rendered(&record, format, destination.paper(output));
    let source = Source {
        kind: "record",
        paths: vec![&arguments.record],
    };
    destination.put(&sheet, &source, output)?;
    Ok(Exit::Done)
}

fn rendered(record: &Record, format: Format, paper: Paper) -> String {
    match format {
        Format::Text => readings_text(&judge_record(record), paper),
        Format::Html => readings_html(&judge_record(record)),
        Format::Json => pretty(&ReadingsJson::new(&judge_record(record))),
        Format::RecordRon => record.to_ron(),
        Format::RecordJson => record.to_json(),
    }
}

/// Starts a blank record, with values entered where they are given.
fn start(arguments: &ReadingsArguments, layout: &Path, output: &mut Output) -> Result<Exit> {
    let path = &arguments.record;
    refuse_standard_input(path)?;
    // Before the layout is looked at, so that nothing else distracts from it; the writing asks once more.
    if std::fs::symlink_metadata(path).is_ok() {
        let name = path.display();
        bail!("`{name}` exists already and is left as it is; leave out --for to go on with it");
    }
    let options = match &arguments.with {
        Some(set) => PlanOptions::of_set(set, PlanOptions::unused_in_a_record)?,
        None => Options::default(),
    };
    let file = layout::read(layout)?;
    let what = "no record was started";
    let Planned { network, plan } = planned(&file, &options, what, Told::Text, output)?;
    let record = record_of(network, &plan, &options);
    let is_json = path
        .extension()
        .is_some_and(|extension| extension.eq_ignore_ascii_case("json"));
    let blank = if is_json {
        record.to_json()
    } else {
        record.to_ron()
    };
    // What this program writes it must be able to read: a layout may hold two brakes with one name.
    let read = read_record(blank.as_bytes());
    if read.record.is_none() {
        let input = Input {
            name: path.display().to_string(),
            bytes: blank.into_bytes(),
        };
        let what = "no record was started: this layout makes one with errors, as shown; give its \
                    parts other names";
        return refuse_record(&input, &read.findings, what, Told::Text, output);
    }
    let (text, _) = entered(&blank, &arguments.set)?;
    Claim::new(path)?.create(text.as_bytes())?;
    let sheet = read_record(text.as_bytes())
        .record
        .map(|record| judge_record(&record));
    tell(path, "started", sheet.as_ref(), output)?;
    output.say("Enter readings with --set \"NAME = VALUE\"; --names lists the names.")?;
    Ok(Exit::Done)
}

/// Enters values into a record that exists.
fn enter(arguments: &ReadingsArguments, output: &mut Output) -> Result<Exit> {
    let path = &arguments.record;
    refuse_standard_input(path)?;
    if std::fs::metadata(path).is_err() {
        bail!(
            "cannot read `{}`; start a record with --for LAYOUT",
            bleedwright_report::clean(&path.to_string_lossy())
        );
    }
    // Claimed before it is read: of two runs at once the second is refused, and no value is lost.
    let claim = Claim::new(path)?;
    let input = input::read(path, "record")?;
    let read = read_record(&input.bytes);
    let Some(record_before) = read.record else {
        let what = "nothing was entered";
        return refuse_record(&input, &read.findings, what, Told::Text, output);
    };
    let before = String::from_utf8_lossy(&input.bytes);
    let (text, names) = entered(&before, &arguments.set)?;
    let read = read_record(text.as_bytes());
    let Some(record) = read.record else {
        bail!("the record would become too large; nothing was entered");
    };
    claim.replace(text.as_bytes())?;
    output.say(&format!("entered: {}", names.join(", ")))?;
    // A slip of the pen shows at once, while the tool is still in the hand.
    let sheet = judge_record(&record);
    let sheet_before = judge_record(&record_before);
    let changed = sheet
        .checks
        .iter()
        .filter(|check| !sheet_before.checks.contains(check));
    output.print(&checks_text(changed, output.paper()))?;
    tell(path, "written", Some(&sheet), output)?;
    Ok(Exit::Done)
}

fn entered(text: &str, settings: &[String]) -> Result<(String, Vec<String>)> {
    let pairs = pairs(settings, "pedal free = 150 mm")?;
    set_readings(text, &pairs).map_err(|error| nothing_written(told(&error)))
}

fn told(error: &SetError) -> String {
    match error {
        SetError::UnknownName { .. } => {
            format!("{error} (--names lists all of this record)")
        }
        other => other.to_string(),
    }
}

fn tell(path: &Path, what: &str, sheet: Option<&HandoverSheet>, output: &mut Output) -> Result<()> {
    let name = path.to_string_lossy();
    let verdict = sheet.map(sheet_verdict).unwrap_or_default();
    output.say(&format!("{what}: {name}. {verdict}"))
}

fn refuse_standard_input(path: &Path) -> Result<()> {
    if path == Path::new("-") {
        bail!("a record on standard input can only be judged; give the path of a file");
    }
    Ok(())
}

/// Tells what is wrong with a record, and `what` was not done. The file itself is never touched.
fn refuse_record(
    input: &Input,
    findings: &[Finding],
    what: &str,
    told: Told,
    output: &mut Output,
) -> Result<Exit> {
    let source = String::from_utf8_lossy(&input.bytes);
    refuse((&input.name, &source), None, findings, what, told, output)
}
