//! The measures of the schematic, in millimetres.
//!
//! Everything that lines leave from or lead to on the side of the middle column lies on a grid of [`GRID`]; the rows of
//! the wheels lie half a step beside it, unless a line runs straight across. Lanes lie on the grid across, the outlets
//! of cylinders and valves half a step beside it. So no two lines can share a piece.

/// Distance between two lanes, or between two tracks.
pub(super) const GRID: f64 = 3.0;
pub(super) const HALF: f64 = 1.5;
/// Letters of names.
pub(super) const LETTER: f64 = 2.7;
/// From one line of letters to the next.
pub(super) const LEADING: f64 = 3.2;
/// Room for the number of a line above the part it leads to.
pub(super) const TAG_ROOM: f64 = 6.0;
/// Between an end of one outlet and the next.
pub(super) const PITCH: f64 = 6.0;
/// From the edge of a wheel's zone to its first joint: room for the number of a line.
pub(super) const LEAD_IN: f64 = 9.0;
/// From one joint of a wheel to the next, or to its brake.
pub(super) const COLUMN: f64 = 16.5;
/// How wide a brake is.
pub(super) const BRAKE_WIDTH: f64 = 13.5;
/// From the outer face of a brake to the edge of the picture's body.
pub(super) const BRAKE_MARGIN: f64 = 7.5;
/// How far a bridge pipe between two brakes of one wheel keeps from them.
pub(super) const BRIDGE: f64 = 9.0;
/// Radius of the circle around the number of a screw.
pub(super) const SCREW: f64 = 2.4;
/// From the edge of a brake to the far side of such a circle.
pub(super) const SCREW_ROOM: f64 = 7.2;
/// How wide the box of a valve's passage is at least.
pub(super) const PASSAGE: f64 = 9.0;
/// How wide the chamber of a cylinder is at least.
pub(super) const CHAMBER: f64 = 24.0;
/// Rod and booster in front of it.
pub(super) const ROD: f64 = 24.0;
/// How high a cylinder is.
pub(super) const CYLINDER_HEIGHT: f64 = 12.0;
/// From its lower edge to the first track: room for its name.
pub(super) const HEAD_FOOT: f64 = 6.0;
/// How high a reservoir is whose names take one line; each further one takes [`LEADING`].
pub(super) const RESERVOIR_HEIGHT: f64 = 8.4;
/// Width of the lines of a circuit.
pub(super) const LINE: f64 = 0.55;
/// Width of the outlines of parts.
pub(super) const OUTLINE: f64 = 0.3;

/// The next place on the grid, downward or to the right.
pub(super) fn on_grid(value: f64) -> f64 {
    (value / GRID - 1e-6).ceil() * GRID
}

/// The next place half a step beside the grid.
pub(super) fn beside_grid(value: f64) -> f64 {
    on_grid(value - HALF) + HALF
}
