//! Stretching: how far a loaded frame leans on guys that stretch, and how far off run-away it is, in the worst case.

use outlean_rig::{
    Case, Fault, LeanIs, Margin, Outcome, Remedy, Rig, Stretch, StretchChecked, margin, remedies,
    stretch_checks, stretched,
};
use serde::Serialize;

/// A frame on guys that stretch, over all cases that it must stand.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stretching {
    /// The lean before loading, rad; `None` where it is not known.
    pub set_lean: Option<f64>,
    /// The lean under load in the case at hand, rad; `None` where it does not stand.
    pub loaded_lean: Option<f64>,
    /// The least lean under load in any case, rad; `None` where it does not stand in one.
    pub least_lean: Option<f64>,
    /// The greatest.
    pub most_lean: Option<f64>,
    /// The least load at run-away over load, and when; `None` where nothing holds it in a case.
    pub margin: Option<(Margin, Case)>,
    /// What is asked for.
    pub wanted: f64,
    /// The checks of the case with the least margin.
    pub checks: Vec<StretchChecked>,
    /// What would bring it there, where it is not.
    pub remedies: Vec<Remedy>,
}

impl Stretching {
    /// Whether it stands in every case, far enough off run-away, and leans no farther under load than is allowed.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.least_lean.is_some() && self.checks.iter().all(|check| check.ratio <= 1.0)
    }

    /// Of a rig; `None` where it is not known how every rigged guy stretches.
    ///
    /// # Errors
    ///
    /// As [`stretched`].
    pub fn of(rig: &Rig) -> Result<Option<Self>, Fault> {
        let Some(stretch) = Stretch::of(rig) else { return Ok(None) };
        let wanted = rig.limits.wanted_margin();
        let lean = |rig: &Rig, stretch: &Stretch| -> Result<Option<(f64, Option<f64>)>, Fault> {
            Ok(match stretched(rig, stretch)? {
                Outcome::Stands(found) => Some((found.lean, found.set_lean)),
                _ => None,
            })
        };
        let now = lean(rig, &stretch)?;
        let set_lean = now.and_then(|(_, set)| set);
        // Once set, it is loaded in one case or the other: from there.
        let (from, from_stretch) = match set_lean {
            Some(set) => (Rig { lean: set, lean_is: LeanIs::SetBefore, ..rig.clone() }, LeanIs::SetBefore),
            None => (rig.clone(), stretch.lean_is),
        };
        let from_stretch = Stretch { lean_is: from_stretch, ..stretch.clone() };
        let mut worst: Option<(Option<Margin>, Case)> = None;
        let (mut least, mut most, mut falls) = (f64::INFINITY, f64::NEG_INFINITY, false);
        for case in rig.cases() {
            let there = Rig { case, ..from.clone() };
            match lean(&there, &from_stretch)? {
                Some((lean, _)) => (least, most) = (least.min(lean), most.max(lean)),
                None => falls = true,
            }
            let here = margin(&there, &from_stretch)?;
            let multiple = |margin: &Option<Margin>| margin.map_or(0.0, |margin| margin.multiple);
            if worst.as_ref().is_none_or(|(worst, _)| multiple(&here) < multiple(worst)) {
                worst = Some((here, case));
            }
        }
        let stands = |lean: f64| (!falls && lean.is_finite()).then_some(lean);
        let case = worst.map_or(rig.case, |(_, case)| case);
        let there = Rig { case, ..from };
        let met = worst.and_then(|(margin, _)| margin).is_some_and(|margin| margin.multiple >= wanted);
        Ok(Some(Self {
            set_lean,
            loaded_lean: now.map(|(lean, _)| lean),
            least_lean: stands(least),
            most_lean: stands(most),
            margin: worst.and_then(|(margin, case)| margin.map(|margin| (margin, case))),
            wanted,
            checks: stretch_checks(&there, &from_stretch, wanted)?.to_vec(),
            remedies: if met { Vec::new() } else { remedies(&there, &from_stretch, wanted)?.to_vec() },
        }))
    }
}
