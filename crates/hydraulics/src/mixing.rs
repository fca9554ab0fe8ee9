//! The opposite assumption about joints: at each of them the flow is mixed across the whole bore.
//!
//! Without mixing, a streamline that is slow in one piece is slow in the next, so the spread of the times of stay
//! is that of one long tube. With full mixing each piece deals its fluid out anew and the spreads of the pieces are
//! independent. The truth lies between. At long pushes no mixing asks for more; at pushes under about twice the
//! contents full mixing can ask for more, because less of the fluid gets through on the axis all the way.

use crate::error::{PurgeError, checked_m3, checked_residual};
use crate::root::falling_root;
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;

/// More pieces than this are merged, smallest with smallest.
///
/// ASSUMPTION: six are enough. For twenty-four equal pieces the merged figure is 15 % low at a residual of 90 %, 7 % low
/// at 50 %, 2 % low at 30 % and not low from 20 % down, where full mixing of so many pieces asks for less.
const PIECES: usize = 6;

/// Cells of the coarser of the two grids.
const CELLS: usize = 64;

/// The ratio of pushed volume to contents at which the outflow of fully mixed pieces falls to a residual.
///
/// Formula: the `theta` at which `c = P(T_1 + ... + T_n > v)` equals the residual, with independent `T_i`,
/// `P(T_i > t) = 1` for `t < V_i / 2`, else `(V_i / 2t)^2`: the convolution of the pieces' times of stay, in pushed volume.
/// One piece alone gives the laminar ratio, pieces without contents count as absent, and no pieces at all need no push.
///
/// Symbols: `theta = v / sum V_i` pushed volume divided by the contents of all pieces (dimensionless); `c` old fraction of
/// the outflow (dimensionless); `v` pushed volume (m3); `V_i` contents of piece `i` (m3); `T_i` push that carries a fluid
/// element through piece `i` (m3).
///
/// Range: `0 < residual < 1`; as for [`crate::laminar_theta_for`] in each piece. It is meant for answers below a `theta` of
/// 2, where it can ask for more than the rule without mixing. The convolution is made on two grids and extrapolated: right
/// to 1e-6 for pieces of similar size and to 1e-5 for sizes in the ratio of 300 to 1, up to `theta` of 5. More than six
/// pieces are merged, smallest with smallest, which leaves joints out.
///
/// Source: [Danckwerts1953](crate#sources) for one piece, [Levenspiel1999](crate#sources) for the convolution of vessels in series.
///
/// ```
/// use bleedwright_hydraulics::{fully_mixed_theta_for, laminar_theta_for};
/// use uom::si::{f64::{Ratio, Volume}, ratio::{percent, ratio}, volume::milliliter};
///
/// let pieces = [Volume::new::<milliliter>(20.0); 2];
/// let half = Ratio::new::<percent>(50.0);
/// let mixed = fully_mixed_theta_for(&pieces, half)?;
/// assert!(mixed > laminar_theta_for(half));
/// # Ok::<(), bleedwright_hydraulics::PurgeError>(())
/// ```
pub fn fully_mixed_theta_for(
    piece_contents: &[Volume],
    residual: Ratio,
) -> Result<Ratio, PurgeError> {
    let residual = checked_residual(residual)?;
    let scales = scales(piece_contents)?;
    if scales.is_empty() {
        return Ok(Ratio::new::<ratio>(0.0));
    }
    let unmixed = 0.5 / residual.sqrt();
    if scales.len() == 1 {
        return Ok(Ratio::new::<ratio>(unmixed));
    }
    // Half of the contents comes out old whatever happens; above, the bracket grows until it holds the answer.
    let (mut low, mut high) = (0.5, unmixed.max(1.0));
    for _ in 0..64 {
        if fraction_at(&scales, high) <= residual {
            break;
        }
        (low, high) = (high, 2.0 * high);
    }
    Ok(Ratio::new::<ratio>(falling_root(low, high, |theta| {
        fraction_at(&scales, theta).ln() - residual.ln()
    })))
}

