//! Nominal pipe sizes and the bores their standards allow.
//!
//! Outside diameters and walls: SAE J526 for 3/16 in (second-hand), ISO 4038
//! for 4.75 mm, customary metric and inch sizes otherwise (from memory). The
//! tolerances of 3/16 in and 1/4 in are those of SAE J526 (second-hand).

use crate::bounds::{Bounds, Figure};
use crate::layout::PipeSize;
use crate::usual::Usual;
use uom::si::f64::Length;
use uom::si::length::{inch, millimeter};

struct Size {
    name: &'static str,
    outside_mm: f64,
    /// Walls sold under this size, the usual one first.
    walls_mm: &'static [f64],
    outside_tolerance_mm: f64,
    wall_tolerance_mm: f64,
}

const INCH: f64 = 25.4;

// ASSUMPTION: the inch sizes above 1/4 in and the metric sizes are given the
// tolerances that SAE J526 has for 1/4 in; their own standards were not read.
const OUTSIDE: f64 = 0.003 * INCH;
const WALL: f64 = 0.003 * INCH;

const SIZES: &[Size] = &[
    size(
        "3/16 in x 0.028 in",
        3.0 / 16.0 * INCH,
        &[0.028 * INCH],
        0.005 * INCH,
    ),
    size("1/4 in x 0.028 in", 0.25 * INCH, &[0.028 * INCH], WALL),
    size(
        "5/16 in x 0.028 in",
        5.0 / 16.0 * INCH,
        &[0.028 * INCH],
        WALL,
    ),
    size("3/8 in x 0.028 in", 0.375 * INCH, &[0.028 * INCH], WALL),
    size("4.75 mm x 0.70 or 0.89 mm", 4.75, &[0.70, 0.89], WALL),
    size("5 mm x 0.75 mm", 5.0, &[0.75], WALL),
    size("6 mm x 0.70 or 1.0 mm", 6.0, &[0.70, 1.0], WALL),
    size("8 mm x 0.70 or 1.0 mm", 8.0, &[0.70, 1.0], WALL),
];

const fn size(
    name: &'static str,
    outside_mm: f64,
    walls_mm: &'static [f64],
    wall_tolerance_mm: f64,
) -> Size {
    Size {
        name,
        outside_mm,
        walls_mm,
        outside_tolerance_mm: OUTSIDE,
        wall_tolerance_mm,
    }
}

/// The sizes known, for messages.
pub const KNOWN_SIZES: &str = "3/16 in, 1/4 in, 5/16 in, 3/8 in, 4.75 mm, 5 mm, 6 mm, 8 mm";

/// The bore of a pipe sold as `outside`, with the corners that its standard's
/// tolerance allows; `wall` chooses among walls of one size.
///
/// bore = outside diameter - 2 wall. A size that is sold with two walls spans
/// both unless the wall is given.
pub fn bore_of_size(outside: Length, wall: Option<Length>) -> Option<(PipeSize, Figure<Length>)> {
    let size = find(outside)?;
    let mm = Length::new::<millimeter>;
    let walls: Vec<f64> = match wall {
        Some(wall) => vec![wall.get::<millimeter>()],
        None => size.walls_mm.to_vec(),
    };
    let thickest = walls.iter().copied().fold(f64::MIN, f64::max) + size.wall_tolerance_mm;
    let thinnest = walls.iter().copied().fold(f64::MAX, f64::min) - size.wall_tolerance_mm;
    let low = size.outside_mm - size.outside_tolerance_mm - 2.0 * thickest;
    let high = size.outside_mm + size.outside_tolerance_mm - 2.0 * thinnest;
    if low <= 0.0 {
        return None;
    }
    let bore = Figure {
        bounds: Bounds {
            low: mm(low),
            nominal: mm(size.outside_mm - 2.0 * walls[0]),
            high: mm(high),
        },
        basis: crate::bounds::Basis::Assumed(Usual::PipeBore),
    };
    let name = match wall {
        // The wall that was given, not those that the size is sold with.
        Some(wall) => {
            let outside = size.name.split(" x ").next().unwrap_or(size.name);
            format!("{outside} x {:.2} mm", wall.get::<millimeter>())
        }
        None => size.name.to_owned(),
    };
    Some((PipeSize { name }, bore))
}

fn find(outside: Length) -> Option<&'static Size> {
    // 3/16 in is 4.7625 mm and 4.75 mm is another size, so the match is close.
    let near = Length::new::<inch>(0.0002);
    SIZES
        .iter()
        .find(|size| (Length::new::<millimeter>(size.outside_mm) - outside).abs() < near)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_size_has_a_bore() {
        for size in SIZES {
            let outside = Length::new::<millimeter>(size.outside_mm);
            let (_, bore) = bore_of_size(outside, None).expect("every size of the table");
            assert!(bore.bounds.low < bore.bounds.nominal);
            assert!(bore.bounds.nominal < bore.bounds.high);
        }
    }

    #[test]
    fn a_stated_wall_narrows_the_bore() {
        let outside = Length::new::<millimeter>(4.75);
        let (_, both) = bore_of_size(outside, None).expect("a known size");
        let (_, thin) =
            bore_of_size(outside, Some(Length::new::<millimeter>(0.70))).expect("a known size");
        assert!(thin.bounds.low > both.bounds.low);
        assert!((thin.bounds.high - both.bounds.high).abs() < Length::new::<millimeter>(1e-9));
    }

    #[test]
    fn unknown_sizes_are_refused() {
        assert!(bore_of_size(Length::new::<millimeter>(7.0), None).is_none());
        let wall = Some(Length::new::<millimeter>(3.0));
        assert!(bore_of_size(Length::new::<millimeter>(5.0), wall).is_none());
    }
}
