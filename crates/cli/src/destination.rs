//! Where a sheet goes: to standard output, or into a file that is written whole or not at all.

use crate::output::Output;
use crate::whole_file::{Claim, is_taken};
use anyhow::{Result, bail};
use bleedwright_inspection::read_record;
use bleedwright_network::load;
use bleedwright_report::Paper;
use clap::Args;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};

/// The options of every verb that makes a sheet.
#[derive(Clone, Debug, Args)]
pub(crate) struct Destination {
    /// Write into this file instead of to standard output
    #[arg(short, long, value_name = "OUT")]
    output: Option<PathBuf>,

    /// Let -o write over a file that exists
    #[arg(long, requires = "output")]
    overwrite: bool,
}

/// The files that a sheet was made from, which are never written over.
pub(crate) struct Source<'s> {
    /// What they are, for messages: a record, a layout.
    pub(crate) kind: &'static str,
    /// Their paths, or - for standard input.
    pub(crate) paths: Vec<&'s Path>,
}

impl Source<'_> {
    /// Refuses to write over what was read, by whatever name, and, where that came from elsewhere, over anything that is
    /// as precious.
    pub(crate) fn spare(&self, path: &Path) -> Result<()> {
        if self.paths.iter().any(|source| is_one_file(path, source)) {
            bail!(
                "-o names the {} itself, which is left as it is; choose another name",
                self.kind
            );
        }
        let is_from_elsewhere = self.paths.iter().any(|source| is_standard_input(source));
        if is_from_elsewhere && is_written_by_hand(path) {
            bail!(
                "-o names a layout or a record, and what is read comes from standard input: it is left as it is; choose \
                 another name"
            );
        }
        Ok(())
    }
}

fn is_standard_input(path: &Path) -> bool {
    path == Path::new("-")
}

/// Whether two paths lead to one file: by links, by two names, or by input that was redirected from it.
fn is_one_file(path: &Path, source: &Path) -> bool {
    let source = if is_standard_input(source) {
        Path::new("/dev/stdin")
    } else {
        source
    };
    has_one_place(path, source)
}

#[cfg(unix)]
fn has_one_place(path: &Path, source: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let place = |path: &Path| std::fs::metadata(path).map(|found| (found.dev(), found.ino()));
    matches!((place(path), place(source)), (Ok(one), Ok(other)) if one == other)
}

#[cfg(not(unix))]
fn has_one_place(path: &Path, source: &Path) -> bool {
    let whole = |path: &Path| std::fs::canonicalize(path).ok();
    whole(path).is_some() && whole(path) == whole(source)
}

/// Whether a file reads as a layout or as a record.
fn is_written_by_hand(path: &Path) -> bool {
    let Ok(bytes) = std::fs::read(path) else {
        return false;
    };
    load(&bytes).sound_network().is_some() || read_record(&bytes).record.is_some()
}

impl Destination {
    /// The paper of a text: a file has no colours.
    pub(crate) fn paper(&self, output: &Output) -> Paper {
        Paper::new(output.width(), self.output.is_none() && output.has_colour())
    }

    /// The file that is written, if any.
    pub(crate) fn file(&self) -> Option<&Path> {
        self.output.as_deref()
    }

    /// Whether a sheet would appear on a terminal.
    pub(crate) fn is_terminal(&self) -> bool {
        self.output.is_none() && std::io::stdout().is_terminal()
    }

    /// Brings a sheet to where the user wants it.
    pub(crate) fn put(
        &self,
        sheet: impl AsRef<[u8]>,
        source: &Source<'_>,
        output: &mut Output,
    ) -> Result<()> {
        let sheet = sheet.as_ref();
        let Some(path) = &self.output else {
            return output.write(sheet);
        };
        source.spare(path)?;
        let claim = Claim::new(path)?;
        if self.overwrite {
            claim.replace(sheet)
        } else {
            claim.create(sheet).map_err(|error| {
                if is_taken(&error) {
                    error.context("nothing was written; --overwrite lets -o replace a file")
                } else {
                    error
                }
            })
        }
    }
}
