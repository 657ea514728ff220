//! Guys that stretch: whatever the rig, an answer or an error, and a head in balance.

mod balance;
mod checks;
mod jump;
mod lean;
mod margin;
mod remedy;
mod sharing;
mod stiffness;
mod symmetry;

use outlean_rig::{
    Fault, Field, Guy, LeanIs, Outcome, Point, Rig, Rope, STIFF_LEG, Stretch, Stretched, stretched,
};

const EVERY_LEAN: [LeanIs; 3] = [LeanIs::SetBefore, LeanIs::UnderLoad, LeanIs::Cut];

/// Ropes for the guys of a rig, from soft to hard, some with give.
fn ropes(rig: &Rig, seed: u64, lean_is: LeanIs) -> Stretch {
    let rope = |i: usize| Rope {
        stiffness: 5_000.0 * f64::from(1_u32 << ((seed as usize + i) % 9)),
        give: 0.01 * ((seed as usize + 2 * i) % 4) as f64,
    };
    let leg_stiffness = [STIFF_LEG, 1e8, 5e6][seed as usize % 3];
    Stretch { leg_stiffness, ropes: (0..rig.guys.len()).map(rope).collect(), lean_is }
}

/// Ropes all alike without give.
fn alike(rig: &Rig, stiffness: f64, lean_is: LeanIs) -> Stretch {
    let ropes = rig.guys.iter().map(|_| Rope { stiffness, give: 0.0 }).collect();
    Stretch { leg_stiffness: STIFF_LEG, ropes, lean_is }
}

/// A load of `mass` kg hung at a lean (rad) on an aft guy, with a fore guy.
fn hung(lean: f64, mass: f64) -> Rig {
    let mut rig = Rig::new(4.0, 4.0 / 3.0, lean, mass);
    rig.guys.push(Guy::to(Point::new(-5.7, 0.0, 0.0)));
    rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
    rig
}

fn standing(rig: &Rig, stretch: &Stretch) -> Stretched {
    match stretched(rig, stretch).unwrap() {
        Outcome::Stands(found) => found,
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_is_no_leg_and_no_rope_is_refused_by_name() {
    let rig = hung(0.3, 200.0);
    let refused = |stretch: &Stretch| -> Fault { stretched(&rig, stretch).unwrap_err() };
    let right = alike(&rig, 50_000.0, LeanIs::SetBefore);
    for wrong in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e300] {
        let legs = refused(&Stretch { leg_stiffness: wrong, ..right.clone() });
        let mut stretch = right.clone();
        stretch.ropes[1].stiffness = wrong;
        let rope = refused(&stretch);
        stretch = right.clone();
        stretch.ropes[0].give = wrong - 3.0;
        let give = refused(&stretch);
        assert_eq!(
            [legs.field, rope.field, give.field],
            [Field::LegStiffness, Field::RopeStiffness(1), Field::RopeGive(0)]
        );
        for fault in [legs, rope] {
            assert!(fault.value.to_bits() == wrong.to_bits() && fault.allowed == fault.field.allowed());
        }
    }
    let mut one_short = right;
    one_short.ropes.pop();
    let fault = refused(&one_short);
    assert!(fault.field == Field::RopeStiffness(1) && fault.value.is_nan());
}

#[test]
fn feet_that_nobody_holds_down_tip_as_without_stretch() {
    let mut rig = hung(0.3, 275.0);
    rig.load.side_angle = 0.5;
    let stretch = alike(&rig, 133_000.0, LeanIs::SetBefore);
    assert!(standing(&rig, &stretch).compression.right < 0.0);
    rig.feet.held_down = false;
    let tip = outlean_rig::solve(&rig).unwrap().tips().unwrap();
    assert!(matches!(stretched(&rig, &stretch), Ok(Outcome::Tips(found)) if found == tip));
}

#[test]
fn slack_guys_are_sagged_into_and_one_on_the_wrong_side_holds_nothing() {
    // Legs with weight, both guys loose by 40 mm: the frame sags on the aft guy, the fore guy slack.
    let mut rig = hung(0.26, 275.0);
    rig.legs.left.weight_per_metre = 80.0;
    rig.legs.right.weight_per_metre = 80.0;
    for lean_is in [LeanIs::SetBefore, LeanIs::Cut] {
        let tight = alike(&rig, 133_000.0, lean_is);
        let mut loose = tight.clone();
        for rope in &mut loose.ropes {
            rope.give = 0.04;
        }
        let (tight, loose) = (standing(&rig, &tight), standing(&rig, &loose));
        let (set, lean) = (loose.set_lean.unwrap(), loose.lean);
        // About a degree for 50 mm.
        assert!((0.6..1.2).contains(&(set - 0.26).to_degrees()), "{set}");
        assert!(lean > tight.lean + 0.012 && loose.tension[1] == 0.0, "{lean}");

        let mut backward = rig.clone();
        backward.guys[0].rigged = false;
        let stretch = alike(&backward, 133_000.0, lean_is);
        assert!(matches!(stretched(&backward, &stretch), Ok(Outcome::NothingHolds)));
        assert_eq!(outlean_rig::margin(&backward, &stretch).unwrap(), None);
        // Without weight it stands unloaded, but bears nothing.
        backward.legs.left.weight_per_metre = 0.0;
        backward.legs.right.weight_per_metre = 0.0;
        assert!(matches!(stretched(&backward, &stretch), Ok(Outcome::NothingHolds)));
    }
}

/// With nothing on a weightless head, a guy cut too short pulls it until it is slack itself: what is left is rounding,
/// over which no foot lifts.
#[test]
fn a_frame_that_nothing_pulls_any_more_does_not_tip() {
    for number in 0..200 {
        let mut rig = hung(0.2 + 0.003 * f64::from(number), 200.0);
        rig.line.path = outlean_rig::Path::NotOverHead;
        rig.feet.held_down = false;
        rig.guys[0].anchor = Point::new(-5.0, 0.02 * f64::from(number), 0.3);
        rig.guys[0].pretension = 280.0;
        let mut stretch = alike(&rig, 20_000.0, LeanIs::Cut);
        (stretch.leg_stiffness, stretch.ropes[1].give) = (1e7, 0.5);
        let found = standing(&rig, &stretch);
        assert!(found.tension.iter().all(|tension| *tension < 1e-6), "{:?}", found.tension);
        assert!(found.lean < rig.lean);
    }
}

/// Set before, on the weight of one leg as much as of two: its guy is taut there, and the frame where it was set.
#[test]
fn the_weight_of_one_leg_alone_sets_the_guy() {
    for side in outlean_rig::Side::BOTH {
        let mut rig = hung(0.26, 0.0);
        rig.legs.on_mut(side).weight_per_metre = 80.0;
        let found = standing(&rig, &alike(&rig, 20_000.0, LeanIs::SetBefore));
        assert!(found.tension[0] > 20.0, "{:?}", found.tension);
        assert!(
            (found.lean - 0.26).abs() < 1e-12 && (found.set_lean.unwrap() - 0.26).abs() < 1e-12,
            "{found:?}"
        );
    }
}

/// A sheet's rope gives what the sheet says; of one that says nothing of that, nothing.
#[test]
fn what_a_sheet_says_of_give_is_the_ropes() {
    for (give, wanted) in [(Some(0.05), 0.05_f64), (None, 0.0)] {
        let sheet = outlean_rig::DataSheet { elongation: Some(0.03), at: Some(1300.0), give };
        let rope = sheet.rope().unwrap();
        assert_eq!(rope.give.to_bits(), wanted.to_bits());
        assert!((1300.0 / rope.stiffness - 0.03).abs() < 1e-12);
    }
}
