//! What it means that another grade is filled in than the one asked for.

use super::words::Fluid;

/// How one grade stands to another that the maker asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Substitute {
    /// It is the grade asked for.
    Same,
    /// It mixes and boils no lower: only the maker can allow it.
    IfAllowed {
        /// Its limit of viscosity in the cold is lower.
        is_thinner: bool,
    },
    /// It mixes, boils lower, and is no thicker in the cold.
    BoilsLower,
    /// It mixes, and may be thicker in the cold than an anti-lock unit made for the other takes.
    Thicker {
        /// Its boiling points are lower too.
        boils_lower: bool,
    },
    /// It is of another family.
    OtherFamily,
}

impl Fluid {
    /// What this grade means where `wanted` is asked for.
    ///
    /// ```
    /// use bleedwright_network::{Fluid, Substitute};
    ///
    /// let found = Fluid::Dot51.in_place_of(Fluid::Dot4LowViscosity);
    /// assert_eq!(found, Substitute::Thicker { boils_lower: false });
    /// ```
    pub fn in_place_of(self, wanted: Self) -> Substitute {
        if self == wanted {
            return Substitute::Same;
        }
        if self.family() != wanted.family() {
            return Substitute::OtherFamily;
        }
        let boils_lower =
            self.least_dry_boiling_point_degc() < wanted.least_dry_boiling_point_degc();
        let [own, asked] = [self, wanted].map(Self::most_cold_viscosity_mm2_s);
        match (own > asked, boils_lower) {
            (true, boils_lower) => Substitute::Thicker { boils_lower },
            (false, true) => Substitute::BoilsLower,
            (false, false) => Substitute::IfAllowed {
                is_thinner: own < asked,
            },
        }
    }
}

impl Substitute {
    /// What it is, said of both grades: lower case, no full stop.
    pub fn text(self, is: Fluid, wanted: Fluid) -> String {
        let (name, asked) = (is.text(), wanted.text());
        let slows = "the anti-lock unit works slowly with thick fluid in the cold";
        match self {
            Self::Same => format!("{name}, as is asked for"),
            Self::IfAllowed { is_thinner } => format!(
                "{name} mixes with {asked}, boils no lower{}; it is another grade all the same and goes in only where \
                 the maker allows it",
                if is_thinner {
                    " and is thinner in the cold"
                } else {
                    ""
                }
            ),
            Self::BoilsLower => format!("{name} may boil lower than {asked} must: not fit here"),
            Self::Thicker { boils_lower } => format!(
                "{name} may be thicker in the cold than {asked}{}: not fit here, {slows}",
                if boils_lower { " and boil lower" } else { "" }
            ),
            Self::OtherFamily => format!(
                "{name} is {}, {asked} is {}: the two do not mix, and the wrong one ruins seals",
                is.family().text(),
                wanted.family().text()
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FMVSS 116 S5.1.1 and S5.1.3, ISO 4925 (from memory): dry point and viscosity at -40 degC decide.
    #[test]
    fn every_pair_of_the_trade() {
        use Fluid::{Dot3, Dot4, Dot4LowViscosity, Dot5, Dot51, Mineral};
        let thicker = |boils_lower| Substitute::Thicker { boils_lower };
        for (is, wanted, found) in [
            (Dot51, Dot4, Substitute::IfAllowed { is_thinner: true }),
            (
                Dot4LowViscosity,
                Dot4,
                Substitute::IfAllowed { is_thinner: true },
            ),
            (Dot4, Dot3, Substitute::IfAllowed { is_thinner: false }),
            (Dot4, Dot51, thicker(true)),
            (Dot4, Dot4LowViscosity, thicker(true)),
            (Dot51, Dot4LowViscosity, thicker(false)),
            (Dot4LowViscosity, Dot51, Substitute::BoilsLower),
            (Dot3, Dot4, Substitute::BoilsLower),
            (Dot5, Dot51, Substitute::OtherFamily),
            (Dot51, Dot5, Substitute::OtherFamily),
            (Mineral, Dot4, Substitute::OtherFamily),
            (Dot5, Dot5, Substitute::Same),
        ] {
            assert_eq!(is.in_place_of(wanted), found, "{is:?} for {wanted:?}");
        }
    }
}
