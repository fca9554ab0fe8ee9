//! The printed sheet: its length, its width, its colour.

use super::{printed, run, words};
use crate::binary::bleedwright;
use crate::demo::{ALL, demo_text};
use std::io::{BufRead, BufReader, Read};
use std::process::Stdio;
use std::sync::LazyLock;

fn plan(name: &str, more: &str) -> String {
    printed(&format!("plan layouts/{name}.ron {more}"))
}

fn columns(line: &str) -> usize {
    line.chars().count()
}

/// A page has 66 lines of 80 columns (six lines to the inch on 11 in paper); so many hold the first page of four screws, and
/// two more each further one. A warning, the layout's remark, and what a step has to say beside its figures come on top.
const PAGE: usize = 66;

/// What a vehicle has beside plain brakes takes lines of its own: what is tied, held, tilted or plugged, a unit and its
/// routine, a clutch, several controls, names that fill a line.
const BESIDES: [(&str, usize); 5] = [
    ("curlew", 4),
    ("godwit", 7),
    ("redshank", 2),
    ("ruff", 15),
    ("turnstone", 7),
];

const PURPOSES: [&str; 3] = ["renew", "air", "fill"];
const METHODS: [&str; 5] = ["pedal", "pressure", "vacuum", "gravity", "reverse"];

/// The widths of a sheet, and of what a pocket holds.
const WIDTHS: [usize; 2] = [44, 80];

/// The first page of every demo for every purpose and by every method that it allows, with its call, at each of these widths.
static FIRST_PAGES: LazyLock<[Vec<(String, String)>; 2]> = LazyLock::new(|| {
    WIDTHS.map(|width| {
        let jobs = PURPOSES
            .iter()
            .flat_map(|it| METHODS.map(|method| (it, method)));
        let jobs = ALL
            .iter()
            .flat_map(|name| jobs.clone().map(move |job| (name, job)));
        let pages = jobs.filter_map(|(name, (purpose, method))| {
            let call = format!("plan layouts/{name}.ron --for {purpose} --method {method}");
            let page = run(&format!("{call} --width {width}"));
            (page.code == Some(0)).then_some((call, page.stdout))
        });
        let pages: Vec<_> = pages.collect();
        assert!(pages.len() > 100, "{} pages", pages.len());
        pages
    })
});

/// Lines without those that begin with `mark`, nor what goes on from them.
fn without<'p>(page: &'p str, mark: &str) -> Vec<&'p str> {
    let mut is_left_out = false;
    let mut lines = Vec::new();
    for line in page.lines() {
        let indent = line.len() - line.trim_start().len();
        is_left_out = line.trim_start().starts_with(mark) || (is_left_out && indent > 1);
        if !is_left_out {
            lines.push(line);
        }
    }
    lines
}

#[test]
fn four_screws_fill_a_page() {
    for name in ALL {
        let page = plan(name, "--width 80");
        let rest = without(&page, "! ").join("\n");
        let lines = without(&rest, "- ");
        let screws = lines
            .iter()
            .filter(|line| line.contains("came out ____ ml"))
            .count();
        let remark = demo_text(name).contains("notes:");
        let besides = BESIDES.iter().find(|(it, _)| *it == name);
        let besides = besides.map_or(0, |(_, lines)| *lines);
        let most = PAGE + 2 * (screws - 4) + besides + 2 * usize::from(remark);
        assert!(
            lines.len() <= most,
            "{name}: {} lines, allowed {most}",
            lines.len()
        );
    }
}

/// Every figure that a hand needs stands in a column, which has its name; no line is cut.
#[test]
fn the_first_page_has_its_columns_and_keeps_its_width() {
    for (width, pages) in WIDTHS.into_iter().zip(&*FIRST_PAGES) {
        for (call, page) in pages {
            let by_pedal = call.ends_with("pedal");
            let is_reverse = call.ends_with("reverse");
            let effort = if by_pedal { "STROKES" } else { "MINUTES" };
            let jar = if is_reverse { "SO FAR" } else { "ZERO" };
            for title in [effort, jar, "STOP, LOOK", "DONE when the ml are out AND"] {
                let squeezed = page.split_whitespace().collect::<Vec<_>>().join(" ");
                assert!(squeezed.contains(title), "{call}: {title}\n{page}");
            }
            for line in page.lines() {
                assert!(columns(line) <= width, "{call} at {width}: {line}");
            }
        }
    }
}

/// Words of whoever planned it, not of whoever bleeds.
#[test]
fn the_first_page_has_no_words_of_the_second() {
    for (call, page) in &FIRST_PAGES[1] {
        let page = without(page, "! ").join(" ");
        let words = page.split_whitespace().collect::<Vec<_>>().join(" ");
        for word in [
            "shared",
            "cavity",
            "old stays",
            "give up",
            "of the spread",
            "plug flow",
            "`",
        ] {
            assert!(!words.contains(word), "{call}: {word}\n{words}");
        }
        let tenths = words.split(" ml").filter(|before| {
            let figure = before.rsplit(' ').next().unwrap_or_default();
            figure.contains('.') && figure.parse::<f64>().is_ok()
        });
        assert_eq!(tenths.collect::<Vec<_>>(), [""; 0], "{call}");
    }
}

