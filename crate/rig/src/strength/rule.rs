//! The rules by which a strength becomes an allowable, or a rig is held against something else.

use super::{Citation, Source};

/// By which rule a part, a foot or the whole frame was assessed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum CheckRule {
    /// The allowable was stated with the rig.
    Stated,
    /// A timber column with bending: NDS 2018, 3.7.1, 3.9-3 and 15.4-1, allowable stresses.
    NdsColumn,
    /// A timber column with bending: EN 1995-1-1, 6.3.2, with partial factors on load and strength.
    En1995Column,
    /// Minimum breaking strength × knot efficiency ÷ required factor.
    Cordage,
    /// As [`CheckRule::Cordage`], times the parts of a sling by their angle.
    Sling,
    /// Rated strength ÷ required factor.
    Hardware,
    /// The published holding of a picket system, with a factor for wet ground.
    Pickets,
    /// Published design loads of steel pins, added up.
    Pins,
    /// What was said to be the strength of a natural anchor or deadman.
    StatedHoldfast,
    /// Bearing on the ground against a stated pressure.
    Bearing,
    /// No strength is published: the lashing is looked at on site.
    LashingOnSite,
    /// How near the feet stand to an edge is looked at on site.
    EdgeOnSite,
    /// The level force on a foot over the vertical one, against the friction coefficient stated.
    Friction,
    /// The load at which a frame on guys that stretch runs away over its load, against the margin asked for: a model
    /// result.
    RunAway,
    /// The lean that such a frame gains or loses as it is loaded, against a greatest one.
    ExtraLean,
}

impl CheckRule {
    /// Where the rule comes from.
    #[must_use]
    pub const fn source(self) -> Citation {
        match self {
            Self::Stated | Self::StatedHoldfast => Citation::none(Source::Stated),
            Self::NdsColumn => Citation::second_hand(Source::Nds),
            Self::En1995Column => Citation::second_hand(Source::En1995),
            Self::Cordage | Self::Hardware => Citation::read(Source::TenToOne),
            Self::Sling => Citation::read(Source::SlingAngles),
            Self::Pickets => Citation::read(Source::Navedtra14251),
            Self::Pins => Citation::second_hand(Source::UsaceFog),
            Self::Bearing | Self::LashingOnSite | Self::EdgeOnSite | Self::Friction => {
                Citation::none(Source::CommonPractice)
            }
            Self::RunAway | Self::ExtraLean => Citation::none(Source::OurChoice),
        }
    }
}
