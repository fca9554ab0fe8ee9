//! The heads of a sheet's sections, each with what holds for all that stands below it.

/// The head of a section, and what holds in it.
pub type Heading<'h> = (&'h str, &'h str);

/// What is looked at.
pub const LOOK_FIRST: Heading<'static> = ("Look first", "one \"no\": stop, mend it, plan again");
/// What comes before the first screw.
pub const BEFORE: Heading<'static> = ("Before", "");
/// What comes after the last one.
pub const AFTER: Heading<'static> = ("After", "in this order");
/// The bleed after the routine of anti-lock units.
pub const SECOND: Heading<'static> = ("Second bleed", "after the routine");
/// What comes after that.
pub const AFTER_SECOND: Heading<'static> = ("After the second bleed", "in this order");

/// The head in one line.
pub(crate) fn headed((head, holds): Heading<'_>) -> String {
    match holds {
        "" => head.to_owned(),
        _ => format!("{head}: {holds}"),
    }
}

/// The same with its head in capitals, where nothing else makes it stand out.
pub(crate) fn headed_in_capitals((head, holds): Heading<'_>) -> String {
    headed((&head.to_uppercase(), holds))
}
