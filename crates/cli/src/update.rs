//! Single values of a layout file set anew, in the file itself.

use crate::exit::{Ended, Exit, nothing_written};
use crate::input::{self, Input};
use crate::output::{Output, complain, complain_at_length};
use crate::setting::pairs;
use crate::whole_file::Claim;
use anyhow::{Error, Result, bail};
use bleedwright_drafting::{Change, EditError, Edited, set_values};
use bleedwright_network::{Finding, load};
use std::path::Path;

/// Sets values, each given as `NAME = VALUE`, in the layout file at `path`: all or none. The file is written whole, and
/// only when something in it changes; a link is followed and permissions are kept.
///
/// Exit codes: done; usage for a name or a value that the layout does not take; layout has errors where it had them
/// before and nothing of that is mended. What could not be read or written is an error.
pub(crate) fn update(path: &Path, settings: &[String], output: &mut Output) -> Result<Exit> {
    if path == Path::new("-") {
        bail!("values are set in a file, not on standard input; give the path of a layout file");
    }
    let pairs = pairs(settings, "rear pipe length = 3.1 m")?;
    if std::fs::metadata(path).is_err() {
        let name = path.to_string_lossy();
        bail!("cannot read `{name}`; give the path of a layout file");
    }
    // Claimed before it is read: of two runs at once the second is refused, and no value is lost.
    let claim = Claim::new(path)?;
    let input = input::read(path, "layout")?;
    let Ok(text) = std::str::from_utf8(&input.bytes) else {
        return Err(refused(&input, &load(&input.bytes).findings, output));
    };
    let edited = set_values(text, &pairs).map_err(|error| not_set(&error, &input, output))?;
    let is_changed = edited.text != text;
    if is_changed {
        refuse_if_changed_meanwhile(path, &input)?;
        claim.replace(edited.text.as_bytes())?;
    }
    tell(&edited, is_changed, &input.name, output)?;
    Ok(Exit::Done)
}

/// An editor takes no notice of a claim, so what it wrote meanwhile is looked for at the last moment.
fn refuse_if_changed_meanwhile(path: &Path, input: &Input) -> Result<()> {
    if input::read(path, "layout")?.bytes != input.bytes {
        bail!(
            "`{}` was changed by somebody else meanwhile; nothing was written, try again",
            input.name
        );
    }
    Ok(())
}

/// Tells the errors that the layout has already.
fn refused(input: &Input, findings: &[Finding], output: &Output) -> Error {
    let source = String::from_utf8_lossy(&input.bytes);
    complain_at_length(&output.findings(findings, &input.name, &source));
    Ended::Told(Exit::LayoutHasErrors).into()
}

fn not_set(error: &EditError, input: &Input, output: &Output) -> Error {
    match error {
        EditError::Unreadable { findings } | EditError::StillUnsound { findings } => {
            let refused = refused(input, findings, output);
            complain(&error.to_string());
            complain("nothing was written");
            return refused;
        }
        EditError::Breaks { findings, text, .. } => {
            let name = format!("{}, as it would be", input.name);
            complain_at_length(&output.findings(findings, &name, text));
        }
        _ => {}
    }
    nothing_written(error)
}

fn tell(edited: &Edited, is_changed: bool, name: &str, output: &mut Output) -> Result<()> {
    for change in &edited.changes {
        output.say(&told(change))?;
        if let Some(left) = left_as_it_is(change) {
            output.say(left)?;
        }
    }
    let news = output.findings(&edited.news, name, &edited.text);
    output.print(&news)?;
    let what = match (is_changed, edited.loaded.has_errors()) {
        (false, _) => "unchanged",
        (true, false) => "written",
        (true, true) => "written; it still has errors, which the verb check shows",
    };
    output.say(&format!("{what}: {name}"))
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
        let exit = update(path, &settings, &mut output)
            .or_else(|error| Ok(error.downcast::<Ended>()?.tell()));
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
