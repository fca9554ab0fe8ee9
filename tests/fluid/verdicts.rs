//! Verdicts by the rules of the trade and by the limits of the law.

use super::document;
use crate::command_line::assert_said;
use crate::table::rows;
use bleedwright_inspection::fluid::{FluidReading, Verdict, WaterCurve, judge};
use bleedwright_network::{Bounds, Fluid};
use serde_json::Value;
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;

/// The best that is said of the fluid in a car: one reading at one place makes no fluid fit.
const GOOD: &str = "no_reason_found";

fn verdict(options: &str) -> String {
    text(&document(options)["verdict"])
}

fn text(value: &Value) -> String {
    value.as_str().expect("a word").to_owned()
}

/// What is measured, and the verdict.
const VERDICTS: &str = "
// What can be seen in a sample condemns it; that nothing can be seen is no measurement.
--grade dot4 --moisture '0.5 %' --look water | unsafe
--grade dot4 --moisture '0.5 %' --look dirt | unsafe
--grade dot4 --look clear | not_checked
// The maker's interval comes before the two years of common practice, and nothing excuses four years.
--grade dot4 --moisture '0.5 %' --age '13 months' --interval '1 year' | renew_soon
--grade dot4 --moisture '0.5 %' --age '30 months' --interval '3 years' | no_reason_found
--grade dot4 --moisture '0.5 %' --age '3 years' --interval '3 years' | renew_soon
--grade dot4 --moisture '0.5 %' --age '4 years' --interval '5 years' | renew_now
// The two-year rule: common practice, no source. It never makes fluid fit, and it is not outweighed by a good reading.
--grade dot4 --moisture '0.5 %' --age '23 months' | no_reason_found
--grade dot4 --moisture '0.5 %' --age '24 months' | renew_soon
--grade dot4 --moisture '0.5 %' --age '2 years' | renew_soon
--grade dot4 --moisture '0.5 %' --age '730 days' | renew_soon
--grade dot4 --moisture '0.5 %' --age '30 months' | renew_soon
--grade dot4 --moisture '0.5 %' --age '4 years' | renew_now
// Against the law's wet minima, FMVSS 116 S5.1.2: 140, 155, 180 degC; below them fluid is renewed now at the latest.
--grade dot4 --boiling '230 degC' | no_reason_found
--grade dot4 --boiling '180 degC' | no_reason_found
--grade dot4 --boiling '356 degF' | no_reason_found
--grade dot4 --boiling '165 degC' | renew_soon
--grade dot4 --boiling '311 degF' | renew_soon
--grade dot4 --boiling '154 degC' | renew_now
--grade dot4 --boiling '140 degC' | unsafe
--grade dot4 --boiling '180 degC ± 20 degC' | renew_soon
--grade dot3 --boiling '139 degC' | unsafe
--grade dot3 --boiling '130 degC' | unsafe
--grade dot5_1 --boiling '180 degC' | renew_soon
--grade dot5_1 --boiling '179 degC' | renew_now
--grade dot5 --boiling '260 degC' | no_reason_found
--grade dot5 --boiling '200 degC' | renew_soon
--grade dot5 --boiling '179 degC' | renew_now
--grade dot5 --boiling '105 degC' | unsafe
--grade mineral --boiling '140 degC' | not_checked
--grade mineral --boiling '139 degC' | unsafe
// The worse of two readings counts.
--grade dot4 --moisture '1 %' --boiling '150 degC' | renew_now
// An estimate below the wet boiling point that the maker counts on is no milder than a measured one, which says more.
--grade dot3 --moisture '2.99 %' | renew_soon
--grade dot3 --moisture '2.79 % ± 0.2 %' | renew_soon
--grade dot3 --moisture '2.99 %' --boiling '190 degC' | renew_soon
--grade dot4 --moisture '2.99 %' | renew_now
--grade dot4 --moisture '2.79 % ± 0.2 %' | renew_now
--grade dot4 --moisture '2.99 %' --boiling '190 degC' | renew_soon
--grade dot4_low_viscosity --moisture '2.99 %' | renew_now
--grade dot4_low_viscosity --moisture '2.79 % ± 0.2 %' | renew_now
--grade dot4_low_viscosity --moisture '2.99 %' --boiling '190 degC' | renew_soon
--grade dot5_1 --moisture '2.99 %' | renew_now
--grade dot5_1 --moisture '2.79 % ± 0.2 %' | renew_now
--grade dot5_1 --moisture '2.99 %' --boiling '190 degC' | renew_soon
// Lapwing needs DOT 4, whose minima count, even where the fluid's own are lower.
--layout layouts/lapwing.ron --grade dot4 --boiling '300 degC' | no_reason_found
--layout layouts/lapwing.ron --grade dot5_1 --boiling '300 degC' | no_reason_found
--layout layouts/lapwing.ron --grade dot3 --boiling '300 degC' | renew_soon
--layout layouts/lapwing.ron --grade dot5 --boiling '300 degC' | unsafe
--layout layouts/lapwing.ron --grade mineral --boiling '300 degC' | unsafe
--layout layouts/lapwing.ron --grade dot3 --boiling '150 degC' | renew_now
";

