#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]
//! What a plan may not leave out: feet that are held down, friction, holdfasts of which nothing is said, guys beside one another;
//! and at which leans it is stopped.

mod common;

use outlean_plan::{Advice, Given, Inspected, LeftOut, Measured, Plan, Several, Step, Voice};
use outlean_rig::{
    DataSheet, Guy, LeanIs, Line, Outcome, Part, Path, Point, Rig, SecondLine, Side, Stretch, Swing, solve,
    stretched,
};
use outlean_rigfile::{DEG, Job, Units, Words};

/// Feet in pins that hold nothing down, and nothing is known of how the guys stretch.
fn rig() -> Rig {
    let mut rig = common::rig();
    rig.lean_is = LeanIs::UnderLoad;
    (rig.feet.held_down, rig.feet.pinned) = (false, true);
    for guy in &mut rig.guys {
        guy.sheet = DataSheet::default();
    }
    rig
}

fn soft(share: f64, lean_is: LeanIs) -> Rig {
    let mut rig = rig();
    rig.lean_is = lean_is;
    for guy in &mut rig.guys {
        guy.sheet = DataSheet { elongation: Some(share), at: Some(1500.0), give: None };
    }
    rig
}

fn plan_of(rig: &Rig) -> Plan {
    Plan::of(&Given { rig, job: &Job::default(), draws: 0 }).unwrap()
}

fn steps(plan: &Plan) -> impl Iterator<Item = &Step> {
    plan.steps.iter().map(|numbered| &numbered.step)
}

/// On tag lines the load swings so far to the left that the right foot would lift, as a hung load never does.
#[test]
fn a_foot_that_would_lift_is_held_down_by_something_that_was_tried() {
    let mut rig = rig();
    rig.load.mass = 100.0;
    rig.load.on_tag_lines = Some(Swing { side: 35.0 * DEG, outward: 5.0 * DEG });
    assert!(!plan_of(&rig).advice.may_be_built());
    rig.feet.held_down = true;
    let plan = plan_of(&rig);
    let most = rig.cases().into_iter().map(|case| {
        let found = solve(&Rig { case, ..rig.clone() }).unwrap();
        -found.forces().unwrap().footing.feet.right.bearing
    });
    let most = most.fold(0.0, f64::max);
    assert!(most > 300.0, "{most}");
    assert!(plan.verdict.not_assessed.contains(&LeftOut::HeldDown));
    assert!(
        matches!(&plan.advice, Advice::FindOut(unknown) if unknown.contains(&LeftOut::HeldDown)),
        "{:?}",
        plan.advice
    );
    let held: Vec<_> = steps(&plan).filter(|step| matches!(step, Step::HoldDown { .. })).collect();
    assert_eq!(held, [&Step::HoldDown { foot: Side::Right, force: most }]);
    assert!(plan.inspection.contains(&Inspected::HeldDown { foot: Side::Right, force: most }));
    assert!((held_by(&rig) - most).abs() < 1e-9);
    // Where nothing lifts there is nothing to hold.
    rig.load.on_tag_lines = None;
    let plan = plan_of(&rig);
    assert!(plan.advice == Advice::Build && steps(&plan).all(|step| !matches!(step, Step::HoldDown { .. })));
}

/// The force with which a plan asks the right foot to be held down; 0 where it does not.
fn held_by(rig: &Rig) -> f64 {
    let plan = plan_of(rig);
    let force = steps(&plan).find_map(|step| match step {
        Step::HoldDown { foot: Side::Right, force } => Some(*force),
        _ => None,
    });
    assert_eq!(force.is_some(), plan.verdict.not_assessed.contains(&LeftOut::HeldDown));
    force.unwrap_or(0.0)
}

/// A guy to one side that held without the one in the middle would lift the other foot, in whichever order they are listed; on
/// guys that stretch the frame leans farther, and it lifts more.
#[test]
fn a_foot_that_one_of_several_guys_would_lift_is_held_down() {
    let mut rig = rig();
    rig.load.mass = 240.0;
    for held_down in [false, true] {
        rig.feet.held_down = held_down;
        let mut both = rig.clone();
        both.guys.insert(1, Guy::to(Point::new(-4.0, 7.0, 0.0)));
        let mut swapped = both.clone();
        swapped.guys.swap(0, 1);
        let found = held_by(&both);
        assert!(found > 500.0, "{found}");
        if held_down {
            assert!((found - held_by(&swapped)).abs() < 1e-6 * found);
        }
        assert!(!matches!(plan_of(&both).advice, Advice::Build));
    }
    let mut soft = soft(0.01, LeanIs::SetBefore);
    soft.feet.held_down = true;
    soft.load.mass = 240.0;
    soft.guys[0].anchor = Point::new(-5.0, 4.5, 0.0);
    let set = solve(&soft).unwrap().forces().unwrap().footing.feet.right.bearing;
    assert!(set < -100.0 && held_by(&soft) > 1.02 * -set, "{set} {}", held_by(&soft));
}

