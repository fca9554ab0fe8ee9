//! Pages for a browser or a printer: one file each, without anything from outside. What comes from a file is escaped by
//! the macro that writes the page.

mod card;
mod readings;

pub use card::card_html;
pub use readings::readings_html;

use crate::clean::clean;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Black on white with lines and words, so that a page says the same in grey and to whoever sees no colours.
const STYLE: &str = include_str!("html/page.css");

/// Allows the one style below by its fingerprint and nothing else.
const POLICY: &str = "default-src 'none'; style-src 'sha256-T6LJKDE1bJPyMqJrXogUJlins5iUsuKXbMtWLt93dB0='; base-uri 'none'; form-action 'none'";

/// The frame of a page: what its head says.
struct Page<'p> {
    /// What it is called.
    title: String,
    /// What it may do: its styles and scripts by their fingerprints.
    policy: &'p str,
    /// Its styles, one after the other.
    styles: &'p [&'p str],
    /// Its script, which runs once the page stands; empty where it has none.
    script: &'p str,
}

impl Page<'_> {
    /// The whole page.
    fn with(&self, body: &Markup) -> String {
        html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta http-equiv="Content-Security-Policy" content=(self.policy);
                    meta name="referrer" content="no-referrer";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    title { (clean(&self.title)) }
                    @for style in self.styles { style { (PreEscaped(style)) } }
                }
                body {
                    (body)
                    @if !self.script.is_empty() { script { (PreEscaped(self.script)) } }
                }
            }
        }
        .into_string()
            + "\n"
    }
}

/// A page of the common style, without script.
fn page(title: &str, body: &Markup) -> String {
    let page = Page {
        title: title.to_owned(),
        policy: POLICY,
        styles: &[STYLE],
        script: "",
    };
    page.with(body)
}
