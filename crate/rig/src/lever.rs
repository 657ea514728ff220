//! Levers: what of a rig can be set anew, to see what follows.

use crate::{Dimension, Ground, Point, Rig};

/// A number of a rig that sweeps go along and proposals change. Anchors and haul points stay where they are on the
/// ground unless they are what is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Lever {
    /// Angle of the frame's plane from the vertical, rad.
    Lean,
    /// Level distance of a guy's anchor from the foot line, square to it, m, on the side where it stands.
    Setback(u8),
    /// Distance between the feet, m, about the same middle.
    Spread,
    /// Direction in which the main line is hauled, from the middle of the foot line, rad: 0 straight back, to the
    /// left positive.
    HaulDirection,
    /// Mass on the load line, kg.
    Mass,
    /// Axial stiffness EA of the ropes of all rigged guys, N. Readings of a rig on rigid guys do not hang on it.
    GuyStiffness,
}

/// The tension at which a data sheet that names none is made to say how much a rope stretches, N.
const SHEET_TENSION: f64 = 1000.0;

impl Lever {
    /// What kind of quantity it is.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Lean | Self::HaulDirection => Dimension::Angle,
            Self::Setback(_) | Self::Spread => Dimension::Length,
            Self::Mass => Dimension::Mass,
            Self::GuyStiffness => Dimension::Force,
        }
    }

    /// What it is set to; `None` where the rig has no such guy or haul point, or none whose stiffness is known. Of guys of
    /// unlike stiffness that of the first.
    #[must_use]
    pub fn get(self, rig: &Rig) -> Option<f64> {
        let ground = Ground::of(&rig.feet);
        Some(match self {
            Self::Lean => rig.lean,
            Self::Setback(number) => {
                let [ahead, ..] = ground.paced(rig.guys.get(usize::from(number))?.anchor);
                ahead.abs()
            }
            Self::Spread => (rig.feet.at.left - rig.feet.at.right).length(),
            Self::HaulDirection => {
                let [ahead, left, _] = ground.paced(rig.line.path.haul_point()?);
                libm::atan2(left, -ahead)
            }
            Self::Mass => rig.load.mass,
            Self::GuyStiffness => {
                rig.guys.iter().filter(|guy| guy.rigged).find_map(|guy| guy.sheet.rope())?.stiffness
            }
        })
    }

    /// Sets it. Nothing is checked until the rig is solved; the rig is as it was where it has no such thing.
    ///
    /// ```
    /// use outlean_rig::{Guy, Lever, Point, Rig};
    /// let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
    /// rig.guys.push(Guy::to(Point::new(5.0, 1.0, 0.0)));
    /// Lever::Setback(0).set(&mut rig, 6.0);
    /// assert_eq!(rig.guys[0].anchor, Point::new(6.0, 1.0, 0.0));
    /// assert_eq!(Lever::HaulDirection.get(&rig), None);
    /// ```
    pub fn set(self, rig: &mut Rig, value: f64) {
        let ground = Ground::of(&rig.feet);
        match self {
            Self::Lean => rig.lean = value,
            Self::Setback(number) => {
                if let Some(guy) = rig.guys.get_mut(usize::from(number)) {
                    let [ahead, ..] = ground.paced(guy.anchor);
                    guy.anchor = ground.moved(guy.anchor, 0, if ahead < 0.0 { -value } else { value });
                }
            }
            Self::Spread => rig.feet.at = Ground::feet_apart(&rig.feet, value),
            Self::HaulDirection => {
                let turned = |to: Point| {
                    let [ahead, left, up] = ground.paced(to);
                    let far = crate::angle::hypot(ahead, left);
                    ground.point(-far * libm::cos(value), far * libm::sin(value), up)
                };
                rig.line.path = rig.line.path.hauled_from(turned);
            }
            Self::Mass => rig.load.mass = value,
            Self::GuyStiffness => {
                for guy in rig.guys.iter_mut().filter(|guy| guy.rigged) {
                    let at = guy.sheet.at.unwrap_or(SHEET_TENSION);
                    (guy.sheet.at, guy.sheet.elongation) = (Some(at), Some(at / value));
                }
            }
        }
    }
}
