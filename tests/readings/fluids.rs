//! What a record says of the fluid, at, above and under each limit.

use super::verdicts::{assert_state, state};
use super::{complete, with};
use bleedwright_inspection::fluid::{
    FluidError, GradeReason, MoistureReason, Reason, instead_of_moisture,
};
use bleedwright_inspection::readings::{Check, Found, OfFluid, Remark, Wanted, What};
use bleedwright_inspection::{Record, State, judge_record};
use bleedwright_network::{Fluid, Substitute};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

fn degc(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(value)
}

/// What is said of the fluid at a check.
pub(super) fn said(check: &Check) -> &[OfFluid] {
    match &check.remark {
        Some(Remark::Fluid(said)) => said,
        _ => &[],
    }
}

/// Common practice, no source: 3 % is renewed. From 2 % on: assumption. The limit that the sheet prints is a boiling point, and
/// per cents stand on it as what was read, never as a scale.
#[test]
fn water() {
    let check = ("", "boiling point of");
    for (value, wanted) in [
        ("0 %", State::Within),
        ("0.9 %", State::Within),
        ("0.6 % ± 0.3 %", State::Within),
        ("1.2 %", State::Within),
        ("2 %", State::LookAgain),
        ("2.6 %", State::LookAgain),
        // Estimated to boil below the wet minimum of DOT 4.
        ("2.9 %", State::Fails),
        ("3 %", State::Fails),
        ("4 %", State::Fails),
        ("2.9 % ± 0.2 %", State::Fails),
        ("not_checked", State::NotChecked),
    ] {
        assert_state(("moisture", value), check, wanted);
    }
    let sheet = judge_record(&with(&complete(), "moisture", "1.2 %"));
    let found = sheet
        .checks
        .iter()
        .find(|found| found.what == What::Boiling);
    let found = found.expect("the fluid is always judged");
    let wet = Wanted::WetMinimum(Fluid::Dot4, degc(155.0));
    assert_eq!(found.limit, wet);
    let Found::Fluid {
        moisture,
        estimated,
        ..
    } = &found.found
    else {
        panic!("{found:?}")
    };
    assert_eq!(moisture.as_deref(), Some("1.2 %"));
    assert!(
        estimated.is_some_and(|point| point > degc(155.0)),
        "{found:?}"
    );
}

/// FMVSS 116 S5.1.2: DOT 4 boils wet at 155 degC or more. Either tester will do; the worse counts where both were used.
#[test]
fn boiling_points() {
    let without = with(&complete(), "moisture", "not_checked");
    let at = |record: &Record, value| with(record, "boiling point", value);
    for (value, wanted) in [
        ("230 degC", State::Within),
        ("446 degF", State::Within),
        ("154 degC", State::Fails),
        ("157 degC ± 5 degC", State::Fails),
        ("100 degC", State::Fails),
    ] {
        assert_eq!(
            state(&at(&without, value), "", "boiling point of"),
            wanted,
            "{value}"
        );
    }
    assert_eq!(
        state(&at(&complete(), "230 degC"), "", "boiling point of"),
        State::Within
    );
    assert_eq!(
        state(&at(&complete(), "150 degC"), "", "boiling point of"),
        State::Fails
    );
    let wet = with(&complete(), "moisture", "4 %");
    assert_eq!(
        state(&at(&wet, "230 degC"), "", "boiling point of"),
        State::Fails
    );
}

#[test]
fn grades_of_fluid() {
    let check = ("", "fluid filled in");
    for (value, wanted) in [
        ("DOT 4", State::Within),
        ("dot 5.1", State::Within),
        ("dot3", State::LookAgain),
        ("dot5", State::Fails),
        ("mineral", State::Fails),
        ("not_checked", State::NotChecked),
    ] {
        assert_state(("fluid", value), check, wanted);
    }
    // A grade that is not the one wanted is never within its limit without a reason.
    let higher = judge_record(&with(&complete(), "fluid", "dot 5.1"));
    let higher = higher.checks.iter().find(|found| found.what == What::Fluid);
    let said = said(higher.expect("the fluid is always asked for"));
    let [OfFluid::Car(item)] = said else {
        panic!("{said:?}")
    };
    let is_if_allowed = |substitute| matches!(substitute, Substitute::IfAllowed { .. });
    assert!(
        matches!(item.reason, Reason::Grade(GradeReason::Held { substitute, .. }) if is_if_allowed(substitute)),
        "{item:?}"
    );
    assert_state(("vehicle fluid", "not_checked"), check, State::NotChecked);
    // Without any grade no water is fine.
    let unknown = with(&complete(), "vehicle fluid", "not_checked");
    let unknown = with(&unknown, "fluid", "not_checked");
    assert_eq!(state(&unknown, "", "boiling point of"), State::NotChecked);
    // With the layout's alone it is held against that one, but nobody knows what went in.
    let taken = with(&complete(), "fluid", "not_checked");
    assert_eq!(state(&taken, "", "boiling point of"), State::Within);
    assert_eq!(judge_record(&taken).state(), State::NotChecked);
}

/// FMVSS 116 S5.1.7 asks DOT 5 for no tolerance of water, and a tester for moisture does not read it: common practice.
#[test]
fn silicone_takes_no_moisture_reading() {
    let silicone = with(&with(&complete(), "vehicle fluid", "dot5"), "fluid", "dot5");
    let check = |record: &Record| {
        let checks = judge_record(record).checks;
        let water = checks.into_iter().find(|check| check.what == What::Boiling);
        water.expect("the fluid is always judged")
    };
    assert_eq!(state(&silicone, "", "fluid filled in"), State::Within);
    let refused = check(&silicone);
    assert_eq!(refused.state, State::NotChecked);
    let says_no_water = |said: &OfFluid| match said {
        OfFluid::Refused(error) => matches!(error, FluidError::NoMoisture { .. }),
        OfFluid::Car(item) => item.reason == Reason::Moisture(MoistureReason::NoWater(Fluid::Dot5)),
        OfFluid::Bottle(_) => false,
    };
    assert!(said(&refused).iter().any(says_no_water), "{refused:?}");
    let open = check(&with(&silicone, "moisture", "not_checked"));
    assert_eq!(open.state, State::NotChecked);
    assert!(said(&open).iter().all(says_no_water), "{open:?}");
    assert!(instead_of_moisture(Fluid::Dot5).contains("measure the boiling point"));
    let boiled = with(
        &with(&silicone, "moisture", "not_checked"),
        "boiling point",
        "265 degC",
    );
    assert_eq!(check(&boiled).state, State::Within);
    assert_eq!(judge_record(&boiled).state(), State::Within);
}

/// A reading that cannot be judged, or a grade without limits, takes nothing from a boiling point that fails.
#[test]
fn a_fluid_that_boils_like_water_fails_by_any_name() {
    let boiled = with(&complete(), "moisture", "not_checked");
    let boiled = with(&boiled, "boiling point", "105 degC");
    for grade in ["dot4", "dot5", "mineral"] {
        let record = with(&with(&boiled, "vehicle fluid", grade), "fluid", grade);
        assert_eq!(
            state(&record, "", "boiling point of"),
            State::Fails,
            "{grade}"
        );
        let also = with(&record, "moisture", "0.5 %");
        assert_eq!(
            state(&also, "", "boiling point of"),
            State::Fails,
            "{grade}, moisture"
        );
    }
}
