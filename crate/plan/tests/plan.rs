#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]
//! What a plan says, held against what can be worked out by hand.

mod common;

use common::rig;
use outlean_picture::{Shape, Step as Stroke};
use outlean_plan::{
    Advice, Given, Hold, LeftOut, Mark, Measured, Plan, Step, Stretching, Surely, Verdict, Voice, demands,
    differences, ground_plan, pacing, spread_picture,
};
use outlean_rig::strength::{Holdfast, HoldfastKind, Soil};
use outlean_rig::{
    Band, DataSheet, Edge, Guy, Line, LineName, Outcome, Part, Path, Point, Rig, Scatter, SecondLine, Side,
    Stretch, margin, solve, stretched,
};
use outlean_rigfile::{DEG, Job, Units, Words};

fn plan_of(rig: &Rig) -> Plan {
    let job = Job { pull: Some(200.0), ..Job::default() };
    Plan::of(&Given { rig, job: &job, draws: 50 }).unwrap()
}

/// Feet 1.2 m apart, so a place on the middle line is √(d² + 0.6²) from either; one to the left is nearer to the left foot.
#[test]
fn tapes_from_both_feet() {
    let mut rig = rig();
    rig.line = Line::along(Path::RedirectedMidBase { to: Point::new(-9.0, 2.0, 0.5) });
    rig.edge = Some(Edge { level: -0.2, ..Edge::at(0.7) });
    let paces = pacing(&rig).unwrap();
    let marks: Vec<_> = paces.iter().map(|pace| pace.mark).collect();
    assert_eq!(
        marks,
        [
            Mark::Foot(Side::Left),
            Mark::Foot(Side::Right),
            Mark::Anchor(0),
            Mark::Redirect(LineName::Main),
            Mark::HaulPoint(LineName::Main),
            Mark::Anchor(1),
            Mark::Edge
        ]
    );
    let near =
        |found: Option<f64>, wanted: f64| assert!((found.unwrap() - wanted).abs() < 1e-12, "{found:?}");
    let aft = paces[2];
    assert!((aft.ahead + 7.0).abs() < 1e-12 && aft.left.abs() < 1e-12);
    near(aft.from_left_foot, libm::sqrt(49.36));
    near(aft.from_right_foot, libm::sqrt(49.36));
    near(paces[4].from_left_foot, libm::sqrt(81.0 + 1.4 * 1.4 + 0.25));
    near(paces[4].from_right_foot, libm::sqrt(81.0 + 2.6 * 2.6 + 0.25));
    assert_eq!((paces[6].ahead, paces[6].up, paces[6].from_left_foot), (0.7, -0.2, None));
}

#[test]
fn advice_follows_what_is_past_and_what_is_not_known() {
    assert_eq!(plan_of(&rig()).advice, Advice::Build);

    let mut unknown = rig();
    unknown.guys[0].holdfast_allowable = None;
    assert_eq!(plan_of(&unknown).advice, Advice::FindOut(vec![LeftOut::Part(Part::GuyHoldfast(0))]));
    // A haul line that ends nobody knows where.
    let mut hauled = rig();
    hauled.line = Line {
        pulley_efficiency: 0.9,
        ..Line::along(Path::RedirectedMidBase { to: Point::new(-9.0, 0.0, 0.0) })
    };
    hauled.line.redirect_efficiency = 0.9;
    assert_eq!(plan_of(&hauled).advice, Advice::FindOut(vec![LeftOut::Part(Part::HaulHoldfast)]));
    let gaps = Verdict::of(&hauled).unwrap().not_assessed;
    assert!(gaps.contains(&LeftOut::HaulHoldfast) && gaps.contains(&LeftOut::RedirectHoldfast));
    hauled.gear.haul_allowable = Some(4000.0);
    assert_eq!(plan_of(&hauled).advice, Advice::Build);
    assert!(!Verdict::of(&hauled).unwrap().not_assessed.contains(&LeftOut::HaulHoldfast));

    let mut soft = rig();
    soft.guys.iter_mut().for_each(|guy| guy.sheet.elongation = Some(0.05));
    let found = plan_of(&soft);
    assert!(!found.advice.may_be_built(), "{:?}", found.advice);
    assert!(!found.stretching.unwrap().holds());

    let mut far = rig();
    far.lean = 40.0 * DEG;
    far.guys.iter_mut().for_each(|guy| guy.sheet = DataSheet::default());
    far.guys[0].rope_allowable = Some(1400.0);
    let found = plan_of(&far);
    assert_eq!(found.advice, Advice::Change);
    assert!(found.proposals.iter().all(|proposal| proposal.governing.holds()));
    // Poles that carry next to nothing.
    far.legs.left.pole.tip_diameter = Some(0.02);
    far.legs.right.pole.tip_diameter = Some(0.02);
    far.load.mass = 900.0;
    assert_eq!(plan_of(&far).advice, Advice::DoNotBuild);
}

