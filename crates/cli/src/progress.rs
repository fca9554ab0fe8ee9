//! How far a long job is: on a terminal, and nowhere else.

use std::io::{IsTerminal, Write, stderr};
use std::time::{Duration, Instant};

/// A job that is done sooner shows nothing, and no line changes faster.
const PAUSE: Duration = Duration::from_millis(300);

/// One line of standard error, taken away when it is dropped.
pub(crate) struct Progress {
    what: &'static str,
    /// When the line is written next; none where nobody sees it.
    next: Option<Instant>,
    columns: usize,
}

impl Progress {
    /// A line such as "3 of 24 orders looked at" for what is `orders looked at`.
    pub(crate) fn new(what: &'static str) -> Self {
        Self {
            what,
            next: stderr().is_terminal().then(|| Instant::now() + PAUSE),
            columns: 0,
        }
    }

    pub(crate) fn show(&mut self, done: usize, of: usize) {
        let now = Instant::now();
        if self.next.is_none_or(|next| now < next) {
            return;
        }
        self.next = Some(now + PAUSE);
        let line = format!("{done} of {of} {}", self.what);
        self.columns = line.len();
        write(&format!("\r{line}"));
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.columns > 0 {
            write(&format!("\r{:1$}\r", "", self.columns));
        }
    }
}

/// Nobody is left to tell when that fails.
fn write(text: &str) {
    let mut screen = stderr().lock();
    let _ = screen.write_all(text.as_bytes());
    let _ = screen.flush();
}
