//! Readings by name, and the leans at which they take a value.

use crate::angle::degrees;
use crate::numeric::{bisect, grid};
use crate::range::{FARTHEST_BACK, FARTHEST_OUT, STEP};
use crate::{Fault, Rig, Side, Solution, solve_at};
use arrayvec::ArrayVec;

/// A reading of a solved rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Quantity {
    /// Compression of a leg, N.
    LegCompression(Side),
    /// Tension of a guy, counted from 0, N.
    GuyTension(u8),
    /// Tension of the haul line as it leaves the head, N.
    HaulTension,
    /// Size of what the lines put on the head, N: what sling and pulley carry.
    OnHead,
    /// Level distance from the foot line to the head, m.
    Reach,
    /// Level distance from the foot line to the plumb line from the main line's pulley, m.
    PulleyReach,
    /// Height of the head, m.
    HeadHeight,
    /// Moment of the loads about the foot line, N m, forward positive.
    TippingMoment,
}

impl Quantity {
    /// Its value; `None` where the frame tips and the reading is of a part that then carries nothing, and for a
    /// guy that the rig does not have.
    #[must_use]
    pub fn of(self, solution: &Solution) -> Option<f64> {
        match self {
            Self::LegCompression(side) => solution.forces().map(|forces| *forces.compression.on(side)),
            Self::GuyTension(number) => {
                solution.forces()?.guys.get(usize::from(number)).map(|force| force.tension)
            }
            Self::HaulTension => Some(solution.line.haul_tension),
            Self::OnHead => Some(solution.lines_on_head().size()),
            Self::Reach => Some(solution.layout.reach()),
            Self::PulleyReach => Some(-solution.layout.setback(solution.line.pulley)),
            Self::HeadHeight => Some(solution.layout.head_height()),
            Self::TippingMoment => Some(solution.resultant.tipping_moment),
        }
    }
}

/// The leans (rad, from the one farthest back) at which a reading of the rig takes `value`, found between 30° back (20°
/// farther back than the rig leans, where it leans farther) and 80° out to 1e-10 rad; a value only touched between two
/// leans 0.25° apart can be missed. At most eight. Empty where it is never taken.
///
/// # Errors
///
/// As [`crate::solve`], for a rig that cannot be computed.
///
/// ```
/// use outlean_rig::{Guy, Point, Quantity, Rig, leans_where};
/// let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
/// rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
/// // At which lean does the aft guy carry 2 kN?
/// let leans = leans_where(&rig, Quantity::GuyTension(0), 2000.0)?;
/// assert_eq!(leans.len(), 1);
/// assert!((leans[0].to_degrees() - 29.476).abs() < 0.001);
/// # Ok::<(), outlean_rig::Fault>(())
/// ```
pub fn leans_where(rig: &Rig, quantity: Quantity, value: f64) -> Result<ArrayVec<f64, 8>, Fault> {
    solve_at(rig, rig.lean)?;
    let over = |lean: f64| -> Option<f64> { Some(quantity.of(&solve_at(rig, lean).ok()?)? - value) };
    let mut found = ArrayVec::new();
    let mut before: Option<(f64, f64)> = None;
    // A frame that is being raised lies back.
    let back = if rig.lean < FARTHEST_BACK { rig.lean - degrees(20.0) } else { FARTHEST_BACK };
    for lean in grid(back, FARTHEST_OUT, STEP) {
        let here = over(lean).map(|difference| (lean, difference));
        if let (Some((from, was)), Some((to, is))) = (before, here)
            && (was < 0.0) != (is < 0.0)
        {
            let side = |lean: f64| over(lean).is_some_and(|difference| (difference < 0.0) == (was < 0.0));
            let (last, first) = bisect(from, to, 1e-10, side);
            // A jump is not a crossing: the frame may tip, or a guy change over, in between.
            let at = 0.5 * (last + first);
            let jump = 1e-6 * (value.abs() + was.abs() + is.abs());
            if over(at).is_some_and(|difference| difference.abs() <= jump) && found.try_push(at).is_err() {
                break;
            }
        }
        before = here;
    }
    Ok(found)
}
