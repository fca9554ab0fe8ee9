//! Single values of a layout file set anew, in the file itself.

use crate::exit::Exit;
use crate::input::{self, Input};
use crate::output::{Output, complain, complain_at_length};
use crate::whole_file::Claim;
use anyhow::{Result, bail};
use bleedwright_drafting::{Change, EditError, Edited, set_values};
use bleedwright_network::{Finding, load};
use bleedwright_report::{findings_terminal, paragraph};
use std::path::Path;

const NOTHING_WRITTEN: &str = "nothing was written";

/// Sets values, each given as `NAME = VALUE`, in the layout file at `path`: all or none. The file is written whole, and
/// only when something in it changes; a link is followed and permissions are kept.
///
/// Exit codes: done; usage for a name or a value that the layout does not take; layout has errors where it had them
/// before and nothing of that is mended. What could not be read or written is an error.
pub(crate) fn update(path: &Path, settings: &[String], output: &mut Output) -> Result<Exit> {
    if path == Path::new("-") {
        bail!("values are set in a file, not on standard input; give the path of a layout file");
    }
    let pairs = match pairs(settings) {
        Ok(pairs) => pairs,
        Err(message) => return Ok(refuse(&message)),
    };
    if std::fs::metadata(path).is_err() {
        let name = path.to_string_lossy();
        bail!("cannot read `{name}`; give the path of a layout file");
    }
    // Claimed before it is read: of two runs at once the second is refused, and no value is lost.
    let claim = Claim::new(path)?;
    let input = input::read(path, "layout")?;
    let Ok(text) = std::str::from_utf8(&input.bytes) else {
        return Ok(refuse_layout(&input, &load(&input.bytes).findings, output));
    };
    let edited = match set_values(text, &pairs) {
        Ok(edited) => edited,
        Err(error) => return Ok(tell_error(&error, &input, output)),
    };
    let is_changed = edited.text != text;
    if is_changed {
        refuse_if_changed_meanwhile(path, &input)?;
        claim.replace(edited.text.as_bytes())?;
    }
    tell(&edited, is_changed, &input.name, output)?;
    Ok(Exit::Done)
}

fn pairs(settings: &[String]) -> Result<Vec<(&str, &str)>, String> {
    let pair = |setting: &'_ String| match setting.split_once('=') {
        Some(_) => Ok(()),
        None => Err(format!(
            "`{setting}` has no `=`; write it like --set \"rear pipe length = 3.1 m\""
        )),
    };
    settings.iter().try_for_each(pair)?;
    let split = settings
        .iter()
        .filter_map(|setting| setting.split_once('='));
    Ok(split
        .map(|(name, value)| (name.trim(), value.trim()))
        .collect())
}

/// An editor takes no notice of a claim, so what it wrote meanwhile is looked for at the last moment.
fn refuse_if_changed_meanwhile(path: &Path, input: &Input) -> Result<()> {
    if input::read(path, "layout")?.bytes != input.bytes {
        bail!(
            "`{}` was changed by somebody else meanwhile; {NOTHING_WRITTEN}, try again",
            input.name
        );
    }
    Ok(())
}

fn refuse(message: &str) -> Exit {
    complain(message);
    complain(NOTHING_WRITTEN);
    Exit::Usage
}

fn refuse_layout(input: &Input, findings: &[Finding], output: &Output) -> Exit {
    tell_findings(
        findings,
        &input.name,
        &String::from_utf8_lossy(&input.bytes),
        output,
    );
    Exit::LayoutHasErrors
}

fn tell_findings(findings: &[Finding], name: &str, source: &str, output: &Output) {
    complain_at_length(&findings_terminal(
        findings,
        name,
        source,
        output.width(),
        output.has_colour(),
    ));
}

fn tell_error(error: &EditError, input: &Input, output: &Output) -> Exit {
    match error {
        EditError::Unreadable { findings } | EditError::StillUnsound { findings } => {
            let exit = refuse_layout(input, findings, output);
            complain(&error.to_string());
            complain(NOTHING_WRITTEN);
            exit
        }
        EditError::Breaks { findings, text, .. } => {
            let name = format!("{}, as it would be", input.name);
            tell_findings(findings, &name, text, output);
            refuse(&error.to_string())
        }
        other => refuse(&other.to_string()),
    }
}

fn tell(edited: &Edited, is_changed: bool, name: &str, output: &mut Output) -> Result<()> {
    let width = output.width();
    for change in &edited.changes {
        output.print(&paragraph(&told(change), width))?;
        if let Some(left) = left_as_it_is(change) {
            output.print(&paragraph(left, width))?;
        }
    }
    let source = &edited.text;
    if !edited.news.is_empty() {
        let colour = output.has_colour();
        output.print(&findings_terminal(
            &edited.news,
            name,
            source,
            width,
            colour,
        ))?;
    }
    let what = match (is_changed, edited.loaded.has_errors()) {
        (false, _) => "unchanged",
        (true, false) => "written",
        (true, true) => "written; it still has errors, which the verb check shows",
    };
    output.print(&paragraph(&format!("{what}: {name}"), width))
}

