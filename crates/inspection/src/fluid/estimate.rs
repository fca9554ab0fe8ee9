//! What a share of water leaves of the boiling point, between the sources that disagree about it.

use super::curve::WaterCurve;
use super::limits::{Certainty, least_dry, least_dry_of_the_law, least_wet};
use super::reading::Label;
use bleedwright_network::{Bounds, Fluid, FluidFamily};
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::{percent, ratio};
use uom::si::thermodynamic_temperature::degree_celsius;

/// Water by mass that the wet minima are nominally stated for, in percent (FMVSS 116 S6.2: the reference fluid holds 3.70
/// +- 0.05 %).
const WET_PERCENT: f64 = 3.7;

/// Water beyond which no boiling point is given, in percent: the most that anybody reported, second-hand.
const MOST_PERCENT: f64 = 8.0;

/// A DOT 4 fluid as measured, percent and degC. Source: [Thesis4](crate#sources).
const THESIS: [(f64, f64); 2] = [(0.28, 233.0), (4.0, 140.0)];

/// Typical DOT 3 fluid, percent and degC. Source: [Article3](crate#sources).
const ARTICLE: [(f64, f64); 3] = [(1.0, 187.0), (2.0, 160.0), (3.0, 145.0)];

/// Dry and wet boiling point in degC that a sheet of a good DOT 4 fluid prints. Source: [Sheet4](crate#sources).
const SHEET_DEGC: (f64, f64) = (290.0, 198.0);

/// How far above its class a good fluid's dry boiling point lies, in kelvin.
///
/// ASSUMPTION: as far as that sheet's lies above DOT 4.
const ABOVE_CLASS_K: f64 = 60.0;

/// The highest dry boiling point of any label, in degC.
const HIGHEST_DRY_DEGC: f64 = 350.0;

/// The boiling point that a share of water leaves.
#[derive(Clone, Debug, PartialEq)]
pub struct BoilingEstimate {
    /// The boiling point. Low is a fluid whose dry boiling point is the least allowed and that holds its water as loosely
    /// as the loosest that was published; high is a good fluid. All three fall with more water.
    pub boiling: Bounds<ThermodynamicTemperature>,
    /// Whether the moisture lies beyond every published point of the grade.
    pub is_extrapolated: bool,
    /// Whether boiling points of this grade with water in it were published at all, apart from the law's minimum.
    pub has_measured_curve: bool,
    /// What each source says by itself.
    pub sources: Vec<SourceEstimate>,
}

/// What one source says of this share of water.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceEstimate {
    /// The source, in words.
    pub source: &'static str,
    /// Its boiling point; none where it says nothing of this share of water.
    pub boiling: Option<ThermodynamicTemperature>,
    /// How surely the source's own points are known.
    pub certainty: Certainty,
}

/// The curves of a grade: the one through both minima of its class, and the three of an estimate.
#[derive(Clone, Copy, Debug)]
pub(super) struct Curves {
    class: WaterCurve,
    low: WaterCurve,
    nominal: WaterCurve,
    high: WaterCurve,
}

/// Whether this much water is more than an estimate is made for.
pub(super) fn is_too_much(water: Ratio) -> bool {
    water.get::<percent>() > MOST_PERCENT + 1e-9
}

