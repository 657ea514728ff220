//! Materials: what must be carried to the site to build a rig.

use crate::guy::MAX_GUYS;
use crate::strength::{Holdfast, HoldfastKind, LashingRope};
use crate::{Connection, Fault, LineForces, Path, Rig, Side, solve};
use arrayvec::ArrayVec;

/// Rope for each knot in a guy or at the haul point of a line, m: our choice, for ropes of 10 to 13 mm.
pub const KNOT: f64 = 1.0;
/// Turns of a lashing from the head of one picket to the foot of the next; four to six are taught.
const PICKET_TURNS: f64 = 5.0;
/// How far a picket stands out of the ground, m, for the length of its lashing: our choice.
const PICKET_ABOVE: f64 = 0.6;

/// What a rig is built of. A length that cannot be worked out from what is said is `None`.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Materials {
    /// Rope for the lashing of the head.
    pub lashing: Option<LashingRope>,
    /// Rope for a hobble, clove hitched to both legs, m; `None` where there is none or a leg's girth or the rope's
    /// thickness is not known.
    pub hobble: Option<f64>,
    /// Sling at the head: round both legs and down on both sides, m.
    pub sling: Option<f64>,
    /// The same of the second line; `None` also where there is none.
    pub second_sling: Option<f64>,
    /// What each rigged guy takes.
    pub guys: ArrayVec<GuyMaterials, MAX_GUYS>,
    /// What the haul line's holdfast takes.
    pub haul: Option<HoldfastMaterials>,
    /// What the second line's holdfast takes.
    pub second_haul: Option<HoldfastMaterials>,
    /// The main line, from its pulley at the head to its haul point, m, without what the load is lowered, for which see
    /// [`Path::falls`]; `None` for one that is not hauled.
    pub line: Option<f64>,
    /// The second line, as the main line.
    pub second_line: Option<f64>,
}

/// What a guy takes.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct GuyMaterials {
    /// Which guy, counted from 0.
    pub guy: u8,
    /// Rope from head to anchor and for a knot at each end, m.
    pub rope: f64,
    /// What its holdfast takes.
    pub holdfast: Option<HoldfastMaterials>,
}

/// What a holdfast takes.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct HoldfastMaterials {
    /// How many pickets or pins; 0 for one that is of neither.
    pub pickets: u32,
    /// How many lashings from picket to picket.
    pub lashings: u32,
    /// Rope for all of those, m.
    pub rope: f64,
}

impl HoldfastMaterials {
    /// Of a holdfast; `None` where its kind is not said.
    #[must_use]
    pub fn of(holdfast: &Holdfast) -> Option<Self> {
        let kind = holdfast.kind?;
        // A count within its own bounds.
        let stated = holdfast.pickets.map_or(1, |count| libm::round(count) as u32);
        let (pickets, lashings) = match kind {
            HoldfastKind::Picket => (1, 0),
            HoldfastKind::Pickets11 => (2, 1),
            HoldfastKind::Pickets111 => (3, 2),
            HoldfastKind::Pickets21 => (3, 1),
            HoldfastKind::Pickets321 => (6, 2),
            HoldfastKind::SteelPickets => (stated, stated.saturating_sub(1)),
            HoldfastKind::Pins1Inch | HoldfastKind::Pins3Inch => (stated, 0),
            _ => (0, 0),
        };
        // Where none is said, the least that the trade asks for; what has no such rule has no lashings.
        let least = || Some(kind.spacing()?.0);
        let spacing = holdfast.spacing.or_else(least).unwrap_or(0.0);
        let slope = crate::angle::hypot(spacing, PICKET_ABOVE);
        let rope = f64::from(lashings) * (2.0 * PICKET_TURNS * slope + KNOT);
        Some(Self { pickets, lashings, rope })
    }
}

/// What must be carried to build `rig`, at its own lean.
///
/// Lengths follow from the rig's geometry; what is added for knots, and how lashings are laid, is common practice or our
/// choice, as their types say. Nothing is added to spare.
///
/// # Errors
///
/// As [`crate::solve`].
pub fn materials(rig: &Rig) -> Result<Materials, Fault> {
    let solution = solve(rig)?;
    let lashing = &rig.gear.lashing;
    let girths = Side::BOTH.map(|side| lashing.girth_of(rig.legs.on(side)));
    let girth = match girths {
        [Some(left), Some(right)] => Some(left.max(right)),
        _ => None,
    };
    let hobbled = rig.feet.connection == Connection::Hobble;
    let hitched = girth.filter(|_| hobbled).and_then(|girth| lashing.hitches(girth));
    let both = girth.map(|girth| girth + 2.0 * lashing.apart(girth));
    let rigged = (0_u8..).zip(&rig.guys).zip(&solution.guy_length).filter(|((_, guy), _)| guy.rigged);
    let hauled = |path: Path, forces: &LineForces| {
        let to = path.haul_point()?;
        let next = path.next_point(&rig.feet, &solution.layout).unwrap_or(to);
        Some((next - forces.pulley).length() + (to - next).length() + KNOT)
    };
    let second = rig.second.as_ref().zip(solution.second.as_ref());
    Ok(Materials {
        lashing: girth.and_then(|girth| lashing.rope_on(girth)),
        hobble: hitched.map(|hitched| solution.layout.spread + hitched + lashing.tails()),
        sling: both.map(|both| both + 2.0 * rig.line.sling),
        second_sling: both.zip(rig.second).map(|(both, second)| both + 2.0 * second.line.sling),
        guys: rigged
            .map(|((number, guy), length)| GuyMaterials {
                guy: number,
                rope: length + 2.0 * KNOT,
                holdfast: HoldfastMaterials::of(&guy.holdfast),
            })
            .collect(),
        haul: HoldfastMaterials::of(&rig.gear.haul),
        second_haul: HoldfastMaterials::of(&rig.gear.second_haul),
        line: hauled(rig.line.path, &solution.line),
        second_line: second.and_then(|(second, forces)| hauled(second.line.path, forces)),
    })
}
