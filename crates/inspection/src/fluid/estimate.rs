//! What a share of water leaves of the boiling point, by the dry and wet minima of the law and by what is assumed beside
//! them.

use super::curve::WaterCurve;
use super::limits::{Certainty, least_dry, least_dry_of_the_law, least_wet};
use super::reading::Label;
use bleedwright_network::{Bounds, Fluid, FluidFamily};
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::{percent, ratio};
use uom::si::thermodynamic_temperature::degree_celsius;

/// Water by mass that the wet minima are nominally stated for, in percent (FMVSS 116 S6.2: the reference fluid holds 3.70
/// +- 0.05 %).
pub const WET_PERCENT: f64 = 3.7;

/// Water beyond which no boiling point is given, in percent: the most that anybody reported, second-hand.
const MOST_PERCENT: f64 = 8.0;

/// The water factor of the loosest fluid.
///
/// ASSUMPTION: a tenth more than an ideal mixture has ([Raoult1887](crate#sources)).
pub const LOOSEST_FACTOR: f64 = 1.1;

/// The water factor of a good fluid as a share of its class's, for DOT 3 and for the others.
///
/// ASSUMPTION: DOT 3 hardly holds its water; borate esters hold it up to three times as tightly as the class asks for.
pub const TIGHTEST_OF_CLASS: (f64, f64) = (0.9, 1.0 / 3.0);

/// How far inside these factors a pair of readings must lie to be believed.
///
/// ASSUMPTION: an eighth. What lies nearer to the edge is measured again.
const BELIEVED_WITHIN: f64 = 1.125;

/// How far above its class a good fluid's dry boiling point lies, in kelvin.
///
/// ASSUMPTION: 60 K; labels of good fluids stand that high (common practice, no source).
pub const ABOVE_CLASS_K: f64 = 60.0;

/// The highest dry boiling point of any label, in degC.
const HIGHEST_DRY_DEGC: f64 = 350.0;

/// The boiling point that a share of water leaves.
#[derive(Clone, Debug, PartialEq)]
pub struct BoilingEstimate {
    /// The boiling point. Low is a fluid whose dry boiling point is the least allowed and that holds its water more loosely
    /// than an ideal mixture; nominal is a cautious one, which boils lower than a fluid that just meets both minima of its
    /// class does with the same water; high is a good fluid. All three fall with more water.
    pub boiling: Bounds<ThermodynamicTemperature>,
    /// Whether the moisture lies beyond the water of the wet minimum, the last point that a law states.
    pub is_extrapolated: bool,
    /// What each figure that is known says by itself.
    pub sources: Vec<SourceEstimate>,
}

/// What one source says of this share of water.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceEstimate {
    /// The source.
    pub source: EstimateSource,
    /// Its boiling point; none where it says nothing of this share of water.
    pub boiling: Option<ThermodynamicTemperature>,
    /// How surely the source's own points are known.
    pub certainty: Certainty,
}

/// Whose points a curve goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EstimateSource {
    /// Both minima of the class.
    Class,
    /// Both boiling points of the label.
    Label,
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
    /// Source: the dry and wet minima [FMVSS116](crate#sources), [ISO4925](crate#sources); the curve through them is
    /// [`WaterCurve`]. Everything beside them is assumed.
    ///
    /// ```
    /// use bleedwright_inspection::fluid::BoilingEstimate;
    /// use bleedwright_network::{Bounds, Fluid};
    /// use uom::si::{f64::Ratio, ratio::percent, thermodynamic_temperature::degree_celsius};
    ///
    /// let moisture = Bounds::exact(Ratio::new::<percent>(4.0));
    /// let estimate = BoilingEstimate::new(Fluid::Dot4, moisture, None).expect("DOT 4 takes up water");
    /// // A fluid that just meets the law's minima boils at 155 degC with 3.7 %, at 153.0 with 4.
    /// assert!(estimate.boiling.nominal.get::<degree_celsius>() < 153.0);
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
                low: curves.low.boiling(water.high).min(nominal),
                nominal,
                high: curves.high.boiling(water.low).max(nominal),
            },
            is_extrapolated: water.high.get::<percent>() > WET_PERCENT + 1e-9,
            sources: sources(grade, water.nominal, label),
        })
    }
}

/// The boiling points that a tester may show for a grade with this much water without one of the two readings being
/// doubted: from a fluid that just meets the law's dry minimum to one that boils as high dry as the best label says. None
/// beyond 8 % of water.
pub(super) fn believed(
    grade: Fluid,
    water: Bounds<Ratio>,
) -> Option<[ThermodynamicTemperature; 2]> {
    if is_too_much(water.nominal) {
        return None;
    }
    let curves = Curves::of(grade, None)?;
    let loosest = WaterCurve::new(curves.low.dry(), curves.low.factor() / BELIEVED_WITHIN);
    let tightest = WaterCurve::new(
        degc(HIGHEST_DRY_DEGC),
        curves.high.factor() * BELIEVED_WITHIN,
    );
    let dry = Ratio::new::<percent>(0.0);
    Some([
        loosest.boiling(water.high.max(dry)),
        tightest.boiling(water.low.max(dry)),
    ])
}

