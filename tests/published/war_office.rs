//! *Manual of Military Engineering*, War Office, 1905, paras 281-282 (second hand): sheers heel over at most a fifth, their
//! feet at most a third of their legs apart, their anchorages at least twice their height away.

use super::{guy, near, solved};
use outlean_rig::strength::{Seen, Source};
use outlean_rig::{Guy, Lean, Point, Rig, Rule, findings};

#[test]
fn sheers_within_the_manual() {
    let slant = solved(&Rig::new(6.0, 2.0, 0.0, 100.0)).layout.slant_height;
    let heel = Lean::Reach(slant / 5.0).from_vertical(slant);
    near(heel.to_degrees(), 11.5, 0.05);
    let mut rig = Rig::new(6.0, 2.0, heel, 100.0);
    rig.guys.push(Guy::to(Point::new(-2.0 * slant, 0.0, 0.0)));
    for (rule, met) in [
        (Rule::SpreadMost, true),
        (Rule::SetbackOlder(0), true),
        // It leans less than what is asked for later.
        (Rule::LeanLeast, false),
        (Rule::LeanLoadedMost, true),
    ] {
        let found = findings(&rig).unwrap().into_iter().find(|finding| finding.rule == rule).unwrap();
        assert_eq!(found.met, met, "{rule:?}");
    }
    assert_eq!(
        (Rule::SpreadMost.source().source, Rule::SpreadMost.source().seen),
        (Source::WarOffice, Seen::SecondHand)
    );
    // Less than a quarter of the load on the guy.
    assert!(guy(&solved(&rig), 0) < 0.25 * 100.0 * outlean_rig::G);
}
