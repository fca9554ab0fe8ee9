//! Transformations.

/// A transformation: x' = a x + c y + e, y' = b x + d y + f.
#[derive(Clone, Copy)]
pub(super) struct Matrix(pub(super) [f64; 6]);

impl Matrix {
    pub(super) const IDENTITY: Self = Self([1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);

    /// First this, then `next`.
    pub(super) fn then(self, next: Self) -> Self {
        let row = |nth: usize, offset: [f64; 2]| {
            let (x, y) = (self.0[nth], self.0[nth + 1]);
            [
                x * next.0[0] + y * next.0[2] + offset[0],
                x * next.0[1] + y * next.0[3] + offset[1],
            ]
        };
        let (first, second) = (row(0, [0.0; 2]), row(2, [0.0; 2]));
        let third = row(4, [next.0[4], next.0[5]]);
        Self([first[0], first[1], second[0], second[1], third[0], third[1]])
    }

    /// Where a place comes to lie.
    pub(super) fn at(self, x: f64, y: f64) -> (f64, f64) {
        let along = |nth: usize| x * self.0[nth] + y * self.0[nth + 2] + self.0[nth + 4];
        (along(0), along(1))
    }
}