/// Ten times the load is no test of what holds the load, and twice as much is one that holdfasts are tried for.
#[test]
fn the_test_load_is_held_against_what_it_hangs_on() {
    let rig = rig();
    let of = |mass: f64| {
        let job = Job { test_load: Some(mass), ..Job::default() };
        Plan::of(&Given { rig: &rig, job: &job, draws: 0 }).unwrap()
    };
    let tried = |plan: &Plan| {
        steps(plan)
            .find_map(|step| match step {
                Step::TryHoldfast { of: Part::GuyHoldfast(0), force, .. } => Some(*force),
                _ => None,
            })
            .unwrap()
    };
    let (less, as_planned, more, much) = (of(15.0), of(150.0), of(300.0), of(1500.0));
    assert!(less.test.holds && as_planned.test.holds && more.test.holds && !much.test.holds);
    assert_eq!((&as_planned.advice, &much.advice), (&Advice::Build, &Advice::TestLess));
    assert!((tried(&less) - tried(&as_planned)).abs() < 1e-9 && tried(&more) > 1.8 * tried(&as_planned));
    // Drawn to one side twice as much lifts a foot that the load does not, and half of what grips the ground does not grip it.
    let of = |rig: &Rig| {
        let job = Job { test_load: Some(300.0), ..Job::default() };
        Plan::of(&Given { rig, job: &job, draws: 0 }).unwrap()
    };
    let mut aside = rig.clone();
    (aside.feet.held_down, aside.load.side_angle) = (true, 12.5 * DEG);
    assert!(steps(&plan_of(&aside)).all(|step| !matches!(step, Step::HoldDown { .. })));
    let lifted = of(&aside);
    assert!(steps(&lifted).any(|step| matches!(step, Step::HoldDown { force, .. } if *force > 50.0)));
    assert!(matches!(&lifted.advice, Advice::FindOut(unknown) if unknown.contains(&LeftOut::HeldDown)));
    let mut sliding = rig.clone();
    sliding.feet.pinned = false;
    sliding.feet.friction = Some(2.0);
    assert!(of(&sliding).test.holds);
    let needed = |rig: &Rig| {
        let found = solve(rig).unwrap();
        let feet = &found.forces().unwrap().footing.feet;
        feet.left.friction_needed.unwrap()
    };
    let heavy = Rig { load: outlean_rig::Load { mass: 300.0, ..sliding.load }, ..sliding.clone() };
    let (less, more) = (needed(&sliding), needed(&heavy));
    assert!(more > less);
    sliding.feet.friction = Some(0.5 * (less + more));
    assert_eq!((plan_of(&sliding).advice, of(&sliding).advice), (Advice::Build, Advice::TestLess));
    // Whatever case the file is read in, it hangs clear and still.
    let mut raised = rig.clone();
    raised.case.operation = outlean_rig::Operation::Raising;
    assert_eq!(of(&raised).test, of(&rig).test);
    // On guys that stretch a load that runs away with it is no test.
    let soft = soft(0.02, LeanIs::SetBefore);
    let job = Job { test_load: Some(2000.0), ..Job::default() };
    let plan = Plan::of(&Given { rig: &soft, job: &job, draws: 0 }).unwrap();
    assert!(!plan.test.holds && plan.test.under.is_none());
    // A small one says nothing of where the frame leans at work.
    let job = Job { test_load: Some(15.0), ..Job::default() };
    let small = Plan::of(&Given { rig: &soft, job: &job, draws: 0 }).unwrap();
    assert_eq!(small.test.at_work, plan_of(&soft).test.at_work);
}

#[test]
fn two_redirects_midway_between_the_feet_pull_on_one_holdfast() {
    let mut rig = rig();
    let line = |aside: f64| Line::along(Path::RedirectedMidBase { to: Point::new(-9.0, aside, 0.0) });
    rig.line = line(0.4);
    let tried = |rig: &Rig| -> Vec<f64> {
        let redirect = |step: &Step| match step {
            Step::TryRedirect { force, .. } => Some(*force),
            _ => None,
        };
        steps(&plan_of(rig)).filter_map(redirect).collect()
    };
    rig.gear.redirect.breaking = Some(90_000.0);
    let alone = tried(&rig);
    rig.second = Some(SecondLine { line: line(-0.4), share: 0.5, peak_factor: None });
    let both = tried(&rig);
    assert_eq!((alone.len(), both.len()), (1, 1));
    // Each half, side by side: together all but as much as the one.
    assert!((both[0] / alone[0] - 1.0).abs() < 0.01, "{both:?} {alone:?}");
}

