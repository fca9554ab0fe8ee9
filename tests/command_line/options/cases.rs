//! For each option of each verb a call without it, and what it adds. `DIR` is a folder with the files of [`super::fill`].

use crate::table::rows;

/// The options of a plan, which five verbs take: the layout, the options of both calls, and those of the second.
const OF_A_PLAN: &str = "
layouts/lapwing.ron | | --for fill
layouts/lapwing.ron | | --opened 'front left caliper'
layouts/lapwing.ron | | --replaced 'front left caliper'
layouts/lapwing.ron | --opened 'front left caliper' | --drained 'front pipe'
layouts/avocet.ron | --opened 'red block' | --drained 'green cylinder pipe'
layouts/lapwing.ron | --opened 'front left caliper' | --clamped 'front left hose'
layouts/lapwing.ron | --opened 'front left caliper' | --clamped 'front left pipe'
layouts/lapwing.ron | --opened 'front left caliper' | --plugged 'front left hose'
layouts/lapwing.ron | --opened 'front left caliper' | --plugged 'rail pipe'
layouts/lapwing.ron | --opened 'front left caliper' | --propped
layouts/lapwing.ron | | --propped
layouts/lapwing.ron | --opened 'front left caliper' | --ran-dry 'rear brakes'
tests/layouts/broken/accumulator.ron | | --depressurised
layouts/lapwing.ron | | --registration 'SM 1742'
layouts/lapwing.ron | | --date '5 April'
layouts/lapwing.ron | | --method pressure
layouts/whimbrel.ron | | --method gravity
layouts/lapwing.ron | | --begin nearest
tests/layouts/broken/order_open.ron | | --begin nearest
layouts/lapwing.ron | | --circuit-first primary
layouts/lapwing.ron | --for fill | --circuit-first secondary
layouts/whimbrel.ron | | --order 'front left upper'
layouts/lapwing.ron | | --skip 'rear left'
layouts/lapwing.ron | | --done 'rear left'
layouts/turnstone.ron | --done rear --done 'front left' --done 'front right' | --done lever
layouts/lapwing.ron | | --residual '1 %'
tests/layouts/broken/residual_out_of_reach.ron | | --residual '0.1 %'
layouts/lapwing.ron | | --laid-up
tests/layouts/broken/stroke_too_short_after_standing.ron | | --laid-up
layouts/lapwing.ron | | --stroke '100 %'
layouts/lapwing.ron | --method pressure | --tank-pressure '2 bar'
layouts/lapwing.ron | | --bottle '2 l'
layouts/whimbrel.ron | --method gravity | --temperature '-20 degC'
layouts/lapwing.ron | | --new-fluid dot3
";

