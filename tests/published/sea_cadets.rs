//! Royal Canadian Sea Cadets, PO 406, sheers (read): two spars of 4 to 4.5 m, a head lashing of 9 m of 12 mm manila. How
//! thick the spars are is not said: spars that may be so long at 60 times their thickness, up to half as thick again.

use outlean_rig::strength::Lashing;

/// Eight or nine turns with two frapping turns come to about nine metres.
#[test]
fn nine_metres_of_rope_for_the_head() {
    for turns in [8.0, 9.0] {
        let lashing = Lashing { rope: Some(0.012), turns: Some(turns), ..Lashing::default() };
        let total = |diameter: f64| lashing.rope_on(core::f64::consts::PI * diameter).unwrap().total();
        assert!(total(4.5 / 60.0) > 6.0 && total(4.5 / 60.0) < 9.0, "{}", total(4.5 / 60.0));
        assert!(
            total(1.5 * 4.5 / 60.0) > 9.0 && total(1.5 * 4.5 / 60.0) < 11.0,
            "{}",
            total(1.5 * 4.5 / 60.0)
        );
    }
}
