//! A layout before and after.

use super::splice::Splices;
use super::{Change, at};
use bleedwright_network::{Code, Entry, Finding, Loaded, Locator, PathStep, Presence};
use std::ops::Range;

/// What is found now and was not found before. A finding is the same when it says the same at the same place.
pub(super) fn news(
    text_before: &str,
    before: &Loaded,
    text: &str,
    after: &Loaded,
    splices: &Splices,
) -> Vec<Finding> {
    let locator = Locator::new(text_before);
    let mut known: Vec<(Code, &str, usize)> = before
        .findings
        .iter()
        .map(|finding| {
            let start = splices.follow(start(&locator, finding));
            (finding.code, finding.message.as_str(), start)
        })
        .collect();
    let locator = Locator::new(text);
    let mut news = Vec::new();
    for finding in &after.findings {
        let start = start(&locator, finding);
        let now = (finding.code, finding.message.as_str(), start);
        match known.iter().position(|known| *known == now) {
            Some(at) => {
                known.swap_remove(at);
            }
            None => news.push(finding.clone()),
        }
    }
    news
}

fn start(locator: &Locator<'_>, finding: &Finding) -> usize {
    let range: Option<Range<usize>> = locator.find(&finding.place);
    range.map_or(0, |range| range.start)
}

/// Whether every value is what it was, and the named ones are what was asked for.
pub(super) fn has_changed_only(
    before: &[Entry],
    after: &[Entry],
    named: &[(Vec<PathStep>, String)],
    changes: &[Change],
) -> bool {
    let are_named_set = named.iter().zip(changes).all(|((path, _), change)| {
        at(after, path).and_then(Entry::value) == Some(change.after.as_str())
    });
    let is_named = |entry: &Entry| named.iter().any(|(path, _)| *path == entry.path);
    let others = |entries: &[Entry]| {
        let mut others: Vec<_> = entries
            .iter()
            .filter(|entry| !is_named(entry))
            .map(|entry| {
                let is_written = matches!(entry.standing, Presence::Written { .. });
                let value = entry.value().map(str::to_owned);
                (entry.path.clone(), entry.kind, is_written, value)
            })
            .collect();
        // A field that was not written stands behind others now.
        others.sort_by(|a, b| a.0.cmp(&b.0));
        others
    };
    are_named_set && others(before) == others(after)
}
