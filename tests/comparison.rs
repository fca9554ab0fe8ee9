//! Two plans side by side, and every order of one.

mod limit;

use crate::binary::{empty_folder, root};
use crate::command_line::{Run, assert_said, printed, run, run_with_input, unwrapped};
use scraper::{Html, Selector};
use serde_json::Value;

fn compared(call: &str) -> (Run, Value) {
    let done = run(&format!("compare {call} --format json"));
    let document = serde_json::from_str(&done.stdout).unwrap_or(Value::Null);
    (done, document)
}

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"))
}

/// Calls, and what they say.
const SAID: &str = r#"
// Four screws of an II split in any order: nothing binds them (common practice, no source: schools begin at either end), and
// it hardly matters.
layouts/lapwing.ron --orders
+ Almost nothing
= /tried 24
= /refused 0
= /is_sampled false

// Filling needs the primary circuit first.
layouts/lapwing.ron --orders --for fill
= /tried 4
= /refused 20

// Two amounts that differ are given the cause that differs, or none.
layouts/plover.ron --with '--begin nearest'
+ right before it in its circuit `rear right` against nothing.

// The same screws after each other: the options alone differ, and they stand at the head.
layouts/plover.ron --with '--residual 1%'
- before it

// Every order leaves the same air behind the valves of the unit.
layouts/godwit.ron --for fill --orders
+ NOT FOLLOWED, in no figure here: `anti-lock unit`
= /not_followed/0/part "anti-lock unit"

layouts/godwit.ron layouts/lapwing.ron --for fill
= /sides/0/not_followed/0/part "anti-lock unit"
= /sides/1/not_followed/0/kind "high_point"
= /sides/1/is_air_left_the_least true

layouts/lapwing.ron layouts/plover.ron
+ the circuits are others
+ its run holds 62 ml against 33 ml
= /sides/0/split "II"
= /sides/1/split "X"

layouts/lapwing.ron layouts/lapwing.ron
= /changes/0/changes ["in all both push almost the same"]
"#;

#[test]
fn comparisons_say_what_differs() {
    assert_said("compare", SAID);
}

#[test]
fn the_order_hardly_matters_on_lapwing() {
    let (done, document) = compared("layouts/lapwing.ron --orders");
    assert_eq!(done.code, Some(0), "{}", done.stderr);
    let pushed = |which: &str| number(&document[which]["pushed_ml"]);
    assert!(pushed("best") <= pushed("default") && pushed("default") <= pushed("worst"));
    assert!(pushed("worst") < 1.05 * pushed("best"));
    assert!(number(&document["worst"]["air_left_ml"]) < 0.1);
}

/// The plan's order may be the worst by amount. The list marks it, and says why
/// it is planned.
#[test]
fn the_order_of_the_plan_is_marked_and_explained() {
    let (_, document) = compared("layouts/godwit.ron --orders");
    assert_eq!(document["default"]["is_of_plan"], true);
    for which in ["best", "worst"] {
        let is_same = document[which]["screws"] == document["default"]["screws"];
        assert_eq!(document[which]["is_of_plan"], is_same, "{which}");
    }
    let text = run("compare layouts/godwit.ron --orders").unwrapped();
    for which in ["best", "worst"] {
        let is_marked = text.contains(&format!("{which} the plan's: "));
        assert_eq!(is_marked, document[which]["is_of_plan"] == true, "{text}");
    }
    assert!(number(&document["best"]["pushed_ml"]) < number(&document["default"]["pushed_ml"]));
    assert!(text.contains("WHY THE PLAN'S ORDER"), "{text}");
    assert!(text.contains("no amount decides"), "{text}");
}

/// Where the other school takes less the plan answers instead of asking.
#[test]
fn a_plan_says_why_although_the_other_way_takes_less() {
    let call = |more: &str| run(&format!("plan layouts/whimbrel.ron --why {more}")).unwrapped();
    let nearest = call("--begin nearest");
    assert!(!nearest.contains("Why not longest run first?"), "{nearest}");
    assert!(nearest.contains("Shortest run first as asked, not by amount"));
    assert!(
        nearest.contains("The other way takes ") && nearest.contains(" % less ("),
        "{nearest}"
    );
    let farthest = call("");
    assert!(
        farthest.contains("Why not shortest run first? It takes ")
            && farthest.contains(" % more ("),
        "{farthest}"
    );
}

#[test]
fn too_many_orders_are_sampled_and_that_is_said() {
    let (done, document) = compared("layouts/whimbrel.ron --orders");
    assert_eq!(done.code, Some(0), "{}", done.stderr);
    assert_eq!(document["is_sampled"], true);
    assert!(number(&document["tried"]) > 0.0);
    let text = run("compare layouts/whimbrel.ron --orders").stdout;
    assert!(text.contains("a sample"), "{text}");
}

#[test]
fn sets_of_options_for_one_layout() {
    let (done, document) = compared(
        "layouts/lapwing.ron --with '--method pedal' --with '--method pressure' --with \
        \"--order 'front left, front right'\"",
    );
    assert_eq!(done.code, Some(0), "{}", done.stderr);
    assert_eq!(document["sides"].as_array().map(Vec::len), Some(3));
    assert!(number(&document["sides"][0]["time_s"]) > number(&document["sides"][1]["time_s"]));
    assert_eq!(document["sides"][2]["order"][0], "front left");
    assert_eq!(document["changes"].as_array().map(Vec::len), Some(2));
}