#[test]
fn friction_that_alone_holds_the_feet_is_found_out() {
    let mut rig = rig();
    rig.feet.pinned = false;
    assert_eq!(plan_of(&rig).advice, Advice::FindOut(vec![LeftOut::Friction]));
    rig.feet.friction = Some(2.0);
    assert_eq!(plan_of(&rig).advice, Advice::Build);
}

#[test]
fn a_holdfast_of_which_nothing_is_said_is_tried_and_inspected() {
    let mut rig = rig();
    let to = Point::new(-9.0, 0.0, 0.0);
    rig.line = Line::along(Path::RedirectedAtFoot { foot: Side::Left, to });
    let tried = |rig: &Rig| -> Vec<_> {
        let plan = plan_of(rig);
        let pull = |step: &Step| match step {
            Step::TryHoldfast { of, force, unproven } => Some((*of, *force, *unproven)),
            _ => None,
        };
        let tried: Vec<_> = steps(&plan).filter_map(pull).collect();
        for (part, ..) in &tried {
            assert!(plan.inspection.contains(&Inspected::Holdfast(*part)), "{part:?}");
        }
        tried
    };
    let weight = rig.load.weight();
    let found = tried(&rig);
    assert!(matches!(found[2], (Part::HaulHoldfast, force, true) if force > 0.99 * weight), "{found:?}");
    rig.gear.haul_allowable = Some(9000.0);
    let known = tried(&rig);
    assert_eq!((known[2].0, known[2].1), (found[2].0, found[2].1));
    rig.gear.haul_allowable = None;
    // A second line to a place of its own, and to that of the main line.
    for (aside, count) in [(1.0, 4), (0.01, 3)] {
        let to = Point::new(-9.0, aside, 0.0);
        let line = Line::along(Path::RedirectedAtFoot { foot: Side::Right, to });
        rig.second = Some(SecondLine { line, share: 0.5, peak_factor: None });
        assert_eq!(tried(&rig).len(), count, "{aside}");
    }
    // Where the haul line ends at the guy's holdfast, that is pulled by both.
    rig.second = None;
    rig.line = Line::along(Path::RedirectedAtFoot { foot: Side::Left, to: rig.guys[0].anchor });
    assert_eq!(tried(&rig).len(), 2);
}

#[test]
fn a_line_that_does_not_run_over_the_head_is_not_put_there_and_tries_nothing() {
    let mut rig = rig();
    rig.line = Line::along(Path::NotOverHead);
    let plan = plan_of(&rig);
    assert!(steps(&plan).any(|step| matches!(step, Step::Dress { main: false, second: false, .. })));
    assert!(!plan.is_tested());
    rig.second = Some(SecondLine { line: Line::hung(), share: 1.0, peak_factor: None });
    let plan = plan_of(&rig);
    assert!(steps(&plan).any(|step| matches!(step, Step::Dress { main: false, second: true, .. })));
    assert!(plan.is_tested());
}

/// Set near the end of its range it leans past that under load: that is what the range allows, and no reason to stop.
#[test]
fn what_is_expected_is_never_past_the_stop() {
    let under = |rig: &Rig, lean: f64| {
        let there = Rig { lean, lean_is: LeanIs::SetBefore, ..rig.clone() };
        match stretched(&there, &Stretch::of(&there).unwrap()).unwrap() {
            Outcome::Stands(found) => found.lean,
            other => panic!("{other:?}"),
        }
    };
    let mut rig = soft(0.03, LeanIs::SetBefore);
    let range = plan_of(&rig).range;
    let end = range.intervals.last().unwrap();
    rig.lean = end.to - 0.1 * DEG;
    let test = plan_of(&rig).test;
    let expected = test.under.unwrap();
    assert!(expected > end.to + 0.2 * DEG, "it leans past the end as set");
    assert!(test.between.1 > expected && (test.between.1 - under(&rig, end.to)).abs() < 1e-6, "{test:?}");
    assert!((test.before - test.between.0 - 2.0 * DEG).abs() < 1e-9);
    // Said as it stands under load it is set further back than its range begins.
    let mut rig = soft(0.03, LeanIs::UnderLoad);
    rig.lean = 10.2 * DEG;
    let plan = plan_of(&rig);
    let test = plan.test;
    assert!(test.before < 10.0 * DEG && test.between.0 <= test.before, "{test:?}");
    // At work it leans as each case pulls it.
    let to = Point::new(-9.0, 0.0, 0.0);
    let mut rig = soft(0.01, LeanIs::SetBefore);
    rig.line = Line { pulley_efficiency: 0.7, ..Line::along(Path::StraightBack { to }) };
    let plan = plan_of(&rig);
    let (found, at_work) = (plan.stretching.unwrap(), plan.test.at_work);
    assert!(at_work.0 <= found.least_lean.unwrap() && at_work.1 >= found.most_lean.unwrap(), "{at_work:?}");
    assert!(at_work.1 - at_work.0 > plan.test.between.1 - plan.test.between.0);
}

