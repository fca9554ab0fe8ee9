//! What may stand in a field of a record.

use bleedwright_network::Bounds;

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

macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $word:literal;)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum $name {
            $($(#[$variant_doc])* $variant,)+
        }

        impl $name {
            /// Every word.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// As written in files.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
        }
    };
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
    /// What the driver presses.
    ControlType {
        /// With the foot.
        Pedal = "pedal";
        /// With the hand.
        HandLever = "hand_lever";
        /// Pushed in by the overrun coupler of a trailer.
        Coupler = "coupler";
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
        let is_leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if is_leap => 29,
            2 => 28,
            _ => return None,
        };
        (1..=days).contains(&day).then_some(Self {
            year,
            month: month as u8,
            day: day as u8,
        })
    }
}

impl Day {
    /// Whether it is the other day or at most so many before.
    pub(crate) fn is_shortly_before(self, other: Self) -> bool {
        // ASSUMPTION, no source: a month at most lies between the work and its readings.
        (0..=31).contains(&(other.number() - self.number()))
    }

    /// Days in their order, with months of 31: enough to tell near from far.
    fn number(self) -> i32 {
        (i32::from(self.year) * 12 + i32::from(self.month)) * 31 + i32::from(self.day)
    }

    /// Whether it is a day on which a record of today may have been written.
    pub(crate) fn is_of_this_century(self) -> bool {
        (2000..2100).contains(&self.year)
    }
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
}
