//! The side view of rigs of every kind: sound coordinates, labels that neither meet nor leave the plate, and two
//! pictures held word for word.

use super::*;
use crate::{Area, Inks, Kind, Role, Shape, Step, svg};
use outlean_rig::{
    Balance, Edge, Guy, Leg, Line, Pair, Path, Point, Scenario, SecondLine, Stage, Swing, checks, solve,
    working_range,
};
use proptest::prelude::*;

fn words() -> Words {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/picture.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

const SIZES: [(f64, f64, f64); 3] = [(830.0, 560.0, 1.0), (328.0, 284.0, 0.85), (1300.0, 900.0, 2.1)];
const ALL: Show = Show { resultant: true, ground_forces: true, ..Show::USUAL };

/// A rig with what the view needs of it, computed once.
struct Solved<'a> {
    rig: &'a Rig,
    solution: Solution,
    range: WorkingRange,
}

impl<'a> Solved<'a> {
    /// `None` for a rig that cannot be computed.
    fn new(rig: &'a Rig) -> Option<Self> {
        Some(Self { rig, solution: solve(rig).ok()?, range: working_range(rig).ok()? })
    }

    /// The view with everything shown.
    fn view(&self, (width, height, k): (f64, f64, f64), words: &Words) -> SideView {
        let checks = checks(self.rig, &self.solution);
        let past = checks.iter().filter(|check| check.ratio.is_some_and(|ratio| ratio > 1.0));
        let over: Vec<Part> = past.map(|check| check.part).collect();
        side_view(&SideViewInput {
            rig: self.rig,
            solution: &self.solution,
            range: &self.range,
            units: Units::Metric,
            words,
            width,
            height,
            k,
            show: ALL,
            grown: 1.0,
            over: &over,
            handle: HandleState::Rest,
            anchor: None,
            tipping: self.solution.tips().map(|_| 0.8),
            pencil: None,
            seats: None,
        })
    }
}

/// The view of a rig that can be computed.
fn view(rig: &Rig, size: (f64, f64, f64), words: &Words) -> SideView {
    Solved::new(rig).unwrap().view(size, words)
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

fn coordinates(scene: &Scene) -> Vec<f64> {
    let mut all = Vec::new();
    for item in &scene.items {
        match &item.shape {
            Shape::Circle { x, y, radius } => all.extend([*x, *y, *radius]),
            Shape::Text { x, y, .. } => all.extend([*x, *y]),
            Shape::Path(path) => {
                for step in &path.steps {
                    match *step {
                        Step::Move(x, y) | Step::Line(x, y) => all.extend([x, y]),
                        Step::Cubic(a, b, c, d, x, y) => all.extend([a, b, c, d, x, y]),
                        Step::Close => {}
                    }
                }
            }
        }
    }
    all
}

/// Checks what every picture must keep to.
fn check(view: &SideView) -> Result<(), TestCaseError> {
    prop_assert!(coordinates(&view.scene).iter().all(|c| c.is_finite()));
    let plate = Area { left: 0.0, top: 0.0, right: view.scene.width, bottom: view.scene.height };
    for (i, (key, area)) in view.labels.iter().enumerate() {
        prop_assert!(plate.holds(*area), "{key:?} leaves the plate: {area:?}");
        for (other, covered) in &view.labels[..i] {
            prop_assert!(!area.meets(*covered), "{key:?} meets {other:?}");
        }
    }
    prop_assert!(view.scene.still < view.scene.items.len());
    Ok(())
}

fn any_path() -> impl Strategy<Value = Path> {
    let point = (-40.0..20.0, -20.0..20.0, -12.0..3.0f64).prop_map(|(x, y, z)| Point::new(x, y, z));
    (0..7u8, point, any::<bool>(), 1..6u8).prop_map(|(kind, to, left, parts)| match kind {
        0 => Path::Hung,
        1 => Path::StraightBack { to },
        2 => Path::RedirectedAtFoot { foot: if left { Side::Left } else { Side::Right }, to },
        3 => Path::RedirectedMidBase { to },
        4 => Path::OverTheFront { to },
        5 => Path::TackleAtHead { parts, to },
        _ => Path::NotOverHead,
    })
}

prop_compose! {
    fn any_rig()(
        length in 1.6..12.0f64,
        tip in 0.0..0.25f64,
        spread in 0.12..0.9f64,
        lean in -28.0..78.0f64,
        mass in 0.0..2500.0f64,
        anchors in prop::collection::vec((-30.0..25.0, -12.0..12.0, -6.0..2.0f64, any::<bool>()), 0..5),
        allowable in 100.0..30_000.0f64,
        path in any_path(),
        (sling, skew, swing, weight, held) in
            (0.0..1.2, -0.4..0.4, -0.35..0.35f64, 0.0..160.0f64, any::<bool>()),
    ) -> Rig {
        let mut rig = Rig::new(length * (1.0 - tip), spread * length, lean.to_radians(), mass);
        rig.legs = Pair::both(Leg::of(length, tip * length, weight));
        rig.feet.at.left = Point::new(skew, rig.feet.at.left.y(), 0.1 * skew);
        rig.feet.held_down = held;
        for (x, y, z, rigged) in anchors {
            let holdfast_allowable = Some(allowable);
            rig.guys.push(Guy { rigged, holdfast_allowable, ..Guy::to(Point::new(x, y, z)) });
        }
        rig.line = Line { sling, ..Line::along(path) };
        rig.load.outward_angle = swing;
        rig
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn labels_of_any_rig_meet_nothing_and_stay_on_the_plate(rig in any_rig()) {
        // A few of them have no geometry: a guy or a line of no length.
        if let Some(solved) = Solved::new(&rig) {
            let words = words();
            for size in SIZES {
                check(&solved.view(size, &words))?;
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
    let (rig, words) = (rig(24.0), words());
    let solved = Solved::new(&rig).unwrap();
    for width in [-10.0, 0.0, 90.0, 320.0, 700.0, 5000.0, f64::NAN] {
        for height in [-10.0, 60.0, 284.0, 900.0, f64::INFINITY] {
            for k in [-1.0, 0.5, 0.85, 1.25, 2.1, 9.0, f64::NAN] {
                check(&solved.view((width, height, k), &words)).unwrap();
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

/// Holds a scene against its file; `UPDATE_SNAPSHOTS=1` writes the file anew, to be read before it is committed.
fn hold(name: &str, scene: &Scene) {
    let path = format!("{}/src/side_view/snapshots/{name}.txt", env!("CARGO_MANIFEST_DIR"));
    let drawn = scene.to_text();
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        std::fs::write(&path, &drawn).unwrap();
    }
    let held = std::fs::read_to_string(&path).unwrap_or_default();
    for (line, (drawn, held)) in (1..).zip(drawn.lines().zip(held.lines())) {
        assert_eq!(drawn, held, "{path}:{line}");
    }
    assert_eq!(drawn.lines().count(), held.lines().count(), "{path}");
}

#[test]
fn a_hung_load_is_drawn_as_it_was() {
    hold("hung", &view(&rig(20.0), SIZES[0], &words()).scene);
}

#[test]
fn a_redirected_line_past_a_limit_is_drawn_as_it_was() {
    let mut rig = rig(40.0);
    let to = Point::new(-0.2, -12.0, 0.3);
    rig.line = Line { sling: 0.4, ..Line::along(Path::RedirectedAtFoot { foot: Side::Left, to }) };
    hold("redirected", &view(&rig, SIZES[1], &words()).scene);
}
