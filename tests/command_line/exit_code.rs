//! Exit codes: 0 done, 1 could not run, 2 usage, 3 the layout has errors, 4
//! planned but unsafe by the user's own order.

use super::{run, run_with_input};
use crate::table::rows;

/// A code other than 2, which is that of `refused`, a call, and words that are printed.
const CALLS: &str = "
0 | check layouts/lapwing.ron |
0 | plan layouts/lapwing.ron |
0 | volumes layouts/lapwing.ron |
0 | pedal --help |
0 | pedal -h |
0 | help pedal |
0 | pedal --version |
// Warnings and advice leave the code alone.
0 | check layouts/turnstone.ron --format plain | warning BW
0 | check layouts/godwit.ron --format plain | warning BW
0 | plan layouts/lapwing.ron --skip 'rear left' |
// Every method plans; only a renewal by the reverse method is refused.
0 | plan layouts/lapwing.ron --method pedal --for air |
0 | check layouts/lapwing.ron --method pedal --for air |
0 | plan layouts/lapwing.ron --method pressure --for air |
0 | check layouts/lapwing.ron --method pressure --for air |
0 | plan layouts/lapwing.ron --method vacuum --for air |
0 | check layouts/lapwing.ron --method vacuum --for air |
0 | plan layouts/lapwing.ron --method gravity --for air |
0 | check layouts/lapwing.ron --method gravity --for air |
0 | plan layouts/lapwing.ron --method reverse --for air |
0 | check layouts/lapwing.ron --method reverse --for air |
// At the ends of their ranges values are taken.
0 | plan layouts/lapwing.ron '--residual=50 %' |
0 | plan layouts/lapwing.ron '--residual=1 %' |
0 | plan layouts/lapwing.ron '--residual=0.1 %' |
0 | plan layouts/lapwing.ron '--stroke=100 %' |
0 | plan layouts/lapwing.ron '--bottle=20 ml' |
0 | plan layouts/lapwing.ron '--bottle=60 l' |
0 | plan layouts/lapwing.ron '--temperature=-40 degC' |
0 | plan layouts/lapwing.ron '--temperature=60 degC' |
0 | plan layouts/lapwing.ron '--width=24' |
0 | plan layouts/lapwing.ron '--width=400' |
// What cannot be read is named, whichever of two layouts it is.
1 | check 'layouts/no such layout.ron' | layouts/no such layout.ron
1 | check layouts | layouts
1 | plan 'layouts/no such layout.ron' | layouts/no such layout.ron
1 | plan layouts | layouts
1 | volumes 'layouts/no such layout.ron' | layouts/no such layout.ron
1 | volumes layouts | layouts
1 | pedal 'layouts/no such layout.ron' | layouts/no such layout.ron
1 | pedal layouts | layouts
1 | fluid --layout 'layouts/no such layout.ron' | layouts/no such layout.ron
1 | compare 'layouts/no such layout.ron' layouts/lapwing.ron | layouts/no such layout.ron
1 | compare layouts/lapwing.ron 'layouts/no such layout.ron' | layouts/no such layout.ron
// A layout with errors; programs are told in JSON too.
3 | check tests/layouts/broken/circuits_joined_by_a_tee.ron | BW207
3 | plan tests/layouts/broken/circuits_joined_by_a_tee.ron | BW207
3 | volumes tests/layouts/broken/circuits_joined_by_a_tee.ron | BW207
3 | pedal tests/layouts/broken/circuits_joined_by_a_tee.ron | nothing was computed
3 | fluid --layout tests/layouts/broken/circuits_joined_by_a_tee.ron | no fluid was judged
3 | pedal tests/layouts/broken/circuits_joined_by_a_tee.ron --format json | \"is_sound\": false
// The plan is printed; the code says that the user's own order is unsafe.
4 | plan layouts/godwit.ron --order 'rear left, unit primary' | BW403
4 | plan layouts/godwit.ron --order 'rear left, unit primary' | rear left
";

#[test]
fn calls_end_with_their_code() {
    for [code, call, said] in rows(CALLS) {
        let run = run(call);
        let found = run.code.map(|code| code.to_string());
        assert_eq!(found.as_deref(), Some(code), "{call}: {}", run.stderr);
        assert!(code != "0" || run.stderr.is_empty(), "{call}");
        // What was found is the answer of `check`, and of JSON.
        let answers = call.starts_with("check") || call.ends_with("json");
        assert!(code != "3" || answers || run.stdout.is_empty(), "{call}");
        assert!(code != "1" || run.stdout.is_empty(), "{call}");
        let all = run.stdout + &run.stderr;
        assert!(!all.is_empty() && all.contains(said), "{call}: {all}");
    }
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
