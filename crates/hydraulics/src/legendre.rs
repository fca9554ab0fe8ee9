//! One stirred cavity over one interval of pushed volume, as a polynomial.
//!
//! The cavity obeys `V dc/dv = g(v) - c`, with `g` the old fraction of what flows in. Both are written as sums of
//! Legendre polynomials `P_k` over the interval, and the equation is asked to hold against every `P_k`, the start
//! value entering as a jump (the discontinuous Galerkin method in one dimension [Lasaint1974](crate#sources); its end value
//! is that of the Radau IIA method with the same number of stages [Hairer1996](crate#sources), so it is exact to order 19
//! here and damps cavities that are small against the interval). Subtracting neighbouring equations leaves three
//! unknowns in each. With `c = sum (2k+1) y_k P_k`, `g = sum (2k+1) m_k P_k` and `z = h/V`, `h` the interval:
//!
//! ```text
//! (2 + z) y_0 - z y_1                        = 2 c(start) + z (m_0 - m_1)
//! z y_(k-1) + 2 (2k+1) y_k - z y_(k+1)       = z (m_(k-1) - m_(k+1))
//! z y_(K-1) + (2 (2K+1) + z) y_K             = z (m_(K-1) + m_K)
//! ```
//!
//! Beside a positive diagonal the matrix is antisymmetric, so elimination needs no pivots and is stable for every
//! `z`. The unknowns `y_k` are called moments below: `y_k` is the mean of `c P_k` over the interval.

use crate::root::falling_root;

/// How many moments a signal keeps: polynomials of degree nine.
pub(crate) const MOMENTS: usize = 10;

/// A signal over one interval: the mean of the signal times each Legendre polynomial.
pub(crate) type Moments = [f64; MOMENTS];

