//! Exit codes: 0 done, 1 could not run, 2 usage, 3 the layout has errors, 4
//! planned but unsafe by the user's own order.

use super::{run, run_with_input};

#[test]
fn zero_when_done() {
    for verb in ["check", "plan", "volumes"] {
        let run = run(&format!("{verb} layouts/lapwing.ron"));
        assert_eq!(run.code, Some(0), "{verb}: {}", run.stderr);
        assert!(!run.stdout.is_empty(), "{verb}");
        assert!(run.stderr.is_empty(), "{verb}: {}", run.stderr);
    }
}

/// Warnings and advice leave the code alone.
#[test]
fn zero_with_warnings() {
    for layout in ["layouts/turnstone.ron", "layouts/godwit.ron"] {
        let run = run(&format!("check '{layout}' --format plain"));
        assert!(
            run.stdout.contains("warning BW"),
            "{layout}: {}",
            run.stdout
        );
        assert_eq!(run.code, Some(0), "{layout}");
    }
    let run = run("plan layouts/lapwing.ron --skip 'rear left'");
    assert_eq!(run.code, Some(0), "{}", run.stderr);
}

#[test]
fn one_when_it_could_not_run() {
    for verb in ["check", "plan", "volumes"] {
        for path in ["layouts/no such layout.ron", "layouts"] {
            let run = run(&format!("{verb} '{path}'"));
            assert_eq!(run.code, Some(1), "{verb} {path}");
            assert!(run.stdout.is_empty(), "{verb} {path}");
            assert!(run.stderr.contains(path), "{verb} {path}: {}", run.stderr);
        }
    }
}

/// Whichever of the two layouts it is.
#[test]
fn one_when_a_layout_to_compare_is_not_there() {
    let missing = "layouts/no such layout.ron";
    for layouts in [
        format!("'{missing}' layouts/lapwing.ron"),
        format!("layouts/lapwing.ron '{missing}'"),
    ] {
        let run = run(&format!("compare {layouts}"));
        assert_eq!(run.code, Some(1), "{layouts:?}: {}", run.stderr);
        assert!(run.stdout.is_empty(), "{layouts:?}");
        assert!(run.stderr.contains(missing), "{layouts:?}: {}", run.stderr);
    }
}

#[test]
fn two_for_wrong_usage() {
    for call in [
        "",
        "bleed layouts/lapwing.ron",
        "plan",
        "plan layouts/lapwing.ron --no-such-option",
        "check layouts/lapwing.ron --format picture",
        "volumes layouts/lapwing.ron --begin nearest",
        "plan layouts/lapwing.ron --begin middle",
        "plan layouts/lapwing.ron --method suction",
        "plan layouts/lapwing.ron --method gravity --stroke 50%",
        "plan layouts/lapwing.ron --tank-pressure '1 bar'",
        "check layouts/lapwing.ron --for fill --residual 5%",
        "simulate layouts/lapwing.ron --done 'rear left'",
        "simulate layouts/lapwing.ron --index 2",
        "compare layouts/lapwing.ron --orders --done 'rear left'",
        "plan layouts/lapwing.ron --for fun",
    ] {
        let run = run(call);
        assert_eq!(run.code, Some(2), "{call:?}: {}", run.stderr);
        assert!(run.stdout.is_empty(), "{call:?}");
        assert!(!run.stderr.is_empty(), "{call:?}");
    }
}

/// Every method plans; only a renewal by the reverse method is refused.
#[test]
fn zero_for_every_method() {
    for method in ["pedal", "pressure", "vacuum", "gravity", "reverse"] {
        for verb in ["plan", "check"] {
            let done = run(&format!(
                "{verb} layouts/lapwing.ron --method {method} --for air"
            ));
            assert_eq!(done.code, Some(0), "{verb} {method}: {}", done.stderr);
        }
    }
    let refused = run("plan layouts/lapwing.ron --method reverse --for renew");
    assert_eq!(refused.code, Some(2), "{}", refused.stderr);
    assert!(refused.stdout.is_empty());
}