impl Curves {
    /// The curves of a grade; none for silicone fluid and mineral oil.
    ///
    /// ASSUMPTION: how low, nominal and high stand to the class, which alone is known.
    pub(super) fn of(grade: Fluid, label: Option<Label>) -> Option<Self> {
        if grade.family() != FluidFamily::Glycol {
            return None;
        }
        let dry = least_dry(grade)?;
        let class = class_curve(grade)?;
        let high_dry = degc(dry.get::<degree_celsius>() + ABOVE_CLASS_K);
        let loosest = Ratio::new::<ratio>(LOOSEST_FACTOR);
        let low = WaterCurve::new(least_dry_of_the_law(grade)?, loosest);
        let nominal = WaterCurve::new(dry, nominal_factor(grade)?);
        let tightest = if grade == Fluid::Dot3 {
            TIGHTEST_OF_CLASS.0
        } else {
            TIGHTEST_OF_CLASS.1
        };
        let high = WaterCurve::new(high_dry, class.factor() * tightest);
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

    /// The boiling point of the fluid that just meets both minima of its class.
    pub(super) fn class_at(&self, water_percent: f64) -> ThermodynamicTemperature {
        self.class.boiling(share(water_percent))
    }
}

/// The water factor of the cautious fluid.
///
/// ASSUMPTION: half-way between the class and the loosest for DOT 3 and DOT 4; the others stand to their class as DOT 4
/// does. Half-way to the loosest they would boil far below the least fluid of their own class.
fn nominal_factor(grade: Fluid) -> Option<Ratio> {
    let like = if grade == Fluid::Dot3 {
        grade
    } else {
        Fluid::Dot4
    };
    let of_like = class_curve(like)?.factor();
    let half_way = middle(of_like, Ratio::new::<ratio>(LOOSEST_FACTOR));
    Some(class_curve(grade)?.factor() * (half_way / of_like))
}

/// The fluid that just meets both minima of its class.
fn class_curve(grade: Fluid) -> Option<WaterCurve> {
    Some(WaterCurve::through(
        least_dry(grade)?,
        share(WET_PERCENT),
        least_wet(grade)?,
    ))
}

/// What each figure that is known says by itself.
fn sources(grade: Fluid, water: Ratio, label: Option<Label>) -> Vec<SourceEstimate> {
    let mut sources = Vec::new();
    if let Some(curve) = class_curve(grade) {
        sources.push(SourceEstimate {
            source: EstimateSource::Class,
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
            source: EstimateSource::Label,
            boiling: Some(WaterCurve::through(dry, share(WET_PERCENT), wet).boiling(water)),
            certainty: Certainty::Read,
        });
    }
    sources
}

/// Half-way on the scale on which factors multiply.
fn middle(one: Ratio, other: Ratio) -> Ratio {
    Ratio::new::<ratio>((one.get::<ratio>() * other.get::<ratio>()).sqrt())
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

    /// The law's minima lie inside the bounds, and the cautious fluid boils no higher than the one that just meets them.
    #[test]
    fn the_minima_lie_inside_and_above_the_cautious_one() {
        for grade in Fluid::ALL {
            let (Some(curves), Some(wet)) = (Curves::of(*grade, None), least_wet(*grade)) else {
                continue;
            };
            let at = |water: f64| {
                let moisture = Bounds::exact(share(water));
                let estimate = BoilingEstimate::new(*grade, moisture, None);
                estimate.expect("glycol takes up water").boiling
            };
            assert!(at(WET_PERCENT).low < wet && wet < at(WET_PERCENT).high);
            for water in [0.5, 1.0, 2.0, 4.0, 6.0, 8.0] {
                let class = curves.class_at(water);
                assert!(at(water).nominal < class, "{grade:?} at {water} %");
                let [least, most] =
                    believed(*grade, Bounds::exact(share(water))).expect("within 8 %");
                assert!(least < class && class < most, "{grade:?} at {water} %");
            }
        }
    }

    /// Beyond the water of the wet minimum the estimate says so, and beyond 8 % there is none.
    #[test]
    fn extrapolation_is_marked_and_ends() {
        let at = |water: f64| BoilingEstimate::new(Fluid::Dot4, Bounds::exact(share(water)), None);
        let is_extrapolated = |water| at(water).map(|estimate| estimate.is_extrapolated);
        assert_eq!(is_extrapolated(3.7), Some(false));
        assert_eq!(is_extrapolated(3.8), Some(true));
        assert_eq!(at(8.1), None);
    }
}
