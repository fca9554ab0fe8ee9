//! The coefficients of the Rosenbrock method.
//!
//! Formula, for `M y' = f(t, y)` with the Jacobian `J` taken once a step:
//! `(M / (h g) - J) u_i = f(t + a_i h, y + sum_j A_ij u_j) + M sum_j C_ij u_j / h + g_i h df/dt`, the new value is
//! `y + sum_j A_6j u_j + u_6`, and `u_6` is the estimate of its error.
//!
//! Source: [Steinebach1995](crate#sources), [Hairer1996](crate#sources); the coefficients fulfil the conditions of order
//! four, which a test computes.

/// Number of stages.
pub(super) const STAGES: usize = 6;

/// `g`, the diagonal of every stage.
pub(super) const GAMMA: f64 = 0.25;

/// `a_i`, where in the step a stage is evaluated.
pub(super) const NODES: [f64; STAGES] = [0.0, 0.75, 0.21, 0.63, 1.0, 1.0];

/// `g_i`, the share of the step with which the right side's own change in time counts.
pub(super) const TIME_SLOPES: [f64; STAGES] = [0.25, -0.5, -0.023_504, -0.0362, 0.0, 0.0];

/// `A_ij`.
pub(super) const STAGE_WEIGHTS: [&[f64]; STAGES] = [
    &[],
    &[3.0],
    &[1.831_036_793_486_759, 0.495_518_396_743_379_5],
    &[
        2.304_376_582_692_669,
        -0.052_492_752_457_430_01,
        -1.176_798_761_832_782,
    ],
    &[
        -7.170_454_962_423_024,
        -4.741_636_671_481_785,
        -16.310_026_313_309_71,
        -1.062_004_044_111_401,
    ],
    &[
        -7.170_454_962_423_024,
        -4.741_636_671_481_785,
        -16.310_026_313_309_71,
        -1.062_004_044_111_401,
        1.0,
    ],
];

/// `C_ij`.
pub(super) const CARRIED: [&[f64]; STAGES] = [
    &[],
    &[-12.0],
    &[-8.791_795_173_947_035, -2.207_865_586_973_518],
    &[
        10.817_930_568_571_53,
        6.780_270_611_428_266,
        19.534_859_446_424_1,
    ],
    &[
        34.190_950_067_496_76,
        15.496_711_537_259_63,
        54.747_608_759_641_3,
        14.160_053_921_485_34,
    ],
    &[
        34.626_058_309_305_32,
        15.300_849_761_144_73,
        56.999_555_786_626_67,
        18.408_070_097_930_95,
        -5.714_285_714_285_717,
    ],
];

/// The weights with which the stages' slopes add up to the step; they follow from the tables above.
pub(super) const QUADRATURE: [f64; STAGES] = [
    -0.080_368_370_789_112_6,
    -0.056_490_613_592_446_48,
    0.488_285_630_042_795,
    0.505_716_211_481_619,
    -0.107_142_857_142_857_3,
    0.25,
];

/// The same for the error estimate.
pub(super) const QUADRATURE_ERROR: [f64; STAGES] = [
    1.684_069_277_985_374_3,
    0.418_265_943_613_857,
    -1.881_406_216_873_010_6,
    -0.113_786_147_583_364_44,
    -0.357_142_857_142_857_3,
    0.25,
];

#[cfg(test)]
mod tests {
    use super::*;

    type Square = [[f64; STAGES]; STAGES];

    fn filled(rows: [&[f64]; STAGES]) -> Square {
        let mut square = [[0.0; STAGES]; STAGES];
        for (row, given) in square.iter_mut().zip(rows) {
            row[..given.len()].copy_from_slice(given);
        }
        square
    }

    fn product(left: &Square, right: &Square) -> Square {
        let mut result = [[0.0; STAGES]; STAGES];
        for (row, left) in result.iter_mut().zip(left) {
            for (factor, right) in left.iter().zip(right) {
                for (entry, right) in row.iter_mut().zip(right) {
                    *entry += factor * right;
                }
            }
        }
        result
    }