impl BoilingEstimate {
    /// The estimate for a grade; none for fluid that takes up no water, and none beyond 8 % of it.
    ///
    /// A label counts where the car holds the very fluid of that label: it sets nominal and high. It never lifts low.
    ///
    /// Source: [Thesis4](crate#sources), [Article3](crate#sources), [Sheet4](crate#sources), the wet minima
    /// [FMVSS116](crate#sources); the curve through them is [`WaterCurve`].
    ///
    /// ```
    /// use bleedwright_inspection::fluid::BoilingEstimate;
    /// use bleedwright_network::{Bounds, Fluid};
    /// use uom::si::{f64::Ratio, ratio::percent, thermodynamic_temperature::degree_celsius};
    ///
    /// let moisture = Bounds::exact(Ratio::new::<percent>(4.0));
    /// let estimate = BoilingEstimate::new(Fluid::Dot4, moisture, None).expect("DOT 4 takes up water");
    /// assert!(estimate.boiling.low.get::<degree_celsius>() < 140.0);
    /// ```
    pub fn new(grade: Fluid, moisture: Bounds<Ratio>, label: Option<Label>) -> Option<Self> {
        if is_too_much(moisture.nominal) {
            return None;
        }
        let curves = Curves::of(grade, label)?;
        // A tolerance that reaches below dry means dry.
        let water = moisture.map(|share| share.max(Ratio::new::<percent>(0.0)));
        let nominal = curves.nominal.boiling(water.nominal);
        Some(Self {
            boiling: Bounds {
                low: lower(curves.low.boiling(water.high), nominal),
                nominal,
                high: higher(curves.high.boiling(water.low), nominal),
            },
            is_extrapolated: water.high.get::<percent>() > last_percent(grade) + 1e-9,
            has_measured_curve: has_measured_curve(grade),
            sources: sources(grade, water.nominal, label),
        })
    }
}

/// The boiling points that a tester may show for a grade with this much water: as estimated, and up to a fluid that boils as
/// high dry as the best label says. None beyond 8 % of water.
pub(super) fn possible(
    grade: Fluid,
    water: Bounds<Ratio>,
) -> Option<[ThermodynamicTemperature; 2]> {
    let estimate = BoilingEstimate::new(grade, water, None)?;
    let tightest = Curves::of(grade, None)?.high.factor();
    let best = WaterCurve::new(degc(HIGHEST_DRY_DEGC), tightest);
    let driest = water.low.max(Ratio::new::<percent>(0.0));
    let highest = higher(estimate.boiling.high, best.boiling(driest));
    Some([estimate.boiling.low, highest])
}

impl Curves {
    /// The curves of a grade; none for silicone fluid and mineral oil.
    ///
    /// ASSUMPTION: how each corner is put together from the published points.
    pub(super) fn of(grade: Fluid, label: Option<Label>) -> Option<Self> {
        if grade.family() != FluidFamily::Glycol {
            return None;
        }
        let dry = least_dry(grade)?;
        let class = WaterCurve::through(dry, share(WET_PERCENT), least_wet(grade)?);
        let high_dry = degc(dry.get::<degree_celsius>() + ABOVE_CLASS_K);
        let loosest = loosest_factor(grade);
        let low = WaterCurve::new(least_dry_of_the_law(grade)?, loosest);
        let nominal_factor = nominal_factor(grade, class.factor());
        let nominal = WaterCurve::new(dry, nominal_factor);
        let high = WaterCurve::new(high_dry, tightest_factor(grade, class.factor(), high_dry));
        let Some(label) = label else {
            return Some(Self {
                class,
                low,
                nominal,
                high,
            });
        };
        let label_dry = label.dry.unwrap_or(high_dry);
        let labelled = match label.wet {
            Some(wet) => WaterCurve::through(label_dry, share(WET_PERCENT), wet),
            None => WaterCurve::new(label_dry, high.factor()),
        };
        Some(Self {
            class,
            low,
            nominal: WaterCurve::new(
                label.dry.unwrap_or(dry),
                match label.wet {
                    Some(_) => middle(labelled.factor(), loosest),
                    None => nominal.factor(),
                },
            ),
            high: labelled,
        })
    }

    /// The boiling point of the nominal fluid of a class.
    pub(super) fn nominal_at(&self, water_percent: f64) -> ThermodynamicTemperature {
        self.nominal.boiling(share(water_percent))
    }

    /// The boiling point of the fluid that just meets both minima of its class.
    pub(super) fn class_at(&self, water_percent: f64) -> ThermodynamicTemperature {
        self.class.boiling(share(water_percent))
    }
}

/// Whether a curve of the grade was published.
fn has_measured_curve(grade: Fluid) -> bool {
    matches!(grade, Fluid::Dot3 | Fluid::Dot4)
}

