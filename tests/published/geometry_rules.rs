//! Rules of geometry from manuals: US Army, FM 3-97.61, *Military Mountaineering*, chapter 7, vertical hauling line
//! (second hand); US Army, FM 5-125, 1995, chapter 5, and NAVEDTRA, gin poles (read); *Manual of Military
//! Engineering*, War Office, 1905, paras 281-282 (second hand); *Disaster Rescue*, 10.8 (read); NAVEDTRA 14251, p. 173
//! (read). A fore anchor 5 ft ahead and a pull no steeper than 45° are *common practice*.

use super::FT;
use outlean_rig::strength::timber::Pole;
use outlean_rig::strength::{Holdfast, HoldfastKind, Seen, Source};
use outlean_rig::{Finding, Guy, Leg, Pair, Point, Rig, Rule, Side, findings};

fn found(rig: &Rig, rule: Rule) -> Finding {
    findings(rig).unwrap().into_iter().find(|finding| finding.rule == rule).expect("the rule applies")
}

fn leaning(degrees: f64) -> Rig {
    Rig::new(4.0, 1.2, degrees.to_radians(), 200.0)
}

#[test]
fn fifteen_to_twenty_five_unloaded_forty_five_loaded() {
    for (lean, least, unloaded, loaded) in [
        (14.9, false, true, true),
        (15.1, true, true, true),
        (24.9, true, true, true),
        (25.1, true, false, true),
        (44.9, true, false, true),
        (45.1, true, false, false),
    ] {
        let rig = leaning(lean);
        let met = |rule| found(&rig, rule).met;
        assert_eq!(met(Rule::LeanLeast), least, "{lean}");
        assert_eq!(met(Rule::LeanUnloadedMost), unloaded, "{lean}");
        assert_eq!(met(Rule::LeanLoadedMost), loaded, "{lean}");
    }
    let source = found(&leaning(20.0), Rule::LeanLoadedMost).source;
    assert_eq!((source.source, source.seen), (Source::Fm39761, Seen::SecondHand));
}

#[test]
fn feet_at_most_a_third_of_the_leg_apart() {
    for (spread, met) in [(1.33, true), (1.34, false)] {
        assert_eq!(found(&Rig::new(4.0, spread, 0.3, 200.0), Rule::SpreadMost).met, met);
    }
}

/// 5 ft of length for an inch of thickness, where it is thinnest.
#[test]
fn a_leg_at_most_sixty_times_as_long_as_thick() {
    for (length, met) in [(14.9 * FT, true), (15.1 * FT, false)] {
        let mut rig = leaning(20.0);
        let pole = Pole { butt_diameter: Some(0.1), tip_diameter: Some(3.0 * 0.0254), ..Pole::default() };
        rig.legs = Pair::both(Leg { pole, ..Leg::of(length, 0.3, 0.0) });
        assert_eq!(found(&rig, Rule::Slenderness(Side::Right)).met, met);
        rig.legs.right.pole = Pole::default();
        assert!(findings(&rig).unwrap().iter().all(|f| f.rule != Rule::Slenderness(Side::Right)));
    }
}

#[test]
fn older_manuals_want_two_heights_of_setback() {
    let height = super::solved(&leaning(0.0)).layout.slant_height;
    for (heights, met) in [(1.99, false), (2.01, true)] {
        let mut rig = leaning(20.0);
        rig.guys.push(Guy::to(Point::new(-heights * height, 0.0, 0.0)));
        assert_eq!(found(&rig, Rule::SetbackOlder(0)).met, met);
    }
}

#[test]
fn a_fore_anchor_five_feet_ahead_and_no_pull_steeper_than_forty_five() {
    for (ahead, far, flat) in [(4.9, false, false), (5.1, true, false), (20.0, true, true)] {
        let mut rig = leaning(20.0);
        rig.guys.push(Guy::to(Point::new(ahead * FT, 0.0, 0.0)));
        assert_eq!(found(&rig, Rule::ForeAhead(0)).met, far);
        assert_eq!(found(&rig, Rule::HoldfastSteep(0)).met, flat);
    }
    let mut rig = leaning(0.0);
    let height = super::solved(&rig).layout.slant_height;
    for (back, met) in [(0.999, false), (1.001, true)] {
        rig.guys.clear();
        rig.guys.push(Guy::to(Point::new(-back * height, 0.0, 0.0)));
        assert_eq!(found(&rig, Rule::HoldfastSteep(0)).met, met);
    }
}

#[test]
fn pickets_three_feet_apart_steel_ones_a_metre() {
    for (kind, spacing, met) in [
        (HoldfastKind::Pickets111, 0.91, false),
        (HoldfastKind::Pickets111, 0.92, true),
        (HoldfastKind::SteelPickets, 0.99, false),
        (HoldfastKind::SteelPickets, 1.0, true),
    ] {
        let mut rig = leaning(20.0);
        let holdfast = Holdfast { kind: Some(kind), spacing: Some(spacing), ..Holdfast::default() };
        rig.guys.push(Guy { holdfast, ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
        let finding = found(&rig, Rule::PicketSpacing(0));
        assert_eq!(finding.met, met, "{kind:?} {spacing}");
        assert_eq!(finding.source, kind.spacing().unwrap().1);
    }
}

#[test]
fn each_rule_names_its_manual() {
    for (rule, source, seen) in [
        (Rule::SetbackOlder(0), Source::DisasterRescue, Seen::Read),
        (Rule::PicketSpacing(0), Source::Navedtra14251, Seen::Read),
        (Rule::LeanLeast, Source::Fm39761, Seen::SecondHand),
        (Rule::SpreadMost, Source::WarOffice, Seen::SecondHand),
        (Rule::Slenderness(Side::Left), Source::Fm5125, Seen::Read),
    ] {
        assert_eq!((rule.source().source, rule.source().seen), (source, seen), "{rule:?}");
    }
    assert_eq!(Rule::ForeGuy.source().source, Source::CommonPractice);
}
