mod why;
use why::Why;
use super::pen::Pen;
use super::sheet::{Body, Sheet};
pub(super) fn body(_pen: &Pen<'_, '_>, _sheet: &Sheet<'_, '_>) -> Result<(Body, String), Why> { Err(Why::NoPositions) }
