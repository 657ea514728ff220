//! The front view of rigs of every kind: sound coordinates, labels that neither meet nor leave the plate, parts in
//! their true places, and a few pictures held word for word.

use super::*;
use crate::sample::{Solved, any_rig, frame, hauled, hold, keeps, said, words};
use crate::{Kind, Role, Shape, Step, Words};
use outlean_rig::{Connection, Guy, Leg, Lever, Path, Point, Rig, Side, solve};
use proptest::prelude::*;

const SIZES: [(f64, f64, f64); 4] =
    [(420.0, 480.0, 1.0), (280.0, 320.0, 0.85), (328.0, 284.0, 0.85), (700.0, 900.0, 2.1)];
const ALL: Show = Show { ground_forces: true, ..Show::USUAL };

fn drawn(solved: &Solved, size: (f64, f64, f64), show: Show, words: &Words) -> FrontView {
    front_view(&FrontViewInput {
        of: solved.on(size, words),
        scale: None,
        force_scale: None,
        show,
        handle: HandleState::Rest,
        tipping: solved.solution.tips().map(|_| 0.8),
        seats: None,
    })
}

fn view(rig: &Rig, show: Show) -> FrontView {
    drawn(&Solved::of(rig.clone()).unwrap(), SIZES[0], show, &words())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn labels_of_any_rig_meet_nothing_and_stay_on_the_plate(rig in any_rig()) {
        if let Some(solved) = Solved::of(rig) {
            let words = words();
            for size in SIZES {
                for show in [ALL, Show::RIG_ALONE] {
                    let view = drawn(&solved, size, show, &words);
                    keeps(&view.scene, &view.labels)?;
                }
            }
        }
    }
}

#[test]
fn any_plate_and_any_scale_are_drawn() {
    let (solved, words) = (Solved::of(frame(24.0)).unwrap(), words());
    for width in [-10.0, 0.0, 90.0, 700.0, 5000.0, f64::NAN] {
        for height in [-10.0, 60.0, 284.0, 900.0, f64::INFINITY] {
            for k in [-1.0, 0.5, 1.0, 2.1, 9.0, f64::NAN] {
                let view = drawn(&solved, (width, height, k), ALL, &words);
                keeps(&view.scene, &view.labels).unwrap();
            }
        }
    }
}

#[test]
fn left_is_left_and_every_foot_stands_on_its_own_ground() {
    let mut rig = frame(24.0);
    rig.feet.at.left = Point::new(0.0, 0.8, 0.3);
    rig.feet.at.right = Point::new(0.0, -0.8, -0.1);
    let view = view(&rig, Show::USUAL);
    let head = solve(&rig).unwrap().layout.head;
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
    near(view.feet.right.0 - view.feet.left.0, 1.6 * view.scale);
    near(view.feet.right.1 - view.feet.left.1, 0.4 * view.scale);
    near(view.feet.right.1 - view.head.1, (head.z() + 0.1) * view.scale);
    near(view.feet.right.0 - view.head.0, (head.y() + 0.8) * view.scale);
}

#[test]
fn nothing_is_rescaled_and_the_still_part_stays_while_the_frame_leans() {
    let still = |view: &FrontView| view.scene.items[..view.scene.still].to_vec();
    let first = view(&frame(5.0), Show::USUAL);
    for lean in [-4.0, 12.0, 33.3, 58.0] {
        let view = view(&frame(lean), Show::USUAL);
        assert_eq!((view.scale, view.force_scale, view.feet), (first.scale, first.force_scale, first.feet));
        assert_eq!(still(&view), still(&first), "{lean}");
    }
}

#[test]
fn a_given_scale_is_kept_where_there_is_room() {
    let (solved, words) = (Solved::of(frame(20.0)).unwrap(), words());
    let scaled = |scale| {
        let input = FrontViewInput {
            of: Subject { over: &[], ..solved.on(SIZES[0], &words) },
            scale,
            force_scale: Some(2e-4),
            show: Show::USUAL,
            handle: HandleState::Rest,
            tipping: None,
            seats: None,
        };
        front_view(&input)
    };
    let fits = scaled(None).scale;
    for (given, wanted) in [(51.0, 51.0), (9e9, fits), (f64::NAN, fits), (-3.0, fits)] {
        assert!((scaled(Some(given)).scale - wanted).abs() < 1e-12, "{given}");
    }
    assert!((scaled(None).force_scale - 2e-4).abs() < 1e-18);
}

