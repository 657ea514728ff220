//! Levers, sweeps, scatter and proposals: rigs that are not what they are.

use super::{cases, solvable};
use outlean_rig::strength::timber::Grade;
use outlean_rig::strength::{Holdfast, HoldfastKind, Soil};
use outlean_rig::{
    Band, Change, DataSheet, Draws, Field, Guy, Haul, LeanIs, Lever, Limit, Line, Outcome, Path, Point,
    Raising, Rig, Scatter, Swing, WANTED_MARGIN, governing, limits_at, proposals, scattered,
    simple_advantage, solve, sweep, uncertainty,
};
use outlean_tests::random::random_rig;
use proptest::prelude::*;

const LEVERS: [Lever; 7] = [
    Lever::Lean,
    Lever::Spread,
    Lever::Mass,
    Lever::HaulDirection,
    Lever::Setback(0),
    Lever::Setback(1),
    Lever::GuyStiffness,
];

/// A random rig, in half of all cases with ropes of known stiffness.
fn with_ropes(seed: u64) -> Rig {
    let mut rig = random_rig(seed);
    if seed.is_multiple_of(2) {
        for guy in &mut rig.guys {
            guy.sheet = DataSheet { elongation: Some(0.03), at: Some(1300.0), give: None };
        }
    }
    rig
}

/// How far two values of a lever are apart; a direction is the same after a whole turn.
fn apart(lever: Lever, a: f64, b: f64) -> f64 {
    let turn = core::f64::consts::TAU;
    let apart = (a - b).abs();
    if lever == Lever::HaulDirection { apart.min((apart - turn).abs()) } else { apart }
}

proptest! {
    #![proptest_config(cases(1000))]

    /// A lever holds what it is set to, and moves nothing else that it could move.
    #[test]
    fn a_lever_is_where_it_is_set(seed: u64, which in 0..LEVERS.len(), by in 0.7..1.3_f64) {
        let rig = with_ropes(seed);
        let lever = LEVERS[which];
        let Some(was) = lever.get(&rig).filter(|was| *was != 0.0) else { return Ok(()) };
        let mut moved = rig.clone();
        lever.set(&mut moved, was * by);
        let is = lever.get(&moved).unwrap();
        prop_assert!(apart(lever, is, was * by) < 1e-9 * was.abs().max(1.0), "{lever:?} {is} for {}", was * by);
        lever.set(&mut moved, was);
        for other in LEVERS {
            let (Some(a), Some(b)) = (other.get(&rig), other.get(&moved)) else { continue };
            prop_assert!(apart(other, a, b) < 1e-9 * a.abs().max(1.0), "{lever:?} moved {other:?}");
        }
    }

    /// A sweep solves what stands at each value, whatever it has been at before: at none, at the other side.
    #[test]
    fn a_sweep_is_one_rig_after_another(seed: u64, which in 0..LEVERS.len()) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let lever = LEVERS[which];
        let Some(was) = lever.get(&rig) else { return Ok(()) };
        let values = [0.8, 0.0, -0.5, 1.0, f64::NAN, 1.25].map(|by| by * was);
        for (swept, value) in sweep(&rig, lever, values).zip(values) {
            let mut there = rig.clone();
            lever.set(&mut there, value);
            match (swept.outcome, solve(&there)) {
                (Ok((solution, worst)), Ok(apart)) => {
                    prop_assert_eq!(&solution, &apart);
                    prop_assert_eq!(worst, governing(&there, there.lean).unwrap());
                }
                (Err(a), Err(b)) => prop_assert_eq!(a.field, b.field),
                (a, b) => prop_assert!(false, "{:?} and {:?}", a.is_ok(), b.is_ok()),
            }
        }
    }

    /// No scatter is no change; with some, every number stays within it.
    #[test]
    fn draws_keep_within_their_scatter(seed: u64, number: u32) {
        let rig = random_rig(seed);
        prop_assert_eq!(scattered(&rig, &Scatter { length: 0.0, ..Scatter::default() }, seed, number).load, rig.load);
        let scatter = Scatter { length: 0.1, angle: 0.02, load: 0.15, soil: 0.3 };
        let drawn = scattered(&rig, &scatter, seed, number);
        prop_assert!((drawn.lean - rig.lean).abs() <= 0.02);
        prop_assert!((drawn.load.mass / rig.load.mass - 1.0).abs() <= 0.15 + 1e-12 || rig.load.mass <= 0.0);
        for (guy, was) in drawn.guys.iter().zip(&rig.guys) {
            let moved = guy.anchor - was.anchor;
            prop_assert!(moved.abs().max_element() <= 0.1 + 1e-12);
            prop_assert_eq!(guy.rope_allowable, was.rope_allowable);
        }
        let (was, is) = (Lever::Spread.get(&rig).unwrap(), Lever::Spread.get(&drawn).unwrap());
        prop_assert!((was - is).abs() <= 0.1 + 1e-9 || was == 0.0);
        prop_assert_eq!(&drawn, &scattered(&rig, &scatter, seed, number));
    }
}

