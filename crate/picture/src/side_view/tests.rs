//! The side view of rigs of every kind: sound coordinates, labels that neither meet nor leave the plate, and two
//! pictures held word for word.

use super::*;
use crate::sample::{Solved, any_rig, hold, keeps, words};
use crate::{Area, Inks, Kind, Role, Shape, Step, Words, svg};
use outlean_rig::{
    Balance, Edge, Guy, Leg, Line, Pair, Path, Point, Rig, Scenario, SecondLine, Stage, Swing, solve,
};
use proptest::prelude::*;

const SIZES: [(f64, f64, f64); 3] = [(830.0, 560.0, 1.0), (328.0, 284.0, 0.85), (1300.0, 900.0, 2.1)];
const ALL: Show = Show { resultant: true, ground_forces: true, ..Show::USUAL };

/// The view with everything shown.
fn drawn(solved: &Solved, size: (f64, f64, f64), words: &Words) -> SideView {
    let tipping = solved.solution.tips().map(|_| 0.8);
    side_view(&SideViewInput { tipping, ..SideViewInput::still(solved.on(size, words), ALL) })
}

/// The view of a rig that can be computed.
fn view(rig: &Rig, size: (f64, f64, f64), words: &Words) -> SideView {
    drawn(&Solved::of(rig.clone()).unwrap(), size, words)
}

/// Legs of 4.6 m, lashed 0.5 m below the tip; an aft guy whose holdfast may carry 2.6 kN.
fn rig(lean: f64) -> Rig {
    let mut rig = Rig::new(4.1, 1.5, lean.to_radians(), 230.0);
    rig.legs = Pair::both(Leg::of(4.6, 0.5, 55.0));
    rig.guys.push(Guy { holdfast_allowable: Some(2600.0), ..Guy::to(Point::new(-6.2, 0.0, 0.0)) });
    rig.guys.push(Guy::to(Point::new(9.0, 0.0, -1.0)));
    rig.line.sling = 0.45;
    rig.limits.upright_stop = Some(10f64.to_radians());
    rig
}

/// Checks what every picture must keep to.
fn check(view: &SideView) -> Result<(), TestCaseError> {
    keeps(&view.scene, &view.labels)?;
    prop_assert!(view.scene.still < view.scene.items.len());
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn labels_of_any_rig_meet_nothing_and_stay_on_the_plate(rig in any_rig()) {
        // A few of them have no geometry: a guy or a line of no length.
        if let Some(solved) = Solved::of(rig) {
            let words = words();
            for size in SIZES {
                check(&drawn(&solved, size, &words))?;
            }
        }
    }
}

#[test]
fn most_rigs_drawn_by_chance_can_be_computed() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let rigs = (0..200).map(|_| any_rig().new_tree(&mut runner).unwrap().current());
    assert!(rigs.filter(|rig| solve(rig).is_ok()).count() > 150);
}

#[test]
fn any_plate_is_drawn() {
    let (solved, words) = (Solved::of(rig(24.0)).unwrap(), words());
    for width in [-10.0, 0.0, 90.0, 320.0, 700.0, 5000.0, f64::NAN] {
        for height in [-10.0, 60.0, 284.0, 900.0, f64::INFINITY] {
            for k in [-1.0, 0.5, 0.85, 1.25, 2.1, 9.0, f64::NAN] {
                check(&drawn(&solved, (width, height, k), &words)).unwrap();
            }
        }
    }
}

#[test]
fn the_head_is_where_the_core_says_and_the_handle_leads_back_to_the_lean() {
    for lean in [-10.0, 0.0, 17.0, 41.0, 60.0] {
        let rig = rig(lean);
        let view = view(&rig, SIZES[0], &words());
        let head = solve(&rig).unwrap().layout.head;
        assert!((view.head.0 - (view.foot.0 + head.x() * view.scale)).abs() < 1e-9);
        assert!((view.head.1 - (view.foot.1 - head.z() * view.scale)).abs() < 1e-9);
        for (x, y) in [view.head, view.handle] {
            assert!((view.lean_at(x, y).to_degrees() - lean).abs() < 1e-9);
        }
    }
}

#[test]
fn nothing_is_rescaled_and_the_still_part_stays_while_the_frame_leans() {
    let words = words();
    let still = |view: &SideView| view.scene.items[..view.scene.still].to_vec();
    let first = view(&rig(5.0), SIZES[0], &words);
    for lean in [-4.0, 12.0, 33.3, 58.0] {
        let view = view(&rig(lean), SIZES[0], &words);
        assert_eq!((view.scale, view.force_scale, view.foot), (first.scale, first.force_scale, first.foot));
        // Past its limit a holdfast wears a sleeve, which stands on the ground.
        if lean < 34.0 {
            assert_eq!(still(&view), still(&first), "{lean}");
        }
    }
}