/// What is known of a bottle of fluid for a car that needs DOT 4, and the verdict.
const OF_A_BOTTLE: &str = "
// Ours: new fluid that reads 1 % or more is not filled in.
--bottle-grade dot4 --bottle-moisture '0.4 %' | no_reason_found
--bottle-grade dot4 --bottle-moisture '0.99 %' | no_reason_found
--bottle-grade dot4 --bottle-moisture '1 %' | do_not_use
--bottle-grade dot4 --bottle-moisture '0.8 % ± 0.3 %' | do_not_use
--bottle-grade dot4 --bottle-moisture '2 %' | do_not_use
// Whose label nobody read may be silicone, in which a tester for water reads next to nothing.
--bottle-moisture '0.4 %' | not_checked
--opened-for '1 week' | not_checked
--opened-for '1 month' | not_checked
--opened-for '8 months' | doubtful
--opened-for '1 year' | do_not_use
--bottle-moisture '0.4 %' --opened-for '8 months' | doubtful
--bottle-grade dot4 --bottle-moisture '0.4 %' --opened-for '1 week' | no_reason_found
--bottle-moisture '0.4 %' --opened-for '2 years' | do_not_use
// A label alone is no measurement.
--label-wet '320 degF' | not_checked
--label-wet '320 degF' --label-dry '460 degF' --opened-for '1 day' | not_checked
--bottle-grade dot4 | not_checked
--bottle-moisture '0.4 %' --label-wet '300 degF' | do_not_use
--bottle-grade dot3 | do_not_use
--bottle-grade mineral | do_not_use
";

#[test]
fn each_reading_has_its_verdict() {
    for [options, wanted] in rows(VERDICTS) {
        assert_eq!(document(options)["verdict"], wanted, "{options}");
    }
    for [options, wanted] in rows(OF_A_BOTTLE) {
        let judged = document(&format!("--grade dot4 {options}"));
        assert_eq!(judged["bottle"]["verdict"], wanted, "{options}");
    }
}

/// Common practice, no source: renewed from 3 % on. Ours: soon from 2 % on, unsafe from 4 % on. No sheet calls any of these but
/// the first a rule of the trade, and none reads them as a scale.
#[test]
fn moisture() {
    for (reading, wanted) in [
        ("0.5 %", GOOD),
        ("1.9 %", GOOD),
        ("2 %", "renew_soon"),
        ("2.5 %", "renew_soon"),
        ("2.6 %", "renew_soon"),
        ("3 %", "renew_now"),
        ("3.3 %", "renew_now"),
        ("4 %", "unsafe"),
        ("4.0 percent", "unsafe"),
        ("12 %", "unsafe"),
        // A tolerance counts at its wetter end.
        ("2.5 % ± 0.5 %", "renew_now"),
        ("3.5 % +- 0.5 %", "unsafe"),
    ] {
        for grade in ["dot3", "dot4", "dot4_low_viscosity", "DOT 5.1"] {
            assert_eq!(
                verdict(&format!("--grade '{grade}' --moisture '{reading}'")),
                wanted,
                "{grade} {reading}"
            );
        }
    }
    let call = "--grade dot4 --moisture '4.5 %'";
    let judged = document(call);
    let limits = judged["limits"].as_array().expect("a list");
    let shares: Vec<_> = limits.iter().filter(|limit| limit["unit"] == "%").collect();
    assert_eq!(shares.len(), 1, "{shares:?}");
    assert_eq!(shares[0]["below"], 3.0);
    assert_eq!(shares[0]["certainty"], "common_practice");
    let text = super::output_of(call);
    assert!(
        !text.contains("dangerous") && !text.contains("rule of the trade"),
        "{text}"
    );
}

