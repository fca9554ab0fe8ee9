//! Pages for a browser or a printer: one file each, without anything from outside. What comes from a file is escaped by
//! the macro that writes the page.

mod card;
mod lesson;
mod readings;

pub use card::card_html;
pub use lesson::lesson_html;
pub use readings::readings_html;

use crate::clean::clean;
use base64::prelude::{BASE64_STANDARD, Engine};
use maud::{DOCTYPE, Markup, PreEscaped, html};
use sha2::{Digest, Sha256};

/// Black on white with lines and words, so that a page says the same in grey and to whoever sees no colours.
const STYLE: &str = include_str!("html/page.css");

/// The frame of a page: what its head says.
struct Page<'p> {
    /// What it is called.
    title: String,
    /// Its styles, one after the other.
    styles: &'p [&'p str],
    /// Its scripts, which run one after the other once the page stands.
    scripts: &'p [&'p str],
}

impl Page<'_> {
    /// Allows its own styles and scripts by their fingerprints and nothing else.
    fn policy(&self) -> String {
        let prints = |texts: &[&str]| {
            let print =
                |text: &&str| format!(" 'sha256-{}'", BASE64_STANDARD.encode(Sha256::digest(text)));
            texts.iter().map(print).collect::<String>()
        };
        let scripts = match self.scripts {
            [] => String::new(),
            scripts => format!(" script-src{};", prints(scripts)),
        };
        format!(
            "default-src 'none'; style-src{};{scripts} base-uri 'none'; form-action 'none'",
            prints(self.styles)
        )
    }

    /// The whole page.
    fn with(&self, body: &Markup) -> String {
        html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta http-equiv="Content-Security-Policy" content=(self.policy());
                    meta name="referrer" content="no-referrer";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    title { (clean(&self.title)) }
                    @for style in self.styles { style { (PreEscaped(style)) } }
                }
                body {
                    (body)
                    @for script in self.scripts { script { (PreEscaped(script)) } }
                }
            }
        }
        .into_string()
            + "\n"
    }
}
