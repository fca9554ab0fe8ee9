//! What a stroke displaces, and how far the pedal travels for it.

use crate::gas::absorbed_share;
use uom::si::f64::{Area, Length, Pressure, Ratio, Volume};

/// What one chamber of a cylinder displaces on a partial stroke.
///
/// Formula: `V = A max(0, s S - c)`.
///
/// Symbols: `V` displaced volume (m3); `A` area of the piston (m2); `s` share of the stroke that is used
/// (dimensionless); `S` stroke of **that** chamber (m); `c` cut-off, the travel that only closes the way back to
/// the reservoir (m).
///
/// Range: an old cylinder is not to be bottomed, so `s` stays below 1 when bleeding by pedal; the chamber's stroke
/// must be free, that is the other circuit takes its own share.
///
/// Source: geometry of the cylinder, [Limpert2011](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::displacement::stroke_displacement;
/// use bleedwright_hydraulics::geometry::bore_area;
/// use uom::si::{f64::{Length, Ratio}, length::millimeter, ratio::percent, volume::milliliter};
///
/// let area = bore_area(Length::new::<millimeter>(23.8));
/// let stroke = Length::new::<millimeter>(17.0);
/// let cut_off = Length::new::<millimeter>(1.2);
/// let volume = stroke_displacement(area, stroke, Ratio::new::<percent>(60.0), cut_off);
/// assert!((volume.get::<milliliter>() - 4.004).abs() < 1e-3);
/// ```
pub fn stroke_displacement(
    piston_area: Area,
    stroke: Length,
    share: Ratio,
    cut_off: Length,
) -> Volume {
    let effective = stroke * share - cut_off;
    piston_area * effective.max(Length::default())
}

/// What one chamber displaces at most: the figure that the reservoir must cover between two looks at its level.
///
/// Formula: `V = A S`.
///
/// Symbols: `V` displaced volume (m3); `A` area of the piston (m2); `S` stroke of that chamber (m).
///
/// Range: no cut-off is taken off, so the figure is never too low.
///
/// Source: geometry of the cylinder, [Limpert2011](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::displacement::full_stroke_displacement;
/// use bleedwright_hydraulics::geometry::bore_area;
/// use uom::si::{f64::Length, length::millimeter, volume::milliliter};
///
/// let area = bore_area(Length::new::<millimeter>(23.8));
/// let volume = full_stroke_displacement(area, Length::new::<millimeter>(17.0));
/// assert!((volume.get::<milliliter>() - 7.563).abs() < 1e-3);
/// ```
pub fn full_stroke_displacement(piston_area: Area, stroke: Length) -> Volume {
    piston_area * stroke
}

/// How far the pedal travels for a partial stroke of one chamber.
///
/// Formula: `y = r (s S + c) + f`.
///
/// Symbols: `y` travel at the pedal's pad (m); `r` pedal ratio (dimensionless); `s` share of the stroke
/// (dimensionless); `S` stroke of the chamber being bled (m); `c` cut-off of the other chamber, where that one
/// must close first, else zero (m); `f` free play measured at the pad (m).
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
///     Length::new::<millimeter>(14.0),
///     Ratio::new::<ratio>(0.6),
///     Length::new::<millimeter>(1.2),
///     Length::new::<millimeter>(3.0),
/// );
/// assert!((travel.get::<millimeter>() - 43.32).abs() < 1e-9);
/// ```
pub fn pedal_travel(
    pedal_ratio: Ratio,
    stroke: Length,
    share: Ratio,
    other_cut_off: Length,
    free_play: Length,
) -> Length {
    pedal_ratio * (stroke * share + other_cut_off) + free_play
}