/// The sheet asks for the lean before loading. What is measured there is no lean under load.
#[test]
fn what_is_measured_before_loading_is_worked_out_from_there() {
    let planned = soft(0.03, LeanIs::UnderLoad);
    let plan = plan_of(&planned);
    let set = plan.stretching.as_ref().unwrap().set_lean.unwrap();
    assert!(set < planned.lean - 0.3 * DEG);
    let measured = Rig { lean: set, ..planned.clone() };
    let job = Job::default();
    let found = Measured::of(&plan, &planned, &Given { rig: &measured, job: &job, draws: 0 }).unwrap();
    assert!(found.within && found.others.is_empty(), "{:?}", found.others);
    let leans = |plan: &Plan| plan.stretching.as_ref().unwrap().loaded_lean.unwrap();
    assert!((leans(&found.plan) - planned.lean).abs() < 1e-6, "built as planned it stands as planned");
    assert!((found.plan.governing.ratio / plan.governing.ratio - 1.0).abs() < 1e-3);
}

/// Half of the load is the second line's: it is hauled as the main line is, by as many.
#[test]
fn a_second_line_that_carries_a_share_has_a_team_a_sling_and_pulleys() {
    let mut rig = rig();
    let line = |aside: f64| Line {
        sling: 0.3,
        ..Line::along(Path::StraightBack { to: Point::new(-9.0, aside, 0.0) })
    };
    (rig.line, rig.gear.lashing.girth) = (line(0.5), Some(0.36));
    rig.second = Some(SecondLine { line: line(-0.5), share: 0.5, peak_factor: None });
    let of = |rig: &Rig| {
        let job = Job { pull: Some(200.0), parts: Some(3.0), ..Job::default() };
        Plan::of(&Given { rig, job: &job, draws: 0 }).unwrap()
    };
    let plan = of(&rig);
    let (main, second) = (plan.crew.haul.unwrap(), plan.crew.second.unwrap());
    assert!((main.line - second.line).abs() < 1e-9 && main.people == second.people && main.people > 1);
    assert_eq!(plan.people, Some(1 + 2 * main.people));
    assert_eq!(plan.materials.sling, plan.materials.second_sling);
    if let Some(second) = &mut rig.second {
        second.share = 0.0;
    }
    let plan = of(&rig);
    assert!(plan.crew.second.is_none() && plan.people == Some(2 + plan.crew.haul.unwrap().people));
}

#[test]
fn guys_beside_one_another_are_told() {
    let mut rig = rig();
    assert_eq!(plan_of(&rig).several, Several::No);
    rig.guys.push(Guy::to(Point::new(-5.0, 0.2, 0.0)));
    assert_eq!(plan_of(&rig).several, Several::StandBy);
    rig.guys[0].anchor = Point::new(-5.0, 2.0, 0.0);
    rig.guys[2].anchor = Point::new(-5.0, -2.0, 0.0);
    assert_eq!(plan_of(&rig).several, Several::Together);
}

#[test]
fn no_bound_is_rounded_to_the_unsafe_side() {
    let words = Words::default();
    let voice = |units| Voice { words: &words, units, guys: &[] };
    let us = voice(Units::Us);
    assert_eq!(us.at_least(0.136), "5 1/2\u{2009}in");
    assert_eq!(us.at_most(0.010), "1/4\u{2009}in");
    assert_eq!((us.at_least(0.127), us.at_most(0.127)), ("5\u{2009}in".to_owned(), "5\u{2009}in".to_owned()));
    assert_eq!(
        (us.angle_at_most(1.97 * DEG), us.angle_at_most(2.0 * DEG)),
        ("1.9°".to_owned(), "2°".to_owned())
    );
    // What no quarter inch fits in is told in millimetres.
    assert_eq!(us.at_most(0.005), "5\u{2009}mm");
    let metric = voice(Units::Metric);
    assert_eq!(
        (metric.at_least(0.1361), metric.at_most(0.0109)),
        ("137\u{2009}mm".to_owned(), "10\u{2009}mm".to_owned())
    );
    assert_eq!(metric.at_least(0.136), "136\u{2009}mm");
}
