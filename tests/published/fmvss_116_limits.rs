//! 49 CFR 571.116 (FMVSS 116), S5.1.1 to S5.1.4 and S5.1.14: what a grade must keep, each figure beside its clause. Boiling
//! points as others quote the law, that of wet DOT 4 also read in a government paper; viscosities and pH second-hand. ISO
//! 4925:2020: from memory. All are printed in whole degrees, so that degC and degF must both come out whole.

use bleedwright_inspection::fluid::{Certainty, Colour, Limit, LimitValue, Property, limits_of};
use bleedwright_network::{Fluid, FluidFamily};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};

fn limit(grade: Fluid, clause: &str, property: Property) -> Limit {
    limits_of(grade)
        .into_iter()
        .find(|limit| limit.clause == Some(clause) && limit.property == property)
        .unwrap_or_else(|| panic!("{grade:?} has no {clause}"))
}

fn assert_boils(grade: Fluid, clause: &str, property: Property, degc: f64, degf: f64) {
    let LimitValue::TemperatureAtLeast(least) = limit(grade, clause, property).value else {
        panic!("{grade:?} {clause} is no least temperature");
    };
    let found = (
        least.get::<degree_celsius>(),
        least.get::<degree_fahrenheit>(),
    );
    assert!(
        (found.0 - degc).abs() < 1e-9 && (found.1 - degf).abs() < 1e-9,
        "{grade:?} {clause}: {found:?}"
    );
}

fn cold_mm2_s(grade: Fluid, clause: &str) -> f64 {
    let LimitValue::ViscosityAtMost(most) = limit(grade, clause, Property::ColdViscosity).value
    else {
        panic!("{grade:?} {clause} is no greatest viscosity");
    };
    most.get::<square_millimeter_per_second>()
}

/// S5.1.1: DOT 3 205 degC (401 degF), DOT 4 230 (446), DOT 5 and 5.1 260 (500). S5.1.2: 140 (284), 155 (311), 180 (356).
#[test]
fn boiling_points() {
    for (grade, dry, wet) in [
        (Fluid::Dot3, (205.0, 401.0), (140.0, 284.0)),
        (Fluid::Dot4, (230.0, 446.0), (155.0, 311.0)),
        (Fluid::Dot4LowViscosity, (230.0, 446.0), (155.0, 311.0)),
        (Fluid::Dot5, (260.0, 500.0), (180.0, 356.0)),
        (Fluid::Dot51, (260.0, 500.0), (180.0, 356.0)),
    ] {
        assert_boils(
            grade,
            "FMVSS 116 S5.1.1",
            Property::DryBoiling,
            dry.0,
            dry.1,
        );
        assert_boils(
            grade,
            "FMVSS 116 S5.1.2",
            Property::WetBoiling,
            wet.0,
            wet.1,
        );
    }
}

/// S5.1.3: at most 1500, 1800, 900 mm2/s at -40 degC, at least 1.5 at 100 degC.
#[test]
fn viscosities() {
    for (grade, cold) in [
        (Fluid::Dot3, 1500.0),
        (Fluid::Dot4, 1800.0),
        (Fluid::Dot5, 900.0),
        (Fluid::Dot51, 900.0),
    ] {
        let found = cold_mm2_s(grade, "FMVSS 116 S5.1.3");
        assert!((found - cold).abs() < 1e-9, "{grade:?}: {found}");
        let hot = limit(grade, "FMVSS 116 S5.1.3", Property::HotViscosity).value;
        let LimitValue::ViscosityAtLeast(least) = hot else {
            panic!("{grade:?}: {hot:?}");
        };
        let found = least.get::<square_millimeter_per_second>();
        assert!((found - 1.5).abs() < 1e-9, "{grade:?}: {found}");
    }
}

/// S5.1.4: pH 7.0 to 11.5, silicone excepted. S5.1.14: purple for silicone, green for mineral oil, else colourless to amber.
#[test]
fn acidity_and_colour() {
    for grade in Fluid::ALL.iter().copied() {
        let limits = limits_of(grade);
        let acidity = limits
            .iter()
            .find(|limit| limit.property == Property::Acidity);
        assert_eq!(
            acidity.map(|limit| limit.value),
            (grade.family() == FluidFamily::Glycol).then_some(LimitValue::AcidityWithin {
                low_ph: 7.0,
                high_ph: 11.5
            }),
            "{grade:?}"
        );
        let wanted = match grade.family() {
            FluidFamily::Glycol => Colour::Pale,
            FluidFamily::Silicone => Colour::Purple,
            FluidFamily::MineralOil => Colour::Green,
        };
        let colour = limit(grade, "FMVSS 116 S5.1.14", Property::Colour).value;
        assert_eq!(colour, LimitValue::Colour(wanted), "{grade:?}");
    }
}

/// ISO 4925, classes 3, 4, 6 and 5-1, from memory; the code must say so.
#[test]
fn classes_of_iso_4925() {
    for (grade, clause, dry, wet, cold) in [
        (Fluid::Dot3, "ISO 4925 class 3", 205.0, 140.0, 1500.0),
        (Fluid::Dot4, "ISO 4925 class 4", 230.0, 155.0, 1500.0),
        (
            Fluid::Dot4LowViscosity,
            "ISO 4925 class 6",
            250.0,
            165.0,
            750.0,
        ),
        (Fluid::Dot51, "ISO 4925 class 5-1", 260.0, 180.0, 900.0),
    ] {
        let degf = |degc: f64| degc * 9.0 / 5.0 + 32.0;
        assert_boils(grade, clause, Property::DryBoiling, dry, degf(dry));
        assert_boils(grade, clause, Property::WetBoiling, wet, degf(wet));
        assert!((cold_mm2_s(grade, clause) - cold).abs() < 1e-9, "{grade:?}");
        let of_the_standard = limits_of(grade)
            .into_iter()
            .filter(|limit| limit.clause == Some(clause));
        for limit in of_the_standard {
            assert_eq!(limit.certainty, Certainty::FromMemory, "{limit:?}");
        }
    }
}

/// What the loader compares grades by is the highest of these minima.
#[test]
fn the_loader_knows_the_same_dry_minima() {
    for grade in Fluid::ALL.iter().copied() {
        let highest = limits_of(grade)
            .into_iter()
            .filter(|limit| limit.property == Property::DryBoiling)
            .filter_map(|limit| match limit.value {
                LimitValue::TemperatureAtLeast(least) => Some(least.get::<degree_celsius>()),
                _ => None,
            })
            .reduce(f64::max);
        let known = grade.least_dry_boiling_point_degc();
        assert_eq!(highest.map(f64::round), known.map(f64::round), "{grade:?}");
    }
}