/// Raising, the haul line pulls W/η and the part after the redirect W/η²: the most that either carries.
#[test]
fn demands_are_the_greatest_of_all_cases() {
    let mut rig = rig();
    rig.line = Line {
        pulley_efficiency: 0.9,
        redirect_efficiency: 0.8,
        ..Line::along(Path::RedirectedMidBase { to: Point::new(-9.0, 0.0, 0.0) })
    };
    rig.gear.haul_allowable = Some(9000.0);
    let weight = 150.0 * 9.806_65;
    let found = demands(&rig).unwrap();
    let most = |part: Part| found.iter().find(|demand| demand.part == part).unwrap().force;
    assert!((most(Part::MainLine) - weight / 0.72).abs() < 1e-6);
    assert!((most(Part::HaulHoldfast) - weight / 0.72).abs() < 1e-6);
    let held = solve(&rig).unwrap();
    assert!(most(Part::Leg(Side::Left)) > held.forces().unwrap().compression.left + 50.0);
}

#[test]
fn the_build_list_holds_before_what_may_not_be_before_it() {
    let plan = plan_of(&rig());
    let at = |wanted: &dyn Fn(&Step) -> bool| {
        plan.steps.iter().position(|numbered| wanted(&numbered.step)).unwrap()
    };
    let held = |wanted: Hold| plan.steps.iter().position(|numbered| numbered.hold == Some(wanted)).unwrap();
    let raise = at(&|step| matches!(step, Step::Raise { .. }));
    let test = at(&|step| matches!(step, Step::TestLoad { .. }));
    let work = at(&|step| matches!(step, Step::Work));
    assert!(
        held(Hold::HeadDressed) < raise
            && at(&|step| matches!(step, Step::Dress { .. })) <= held(Hold::HeadDressed)
    );
    assert!(held(Hold::HoldfastsTried) < raise);
    assert!(held(Hold::Measured) < test && held(Hold::TestLoaded) > test && held(Hold::TestLoaded) < work);
    // Each holdfast is tried, the fore guy's that nothing pulls on too.
    let tried: Vec<_> = plan
        .steps
        .iter()
        .filter_map(|numbered| match numbered.step {
            Step::TryHoldfast { of, force, .. } => Some((of, force > 0.0)),
            _ => None,
        })
        .collect();
    assert_eq!(tried, [(Part::GuyHoldfast(0), true), (Part::GuyHoldfast(1), false)]);
}

#[test]
fn pickets_are_driven_where_they_are_paced_out() {
    let mut rig = rig();
    let holdfast =
        Holdfast { kind: Some(HoldfastKind::Pickets111), soil: Some(Soil::Loam), ..Holdfast::default() };
    rig.guys[0].holdfast = holdfast;
    let plan = plan_of(&rig);
    let driven = plan
        .steps
        .iter()
        .any(|numbered| numbered.step == Step::Holdfast { of: Mark::Anchor(0), pickets: 3, lashings: 2 });
    assert!(driven);
}

