//! Ctrl-C: it ends the program at once, but never while a file is being written.

use crate::output::{complain, complain_at_length};
use anyhow::{Context, Result};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// The exit code of a program that SIGINT ended, as shells count it.
const INTERRUPTED: i32 = 130;

/// Held while a file is written, and by Ctrl-C until the program has ended.
static WRITING: Mutex<()> = Mutex::new(());

/// Ends the program with these words on Ctrl-C, also where it was started with interrupts ignored. A file that is being
/// written is finished, which takes no time that anybody waits for.
#[expect(
    clippy::exit,
    reason = "the main thread is at work or waits for an answer, and cannot be told"
)]
pub(crate) fn end_on_interrupt(last_words: &'static str) -> Result<()> {
    ctrlc::set_handler(|| {
        let Ok(_nothing_is_written) = WRITING.try_lock() else {
            return;
        };
        complain_at_length("\n");
        complain(last_words);
        std::process::exit(INTERRUPTED);
    })
    .context("cannot listen for Ctrl-C")
}

/// Keeps Ctrl-C away until it is dropped.
pub(crate) fn keep_interrupts_away() -> MutexGuard<'static, ()> {
    WRITING.lock().unwrap_or_else(PoisonError::into_inner)
}