/// The range allowed is said with the refusal.
#[test]
fn two_for_values_out_of_range() {
    let dot_grades = "dot3, dot4, dot4_low_viscosity, dot5, dot5_1, mineral";
    for (option, values, allowed) in [
        ("--residual", ["0 %", "51 %", "-5 %"], "0.1 % to 50 %"),
        ("--residual", ["NaN", "five", ""], ""),
        ("--residual", ["0.5", "5", "0.05"], "with its sign"),
        ("--stroke", ["0.6", "60", "1"], "with its sign"),
        (
            "--tank-pressure",
            ["0.1 bar", "5 bar", "-1 bar"],
            "0.2 bar to 4 bar",
        ),
        ("--stroke", ["0.5 %", "101 %", "-60 %"], "1 % to 100 %"),
        ("--bottle", ["19 ml", "61 l", "-1 l"], "20 ml to 60 l"),
        ("--bottle", ["500", "500 mm", "inf ml"], ""),
        (
            "--temperature",
            ["-41 degC", "61 degC", "1e9 degC"],
            "-40 degC to 60 degC",
        ),
        ("--new-fluid", ["dot9", "DOT6", ""], dot_grades),
        ("--width", ["23", "401", "-80"], ""),
    ] {
        for value in values {
            let call = format!("{option}={value}");
            let run = run(&format!("plan layouts/lapwing.ron '{call}'"));
            assert_eq!(run.code, Some(2), "{call}: {}", run.stderr);
            assert!(run.stderr.contains(allowed), "{call}: {}", run.stderr);
            assert!(run.stdout.is_empty(), "{call}");
        }
    }
}

/// At the ends of their ranges values are taken.
#[test]
fn zero_at_the_ends_of_the_ranges() {
    for call in [
        "--residual=50 %",
        "--residual=1 %",
        "--residual=0.1 %",
        "--stroke=100 %",
        "--bottle=20 ml",
        "--bottle=60 l",
        "--temperature=-40 degC",
        "--temperature=60 degC",
        "--width=24",
        "--width=400",
    ] {
        let run = run(&format!("plan layouts/lapwing.ron '{call}'"));
        assert_eq!(run.code, Some(0), "{call}: {}", run.stderr);
    }
}

/// Names of options that the layout does not have are the caller's mistake.
#[test]
fn two_for_names_that_the_layout_does_not_have() {
    for option in [
        "--opened",
        "--drained",
        "--clamped",
        "--ran-dry",
        "--circuit-first",
        "--skip",
        "--done",
        "--order",
    ] {
        let run = run(&format!("plan layouts/lapwing.ron {option} 'rear lift'"));
        assert_eq!(run.code, Some(2), "{option}: {}", run.stderr);
        assert!(run.stderr.contains("BW401"), "{option}: {}", run.stderr);
        assert!(run.stderr.contains(option), "{option}: {}", run.stderr);
        assert!(run.stdout.is_empty(), "{option}");
    }
}

#[test]
fn three_for_a_layout_with_errors() {
    let path = "tests/layouts/broken/circuits_joined_by_a_tee.ron";
    for verb in ["check", "plan", "volumes"] {
        let run = run(&format!("{verb} '{path}'"));
        assert_eq!(run.code, Some(3), "{verb}");
        let all = run.stdout + &run.stderr;
        assert!(all.contains("BW207"), "{verb}: {all}");
    }
}

/// The plan is printed; the code says that the user's own order is unsafe.
#[test]
fn four_for_an_unsafe_order() {
    let run = run("plan layouts/godwit.ron --order 'rear left, unit primary'");
    assert_eq!(run.code, Some(4), "{}", run.stderr);
    assert!(run.stdout.contains("rear left"), "{}", run.stdout);
    assert!(
        run.stdout.contains("BW403"),
        "the plan warns: {}",
        run.stdout
    );
}

#[test]
fn standard_input_instead_of_a_file() {
    let text = crate::demo::demo_text("lapwing");
    for verb in ["plan", "volumes"] {
        let piped = run_with_input(&format!("{verb} -"), text.as_bytes());
        assert_eq!(piped.code, Some(0), "{verb}: {}", piped.stderr);
        assert_eq!(
            piped.stdout,
            run(&format!("{verb} layouts/lapwing.ron")).stdout,
            "{verb}"
        );
    }
    let checked = run_with_input("check -", text.as_bytes());
    assert_eq!(checked.code, Some(0), "{}", checked.stderr);
    assert!(
        checked.stdout.contains("<standard input>"),
        "{}",
        checked.stdout
    );
}