#[test]
fn arrows_are_as_long_as_their_forces() {
    let rig = rig(20.0);
    let view = view(&rig, SIZES[0], &words());
    let solution = solve(&rig).unwrap();
    let Balance::Stands(forces) = &solution.balance else { panic!("it stands") };
    let shaft = |role: Role| {
        let path = view.scene.items.iter().find_map(|item| match &item.shape {
            Shape::Path(path) if item.role == role => Some(path.clone()),
            _ => None,
        });
        match path.unwrap().steps[..] {
            [Step::Move(a, b), Step::Line(c, d)] => libm::hypot(c - a, d - b),
            _ => panic!("a shaft is one stroke"),
        }
    };
    let px = view.scale * view.force_scale;
    // An open head ends a pixel beyond the shaft, a closed one eleven.
    let guy = forces.guys[0].tension;
    assert!((shaft(Role::Shaft(Kind::Pull)) + 1.0 - guy * px).abs() < 1e-6);
    let load = solution.line.load.size();
    assert!((shaft(Role::Shaft(Kind::Load)) + 11.0 - load * px).abs() < 1e-6);
}

#[test]
fn what_is_slack_is_hollow_and_what_works_is_not() {
    let has = |lean: f64, role: Role, part: &str| {
        let view = view(&rig(lean), SIZES[0], &words());
        view.scene.items.iter().any(|item| item.role == role && item.part == part)
    };
    assert!(has(20.0, Role::Rope, "aft guy") && has(20.0, Role::SlackRope, "fore guy"));
    assert!(!has(20.0, Role::SlackRope, "aft guy") && !has(20.0, Role::Rope, "fore guy"));
    assert!(has(-8.0, Role::SlackRope, "aft guy") && has(-8.0, Role::Rope, "fore guy"));
}

#[test]
fn a_frame_that_tips_has_no_one_under_it_and_says_which_way() {
    let mut rig = rig(20.0);
    rig.guys.clear();
    let view = view(&rig, SIZES[0], &words());
    assert!(view.scene.items.iter().all(|item| item.part != "person"));
    assert!(said(&view, "Tips forward") && !said(&view, "both legs"));
}

#[test]
fn a_part_past_its_allowable_is_named_and_sleeved() {
    let view = view(&rig(50.0), SIZES[0], &words());
    let roles = |role: Role| view.scene.items.iter().filter(|item| item.role == role).count();
    assert_eq!((roles(Role::Sleeve), roles(Role::MarkDot)), (1, 1));
    assert!(view.labels.iter().any(|(key, _)| *key == ("guy", 0)));
}

/// What a scene says.
fn said(view: &SideView, text: &str) -> bool {
    view.scene.items.iter().any(|item| matches!(&item.shape, Shape::Text { text: t, .. } if t == text))
}

/// The bounds of all paths of a part that draw no force.
fn bounds(view: &SideView, part: &str) -> Option<Area> {
    let mut all: Option<Area> = None;
    let matter = |item: &&crate::Item| !matches!(item.role, Role::Shaft(_) | Role::Head(_) | Role::Cord);
    for item in view.scene.items.iter().filter(|item| item.part == part).filter(matter) {
        let Shape::Path(path) = &item.shape else { continue };
        let (left, top, right, bottom) = path.bounds().unwrap();
        let half = path.pen / 2.0;
        let here = Area { left, top, right, bottom }.grown(half);
        all = Some(all.map_or(here, |all| Area {
            left: all.left.min(here.left),
            top: all.top.min(here.top),
            right: all.right.max(here.right),
            bottom: all.bottom.max(here.bottom),
        }));
    }
    all
}

#[test]
fn what_is_past_is_named_with_what_it_may_carry_itself() {
    let mut rig = rig(50.0);
    // The stop at the arc names it too, so the guy's own name must be gone.
    let holdfast = view(&rig, SIZES[0], &words());
    assert!(said(&holdfast, "aft holdfast") && !said(&holdfast, "aft guy"));
    assert!(said(&holdfast, "may carry 2.60\u{2009}kN"));
    // The rope may carry less still: then it is the guy.
    rig.guys[0].rope_allowable = Some(1900.0);
    let view = view(&rig, SIZES[0], &words());
    assert!(said(&view, "aft guy") && said(&view, "may carry 1.90\u{2009}kN"));
}

