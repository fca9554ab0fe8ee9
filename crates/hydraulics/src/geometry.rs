//! The area of a bore.

use std::f64::consts::FRAC_PI_4;
use uom::si::f64::{Area, Length};

/// The area of a round bore.
///
/// Formula: `A = pi D^2 / 4`.
///
/// Symbols: `A` area (m2); `D` bore, that is inside diameter (m).
///
/// Range: a round bore.
///
/// Source: elementary geometry, [Bronshtein2007](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::geometry::bore_area;
/// use uom::si::{area::square_millimeter, f64::Length, length::millimeter};
///
/// let area = bore_area(Length::new::<millimeter>(20.64));
/// assert!((area.get::<square_millimeter>() - 334.587).abs() < 1e-3);
/// ```
pub fn bore_area(bore: Length) -> Area {
    bore * bore * FRAC_PI_4
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::area::square_millimeter;
    use uom::si::length::{meter, millimeter};
    use uom::si::volume::milliliter;

    fn mm(length_mm: f64) -> Length {
        Length::new::<millimeter>(length_mm)
    }

    /// By hand from `pi D^2 / 4`: common pipe and hose bores, contents of one metre.
    #[test]
    fn contents_of_one_metre() {
        for (bore_mm, per_metre_ml) in [
            (3.0, 7.07),
            (3.34, 8.76),
            (4.0, 12.57),
            (4.6, 16.62),
            (6.35, 31.67),
        ] {
            let held = (bore_area(mm(bore_mm)) * Length::new::<meter>(1.0)).get::<milliliter>();
            assert!((held - per_metre_ml).abs() < 0.005, "{bore_mm}: {held}");
        }
    }

    /// By hand: a bore of 7/8 in (22.225 mm).
    #[test]
    fn area_of_a_cylinder_bore() {
        let area = bore_area(mm(22.225)).get::<square_millimeter>();
        assert!((area - 387.9).abs() < 0.05, "{area}");
    }
}
