//! Where a sheet goes: to standard output, or into a file that is written whole or not at all.

use crate::output::Output;
use crate::whole_file::Claim;
use anyhow::{Context, Result, bail};
use bleedwright_report::Paper;
use clap::Args;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};

/// The options of every verb that makes a sheet.
#[derive(Debug, Args)]
pub(crate) struct Destination {
    /// Write into this file instead of to standard output
    #[arg(short, long, value_name = "OUT")]
    output: Option<PathBuf>,

    /// Let -o write over a file that exists
    #[arg(long, requires = "output")]
    overwrite: bool,
}

/// The file that a sheet was made from, which is never written over.
pub(crate) struct Source<'s> {
    /// What it is, for messages: a record, a layout.
    pub(crate) kind: &'static str,
    /// Its path, or - for standard input.
    pub(crate) path: &'s Path,
}

impl Destination {
    /// The paper of a text: a file has no colours.
    pub(crate) fn paper(&self, output: &Output) -> Paper {
        Paper::new(output.width(), self.output.is_none() && output.has_colour())
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
        let whole = |path: &Path| std::fs::canonicalize(path).ok();
        if whole(path).is_some() && whole(path) == whole(source.path) {
            bail!(
                "-o names the {} itself, which is left as it is; choose another name",
                source.kind
            );
        }
        let claim = Claim::new(path)?;
        if self.overwrite {
            claim.replace(sheet)
        } else {
            claim
                .create(sheet)
                .context("nothing was written; --overwrite lets -o replace a file")
        }
    }
}
