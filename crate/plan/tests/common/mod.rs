//! A rig that plans are made of.

use outlean_rig::{DataSheet, Guy, LeanIs, Leg, Point, Rig};
use outlean_rigfile::DEG;

/// A rig that holds: a hung load, an aft and a fore guy on stated strengths and stiff ropes.
pub fn rig() -> Rig {
    let mut rig = Rig::new(4.0, 1.2, 18.0 * DEG, 150.0);
    rig.lean_is = LeanIs::SetBefore;
    rig.limits.upright_stop = Some(10.0 * DEG);
    for leg in [&mut rig.legs.left, &mut rig.legs.right] {
        *leg = Leg { weight_per_metre: 45.0, ..Leg::of(4.5, 0.5, 45.0) };
        leg.pole.tip_diameter = Some(0.12);
    }
    rig.gear.timber.grade = Some(outlean_rig::strength::timber::Grade::C16);
    rig.gear.factor = Some(10.0);
    for cordage in [&mut rig.gear.line, &mut rig.gear.sling.cordage] {
        (cordage.breaking, cordage.knot_efficiency) = (Some(60_000.0), Some(1.0));
    }
    for x in [-7.0, 6.0] {
        rig.guys.push(Guy {
            rope_allowable: Some(3000.0),
            holdfast_allowable: Some(4000.0),
            sheet: DataSheet { elongation: Some(0.01), at: Some(1500.0), give: None },
            ..Guy::to(Point::new(x, 0.0, 0.0))
        });
    }
    rig
}
