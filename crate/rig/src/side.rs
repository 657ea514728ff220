//! Left and right, as seen from behind the frame, facing the edge.

/// A side of the frame when standing behind it and facing the edge: left is +y.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Side {
    /// +y.
    Left,
    /// −y.
    Right,
}

impl Side {
    /// Both sides, left first.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// The other side.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// One thing on the left and its fellow on the right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Pair<T> {
    /// What is on the left.
    pub left: T,
    /// What is on the right.
    pub right: T,
}

impl<T> Pair<T> {
    /// The pair of two things, left first.
    pub const fn new(left: T, right: T) -> Self {
        Self { left, right }
    }

    /// What is on `side`.
    pub const fn on(&self, side: Side) -> &T {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }

    /// What is on `side`, to change it.
    pub const fn on_mut(&mut self, side: Side) -> &mut T {
        match side {
            Side::Left => &mut self.left,
            Side::Right => &mut self.right,
        }
    }

    /// The pair made by calling `f` for each side, left first.
    // Inlined as in `Posture::at`.
    #[cfg_attr(not(target_family = "wasm"), inline(always))]
    pub fn from_fn(mut f: impl FnMut(Side) -> T) -> Self {
        Self { left: f(Side::Left), right: f(Side::Right) }
    }
}

impl<T: Copy> Pair<T> {
    /// The same thing on both sides.
    pub const fn both(value: T) -> Self {
        Self { left: value, right: value }
    }
}