/// Every reading keeps at least the verdict that these lines give, some of which are ours and not the law's: soon from 2 %, now
/// from 3 %, unsafe from 4 %; measured, soon below what the least fluid of the class boils at with 2 %, now below its wet minimum,
/// unsafe below 140, 146, 156, 170 degC. FMVSS 116 S5.1.1 and S5.1.2, ISO 4925 class 6 from memory.
#[test]
fn no_reading_is_judged_milder_than_the_lines() {
    let degc = ThermodynamicTemperature::new::<degree_celsius>;
    let share = Ratio::new::<percent>;
    for (grade, dry, wet, unsafe_below) in [
        (Fluid::Dot3, 205.0, 140.0, 140.0),
        (Fluid::Dot4, 230.0, 155.0, 146.0),
        (Fluid::Dot4LowViscosity, 250.0, 165.0, 156.0),
        (Fluid::Dot51, 260.0, 180.0, 170.0),
    ] {
        let soon = WaterCurve::through(degc(dry), share(3.7), degc(wet)).boiling(share(2.0));
        let by_water = |water: f64| match water {
            water if water >= 4.0 => Verdict::Unsafe,
            water if water >= 3.0 => Verdict::RenewNow,
            water if water >= 2.0 => Verdict::RenewSoon,
            _ => Verdict::NotChecked,
        };
        let by_boiling = |boils: f64| match boils {
            boils if boils < unsafe_below => Verdict::Unsafe,
            boils if boils < wet => Verdict::RenewNow,
            boils if degc(boils) < soon => Verdict::RenewSoon,
            _ => Verdict::NotChecked,
        };
        let waters = (0..=24).map(|quarter| Some(f64::from(quarter) / 4.0));
        for water in waters.chain([None]) {
            let points = (100..=300).step_by(4).map(|degc| Some(f64::from(degc)));
            for boils in points.chain([None]) {
                let judged = judge(&FluidReading {
                    grade: Some(grade),
                    moisture: water.map(|water| Bounds::exact(share(water))),
                    boiling: boils.map(|boils| Bounds::exact(degc(boils))),
                    ..FluidReading::default()
                });
                let judged = judged.expect("the reading can be");
                let least = [water.map(by_water), boils.map(by_boiling)];
                let least = least.into_iter().flatten().max();
                assert!(
                    judged.verdict >= least.unwrap_or(Verdict::NotChecked),
                    "{grade:?}, {water:?} %, {boils:?} degC: {:?}, not {least:?}",
                    judged.verdict
                );
                // An estimate below every class is no milder than a measurement there.
                if let (Some(estimate), None) = (&judged.boiling, boils)
                    && estimate.boiling.nominal < degc(140.0)
                {
                    assert_eq!(judged.verdict, Verdict::Unsafe, "{grade:?}, {water:?} %");
                }
            }
        }
    }
}

/// Calls, and what they say.
const SAID: &str = r#"
// DOT 5 is silicone and DOT 5.1 is not: said wherever either is named.
--grade dot5
+ DOT 5 (silicone, not DOT 5.1)

--grade dot5_1
+ DOT 5.1 (not the silicone DOT 5)

// Another grade is no better from a fresh bottle. Thinner and no lower: the maker decides.
--grade dot4 --bottle-grade dot5_1
+ goes in only where the maker allows it
= /bottle/verdict "only_if_allowed"
= /bottle/verdict_text "another grade, only where the maker allows it"