/// How far a piston must be pressed into a shut chamber that holds air before a pressure is reached.
///
/// Formula: `x = V / A (1 - (p0 / (p0 + p))^(1/n))`.
///
/// Symbols: `x` travel of the piston (m); `V` air in the chamber and in what is joined to it, at the pressure at
/// the start (m3); `A` area of the piston (m2); `p0` absolute pressure at the start (Pa); `p` gauge pressure to be
/// reached, for example the one that opens a valve (Pa); `n` polytropic index (dimensionless).
///
/// Range: as for [`absorbed_share`]; the liquid and the walls do not give. The travel counts from where the
/// chamber is shut, after its cut-off.
///
/// Source: [Merritt1967](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::displacement::travel_to_pressure;
/// use bleedwright_hydraulics::gas::standard_atmosphere;
/// use bleedwright_hydraulics::geometry::bore_area;
/// use uom::si::f64::{Length, Pressure, Ratio, Volume};
/// use uom::si::{length::millimeter, pressure::bar, ratio::ratio, volume::milliliter};
///
/// let travel = travel_to_pressure(
///     Volume::new::<milliliter>(1.0),
///     bore_area(Length::new::<millimeter>(20.64)),
///     standard_atmosphere(),
///     Pressure::new::<bar>(100.0),
///     Ratio::new::<ratio>(1.0),
/// );
/// assert!((travel.get::<millimeter>() - 2.9588).abs() < 1e-4);
/// ```
pub fn travel_to_pressure(
    air: Volume,
    piston_area: Area,
    start: Pressure,
    gauge: Pressure,
    polytropic_index: Ratio,
) -> Length {
    air * absorbed_share(start, gauge, polytropic_index) / piston_area
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gas::standard_atmosphere;
    use crate::geometry::bore_area;
    use uom::si::length::millimeter;
    use uom::si::pressure::{bar, megapascal};
    use uom::si::ratio::ratio;
    use uom::si::volume::milliliter;

    fn mm(length_mm: f64) -> Length {
        Length::new::<millimeter>(length_mm)
    }

    fn share(value: f64) -> Ratio {
        Ratio::new::<ratio>(value)
    }

    /// By hand: 7/8 in bore, 1 ml of air at 70 bar is 2.54 mm of piston and 10.2 mm at a pedal of 4:1.
    #[test]
    fn one_millilitre_of_air_at_the_pedal() {
        let air = Volume::new::<milliliter>(1.0);
        let area = bore_area(mm(22.225));
        let gauge = Pressure::new::<megapascal>(7.0);
        let piston = travel_to_pressure(air, area, standard_atmosphere(), gauge, share(1.0));
        assert!((piston.get::<millimeter>() - 2.54).abs() < 0.005);
        let pedal = pedal_travel(share(4.0), piston, share(1.0), mm(0.0), mm(0.0));
        assert!((pedal.get::<millimeter>() - 10.2).abs() < 0.05);
    }

    /// By hand: 20.64 mm bore, 1 ml of air at 100 bar, pedal 5:1.
    #[test]
    fn one_millilitre_of_air_at_a_hard_press() {
        let air = Volume::new::<milliliter>(1.0);
        let gauge = Pressure::new::<bar>(100.0);
        let piston = travel_to_pressure(
            air,
            bore_area(mm(20.64)),
            standard_atmosphere(),
            gauge,
            share(1.0),
        );
        assert!((piston.get::<millimeter>() - 2.9588).abs() < 5e-5);
        let pedal = pedal_travel(share(5.0), piston, share(1.0), mm(0.0), mm(0.0));
        assert!((pedal.get::<millimeter>() - 14.79).abs() < 0.005);
    }

    #[test]
    fn a_stroke_shorter_than_the_cut_off_displaces_nothing() {
        let area = bore_area(mm(20.0));
        assert_eq!(
            stroke_displacement(area, mm(10.0), share(0.1), mm(1.5)),
            Volume::default()
        );
    }

    #[test]
    fn a_whole_stroke_without_cut_off_is_the_full_displacement() {
        let area = bore_area(mm(20.0));
        let partial = stroke_displacement(area, mm(16.0), share(1.0), mm(0.0));
        assert_eq!(partial, full_stroke_displacement(area, mm(16.0)));
    }
}
