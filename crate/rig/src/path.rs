//! Path: where a line runs.

use crate::{Feet, Layout, Point, Side};

/// Where a line runs after the head.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Path {
    /// It ends at the head: the load is hung there.
    Hung,
    /// Over the head pulley and straight to a haul point behind the frame.
    StraightBack {
        /// The haul point.
        to: Point,
    },
    /// Over the head pulley, down a leg to a pulley tied to that leg's foot, and away.
    RedirectedAtFoot {
        /// Which foot.
        foot: Side,
        /// The haul point.
        to: Point,
    },
    /// Over the head pulley, down to a pulley on its own holdfast midway between the feet, and away.
    RedirectedMidBase {
        /// The haul point.
        to: Point,
    },
    /// Over the head pulley, down to a pulley hung on the ledger midway between the feet, and away: each foot takes
    /// half of its pull.
    RedirectedOnLedger {
        /// The haul point.
        to: Point,
    },
    /// Over the head pulley and on over the front.
    OverTheFront {
        /// The haul point.
        to: Point,
    },
    /// A tackle hung at the head, its lead leaving the block at the head. The head carries the load and
    /// the lead's pull.
    TackleAtHead {
        /// Parts of rope that carry the load.
        parts: u8,
        /// Where the lead goes.
        to: Point,
    },
    /// It does not run over the head: the frame carries nothing of it.
    NotOverHead,
}

impl Path {
    /// The haul point, if the line goes on after the head.
    #[must_use]
    pub const fn haul_point(&self) -> Option<Point> {
        match *self {
            Self::Hung | Self::NotOverHead => None,
            Self::StraightBack { to }
            | Self::RedirectedAtFoot { to, .. }
            | Self::RedirectedMidBase { to }
            | Self::RedirectedOnLedger { to }
            | Self::OverTheFront { to }
            | Self::TackleAtHead { to, .. } => Some(to),
        }
    }

    /// How much longer it must be for each length by which the load is lowered: once, of a tackle once for each part.
    #[must_use]
    pub fn falls(&self) -> f64 {
        match *self {
            Self::TackleAtHead { parts, .. } => f64::from(parts),
            _ => 1.0,
        }
    }

    /// Whether a pulley at or between the feet turns it on its way to the haul point.
    #[must_use]
    pub const fn is_redirected(&self) -> bool {
        matches!(
            self,
            Self::RedirectedAtFoot { .. } | Self::RedirectedMidBase { .. } | Self::RedirectedOnLedger { .. }
        )
    }

    /// The same path with its haul point, if it has one, where `to` puts it.
    #[must_use]
    pub fn hauled_from(self, to: impl FnOnce(Point) -> Point) -> Self {
        match self {
            Self::Hung | Self::NotOverHead => self,
            Self::StraightBack { to: was } => Self::StraightBack { to: to(was) },
            Self::RedirectedAtFoot { foot, to: was } => Self::RedirectedAtFoot { foot, to: to(was) },
            Self::RedirectedMidBase { to: was } => Self::RedirectedMidBase { to: to(was) },
            Self::RedirectedOnLedger { to: was } => Self::RedirectedOnLedger { to: to(was) },
            Self::OverTheFront { to: was } => Self::OverTheFront { to: to(was) },
            Self::TackleAtHead { parts, to: was } => Self::TackleAtHead { parts, to: to(was) },
        }
    }

    /// Where the line goes from the head: its redirect pulley, else its haul point; `None` where it does not go on.
    #[must_use]
    pub fn next_point(&self, feet: &Feet, layout: &Layout) -> Option<Point> {
        match *self {
            Self::RedirectedAtFoot { foot, .. } => Some(*feet.at.on(foot)),
            Self::RedirectedMidBase { .. } | Self::RedirectedOnLedger { .. } => Some(layout.mid_base),
            _ => self.haul_point(),
        }
    }
}
