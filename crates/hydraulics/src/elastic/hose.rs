//! The swelling of a brake hose: what the law allows, and what was measured.

use crate::known::{Evidence, Known};
use crate::range::{OutOfRange, between, positive};
use uom::si::f64::{Length, Pressure, Volume};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::psi;
use uom::si::volume::cubic_meter;

/// The two marks of a brake hose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Expansion {
    /// Marked HR.
    Regular,
    /// Marked HL.
    Low,
}

/// The bands of bore of the law's table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Band {
    /// 1/8 in (3.175 mm) or 3 mm, and below.
    Narrow,
    /// Above that and below 1/4 in or 6 mm.
    Middle,
    /// 1/4 in or 6 mm, and above.
    Wide,
}

/// The pressures of the table in psi, with nothing at the beginning.
const PRESSURES_PSI: [f64; 4] = [0.0, 1000.0, 1500.0, 2900.0];

/// One cubic centimetre for each foot, in m2 (m3 for each metre).
const CC_PER_FOOT_M2: f64 = 1e-6 / 0.3048;

/// What a rubber hose of 1/8 in swelled when it was tested, in cc/ft at the pressures of the table.
const MEASURED_CC_PER_FOOT: [f64; 3] = [0.136, 0.150, 0.290];

/// A bore is written to a tenth of a millimetre, and 1/8 in (3.175 mm) is 3.2 mm then: whatever is rounded to that is
/// meant to be 1/8 in. No hose is sold between that and 3/16 in (4.8 mm; common practice, no source).
const ABOVE_AN_EIGHTH_INCH_MM: f64 = 3.25;

impl Band {
    fn of(bore: Length) -> Result<Self, OutOfRange> {
        positive("bore", bore.get::<meter>(), "m")?;
        let bore_mm = bore.get::<millimeter>();
        Ok(if bore_mm < ABOVE_AN_EIGHTH_INCH_MM {
            Self::Narrow
        } else if bore_mm < 6.0 {
            Self::Middle
        } else {
            Self::Wide
        })
    }

    /// The row of the table in cc/ft; a figure that is missing ends it.
    fn limits_cc_per_foot(self, expansion: Expansion) -> &'static [f64] {
        match (self, expansion) {
            (Self::Narrow, Expansion::Regular) => &[0.66, 0.79, 1.21],
            (Self::Narrow, Expansion::Low) => &[0.33, 0.42, 0.61],
            (Self::Middle, Expansion::Regular) => &[0.86, 1.02, 1.67],
            (Self::Middle, Expansion::Low) => &[0.55, 0.72, 0.91],
            (Self::Wide, Expansion::Regular) => &[1.04, 1.30],
            (Self::Wide, Expansion::Low) => &[0.82, 1.17],
        }
    }
}

/// The most that a hose may swell by law. It is a limit and **never** a typical value: a rubber hose that was measured
/// swelled less than half of the stricter limit.
///
/// Formula: `V = L e(p)`, `e` read from the table, straight lines between its pressures and from nothing at no
/// pressure.
///
/// Symbols: `V` growth of the contents (m3); `L` free length between the fittings (m); `e` growth for each metre (m2);
/// `p` gauge pressure (Pa).
///
/// Range: 0 to 2900 psi (200 bar), an error above. Hoses of 6 mm and more end at 1500 psi (103 bar): no figure is
/// known beyond.
///
/// Source: [FMVSS106](crate#sources), Table I. Only the low-expansion figures of the narrowest band were read, and
/// those second-hand; all others are **from memory**.
///
/// ```
/// use bleedwright_hydraulics::elastic::hose::{Expansion, expansion_limit};
/// use uom::si::f64::{Length, Pressure};
/// use uom::si::{length::{foot, inch}, pressure::psi, volume::cubic_centimeter};
///
/// let swelling = expansion_limit(
///     Length::new::<inch>(0.125),
///     Expansion::Low,
///     Pressure::new::<psi>(1000.0),
///     Length::new::<foot>(1.0),
/// )?;
/// assert!((swelling.get::<cubic_centimeter>() - 0.33).abs() < 1e-9);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn expansion_limit(
    bore: Length,
    expansion: Expansion,
    pressure: Pressure,
    length: Length,
) -> Result<Volume, OutOfRange> {
    let row = Band::of(bore)?.limits_cc_per_foot(expansion);
    swelling(row, pressure, length)
}