fn leaning() -> Rig {
    let mut rig = Rig::new(4.0, 1.2, 30f64.to_radians(), 250.0);
    let strong = |most, anchor| Guy { holdfast_allowable: Some(most), ..Guy::to(anchor) };
    rig.guys.push(strong(2000.0, Point::new(-6.0, 0.0, 0.0)));
    rig.guys.push(strong(2000.0, Point::new(6.0, 0.0, 0.0)));
    rig
}

/// A load in the frame's plane, its guys stiffer and stiffer: without stretch nothing changes; with it the frame stands
/// nearer to where it was set, its guy carries less, its margin grows in proportion.
#[test]
fn along_the_stiffness_of_guys_only_what_stretches_changes() {
    let mut rig = leaning();
    rig.lean_is = LeanIs::SetBefore;
    rig.lean = 20f64.to_radians();
    let stiffness = [10e3, 40e3, 80e3, 160e3, 1e6];
    let swept: Vec<_> = sweep(&rig, Lever::GuyStiffness, stiffness).collect();
    let plain = solve(&rig).unwrap();
    let limit = |i: usize| {
        let mut there = rig.clone();
        Lever::GuyStiffness.set(&mut there, stiffness[i]);
        let limits = limits_at(&there, there.lean).unwrap();
        limits.iter().find(|limit| limit.limit == Limit::Stretch).unwrap().ratio
    };
    let (mut last, mut last_margin) = (f64::INFINITY, 0.0);
    for (i, swept) in swept.iter().enumerate() {
        assert_eq!(swept.outcome.as_ref().unwrap().0, plain);
        let (outcome, margin) = swept.stretched.as_ref().unwrap();
        let multiple = margin.unwrap().multiple;
        assert!((limit(i) * multiple / WANTED_MARGIN - 1.0).abs() < 1e-12 && multiple > last_margin);
        last_margin = multiple;
        match (i, outcome) {
            (0, Outcome::RunsAway(at)) => assert!((at - multiple).abs() < 1e-6),
            (0, _) | (_, Outcome::RunsAway(_) | Outcome::NothingHolds | Outcome::Tips(_)) => {
                panic!("{i}: {outcome:?}")
            }
            (_, Outcome::Stands(found)) => {
                assert!((found.set_lean.unwrap() - rig.lean).abs() < 1e-9 && multiple > 1.0);
                assert!(found.lean < last && found.lean > rig.lean);
                assert!(found.tension[0] > plain.forces().unwrap().guys[0].tension);
                last = found.lean;
            }
        }
    }
    // Rigid at last.
    assert!((last - rig.lean).to_degrees() < 0.25, "{}", last.to_degrees());
    // Of ropes not known nothing is said.
    assert!(sweep(&rig, Lever::Lean, [0.3]).all(|swept| swept.stretched.is_none()));
    assert_eq!(Lever::GuyStiffness.get(&rig), None);
}

