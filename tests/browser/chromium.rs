//! One Chromium for all tests, driven over a pipe.

use serde_json::{Value, json};
use std::collections::HashMap;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, OnceLock};
use std::time::Duration;

/// Nothing that is asked of the browser takes longer, on the slowest machine.
const LONGEST: Duration = Duration::from_mins(1);

/// Where messages go: answers by their number, events by their session.
#[derive(Default)]
struct Routes {
    answers: HashMap<u64, Sender<Value>>,
    events: HashMap<String, Vec<Value>>,
}

/// The running browser.
pub(super) struct Chromium {
    /// It ends by itself when its pipe closes, with this process.
    #[expect(dead_code, reason = "held, since a dropped process looks forgotten")]
    process: Child,
    input: Mutex<ChildStdin>,
    routes: Arc<Mutex<Routes>>,
    next: AtomicU64,
    /// The script of the accessibility checker.
    pub(super) axe: String,
}

/// The browser, started once; `None` where there is none and nobody insists on it.
pub(super) fn chromium() -> Option<&'static Chromium> {
    static CHROMIUM: OnceLock<Option<Chromium>> = OnceLock::new();
    CHROMIUM
        .get_or_init(|| match (program(), axe()) {
            (Some(program), Some(axe)) => Some(Chromium::start(&program, axe)),
            (program, _) => {
                let what = if program.is_none() {
                    "Chromium"
                } else {
                    "axe-core"
                };
                let advice = format!("no {what}; tests/browser/prepare.sh gets it");
                let is_required =
                    std::env::var("BLEEDWRIGHT_BROWSER").is_ok_and(|word| word == "required");
                assert!(!is_required, "{advice}");
                // Past what the test runner catches: somebody should see that these tests did not run.
                let _ = writeln!(std::io::stderr(), "SKIPPED: the browser tests: {advice}");
                None
            }
        })
        .as_ref()
}

fn program() -> Option<PathBuf> {
    let names = ["chromium", "chromium-browser", "google-chrome"];
    let folders: Vec<PathBuf> = std::env::split_paths(&std::env::var_os("PATH")?).collect();
    let mut all = names
        .iter()
        .flat_map(|name| folders.iter().map(move |folder| folder.join(name)));
    all.find(|path| path.is_file())
}

fn axe() -> Option<String> {
    let build = Path::new(env!("CARGO_TARGET_TMPDIR")).parent()?;
    std::fs::read_to_string(build.join("browser/axe.min.js")).ok()
}

impl Chromium {
    fn start(program: &Path, axe: String) -> Self {
        let profile = Path::new(env!("CARGO_TARGET_TMPDIR")).join("browser-profile");
        let _ = std::fs::remove_dir_all(&profile);
        // The browser talks on its third and fourth stream; a shell puts our pipes there.
        let mut child = Command::new("sh")
            .args(["-c", r#"exec "$0" "$@" 3<&0 4>&1 0</dev/null 1>/dev/null"#])
            .arg(program)
            .args([
                "--headless=new",
                "--remote-debugging-pipe",
                // The gate may run as root and without room for shared memory.
                "--no-sandbox",
                "--disable-dev-shm-usage",
                "--disable-gpu",
                "--disable-extensions",
                "--disable-background-networking",
                "--disable-component-update",
                "--no-first-run",
                "--hide-scrollbars",
                "--lang=en-GB",
            ])
            .arg(format!("--user-data-dir={}", profile.display()))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("a shell starts the browser");
        let input = child.stdin.take().expect("it was asked for");
        let output = child.stdout.take().expect("it was asked for");
        let routes = Arc::new(Mutex::new(Routes::default()));
        let sorted = Arc::clone(&routes);
        std::thread::spawn(move || sort(output, &sorted));
        Self {
            process: child,
            input: Mutex::new(input),
            routes,
            next: AtomicU64::new(1),
            axe,
        }
    }

    /// Asks the browser, or one tab of it by its session, and waits for the answer.
    pub(super) fn ask(
        &self,
        session: &str,
        method: &str,
        parameters: &Value,
    ) -> Result<Value, String> {
        let id = self.next.fetch_add(1, Ordering::Relaxed);
        let mut message = json!({ "id": id, "method": method, "params": parameters });
        if !session.is_empty() {
            message["sessionId"] = session.into();
        }
        let answer = self.expect(id);
        let mut input = self
            .input
            .lock()
            .expect("no other test died while it wrote");
        let written = input
            .write_all(format!("{message}\0").as_bytes())
            .and_then(|()| input.flush());
        drop(input);
        written.map_err(|error| format!("{method}: the browser is gone: {error}"))?;
        let answer = answer
            .recv_timeout(LONGEST)
            .map_err(|error| format!("{method}: no answer: {error}"))?;
        match answer.get("error") {
            Some(error) => Err(format!("{method}: {error}")),
            None => Ok(answer["result"].clone()),
        }
    }

    fn expect(&self, id: u64) -> Receiver<Value> {
        let (sender, receiver) = channel();
        self.lock().answers.insert(id, sender);
        receiver
    }

    /// What a tab told so far; the browser itself has no session.
    pub(super) fn events(&self, session: &str) -> Vec<Value> {
        self.lock().events.get(session).cloned().unwrap_or_default()
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, Routes> {
        self.routes.lock().expect("sorting messages does not panic")
    }
}

/// Brings every message to where it belongs, until the browser ends. Whoever waits then waits no longer.
fn sort(output: ChildStdout, routes: &Mutex<Routes>) {
    let lock = || {
        routes
            .lock()
            .expect("asking does not panic while it holds this")
    };
    for message in BufReader::new(output).split(0).map_while(Result::ok) {
        let Ok(message) = serde_json::from_slice::<Value>(&message) else {
            continue;
        };
        let mut routes = lock();
        if let Some(id) = message["id"].as_u64() {
            if let Some(sender) = routes.answers.remove(&id) {
                let _ = sender.send(message);
            }
        } else {
            let session = message["sessionId"].as_str().unwrap_or_default().to_owned();
            routes.events.entry(session).or_default().push(message);
        }
    }
    lock().answers.clear();
}
