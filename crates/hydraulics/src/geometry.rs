//! Areas and volumes of bores, pistons and the space above a screw.

use std::f64::consts::{FRAC_PI_4, PI};
use uom::si::f64::{Area, Length, Ratio, Volume};
use uom::si::ratio::ratio;

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

/// What a round pipe or hose holds.
///
/// Formula: `V = A L` with `A` from [`bore_area`].
///
/// Symbols: `V` contents (m3); `A` bore area (m2); `L` length along the pipe's axis (m).
///
/// Range: a round bore of one size; a bend holds as much as a straight piece with the same length of axis.
///
/// Source: elementary geometry, [Bronshtein2007](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::geometry::contents;
/// use uom::si::{f64::Length, length::{meter, millimeter}, volume::milliliter};
///
/// let held = contents(Length::new::<millimeter>(3.3), Length::new::<meter>(1.0));
/// assert!((held.get::<milliliter>() - 8.5530).abs() < 1e-4);
/// ```
pub fn contents(bore: Length, length: Length) -> Volume {
    bore_area(bore) * length
}

/// What a piston displaces when it moves.
///
/// Formula: `V = A x` with `A` from [`bore_area`].
///
/// Symbols: `V` displaced volume (m3); `A` area of the piston (m2); `x` travel (m).
///
/// Range: a round piston; seals that roll and cups that flex are not counted.
///
/// Source: elementary geometry, [Bronshtein2007](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::geometry::piston_displacement;
/// use uom::si::{f64::Length, length::millimeter, volume::milliliter};
///
/// // A 54 mm caliper piston that stands 10 mm further out when the linings are worn.
/// let gain = piston_displacement(Length::new::<millimeter>(54.0), Length::new::<millimeter>(10.0));
/// assert!((gain.get::<milliliter>() - 22.9).abs() < 0.05);
/// ```
pub fn piston_displacement(diameter: Length, travel: Length) -> Volume {
    bore_area(diameter) * travel
}

/// The share of a lying cylinder's cross-section that is above a level: the air that stays above a bleed screw
/// which is not the top of its cavity.
///
/// Formula: `s = (2 a - sin 2a) / (2 pi)` with `a = 2 asin(sqrt(h / D))`.
///
/// Symbols: `s` share of the circle's area (dimensionless); `a` half of the angle under which the chord is seen
/// from the centre (rad); `h` depth of the chord below the top of the circle (m); `D` diameter of the circle (m).
///
/// Range: `0 <= h <= D`, outside it the share is 0 or 1; the level is flat, which in a cavity it is, and in thin
/// pipe it is not. A circle without diameter has nothing above the level.
///
/// Source: [Bronshtein2007](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::geometry::share_above_chord;
/// use uom::si::{f64::Length, length::millimeter, ratio::ratio};
///
/// let share = share_above_chord(Length::new::<millimeter>(54.0), Length::new::<millimeter>(27.0));
/// assert!((share.get::<ratio>() - 0.5).abs() < 1e-12);
/// ```
pub fn share_above_chord(diameter: Length, depth_below_top: Length) -> Ratio {
    let (diameter, depth) = (diameter.value, depth_below_top.value);
    let share = if diameter > 0.0 && depth > 0.0 {
        let half_angle = 2.0 * (depth / diameter).min(1.0).sqrt().asin();
        ((2.0 * half_angle - (2.0 * half_angle).sin()) / (2.0 * PI)).clamp(0.0, 1.0)
    } else {
        0.0
    };
    Ratio::new::<ratio>(share)
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
            let held = contents(mm(bore_mm), Length::new::<meter>(1.0)).get::<milliliter>();
            assert!((held - per_metre_ml).abs() < 0.005, "{bore_mm}: {held}");
        }
    }

    /// By hand: a bore of 7/8 in (22.225 mm).
    #[test]
    fn area_of_a_cylinder_bore() {
        let area = bore_area(mm(22.225)).get::<square_millimeter>();
        assert!((area - 387.9).abs() < 0.05, "{area}");
        let swept = piston_displacement(mm(22.225), mm(1.0)).get::<milliliter>();
        assert!((swept - 0.388).abs() < 0.0005, "{swept}");
    }

    /// Areas of partly filled pipes as tabulated in hydraulics handbooks, `area / D^2` at `depth / D`
    /// ([King1963], values from memory).
    #[test]
    fn tabulated_areas_of_partly_filled_pipes() {
        for (depth, area) in [
            (0.1, 0.0409),
            (0.2, 0.1118),
            (0.25, 0.1535),
            (0.3, 0.1982),
            (0.4, 0.2934),
            (0.6, 0.4920),
            (0.8, 0.6736),
        ] {
            let share = share_above_chord(mm(10.0), mm(10.0 * depth)).get::<ratio>();
            assert!(
                (share * FRAC_PI_4 - area).abs() < 0.00005,
                "{depth}: {share}"
            );
        }
    }

    #[test]
    fn a_chord_and_its_mirror_image_share_the_circle() {
        for depth_mm in [0.01, 1.0, 7.0, 20.0] {
            let above = share_above_chord(mm(54.0), mm(depth_mm)).get::<ratio>();
            let below = share_above_chord(mm(54.0), mm(54.0 - depth_mm)).get::<ratio>();
            assert!((above + below - 1.0).abs() < 1e-12);
        }
        assert_eq!(
            share_above_chord(mm(54.0), mm(-1.0)),
            Ratio::new::<ratio>(0.0)
        );
        assert_eq!(
            share_above_chord(mm(54.0), mm(60.0)),
            Ratio::new::<ratio>(1.0)
        );
        assert_eq!(
            share_above_chord(mm(0.0), mm(1.0)),
            Ratio::new::<ratio>(0.0)
        );
    }
}
