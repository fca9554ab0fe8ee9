//! What hands go by, made anew from a plan's JSON alone, and looked for in the columns of its sheet.

use crate::command_line::run;
use crate::demo::ALL;
use serde_json::Value;

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn text(value: &Value) -> &str {
    value.as_str().expect("it is a text")
}

fn number(value: &Value) -> u64 {
    value.as_u64().expect("it is a whole number")
}

/// Strokes or minutes, as far apart as they may be.
fn effort(step: &Value) -> String {
    let strokes = &step["strokes"];
    if !strokes.is_null() {
        let [low, nominal, high] = ["low", "nominal", "high"].map(|key| number(&strokes[key]));
        // Less than a twentieth of a millilitre is nothing to speak of.
        return if step["stroke_ml"]["low"]
            .as_f64()
            .is_some_and(|low| low < 0.05)
        {
            format!("{low}+")
        } else if high > low + low / 2 + 2 {
            format!("{low}-{high}")
        } else {
            nominal.to_string()
        };
    }
    let minutes = |key: &str| Some((step["time_s"][key].as_f64()? / 60.0).ceil());
    match (minutes("nominal"), minutes("low"), minutes("high")) {
        (None, ..) => "does not run".to_owned(),
        (_, Some(low), Some(high)) if high > low => format!("{low:.0}-{high:.0}"),
        (_, _, Some(high)) => format!("{high:.0}"),
        (_, low, None) => format!("{:.0}+", low.expect("it runs at its best")),
    }
}

/// When each compartment is seen to, with its name.
fn levels(step: &Value) -> Vec<String> {
    let rules = list(&step["level_rules"]).iter();
    let each = rules.flat_map(|rule| {
        let strokes = rule["every_strokes"].as_u64();
        let strokes = strokes.map(|count| match count {
            1 => "every stroke".to_owned(),
            _ => format!("every {count}"),
        });
        let ml = rule["every_ml"].as_f64();
        let every = strokes.or(ml.map(|ml| format!("every {:.0}", ml.floor())));
        let when = match (rule["is_before_start"] == true, every) {
            (true, None) => "before you start".to_owned(),
            (true, Some(every)) => format!("before + {every}"),
            (false, every) => every.expect("a rule says when"),
        };
        [when, text(&rule["compartment"]).to_owned()]
    });
    each.collect()
}

/// What stands in the columns of a step, line by line: name, push, effort, jar, stop.
fn rows(step: &Value) -> Vec<Vec<String>> {
    let jars = list(&step["jars"]);
    let of_jar = |jar: &Value, effort: Option<String>| {
        let ml = |key: &str| format!("{} ml", number(&jar[key]));
        let [push, mark, stop] = ["push_ml", "mark_ml", "stop_ml"].map(ml);
        let name = text(&jar["screw"]).to_uppercase();
        let figures = [Some(push), effort, Some(mark), Some(stop)];
        std::iter::once(name)
            .chain(figures.into_iter().flatten())
            .collect()
    };
    let effort = effort(step);
    match jars {
        [jar] => vec![of_jar(jar, Some(effort))],
        _ => std::iter::once(vec!["TOGETHER".to_owned(), effort])
            .chain(jars.iter().map(|jar| of_jar(jar, None)))
            .collect(),
    }
}

/// Asserts that `sheet` has these texts one after the other, and gives what comes behind them.
fn behind<'s>(sheet: &'s str, texts: &[String], call: &str) -> &'s str {
    texts.iter().fold(sheet, |rest, text| {
        let at = rest.find(text.as_str());
        let at = at.unwrap_or_else(|| panic!("{call}: {text} of {texts:?}\n{rest:.600}"));
        &rest[at + text.len()..]
    })
}

#[test]
fn the_lines_of_every_step_follow_from_its_json() {
    let mut steps_seen = 0;
    for name in ALL {
        for method in ["pedal", "pressure", "vacuum", "gravity", "reverse"] {
            let call = format!("plan layouts/{name}.ron --method {method}");
            let json = run(&format!("{call} --format json"));
            // Not every vehicle may be bled by every method.
            let Ok(document) = serde_json::from_str::<Value>(&json.stdout) else {
                continue;
            };
            let second = list(&document["second_bleed"]["steps"]);
            let steps = || list(&document["steps"]).iter().chain(second);
            for width in [80, 44] {
                let sheet = run(&format!("{call} --width {width}")).stdout;
                let mut rest = sheet.as_str();
                for step in steps() {
                    let digits = steps().count().to_string().len();
                    let mark = vec![format!("\n[ ] {:>digits$} ", number(&step["number"]))];
                    rest = behind(rest, &mark, &call);
                    let (of_step, next) = (rest, rows(step).concat());
                    rest = behind(rest, &next, &call);
                    // When to top up stands beside the figures, on lines of its own.
                    let end = of_step.find("\n[ ]").unwrap_or(of_step.len());
                    for level in levels(step) {
                        let in_one_line = of_step[..end].split_whitespace();
                        let in_one_line = in_one_line.collect::<Vec<_>>().join(" ");
                        assert!(
                            in_one_line.contains(&level),
                            "{call} {width}: {level}\n{of_step}"
                        );
                    }
                    steps_seen += 1;
                }
            }
        }
    }
    assert!(steps_seen > 300, "{steps_seen} steps were looked for");
}