/// Of one angle that scatters evenly, everything can be said beforehand.
#[test]
fn the_bands_of_an_even_scatter_are_even() {
    let mut rig = leaning();
    rig.guys[0].holdfast_allowable = None;
    let angle = 2f64.to_radians();
    let found = uncertainty(&rig, &Scatter { angle, ..Scatter::default() }, 7, 10_000).unwrap();
    assert_eq!((found.draws, found.impossible, found.tipping, found.past), (10_000, 0, 0, 0));
    // The load's own two angles scatter as well: without them the tension would be that of the lean alone.
    rig.load.side_angle = 0.0;
    let at = |lean: f64| {
        let mut there = rig.clone();
        there.lean += lean;
        solve(&there).unwrap().forces().unwrap().guys[0].tension
    };
    let band = found.guys[0].unwrap();
    assert!((band.middle - at(0.0)).abs() < 0.01 * at(0.0));
    assert!(band.low < at(-0.8 * angle) && band.low > at(-2.5 * angle), "{band:?}");
    assert!(band.high > at(0.8 * angle) && band.high < at(2.5 * angle), "{band:?}");
}

/// The share past a limit is that of the load alone where only the load scatters: known without a draw.
#[test]
fn the_share_past_a_limit_is_that_of_the_scatter() {
    let mut rig = leaning();
    let tension = solve(&rig).unwrap().forces().unwrap().guys[0].tension;
    // Past at a load 4 % above; the load is anywhere within 10 % either way, evenly: three in ten.
    rig.guys[0].holdfast_allowable = Some(1.04 * tension);
    let found = uncertainty(&rig, &Scatter { load: 0.1, ..Scatter::default() }, 1, 10_000).unwrap();
    assert!((2_850..3_150).contains(&found.past), "{}", found.past);
    let none = uncertainty(&rig, &Scatter::default(), 1, 100).unwrap();
    assert_eq!(none.past, 0);
    let ratio = none.ratio.unwrap();
    assert!((ratio.low - 1.0 / 1.04).abs() < 1e-12 && (ratio.high - 1.0 / 1.04).abs() < 1e-12);
    let wrong = uncertainty(&rig, &Scatter { load: f64::NAN, ..Scatter::default() }, 1, 10);
    assert_eq!(wrong.unwrap_err().field, Field::LoadScatter);
}

#[test]
fn a_band_is_of_its_values() {
    let mut values: Vec<f64> = (0..=100).rev().map(f64::from).collect();
    assert_eq!(Band::of(&mut values), Some(Band { low: 5.0, middle: 50.0, high: 95.0 }));
    assert_eq!(Band::of(&mut []), None);
}

/// Each holds, none is larger than it need be, and pairs are less than either of their two alone.
#[test]
fn proposals_are_the_smallest_that_hold() {
    let (mut met, mut islands) = ((0, 0), 0);
    for seed in 0..70 {
        let rig = random_rig(seed);
        let found = proposals(&rig);
        let outside = governing(&rig, rig.lean).is_ok_and(|worst| !worst.holds());
        assert!(outside || found.is_empty());
        for proposal in &found {
            let mut changed = rig.clone();
            proposal.changes.iter().for_each(|change| change.apply(&mut changed));
            let worst = governing(&changed, changed.lean).unwrap();
            assert!(worst.holds() && worst == proposal.governing, "seed {seed}");
            for change in &proposal.changes {
                if let Change::Set { lever: Lever::Spread, from, to } = change {
                    assert!(*to >= 0.5 * from, "seed {seed}: feet from {from} m to {to} m");
                }
            }
            if let [Change::Set { lever, from, to }] = proposal.changes[..] {
                met.0 += 1;
                // A hundredth of a pace less is still outside, but where outside is an island narrower than that.
                let mut less = rig.clone();
                lever.set(&mut less, to - 0.011 * (to - from) / proposal.effort);
                islands += u32::from(governing(&less, less.lean).is_ok_and(|worst| worst.holds()));
            }
            if let [first, second] = proposal.changes[..] {
                met.1 += 1;
                for alone in found.iter().filter(|other| other.changes.len() == 1) {
                    let same = |a: &Change, b: &Change| match (a, b) {
                        (Change::Set { lever: a, .. }, Change::Set { lever: b, .. }) => a == b,
                        (a, b) => a == b,
                    };
                    if same(&alone.changes[0], &first) || same(&alone.changes[0], &second) {
                        assert!(proposal.effort < alone.effort, "seed {seed}");
                    }
                }
            }
        }
        assert!(found.windows(2).all(|pair| pair[0].effort <= pair[1].effort));
    }
    assert!(met.0 > 25 && met.1 > 5 && islands * 50 <= met.0, "{met:?} {islands}");
}