/// The share of water at the last published point of a grade, in percent.
fn last_percent(grade: Fluid) -> f64 {
    if grade == Fluid::Dot4 {
        THESIS[1].0
    } else {
        WET_PERCENT
    }
}

/// The largest water factor that a published point asks for, whatever its dry boiling point up to that of a good fluid:
/// the water is held loosest.
///
/// ASSUMPTION: grades of which no curve was published hold it as loosely as the DOT 4 fluid that was measured.
fn loosest_factor(grade: Fluid) -> Ratio {
    let (points, dry): (&[(f64, f64)], _) = if grade == Fluid::Dot3 {
        (&ARTICLE, good_dot3_dry())
    } else {
        (&THESIS[1..], degc(SHEET_DEGC.0))
    };
    factors(points, dry).fold(Ratio::new::<ratio>(0.0), Ratio::max)
}

/// The water factor of the nominal fluid: half-way between its class and the loosest that was published.
///
/// ASSUMPTION: a grade of which no curve was published stands to its class as DOT 4 does. Half-way to DOT 4's own loosest
/// factor it would boil far below the least fluid of its own class.
fn nominal_factor(grade: Fluid, class: Ratio) -> Ratio {
    let measured = if has_measured_curve(grade) {
        grade
    } else {
        Fluid::Dot4
    };
    let Some(of_class) = class_curve(measured) else {
        return class;
    };
    class * (middle(of_class.factor(), loosest_factor(measured)) / of_class.factor())
}

/// The smallest water factor: the water is held tightest.
///
/// ASSUMPTION: grades of which no curve was published vary as much as the sheet varies from the least DOT 4.
fn tightest_factor(grade: Fluid, class: Ratio, high_dry: ThermodynamicTemperature) -> Ratio {
    if grade == Fluid::Dot3 {
        return factors(&ARTICLE, high_dry).fold(class, Ratio::min);
    }
    let sheet = WaterCurve::through(degc(SHEET_DEGC.0), share(WET_PERCENT), degc(SHEET_DEGC.1));
    let Some(least) = class_curve(Fluid::Dot4) else {
        return class;
    };
    class * (sheet.factor() / least.factor())
}

fn good_dot3_dry() -> ThermodynamicTemperature {
    let class_degc = least_dry(Fluid::Dot3).map_or(205.0, |dry| dry.get::<degree_celsius>());
    degc(class_degc + ABOVE_CLASS_K)
}

fn factors(points: &[(f64, f64)], dry: ThermodynamicTemperature) -> impl Iterator<Item = Ratio> {
    points.iter().map(move |(water_percent, boils_degc)| {
        WaterCurve::through(dry, share(*water_percent), degc(*boils_degc)).factor()
    })
}

/// The fluid that just meets both minima of its class.
fn class_curve(grade: Fluid) -> Option<WaterCurve> {
    Some(WaterCurve::through(
        least_dry(grade)?,
        share(WET_PERCENT),
        least_wet(grade)?,
    ))
}

/// What each source says by itself.
fn sources(grade: Fluid, water: Ratio, label: Option<Label>) -> Vec<SourceEstimate> {
    let mut sources = Vec::new();
    match grade {
        Fluid::Dot3 => sources.push(SourceEstimate {
            source: "typical DOT 3 by a trade article (187, 160, 145 degC at 1, 2, 3 %)",
            boiling: article(water),
            certainty: Certainty::SecondHand,
        }),
        Fluid::Dot4 => {
            let [little, much] = THESIS.map(|(water, boils)| (share(water), degc(boils)));
            let curve = WaterCurve::through_both(little, much, degc(HIGHEST_DRY_DEGC));
            let (first, last) = (THESIS[0].0 - 1e-9, THESIS[1].0 + 1e-9);
            sources.push(SourceEstimate {
                source: "a DOT 4 fluid measured for a university thesis (233 degC at 0.28 %, 140 at 4.0 %), \
                         by our curve between",
                boiling: (first..=last)
                    .contains(&water.get::<percent>())
                    .then(|| curve.boiling(water)),
                certainty: Certainty::Read,
            });
            let sheet =
                WaterCurve::through(degc(SHEET_DEGC.0), share(WET_PERCENT), degc(SHEET_DEGC.1));
            sources.push(SourceEstimate {
                source: "a good DOT 4 fluid by its data sheet (290 degC dry, 198 wet), by our curve",
                boiling: Some(sheet.boiling(water)),
                certainty: Certainty::SecondHand,
            });
        }
        _ => {}
    }
    if let Some(curve) = class_curve(grade) {
        sources.push(SourceEstimate {
            source: "a fluid that just meets both minima of the class, by our curve",
            boiling: Some(curve.boiling(water)),
            certainty: if grade == Fluid::Dot4LowViscosity {
                Certainty::FromMemory
            } else {
                Certainty::Quoted
            },
        });
    }
    if let Some(Label {
        dry: Some(dry),
        wet: Some(wet),
    }) = label
    {
        sources.push(SourceEstimate {
            source: "the label, by our curve",
            boiling: Some(WaterCurve::through(dry, share(WET_PERCENT), wet).boiling(water)),
            certainty: Certainty::Read,
        });
    }
    sources
}

