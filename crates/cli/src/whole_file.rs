//! Files that are written whole or not at all.
//!
//! New content goes into a file beside the target, is brought to the disk, and then takes the target's name in one
//! step. Whoever is interrupted leaves the old content, and at most one such file beside it, which the next run clears.

use crate::interrupt::keep_interrupts_away;
use anyhow::{Context, Result, bail};
use std::ffi::OsString;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::sync::MutexGuard;

/// How often the file beside the target is sought again when others take it away meanwhile.
const MOST_TRIES: usize = 100;

/// The right to write one file, held until it is used or dropped. No second run has it at the same time.
pub(crate) struct Claim {
    target: PathBuf,
    part: PathBuf,
    /// Its lock is what keeps others away; the system frees it, however the program ends.
    file: File,
    is_used: bool,
    /// Dropped last, when nothing half written is left.
    _uninterrupted: MutexGuard<'static, ()>,
}

impl Claim {
    /// Claims a file that exists or not. A link is followed, so that it goes on leading to the file.
    pub(crate) fn new(path: &Path) -> Result<Self> {
        let shown = shown(path);
        let target = followed(path)?;
        let Some(name) = target.file_name() else {
            bail!("`{shown}` is not the name of a file; give the path of a file");
        };
        match fs::metadata(&target) {
            Ok(found) if !found.is_file() => {
                bail!("`{shown}` is not a plain file; nothing was written");
            }
            Ok(found) if found.permissions().readonly() => {
                bail!("`{shown}` is write-protected; nothing was written");
            }
            Ok(_) => {}
            Err(error) if error.kind() == ErrorKind::NotFound => {}
            Err(error) => {
                return Err(error)
                    .context(format!("cannot look at `{shown}`; nothing was written"));
            }
        }
        let mut part_name = OsString::from(".");
        part_name.push(name);
        part_name.push(".part");
        let part = target.with_file_name(part_name);
        let uninterrupted = keep_interrupts_away();
        let file = claim(&part, &shown)?;
        Ok(Self {
            target,
            part,
            file,
            is_used: false,
            _uninterrupted: uninterrupted,
        })
    }

    /// Writes a file that must not exist yet.
    pub(crate) fn create(mut self, content: &[u8]) -> Result<()> {
        self.fill(content)?;
        let exists = || {
            let message = format!(
                "`{}` exists already and is left as it is; choose another name",
                shown(&self.target)
            );
            anyhow::Error::new(io::Error::new(ErrorKind::AlreadyExists, message))
        };
        // A second name for the file, unlike a change of its name, never takes the place of another file.
        match fs::hard_link(&self.part, &self.target) {
            Ok(()) => {}
            Err(error) if error.kind() == ErrorKind::AlreadyExists => return Err(exists()),
            // Some file systems know no second names.
            Err(_) if fs::symlink_metadata(&self.target).is_ok() => return Err(exists()),
            Err(_) => {
                self.rename()?;
                self.is_used = true;
                return self.bring_folder_to_disk();
            }
        }
        self.bring_folder_to_disk()
    }

    /// Writes a file in place of the one that is there, if any. Its permissions are kept.
    pub(crate) fn replace(mut self, content: &[u8]) -> Result<()> {
        self.fill(content)?;
        if let Ok(old) = fs::metadata(&self.target) {
            fs::set_permissions(&self.part, old.permissions())
                .with_context(|| not_written(&self.target))?;
        }
        self.rename()?;
        self.is_used = true;
        self.bring_folder_to_disk()
    }

    fn fill(&mut self, content: &[u8]) -> Result<()> {
        self.file
            .write_all(content)
            .and_then(|()| self.file.sync_all())
            .with_context(|| not_written(&self.target))
    }

    fn rename(&self) -> Result<()> {
        fs::rename(&self.part, &self.target).with_context(|| not_written(&self.target))
    }

    /// A new name is on the disk only when its folder is.
    fn bring_folder_to_disk(&self) -> Result<()> {
        if !cfg!(unix) {
            return Ok(());
        }
        File::open(folder(&self.target))
            .and_then(|folder| folder.sync_all())
            .with_context(|| {
                format!(
                    "`{}` was written, but its folder could not be brought to the disk",
                    shown(&self.target)
                )
            })
    }
}

