//! Schematics: nothing lies on anything else, whatever the vehicle; measured in the SVG itself.

mod rules;
mod seen;

use crate::demo;
use crate::generated::cases;
use bleedwright_drafting::{Draft, MasterKind, Measures, draft};
use bleedwright_drawing::{schematic, svg};
use bleedwright_network::{Network, Split, Steering, load};
use bleedwright_planner::{Options, plan};
use bleedwright_report::drawn_words;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use rules::faults;
use std::collections::BTreeSet;

/// The picture of a network with the plan of these options; none where nothing can be planned.
fn drawn(network: &Network, options: &Options) -> Option<String> {
    let plan = plan(network, options).plan?;
    Some(svg(&schematic(network, &plan, drawn_words)))
}

fn picture(network: &Network, options: &Options) -> String {
    drawn(network, options).expect("it can be planned")
}

#[test]
fn demo_vehicles_keep_to_the_rules() {
    for name in demo::ALL {
        let network = &demo::load_demo(name);
        let faults = faults(&picture(network, &Options::default()), network.layout());
        assert!(faults.is_empty(), "{name}: {faults:#?}");
    }
}

/// A circuit called red is not drawn in blue, nor in any colour; patterns tell the circuits apart.
#[test]
fn circuits_named_after_colours_are_drawn_in_black() {
    let colours = |name: &str| -> BTreeSet<String> {
        let network = &demo::load_demo(name);
        let text = picture(network, &Options::default());
        let document = roxmltree::Document::parse(&text).expect("it is well-formed");
        document
            .descendants()
            .flat_map(|node| ["fill", "stroke"].map(|paint| node.attribute(paint)))
            .flatten()
            .filter(|paint| paint.starts_with('#'))
            .filter(|paint| paint[1..3] != paint[3..5] || paint[3..5] != paint[5..7])
            .map(str::to_owned)
            .collect()
    };
    assert_eq!(colours("avocet"), BTreeSet::new());
    assert!(colours("lapwing").len() >= 2, "{:?}", colours("lapwing"));
    let network = &demo::load_demo("avocet");
    let text = picture(network, &Options::default());
    assert!(text.contains("stroke-dasharray"), "{text}");
}

/// Letters of at least 2.4 mm on a sheet of A4 with margins of a centimetre, upright or lying.
#[test]
fn demo_vehicles_can_be_read_on_a_sheet() {
    for name in demo::ALL {
        let network = &demo::load_demo(name);
        let seen = seen::see(&picture(network, &Options::default()));
        let scale =
            |width: f64, height: f64| (width / seen.width).min(height / seen.height).min(1.0);
        let scale = scale(190.0, 277.0).max(scale(277.0, 190.0));
        for label in &seen.labels {
            assert!(
                label.size * scale >= 2.4,
                "{name}: `{}` is {:.2} mm",
                label.text,
                label.size * scale
            );
        }
    }
}

#[test]
fn two_hundred_generated_vehicles_keep_to_the_rules() {
    let mut runner = TestRunner::deterministic();
    let strategy = cases();
    let mut worst = Vec::new();
    for nth in 0..200 {
        let case = strategy
            .new_tree(&mut runner)
            .expect("a case is always found")
            .current();
        let network = &case.load();
        let usual = || drawn(network, &Options::default());
        let picture = drawn(network, &case.options).or_else(usual);
        let picture = picture.expect("a case can be planned");
        let faults = faults(&picture, network.layout());
        if !faults.is_empty() {
            worst.push(format!("{nth}: {faults:#?}\n{}", case.layout.text()));
        }
    }
    let count = worst.len();
    worst.truncate(3);
    assert!(worst.is_empty(), "{count} of 200: {}", worst.join("\n"));
}

#[test]
fn drafts_keep_to_the_rules() {
    let mut count = 0;
    for split in Split::ALL
        .iter()
        .copied()
        .filter(|split| *split != Split::Other)
    {
        for steering in [Steering::Left, Steering::Right, Steering::Centre] {
            for (cylinder, has_anti_lock) in [
                (MasterKind::Tandem, false),
                (MasterKind::Tandem, true),
                (MasterKind::Twin, false),
                (MasterKind::Single, true),
            ] {
                let mut measures = Measures::of_split(split);
                measures.steering = Some(steering);
                measures.cylinder = cylinder;
                measures.has_anti_lock = has_anti_lock;
                let Ok(Draft { text, loaded }) = draft(&measures) else {
                    continue;
                };
                let Some(network) = loaded.sound_network() else {
                    continue;
                };
                count += 1;
                let faults = faults(&picture(network, &Options::default()), network.layout());
                assert!(faults.is_empty(), "{measures:?}: {faults:#?}\n{text}");
            }
        }
    }
    assert!(count > 30, "only {count} drafts were drawn");
}

