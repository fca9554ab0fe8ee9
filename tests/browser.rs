//! The job card in a real browser: what a technician does with it, and what it must not do.
//!
//! One Chromium serves all tests, each in a profile and a tab of its own. It is driven over a pipe with the Chrome
//! `DevTools` Protocol, which closes with this process, so that no browser outlives the tests. Tests wait for what they
//! need and never for a time.

mod chromium;
mod files;
mod hostile;
mod jobs;
mod lesson;
mod looks;
mod paper;
mod policy;
mod rules;
mod tab;
mod work;

use crate::binary::{bleedwright, empty_folder, root};
use crate::command_line::words;
use std::path::{Path, PathBuf};
use tab::Tab;

/// Writes the card of a layout with the program itself.
fn write_card(layout: &Path, options: &str, folder: &Path) -> PathBuf {
    let card = folder.join("card.html");
    let done = bleedwright()
        .arg("plan")
        .arg(layout)
        .args(words(options))
        .args(["--format", "html", "-o"])
        .arg(&card)
        .output()
        .expect("the program runs");
    assert!(
        done.status.success(),
        "{}: {}",
        layout.display(),
        String::from_utf8_lossy(&done.stderr)
    );
    card
}

/// The card of a demo vehicle in a tab, and the folder it lies in; `None` where there is no browser.
fn demo(test: &str, name: &str, options: &str) -> Option<(Tab, PathBuf)> {
    let tab = Tab::new()?;
    let folder = empty_folder(&format!("cards/{test}-{name}"));
    let layout = root().join(format!("layouts/{name}.ron"));
    let card = write_card(&layout, options, &folder);
    tab.open(&card);
    Some((tab, folder))
}

/// One test for each demo vehicle.
macro_rules! for_each_demo {
    ($($name:ident)+) => {
        /// The vehicles that have a test.
        const TESTED: &[&str] = &[$(stringify!($name)),+];
        $(
            mod $name {
                #[test]
                fn looks() {
                    super::looks::check(stringify!($name));
                }

                #[test]
                fn works() {
                    super::work::check(stringify!($name));
                }

                #[test]
                fn prints() {
                    super::paper::check(stringify!($name));
                }
            }
        )+
    };
}
for_each_demo! { avocet curlew dunlin godwit lapwing plover redshank ruff turnstone whimbrel }

#[test]
fn every_demo_is_tested() {
    assert_eq!(TESTED, crate::demo::ALL);
}
