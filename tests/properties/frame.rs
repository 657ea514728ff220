//! The frame itself: lengths, axes, the four ways of giving lean.

use super::{cases, solvable};
use outlean_rig::{Layout, Lean, Side, Vector, solve_at};
use proptest::prelude::*;

proptest! {
    #![proptest_config(cases(3000))]

    /// Whatever the legs and wherever the feet.
    #[test]
    fn the_head_is_a_working_length_from_each_foot(seed: u64, lean in -1.5..1.5_f64) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let layout = Layout::of(&rig, lean).unwrap();
        for side in Side::BOTH {
            let foot = *rig.feet.at.on(side);
            let length = rig.legs.on(side).working_length();
            prop_assert!(((layout.head - foot).length() - length).abs() < 1e-10 * length);
            prop_assert!((*layout.down_leg.on(side) * length - (foot - layout.head)).length() < 1e-10 * length);
        }
    }

    #[test]
    fn the_axes_are_square_and_the_lean_is_that_of_the_plane(seed: u64, lean in -1.5..1.5_f64) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let layout = Layout::of(&rig, lean).unwrap();
        let axes = [layout.foot_line, layout.up_the_frame, layout.normal];
        for (i, a) in axes.iter().enumerate() {
            for (j, b) in axes.iter().enumerate() {
                let wanted = f64::from(u8::from(i == j));
                prop_assert!((a.dot(*b) - wanted).abs() < 1e-12);
            }
        }
        prop_assert!((layout.forward.length() - 1.0).abs() < 1e-12 && layout.forward.z == 0.0);
        prop_assert!(layout.forward.dot(layout.foot_line).abs() < 1e-12);
        // Right-handed: facing forward, left is left.
        prop_assert!(Vector::Z.cross(layout.forward).dot(layout.foot_line) > 0.0);
        prop_assert!((layout.reach() - layout.slant_height * libm::sin(lean)).abs() < 1e-10);
        // The plane faces the edge.
        prop_assert!((layout.normal.dot(layout.forward) - libm::cos(lean)).abs() < 1e-12);
        // Both legs lie in the plane, and the plane leans as said: its own upward line is `lean` from the steepest.
        for side in Side::BOTH {
            prop_assert!(layout.down_leg.on(side).dot(layout.normal).abs() < 1e-10);
        }
        prop_assert!((layout.up_the_frame.dot(layout.forward) - libm::sin(lean)).abs() < 1e-12);
    }

    #[test]
    fn lean_comes_back_from_every_way_of_giving_it(lean in -1.5..1.5_f64, slant in 0.5..40.0_f64) {
        prop_assert_eq!(Lean::Vertical(lean).from_vertical(slant).to_bits(), lean.to_bits());
        prop_assert!((Lean::Ground(Lean::to_ground(lean)).from_vertical(slant) - lean).abs() < 1e-15);
        // Near level the reach hardly changes with the lean.
        let reach = slant * libm::sin(lean);
        prop_assert!((Lean::Reach(reach).from_vertical(slant) - lean).abs() < 1e-13);
        prop_assert!((Lean::Slope(Lean::to_slope(lean)).from_vertical(slant) - lean).abs() < 1e-14);
        let height = slant * libm::cos(lean);
        prop_assert!((reach / height - Lean::to_slope(lean)).abs() < 1e-9 * (1.0 + Lean::to_slope(lean).abs()));
    }

    #[test]
    fn a_reach_beyond_the_slant_height_is_no_lean(slant in 0.5..40.0_f64, beyond in 1.0001..9.0_f64) {
        prop_assert!(Lean::Reach(slant * beyond).from_vertical(slant).is_nan());
        prop_assert!(Lean::Reach(-slant * beyond).from_vertical(slant).is_nan());
    }

    #[test]
    fn solving_elsewhere_is_solving_a_rig_that_leans_so(seed: u64, lean in -0.5..1.4_f64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        let there = solve_at(&rig, lean);
        rig.lean = lean;
        prop_assert_eq!(there, outlean_rig::solve(&rig));
    }
}

/// Legs that differ by 0.8 m do not meet over feet less than that and a centimetre apart; nor over feet as far apart as both
/// are long, less a thousandth of it.
#[test]
fn feet_stand_neither_too_near_nor_too_far_apart_for_the_legs() {
    let stands = |spread: f64| {
        let mut rig = outlean_rig::Rig::new(4.0, spread, 0.2, 100.0);
        rig.legs.right = outlean_rig::Leg::weightless(3.2);
        let found = Layout::of(&rig, rig.lean);
        if let Err(fault) = &found {
            assert_eq!(fault.field, outlean_rig::Field::Spread);
            assert!(
                (fault.allowed.least - 0.81).abs() < 1e-12 && (fault.allowed.most - 7.1928).abs() < 1e-12
            );
        }
        found.is_ok()
    };
    assert!(!stands(0.805) && stands(0.815) && stands(7.19) && !stands(7.195));
}