    /// The inverse of `1 / g - C`, which is triangular.
    fn gamma_matrix() -> Square {
        let carried = filled(CARRIED);
        let mut inverse = [[0.0; STAGES]; STAGES];
        for row in 0..STAGES {
            let mut next = [0.0; STAGES];
            next[row] = 1.0;
            for (factor, above) in carried[row][..row].iter().zip(&inverse) {
                for (entry, above) in next.iter_mut().zip(above) {
                    *entry += factor * above;
                }
            }
            inverse[row] = next.map(|entry| GAMMA * entry);
        }
        inverse
    }

    fn sums(square: &Square) -> [f64; STAGES] {
        square.map(|row| row.iter().sum())
    }

    fn dot(weights: &[f64; STAGES], values: impl Fn(usize) -> f64) -> f64 {
        weights.iter().enumerate().map(|(i, b)| b * values(i)).sum()
    }

    /// [Hairer1996], section IV.7, table 7.1: the conditions of order four for weights b and slopes alpha, beta, from
    /// memory; the embedded weights fulfil those of order three and no more.
    #[test]
    fn conditions_of_order_four_hold() {
        let gamma = gamma_matrix();
        let alpha = product(&filled(STAGE_WEIGHTS), &gamma);
        let mut beta = alpha;
        for (row, add) in beta.iter_mut().zip(&gamma) {
            for (entry, add) in row.iter_mut().zip(add) {
                *entry += add;
            }
        }
        let (places, slopes) = (sums(&alpha), sums(&beta));
        let times =
            |square: &Square, values: &[f64; STAGES], i: usize| dot(&square[i], |j| values[j]);
        let squares = places.map(|place| place * place);
        let inner: [f64; STAGES] = std::array::from_fn(|i| times(&beta, &slopes, i));
        let conditions = |b: &[f64; STAGES]| {
            [
                dot(b, |_| 1.0) - 1.0,
                dot(b, |i| slopes[i]) - 1.0 / 2.0,
                dot(b, |i| squares[i]) - 1.0 / 3.0,
                dot(b, |i| inner[i]) - 1.0 / 6.0,
                dot(b, |i| squares[i] * places[i]) - 1.0 / 4.0,
                dot(b, |i| places[i] * times(&alpha, &slopes, i)) - 1.0 / 8.0,
                dot(b, |i| times(&beta, &squares, i)) - 1.0 / 12.0,
                dot(b, |i| times(&beta, &inner, i)) - 1.0 / 24.0,
            ]
        };
        for residual in conditions(&QUADRATURE) {
            assert!(residual.abs() < 1e-14, "{residual}");
        }
        let embedded: [f64; STAGES] = std::array::from_fn(|i| QUADRATURE[i] - QUADRATURE_ERROR[i]);
        let (lower, higher) = (conditions(&embedded), &conditions(&embedded)[4..]);
        assert!(lower[..4].iter().all(|residual| residual.abs() < 1e-14));
        assert!(higher.iter().all(|residual| residual.abs() > 1e-3));
        for i in 0..STAGES {
            assert!((places[i] - NODES[i]).abs() < 1e-14);
            assert!((sums(&gamma)[i] - TIME_SLOPES[i]).abs() < 1e-14);
        }
    }

    #[test]
    fn the_weights_follow_from_the_stages() {
        let gamma = gamma_matrix();
        let mut last = [0.0; STAGES];
        last[..5].copy_from_slice(STAGE_WEIGHTS[5]);
        last[5] = 1.0;
        for j in 0..STAGES {
            assert!((dot(&last, |i| gamma[i][j]) - QUADRATURE[j]).abs() < 1e-14);
            assert!((gamma[5][j] - QUADRATURE_ERROR[j]).abs() < 1e-14);
        }
        // The last stage of a stiffly accurate method evaluates at the end of the step.
        assert!((NODES[5] - 1.0).abs() < f64::EPSILON);
    }
}