#[test]
fn programs_are_told_what_stands_in_the_way() {
    let (done, document) = compared("layouts/lapwing.ron --with '--order nobody'");
    assert_eq!(done.code, Some(2), "{}", done.stderr);
    assert!(
        document["findings"]
            .as_array()
            .is_some_and(|findings| !findings.is_empty()),
        "{document}"
    );
}

/// One layout under two sets of options, and it comes by a pipe: it can be
/// read no second time.
#[test]
fn standard_input_is_read_once() {
    let layout =
        std::fs::read(root().join("layouts/lapwing.ron")).expect("the demo layout is there");
    let done = run_with_input("compare - --with '--begin nearest'", &layout);
    assert_eq!(done.code, Some(0), "{}", done.stderr);
    let by_path = run("compare layouts/lapwing.ron --with '--begin nearest'");
    assert_eq!(done.stdout, by_path.stdout);
}

/// What holds no fluid, such as a valve screwed straight in, is drawn like what
/// stands before it: a line without a state would look clean from the start.
#[test]
fn every_line_of_a_lesson_has_a_state_in_every_step() {
    let page = run("compare layouts/plover.ron layouts/curlew.ron --format html");
    let page = Html::parse_document(&page.stdout);
    let all = |css: &str| Selector::parse(css).expect("it is a selector");
    let sides: Vec<_> = page.select(&all(".side")).collect();
    assert_eq!(sides.len(), 2);
    for side in sides {
        let lines: Vec<&str> = side
            .select(&all("svg [data-kind=line]"))
            .filter_map(|group| group.attr("data-name"))
            .collect();
        assert!(lines.len() > 8, "{lines:?}");
        for scene in side.select(&all(".scene")) {
            let states: Value = serde_json::from_str(scene.attr("data-states").unwrap_or_default())
                .expect("the states are JSON");
            let is_first = scene.attr("data-step") == Some("0");
            for line in &lines {
                let state = states[format!("line {line}")].as_str();
                assert!(state.is_some(), "{line}");
                assert!(!is_first || state == Some("old"), "{line}: {state:?}");
            }
        }
    }
}

/// A page that is shown to a class says what the files are called, and not where they lie.
#[test]
fn no_format_shows_where_the_files_lie() {
    let folder = empty_folder("a secret place");
    let paths = ["lapwing", "plover"].map(|name| {
        let to = folder.join(format!("{name}.ron"));
        std::fs::copy(root().join(format!("layouts/{name}.ron")), &to).expect("it can be copied");
        to.to_str().expect("the path is text").to_owned()
    });
    for format in ["text", "json", "html"] {
        let [one, other] = &paths;
        let said = unwrapped(&printed(&format!(
            "compare '{one}' '{other}' --format {format}"
        )));
        assert!(!said.contains("a secret place"), "{format}");
        for name in ["lapwing.ron", "plover.ron"] {
            assert!(said.contains(name), "{format}: {name}");
        }
    }
}

/// The page holds every line and part after every step, which grows with the square of the screws: beyond what a browser
/// follows it is refused before anything is simulated. Text and JSON grow with the screws.
#[test]
fn a_page_of_many_screws_is_refused() {
    let mut sizes = Vec::new();
    for screws in [64, 128, 256] {
        let layout = row_of_brakes(screws);
        let compare = |format: &str| {
            let call = format!("compare - --with '--begin nearest' --format {format}");
            run_with_input(&call, layout.as_bytes())
        };
        let page = compare("html");
        if screws == 64 {
            assert_eq!(page.code, Some(0), "{}", page.stderr);
            assert!(page.stdout.len() < 6_000_000, "{}", page.stdout.len());
        } else {
            assert_eq!(page.code, Some(2), "{screws}");
            assert!(page.stdout.is_empty(), "{screws}");
            assert!(
                page.stderr.contains("--format text or json"),
                "{}",
                page.stderr
            );
        }
        sizes.push(["text", "json"].map(|format| compare(format).stdout.len()));
    }
    for (fewer, more) in sizes[0].iter().zip(&sizes[2]) {
        assert!(
            *more < 5 * fewer,
            "{sizes:?} bytes for 64, 128 and 256 screws"
        );
    }
}

/// Brakes along one pipe, eight at a block.
fn row_of_brakes(count: usize) -> String {
    let pipe = "kind: pipe(size: \"3/16 in\", length: \"0.3 m\")";
    let brake = "kind: caliper(mounting: sliding, pistons: [(bore: \"30 mm\", extension: \"2 mm\")], dead_volume: \"1 ml\"), \
                 wheel: rear";
    let (mut parts, mut lines) = (String::new(), String::new());
    let mut before = "master".to_owned();
    for nth in 0..count {
        let block = format!("block {}", nth / 8);
        if nth % 8 == 0 {
            parts += &format!("(id: \"{block}\", kind: block), ");
            lines +=
                &format!("(id: \"to {block}\", from: \"{before}\", to: \"{block}\", {pipe}), ");
            before.clone_from(&block);
        }
        parts += &format!(
            "(id: \"brake {nth}\", {brake}, screws: [(id: \"screw {nth}\", at_top: true)]), "
        );
        lines += &format!("(id: \"pipe {nth}\", from: \"{block}\", to: \"brake {nth}\", {pipe}), ");
    }
    format!(
        "(format: 1, name: \"Stilt\", fluid: dot4, reservoirs: [(id: \"r\", compartments: [(id: \"pot\", max: \"3 l\", \
         min: \"1 l\", feeds: \"master\")])], cylinders: [(id: \"master\", kind: single(bore: \"60 mm\", stroke: \
         \"100 mm\", cut_off: \"1 mm\"))], parts: [{parts}], lines: [{lines}])"
    )
}