/// The frame leans farther under the test load, by what the stretched solution says, and must stay inside its range.
#[test]
fn the_test_load_has_a_stop_on_either_side() {
    let plan = plan_of(&rig());
    let test = plan.test;
    let (under, (least, most)) = (test.under.unwrap(), test.between);
    assert!((test.before - 18.0 * DEG).abs() < 1e-9 && under > test.before);
    assert_eq!(plan.stretching.as_ref().unwrap().loaded_lean, Some(under), "the load itself is hung");
    let interval = plan.range.around(18.0 * DEG).unwrap();
    assert!(least >= interval.from && most <= interval.to);
    assert!((test.before - least - 2.0 * DEG).abs() < 1e-9 && (most - under - 2.0 * DEG).abs() < 1e-9);
}

/// Lowering, holding and raising pull a frame hauled straight back to unlike leans, with unlike margins.
#[test]
fn stretching_is_of_the_worst_case() {
    let mut rig = rig();
    let to = Point::new(-9.0, 0.0, 0.0);
    rig.line = Line { pulley_efficiency: 0.7, ..Line::along(Path::StraightBack { to }) };
    rig.guys.iter_mut().for_each(|guy| guy.sheet.elongation = Some(0.03));
    let found = Stretching::of(&rig).unwrap().unwrap();
    let stretch = Stretch::of(&rig).unwrap();
    let (mut margins, mut leans) = (Vec::new(), Vec::new());
    for case in rig.cases() {
        let there = Rig { case, ..rig.clone() };
        margins.push((margin(&there, &stretch).unwrap().unwrap().multiple, case));
        let Outcome::Stands(stands) = stretched(&there, &stretch).unwrap() else { panic!("it stands") };
        leans.push(stands.lean);
    }
    margins.sort_by(|a, b| a.0.total_cmp(&b.0));
    leans.sort_by(f64::total_cmp);
    assert!(margins[2].0 > 1.1 * margins[0].0 && leans[2] > leans[0] + DEG, "{margins:?} {leans:?}");
    assert_eq!(found.margin.map(|(margin, case)| (margin.multiple, case)), Some(margins[0]));
    assert_eq!((found.least_lean, found.most_lean), (Some(leans[0]), Some(leans[2])));
}

/// The bar reaches from bound to bound and the limit stands at 100 %, all on one even scale.
#[test]
fn the_spread_is_to_scale() {
    let words = Words::default();
    let voice = Voice { words: &words, units: Units::Metric, guys: &[] };
    let band = |low, high| Band { low, middle: 0.5 * (low + high), high };
    for (low, high) in [(0.3, 0.6), (0.8, 1.3), (1.9, 2.4)] {
        let scene = spread_picture(&band(low, high), 0.5, &voice, 600.0);
        let bounds = |part: &str| {
            let item = scene.items.iter().find(|item| item.part == part).unwrap();
            let Shape::Path(path) = &item.shape else { panic!("a path") };
            path.bounds().unwrap()
        };
        let (from, _, to, _) = bounds("nine in ten");
        let (limit, ..) = bounds("limit");
        let zero = bounds("axis").0;
        let per_one = limit - zero;
        assert!((from - zero - low * per_one).abs() < 1e-9 && (to - zero - high * per_one).abs() < 1e-9);
        assert!(to < 600.0 && limit < 600.0);
    }
    // What falls has no share: the bar runs on to the end.
    let scene = spread_picture(&band(0.9, f64::INFINITY), 0.95, &voice, 600.0);
    assert!(scene.to_text().lines().all(|line| !line.contains("inf") && !line.contains("NaN")));
}

