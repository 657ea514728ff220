//! What may end a working range, by the words that claims name it by.

use outlean_rig::{Limit, Part, Rig, Side, Station};
use outlean_rigfile::first_guy;

/// What may end a working range. Guys go by their station, so that a claim holds for any rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ender {
    /// A leg.
    Leg(Side),
    /// The rope of the first guy of a station.
    GuyRope(Station),
    /// The holdfast of the first guy of a station.
    GuyHoldfast(Station),
    /// The main line.
    MainLine,
    /// The sling at the head.
    Sling,
    /// The ground under a foot.
    Ground(Side),
    /// The upright stop.
    UprightStop,
    /// A foot that slides.
    FootSlides(Side),
    /// The clear reach that is asked for.
    ClearReach,
    /// The headroom that is asked for.
    Headroom,
    /// Guys that are too soft.
    Stretch,
    /// That the frame tips.
    Tipping,
}

impl Ender {
    /// Words and what they name.
    pub const ALL: [(&'static str, Self); 17] = [
        ("left leg", Self::Leg(Side::Left)),
        ("right leg", Self::Leg(Side::Right)),
        ("rope of the aft guy", Self::GuyRope(Station::Aft)),
        ("rope of the fore guy", Self::GuyRope(Station::Fore)),
        ("aft holdfast", Self::GuyHoldfast(Station::Aft)),
        ("fore holdfast", Self::GuyHoldfast(Station::Fore)),
        ("main line", Self::MainLine),
        ("sling", Self::Sling),
        ("ground under the left foot", Self::Ground(Side::Left)),
        ("ground under the right foot", Self::Ground(Side::Right)),
        ("upright stop", Self::UprightStop),
        ("left foot sliding", Self::FootSlides(Side::Left)),
        ("right foot sliding", Self::FootSlides(Side::Right)),
        ("clear reach", Self::ClearReach),
        ("headroom", Self::Headroom),
        ("stretch", Self::Stretch),
        ("tipping", Self::Tipping),
    ];

    /// What the words name; `None` for words that are not in [`Self::ALL`].
    #[must_use]
    pub fn named(words: &str) -> Option<Self> {
        Self::ALL.iter().find(|(each, _)| *each == words).map(|(_, ender)| *ender)
    }

    /// Whether `limit` of `rig` is this.
    #[must_use]
    pub fn is(self, limit: Limit, rig: &Rig) -> bool {
        let wanted = match self {
            Self::Leg(side) => Some(Limit::Part(Part::Leg(side))),
            Self::GuyRope(station) => first_guy(rig, station).map(|n| Limit::Part(Part::GuyRope(n))),
            Self::GuyHoldfast(station) => first_guy(rig, station).map(|n| Limit::Part(Part::GuyHoldfast(n))),
            Self::MainLine => Some(Limit::Part(Part::MainLine)),
            Self::Sling => Some(Limit::Part(Part::Sling)),
            Self::Ground(side) => Some(Limit::Part(Part::Bearing(side))),
            Self::UprightStop => Some(Limit::UprightStop),
            Self::FootSlides(side) => Some(Limit::FootSlides(side)),
            Self::ClearReach => Some(Limit::ClearReach),
            Self::Headroom => Some(Limit::Headroom),
            Self::Stretch => Some(Limit::Stretch),
            Self::Tipping => return matches!(limit, Limit::Tips(_)),
        };
        wanted == Some(limit)
    }
}