/// The options of one verb: the verb, the call, and what the second has besides.
const OF_A_VERB: &str = "
plan | layouts/lapwing.ron | --why
plan | layouts/lapwing.ron | --brief
compare | layouts/lapwing.ron --with '--begin nearest' | --with '--for fill'
compare | layouts/lapwing.ron | --orders
compare | layouts/lapwing.ron --orders | --most-orders 5
compare | layouts/lapwing.ron --for fill --with '--begin nearest --for fill' | --without-gravity
simulate | layouts/lapwing.ron | --press 5
simulate | layouts/lapwing.ron | --hold 9
simulate | layouts/lapwing.ron | --release 9
simulate | layouts/lapwing.ron | --left-open
simulate | layouts/lapwing.ron --for fill | --without-gravity
simulate | layouts/lapwing.ron --opened 'front tee' | --pocket '300 mm'
simulate | layouts/whimbrel.ron --for fill | --index 1.4
readings | DIR/new.ron | --for layouts/lapwing.ron
readings | DIR/new.ron --for layouts/lapwing.ron | --with '--method pressure'
readings | DIR/record.ron | --set 'pedal free = 150 mm'
readings | DIR/record.ron | --names
draft | --split II --steering left | --split X
draft | --steering left | --split X
draft | --split II | --steering left
draft | --split II --steering left | --wheelbase '3.1 m'
draft | --split II --steering left | --track '1.9 m'
draft | --split II --steering left | --cylinder-behind-axle '0.9 m'
draft | --split II --steering left | --cylinder twin
draft | --split II --steering left | --half nearest
draft | --split II --steering left | --booster none
draft | --split II --steering left | --front drum
draft | --split II --steering left | --rear disc
draft | --split II --steering left | --rear-axle independent
draft | --split II --steering left | --pipe '1/4 in'
draft | --split II --steering left | --rear-pipe '1/4 in'
draft | --split II --steering left | --anti-lock
draft | --split II --steering left | --fluid dot3
draft | --split II --steering left | --units inch
draft | --split II --steering left | --name Stilt
draft | --split II --steering left | --ask
draft | | --from lapwing
draft | --from van | --shapes DIR/shapes
draft | --set 'front pipe length = 0.5 m' | --update DIR/van.ron
draft | --update DIR/van.ron | --set 'front pipe length = 0.5 m'
fluid | | --grade dot4
fluid | --grade dot4 | --layout layouts/lapwing.ron
fluid | --grade dot4 | --moisture '2.5 %'
fluid | --grade dot4 | --boiling '150 degC'
fluid | --grade dot4 | --age '30 months'
fluid | --grade dot4 --age '30 months' | --interval '3 years'
fluid | --grade dot4 | --look water
fluid | --grade dot4 | --mixed-with dot3
fluid | --grade dot4 --moisture '2.5 %' --label-dry '280 degC' | --of-the-label
fluid | --grade dot4 | --bottle-grade dot3
fluid | --grade dot4 | --bottle-moisture '0.4 %'
fluid | --grade dot4 | --opened-for '8 months'
fluid | --grade dot4 | --label-wet '170 degC'
fluid | --grade dot4 | --label-dry '280 degC'
pedal | layouts/turnstone.ron | --control 'lever cylinder'
pedal | layouts/lapwing.ron | --force '500 N'
pedal | layouts/lapwing.ron | --booster exhausted
pedal | layouts/lapwing.ron | --air '5 ml'
pedal | layouts/lapwing.ron --air '5 ml' | --air-in secondary
pedal | layouts/lapwing.ron --booster exhausted | --measured '300 N: 66 mm'
pedal | layouts/lapwing.ron --booster exhausted --measured '300 N: 66 mm' | --pumped '300 N: 58 mm'
pedal | layouts/lapwing.ron | --symptom sinking
pedal | layouts/lapwing.ron | --bore '20 mm'
pedal | layouts/lapwing.ron | --ratio 5
pedal | layouts/curlew.ron | --share '60 %'
";

fn rows_of(table: &'static str, option: &str) -> Vec<[&'static str; 3]> {
    let wanted = format!("--{option}");
    rows(table)
        .filter(|[_, _, more]| more.split(' ').next() == Some(&wanted))
        .collect()
}

/// Calls of a verb that takes the options of a plan, without an option and with it.
pub(super) fn of_a_plan(verb: &str, option: &str) -> Vec<[String; 2]> {
    let cases = rows_of(OF_A_PLAN, option).into_iter();
    let calls = cases.map(|[layout, base, more]| {
        // Two layouts are planned with the same options.
        let second = if verb == "compare" { layout } else { "" };
        [format!("{layout} {second} {base}"), more.to_owned()]
    });
    calls.collect()
}

/// Calls of a verb without an option of its own, and with it.
pub(super) fn of_a_verb(verb: &str, option: &str) -> Vec<[String; 2]> {
    let call = |base: &str, more: &str| vec![[base.to_owned(), more.to_owned()]];
    match option {
        // A verb that prints no text prints messages.
        "color" => call(refusing(verb), "--color always"),
        "width" => call(refusing(verb), "--width 40"),
        "format" => call(sheet(verb), "--format json"),
        "output" => call(sheet(verb), "--output DIR/new"),
        "overwrite" => call(&format!("{} -o DIR/old", sheet(verb)), "--overwrite"),
        _ => {
            let cases = rows_of(OF_A_VERB, option).into_iter();
            let own = cases.filter(|[of, ..]| *of == verb);
            own.map(|[_, base, more]| [base.to_owned(), more.to_owned()])
                .collect()
        }
    }
}

/// A call that prints a sheet.
fn sheet(verb: &str) -> &'static str {
    match verb {
        "compare" => "layouts/lapwing.ron --with '--begin nearest'",
        "draft" => "--split II --steering left",
        "fluid" => "--grade dot4",
        "readings" => "DIR/record.ron",
        _ => "layouts/lapwing.ron",
    }
}

/// A call that says more than a line about what is wrong, or that says anything.
fn refusing(verb: &str) -> &'static str {
    match verb {
        "compare" => "tests/layouts/broken/zero.ron --with '--begin nearest'",
        "completions" => "bash",
        "draft" => "--split II --steering left --update tests/layouts/broken/zero.ron",
        "fluid" => "--layout tests/layouts/broken/zero.ron",
        "manual" => "",
        _ => "tests/layouts/broken/zero.ron",
    }
}