/// What governs is a guy whose pull goes with the load: ten per cent of load are ten per cent of it, and nothing on the ground
/// that only stated strengths stand on makes any other difference.
#[test]
fn what_the_spread_comes_from() {
    let mut rig = Rig::new(4.0, 1.2, 20.0 * DEG, 200.0);
    rig.guys.push(Guy { rope_allowable: Some(1500.0), ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
    let scatter = Scatter { length: 0.001, angle: 0.0, load: 0.1, soil: 0.3 };
    let mut surely = Surely::new(&rig, &scatter, 1, 8_000).unwrap();
    surely.draw(surely.left());
    let found = surely.sources();
    assert_eq!(found.iter().map(|source| source.name).collect::<Vec<_>>(), ["load", "length", "soil"]);
    let planned = solve(&rig).unwrap().forces().unwrap().guys[0].tension / 1500.0;
    let band = found[0].ratio.unwrap();
    assert!(
        (band.low / planned - 0.91).abs() < 0.005 && (band.high / planned - 1.09).abs() < 0.005,
        "{band:?}"
    );
    let none = found[2].ratio.unwrap();
    assert!((none.high - planned).abs() < 1e-12 && (none.low - planned).abs() < 1e-12);
}

#[test]
fn what_was_measured_stands_beside_what_was_planned() {
    let (planned, job) = (rig(), Job::default());
    let plan = plan_of(&planned);
    let same = Measured::of(&plan, &planned, &Given { rig: &planned, job: &job, draws: 0 }).unwrap();
    assert!(same.within && same.others.is_empty() && same.rows.iter().all(|row| row.alone.is_none()));

    let mut built = rig();
    built.lean += 3.0 * DEG;
    built.guys[0].anchor = Point::new(-6.98, 0.0, 0.0);
    built.load.mass = 170.0;
    let found = Measured::of(&plan, &planned, &Given { rig: &built, job: &job, draws: 0 }).unwrap();
    assert!(!found.within);
    let row = |key: &str| found.rows.iter().find(|row| row.planned.key == key).unwrap();
    assert!(!row("lean").within && row("guy.0.setback").within, "2 cm are within 5");
    let effect = row("lean").alone.unwrap();
    assert!(effect.after > effect.before, "{effect:?}");
    assert_eq!(found.others.iter().map(|other| other.key.as_str()).collect::<Vec<_>>(), ["load.mass"]);
    // The same lean by a second method, and one that is 3° off.
    for (lean, agree) in [(21.0, true), (24.0, false)] {
        let job = Job { lean_again: Some(outlean_rig::Lean::Vertical(lean * DEG)), ..Job::default() };
        let built = Rig { lean: 18.0 * DEG + 3.0 * DEG, ..rig() };
        let planned = Rig { lean: 21.0 * DEG, ..rig() };
        let plan = plan_of(&planned);
        let found = Measured::of(&plan, &planned, &Given { rig: &built, job: &job, draws: 0 }).unwrap();
        assert_eq!(found.within, agree, "{lean}");
    }
}

#[test]
fn variants_differ_in_what_was_changed_and_in_nothing_else() {
    let (a, mut b) = (rig(), rig());
    assert!(differences(&[&a, &b]).is_empty());
    b.legs.left.weight_per_metre = 50.0;
    b.legs.right.weight_per_metre = 50.0;
    b.feet.at.left = Point::new(0.0, 0.7, 0.0);
    b.feet.at.right = Point::new(0.0, -0.7, 0.0);
    let keys: Vec<_> = differences(&[&a, &b]).into_iter().map(|found| found.key).collect();
    assert_eq!(keys, ["feet.spread", "legs.weight"]);
}

/// On paper of 180 by 110 mm at 1 : N a metre is 1000/N mm, and a millimetre 96/25.4 px.
#[test]
fn the_ground_plan_is_to_scale() {
    let words = Words::default();
    let guys = vec!["aft".to_owned(), "fore".to_owned()];
    let voice = Voice { words: &words, units: Units::Metric, guys: &guys };
    for far in [3.0, 7.0, 19.0, 60.0] {
        let mut rig = rig();
        rig.guys[0].anchor = Point::new(-far, 0.0, 0.0);
        let drawn = ground_plan(&rig, &pacing(&rig).unwrap(), &voice, (180.0, 110.0)).unwrap();
        let place = |part: &str| {
            let items = drawn.scene.items.iter().filter(|item| item.part == part);
            let mut all = items.filter_map(|item| match item.shape {
                Shape::Circle { x, y, .. } => Some((x, y)),
                _ => None,
            });
            (all.next().unwrap(), all.next().unwrap())
        };
        let (aft, fore) = place("anchor");
        let wanted = (far + 6.0) * 1000.0 / drawn.scale * 96.0 / 25.4;
        assert!((fore.0 - aft.0 - wanted).abs() < 1e-9, "{far}: {} px, not {wanted}", fore.0 - aft.0);
        assert!(aft.0 > 0.0 && fore.0 < drawn.scene.width);
        let (left, right) = place("foot");
        assert!((right.1 - left.1 - 1.2 * 1000.0 / drawn.scale * 96.0 / 25.4).abs() < 1e-9, "left is up");
        // The bar is as long as it says.
        let bar = drawn.scene.items.iter().find(|item| item.part == "scale bar").unwrap();
        let Shape::Path(path) = &bar.shape else { panic!("a line") };
        let [Stroke::Move(from, _), Stroke::Line(to, _)] = path.steps[..] else { panic!("a line") };
        let said = drawn.scene.items.iter().find_map(|item| match &item.shape {
            Shape::Text { text, .. } => {
                text.strip_suffix("\u{2009}m").and_then(|number| number.parse::<f64>().ok())
            }
            _ => None,
        });
        assert!((to - from - said.unwrap() * 1000.0 / drawn.scale * 96.0 / 25.4).abs() < 1e-9);
    }
}

/// Seen from above a line runs from the head to what turns it, then to where it is hauled from; another line goes its own way.
#[test]
fn the_ground_plan_leads_a_line_through_what_turns_it() {
    let words = Words::default();
    let guys = vec!["aft".to_owned(), "fore".to_owned()];
    let voice = Voice { words: &words, units: Units::Metric, guys: &guys };
    let to = Point::new(-5.0, 3.0, 0.0);
    for (path, turn) in [
        (Path::StraightBack { to }, None),
        (Path::RedirectedAtFoot { foot: Side::Left, to }, Some(("foot", 0))),
        (Path::RedirectedAtFoot { foot: Side::Right, to }, Some(("foot", 1))),
        (Path::RedirectedMidBase { to }, Some(("redirect", 0))),
        (Path::RedirectedOnLedger { to }, None),
    ] {
        let mut rig = rig();
        rig.line = Line::along(path);
        let back = Line::along(Path::StraightBack { to: Point::new(-8.0, -1.0, 0.0) });
        rig.second = Some(SecondLine { line: back, share: 0.0, peak_factor: None });
        let drawn = ground_plan(&rig, &pacing(&rig).unwrap(), &voice, (180.0, 110.0)).unwrap();
        let of = |part: &'static str| drawn.scene.items.iter().filter(move |item| item.part == part);
        let dot = |part, number| match of(part).nth(number).unwrap().shape {
            Shape::Circle { x, y, .. } => (x, y),
            _ => panic!("a dot"),
        };
        let ways: Vec<_> = of("haul line")
            .map(|item| match &item.shape {
                Shape::Path(path) => match path.steps[..] {
                    [Stroke::Move(x, y), Stroke::Line(to_x, to_y)] => ((x, y), (to_x, to_y)),
                    _ => panic!("a line"),
                },
                _ => panic!("a line"),
            })
            .collect();
        let head = dot("head", 0);
        let [main, second] = [0, 1].map(|number| dot("haul point", number));
        let middle = {
            let [left, right] = [0, 1].map(|number| dot("foot", number));
            ((left.0 + right.0) / 2.0, (left.1 + right.1) / 2.0)
        };
        let turn = match turn {
            Some((part, number)) => Some(dot(part, number)),
            None => path.is_redirected().then_some(middle),
        };
        let wanted = match turn {
            Some(turn) => vec![(head, turn), (turn, main), (head, second)],
            None => vec![(head, main), (head, second)],
        };
        let near = |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).abs() + (a.1 - b.1).abs() < 1e-9;
        assert_eq!(ways.len(), wanted.len(), "{path:?}");
        for (way, wanted) in ways.iter().zip(&wanted) {
            assert!(near(way.0, wanted.0) && near(way.1, wanted.1), "{path:?}: {ways:?}, not {wanted:?}");
        }
    }
}