/// Layouts that are only warned of: loops, loose ends, two hoses to a brake and the like.
#[test]
fn odd_layouts_keep_to_the_rules() {
    let mut count = 0;
    for (name, bytes) in crate::broken::layouts() {
        let loaded = load(&bytes);
        let Some(network) = loaded.sound_network() else {
            continue;
        };
        let Some(picture) = drawn(network, &Options::default()) else {
            continue;
        };
        count += 1;
        let faults = faults(&picture, network.layout());
        assert!(faults.is_empty(), "{name}: {faults:#?}");
    }
    assert!(count >= 10, "only {count} layouts were drawn");
}

/// Names that try to leave their place: markup, quotes, other directions of writing, signs of several characters.
#[test]
fn hostile_names_stay_names() {
    let text = crate::demo::demo_text("lapwing");
    let long = "a very long name ".repeat(17);
    for (old, new) in [
        (
            "Lapwing, long-wheelbase minibus",
            "</title><script>alert(1)</script>",
        ),
        ("front tee", "<script>alert('x')</script> & \\\"more\\\""),
        (
            "rear left cylinder",
            "\u{5d2}\u{5dc}\u{5d9}\u{5dc} \u{5d0}\u{5d7}\u{5d5}\u{5e8}\u{5d9} 12",
        ),
        ("front left caliper", "🚗🚗🚗 caliper é 制动钳"),
        ("axle tee", long.trim()),
        ("long rear pipe", long.trim()),
        ("front left\"", "]]> &lt; {}\""),
    ] {
        let changed = text.replace(old, new);
        let network = &demo::network_of(&changed);
        let picture = picture(network, &Options::default());
        assert!(!picture.contains("<script"), "{new}");
        assert!(
            !picture
                .chars()
                .any(|sign| sign.is_control() && sign != '\n'),
            "{new}"
        );
        let faults: Vec<String> = faults(&picture, network.layout())
            .into_iter()
            // The names of groups lose what cannot be printed, so that they are not found again.
            .filter(|fault| !fault.contains("not drawn"))
            .collect();
        assert!(faults.is_empty(), "{new}: {faults:#?}");
    }
}

#[test]
fn a_picture_comes_out_the_same_twice() {
    for name in demo::ALL {
        let network = &demo::load_demo(name);
        let first = picture(network, &Options::default());
        assert_eq!(first, picture(network, &Options::default()), "{name}");
    }
}

/// The picture that the README shows is the one that the program draws.
#[test]
fn the_picture_of_the_readme_is_up_to_date() {
    let network = &demo::load_demo("lapwing");
    let drawn = picture(network, &Options::default());
    let path = crate::binary::root().join("docs/pictures/lapwing.svg");
    if std::env::var_os("BLEEDWRIGHT_UPDATE").is_some() {
        std::fs::write(&path, &drawn).expect("the picture can be written");
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == drawn,
        "docs/pictures/lapwing.svg is stale: run this test with BLEEDWRIGHT_UPDATE=1"
    );
}

/// Charts too are well-formed, and no text of theirs lies on another.
#[test]
fn charts_can_be_read() {
    use bleedwright_drawing::chart::{Chart, Level, Series, Upright, chart};
    let series = |name: &str, slope: f64| Series {
        name: name.to_owned(),
        points: (0..20)
            .map(|nth| (f64::from(nth), slope * f64::from(nth)))
            .collect(),
        band: (0..20)
            .map(|nth| (slope * f64::from(nth) * 0.9, slope * f64::from(nth) * 1.1))
            .collect(),
    };
    for count in 1..6 {
        let names = [
            "front",
            "rear <b>",
            "both & more",
            "a name that is much too long for the edge of it",
            "fifth",
        ];
        let picture = chart(&Chart {
            title: "A chart of \"everything\"".to_owned(),
            description: "nothing".to_owned(),
            across: "strokes".to_owned(),
            upward: "ml".to_owned(),
            series: names[..count]
                .iter()
                .enumerate()
                .map(|(nth, name)| series(name, 1.0 + nth as f64 * 0.02))
                .collect(),
            uprights: (0..12)
                .map(|nth| Upright {
                    at: f64::from(nth),
                    label: nth.to_string(),
                })
                .collect(),
            levels: vec![
                Level {
                    at: 3.0,
                    label: "limit".to_owned(),
                },
                Level {
                    at: 3.1,
                    label: "other limit".to_owned(),
                },
            ],
        });
        let seen = seen::see(&svg(&picture));
        for (nth, a) in seen.labels.iter().enumerate() {
            for b in &seen.labels[..nth] {
                assert!(
                    !a.frame.overlaps(&b.frame),
                    "{count}: `{}` lies on `{}`",
                    a.text,
                    b.text
                );
            }
            assert!(
                a.frame.left >= 0.0 && a.frame.right <= seen.width,
                "{count}: `{}` is outside",
                a.text
            );
        }
    }
}
