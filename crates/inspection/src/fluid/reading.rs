//! What was read on the car and on the bottle.

use super::error::FluidError;
use super::judgement::Subject;
use bleedwright_network::{Bounds, Fluid};
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::year;

/// Shares of water that a reading may state, in percent.
///
/// ASSUMPTION: the wettest fluid reported, second-hand, held 7 to 8 %; above 20 % the figure is a slip, such as 25 for 2.5.
const MOISTURE_PERCENT: (f64, f64) = (0.0, 20.0);

/// Boiling points that a reading may state, in degC.
///
/// ASSUMPTION: from a little below that of water, for a tester's error, to beyond the best fluid on sale.
const BOILING_DEGC: (f64, f64) = (90.0, 350.0);

/// The same for a label, which states no fluid that boils like water.
const LABEL_DEGC: (f64, f64) = (105.0, 350.0);

/// Ages in years.
const AGE_YEARS: (f64, f64) = (0.0, 100.0);

/// Intervals in years that a maker may state.
///
/// ASSUMPTION: a month, for racing, to ten years.
const INTERVAL_YEARS: (f64, f64) = (1.0 / 12.0, 10.0);

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
        if let Some(moisture) = self.moisture {
            check_bounds(
                Subject::Moisture,
                moisture.map(|share| share.get::<percent>()),
                MOISTURE_PERCENT,
                " %",
            )?;
        }
        if let Some(boiling) = self.boiling {
            check_bounds(
                Subject::Boiling,
                boiling.map(|point| point.get::<degree_celsius>()),
                BOILING_DEGC,
                " degC",
            )?;
        }
        check_age(Subject::Age, self.age)?;
        if let Some(interval) = self.interval {
            let years = Bounds::exact(interval.get::<year>());
            check_bounds(Subject::Interval, years, INTERVAL_YEARS, " years")?;
        }
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
        if let Some(moisture) = self.moisture {
            check_bounds(
                Subject::BottleMoisture,
                moisture.map(|share| share.get::<percent>()),
                MOISTURE_PERCENT,
                " %",
            )?;
        }
        check_age(Subject::OpenedFor, self.opened_for)?;
        let Label { dry, wet } = self.label;
        for (subject, point) in [(Subject::LabelDry, dry), (Subject::LabelWet, wet)] {
            if let Some(point) = point {
                let degc = point.get::<degree_celsius>();
                check_bounds(subject, Bounds::exact(degc), LABEL_DEGC, " degC")?;
            }
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

fn check_age(subject: Subject, age: Option<Time>) -> Result<(), FluidError> {
    let Some(age) = age else { return Ok(()) };
    check_bounds(
        subject,
        Bounds::exact(age.get::<year>()),
        AGE_YEARS,
        " years",
    )
}

fn check_bounds(
    subject: Subject,
    bounds: Bounds<f64>,
    (low, high): (f64, f64),
    unit: &'static str,
) -> Result<(), FluidError> {
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