/// What a hose swells, with bounds.
///
/// Formula: nominal as for [`expansion_limit`] with measured figures in place of the limits; low nothing (braided
/// fluoropolymer hoses hardly swell); high the limit for regular hoses.
///
/// Symbols: as for [`expansion_limit`].
///
/// Range: as for [`expansion_limit`].
///
/// ASSUMPTION: one rubber hose of 1/8 in was measured; it stands for its band. For wider hoses the measured figure is
/// scaled by the ratio of the low-expansion limits, which makes the result a guess.
///
/// Source: one test of a rubber hose, quoted second-hand; high bound [FMVSS106](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::{Evidence, elastic::hose::typical_expansion};
/// use uom::si::f64::{Length, Pressure};
/// use uom::si::{length::{meter, millimeter}, pressure::psi, volume::milliliter};
///
/// let swelling = typical_expansion(
///     Length::new::<millimeter>(3.0),
///     Pressure::new::<psi>(1500.0),
///     Length::new::<meter>(1.0),
/// )?;
/// assert!((swelling.nominal.get::<milliliter>() - 0.492).abs() < 5e-4);
/// assert_eq!(swelling.standing, Evidence::Typical);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn typical_expansion(
    bore: Length,
    pressure: Pressure,
    length: Length,
) -> Result<Known<Volume>, OutOfRange> {
    let band = Band::of(bore)?;
    let narrow = Band::Narrow.limits_cc_per_foot(Expansion::Low);
    let scaled: Vec<f64> = band
        .limits_cc_per_foot(Expansion::Low)
        .iter()
        .zip(narrow)
        .zip(MEASURED_CC_PER_FOOT)
        .map(|((limit, narrow), measured)| measured * limit / narrow)
        .collect();
    Ok(Known {
        low: Volume::default(),
        nominal: swelling(&scaled, pressure, length)?,
        high: expansion_limit(bore, Expansion::Regular, pressure, length)?,
        standing: if band == Band::Narrow {
            Evidence::Typical
        } else {
            Evidence::Guess
        },
    })
}

/// The swelling by a row of figures in cc/ft, which may end before the last pressure.
fn swelling(row: &[f64], pressure: Pressure, length: Length) -> Result<Volume, OutOfRange> {
    let length_m = positive("length", length.get::<meter>(), "m")?;
    let last_psi = PRESSURES_PSI[PRESSURES_PSI.len() - 1];
    // The last pressure itself may be converted to a hair beyond it.
    let pressure_psi = between(
        "pressure",
        pressure.get::<psi>(),
        (0.0, last_psi * (1.0 + 1e-9)),
        "psi",
    )?;
    let figures = std::iter::once(0.0).chain(row.iter().copied());
    let points: Vec<(f64, f64)> = PRESSURES_PSI.into_iter().zip(figures).collect();
    let cc_per_foot = points
        .windows(2)
        .find(|pair| pressure_psi <= pair[1].0 * (1.0 + 1e-9))
        .map(|pair| {
            let ((from, low), (to, high)) = (pair[0], pair[1]);
            low + (high - low) * (pressure_psi - from) / (to - from)
        })
        .ok_or(OutOfRange::NoFigure {
            what: "hoses of 6 mm bore and more above 1500 psi",
        })?;
    Ok(Volume::new::<cubic_meter>(
        cc_per_foot * CC_PER_FOOT_M2 * length_m,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::volume::milliliter;

    fn limit_ml(bore_mm: f64, expansion: Expansion, pressure_psi: f64) -> Result<f64, OutOfRange> {
        expansion_limit(
            Length::new::<millimeter>(bore_mm),
            expansion,
            Pressure::new::<psi>(pressure_psi),
            Length::new::<meter>(1.0),
        )
        .map(|volume| volume.get::<milliliter>())
    }

    #[test]
    fn bands_meet_where_the_law_says() {
        for (bore_mm, regular) in [
            (2.5, 2.17),
            (3.0, 2.17),
            (3.175, 2.17),
            (3.2, 2.17),
            (3.24, 2.17),
            (3.3, 2.82),
            (5.9, 2.82),
            (6.0, 3.41),
            (6.35, 3.41),
        ] {
            let found = limit_ml(bore_mm, Expansion::Regular, 1000.0).expect("in the table");
            assert!((found - regular).abs() <= 0.005, "{bore_mm}: {found}");
        }
    }

    #[test]
    fn between_the_pressures_lines_are_straight() {
        let at = |pressure| limit_ml(3.0, Expansion::Low, pressure).expect("in the table");
        assert!(at(0.0).abs() < 1e-12);
        assert!((at(500.0) - 0.5 * at(1000.0)).abs() < 1e-12);
        assert!((at(1250.0) - 0.5 * (at(1000.0) + at(1500.0))).abs() < 1e-12);
        assert!((at(2200.0) - 0.5 * (at(1500.0) + at(2900.0))).abs() < 1e-12);
    }

    #[test]
    fn what_the_table_does_not_say_is_refused() {
        assert!(matches!(
            limit_ml(6.0, Expansion::Low, 1600.0),
            Err(OutOfRange::NoFigure { .. })
        ));
        for (bore_mm, pressure) in [(3.0, 2901.0), (3.0, -1.0), (3.0, f64::NAN), (0.0, 100.0)] {
            assert!(limit_ml(bore_mm, Expansion::Regular, pressure).is_err());
        }
    }

    #[test]
    fn the_typical_hose_lies_below_both_limits() {
        for bore_mm in [3.0, 4.8, 6.35] {
            for pressure in [200.0, 1000.0, 1500.0] {
                let typical = typical_expansion(
                    Length::new::<millimeter>(bore_mm),
                    Pressure::new::<psi>(pressure),
                    Length::new::<meter>(1.0),
                )
                .expect("in the table");
                let low = limit_ml(bore_mm, Expansion::Low, pressure).expect("in the table");
                assert!(typical.nominal.get::<milliliter>() < low);
                assert!(typical.is_ordered());
            }
        }
    }
}
