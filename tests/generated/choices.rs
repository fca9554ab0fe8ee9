//! A stream of random numbers that a layout is drawn from.

/// Random numbers, used one after the other; zero once they are used up.
///
/// Zero always means the plainest choice, so that a case that proptest shrinks
/// becomes a smaller and plainer layout.
pub(crate) struct Choices {
    numbers: std::vec::IntoIter<u16>,
}

impl Choices {
    pub(crate) fn new(numbers: Vec<u16>) -> Self {
        Self {
            numbers: numbers.into_iter(),
        }
    }

    fn next(&mut self) -> usize {
        usize::from(self.numbers.next().unwrap_or(0))
    }

    /// A number below `limit`.
    pub(crate) fn below(&mut self, limit: usize) -> usize {
        self.next() % limit.max(1)
    }

    /// True in about `percent` of all draws, false for zero.
    pub(crate) fn chance(&mut self, percent: usize) -> bool {
        self.next() % 100 >= 100 - percent
    }

    /// One of a list; the first for zero.
    pub(crate) fn pick<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[self.below(list.len())]
    }

    /// A value of the range in `steps` equal steps; the low end for zero.
    pub(crate) fn between(&mut self, low: f64, high: f64, steps: u16) -> f64 {
        let step = self.next() % (usize::from(steps) + 1);
        low + (high - low) * step as f64 / f64::from(steps)
    }

    /// Puts a list into another order; zeros leave it as it is.
    pub(crate) fn shuffle<T>(&mut self, list: &mut [T]) {
        for index in 0..list.len() {
            let other = index + self.below(list.len() - index);
            list.swap(index, other);
        }
    }

    /// Each item of a list with the given chance.
    pub(crate) fn some_of<T: Clone>(&mut self, list: &[T], percent: usize) -> Vec<T> {
        let mut chosen = Vec::new();
        for item in list {
            if self.chance(percent) {
                chosen.push(item.clone());
            }
        }
        chosen
    }
}