#[test]
fn the_handle_leads_back_to_the_spread_on_any_ground() {
    for step in [0.0, 0.35] {
        let mut rig = frame(20.0);
        rig.feet.at.left = Point::new(0.2, 0.8, step);
        let view = view(&rig, Show::USUAL);
        let spread = Lever::Spread.get(&rig).unwrap();
        assert!((view.spread_at(view.handle.0, view.handle.1) - spread).abs() < 1e-9);
        // And a drag does what it says.
        let wanted = view.spread_at(view.handle.0 + 20.0, 0.0);
        Lever::Spread.set(&mut rig, wanted);
        assert!((rig.feet.at.left - rig.feet.at.right).length() > spread);
        let moved = drawn(&Solved::of(rig).unwrap(), SIZES[0], Show::USUAL, &words());
        let across = |view: &FrontView| (view.feet.right.0 - view.feet.left.0) / view.scale;
        assert!((across(&moved) - across(&view) - 40.0 / view.scale).abs() < 1e-9);
    }
}

fn shafts(view: &FrontView, role: Role, part: &str) -> Vec<f64> {
    let long = |path: &crate::Path| match path.steps[..] {
        [Step::Move(a, b), Step::Line(c, d)] => libm::hypot(c - a, d - b),
        _ => panic!("a shaft is one stroke"),
    };
    let items = view.scene.items.iter().filter(|item| item.role == role && item.part == part);
    items
        .filter_map(|item| match &item.shape {
            Shape::Path(path) => Some(long(path)),
            _ => None,
        })
        .collect()
}

#[test]
fn arrows_are_as_long_as_the_view_shows_of_their_forces() {
    let mut rig = hauled(25.0, Path::RedirectedAtFoot { foot: Side::Left, to: Point::new(0.0, -10.0, 0.0) });
    rig.guys[0].holdfast_allowable = Some(9000.0);
    let view = view(&rig, Show::USUAL);
    let solution = solve(&rig).unwrap();
    let px = view.scale * view.force_scale;
    let forces = solution.forces().unwrap();
    let leg = solution.layout.down_leg;
    let flat = |side: Side| {
        let way = leg.on(side);
        libm::hypot(way.y, way.z) * *forces.compression.on(side)
    };
    // A closed head ends eleven pixels beyond its shaft.
    let found = shafts(&view, Role::Shaft(Kind::Push), "leg");
    for (found, wanted) in found.iter().zip([flat(Side::Left), flat(Side::Right)]) {
        assert!((found + 11.0 - wanted * px).abs() < 1e-6, "{found} {wanted}");
    }
    assert_eq!(found.len(), 2);
    let load = shafts(&view, Role::Shaft(Kind::Load), "load");
    assert!((load[0] + 11.0 - solution.line.load.size() * px).abs() < 1e-6);
    let numbers = said(&view.scene);
    for side in Side::BOTH {
        let shown = outlean_rigfile::show(
            *forces.compression.on(side),
            outlean_rig::Dimension::Force,
            outlean_rigfile::Units::Metric,
        );
        assert!(numbers.contains(&shown.to_string().replace('\u{2009}', " ")));
    }
}

#[test]
fn a_hobble_that_works_takes_the_thrust_from_the_ground() {
    let with = |connection| {
        let mut rig = frame(20.0);
        rig.feet.connection = connection;
        said(&view(&rig, ALL).scene)
    };
    let pushes = |said: &[String]| said.iter().filter(|text| text.starts_with("pushes outward")).count();
    assert_eq!((pushes(&with(Connection::None)), pushes(&with(Connection::Hobble))), (2, 0));
    assert!(with(Connection::Hobble).contains(&"hobble".to_owned()));
}

#[test]
fn a_veiled_rig_shows_no_force() {
    let path = Path::RedirectedAtFoot { foot: Side::Left, to: Point::new(0.0, -10.0, 0.0) };
    let view = view(&hauled(25.0, path), Show::RIG_ALONE);
    let force = |role: Role| matches!(role, Role::Shaft(_) | Role::Head(_) | Role::Sum | Role::GroundSign);
    assert!(!view.scene.items.iter().any(|item| force(item.role)));
    assert!(!said(&view.scene).iter().any(|text| text.contains("kN")));
    assert!(said(&view.scene).contains(&"left leg".to_owned()));
}