impl Drop for Claim {
    fn drop(&mut self) {
        if !self.is_used {
            // Nobody is left to tell; the next run clears what stays.
            let _ = fs::remove_file(&self.part);
        }
    }
}

/// Whether a file was not made because one of its name is there.
pub(crate) fn is_taken(error: &anyhow::Error) -> bool {
    let mut causes = error
        .chain()
        .filter_map(|cause| cause.downcast_ref::<io::Error>());
    causes.any(|cause| cause.kind() == ErrorKind::AlreadyExists)
}

fn shown(path: &Path) -> String {
    bleedwright_report::clean(&path.to_string_lossy()).into_owned()
}

fn not_written(path: &Path) -> String {
    format!("cannot write `{}`; it is left as it was", shown(path))
}

fn folder(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// The file that a path means, behind a link where it is one.
fn followed(path: &Path) -> Result<PathBuf> {
    let is_link = fs::symlink_metadata(path).is_ok_and(|found| found.file_type().is_symlink());
    if !is_link {
        return Ok(path.to_owned());
    }
    fs::canonicalize(path).with_context(|| {
        format!(
            "`{}` is a link that leads nowhere; nothing was written",
            shown(path)
        )
    })
}

/// Makes the file beside the target and locks it. One that an interrupted run left is taken away first: it is never
/// written into, for it may by then be another name of the target itself.
fn claim(part: &Path, target: &str) -> Result<File> {
    for _ in 0..MOST_TRIES {
        match OpenOptions::new().write(true).create_new(true).open(part) {
            Ok(file) => {
                if is_locked_by_us(&file, target)? && is_still_at(&file, part) {
                    return Ok(file);
                }
            }
            Err(error) if error.kind() == ErrorKind::AlreadyExists => clear(part, target)?,
            Err(error) => {
                return Err(error).context(format!(
                    "cannot write into the folder of `{target}`; nothing was written"
                ));
            }
        }
    }
    Err(busy(target))
}

fn clear(part: &Path, target: &str) -> Result<()> {
    let gone = |error: &io::Error| error.kind() == ErrorKind::NotFound;
    match fs::symlink_metadata(part) {
        Ok(found) if found.is_file() => {}
        Ok(_) => bail!(
            "`{}` stands in the way and is no file of ours; move it",
            shown(part)
        ),
        Err(error) if gone(&error) => return Ok(()),
        Err(error) => return Err(error).context(format!("cannot look at `{}`", shown(part))),
    }
    let left = match File::open(part) {
        Ok(left) => left,
        Err(error) if gone(&error) => return Ok(()),
        Err(error) => return Err(error).context(format!("cannot clear `{}`", shown(part))),
    };
    if !is_locked_by_us(&left, target)? {
        return Err(busy(target));
    }
    if is_still_at(&left, part) {
        fs::remove_file(part).with_context(|| format!("cannot clear `{}`", shown(part)))?;
    }
    Ok(())
}

fn busy(target: &str) -> anyhow::Error {
    anyhow::anyhow!("`{target}` is being written by another run; try again when that has ended")
}

fn is_locked_by_us(file: &File, target: &str) -> Result<bool> {
    match file.try_lock() {
        Ok(()) => Ok(true),
        Err(TryLockError::WouldBlock) => Ok(false),
        Err(TryLockError::Error(error)) => Err(error).with_context(|| {
            format!("cannot lock the file beside `{target}`; nothing was written")
        }),
    }
}

/// Whether the name still means the opened file: between opening and locking another run may have put it in place.
#[cfg(unix)]
fn is_still_at(file: &File, part: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let same = |a: &fs::Metadata, b: &fs::Metadata| a.dev() == b.dev() && a.ino() == b.ino();
    match (file.metadata(), fs::symlink_metadata(part)) {
        (Ok(opened), Ok(named)) => same(&opened, &named),
        _ => false,
    }
}

/// Other systems do not let a name be taken from a file that is open.
#[cfg(not(unix))]
fn is_still_at(_file: &File, _part: &Path) -> bool {
    true
}
