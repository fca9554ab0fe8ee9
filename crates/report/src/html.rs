//! Pages for a browser or a printer: one file each, without script, without anything from outside. What comes from a
//! file is escaped by the macro that writes the page.

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

/// A whole page.
fn page(title: &str, body: &Markup) -> String {
    let title = clean(title);
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                meta name="referrer" content="no-referrer";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body { (body) }
        }
    }
    .into_string()
        + "\n"
}
