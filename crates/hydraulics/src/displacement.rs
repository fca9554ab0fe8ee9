//! What a stroke displaces, and how far the pedal travels for it.

use uom::si::f64::{Area, Length, Ratio, Volume};

/// What one chamber of a cylinder displaces on a partial stroke.
///
/// Formula: `V = A max(0, S - c)`.
///
/// Symbols: `V` displaced volume (m3); `A` area of the piston (m2); `S` how far the piston of **that** chamber goes
/// (m); `c` cut-off, the travel that only closes the way back to the reservoir (m).
///
/// Range: an old cylinder is not to be bottomed, so `S` stays below the whole stroke when bleeding by pedal; it must be
/// free, that is the other circuit takes its own share.
///
/// Source: geometry of the cylinder, [Limpert2011](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::displacement::stroke_displacement;
/// use bleedwright_hydraulics::geometry::bore_area;
/// use uom::si::{f64::Length, length::millimeter, volume::milliliter};
///
/// let area = bore_area(Length::new::<millimeter>(23.8));
/// let stroke = Length::new::<millimeter>(17.0 * 0.6);
/// let cut_off = Length::new::<millimeter>(1.2);
/// let volume = stroke_displacement(area, stroke, cut_off);
/// assert!((volume.get::<milliliter>() - 4.004).abs() < 1e-3);
/// ```
pub fn stroke_displacement(piston_area: Area, stroke: Length, cut_off: Length) -> Volume {
    piston_area * (stroke - cut_off).max(Length::default())
}

/// How far the pedal travels for a partial stroke of one chamber.
///
/// Formula: `y = r (S + c) + f`.
///
/// Symbols: `y` travel at the pedal's pad (m); `r` pedal ratio (dimensionless); `S` how far the piston of the chamber
/// being bled goes (m); `c` cut-off of the other chamber, where that one must close first, else zero (m); `f` free play
/// measured at the pad (m).
///
/// Range: small angles of the pedal; no compliance of the dash or the linkage.
///
/// Source: lever rule, [Limpert2011](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::displacement::pedal_travel;
/// use uom::si::{f64::{Length, Ratio}, length::millimeter, ratio::ratio};
///
/// let travel = pedal_travel(
///     Ratio::new::<ratio>(4.2),
///     Length::new::<millimeter>(14.0 * 0.6),
///     Length::new::<millimeter>(1.2),
///     Length::new::<millimeter>(3.0),
/// );
/// assert!((travel.get::<millimeter>() - 43.32).abs() < 1e-9);
/// ```
pub fn pedal_travel(
    pedal_ratio: Ratio,
    stroke: Length,
    other_cut_off: Length,
    free_play: Length,
) -> Length {
    pedal_ratio * (stroke + other_cut_off) + free_play
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::bore_area;
    use uom::si::length::millimeter;

    fn mm(length_mm: f64) -> Length {
        Length::new::<millimeter>(length_mm)
    }

    #[test]
    fn a_stroke_shorter_than_the_cut_off_displaces_nothing() {
        let area = bore_area(mm(20.0));
        assert_eq!(
            stroke_displacement(area, mm(1.0), mm(1.5)),
            Volume::default()
        );
    }
}
