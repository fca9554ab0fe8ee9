//! A quantity with the corners its tolerance allows.

use crate::usual::Usual;
use std::iter::Sum;
use std::ops::Add;

/// A nominal value with the lowest and highest value its tolerance allows.
///
/// `low <= nominal <= high` holds for every value that the loader lets through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds<T> {
    /// The lowest value.
    pub low: T,
    /// The value to work with.
    pub nominal: T,
    /// The highest value.
    pub high: T,
}

impl<T: Copy> Bounds<T> {
    /// A value without any tolerance.
    pub fn exact(value: T) -> Self {
        Self {
            low: value,
            nominal: value,
            high: value,
        }
    }

    /// The nominal value alone: what is left of the bounds once it is measured
    /// and found as expected.
    #[must_use]
    pub fn collapsed(self) -> Self {
        Self::exact(self.nominal)
    }

    /// Applies a function that grows with its argument to all three values.
    pub fn map<U>(self, grow: impl Fn(T) -> U) -> Bounds<U> {
        Bounds {
            low: grow(self.low),
            nominal: grow(self.nominal),
            high: grow(self.high),
        }
    }

    /// Combines two bounds by a function that grows with both arguments.
    pub fn zip<U: Copy, V>(self, other: Bounds<U>, grow: impl Fn(T, U) -> V) -> Bounds<V> {
        Bounds {
            low: grow(self.low, other.low),
            nominal: grow(self.nominal, other.nominal),
            high: grow(self.high, other.high),
        }
    }
}

impl<T: Add<Output = T>> Add for Bounds<T> {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            low: self.low + other.low,
            nominal: self.nominal + other.nominal,
            high: self.high + other.high,
        }
    }
}

impl<T: Add<Output = T> + Default + Copy> Sum for Bounds<T> {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::exact(T::default()), Add::add)
    }
}

/// Where a value comes from: the file, or an assumption that the report shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// The layout file states it.
    Stated,
    /// The layout file is silent.
    Assumed(Usual),
}

/// A value with its corners and its basis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure<T> {
    /// The value and its corners.
    pub bounds: Bounds<T>,
    /// Whether the file states it.
    pub basis: Basis,
}

impl<T: Copy> Figure<T> {
    /// A figure that the file states.
    pub fn stated(bounds: Bounds<T>) -> Self {
        Self {
            bounds,
            basis: Basis::Stated,
        }
    }

    /// A figure that is assumed, its number made a quantity.
    pub(crate) fn assumed(usual: Usual, quantity: impl Fn(f64) -> T) -> Self {
        let [low, nominal, high] = usual.figures().map(quantity);
        Self {
            bounds: Bounds { low, nominal, high },
            basis: Basis::Assumed(usual),
        }
    }

    /// The nominal value, known from a measurement.
    #[must_use]
    pub fn measured(self) -> Self {
        Self::stated(self.bounds.collapsed())
    }

    /// Whether the figure is an assumption.
    pub fn is_assumed(&self) -> bool {
        matches!(self.basis, Basis::Assumed(_))
    }
}
