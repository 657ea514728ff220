//! Each slip's number against a formula by hand, on a weightless frame with the line led to its left foot.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "tests stop"
)]

mod common;

use outlean_course::SlipKind::{self, *};
use outlean_rig::{G, Line, Quantity, Rig, Side, solve};

const LEFT: Quantity = Quantity::LegCompression(Side::Left);
const RIGHT: Quantity = Quantity::LegCompression(Side::Right);
const AFT: Quantity = Quantity::GuyTension(0);

fn rig() -> Rig {
    let mut rig = common::leg_with_line().rig;
    rig.lean = 24f64.to_radians();
    rig.load.mass = 275.0;
    rig
}

fn value(rig: &Rig, kind: SlipKind, ask: Quantity) -> Option<f64> {
    kind.value(rig, &solve(rig).unwrap(), ask).unwrap()
}

/// Press along the frame's plane and guy tension at a lean, the load hung, from level and plumb balance of the
/// head: A·cos β = P·sin λ, W + A·sin β = P·cos λ.
fn balance(lean: f64) -> (f64, f64) {
    let slant = libm::sqrt(4.65 * 4.65 - 0.75 * 0.75);
    let (reach, height) = (slant * libm::sin(lean), slant * libm::cos(lean));
    let slope = libm::atan2(height, 7.5 + reach);
    let press = 275.0 * G / (libm::cos(lean) - libm::sin(lean) * libm::tan(slope));
    (press, press * libm::sin(lean) / libm::cos(slope))
}

#[test]
fn every_slip_comes_to_its_formula() {
    let (rig, lean) = (rig(), 24f64.to_radians());
    let w = 275.0 * G;
    // Press along the plane to one leg: ℓ/(2a).
    let leg = 4.65 / (2.0 * libm::sqrt(4.65 * 4.65 - 0.75 * 0.75));
    let (press, _) = balance(lean);
    let (press_66, guy_66) = balance(66f64.to_radians());
    for (kind, ask, by_hand) in [
        (ForgotMainLine, LEFT, press * leg),
        (ForgotLean, LEFT, w * leg + w),
        (ForgotLean, RIGHT, w * leg),
        (ForgotGuy, LEFT, w * libm::cos(lean) * leg + w),
        (WholeLoadOnEachLeg, LEFT, w + w),
        (WholeLoadOnEachLeg, RIGHT, w),
        (JustTheLoad, LEFT, w),
        (JustTheLoad, AFT, w),
        (HalfTheLoad, RIGHT, w / 2.0),
        (HalfTheLoad, AFT, w / 2.0),
        (LeanFromGround, LEFT, press_66 * leg + w),
        (LeanFromGround, AFT, guy_66),
        // A level guy at the head: A = W·tan λ, P = W/cos λ.
        (LevelGuy, AFT, w * libm::tan(lean)),
        (LevelGuy, LEFT, w / libm::cos(lean) * leg + w),
        (SharedMainLine, LEFT, (press + w) * leg),
        (SharedMainLine, RIGHT, (press + w) * leg),
        (DoubledMainLine, LEFT, press * leg + 2.0 * w),
        (OtherFoot, RIGHT, press * leg + w),
    ] {
        let found = value(&rig, kind, ask).unwrap_or_else(|| panic!("{kind:?} {ask:?} leads nowhere"));
        assert!((found - by_hand).abs() < 1e-9 * by_hand, "{kind:?} {ask:?}: {found}, by hand {by_hand}");
    }
}

#[test]
fn slips_that_nobody_can_make_are_left_out() {
    let mut hung = rig();
    hung.line = Line::hung();
    for (rig, kind, ask) in [
        (&rig(), ForgotMainLine, RIGHT),
        (&rig(), ForgotMainLine, AFT),
        (&rig(), DoubledMainLine, RIGHT),
        (&rig(), OtherFoot, LEFT),
        (&rig(), ForgotLean, AFT),
        (&rig(), ForgotGuy, Quantity::Reach),
        (&hung, ForgotMainLine, LEFT),
        (&hung, JustTheLoad, LEFT),
        (&hung, SharedMainLine, LEFT),
    ] {
        assert!(!kind.applies(rig, ask), "{kind:?} {ask:?}");
        assert_eq!(value(rig, kind, ask), None);
    }
}

#[test]
fn a_slip_is_read_by_the_name_it_is_written_by() {
    for kind in SlipKind::ALL {
        let named = serde_json::to_value(kind).unwrap();
        assert_eq!(named.as_str(), Some(kind.name()));
    }
}

#[test]
fn the_template_shipped_as_an_example_knows_the_slips_that_matter() {
    let slips = common::leg_with_line().slips;
    assert!(slips.len() >= 3 && slips.contains(&ForgotMainLine));
}