fn told(change: &Change) -> String {
    let Change {
        name,
        before,
        after,
    } = change;
    match before {
        Some(before) if before == after => format!("{name} = {after}, as before"),
        Some(before) => format!("{name} = {after} (was {before})"),
        None => format!("{name} = {after} (was not given)"),
    }
}

/// What somebody may expect to change along, and does not.
fn left_as_it_is(change: &Change) -> Option<&'static str> {
    let is_new = change.before.as_ref() != Some(&change.after);
    match change.name.as_str() {
        "steering" if is_new => Some(
            "The pipes keep their lengths and ways: where the cylinder sits on the other side, measure them, \
             or draft the vehicle again.",
        ),
        "split" if is_new => {
            Some("The pipes stay where they are: `split` is only compared with them.")
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::ColorChoice;
    use std::fs;
    use std::path::PathBuf;

    /// A folder of its own for one test, with the Curlew in it.
    fn layout(test: &str) -> PathBuf {
        let folder =
            std::env::temp_dir().join(format!("bleedwright-update-{test}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).expect("the folder for temporary files takes another");
        let path = folder.join("curlew.ron");
        fs::write(&path, include_bytes!("../../../layouts/curlew.ron"))
            .expect("the folder was made for this");
        path
    }

    fn set(path: &Path, settings: &[&str]) -> Result<Exit> {
        let settings: Vec<String> = settings.iter().map(|&setting| setting.to_owned()).collect();
        let mut output = Output::new(ColorChoice::Never, Some(80));
        let exit = update(path, &settings, &mut output);
        output.finish().expect("standard output takes a line");
        exit
    }

    #[test]
    fn a_file_is_written_only_when_something_in_it_changes() {
        let path = layout("written");
        let before = fs::read(&path).expect("just written");
        let when = |path: &Path| {
            let found = fs::metadata(path).expect("just written");
            found.modified().expect("the system keeps times")
        };
        let time = when(&path);
        assert_eq!(set(&path, &["fluid = dot5_1"]).ok(), Some(Exit::Done));
        assert_eq!(when(&path), time);
        assert_eq!(set(&path, &["Fluid=dot4"]).ok(), Some(Exit::Done));
        let after = fs::read_to_string(&path).expect("written by the program");
        let expected = String::from_utf8_lossy(&before).replace("fluid: dot5_1", "fluid: dot4");
        assert_eq!(after, expected);
    }

    #[test]
    fn what_is_refused_leaves_the_file_alone() {
        let path = layout("refused");
        let before = fs::read(&path).expect("just written");
        for (settings, exit) in [
            (["fluid dot4", "steering = left"], Exit::Usage),
            (["flvid = dot4", "steering = left"], Exit::Usage),
            (["front tee height = 20 kg", "steering = left"], Exit::Usage),
            (["steering = left", "fluid = DOT 4"], Exit::Usage),
        ] {
            assert_eq!(set(&path, &settings).ok(), Some(exit), "{settings:?}");
            assert_eq!(fs::read(&path).expect("still there"), before);
        }
        fs::write(&path, "(format: 1").expect("the folder was made for this");
        let exit = set(&path, &["fluid = dot4"]);
        assert_eq!(exit.ok(), Some(Exit::LayoutHasErrors));
        fs::write(&path, b"\xff").expect("the folder was made for this");
        let exit = set(&path, &["fluid = dot4"]);
        assert_eq!(exit.ok(), Some(Exit::LayoutHasErrors));
        assert!(set(Path::new("-"), &["fluid = dot4"]).is_err());
        assert!(set(&path.with_extension("none"), &["fluid = dot4"]).is_err());
        let left = fs::read_dir(path.parent().expect("a folder")).expect("still there");
        assert_eq!(left.count(), 1);
    }

    #[test]
    fn what_a_change_leaves_alone_is_told() {
        let change = |name: &str, before: &str, after: &str| Change {
            name: name.to_owned(),
            before: Some(before.to_owned()),
            after: after.to_owned(),
        };
        assert!(left_as_it_is(&change("steering", "left", "right")).is_some());
        assert!(left_as_it_is(&change("split", "II", "X")).is_some());
        assert!(left_as_it_is(&change("steering", "left", "left")).is_none());
        assert!(left_as_it_is(&change("name", "a", "b")).is_none());
    }

    #[test]
    fn a_change_meanwhile_is_seen() {
        let path = layout("meanwhile");
        let input = input::read(&path, "layout").expect("just written");
        assert!(refuse_if_changed_meanwhile(&path, &input).is_ok());
        fs::write(&path, "()").expect("the folder was made for this");
        assert!(refuse_if_changed_meanwhile(&path, &input).is_err());
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link_and_permissions_stay() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let path = layout("link");
        let link = path.with_file_name("link.ron");
        symlink(&path, &link).expect("the folder was made for this");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).expect("our own file");
        assert_eq!(set(&link, &["fluid = dot4"]).ok(), Some(Exit::Done));
        let is_link = fs::symlink_metadata(&link).is_ok_and(|found| found.is_symlink());
        assert!(is_link);
        let text = fs::read_to_string(&path).expect("written by the program");
        assert!(text.contains("fluid: dot4,"));
        let mode = fs::metadata(&path)
            .expect("still there")
            .permissions()
            .mode();
        assert_eq!(mode & 0o777, 0o640);
    }
}
