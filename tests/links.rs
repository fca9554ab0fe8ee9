//! Every link between the pages of the repository leads to a file and, where it names one, to a heading.

use crate::binary::root;
use pulldown_cmark::{Event, Parser, Tag, TagEnd};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn read(page: &Path) -> String {
    fs::read_to_string(page).unwrap_or_else(|error| panic!("{}: {error}", page.display()))
}

fn pages() -> Vec<PathBuf> {
    let folders = [root(), root().join("docs")];
    let entries = folders.iter().flat_map(|folder| {
        let entries = fs::read_dir(folder).expect("the folder can be read");
        entries.map(|entry| entry.expect("the entry can be read").path())
    });
    entries
        .filter(|path| path.extension().is_some_and(|ending| ending == "md"))
        .collect()
}

fn links(text: &str) -> Vec<String> {
    Parser::new(text)
        .filter_map(|event| match event {
            Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) => {
                Some(dest_url.into_string())
            }
            _ => None,
        })
        .collect()
}

/// The names by which headings are linked to: lower case, blanks as hyphens, no other signs.
fn headings(text: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    let mut heading: Option<String> = None;
    for event in Parser::new(text) {
        match event {
            Event::Start(Tag::Heading { .. }) => heading = Some(String::new()),
            Event::End(TagEnd::Heading(_)) => names.extend(heading.take()),
            Event::Text(words) | Event::Code(words) => {
                if let Some(name) = &mut heading {
                    let lower = words.to_lowercase().replace(' ', "-");
                    name.extend(
                        lower
                            .chars()
                            .filter(|sign| sign.is_alphanumeric() || "-_".contains(*sign)),
                    );
                }
            }
            _ => {}
        }
    }
    names
}

#[test]
fn lead_somewhere() {
    let mut followed = 0;
    for page in pages() {
        for link in links(&read(&page)) {
            if link.contains("://") || link.starts_with("mailto:") {
                continue;
            }
            let (path, heading) = link.split_once('#').unwrap_or((&link, ""));
            let target = match path {
                "" => page.clone(),
                _ => page.with_file_name(path),
            };
            let page = page.display();
            assert!(target.exists(), "{page}: {link} leads to no file");
            assert!(
                heading.is_empty() || headings(&read(&target)).contains(heading),
                "{page}: {link} leads to no heading"
            );
            followed += 1;
        }
    }
    assert!(followed >= 50, "only {followed} links were followed");
}
