//! The verdicts.

use crate::words::words;

words! {
    /// What is said of the fluid in the car. A later one is worse than an earlier one; what was not checked stands outside.
    #[derive(PartialOrd, Ord, Hash)]
    Verdict {
        /// Nothing was measured that tells.
        NotChecked = "not_checked";
        /// No reason was found against it, as far as was checked: one reading at one place makes no fluid fit.
        Fit = "no_reason_found";
        /// To be renewed at the next opportunity.
        RenewSoon = "renew_soon";
        /// To be renewed before the car is used as usual.
        RenewNow = "renew_now";
        /// Not to be driven.
        Unsafe = "unsafe";
    }
}

words! {
    /// Whether the fluid in the bottle may be filled in. A later one is worse than an earlier one.
    #[derive(PartialOrd, Ord, Hash)]
    BottleVerdict {
        /// Its moisture was not measured.
        NotChecked = "not_checked";
        /// No reason was found against it.
        Fit = "no_reason_found";
        /// Open a sealed bottle instead.
        Doubtful = "doubtful";
        /// Another grade than the car needs, which no other bottle of it cures: the maker decides.
        OnlyIfAllowed = "only_if_allowed";
        /// Not to be filled in.
        DoNotUse = "do_not_use";
    }
}