#[test]
fn a_guy_that_stands_by_and_is_past_alone_is_marked_though_it_hangs() {
    let mut rig = rig(30.0);
    rig.guys[0].holdfast_allowable = None;
    rig.guys.push(Guy { rope_allowable: Some(1200.0), ..Guy::to(Point::new(-5.0, 0.3, 0.0)) });
    let view = view(&rig, SIZES[0], &words());
    assert!(said(&view, "may carry 1.20\u{2009}kN"));
    assert!(view.labels.iter().any(|(key, _)| *key == ("slack guy", 2)));
    assert!(!view.scene.items.iter().any(|item| item.role == Role::Sleeve));
}

#[test]
fn nobody_stands_in_a_rope() {
    let mut people = 0;
    for lean in -8..70 {
        let mut straight = rig(f64::from(lean));
        straight.line =
            Line { sling: 0.4, ..Line::along(Path::StraightBack { to: Point::new(-7.0, 0.0, 0.0) }) };
        for rig in [rig(f64::from(lean)), straight] {
            let view = view(&rig, SIZES[0], &words());
            let limbs = |item: &&crate::Item| item.role == Role::Limb;
            for limb in view.scene.items.iter().filter(limbs) {
                let Shape::Path(path) = &limb.shape else { continue };
                let (left, top, right, bottom) = path.bounds().unwrap();
                let limb = Area { left, top, right, bottom }.grown(path.pen / 2.0);
                people += 1;
                for rope in ["aft guy", "fore guy", "haul line"] {
                    for item in view.scene.items.iter().filter(|item| item.part == rope) {
                        let Shape::Path(path) = &item.shape else { continue };
                        let mut here = None;
                        for step in &path.steps {
                            let (Step::Move(x, y) | Step::Line(x, y)) = *step else { continue };
                            if let (Step::Line(..), Some(from)) = (step, here) {
                                assert!(!limb.meets_line(from, (x, y)), "{lean}: {rope}");
                            }
                            here = Some((x, y));
                        }
                    }
                }
            }
        }
    }
    assert!(people > 78 * 6, "someone is there at all: {people}");
}

#[test]
fn the_edge_is_where_the_rig_has_it_and_named_only_then() {
    let plain = view(&rig(20.0), SIZES[0], &words());
    assert!(!said(&plain, "edge"));
    let mut rig = rig(20.0);
    rig.edge = Some(Edge { level: 0.2, ..Edge::at(0.8) });
    let view = view(&rig, SIZES[0], &words());
    assert!(said(&view, "edge"));
    let corner = (view.foot.0 + 0.8 * view.scale, view.foot.1 - 0.2 * view.scale);
    let through = view.scene.items.iter().any(|item| match &item.shape {
        Shape::Path(path) if item.role == Role::GroundLine => path
            .steps
            .iter()
            .any(|step| matches!(*step, Step::Line(x, y) if libm::hypot(x - corner.0, y - corner.1) < 1e-9)),
        _ => false,
    });
    assert!(through);
}

#[test]
fn a_line_that_bears_on_the_edge_runs_over_a_pad() {
    let mut rig = rig(20.0);
    for (ahead, bears) in [(1.8, true), (0.8, false)] {
        rig.edge = Some(Edge::at(ahead));
        assert_eq!(solve(&rig).unwrap().line.bears_on_edge, bears);
        let view = view(&rig, SIZES[0], &words());
        assert_eq!(bounds(&view, "edge protection").is_some(), bears);
        // Either way the load hangs ahead of the edge.
        assert!(bounds(&view, "load").unwrap().left > view.foot.0 + ahead * view.scale);
    }
}

#[test]
fn the_load_is_where_its_stage_has_it() {
    let mut rig = rig(30.0);
    rig.load.at_edge = Some(Swing::NONE);
    rig.load.on_tag_lines = Some(Swing { side: 0.0, outward: 0.1 });
    let mut draw = |stage| {
        rig.case.stage = stage;
        view(&rig, SIZES[0], &words())
    };
    let clear = draw(Stage::HangingClear);
    assert!(bounds(&clear, "load").unwrap().top > clear.foot.1 && !said(&clear, "tag line"));
    let edge = draw(Stage::AtEdge);
    assert!(bounds(&edge, "load").unwrap().bottom < edge.foot.1);
    let tagged = draw(Stage::OnTagLines);
    assert!(said(&tagged, "tag line") && tagged.scene.items.iter().any(|item| item.part == "tag line"));
}

