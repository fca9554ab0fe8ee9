//! What is judged of a fluid, or stated.

use crate::words::words;
use std::fmt;

words! {
    /// What is judged, or stated.
    #[derive(Hash)]
    #[non_exhaustive]
    Subject {
        /// Whether it is the grade that the maker asks for.
        Grade = "grade", "grade";
        /// What was added to it.
        Mixture = "mixture", "topping up";
        /// Water in the fluid in the car.
        Moisture = "moisture", "moisture";
        /// Boiling point of the fluid in the car.
        Boiling = "boiling_point", "boiling point";
        /// What a sample of it looks like.
        Look = "look", "look of a sample";
        /// How long it has been in the car.
        Age = "age", "age";
        /// The maker's interval.
        Interval = "interval", "the maker's interval";
        /// Grade of the new bottle.
        BottleGrade = "bottle_grade", "grade of the bottle";
        /// Water in the new bottle.
        BottleMoisture = "bottle_moisture", "moisture of the bottle";
        /// How long the bottle has been open.
        OpenedFor = "opened_for", "time since the bottle was opened";
        /// Dry boiling point on the label.
        LabelDry = "label_dry", "dry boiling point on the label";
        /// Wet boiling point on the label.
        LabelWet = "label_wet", "wet boiling point on the label";
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.text())
    }
}
