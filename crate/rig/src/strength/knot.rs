//! What a knot leaves of a rope's strength.

use super::{Citation, Source};

/// A knot by which a rope ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Knot {
    /// Bowline.
    Bowline,
    /// Clove hitch.
    CloveHitch,
    /// Two half hitches.
    TwoHalfHitches,
    /// Anchor bend.
    AnchorBend,
    /// Timber hitch.
    TimberHitch,
    /// Square knot.
    Square,
    /// Overhand knot.
    Overhand,
    /// Figure eight as a stopper.
    FigureEightStopper,
    /// Figure-eight loop in kernmantle rope.
    FigureEightLoop,
    /// Eye splice.
    EyeSplice,
    /// Short splice.
    ShortSplice,
}

impl Knot {
    /// All of them.
    pub const ALL: [Self; 11] = [
        Self::Bowline,
        Self::CloveHitch,
        Self::TwoHalfHitches,
        Self::AnchorBend,
        Self::TimberHitch,
        Self::Square,
        Self::Overhand,
        Self::FigureEightStopper,
        Self::FigureEightLoop,
        Self::EyeSplice,
        Self::ShortSplice,
    ];

    /// The share of a rope's strength that it leaves. Of the figure-eight loop the lower end of what is published,
    /// 63 to 82 %.
    #[must_use]
    pub const fn efficiency(self) -> f64 {
        let percent: u8 = match self {
            Self::Bowline => 60,
            Self::CloveHitch | Self::TwoHalfHitches => 75,
            Self::AnchorBend | Self::TimberHitch => 70,
            Self::Square | Self::Overhand => 45,
            Self::FigureEightStopper => 48,
            Self::FigureEightLoop => 63,
            Self::EyeSplice => 95,
            Self::ShortSplice => 90,
        };
        percent as f64 / 100.0
    }

    /// Where that comes from.
    #[must_use]
    pub const fn source(self) -> Citation {
        match self {
            Self::FigureEightLoop => Citation::second_hand(Source::RescueKnots),
            _ => Citation::second_hand(Source::KnotTable),
        }
    }
}