/// Half of each piece's share of the contents, largest first, merged down to a few.
///
/// The half is both the push after which a piece first gives new fluid and the scale of its tail.
fn scales(piece_contents: &[Volume]) -> Result<Vec<f64>, PurgeError> {
    let mut pieces_m3 = Vec::with_capacity(piece_contents.len());
    for &contents in piece_contents {
        let contents_m3 = checked_m3(contents)?;
        if contents_m3 > 0.0 {
            pieces_m3.push(contents_m3);
        }
    }
    pieces_m3.sort_by(|a, b| b.total_cmp(a));
    let total_m3: f64 = pieces_m3.iter().rev().sum();
    checked_m3(Volume {
        value: total_m3,
        ..Volume::default()
    })?;
    let mut scales = merge_smallest(pieces_m3);
    for scale in &mut scales {
        *scale *= 0.5 / total_m3;
    }
    Ok(scales)
}

/// Merges the two smallest until few are left.
fn merge_smallest(mut falling: Vec<f64>) -> Vec<f64> {
    while falling.len() > PIECES
        && let (Some(one), Some(other)) = (falling.pop(), falling.pop())
    {
        let place = falling.partition_point(|&piece| piece > one + other);
        falling.insert(place, one + other);
    }
    falling
}

/// The old fraction at a push, in multiples of the contents.
fn fraction_at(scales: &[f64], theta: f64) -> f64 {
    // The scales add up to one half; what a piece takes beyond its own half is what is convolved.
    let beyond = theta - 0.5;
    if beyond <= 0.0 {
        return 1.0;
    }
    if beyond.is_infinite() {
        return 0.0;
    }
    if let [scale] = scales {
        return survival(*scale, beyond);
    }
    let coarse = convolve(scales, beyond, CELLS);
    let fine = convolve(scales, beyond, 2 * CELLS);
    // The error falls with the square of the cell.
    (fine + (fine - coarse) / 3.0).clamp(0.0, 1.0)
}

/// The share of a piece's flow that takes longer than its half by more than `beyond`.
fn survival(scale: f64, beyond: f64) -> f64 {
    (scale / (scale + beyond)).powi(2)
}