--grade dot4 --bottle-grade dot4_low_viscosity
+ boils no lower and is thinner in the cold
= /bottle/verdict "only_if_allowed"
= /bottle/verdict_text "another grade, only where the maker allows it"

// Thicker than asked for slows the anti-lock unit in the cold, whatever it boils at.
--grade dot5_1 --bottle-grade dot4
--grade dot4_low_viscosity --bottle-grade dot4
--grade dot4_low_viscosity --bottle-grade dot5_1
+ the anti-lock unit works slowly with thick fluid in the cold
= /bottle/verdict "do_not_use"
= /bottle/verdict_text "do not use"

--grade dot5_1 --bottle-grade dot5
+ the two do not mix
= /bottle/verdict "do_not_use"
= /bottle/verdict_text "do not use"

// What is filled in is not known, and one reading was taken: nothing but that no reason was found.
--layout layouts/lapwing.ron --moisture '1 %'
+ moisture: no reason found
-  fit
-  Fit
-  FIT
+ Not checked: grade
= /verdict "no_reason_found"
= /verdict_text "no reason found"
= /grade "dot4"
= /required_grade "dot4"

// Nothing measured is not checked, whatever else is said, and never fit.
--grade dot4 --age '1 month'
--layout layouts/lapwing.ron
--layout layouts/lapwing.ron --grade dot4 --age '3 weeks'
--grade dot4 --mixed-with dot4 --age '3 weeks'
--grade dot5 --age '1 month'
--grade mineral --boiling '250 degC' --age '1 day'
--grade dot4 --bottle-moisture '0.2 %'
+ Open:
= /verdict "not_checked"
= /boiling_degc null

--grade dot4
+ Open:
= /verdict "not_checked"
= /boiling_degc null
= /bottle null

// Only its age is known.
--grade dot4 --age '30 months'
+ due; two years where the maker states no interval (common practice, no source)
= /verdict "renew_soon"
"#;

#[test]
fn sheets_say_what_was_found() {
    assert_said("fluid", SAID);
}

/// No grade is taken to boil far below the least fluid of its own class only because nobody published its curve.
#[test]
fn an_estimate_is_no_lower_than_its_class() {
    for (grade, wet_degc) in [
        ("dot4", 155.0),
        ("dot4_low_viscosity", 165.0),
        ("dot5_1", 180.0),
    ] {
        let document = document(&format!("--grade '{grade}' --moisture '2.5 %'"));
        let nominal = document["boiling_degc"]["nominal"].as_f64();
        assert!(
            nominal.is_some_and(|degc| degc > wet_degc),
            "{grade}: {nominal:?}"
        );
    }
}

/// Water and boiling point that no fluid has together: neither counts as good, and what speaks against the fluid stays.
#[test]
fn readings_that_contradict() {
    let judge = |grade: &str, moisture: &str, boiling: &str| {
        document(&format!(
            "--grade '{grade}' --moisture '{moisture}' --boiling '{boiling}'"
        ))
    };
    for (moisture, boiling, wanted) in [
        ("1.9 %", "350 degC", "not_checked"),
        ("0.1 %", "165 degC", "renew_soon"),
        ("2.5 %", "350 degC", "renew_soon"),
        ("5 %", "350 degC", "unsafe"),
        ("0.2 %", "130 degC", "unsafe"),
    ] {
        let judged = judge("dot4", moisture, boiling);
        assert_eq!(judged["verdict"], wanted, "{moisture}, {boiling}");
        let why = text(&judged["contradiction"]);
        assert!(why.contains("measure both again"), "{why}");
        for item in judged["items"].as_array().expect("a list") {
            let is_read = ["moisture", "boiling_point"].contains(&text(&item["subject"]).as_str());
            assert!(
                !is_read || item["verdict"] != GOOD,
                "{moisture}, {boiling}: {item}"
            );
        }
    }
    let alone = judge("dot4", "1.9 %", "350 degC");
    assert_eq!(alone["verdict_text"], "measure again");
    // Both within what is known, a tolerance that reaches it, and the best fluid on sale, new.
    for (moisture, boiling) in [
        ("1.9 %", "190 degC"),
        ("1.9 % ± 0.5 %", "235 degC ± 5 degC"),
        ("0 %", "335 degC"),
        ("3.7 %", "155 degC"),
    ] {
        let judged = judge("dot4", moisture, boiling);
        assert!(
            judged["contradiction"].is_null(),
            "{moisture}, {boiling}: {judged}"
        );
    }
    // What is in it is not known: it may be a grade that boils higher than the one asked for.
    let unknown = document("--layout layouts/lapwing.ron --moisture '0.1 %' --boiling '300 degC'");
    assert!(unknown["contradiction"].is_null(), "{unknown}");
}

