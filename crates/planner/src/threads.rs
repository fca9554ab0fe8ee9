//! Two jobs at once, where that is possible and saves time.

use std::panic::resume_unwind;
use std::thread;

/// With fewer amounts to work out a thread costs more than it saves.
pub(crate) const WORTH_A_THREAD: usize = 200;

/// Does two jobs at once, or one after the other: where the platform has no
/// threads, where the system gives none, and where they are not worth one.
pub(crate) fn both<A: Send, B: Send>(
    is_worth_a_thread: bool,
    one: impl FnOnce() -> A,
    other: impl Fn() -> B + Sync,
) -> (A, B) {
    if cfg!(target_family = "wasm") || !is_worth_a_thread {
        return (one(), other());
    }
    thread::scope(|scope| {
        let spawned = thread::Builder::new().spawn_scoped(scope, &other);
        let one = one();
        let other = match spawned {
            Ok(thread) => thread.join().unwrap_or_else(|panic| resume_unwind(panic)),
            Err(_) => other(),
        };
        (one, other)
    })
}