/// Positive half of the ten Gauss nodes and their weights on -1 to 1 [Abramowitz1964](crate#sources), table 25.4.
const HALF_RULE: [(f64, f64); 5] = [
    (0.148_874_338_981_631_21, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_36),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

const HALF: usize = HALF_RULE.len();
const NODES: Moments = nodes();
const PROJECTION: [Moments; HALF] = projection();

const fn nodes() -> Moments {
    let mut nodes = [0.0; MOMENTS];
    let mut i = 0;
    while i < HALF {
        nodes[HALF - 1 - i] = -HALF_RULE[i].0;
        nodes[HALF + i] = HALF_RULE[i].0;
        i += 1;
    }
    nodes
}

/// Half of the weight of each positive node times the value of each polynomial there, node by node.
const fn projection() -> [Moments; HALF] {
    let mut rows = [[0.0; MOMENTS]; HALF];
    let mut i = 0;
    while i < HALF {
        let (node, weight) = HALF_RULE[i];
        let values = polynomials(node);
        let mut k = 0;
        while k < MOMENTS {
            rows[i][k] = 0.5 * weight * values[k];
            k += 1;
        }
        i += 1;
    }
    rows
}

/// `P_k = rise x P_(k-1) - fall P_(k-2)`, worked out beforehand: a division in each step takes longer than all else.
const RECURRENCE: [(f64, f64); MOMENTS] = {
    let mut factors = [(0.0, 0.0); MOMENTS];
    let mut k = 2;
    while k < MOMENTS {
        let order = k as f64;
        factors[k] = ((2.0 * order - 1.0) / order, (order - 1.0) / order);
        k += 1;
    }
    factors
};

/// The Legendre polynomials at one place between -1 and 1.
const fn polynomials(place: f64) -> Moments {
    let mut values = [1.0; MOMENTS];
    values[1] = place;
    let mut k = 2;
    while k < MOMENTS {
        let (rise, fall) = RECURRENCE[k];
        values[k] = rise * place * values[k - 1] - fall * values[k - 2];
        k += 1;
    }
    values
}

fn degree_weight(k: usize) -> f64 {
    2.0 * k as f64 + 1.0
}

pub(crate) fn constant(value: f64) -> Moments {
    let mut moments = [0.0; MOMENTS];
    moments[0] = value;
    moments
}

/// The moments of a smooth function over an interval.
pub(crate) fn project(start: f64, width: f64, function: impl Fn(f64) -> f64) -> Moments {
    // All values first: they do not wait for each other.
    let values = NODES.map(|node| function(start + 0.5 * width * (1.0 + node)));
    let mut moments = [0.0; MOMENTS];
    // A polynomial of even degree has one value at both nodes of a pair, one of odd degree opposite ones.
    for (pair, row) in PROJECTION.iter().enumerate() {
        let (left, right) = (values[HALF - 1 - pair], values[HALF + pair]);
        let sides = [right + left, right - left];
        for (moment, factor) in moments.chunks_exact_mut(2).zip(row.chunks_exact(2)) {
            moment[0] += factor[0] * sides[0];
            moment[1] += factor[1] * sides[1];
        }
    }
    moments
}

/// On so many volumes of a cavity what leaves it is what flows in, to the last digit. The tenth power of this must be
/// a number.
const LONGEST: f64 = 1e24;

/// What leaves a stirred cavity over an interval: `interval` is its length in volumes of the cavity.
pub(crate) fn stir(inflow: &Moments, start: f64, interval: f64) -> Moments {
    const LAST: usize = MOMENTS - 1;
    let z = interval.min(LONGEST);

    // The determinants of the lower corners of the matrix; their ratios are the inverse pivots, and no division waits
    // for another.
    let mut corners = [1.0; MOMENTS + 1];
    corners[LAST] = 2.0 * degree_weight(LAST) + z;
    for k in (0..LAST).rev() {
        let diagonal = if k == 0 {
            2.0 + z
        } else {
            2.0 * degree_weight(k)
        };
        corners[k] = diagonal * corners[k + 1] + z * z * corners[k + 2];
    }
    let inverse: Moments = std::array::from_fn(|k| corners[k + 1] / corners[k]);
    let ratio = inverse.map(|inverse| z * inverse);

    let mut outflow = [0.0; MOMENTS];
    outflow[LAST] = z * (inflow[LAST - 1] + inflow[LAST]);
    for k in (0..LAST).rev() {
        let right = if k == 0 {
            2.0 * start + z * (inflow[0] - inflow[1])
        } else {
            z * (inflow[k - 1] - inflow[k + 1])
        };
        outflow[k] = right + ratio[k + 1] * outflow[k + 1];
    }
    outflow[0] *= inverse[0];
    for k in 1..MOMENTS {
        outflow[k] = outflow[k] * inverse[k] - ratio[k] * outflow[k - 1];
    }
    outflow
}

/// The signal at the end of its interval, where every polynomial is one.
pub(crate) fn end_value(moments: &Moments) -> f64 {
    moments
        .iter()
        .enumerate()
        .map(|(k, y)| degree_weight(k) * y)
        .sum()
}

/// The size of what the polynomial leaves out, judged by its last two terms.
///
/// For a smooth signal each term is a tenth of the one before or less. The last but one is counted by its tenth,
/// so that a last term that vanishes by symmetry deceives nobody.
pub(crate) fn tail(moments: &Moments) -> f64 {
    let term = |k: usize| degree_weight(k) * moments[k].abs();
    term(MOMENTS - 1) + 0.1 * term(MOMENTS - 2)
}

/// A bound that the signal nowhere exceeds on its interval.
pub(crate) fn upper_bound(moments: &Moments) -> f64 {
    let wiggle: f64 = moments
        .iter()
        .enumerate()
        .skip(1)
        .map(|(k, y)| degree_weight(k) * y.abs())
        .sum();
    moments[0] + wiggle
}

/// The signal and its slope at a place between -1 (start of the interval) and 1 (its end).
fn value_and_slope(moments: &Moments, place: f64) -> (f64, f64) {
    value_and_slope_from(moments, &polynomials(place))
}

/// The same from the values of the polynomials at the place.
fn value_and_slope_from(moments: &Moments, values: &Moments) -> (f64, f64) {
    let (mut value, mut slope) = (moments[0], 0.0);
    let (mut slope_before, mut slope_here) = (0.0, 0.0);
    for k in 1..MOMENTS {
        // P'_k = P'_(k-2) + (2k-1) P_(k-1)
        let slope_next = slope_before + degree_weight(k - 1) * values[k - 1];
        (slope_before, slope_here) = (slope_here, slope_next);
        value += degree_weight(k) * moments[k] * values[k];
        slope += degree_weight(k) * moments[k] * slope_here;
    }
    (value, slope)
}

/// Into how many parts an interval is divided to find the last fall.
const PARTS: usize = 8;

/// The polynomials at the ends of the parts: working them out costs more than all else in [`last_fall`].
const AT_PARTS: [Moments; PARTS + 1] = {
    let mut rows = [[0.0; MOMENTS]; PARTS + 1];
    let mut i = 0;
    while i <= PARTS {
        rows[i] = polynomials(end_of_part(i));
        i += 1;
    }
    rows
};

const fn end_of_part(i: usize) -> f64 {
    2.0 * i as f64 / PARTS as f64 - 1.0
}

/// The last place, as a share of the interval, at which the signal falls through a level, if it ends at or below it.
pub(crate) fn last_fall(moments: &Moments, level: f64) -> Option<f64> {
    let height = |place: f64| value_and_slope(moments, place).0 - level;
    let mut right = value_and_slope_from(moments, &AT_PARTS[PARTS]);
    if right.0 > level {
        return None;
    }
    for i in (0..PARTS).rev() {
        let left = value_and_slope_from(moments, &AT_PARTS[i]);
        let (from, to) = (end_of_part(i), end_of_part(i + 1));
        let peak = if left.0 > level {
            Some(from)
        } else if left.1 > 0.0 && right.1 < 0.0 {
            let top = falling_root(from, to, |place| value_and_slope(moments, place).1);
            (height(top) > 0.0).then_some(top)
        } else {
            None
        };
        if let Some(peak) = peak {
            return Some(0.5 * (1.0 + falling_root(peak, to, height)));
        }
        right = left;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The ten-point rule integrates every power below twenty: the integral of `x^(2n)` is `2 / (2n+1)`.
    #[test]
    fn nodes_and_weights_integrate_powers() {
        for power in 0..20 {
            let sum: f64 = HALF_RULE
                .iter()
                .map(|(x, w)| w * (x.powi(power) + (-x).powi(power)))
                .sum();
            let exact = if power % 2 == 0 {
                2.0 / f64::from(power + 1)
            } else {
                0.0
            };
            assert!((sum - exact).abs() < 1e-15, "{power}: {sum}");
        }
    }

    #[test]
    fn a_cavity_without_inflow_decays_exponentially() {
        for interval in [1e-9, 0.01, 0.5, 1.0, 1.5] {
            let out = stir(&constant(0.0), 1.0, interval);
            assert!(
                (end_value(&out) - (-interval).exp()).abs() < 1e-15,
                "{interval}"
            );
            for place in [-1.0, -0.3, 0.8] {
                let exact = (-interval * 0.5 * (1.0 + place)).exp();
                assert!(
                    (value_and_slope(&out, place).0 - exact).abs() < 2e-9,
                    "{interval} {place}"
                );
            }
        }
    }

    #[test]
    fn a_cavity_that_is_small_against_the_interval_follows_its_inflow() {
        let inflow = project(1.0, 0.2, |v| 1.0 / (v * v));
        for interval in [1e6, 1e13, 1e24, 1e200] {
            let out = stir(&inflow, 1.0, interval);
            assert!((end_value(&out) - 1.0 / 1.44).abs() < 1.0 / interval + 1e-9);
        }
    }

    /// Closed form: with inflow `exp(-a v)` and cavity volume one, `c = (exp(-a v) - a exp(-v)) / (1 - a)`.
    #[test]
    fn an_exponential_inflow_has_a_closed_form() {
        let rate: f64 = 0.4;
        let inflow = project(0.0, 1.2, |v| (-rate * v).exp());
        let out = stir(&inflow, 1.0, 1.2);
        let exact = ((-rate * 1.2).exp() - rate * (-1.2_f64).exp()) / (1.0 - rate);
        assert!((end_value(&out) - exact).abs() < 1e-14);
    }

    #[test]
    fn the_last_fall_is_found_behind_a_hump() {
        // Rises through the level, then falls through it again.
        let hump = project(0.0, 1.0, |v| 4.0 * v * (1.0 - v));
        let found = last_fall(&hump, 0.5).expect("the hump ends below the level");
        assert!((found - f64::midpoint(1.0, 0.5_f64.sqrt())).abs() < 1e-11);
        // A peak that no sample touches.
        let narrow = project(0.0, 1.0, |v| 1.0 - (v - 0.471).powi(2));
        let found = last_fall(&narrow, 1.0 - 1e-8).expect("the peak is above the level");
        assert!((found - 0.4711).abs() < 1e-9, "{found}");
        assert!(last_fall(&narrow, 1.0 + 1e-9).is_none());
        let rising = project(0.0, 1.0, |v| v);
        assert!(last_fall(&rising, 0.5).is_none());
    }

    #[test]
    fn the_slope_is_the_derivative() {
        let signal = project(-1.0, 2.0, |x| x.powi(5) - 0.3 * x);
        for place in [-0.9_f64, 0.0, 0.4] {
            let (value, slope) = value_and_slope(&signal, place);
            assert!((value - (place.powi(5) - 0.3 * place)).abs() < 1e-13);
            assert!((slope - (5.0 * place.powi(4) - 0.3)).abs() < 1e-12);
        }
    }
}
