//! What the numbers of Outlean are held against: independent cases, closed forms, random rigs, and helpers
//! of the tests.
//!
//! Nothing here is part of the product. The published checks are in `published/`, one file a source; the
//! properties in `properties/`.

pub mod by_hand;
pub mod cases;
pub mod finite;
pub mod geared;
pub mod numbers;
pub mod random;
