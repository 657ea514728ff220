//! The steps of a check, put down for those who ask.

use super::Symbol;
use crate::Dimension;
use arrayvec::ArrayVec;

/// How many values one check can put down.
pub const MAX_VALUES: usize = 40;

/// An input or an intermediate value of a check.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Value {
    /// What it is.
    pub symbol: Symbol,
    /// How much, in the SI unit of its dimension.
    pub value: f64,
    /// Its dimension.
    pub dimension: Dimension,
}

/// The inputs and intermediate values of a check, in the order in which they are worked out.
pub type Worked = ArrayVec<Value, MAX_VALUES>;

/// Somewhere to put values down: a list, or nowhere.
pub(crate) trait Notes {
    /// Whether anything put down is kept.
    const KEPT: bool;
    /// Puts a value down.
    fn put(&mut self, symbol: Symbol, value: f64);
}

impl Notes for Worked {
    const KEPT: bool = true;

    fn put(&mut self, symbol: Symbol, value: f64) {
        // One place a value: no check has as many.
        let _ = self.try_push(Value { symbol, value, dimension: symbol.dimension() });
    }
}

/// Nowhere: what is compiled where nobody asks.
impl Notes for () {
    const KEPT: bool = false;

    #[inline]
    fn put(&mut self, _: Symbol, _: f64) {}
}
