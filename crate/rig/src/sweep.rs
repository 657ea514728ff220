//! Sweeps: a rig solved again and again along one of its levers.

use crate::limit::governing_of;
use crate::{Fault, Governing, Lever, Margin, Outcome, Rig, Solution, Stretch, margin, solve, stretched};

/// A rig at one value of the lever that is swept.
#[derive(Clone, Debug, PartialEq)]
pub struct Swept {
    /// What the lever is set to, in its SI unit.
    pub value: f64,
    /// The rig solved there in its present case, and what governs there in all of them; or why it cannot be.
    pub outcome: Result<(Solution, Governing), Fault>,
    /// Where it stands there on guys that stretch, and how far off run-away it is ([`margin`]); `None` where it is not
    /// known how they stretch, or the rig cannot be.
    pub stretched: Option<(Outcome, Option<Margin>)>,
}

/// `rig` at each of `values` of `lever`, in turn, everything else as it is. Does not allocate.
///
/// ```
/// use outlean_rig::{Guy, Lever, Point, Rig, sweep};
/// let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
/// rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
/// // The farther back the anchor, the less the guy carries.
/// let tensions: Vec<f64> = sweep(&rig, Lever::Setback(0), [4.0, 6.0, 8.0])
///     .map(|swept| swept.outcome.unwrap().0.forces().unwrap().guys[0].tension)
///     .collect();
/// assert!(tensions[0] > tensions[1] && tensions[1] > tensions[2]);
/// ```
pub fn sweep<V>(rig: &Rig, lever: Lever, values: V) -> impl Iterator<Item = Swept> + use<V>
where
    V: IntoIterator<Item = f64>,
{
    let as_it_is = rig.clone();
    values.into_iter().map(move |value| {
        // Anew for each: what has once been set to what no frame has, such as feet that meet, does not find back.
        let mut rig = as_it_is.clone();
        lever.set(&mut rig, value);
        let outcome = solve(&rig).map(|solution| {
            let governing = governing_of(&rig, &solution);
            (solution, governing)
        });
        let known = Stretch::of(&rig).filter(|_| outcome.is_ok());
        let stretched =
            known.and_then(|stretch| Some((stretched(&rig, &stretch).ok()?, margin(&rig, &stretch).ok()?)));
        Swept { value, outcome, stretched }
    })
}