#[test]
fn both_lines_to_a_load_are_drawn_and_a_lost_one_is_hollow() {
    let mut rig = rig(24.0);
    let to = Point::new(-9.0, 0.0, 0.0);
    let line = Line { sling: 0.3, ..Line::along(Path::StraightBack { to }) };
    rig.second = Some(SecondLine { line, share: 0.4, peak_factor: Some(1.5) });
    let has = |view: &SideView, role: Role| {
        view.scene.items.iter().any(|item| item.part == "load line" && item.role == role)
    };
    let shared = view(&rig, SIZES[0], &words());
    assert!(said(&shared, "load on second line") && said(&shared, "second haul line"));
    assert!(!has(&shared, Role::SlackRope));
    rig.case.scenario = Scenario::MainLost;
    let lost = view(&rig, SIZES[0], &words());
    assert!(said(&lost, "main line, slack") && !said(&lost, "load"));
    assert!(has(&lost, Role::SlackRope) && has(&lost, Role::Rope));
    // Off the frame it is a rope over the edge.
    rig.case.scenario = Scenario::Shared;
    rig.second = Some(SecondLine { line: Line::along(Path::NotOverHead), share: 0.4, peak_factor: None });
    let off = view(&rig, SIZES[0], &words());
    assert!(said(&off, "second line") && bounds(&off, "second line").unwrap().left < off.foot.0);
}

#[test]
fn a_foot_that_lifts_is_said_so() {
    let mut rig = rig(20.0);
    assert!(!said(&view(&rig, SIZES[0], &words()), "right foot lifts"));
    rig.load.side_angle = 0.5;
    for held in [true, false] {
        rig.feet.held_down = held;
        assert_eq!(solve(&rig).unwrap().tips().is_some(), !held);
        let view = view(&rig, SIZES[0], &words());
        assert!(said(&view, "right foot lifts"), "{:?}", solve(&rig).unwrap().balance);
    }
}

#[test]
fn a_veiled_rig_does_not_tell_which_guy_works() {
    let slack = |view: &SideView| -> Vec<_> {
        let ropes = view.scene.items.iter().filter(|item| item.role == Role::SlackRope);
        ropes.map(|item| item.part).collect()
    };
    let to = Point::new(-9.0, 0.0, 0.0);
    // Hung, the aft guy works; hauled straight back, the fore guy.
    for (path, hangs) in [(Path::Hung, "fore guy"), (Path::StraightBack { to }, "aft guy")] {
        let mut rig = rig(16.0);
        rig.line = Line { sling: 0.4, ..Line::along(path) };
        let solved = Solved::of(rig).unwrap();
        let words = words();
        let view = |show: Show| side_view(&SideViewInput::still(solved.on(SIZES[0], &words), show));
        assert_eq!(slack(&view(Show::USUAL)), [hangs]);
        let veiled = view(Show::RIG_ALONE);
        assert!(slack(&veiled).is_empty());
        assert!(
            !veiled
                .scene
                .items
                .iter()
                .any(|item| matches!(&item.shape, Shape::Text { text, .. } if text.contains("slack")))
        );
        assert!(said(&veiled, "aft guy") && said(&veiled, "fore guy"));
    }
}

#[test]
fn the_svg_is_well_formed() {
    for (rig, size) in [(rig(20.0), SIZES[0]), (rig(50.0), SIZES[1]), (rig(-6.0), SIZES[2])] {
        let view = view(&rig, size, &words());
        well_formed(&svg(&view.scene, &Inks::LIGHT, "A frame & its <guys>", "Leans \"20°\""));
    }
}

/// Every element closed in its turn, every attribute quoted, nothing unescaped.
fn well_formed(text: &str) {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = text.trim();
    while let Some(at) = rest.find('<') {
        let between = &rest[..at];
        assert!(!between.contains('>'), "stray > in {between:?}");
        for entity in between.split('&').skip(1) {
            assert!(
                ["amp;", "lt;", "gt;", "quot;", "#39;"].iter().any(|e| entity.starts_with(e)),
                "{entity:?}"
            );
        }
        let (tag, after) = rest[at + 1..].split_once('>').expect("a tag ends");
        assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
        assert!(!tag.contains('<') && !tag.contains("NaN") && !tag.contains("inf"), "{tag}");
        let name = tag.trim_start_matches('/').split([' ', '/']).next().unwrap();
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(name));
        } else if !tag.ends_with('/') {
            open.push(name);
        }
        rest = after;
    }
    assert!(open.is_empty() && rest.is_empty(), "{open:?}");
}

#[test]
fn a_hung_load_is_drawn_as_it_was() {
    hold("side_view", "hung", &view(&rig(20.0), SIZES[0], &words()).scene);
}

#[test]
fn a_redirected_line_past_a_limit_is_drawn_as_it_was() {
    let mut rig = rig(40.0);
    let to = Point::new(-0.2, -12.0, 0.3);
    rig.line = Line { sling: 0.4, ..Line::along(Path::RedirectedAtFoot { foot: Side::Left, to }) };
    hold("side_view", "redirected", &view(&rig, SIZES[1], &words()).scene);
}