/// A label that states less than its class must have is refused: FMVSS 116 S5.1.1 and S5.1.2 in degF as printed there.
#[test]
fn label_against_the_class() {
    for (grade, dry_degf, wet_degf) in [
        ("dot3", 401, 284),
        ("dot4", 446, 311),
        ("dot5", 500, 356),
        ("dot5_1", 500, 356),
    ] {
        for (option, least) in [("--label-dry", dry_degf), ("--label-wet", wet_degf)] {
            let judge = |degf: i32| {
                let stated = format!("{degf} degF");
                let judged = document(&format!("--grade '{grade}' {option} '{stated}'"));
                text(&judged["bottle"]["verdict"])
            };
            assert_eq!(judge(least), "not_checked", "{grade} {option}");
            assert_eq!(judge(least - 1), "do_not_use", "{grade} {option}");
        }
    }
}

/// Glycol grades mix and fall to the lowest; silicone and mineral oil mix with neither (from memory and second-hand).
#[test]
fn mixtures() {
    let grades = [
        "dot3",
        "dot4",
        "dot4_low_viscosity",
        "dot5",
        "dot5_1",
        "mineral",
    ];
    let family = |grade: &str| match grade {
        "dot5" => 1,
        "mineral" => 2,
        _ => 0,
    };
    for base in grades {
        for added in grades {
            let judged = document(&format!("--grade '{base}' --mixed-with '{added}'"));
            let is_unsafe = judged["verdict"] == "unsafe";
            assert_eq!(is_unsafe, family(base) != family(added), "{base} {added}");
        }
    }
    let fallen = document("--grade dot5_1 --mixed-with dot3 --moisture '1 %'");
    assert_eq!(fallen["grade"], "dot3");
    assert_eq!(fallen["verdict"], "renew_soon");
    // Nothing about such a mixture is called fit.
    let wrong = document("--layout layouts/lapwing.ron --grade dot4 --mixed-with dot5");
    let items = wrong["items"].as_array().expect("a list");
    assert!(
        items.iter().all(|item| item["verdict"] != GOOD),
        "{items:?}"
    );
    // The danger is told even where a moisture reading would be refused.
    let mixed = document("--grade dot5 --mixed-with dot4 --moisture '1 %'");
    assert_eq!(mixed["verdict"], "unsafe");
    assert!(mixed["boiling_degc"].is_null());
}

/// A label raises nominal and high where the car holds that fluid, and never low.
#[test]
fn estimate_by_the_label() {
    let estimate = |more: &str| {
        let call = format!("--grade dot4 --moisture '2.5 %' {more}");
        let range = document(&call)["boiling_degc"].clone();
        ["low", "nominal", "high"].map(|end| range[end].as_f64().expect("a number"))
    };
    let plain = estimate("");
    let label = "--label-dry '536 degF' --label-wet '374 degF'";
    assert!(
        plain
            .iter()
            .zip(estimate(label))
            .all(|(one, other)| (one - other).abs() < 1e-9)
    );
    let same = estimate(&format!("{label} --of-the-label"));
    assert!((same[0] - plain[0]).abs() < 1e-9);
    assert!(
        same[1] > plain[1] && same[2] > same[1],
        "{same:?} {plain:?}"
    );
}