#[test]
fn a_veiled_rig_does_not_tell_what_hangs_slack() {
    // The haul line across drags the left foot to the right: the hobble hangs slack, and so do guys that do not work.
    let path = Path::RedirectedAtFoot { foot: Side::Left, to: Point::new(0.0, -10.0, 0.0) };
    let mut rig = hauled(25.0, path);
    rig.feet.connection = Connection::Hobble;
    rig.guys.push(Guy::to(Point::new(6.0, 5.0, 0.0)));
    let slack = |show: Show| -> Vec<_> {
        let view = view(&rig, show);
        let ropes = view.scene.items.iter().filter(|item| item.role == Role::SlackRope);
        ropes.map(|item| item.part).collect()
    };
    let shown = slack(Show::USUAL);
    assert!(shown.contains(&"hobble") && shown.contains(&"fore guy"), "{shown:?}");
    assert!(slack(Show::RIG_ALONE).is_empty());
}

#[test]
fn a_frame_that_tips_to_a_side_says_which_way_and_shows_it() {
    for (swing, words) in [(20f64, "Tips left"), (-20.0, "Tips right")] {
        let mut rig = frame(20.0);
        rig.feet.held_down = false;
        rig.load.side_angle = swing.to_radians();
        let view = view(&rig, Show::USUAL);
        assert!(said(&view.scene).contains(&words.to_owned()), "{words}");
        let pencil: Vec<_> = view.scene.items.iter().filter(|item| item.role == Role::Strobe).collect();
        // Two of the three positions are reached at 0.8 of the fall, and where it is now.
        assert_eq!(pencil.len(), 3);
        for item in pencil {
            let Shape::Path(path) = &item.shape else { panic!("a position is a path") };
            let [_, Step::Line(x, _), _] = path.steps[..] else { panic!("two legs") };
            assert!((x - view.head.0) * swing < 0.0, "it falls {words}");
        }
        assert!(!said(&view.scene).iter().any(|text| text == "both legs"));
    }
}

#[test]
fn a_guy_past_its_allowable_is_sleeved_and_named() {
    let mut rig = frame(40.0);
    rig.gear.factor = Some(10.0);
    let guy = Guy::to(Point::new(-5.0, 3.0, 0.0));
    let stated = Guy { rope_allowable: Some(1500.0), ..guy };
    // As stated, or worked out from what its rope breaks at.
    let mut derived = guy;
    (derived.cordage.breaking, derived.cordage.knot_efficiency) = (Some(20_000.0), Some(0.75));
    for guy in [stated, derived] {
        rig.guys[0] = guy;
        let view = view(&rig, Show::USUAL);
        let count = |role: Role| view.scene.items.iter().filter(|item| item.role == role).count();
        assert_eq!((count(Role::Sleeve), count(Role::MarkDot)), (1, 1));
        assert!(said(&view.scene).contains(&"may carry 1.50 kN".to_owned()));
    }
}

#[test]
fn a_guy_that_stands_by_and_is_past_alone_is_marked_though_it_hangs() {
    let mut rig = frame(40.0);
    rig.guys.truncate(1);
    rig.guys[0] = Guy::to(Point::new(-5.0, 0.0, 0.0));
    rig.guys.push(Guy { rope_allowable: Some(1500.0), ..Guy::to(Point::new(-5.0, 3.0, 0.0)) });
    let view = view(&rig, Show::USUAL);
    assert!(said(&view.scene).contains(&"may carry 1.50 kN".to_owned()));
    assert!(!view.scene.items.iter().any(|item| item.role == Role::Sleeve));
}

#[test]
fn pictures_are_drawn_as_they_were() {
    let right = Point::new(-0.5, -11.0, 0.2);
    let redirected = hauled(24.0, Path::RedirectedAtFoot { foot: Side::Left, to: right });
    hold("front_view", "redirected_at_foot", &view(&redirected, ALL).scene);
    let mut ledger = hauled(18.0, Path::RedirectedOnLedger { to: Point::new(0.0, 9.0, 0.0) });
    ledger.feet.connection = Connection::Ledger;
    ledger.feet.connection_height = 0.4;
    ledger.legs.left = Leg::of(4.9, 0.6, 52.0);
    hold("front_view", "ledger", &view(&ledger, ALL).scene);
    let mut tips = frame(12.0);
    tips.feet.held_down = false;
    tips.feet.at.left = Point::new(0.0, 0.75, 0.25);
    tips.load.side_angle = 0.6;
    assert_eq!(solve(&tips).unwrap().tips(), Some(Tip::Left));
    hold("front_view", "tips_left", &view(&tips, Show::USUAL).scene);
}
