//! What was read on the car and on the bottle.

use super::error::FluidError;
use super::subject::Subject;
use bleedwright_network::{Bounds, Fluid};
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::year;

/// The lowest and the highest figure that a reading may state, and their unit with the space before it.
type Allowed = (f64, f64, &'static str);

/// Shares of water that a reading may state.
///
/// ASSUMPTION: the wettest fluid reported, second-hand, held 7 to 8 %; above 20 % the figure is a slip, such as 25 for 2.5.
const MOISTURE: Allowed = (0.0, 20.0, " %");

/// Boiling points that a reading may state.
///
/// ASSUMPTION: from a little below that of water, for a tester's error, to beyond the best fluid on sale.
const BOILING: Allowed = (90.0, 350.0, " degC");

/// The same for a label, which states no fluid that boils like water.
const LABEL: Allowed = (105.0, 350.0, " degC");

/// Ages.
const AGE: Allowed = (0.0, 100.0, " years");

/// Intervals that a maker may state.
///
/// ASSUMPTION: a month, for racing, to ten years.
const INTERVAL: Allowed = (1.0 / 12.0, 10.0, " years");

/// What is known of the fluid in a car, and of the bottle beside it. Everything may be missing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FluidReading {
    /// What is in the car.
    pub grade: Option<Fluid>,
    /// What the maker asks for, by the reservoir's cap or the layout.
    pub required: Option<Fluid>,
    /// Other grades that were added to it.
    pub mixed_with: Vec<Fluid>,
    /// Water in it by mass, as a tester shows it, with the tester's tolerance.
    pub moisture: Option<Bounds<Ratio>>,
    /// Its boiling point, as a tester shows it, with the tester's tolerance.
    pub boiling: Option<Bounds<ThermodynamicTemperature>>,
    /// How long it has been in the car.
    pub age: Option<Time>,
    /// After how long the maker wants it renewed.
    pub interval: Option<Time>,
    /// What a sample of it looks like.
    pub look: Option<Look>,
    /// The new bottle.
    pub bottle: Option<BottleReading>,
    /// The car was filled with the very fluid of the bottle's label, so that the label says more than the class.
    pub is_of_the_label: bool,
}

/// What a sample looks like in a clear glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Clear.
    Clear,
    /// Drops of water, or cloudy.
    Water,
    /// Dirt, rust or rubber.
    Dirt,
}

/// What is known of a bottle of new fluid.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BottleReading {
    /// Its grade; what the car needs when it is not stated.
    pub grade: Option<Fluid>,
    /// Water in it by mass.
    pub moisture: Option<Bounds<Ratio>>,
    /// How long it has been open.
    pub opened_for: Option<Time>,
    /// What its label states.
    pub label: Label,
}

/// The boiling points that a label states for the fluid in the container.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Label {
    /// Dry.
    pub dry: Option<ThermodynamicTemperature>,
    /// Wet, FMVSS 116 S5.2.2.2(f).
    pub wet: Option<ThermodynamicTemperature>,
}

impl FluidReading {
    /// Refuses what no fluid can show.
    pub(super) fn check(&self) -> Result<(), FluidError> {
        check(Subject::Moisture, self.moisture.map(in_percent), MOISTURE)?;
        check(Subject::Boiling, self.boiling.map(in_degc), BOILING)?;
        check(Subject::Age, self.age.map(in_years), AGE)?;
        check(Subject::Interval, self.interval.map(in_years), INTERVAL)?;
        if let Some(bottle) = &self.bottle {
            bottle.check()?;
        }
        self.check_label_of_the_car()
    }

    fn check_label_of_the_car(&self) -> Result<(), FluidError> {
        if !self.is_of_the_label {
            return Ok(());
        }
        let refuse = |why| Err(FluidError::NotTheSameFluid { why });
        let bottle = self.bottle.as_ref();
        let Some(bottle) = bottle.filter(|bottle| bottle.label != Label::default()) else {
            return refuse("the label states no boiling point. Give its dry or its wet one");
        };
        if !self.mixed_with.is_empty() {
            return refuse("other fluid was added to it. Leave the label out of the estimate");
        }
        let of_the_bottle = bottle.grade.or(self.required).or(self.grade);
        if of_the_bottle != self.grade.or(self.required) {
            return refuse("the bottle is of another grade. Leave the label out of the estimate");
        }
        Ok(())
    }
}

impl BottleReading {
    fn check(&self) -> Result<(), FluidError> {
        check(
            Subject::BottleMoisture,
            self.moisture.map(in_percent),
            MOISTURE,
        )?;
        check(Subject::OpenedFor, self.opened_for.map(in_years), AGE)?;
        let Label { dry, wet } = self.label;
        for (subject, point) in [(Subject::LabelDry, dry), (Subject::LabelWet, wet)] {
            check(subject, point.map(Bounds::exact).map(in_degc), LABEL)?;
        }
        if let (Some(dry), Some(wet)) = (dry, wet)
            && wet >= dry
        {
            return Err(FluidError::LabelExchanged {
                dry_degc: dry.get::<degree_celsius>(),
                wet_degc: wet.get::<degree_celsius>(),
            });
        }
        Ok(())
    }
}

fn in_percent(share: Bounds<Ratio>) -> Bounds<f64> {
    share.map(|share| share.get::<percent>())
}

fn in_degc(point: Bounds<ThermodynamicTemperature>) -> Bounds<f64> {
    point.map(|point| point.get::<degree_celsius>())
}

fn in_years(time: Time) -> Bounds<f64> {
    Bounds::exact(time.get::<year>())
}

fn check(
    subject: Subject,
    reading: Option<Bounds<f64>>,
    (low, high, unit): Allowed,
) -> Result<(), FluidError> {
    let Some(bounds) = reading else {
        return Ok(());
    };
    // A tolerance may reach beyond the range; the value itself may not.
    let found = bounds.nominal;
    let is_finite = [bounds.low, found, bounds.high]
        .into_iter()
        .all(f64::is_finite);
    if !is_finite || !(low..=high).contains(&found) {
        return Err(FluidError::Implausible {
            subject,
            // Converted units leave digits that nobody wrote.
            found: (found * 100.0).round() / 100.0,
            low,
            high,
            unit,
        });
    }
    if bounds.low <= found && found <= bounds.high {
        Ok(())
    } else {
        Err(FluidError::NotOrdered { subject })
    }
}