/// Straight back without a fore guy wants to tip the frame over backwards; a redirect mends it (common practice C-06).
#[test]
fn a_frame_pulled_over_backwards_is_offered_a_redirect() {
    let mut rig = Rig::new(4.0, 1.2, 12f64.to_radians(), 250.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    assert!(!governing(&rig, rig.lean).unwrap().holds());
    let found = proposals(&rig);
    assert!(found.iter().any(|proposal| proposal.changes[..] == [Change::RedirectMidBase]), "{found:?}");
}

/// A 1-1-1 in loam holds 1,800 lbf (NAVEDTRA 14251), a 2-1 2,000 (FM 5-125, from memory), a 3-2-1 4,000: of these the first that does.
#[test]
fn a_holdfast_that_is_too_weak_is_offered_the_next_that_is_not() {
    const LBF: f64 = 4.448_221_615_260_5;
    let system = |kind| Holdfast { kind: Some(kind), soil: Some(Soil::Loam), ..Holdfast::default() };
    for (pull, wanted) in
        [(1_900.0, Some(HoldfastKind::Pickets21)), (3_000.0, Some(HoldfastKind::Pickets321)), (4_100.0, None)]
    {
        let mut rig = leaning();
        rig.guys.truncate(1);
        rig.guys[0] = Guy { holdfast: system(HoldfastKind::Pickets111), ..Guy::to(rig.guys[0].anchor) };
        // Tension goes with the load.
        let now = solve(&rig).unwrap().forces().unwrap().guys[0].tension;
        rig.load.mass *= pull * LBF / now;
        for leg in [&mut rig.legs.left, &mut rig.legs.right] {
            leg.weight_per_metre = 0.0;
        }
        let now = solve(&rig).unwrap().forces().unwrap().guys[0].tension;
        rig.load.mass *= pull * LBF / now;
        let found = proposals(&rig);
        let offered = found.iter().find_map(|proposal| match proposal.changes[..] {
            [Change::Pickets { of: Some(0), kind }] => Some(kind),
            _ => None,
        });
        assert_eq!(offered, wanted, "{pull} lbf: {found:?}");
    }
}

/// Each is the least that does: a hundredth of a pace less is still outside.
#[test]
fn legs_that_are_too_weak_are_offered_shorter_or_thicker() {
    let mut rig = leaning();
    (rig.gear.timber.grade, rig.load.mass) = (Some(Grade::C16), 400.0);
    for leg in [&mut rig.legs.left, &mut rig.legs.right] {
        (leg.pole.tip_diameter, leg.pole.butt_diameter) = (Some(0.085), Some(0.105));
        (leg.length, leg.weight_per_metre) = (leg.length + 0.5, 30.0);
    }
    rig.guys.iter_mut().for_each(|guy| (guy.rope_allowable, guy.holdfast_allowable) = (None, None));
    assert!(!governing(&rig, rig.lean).unwrap().holds());
    let found = proposals(&rig);
    let mut met = (false, false);
    for proposal in &found {
        let [change] = proposal.changes[..] else { continue };
        let less = match change {
            Change::LegLength { from, to } => {
                met.0 = true;
                assert!((proposal.effort - (from - to) / 0.1).abs() < 1e-6 && to < from);
                Change::LegLength { from, to: to + 0.0011 }
            }
            Change::LegThickness { from, to } => {
                met.1 = true;
                assert!((proposal.effort - (to - from) / 0.01).abs() < 1e-6 && to > from);
                Change::LegThickness { from, to: to - 0.00011 }
            }
            _ => continue,
        };
        let (mut then, mut not_yet) = (rig.clone(), rig.clone());
        change.apply(&mut then);
        less.apply(&mut not_yet);
        assert!(
            governing(&then, then.lean).unwrap().holds()
                && !governing(&not_yet, not_yet.lean).unwrap().holds()
        );
    }
    assert_eq!(met, (true, true), "{found:?}");
    // A pole twice as thick has four times the section, and weighs as much more.
    let mut twice = rig.clone();
    for leg in [&mut twice.legs.left, &mut twice.legs.right] {
        (leg.pole.tip_diameter, leg.pole.butt_diameter) = (Some(0.1), Some(0.1));
    }
    Change::LegThickness { from: 0.1, to: 0.2 }.apply(&mut twice);
    assert!((twice.legs.left.weight_per_metre - 120.0).abs() < 1e-9);
    assert_eq!(twice.legs.right.pole.tip_diameter, Some(0.2));
}

/// The crew's pull: 3:1 at 0.8 is 2.44, and what they pull at holds what they hold.
#[test]
fn the_crew_pulls_what_is_left() {
    assert!((simple_advantage(3, 0.8) - 2.44).abs() < 1e-12);
    assert!((simple_advantage(5, 1.0) - 5.0).abs() < 1e-12);
    let mut rig = leaning();
    rig.line = Line {
        pulley_efficiency: 0.9,
        ..Line::along(Path::RedirectedMidBase { to: Point::new(-8.0, 0.0, 0.0) })
    };
    let line = solve(&rig).unwrap().line;
    let haul = Haul::of(&line, 3, 0.8, 220.0).unwrap();
    assert!((haul.hands * 2.44 - line.after_redirect).abs() < 1e-9);
    assert!(f64::from(haul.people) * 220.0 >= haul.hands && f64::from(haul.people - 1) * 220.0 < haul.hands);
    assert!(Haul::of(&line, 0, 0.8, 220.0).is_none() && Haul::of(&line, 3, 0.8, 0.0).is_none());
}

/// Lifting the lashing of a frame that lies with its feet held: moments about the feet.
#[test]
fn raising_by_hand_lifts_what_the_poles_weigh_at_the_lashing() {
    let mut rig = leaning();
    for leg in [&mut rig.legs.left, &mut rig.legs.right] {
        (leg.length, leg.lashing_below_tip, leg.weight_per_metre) = (4.6, 0.6, 45.0);
    }
    let raising = Raising::of(&rig).unwrap();
    // 2 · w · L²/(2ℓ).
    assert!((raising.lift - 2.0 * 45.0 * 4.6 * 4.6 / (2.0 * 4.0)).abs() < 1e-9);
    // Bare, the frame leans on the aft guy with its own weight alone.
    let arm = solve(&rig).unwrap().guy_arm[0];
    let moment = raising.lift * solve(&rig).unwrap().layout.reach();
    assert_eq!(raising.preventer, Some(0));
    assert!((raising.preventer_tension - moment / arm).abs() < 1e-9);
    rig.guys.clear();
    assert_eq!(Raising::of(&rig).unwrap().preventer, None);
}

/// A load as heavy as is allowed: of draws a tenth either way half are heavier, and cannot be solved.
#[test]
fn draws_that_cannot_be_solved_are_counted_apart() {
    let mut rig = leaning();
    rig.load.mass = Field::Mass.allowed().most;
    let scatter = Scatter { load: 0.1, ..Scatter::default() };
    let heavier = (0..200).filter(|number| scattered(&rig, &scatter, 7, *number).load.mass > rig.load.mass);
    let found = uncertainty(&rig, &scatter, 7, 200).unwrap();
    assert_eq!((found.draws, found.impossible as usize), (200, heavier.count()));
    assert!((70..130).contains(&found.impossible), "{found:?}");
}

/// What was said of rope and holdfast, and what the tables say where nothing was.
#[test]
fn a_doubled_guy_carries_twice_what_it_did() {
    let mut rig = leaning();
    let holdfast =
        Holdfast { kind: Some(HoldfastKind::Picket), soil: Some(Soil::Loam), ..Holdfast::default() };
    rig.guys[0] = Guy { rope_allowable: Some(1800.0), holdfast, ..rig.guys[0] };
    rig.guys[0].cordage.breaking = Some(22_000.0);
    let mut twice = rig.clone();
    Change::DoubleGuy(0).apply(&mut twice);
    let (was, is) = (&rig.guys[0], &twice.guys[0]);
    assert_eq!((is.rope_allowable, is.holdfast_allowable), (Some(3600.0), Some(4000.0)));
    assert_eq!(is.cordage.breaking, Some(44_000.0));
    let holds = |guy: &Guy| guy.holdfast.capacity().unwrap().strength;
    assert!((holds(is) / holds(was) - 2.0).abs() < 1e-12);
    assert_eq!(twice.guys[1], rig.guys[1]);
}

/// Of many draws the least and the greatest of every number lie near either end of its scatter.
#[test]
fn draws_fill_their_scatter() {
    let scatter = Scatter { length: 0.1, angle: 0.02, load: 0.15, soil: 0.3 };
    let mut rig = leaning();
    rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.5, 0.0) });
    rig.load.on_tag_lines = Some(Swing { side: 0.1, outward: 0.2 });
    rig.feet.friction = Some(0.6);
    let numbers = |rig: &Rig| {
        let haul = rig.line.path.haul_point().unwrap();
        let swing = rig.load.on_tag_lines.unwrap();
        [
            (rig.legs.left.length, scatter.length),
            (rig.legs.right.length, scatter.length),
            (Lever::Spread.get(rig).unwrap(), scatter.length),
            (rig.guys[0].anchor.x(), scatter.length),
            (rig.guys[1].anchor.z(), scatter.length),
            (haul.y(), scatter.length),
            (rig.lean, scatter.angle),
            (rig.load.side_angle, scatter.angle),
            (rig.load.outward_angle, scatter.angle),
            (swing.side, scatter.angle),
            (swing.outward, scatter.angle),
            (rig.load.mass, scatter.load * 250.0),
            (rig.feet.friction.unwrap(), scatter.soil * 0.6),
            (rig.guys[0].holdfast_allowable.unwrap(), scatter.soil * 2000.0),
        ]
    };
    let drawn: Vec<_> = (0..400).map(|number| numbers(&scattered(&rig, &scatter, 5, number))).collect();
    for (i, (was, most)) in numbers(&rig).into_iter().enumerate() {
        let off = drawn.iter().map(|numbers| (numbers[i].0 - was) / most);
        let (least, greatest) = off.fold((0.0, 0.0), |(a, b): (f64, f64), off| (a.min(off), b.max(off)));
        let fill = |end: f64| (0.95..1.0 + 1e-9).contains(&end);
        assert!(fill(-least) && fill(greatest), "number {i}: {least} to {greatest}");
    }
    let mut some = Draws::new(&rig, &scatter, 5).unwrap();
    some.draw(7);
    some.draw(4);
    assert_eq!(some.drawn(), 11);
}

/// Upright, held from behind only: those that lean back fall.
#[test]
fn draws_that_tip_are_counted() {
    let mut rig = leaning();
    rig.lean = 0.0;
    rig.guys.pop();
    let scatter = Scatter { angle: 0.02, ..Scatter::default() };
    let tips = |number: &u32| solve(&scattered(&rig, &scatter, 3, *number)).unwrap().tips().is_some();
    let found = uncertainty(&rig, &scatter, 3, 100).unwrap();
    assert_eq!(found.tipping as usize, (0..100).filter(tips).count());
    assert!((20..80).contains(&found.tipping) && found.past >= found.tipping, "{found:?}");
}