/// Straight between the printed points of the article, and nothing outside.
fn article(water: Ratio) -> Option<ThermodynamicTemperature> {
    let at = water.get::<percent>();
    ARTICLE.windows(2).find_map(|pair| {
        let ((from, above), (to, below)) = (pair[0], pair[1]);
        let is_between = (from - 1e-9..=to + 1e-9).contains(&at);
        is_between.then(|| degc(above + (below - above) * (at - from) / (to - from)))
    })
}

/// Half-way on the scale on which factors multiply.
fn middle(one: Ratio, other: Ratio) -> Ratio {
    Ratio::new::<ratio>((one.get::<ratio>() * other.get::<ratio>()).sqrt())
}

pub(super) fn lower(
    one: ThermodynamicTemperature,
    other: ThermodynamicTemperature,
) -> ThermodynamicTemperature {
    if other < one { other } else { one }
}

pub(super) fn higher(
    one: ThermodynamicTemperature,
    other: ThermodynamicTemperature,
) -> ThermodynamicTemperature {
    if other > one { other } else { one }
}

fn degc(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(value)
}

fn share(value_percent: f64) -> Ratio {
    Ratio::new::<percent>(value_percent)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn within(grade: Fluid, water_percent: f64, boils_degc: f64) {
        let moisture = Bounds::exact(share(water_percent));
        let estimate = BoilingEstimate::new(grade, moisture, None).expect("glycol takes up water");
        let [low, high] = [estimate.boiling.low, estimate.boiling.high]
            .map(|point| point.get::<degree_celsius>());
        assert!(
            low <= boils_degc && boils_degc <= high,
            "{grade:?} at {water_percent} %: {boils_degc} is not in {low:.1} to {high:.1}"
        );
    }

    #[test]
    fn published_points_lie_inside() {
        for (water, boils) in THESIS {
            within(Fluid::Dot4, water, boils);
        }
        for (water, boils) in ARTICLE {
            within(Fluid::Dot3, water, boils);
        }
        within(Fluid::Dot4, WET_PERCENT, SHEET_DEGC.1);
        for grade in Fluid::ALL {
            if let (FluidFamily::Glycol, Some(wet)) = (grade.family(), least_wet(*grade)) {
                within(*grade, WET_PERCENT, wet.get::<degree_celsius>());
            }
        }
    }

    /// The spread of a grade nobody measured is wider than that of one which somebody did.
    #[test]
    fn guessed_grades_are_wider() {
        let spread_k = |grade| {
            let estimate = BoilingEstimate::new(grade, Bounds::exact(share(2.5)), None)
                .expect("glycol takes up water");
            estimate.boiling.high.get::<degree_celsius>()
                - estimate.boiling.low.get::<degree_celsius>()
        };
        let widest_measured = spread_k(Fluid::Dot3).max(spread_k(Fluid::Dot4));
        for grade in [Fluid::Dot4LowViscosity, Fluid::Dot51] {
            assert!(spread_k(grade) > widest_measured, "{grade:?}");
        }
    }
}
