//! Where sentences stand: in crate `report`, and where findings, errors, questions and help are made; nowhere else.

use crate::binary::root;
use crate::table::rows;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// A literal of so many words is prose.
const WORDS: usize = 3;

/// The place of words; findings and their help; the questions and comments of a draft; the help of the command line.
const PLACES: &[&str] = &[
    "crates/report/",
    "crates/network/",
    "crates/planner/src/examine",
    "crates/drafting/",
    "crates/cli/",
];

/// What stands before a literal that nobody reads who uses the program, or that is the text of an error.
const UNREAD: &[&str] = &[
    "expect(",
    "#[error(",
    "reason = ",
    "unreachable!(",
    "panic!(",
];

/// Files with prose elsewhere, how many literals, and why.
const EXCEPTIONS: &str = "
crates/drawing/src/schematic/symbol.rs | 2 | titles of an SVG element
crates/drawing/src/svg.rs | 1 | names of typefaces
crates/hydraulics/src/bubble/creep.rs | 1 | what an error is about
crates/hydraulics/src/elastic/hose.rs | 1 | what an error is about
crates/hydraulics/src/elastic/wall.rs | 2 | what an error is about
crates/hydraulics/src/fluid/properties.rs | 2 | what an error is about
crates/hydraulics/src/fluid/walther.rs | 4 | what an error is about
crates/hydraulics/src/stroke/motion.rs | 3 | what an error is about
crates/hydraulics/src/stroke/network.rs | 2 | what an error is about
crates/hydraulics/src/stroke/pocket.rs | 1 | what an error is about
crates/hydraulics/src/stroke/run.rs | 1 | what an error is about
crates/inspection/src/fluid/error.rs | 2 | help of an error
crates/inspection/src/fluid/reading.rs | 3 | help of an error
crates/inspection/src/fluid/subject.rs | 7 | what an error is about
crates/inspection/src/limit.rs | 4 | sources
crates/inspection/src/record/marks.rs | 7 | findings of a record
crates/inspection/src/record/measured.rs | 15 | findings of a record
crates/inspection/src/record/quoted.rs | 4 | findings of a record
crates/inspection/src/record/read.rs | 34 | findings of a record
crates/inspection/src/record/scan.rs | 26 | findings of a record
crates/inspection/src/record/slot.rs | 18 | findings of a record
crates/inspection/src/record/write.rs | 1 | the comment at the head of a record
crates/planner/src/build/mod.rs | 1 | findings
crates/planner/src/build/ordered.rs | 10 | findings
crates/planner/src/heights.rs | 4 | findings
crates/planner/src/kept_full.rs | 6 | findings
crates/planner/src/loaded.rs | 2 | findings
crates/planner/src/order/given.rs | 6 | findings
crates/planner/src/plan/left.rs | 1 | a word of JSON
crates/planner/src/request.rs | 6 | findings
crates/planner/src/request/lookup.rs | 6 | findings
crates/planner/src/request/replaced.rs | 9 | findings
crates/planner/src/scope.rs | 7 | findings
crates/planner/src/volumes.rs | 2 | a size and what it is of
crates/print/src/document.rs | 2 | errors
crates/print/src/sheet/foot.rs | 2 | the foot of a page
";

/// The literals of a source without its comments and tests, each with what stands before it on its line or the one before.
fn literals(source: &str) -> Vec<(&str, &str)> {
    let source = (source.split("#[cfg(test)]\nmod tests {").next()).unwrap_or_default();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(next) = source[at..].find(['"', '/', '\'']) {
        let from = at + next;
        let rest = &source[from..];
        at = if rest.starts_with("//") {
            from + rest.find('\n').unwrap_or(rest.len())
        } else if let Some(inside) = rest.strip_prefix('"') {
            let end = end_of_literal(inside, source[..from].ends_with(['r', '#']));
            found.push((source[..from].trim_end(), &inside[..end]));
            from + 1 + end + 1
        } else if rest.starts_with("'\"'") || rest.starts_with("'\\") {
            from + 2 + rest[2..].find('\'').map_or(0, |end| end + 1)
        } else {
            from + 1
        };
        if at >= source.len() {
            break;
        }
    }
    found
}

/// The place of the mark that ends a literal.
fn end_of_literal(inside: &str, is_raw: bool) -> usize {
    let mut is_escaped = false;
    for (place, letter) in inside.char_indices() {
        match letter {
            _ if is_escaped => is_escaped = false,
            '\\' if !is_raw => is_escaped = true,
            '"' => return place,
            _ => {}
        }
    }
    inside.len()
}

fn is_prose(literal: &str) -> bool {
    // A path, a word of a file or a figure is no word of a sentence.
    let is_word = |word: &&str| {
        let letters = word.trim_matches(|c: char| c.is_ascii_punctuation());
        letters.len() > 1
            && letters
                .chars()
                .all(|c| c.is_alphabetic() || "'-".contains(c))
    };
    literal.split_whitespace().filter(is_word).count() >= WORDS
}

fn count(folder: &Path, into: &mut BTreeMap<String, Vec<String>>) {
    for entry in fs::read_dir(folder).expect("the sources are there") {
        let path = entry.expect("it can be read").path();
        if path.is_dir() {
            count(&path, into);
            continue;
        }
        let name = path.strip_prefix(root()).expect("it is below the root");
        let name = name.to_string_lossy().replace('\\', "/");
        let is_source = path.extension().is_some_and(|end| end == "rs");
        if !is_source || PLACES.iter().any(|place| name.starts_with(place)) {
            continue;
        }
        let source = fs::read_to_string(&path).expect("a source is text");
        let prose = literals(&source).into_iter().filter(|(before, literal)| {
            is_prose(literal) && !UNREAD.iter().any(|it| before.ends_with(it.trim_end()))
        });
        let prose: Vec<String> = prose.map(|(_, literal)| literal.to_owned()).collect();
        if !prose.is_empty() {
            into.insert(name, prose);
        }
    }
}

#[test]
fn no_sentence_stands_below_the_place_of_words() {
    let mut found = BTreeMap::new();
    for entry in fs::read_dir(root().join("crates")).expect("the crates are there") {
        let folder = entry.expect("it can be read").path().join("src");
        count(&folder, &mut found);
    }
    let count = |prose: &Vec<String>| prose.len().to_string();
    let allowed: BTreeMap<&str, &str> = rows(EXCEPTIONS).map(|[file, n, _]| (file, n)).collect();
    let wrong: Vec<String> = (found.iter())
        .filter(|(file, prose)| allowed.get(file.as_str()) != Some(&count(prose).as_str()))
        .map(|(file, prose)| format!("{file}: {} literals\n  {}", prose.len(), prose.join("\n  ")))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let gone = allowed.keys().filter(|file| !found.contains_key(**file));
    assert_eq!(gone.collect::<Vec<_>>(), [&""; 0], "no longer an exception");
}

#[test]
fn prose_is_told_from_names() {
    let source = "let a = \"one two three\"; // \"four five six\"\nb.expect(\"this never fails\");\nlet c = '\"';";
    let found: Vec<&str> = literals(source)
        .into_iter()
        .map(|(_, literal)| literal)
        .collect();
    assert_eq!(found, ["one two three", "this never fails"]);
    assert!(
        is_prose("one two three") && !is_prose("a/b.rs {name}: 3 mm") && !is_prose("load sensing")
    );
}
