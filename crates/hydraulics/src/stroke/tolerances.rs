//! How closely a stroke is followed.

use super::error::StrokeError;
use uom::si::f64::{Pressure, Ratio, Volume};
use uom::si::pressure::{bar, pascal};
use uom::si::ratio::ratio;
use uom::si::volume::{cubic_meter, milliliter};

/// How closely a stroke is followed: the error of each step in each pressure, pocket and delivered volume stays below
/// the absolute tolerance plus the relative one times the value.
///
/// The errors of the steps add up, to a few times the tolerance as a rule. The volume balance closes whatever the
/// tolerance is.
///
/// ```
/// use bleedwright_hydraulics::stroke::StrokeTolerances;
/// use uom::si::{f64::Ratio, ratio::ratio};
///
/// assert!(StrokeTolerances::relative(Ratio::new::<ratio>(1e-5)).is_ok());
/// assert!(StrokeTolerances::relative(Ratio::new::<ratio>(0.1)).is_err());
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrokeTolerances {
    pub(super) relative: f64,
    pub(super) pressure_pa: f64,
    pub(super) volume_m3: f64,
}

const LEAST_RELATIVE: f64 = 1e-12;
const MOST_RELATIVE: f64 = 1e-2;
const LEAST_PRESSURE_PA: f64 = 1e-7;
const MOST_PRESSURE_PA: f64 = 1e5;
const LEAST_VOLUME_ML: f64 = 1e-13;
const MOST_VOLUME_ML: f64 = 1.0;

impl StrokeTolerances {
    /// A relative tolerance from 1e-12 to 1e-2, and absolute ones of that share of 1 bar and of 1 ml.
    pub fn relative(relative: Ratio) -> Result<Self, StrokeError> {
        let share = relative.get::<ratio>();
        Self::new(
            relative,
            Pressure::new::<bar>(share),
            Volume::new::<milliliter>(share),
        )
    }

    /// Every tolerance by itself.
    pub fn new(relative: Ratio, pressure: Pressure, volume: Volume) -> Result<Self, StrokeError> {
        let (share, volume_ml) = (relative.get::<ratio>(), volume.get::<milliliter>());
        checked(share, LEAST_RELATIVE, MOST_RELATIVE, "")?;
        checked(
            pressure.get::<pascal>(),
            LEAST_PRESSURE_PA,
            MOST_PRESSURE_PA,
            "Pa",
        )?;
        checked(volume_ml, LEAST_VOLUME_ML, MOST_VOLUME_ML, "ml")?;
        Ok(Self {
            relative: share,
            pressure_pa: pressure.get::<pascal>(),
            volume_m3: volume.get::<cubic_meter>(),
        })
    }
}

fn checked(found: f64, least: f64, most: f64, unit: &'static str) -> Result<(), StrokeError> {
    // A hair of room, since a tolerance may have gone through a conversion of units.
    if found >= least * (1.0 - 1e-9) && found <= most * (1.0 + 1e-9) {
        Ok(())
    } else {
        Err(StrokeError::ToleranceOutOfRange {
            found,
            least,
            most,
            unit,
        })
    }
}
