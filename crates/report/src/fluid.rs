//! The words of a judgement of fluid.

mod advice;
mod bottle;
mod car;
mod figure;

pub(crate) use advice::{assumption, caution};
pub(crate) use bottle::bottle_reason;
pub(crate) use car::reason;
pub(crate) use figure::span;

use crate::said::{Said, figure as shown, say};
use bleedwright_inspection::fluid::{
    BottleVerdict, Certainty, Colour, Contradiction, EstimateSource, FluidJudgement, Property,
    Verdict, WET_PERCENT,
};
use figure::{share_within, temperature, temperature_within};

/// The verdict on the fluid in the car.
pub(crate) fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::NotChecked => "not checked",
        Verdict::Fit => "no reason found",
        Verdict::RenewSoon => "renew soon",
        Verdict::RenewNow => "renew now",
        Verdict::Unsafe => "unsafe, do not drive",
    }
}

/// The same for all that is said of it.
pub(crate) fn judgement(judgement: &FluidJudgement) -> &'static str {
    match judgement.verdict {
        Verdict::NotChecked if judgement.contradiction.is_some() => "measure again",
        of_all => verdict(of_all),
    }
}

/// The verdict on a bottle.
pub(crate) fn bottle_verdict(verdict: BottleVerdict) -> &'static str {
    match verdict {
        BottleVerdict::NotChecked => "not checked",
        BottleVerdict::Fit => "no reason found",
        BottleVerdict::Doubtful => "doubtful, open a sealed one",
        BottleVerdict::OnlyIfAllowed => "another grade, only where the maker allows it",
        BottleVerdict::DoNotUse => "do not use",
    }
}

/// Why two readings cannot both be true.
pub(crate) fn contradiction(why: &Contradiction) -> Said {
    let [low, high] = why.leaves.map(temperature);
    say!(
        "{} of water leaves {} to {} (assumption), so {} contradicts it and neither is good: measure both again",
        share_within(why.moisture),
        low,
        high,
        temperature_within(why.boiling)
    )
}

/// How surely a figure is known.
pub(crate) fn certainty(certainty: Certainty) -> &'static str {
    match certainty {
        Certainty::Read => "read at the source",
        Certainty::Quoted => "the law as others quote it",
        Certainty::SecondHand => "second-hand",
        Certainty::FromMemory => "from memory",
        Certainty::CommonPractice => "common practice, no source",
        Certainty::Assumption => "assumption",
    }
}

/// What a limit is about.
pub(crate) fn property(property: Property) -> Said {
    match property {
        Property::DryBoiling => "dry boiling point".into(),
        Property::WetBoiling => say!("wet boiling point (nominal {} % water)", shown(WET_PERCENT)),
        Property::ColdViscosity => "viscosity at -40 degC".into(),
        Property::HotViscosity => "viscosity at 100 degC".into(),
        Property::Acidity => "pH".into(),
        Property::Colour => "colour of new fluid, no test of its condition".into(),
        Property::Moisture => "moisture in the car, else renewed".into(),
        Property::Age => "age where the maker states no interval, then due".into(),
    }
}

/// A colour of new fluid.
pub(crate) fn colour(colour: Colour) -> &'static str {
    match colour {
        Colour::Green => "green",
        Colour::Purple => "purple",
        Colour::Pale => "colourless to amber",
    }
}

/// Where an estimate comes from.
pub(crate) fn estimate_source(source: EstimateSource) -> &'static str {
    match source {
        EstimateSource::Class => "a fluid that just meets both minima of the class, by our curve",
        EstimateSource::Label => "the label, by our curve",
    }
}
