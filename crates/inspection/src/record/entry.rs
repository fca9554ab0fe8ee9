//! What may stand in a field of a record.

use crate::words::words;
use bleedwright_network::Bounds;
use std::ops::RangeInclusive;

/// A reading, or the statement that there is none.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Entry<T> {
    /// Nobody looked, or nobody wrote it down.
    #[default]
    NotChecked,
    /// What was found.
    Found(T),
}

impl<T> Entry<T> {
    /// What was found, if anything.
    pub fn found(&self) -> Option<&T> {
        match self {
            Self::NotChecked => None,
            Self::Found(found) => Some(found),
        }
    }
}

/// A measured quantity, with its bounds and as it was written.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured<Q> {
    /// The value and how far it is trusted.
    pub bounds: Bounds<Q>,
    /// As it was written, for the sheet.
    pub text: String,
}

words! {
    /// The answer to a question.
    Answer {
        /// Yes.
        Yes = "yes";
        /// No.
        No = "no";
    }
}

words! {
    /// What a brake rubs on.
    BrakeType {
        /// A disc.
        Disc = "disc";
        /// A drum.
        Drum = "drum";
    }
}

words! {
    /// The level of a reservoir compartment against its marks.
    FluidLevel {
        /// Over the maximum mark.
        AboveMaximum = "above_maximum";
        /// At the maximum mark.
        AtMaximum = "at_maximum";
        /// Between the marks.
        Between = "between";
        /// At or under the minimum mark.
        BelowMinimum = "below_minimum";
    }
}

words! {
    /// How a step was finished.
    StepEnd {
        /// Counted on the card, stroke by stroke or by the marks of the jar.
        Counted = "counted";
        /// By the jar, not counted.
        ByJar = "by_jar";
        /// By strokes, not counted on the card.
        ByStrokes = "by_strokes";
        /// Not at all: it was left out.
        LeftOut = "left_out";
    }
}

words! {
    /// What a plan leaves to be finished.
    TaskKind {
        /// A change to the vehicle that must be undone.
        Undo = "undo";
        /// The maker's routine at an anti-lock unit.
        Routine = "routine";
        /// Screws that are bled, or bled again.
        Bleed = "bleed";
        /// Air that no screw surely reaches.
        Air = "air";
        /// A warning lamp that must be out.
        Lamp = "lamp";
        /// The fault memory of a unit that has one.
        FaultMemory = "fault_memory";
    }
}

words! {
    /// After how long a maker wants the fluid renewed. There is no longer one: [`crate::fluid`] calls four years overdue
    /// whatever the interval.
    Interval {
        /// Six months.
        HalfAYear = "half_a_year";
        /// Twelve months.
        OneYear = "one_year";
        /// Two years.
        TwoYears = "two_years";
        /// Three years.
        ThreeYears = "three_years";
        /// Four years.
        FourYears = "four_years";
    }
}

impl Interval {
    /// The same in months.
    pub fn months(self) -> u16 {
        match self {
            Self::HalfAYear => 6,
            Self::OneYear => 12,
            Self::TwoYears => 24,
            Self::ThreeYears => 36,
            Self::FourYears => 48,
        }
    }
}

/// A day of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day {
    year: u16,
    month: u8,
    day: u8,
}

impl Day {
    /// Reads a day as ISO 8601 writes it: `2026-11-25` [ISO8601](crate#sources).
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text.splitn(3, '-');
        let mut number = |digits: usize| {
            let part = parts.next()?;
            let is_number = part.len() == digits && part.bytes().all(|b| b.is_ascii_digit());
            is_number.then(|| part.parse::<u16>().ok())?
        };
        let (year, month, day) = (number(4)?, number(2)?, number(2)?);
        let days = days_of(year, month)?;
        (1..=days).contains(&day).then_some(Self {
            year,
            month: month as u8,
            day: day as u8,
        })
    }
}

impl Day {
    /// The years in which a record of today may have been written.
    pub const BELIEVED_YEARS: RangeInclusive<u16> = 2000..=2099;

    /// Whether it is the other day or at most so many before.
    pub(crate) fn is_shortly_before(self, other: Self) -> bool {
        // ASSUMPTION, no source: a month at most lies between the work and its readings.
        (0..=31).contains(&other.days_since(self))
    }

    /// The days from the other one to it; fewer than none where it comes first.
    pub(crate) fn days_since(self, other: Self) -> i32 {
        self.number() - other.number()
    }

    /// Days counted from the first of January of the year 0.
    fn number(self) -> i32 {
        // Every year before this one has 365 days, and the leap years among them one more.
        let before = i32::from(self.year) - 1;
        let leap_days = before.div_euclid(4) - before.div_euclid(100) + before.div_euclid(400) + 1;
        let months = (1..u16::from(self.month)).filter_map(|month| days_of(self.year, month));
        365 * i32::from(self.year)
            + leap_days
            + i32::from(months.sum::<u16>())
            + i32::from(self.day)
            - 1
    }

    /// The same day so many months later, or the last of that month where it has none.
    pub(crate) fn after_months(self, months: u16) -> Self {
        let all = u16::from(self.month) - 1 + months;
        let (year, month) = (self.year + all / 12, all % 12 + 1);
        let last = days_of(year, month).map_or(self.day, |days| days as u8);
        Self {
            year,
            month: month as u8,
            day: self.day.min(last),
        }
    }

    /// Whether it is a day on which a record of today may have been written.
    pub(crate) fn is_of_this_century(self) -> bool {
        Self::BELIEVED_YEARS.contains(&self.year)
    }
}

/// The days of a month; none where there is no such month.
fn days_of(year: u16, month: u16) -> Option<u16> {
    let is_leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    Some(match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if is_leap => 29,
        2 => 28,
        _ => return None,
    })
}

impl std::fmt::Display for Day {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_those_of_the_calendar() {
        for text in ["2026-11-25", "2024-02-29", "2000-02-29", "0001-01-01"] {
            assert_eq!(Day::parse(text).expect(text).to_string(), text);
        }
        for text in [
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-01",
            "2026-04-31",
            "2026-1-2",
            "25.11.2026",
            "2026-11-25 ",
            "",
            "٢026-11-25",
            "+026-11-25",
            "2026-11-025",
        ] {
            assert_eq!(Day::parse(text), None, "{text}");
        }
    }

    /// Days between dates, counted by hand: a common year has 365, a leap year 366, four centuries 146097.
    #[test]
    fn days_are_counted_by_the_calendar() {
        let day = |text| Day::parse(text).expect(text);
        for (from, to, days) in [
            ("2026-11-25", "2026-11-25", 0),
            ("2026-11-25", "2026-11-24", -1),
            ("2026-02-28", "2026-03-01", 1),
            ("2024-02-28", "2024-03-01", 2),
            ("2026-01-01", "2027-01-01", 365),
            ("2024-01-01", "2025-01-01", 366),
            ("1600-03-01", "2000-03-01", 146_097),
            ("0000-01-01", "0001-01-01", 366),
        ] {
            assert_eq!(day(to).days_since(day(from)), days, "{from} {to}");
        }
        for (from, months, to) in [
            ("2026-11-25", 24, "2028-11-25"),
            ("2026-11-25", 6, "2027-05-25"),
            ("2024-02-29", 24, "2026-02-28"),
            ("2026-08-31", 6, "2027-02-28"),
            ("2026-12-01", 12, "2027-12-01"),
        ] {
            assert_eq!(day(from).after_months(months), day(to), "{from}");
        }
    }
}