/// No line is too wide that could have been broken.
#[test]
fn narrow_paper_is_kept_to() {
    let of_layouts =
        ["plan", "volumes"].map(|verb| ALL.map(|name| format!("{verb} layouts/{name}.ron")));
    let others = [
        "fluid --grade dot4 --moisture '4 %' --bottle-moisture '1 %'",
        "pedal layouts/lapwing.ron",
        "pedal layouts/curlew.ron --bore '0.7 in + 13/16 in'",
        "pedal layouts/plover.ron --symptom low",
        "pedal layouts/lapwing.ron --booster running --measured '300 N: 120 mm' --pumped '300 N: 110 mm'",
    ];
    let others = others.map(str::to_owned);
    for call in of_layouts.iter().flatten().chain(&others) {
        for width in [24, 40, 60, 80] {
            let text = printed(&format!("{call} --width {width}"));
            let is_too_wide =
                |line: &&str| columns(line) > width && line.split_whitespace().nth(1).is_some();
            let wide: Vec<&str> = text.lines().filter(is_too_wide).collect();
            assert!(wide.is_empty(), "{call} at {width}: {wide:#?}");
        }
    }
}

/// No line ends in spaces and the text ends with one line feed.
#[test]
fn lines_end_cleanly() {
    for name in ALL {
        let text = plan(name, "");
        for line in text.lines() {
            assert_eq!(line, line.trim_end(), "{name}");
        }
        assert!(text.ends_with('\n') && !text.ends_with("\n\n"), "{name}");
    }
}

#[test]
fn colour_only_where_it_is_wanted() {
    let calls = [
        "plan layouts/lapwing.ron",
        "check tests/layouts/broken/bore_in_metres.ron",
        "volumes tests/layouts/broken/bore_in_metres.ron",
    ];
    for call in calls {
        let with = |more: &str, no_color: Option<&str>| {
            let mut command = bleedwright();
            command.args(words(call)).args(words(more));
            if let Some(value) = no_color {
                command.env("NO_COLOR", value);
            }
            let output = command.output().expect("the program starts");
            let bytes = [output.stdout, output.stderr].concat();
            bytes.contains(&0x1b)
        };
        assert!(!with("", None), "{call:?}: a pipe gets no colour");
        assert!(!with("", Some("1")), "{call:?}: NO_COLOR is obeyed");
        assert!(!with("--color never", None), "{call:?}");
        assert!(with("--color always", None), "{call:?}");
    }
}

/// Colour changes nothing but colour.
#[test]
fn coloured_text_says_the_same() {
    let of_layouts =
        ["plan", "pedal"].map(|verb| ALL.map(|name| format!("{verb} layouts/{name}.ron")));
    let fluid = "fluid --grade dot4 --moisture '4 %'".to_owned();
    for call in of_layouts.iter().flatten().chain([&fluid]) {
        let [plain, coloured] = ["", "--color always"].map(|it| run(&format!("{call} {it}")));
        assert!(!plain.has_escape(), "{call}");
        // Of several pedals none is chosen, which is told without colour.
        assert_eq!(coloured.has_escape(), plain.code == Some(0), "{call}");
        assert_eq!(without_colour(&coloured.shown()), plain.shown(), "{call}");
    }
}

fn without_colour(coloured: &str) -> String {
    let mut stripped = String::new();
    let mut characters = coloured.chars();
    while let Some(character) = characters.next() {
        if character == '\u{1b}' {
            // ECMA-48: a control sequence ends with a letter.
            let _ = characters.find(char::is_ascii_alphabetic);
        } else {
            stripped.push(character);
        }
    }
    stripped
}

/// A reader that goes away is no error and nothing to complain about.
#[test]
fn a_broken_pipe_is_quiet() {
    for lines_read in [0, 1] {
        for format in ["text", "json"] {
            let mut child = bleedwright()
                .args(["plan", "layouts/avocet.ron", "--format", format])
                .stdout(Stdio::piped())
                .stderr(Stdio::piped())
                .spawn()
                .expect("the program starts");
            let stdout = child.stdout.take().expect("standard output is a pipe");
            let mut reader = BufReader::with_capacity(16, stdout);
            for _ in 0..lines_read {
                let mut line = String::new();
                reader.read_line(&mut line).expect("there is a line");
            }
            drop(reader);
            let mut complaint = String::new();
            child
                .stderr
                .take()
                .expect("standard error is a pipe")
                .read_to_string(&mut complaint)
                .expect("it is text");
            let status = child.wait().expect("the program ends");
            assert_eq!(complaint, "", "{format}, {lines_read} lines read");
            assert_eq!(status.code(), Some(0), "{format}, {lines_read} lines read");
        }
    }
}

#[test]
fn the_same_call_gives_the_same_bytes() {
    for name in ALL {
        assert_eq!(plan(name, ""), plan(name, ""), "{name}");
    }
}

/// Every verb has help with examples that name demo layouts.
#[test]
fn help_has_examples() {
    for call in ["--help", "plan --help", "check --help", "volumes --help"] {
        let help = printed(call);
        assert!(help.contains("Examples:"), "{call}");
        assert!(help.contains("layouts/"), "{call}");
    }
}
