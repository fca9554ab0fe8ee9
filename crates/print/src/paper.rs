//! Sizes of paper and type, in points of 1/72 inch.

/// A4, upright.
pub(crate) const PAGE_WIDTH: f32 = 595.28;
/// A4, upright.
pub(crate) const PAGE_HEIGHT: f32 = 841.89;

/// Twelve millimetres: common printers leave less than ten blank.
pub(crate) const MARGIN: f32 = mm(12.0);

/// The line at the foot of each page, with the gap above it.
pub(crate) const FOOT: f32 = 20.0;

/// From margin to margin.
pub(crate) const WIDTH: f32 = PAGE_WIDTH - 2.0 * MARGIN;

/// What a page holds between its upper margin and its foot.
pub(crate) const HEIGHT: f32 = PAGE_HEIGHT - 2.0 * MARGIN - FOOT;

/// Millimetres in points.
pub(crate) const fn mm(length: f32) -> f32 {
    length * 72.0 / 25.4
}

/// A size of type with the distance of its lines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Size {
    /// The em.
    pub(crate) em: f32,
    /// From base line to base line.
    pub(crate) leading: f32,
}

impl Size {
    /// The vehicle.
    pub(crate) const TITLE: Self = Self::new(16.0, 19.0);
    /// The screw of a step.
    pub(crate) const SCREW: Self = Self::new(11.5, 14.5);
    /// The head of a section.
    pub(crate) const HEADING: Self = Self::new(10.5, 13.0);
    /// What is read while working.
    pub(crate) const BODY: Self = Self::new(9.2, 11.5);
    /// What is looked up.
    pub(crate) const SMALL: Self = Self::new(8.2, 9.7);

    const fn new(em: f32, leading: f32) -> Self {
        Self { em, leading }
    }

    /// From the top of a line to its base line: the middle of its small letters is the middle of the line.
    pub(crate) const fn base(self) -> f32 {
        self.leading / 2.0 + self.em * 0.3
    }
}
