//! Rules that are *common practice*: taught widely, with no single published source.

use super::{mass_of, near, solved};
use outlean_rig::strength::{BRACKET_1_1_1, Lashing};
use outlean_rig::{Finding, Guy, Lean, Line, Path, Point, Rig, Rule, Side, Tip, findings};

fn frame(lean: f64) -> Rig {
    Rig::new(4.0, 4.0 / 3.0, f64::to_radians(lean), mass_of(2000.0))
}

#[track_caller]
fn finding(rig: &Rig, rule: Rule) -> Finding {
    findings(rig).unwrap().into_iter().find(|finding| finding.rule == rule).expect("the rule applies")
}

/// Guy anchors stand at least one head height back from the foot line; one and a half preferred.
#[test]
fn guys_are_set_back_a_head_height_better_one_and_a_half() {
    let height = solved(&frame(0.0)).layout.slant_height;
    for (heights, at_least, preferred) in [
        (0.9, false, false),
        (0.999, false, false),
        (1.001, true, false),
        (1.4, true, false),
        (1.501, true, true),
    ] {
        for ahead in [-1.0, 1.0] {
            let mut rig = frame(18.0);
            rig.guys.push(Guy::to(Point::new(ahead * heights * height, 0.5, -0.3)));
            let near = finding(&rig, Rule::SetbackAtLeast(0));
            assert_eq!((near.met, near.wanted), (at_least, 1.0));
            assert!((near.value - heights).abs() < 1e-12);
            assert_eq!(finding(&rig, Rule::SetbackPreferred(0)).met, preferred);
        }
    }
}

/// The frame's plane is never further back than about 80° from the ground, 10° of lean, held by the fore guy.
#[test]
fn the_upright_stop_is_ten_degrees() {
    let mut rig = frame(18.0);
    assert!(!finding(&rig, Rule::UprightStop).met);
    for (stop, met) in [(5.0, false), (9.9, false), (10.0, true), (12.0, true)] {
        rig.limits.upright_stop = Some(f64::to_radians(stop));
        let found = finding(&rig, Rule::UprightStop);
        assert_eq!(found.met, met);
        assert!((found.wanted.to_degrees() - 10.0).abs() < 1e-12);
    }
}

/// Hauled straight back with no fore guy, a frame at its usual lean tips over backwards; with one, the fore guy
/// holds it; led low and across at a foot instead, it leans on its aft guy and the line draws the feet together.
#[test]
fn a_straight_back_haul_wants_a_fore_guy() {
    let back = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    for lean in [10.0, 18.0, 25.0] {
        let mut rig = frame(lean);
        rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
        assert_eq!(solved(&rig).tips(), None);
        assert!(findings(&rig).unwrap().iter().all(|f| f.rule != Rule::StraightBackWantsForeGuy));

        rig.line = back;
        assert_eq!(solved(&rig).tips(), Some(Tip::Back));
        assert!(!finding(&rig, Rule::StraightBackWantsForeGuy).met);

        let mut fore = rig.clone();
        fore.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
        assert_eq!(solved(&fore).forces().unwrap().working_guy, Some(1));
        assert!(finding(&fore, Rule::StraightBackWantsForeGuy).met);

        let to = Point::new(0.0, -8.0, 0.0);
        rig.line = Line::along(Path::RedirectedAtFoot { foot: Side::Left, to });
        let across = solved(&rig);
        let forces = across.forces().unwrap();
        assert_eq!(forces.working_guy, Some(0));
        assert!(forces.footing.spread_thrust < 0.0, "the feet are drawn together");
    }
}

/// A two-legged frame does not stand alone: an aft guy always, a fore guy wherever possible.
#[test]
fn a_frame_does_not_stand_alone() {
    let mut rig = frame(18.0);
    assert_eq!(solved(&rig).tips(), Some(Tip::Forward));
    assert_eq!(solved(&frame(-1.0)).tips(), Some(Tip::Back));
    assert!(!finding(&rig, Rule::AftGuy).met && !finding(&rig, Rule::ForeGuy).met);

    rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
    assert_eq!(solved(&rig).tips(), Some(Tip::Forward), "a fore guy does not hold it back");
    assert!(!finding(&rig, Rule::AftGuy).met && finding(&rig, Rule::ForeGuy).met);

    rig.guys.push(Guy { rigged: false, ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
    assert_eq!(solved(&rig).tips(), Some(Tip::Forward), "a guy that is not rigged holds nothing");
    assert!(!finding(&rig, Rule::AftGuy).met);

    rig.guys[1].rigged = true;
    assert_eq!(solved(&rig).tips(), None);
    assert!(finding(&rig, Rule::AftGuy).met && finding(&rig, Rule::ForeGuy).met);
}

/// In use the frame leans out by about a third: read as reach to height, 1 in 3, 18.4°.
#[test]
fn a_third_out_is_eighteen_degrees() {
    let slant = solved(&frame(0.0)).layout.slant_height;
    let lean = Lean::Slope(1.0 / 3.0).from_vertical(slant);
    near(lean.to_degrees(), 18.4, 0.05);
    let layout = solved(&frame(lean.to_degrees())).layout;
    near(layout.reach() / layout.head_height(), 1.0 / 3.0, 1e-12);
    // A third of the slant height would be a degree more.
    near(Lean::Reach(slant / 3.0).from_vertical(slant).to_degrees(), 19.5, 0.05);
    for rule in [Rule::LeanLeast, Rule::LeanUnloadedMost] {
        assert!(finding(&frame(lean.to_degrees()), rule).met);
    }
}

/// A 1-1-1 holds about 2,000 lbf "in most soil": of what is published half lies more than a tenth below that.
#[test]
fn two_thousand_pounds_are_not_for_most_soil() {
    let below = BRACKET_1_1_1.iter().filter(|(holding, _)| *holding < 0.89 * 2000.0 * super::LBF).count();
    assert!(2 * below >= BRACKET_1_1_1.len(), "{below}");
}

/// About six tight turns, two frapping turns, a spacer of 1½ to 2 in between the legs.
#[test]
fn six_turns_two_frapping_turns_and_a_spacer() {
    let unsaid = Lashing { rope: Some(0.01), ..Lashing::default() };
    let with = |inches: f64| {
        let spacer = Some(inches * 0.0254);
        Lashing { turns: Some(6.0), frapping: Some(2.0), spacer, ..unsaid }.rope_on(0.35).unwrap().total()
    };
    let taken = unsaid.rope_on(0.35).unwrap().total();
    assert!(with(1.5) < taken && taken < with(2.0));
}
