//! Colours and line patterns that can be told apart in grey, and by those who do not see all colours.

/// A colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ink {
    /// Red, green and blue, each from 0 to 255.
    pub rgb: [u8; 3],
}

impl Ink {
    /// Black.
    pub const BLACK: Self = Self::new(0x1a, 0x1a, 0x1a);
    /// White, the paper.
    pub const WHITE: Self = Self::new(0xff, 0xff, 0xff);
    /// For what is said beside the matter itself; still dark enough to read.
    pub const GREY: Self = Self::new(0x59, 0x59, 0x59);
    /// For rules and grids, which nobody has to read.
    pub const PALE: Self = Self::new(0xc8, 0xc8, 0xc8);

    /// A colour from red, green and blue.
    pub const fn new(red: u8, green: u8, blue: u8) -> Self {
        Self {
            rgb: [red, green, blue],
        }
    }

    /// The same thinned with white to a tenth, for areas behind lines and text.
    #[must_use]
    pub fn thinned(self) -> Self {
        Self {
            rgb: self.rgb.map(|channel| 255 - (255 - channel) / 10),
        }
    }

    /// As SVG and HTML write it.
    pub fn hex(self) -> String {
        let [red, green, blue] = self.rgb;
        format!("#{red:02x}{green:02x}{blue:02x}")
    }
}

/// How a line is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pattern {
    /// Not at all.
    Solid,
    /// Into long dashes.
    Dashed,
    /// Into dots.
    Dotted,
    /// Into dashes with a dot between.
    DashDot,
    /// Into dashes with two dots between.
    DashDotDot,
    /// Into short dashes.
    ShortDashed,
}

impl Pattern {
    /// Lengths of dashes and gaps in turn, for a line of this width; empty for a solid line.
    pub fn dashes_mm(self, width_mm: f64) -> Vec<f64> {
        let in_widths: &[f64] = match self {
            Self::Solid => &[],
            Self::Dashed => &[7.0, 2.6],
            Self::Dotted => &[1.1, 1.7],
            Self::DashDot => &[7.0, 1.9, 1.2, 1.9],
            Self::DashDotDot => &[7.0, 1.9, 1.2, 1.9, 1.2, 1.9],
            Self::ShortDashed => &[3.2, 2.0],
        };
        in_widths.iter().map(|length| length * width_mm).collect()
    }
}

/// How an outline is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub ink: Ink,
    /// How wide it is.
    pub width_mm: f64,
    /// How it is broken.
    pub pattern: Pattern,
}

impl Stroke {
    /// A line that is not broken.
    pub const fn solid(ink: Ink, width_mm: f64) -> Self {
        Self {
            ink,
            width_mm,
            pattern: Pattern::Solid,
        }
    }
}

/// Colour and pattern of the lines of a circuit, or of a series of a chart.
///
/// The hues are those that Okabe and Ito chose so that the colour-blind tell them apart ([Okabe2008](crate#sources)),
/// darkened until each has a contrast of 4.5 to 1 against white paper. Six hues and six patterns: from the seventh
/// circuit on a hue comes with another pattern than before.
pub fn circuit_stroke(index: usize, width_mm: f64) -> Stroke {
    const INKS: [Ink; 6] = [
        Ink::new(0x00, 0x5f, 0x96),
        Ink::new(0xb3, 0x4e, 0x00),
        Ink::new(0x00, 0x74, 0x54),
        Ink::new(0x9a, 0x4a, 0x78),
        Ink::new(0x86, 0x62, 0x00),
        Ink::new(0x2a, 0x74, 0x9c),
    ];
    const PATTERNS: [Pattern; 6] = [
        Pattern::Solid,
        Pattern::Dashed,
        Pattern::DashDot,
        Pattern::Dotted,
        Pattern::DashDotDot,
        Pattern::ShortDashed,
    ];
    Stroke {
        ink: INKS[index % INKS.len()],
        width_mm,
        pattern: PATTERNS[(index + index / INKS.len()) % PATTERNS.len()],
    }
}

/// The same where something may belong to no circuit: grey.
pub(crate) fn stroke_of(circuit: Option<usize>, width_mm: f64) -> Stroke {
    circuit.map_or(Stroke::solid(Ink::GREY, width_mm), |circuit| {
        circuit_stroke(circuit, width_mm)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The luminance of WCAG 2.2 ([WCAG22](crate#sources)).
    fn luminance(ink: Ink) -> f64 {
        let linear = |channel: u8| {
            let share = f64::from(channel) / 255.0;
            if share <= 0.040_45 {
                share / 12.92
            } else {
                ((share + 0.055) / 1.055).powf(2.4)
            }
        };
        let [red, green, blue] = ink.rgb.map(linear);
        0.2126 * red + 0.7152 * green + 0.0722 * blue
    }

    #[test]
    fn every_ink_that_is_read_stands_out_from_the_paper() {
        let mut inks: Vec<Ink> = (0..6).map(|index| circuit_stroke(index, 1.0).ink).collect();
        inks.extend([Ink::BLACK, Ink::GREY]);
        for ink in inks {
            let contrast = 1.05 / (luminance(ink) + 0.05);
            assert!(contrast >= 4.5, "{}: {contrast:.2}", ink.hex());
        }
    }

    #[test]
    fn no_two_of_the_first_thirty_circuits_look_alike() {
        for a in 0..30 {
            for b in 0..a {
                assert_ne!(
                    circuit_stroke(a, 1.0),
                    circuit_stroke(b, 1.0),
                    "{a} and {b}"
                );
            }
        }
    }
}