/// The share of the flow whose pieces together take longer by more than `beyond`.
///
/// The result so far is joined by straight lines over the grid, the next piece's density is integrated exactly, so
/// a piece much smaller than a cell does no harm.
fn convolve(scales: &[f64], beyond: f64, cells: usize) -> f64 {
    let width = beyond / cells as f64;
    let place = |i: usize| width * i as f64;
    let Some((&largest, others)) = scales.split_first() else {
        return 0.0;
    };
    let mut sum: Vec<f64> = (0..=cells).map(|i| survival(largest, place(i))).collect();
    let mut next = vec![0.0; cells + 1];
    let mut weights = vec![0.0; cells + 1];
    for (index, &scale) in others.iter().enumerate() {
        // Of the mass in a cell, `lean` belongs to its far end and the rest to its near end.
        let mut lean_before = 0.0;
        for (i, weight) in weights.iter_mut().enumerate() {
            let (near, far) = (place(i), place(i + 1));
            let mass = survival(scale, near) - survival(scale, far);
            let lean = scale * scale / ((scale + near) * (scale + far)) - survival(scale, far);
            *weight = mass - lean + lean_before;
            // At the end of the way there is no further cell, only what the last one leans there.
            next[i] = survival(scale, near) - (mass - lean) * sum[0];
            lean_before = lean;
        }
        if index + 1 == others.len() {
            // Only the end of the way is asked for.
            let ahead: f64 = weights
                .iter()
                .zip(sum.iter().rev())
                .map(|(weight, value)| weight * value)
                .sum();
            return next[cells] + ahead;
        }
        for (i, &weight) in weights.iter().enumerate() {
            for (value, &before) in next[i..].iter_mut().zip(&sum) {
                *value += weight * before;
            }
        }
        std::mem::swap(&mut sum, &mut next);
    }
    sum[cells]
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::volume::milliliter;

    fn pieces(contents_ml: &[f64]) -> Vec<Volume> {
        contents_ml
            .iter()
            .map(|&ml| Volume::new::<milliliter>(ml))
            .collect()
    }

    fn out(contents_ml: &[f64], theta: f64) -> f64 {
        let scales = scales(&pieces(contents_ml)).expect("the pieces are finite");
        fraction_at(&scales, theta)
    }

    fn theta_for(contents_ml: &[f64], residual: f64) -> f64 {
        fully_mixed_theta_for(&pieces(contents_ml), Ratio::new::<ratio>(residual))
            .expect("the pieces are finite")
            .get::<ratio>()
    }

    /// Two equal pieces by quadrature of the convolution integral, done apart from this project's code.
    #[test]
    fn two_equal_pieces() {
        for (theta, fraction) in [
            (1.0, 0.280_664),
            (2.0, 0.051_460),
            (3.0, 0.019_696),
            (5.0, 0.006_195),
        ] {
            let found = out(&[20.0, 20.0], theta);
            assert!((found - fraction).abs() < 5e-7, "{theta}: {found}");
        }
    }

    /// The convolution integral of two pieces by the midpoint rule over the first one's flow shares.
    #[test]
    fn two_unequal_pieces_against_a_sum_over_flow_shares() {
        for (first, second, theta) in [(30.0, 10.0, 0.8), (39.0, 1.0, 1.4), (25.0, 15.0, 1.9)] {
            let push = theta * (first + second);
            let shares = 2_000_000;
            let sum: f64 = (0..shares)
                .map(|i| {
                    // This share of the first piece's flow takes longer than `taken`.
                    let share = (f64::from(i) + 0.5) / f64::from(shares);
                    let taken = 0.5 * first / share.sqrt();
                    let left = push - taken;
                    if left <= 0.5 * second {
                        1.0
                    } else {
                        (0.5 * second / left).powi(2)
                    }
                })
                .sum();
            let exact = sum / f64::from(shares);
            let found = out(&[first, second], theta);
            assert!(
                (found - exact).abs() < 3e-6,
                "{first} {second} {theta}: {found} against {exact}"
            );
        }
    }

    #[test]
    fn the_order_of_the_pieces_does_not_matter() {
        assert!((out(&[30.0, 7.0, 3.0], 1.2) - out(&[3.0, 30.0, 7.0], 1.2)).abs() < 1e-15);
    }

    #[test]
    fn one_piece_is_the_laminar_rule() {
        assert!((out(&[0.0, 12.0], 2.0) - 0.0625).abs() < 1e-15);
        assert!((theta_for(&[12.0], 0.05) - 2.236_068).abs() < 5e-7);
        assert!(theta_for(&[], 0.05).abs() < f64::EPSILON);
    }

    #[test]
    fn theta_and_fraction_are_inverse() {
        for contents in [
            vec![20.0, 20.0],
            vec![40.0, 5.0, 1.0],
            vec![3.0; 9],
            vec![1e-9, 1.0],
        ] {
            for residual in [0.9, 0.3, 0.1, 0.07, 0.01] {
                let found = out(&contents, theta_for(&contents, residual));
                assert!(
                    (found - residual).abs() < 1e-8,
                    "{contents:?} {residual}: {found}"
                );
            }
        }
    }

    #[test]
    fn merging_keeps_the_contents_and_the_balance() {
        let merged = merge_smallest((1..=100).rev().map(f64::from).collect());
        assert_eq!(merged.len(), PIECES);
        assert!((merged.iter().sum::<f64>() - 5050.0).abs() < 1e-9);
        let largest = merged.iter().copied().fold(0.0, f64::max);
        let smallest = merged.iter().copied().fold(f64::INFINITY, f64::min);
        assert!(largest < 2.1 * smallest, "{merged:?}");
    }

    #[test]
    fn bad_numbers_are_refused() {
        let one = Ratio::new::<ratio>(1.0);
        let half = Ratio::new::<ratio>(0.5);
        assert!(fully_mixed_theta_for(&pieces(&[1.0, -1.0]), half).is_err());
        assert!(fully_mixed_theta_for(&pieces(&[1.0]), one).is_err());
        assert!(out(&[1.0, 1.0], f64::INFINITY).abs() < f64::EPSILON);
    }
}
