//! Random rigs that say what they are made of.

use crate::random::{Draw, random_rig};
use outlean_rig::strength::timber::{Duration, Grade, Moisture, Pole, Timber};
use outlean_rig::strength::{
    Cordage, Gear, Hardware, HardwareClass, Holdfast, HoldfastKind, Knot, Lashing, RopeClass, Sling, Soil,
};
use outlean_rig::{Rig, Side};

/// The rig of a seed as [`random_rig`] draws it, with gear drawn apart: round and sawn legs of every grade, ropes,
/// knots, hardware and holdfasts of every class, three in four of each known. One rig in sixteen states values for its
/// timber.
#[must_use]
pub fn geared_rig(seed: u64) -> Rig {
    let mut rig = random_rig(seed);
    let draw = &mut Draw::new(seed ^ 0x6765_6172);
    for side in Side::BOTH {
        rig.legs.on_mut(side).pole = pole(draw);
    }
    for guy in &mut rig.guys {
        guy.cordage = cordage(draw);
        guy.holdfast = holdfast(draw);
    }
    rig.gear = Gear {
        timber: timber(draw),
        line: cordage(draw),
        second: cordage(draw),
        sling: Sling {
            cordage: cordage(draw),
            parts: known(draw, |draw| f64::from(1 + draw.one_of(4))),
            angle: known(draw, |draw| draw.between(0.3, 1.57)),
        },
        pulley: hardware(draw, [HardwareClass::PulleyTechnical, HardwareClass::PulleyGeneral]),
        connector: hardware(draw, [HardwareClass::ConnectorTechnical, HardwareClass::ConnectorGeneral]),
        redirect: hardware(draw, [HardwareClass::PulleyTechnical, HardwareClass::PulleyGeneral]),
        haul: holdfast(draw),
        haul_allowable: known(draw, |draw| draw.between(500.0, 12_000.0)),
        lashing: Lashing {
            rope: known(draw, |draw| draw.between(0.006, 0.03)),
            turns: known(draw, |draw| f64::from(4 + draw.one_of(8))),
            ..Lashing::default()
        },
        factor: known(draw, |draw| draw.between(3.0, 15.0)),
        ..Gear::default()
    };
    rig.feet.bearing_allowable = known(draw, |draw| draw.between(5e4, 4e5));
    rig.gear.second_haul = holdfast(draw);
    rig.gear.second_haul_allowable = known(draw, |draw| draw.between(500.0, 12_000.0));
    rig
}

/// Three in four.
fn known<T>(draw: &mut Draw, something: impl FnOnce(&mut Draw) -> T) -> Option<T> {
    draw.chance(0.75).then(|| something(draw))
}

fn one<T: Copy>(draw: &mut Draw, all: &[T]) -> Option<T> {
    let count = u32::try_from(all.len()).unwrap_or(1);
    known(draw, |draw| draw.one_of(count)).and_then(|at| all.get(at as usize).copied())
}

fn pole(draw: &mut Draw) -> Pole {
    let (thin, thick) = (draw.between(0.06, 0.2), draw.between(0.06, 0.25));
    let known_pole = Pole {
        crook: known(draw, |draw| draw.between(0.0, 0.06)),
        eccentricity: draw.chance(0.3).then(|| draw.between(0.0, 0.12)),
        ..Pole::default()
    };
    match draw.one_of(4) {
        0 => Pole { breadth: Some(thin), depth: Some(thick), ..known_pole },
        1 => known_pole,
        _ => Pole { tip_diameter: Some(thin), butt_diameter: Some(thin + 0.3 * thick), ..known_pole },
    }
}

fn timber(draw: &mut Draw) -> Timber {
    let durations = [Duration::Permanent, Duration::Long, Duration::Medium, Duration::Short];
    let mut timber = Timber {
        grade: one(draw, &Grade::ALL),
        moisture: if draw.chance(0.5) { Moisture::Wet } else { Moisture::Dry },
        duration: one(draw, &durations).unwrap_or_default(),
        ..Timber::default()
    };
    if matches!(timber.grade, Some(Grade::StatedNds | Grade::StatedEn)) {
        timber.compression = Some(draw.between(3e6, 3e7));
        timber.bending = Some(draw.between(3e6, 4e7));
        timber.stiffness = known(draw, |draw| draw.between(2e9, 1.2e10));
    }
    timber
}

fn cordage(draw: &mut Draw) -> Cordage {
    Cordage {
        class: one(draw, &RopeClass::ALL),
        breaking: draw.chance(0.25).then(|| draw.between(5_000.0, 60_000.0)),
        knot: one(draw, &Knot::ALL),
        knot_efficiency: draw.chance(0.25).then(|| draw.between(0.3, 1.0)),
    }
}

fn hardware(draw: &mut Draw, classes: [HardwareClass; 2]) -> Hardware {
    Hardware {
        class: one(draw, &classes),
        breaking: draw.chance(0.25).then(|| draw.between(8_000.0, 50_000.0)),
    }
}

fn holdfast(draw: &mut Draw) -> Holdfast {
    Holdfast {
        kind: one(draw, &HoldfastKind::ALL),
        soil: one(draw, &Soil::ALL),
        pickets: known(draw, |draw| f64::from(1 + draw.one_of(6))),
        spacing: known(draw, |draw| draw.between(0.5, 2.0)),
        strength: draw.chance(0.2).then(|| draw.between(500.0, 12_000.0)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rig::strength::CheckRule;
    use outlean_rig::{State, checks, solve, worked};
    use std::collections::BTreeMap;

    /// Every rule and state is met, every ratio is a number, every allowable is within its strength.
    #[test]
    fn every_rule_is_met_and_every_check_makes_sense() {
        let (mut rules, mut states) = (BTreeMap::new(), BTreeMap::new());
        for seed in 0..3000 {
            let rig = geared_rig(seed);
            let Ok(solution) = solve(&rig) else { continue };
            for check in checks(&rig, &solution) {
                *rules.entry(format!("{:?}", check.rule)).or_insert(0) += 1;
                *states.entry(format!("{:?}", check.state)).or_insert(0) += 1;
                assert!(check.demand.is_finite(), "{seed}: {check:?}");
                assert!(check.ratio.is_none_or(|ratio| ratio >= 0.0), "{seed}: {check:?}");
                assert!(check.multiple.is_none_or(|multiple| multiple >= 0.0), "{seed}: {check:?}");
                if let Some((allowable, strength)) = check.allowable.zip(check.strength) {
                    assert!(allowable <= strength * (1.0 + 1e-9), "{seed}: {check:?}");
                }
                assert_eq!(
                    check.ratio.is_some(),
                    matches!(check.state, State::Assessed | State::Assumed),
                    "{seed}: {check:?}"
                );
                let steps = worked(&rig, &solution, check.part);
                assert!(!steps.is_empty() && steps.len() < outlean_rig::strength::MAX_VALUES);
                for step in steps {
                    assert!(!step.value.is_nan(), "{seed}: {check:?} {step:?}");
                }
            }
        }
        // All of [`CheckRule`] and none.
        assert_eq!(rules.len(), 13, "{rules:?} {:?}", CheckRule::Stated);
        assert_eq!(states.len(), 4, "{states:?}");
    }
}
