//! All permutations in order, or random ones where there are too many.

use std::collections::BTreeSet;

/// Orders tried before a sample stands for all of them.
pub(crate) const MOST_ORDERS: usize = 400;

/// The greatest whole number that every reader of JSON takes exactly (RFC 8259, section 6).
const MOST_IN_JSON: u64 = (1 << 53) - 1;

pub(crate) struct Permutations {
    next: Option<Vec<usize>>,
    /// How many there are; none where no number holds it.
    all: Option<u64>,
    most: usize,
    given: usize,
    seed: u64,
    /// Those of a part, which are counted against all and so must differ.
    seen: BTreeSet<Vec<usize>>,
}

impl Permutations {
    pub(crate) fn new(count: usize, most: usize) -> Self {
        let first: Vec<usize> = (0..count).collect();
        Self {
            all: (1..=count as u64).try_fold(1_u64, u64::checked_mul),
            most,
            given: 0,
            seed: 1,
            seen: BTreeSet::from([first.clone()]),
            next: Some(first),
        }
    }

    /// Whether there are more than are given.
    pub(crate) fn is_sample(&self) -> bool {
        self.all.is_none_or(|all| all > self.most as u64)
    }

    /// Whether it is another sample than the usual one.
    pub(crate) fn is_part(&self) -> bool {
        self.is_sample() && self.most != MOST_ORDERS
    }

    pub(crate) fn all(&self) -> Option<u64> {
        self.all.filter(|all| *all <= MOST_IN_JSON)
    }

    /// How many are given.
    pub(crate) fn most(&self) -> usize {
        let all = self.all.and_then(|all| usize::try_from(all).ok());
        all.map_or(self.most, |all| all.min(self.most))
    }

    pub(crate) fn next_one(&mut self) -> Option<Vec<usize>> {
        if self.given == self.most {
            return None;
        }
        let this = self.next.take()?;
        self.given += 1;
        self.next = if self.is_sample() {
            Some(self.another(&this))
        } else {
            following(this.clone())
        };
        Some(this)
    }

    fn another(&mut self, cards: &[usize]) -> Vec<usize> {
        let mut cards = self.shuffled(cards);
        while self.is_part() && !self.seen.insert(cards.clone()) {
            cards = self.shuffled(&cards);
        }
        cards
    }

    /// The same sample every time: a linear congruential generator with the
    /// constants of MMIX (Knuth 1997) moves Fisher and Yates' cards.
    fn shuffled(&mut self, cards: &[usize]) -> Vec<usize> {
        let mut cards = cards.to_vec();
        for last in (1..cards.len()).rev() {
            self.seed = self
                .seed
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let pick = (self.seed >> 33) as usize % (last + 1);
            cards.swap(last, pick);
        }
        cards
    }
}

/// The next permutation in lexicographic order.
fn following(mut cards: Vec<usize>) -> Option<Vec<usize>> {
    let pivot = cards.windows(2).rposition(|pair| pair[0] < pair[1])?;
    let larger = cards.iter().rposition(|card| *card > cards[pivot])?;
    cards.swap(pivot, larger);
    cards[pivot + 1..].reverse();
    Some(cards)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn given(mut permutations: Permutations) -> Vec<Vec<usize>> {
        std::iter::from_fn(|| permutations.next_one()).collect()
    }

    #[test]
    fn every_permutation_comes_once() {
        for most in [24, MOST_ORDERS] {
            let permutations = Permutations::new(4, most);
            assert!(!permutations.is_sample() && permutations.most() == 24);
            let given = given(permutations);
            let seen: BTreeSet<_> = given.iter().collect();
            assert_eq!((given.len(), seen.len()), (24, 24));
        }
    }

    #[test]
    fn a_sample_is_said_to_be_one() {
        assert!(!Permutations::new(5, MOST_ORDERS).is_sample());
        let many = Permutations::new(8, MOST_ORDERS);
        assert!(many.is_sample() && !many.is_part());
        let first = given(many);
        assert_eq!(first.len(), MOST_ORDERS);
        let mut sorted = first[2].clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (0..8).collect::<Vec<_>>());
        assert_ne!(first[1], first[2]);
    }

    /// Few of few, all but one, and few of more than a number holds.
    #[test]
    fn those_of_a_part_differ() {
        for (count, most) in [(4, 1), (4, 23), (6, 719), (301, 3)] {
            let part = Permutations::new(count, most);
            assert!(part.is_part());
            let given = given(part);
            assert_eq!(given[0], (0..count).collect::<Vec<_>>());
            let seen: BTreeSet<_> = given.iter().collect();
            assert_eq!((given.len(), seen.len()), (most, most), "{count}");
        }
        assert_eq!(Permutations::new(18, 1).all(), Some(6_402_373_705_728_000));
        assert_eq!(Permutations::new(19, 1).all(), None);
    }
}
