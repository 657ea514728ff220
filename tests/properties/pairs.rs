//! Two changes at once, against trying them all: the pair that is found is the least there is, where either alone is more.

use super::solvable;
use outlean_rig::strength::{Cordage, Holdfast, HoldfastKind, Soil};
use outlean_rig::{Change, Edge, G, Guy, Lever, Point, Rig, holds, proposals, solve};
use outlean_tests::random::Draw;

/// Paces over which either of two is tried.
const PACES: u8 = 16;

/// A lever, its pace, and the ways it may go.
type Reach = (Lever, f64, &'static [f64]);

const LEAN: Reach = (Lever::Lean, core::f64::consts::PI / 180.0, &[1.0, -1.0]);
const SPREAD: Reach = (Lever::Spread, 0.1, &[1.0, -1.0]);
const MASS: Reach = (Lever::Mass, 10.0, &[-1.0]);
const SETBACK: Reach = (Lever::Setback(0), 0.25, &[1.0]);

/// A rig with a lever so many paces from where it was; `None` where feet come closer than half of their spread.
fn moved(rig: &Rig, (lever, pace, _): Reach, way: f64, paces: f64) -> Option<Rig> {
    let from = lever.get(rig)?;
    let to = from + way * paces * pace;
    let mut rig = rig.clone();
    lever.set(&mut rig, to);
    (lever != Lever::Spread || to >= 0.5 * from).then_some(rig)
}

/// The fewest paces of two levers in whole paces of either that together bring a rig inside.
fn fewest(rig: &Rig, first: Reach, second: Reach) -> Option<f64> {
    let all = 1..=PACES;
    let pairs = all.clone().flat_map(|one| all.clone().map(move |other| (f64::from(one), f64::from(other))));
    let does = |one: f64, other: f64| {
        let ways = first.2.iter().flat_map(|a| second.2.iter().map(move |b| (*a, *b)));
        ways.into_iter().any(|(a, b)| {
            let both = moved(rig, first, a, one).and_then(|rig| moved(&rig, second, b, other));
            both.is_some_and(|rig| holds(&rig))
        })
    };
    let mut pairs: Vec<_> = pairs.collect();
    pairs.sort_by(|a, b| (a.0 + a.1).total_cmp(&(b.0 + b.1)));
    pairs.into_iter().find(|(one, other)| does(*one, *other)).map(|(one, other)| one + other)
}

/// A rig that lacks reach in front of its edge and has no strength to spare for it.
fn short(seed: u64) -> Rig {
    let draw = &mut Draw::new(seed);
    let mut rig = Rig::new(4.0, 1.2, draw.between(0.2, 0.4), draw.between(150.0, 300.0));
    rig.guys.push(Guy::to(Point::new(-draw.between(3.0, 7.0), 0.0, 0.0)));
    let solution = solve(&rig).unwrap();
    let (tension, head) = (solution.forces().unwrap().guys[0].tension, solution.layout.head);
    rig.guys[0].rope_allowable = Some(tension * draw.between(0.8, 1.05));
    rig.edge = Some(Edge { clear_reach_wanted: Some(draw.between(0.05, 0.4)), ..Edge::at(head.x()) });
    rig
}

/// How much a change counts: its paces where a lever is set, 8 where it is made or not.
fn effort(change: &Change) -> f64 {
    let of = |lever: Lever, by: f64| {
        let all = [LEAN, SPREAD, MASS, (Lever::HaulDirection, 10.0 * LEAN.1, &[])];
        let pace = all.iter().find(|(other, ..)| *other == lever).map_or(SETBACK.1, |(_, pace, _)| *pace);
        by.abs() / pace
    };
    match *change {
        Change::Set { lever, from, to } => of(lever, to - from),
        Change::LegLength { from, to } => (to - from).abs() / 0.1,
        Change::LegThickness { from, to } => (to - from).abs() / 0.01,
        _ => 8.0,
    }
}

/// A guy is doubled for whatever is known of it: what was said of its rope or holdfast, or what they are.
#[test]
fn a_guy_of_which_anything_is_known_may_be_doubled() {
    let mut rig = Rig::new(4.0, 1.2, 0.4, 250.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.gear.factor = Some(10.0);
    let most = solve(&rig).unwrap().forces().unwrap().guys[0].tension / 1.5;
    let rope = Cordage { breaking: Some(10.0 * most), knot_efficiency: Some(1.0), ..Cordage::default() };
    let holdfast = Holdfast { strength: Some(most), ..Holdfast::default() };
    let bare = rig.guys[0];
    for guy in [
        Guy { rope_allowable: Some(most), ..bare },
        Guy { holdfast_allowable: Some(most), ..bare },
        Guy { cordage: rope, ..bare },
        Guy { holdfast, ..bare },
    ] {
        rig.guys[0] = guy;
        let found = proposals(&rig);
        let offered = |change: Change| found.iter().any(|proposal| proposal.changes[..] == [change]);
        assert!(!holds(&rig) && offered(Change::DoubleGuy(0)), "{guy:?}: {found:?}");
    }
}

/// A picket in loam holds 700 lbf, a 1-1 twice as much (NAVEDTRA 14251; FM 5-125, from memory); steel pickets 350 kg each
/// (*Disaster Rescue* 8.3): the first of more that does.
#[test]
fn the_next_system_of_a_single_picket_and_the_next_number_of_steel_ones() {
    const LBF: f64 = 4.448_221_615_260_5;
    let loam = Some(Soil::Loam);
    let wooden = Holdfast { kind: Some(HoldfastKind::Picket), soil: loam, ..Holdfast::default() };
    let steel = Holdfast { kind: Some(HoldfastKind::SteelPickets), pickets: Some(2.0), ..wooden };
    let (system, pins) = (
        Change::Pickets { of: Some(0), kind: HoldfastKind::Pickets11 },
        Change::Pins { of: Some(0), count: 3 },
    );
    for (holdfast, pull, wanted) in [(wooden, 1_000.0 * LBF, system), (steel, 1_000.0 * G, pins)] {
        let mut rig = Rig::new(4.0, 1.2, 0.4, 250.0);
        rig.guys.push(Guy { holdfast, ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
        rig.load.mass *= pull / solve(&rig).unwrap().forces().unwrap().guys[0].tension;
        let found = proposals(&rig);
        let of_holdfasts = found.iter().filter_map(|proposal| match proposal.changes[..] {
            [change @ (Change::Pickets { .. } | Change::Pins { .. })] => Some(change),
            _ => None,
        });
        assert_eq!(of_holdfasts.collect::<Vec<_>>(), [wanted], "{found:?}");
    }
}

/// A load that draws to the side lifts no foot where they stand wide enough, be it twice as wide.
#[test]
fn feet_go_as_far_apart_as_keeps_both_down() {
    let mut rig = Rig::new(4.0, 1.0, 0.3, 250.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    (rig.load.side_angle, rig.feet.held_down) = (0.25, false);
    let wider = proposals(&rig).iter().find_map(|proposal| match proposal.changes[..] {
        [Change::Set { lever: Lever::Spread, to, .. }] => Some(to),
        _ => None,
    });
    let wider = wider.unwrap();
    let stands =
        |spread: f64| moved(&rig, SPREAD, 1.0, (spread - 1.0) / SPREAD.1).is_some_and(|rig| holds(&rig));
    assert!(wider > 1.6 && stands(wider) && !stands(wider - 0.0011), "{wider}");
}

/// What is said of a holdfast is not said of a stronger one.
#[test]
fn a_holdfast_with_a_strength_of_its_own_is_not_built_as_another() {
    let mut rig = Rig::new(4.0, 1.2, 0.4, 250.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    let most = solve(&rig).unwrap().forces().unwrap().guys[0].tension;
    let (kind, soil) = (Some(HoldfastKind::Pickets11), Some(Soil::Loam));
    rig.guys[0].holdfast = Holdfast { kind, soil, ..Holdfast::default() };
    let stronger = |rig: &Rig| {
        proposals(rig).iter().any(|proposal| matches!(proposal.changes[..], [Change::Pickets { .. }]))
    };
    let holds_so_much = rig.guys[0].holdfast.capacity().unwrap().allowable.unwrap();
    rig.load.mass *= 1.1 * holds_so_much / most;
    assert!(!holds(&rig) && stronger(&rig));
    rig.guys[0].holdfast_allowable = Some(10.0 * most);
    assert!(!holds(&rig) && !stronger(&rig));
}

/// A change that is made or not, and the least of a lever with it: wherever that is less than the lever alone.
#[test]
fn what_is_made_or_not_goes_with_the_least_of_a_lever() {
    let mut met = 0;
    for seed in 0..300 {
        let Some((rig, _)) = solvable(seed) else { continue };
        let found = proposals(&rig);
        for proposal in &found {
            let sum: f64 = proposal.changes.iter().map(effort).sum();
            assert!((sum - proposal.effort).abs() < 1e-6, "seed {seed}: {proposal:?}");
            let levers = proposal.changes.iter().filter_map(|change| match change {
                Change::Set { lever, .. } => Some(*lever),
                _ => None,
            });
            let levers: Vec<_> = levers.collect();
            assert!(levers.len() < 2 || levers[0] != levers[1], "seed {seed}: {proposal:?}");
        }
        if found.is_empty() {
            continue;
        }
        for whole in [Change::PinFeet, Change::HoldFeetDown] {
            let mut rig = rig.clone();
            let before = rig.clone();
            whole.apply(&mut rig);
            if rig == before || holds(&rig) {
                continue;
            }
            for (lever, pace, ways) in [LEAN, SPREAD, MASS] {
                let mut paces = 1..=40_u8;
                let tried = paces.find(|paces| {
                    let at = |way: &f64| moved(&rig, (lever, pace, ways), *way, f64::from(*paces));
                    ways.iter().any(|way| at(way).is_some_and(|rig| holds(&rig)))
                });
                let alone = found.iter().find(|proposal| {
                    matches!(proposal.changes[..], [Change::Set { lever: other, .. }] if other == lever)
                });
                let alone = alone.map_or(f64::INFINITY, |proposal| proposal.effort);
                let Some(tried) = tried.map(f64::from).filter(|tried| tried + 8.0 <= alone) else { continue };
                let with = found.iter().find(|proposal| {
                    matches!(proposal.changes[..], [first, Change::Set { lever: other, .. }]
                        if first == whole && other == lever)
                });
                let effort = with.map(|proposal| proposal.effort);
                assert!(
                    effort.is_some_and(|effort| tried + 7.0 - 1e-6 < effort && effort <= tried + 8.0),
                    "seed {seed}: {effort:?} for {tried} of {lever:?} and {whole:?}"
                );
                met += 1;
            }
        }
    }
    assert!(met > 5, "{met}");
}

/// A rig whose guy is anchored too near, and whose line is a little too weak: less load helps both, but a little of it
/// and a wider setback are less.
fn heavy(seed: u64) -> Rig {
    let draw = &mut Draw::new(seed);
    let mut rig = Rig::new(4.0, 1.2, draw.between(0.25, 0.4), draw.between(200.0, 300.0));
    rig.guys.push(Guy::to(Point::new(-draw.between(1.0, 1.5), 0.0, 0.0)));
    let solution = solve(&rig).unwrap();
    rig.guys[0].rope_allowable = Some(solution.forces().unwrap().guys[0].tension / draw.between(1.5, 1.8));
    let breaking = Some(10.0 * rig.load.tension() / draw.between(1.05, 1.15));
    rig.gear.line = Cordage { breaking, knot_efficiency: Some(1.0), ..Cordage::default() };
    rig.gear.factor = Some(10.0);
    rig
}

#[test]
fn the_least_of_two_is_found() {
    let pairs = [(LEAN, SPREAD), (LEAN, MASS), (SPREAD, MASS), (LEAN, SETBACK), (MASS, SETBACK)];
    let (mut met, mut none) = ([0; 5], 0);
    let random = (0..150).filter_map(|seed| Some((seed, solvable(seed)?.0)));
    let made = (0..40).flat_map(|seed| [(seed, short(seed)), (seed, heavy(seed))]);
    for (seed, rig) in random.chain(made) {
        if holds(&rig) {
            continue;
        }
        let found = proposals(&rig);
        let alone = |wanted: Lever| {
            found.iter().find_map(|proposal| match proposal.changes[..] {
                [Change::Set { lever, .. }] if lever == wanted => Some(proposal.effort),
                _ => None,
            })
        };
        for (place, (first, second)) in pairs.into_iter().enumerate() {
            let least = [first, second].into_iter().filter_map(|(lever, ..)| alone(lever));
            let least = least.fold(f64::INFINITY, f64::min);
            let both = found.iter().find_map(|proposal| match proposal.changes[..] {
                [Change::Set { lever: a, from, to }, Change::Set { lever: b, from: then_from, to: then }]
                    if (a, b) == (first.0, second.0) =>
                {
                    Some((proposal.effort, (to - from) / first.1, (then - then_from) / second.1))
                }
                _ => None,
            });
            // What saves less than a pace is not worth looking for.
            if let Some(tried) = fewest(&rig, first, second).filter(|tried| *tried < least - 1.0) {
                let effort = both.map(|(effort, ..)| effort);
                assert!(
                    effort.is_some_and(|effort| effort < tried + 1.0),
                    "seed {seed}: {effort:?} for {tried}"
                );
                met[place] += 1;
            }
            let Some((effort, one, other)) = both else {
                none += 1;
                continue;
            };
            assert!(effort <= least - 1.0 && (one.abs() + other.abs() - effort).abs() < 1e-6, "seed {seed}");
            assert!(
                (one - one.round()).abs() < 1e-6 && one.abs() < 16.5 && other.abs() < 16.5,
                "seed {seed}"
            );
            let with = moved(&rig, first, one.signum(), one.abs());
            let less = with.and_then(|rig| moved(&rig, second, other.signum(), other.abs() - 0.011));
            assert!(less.is_some_and(|rig| !holds(&rig)), "seed {seed}: {first:?} {one} {second:?} {other}");
        }
    }
    assert!(met[1] > 20 && met[3] > 2 && met[4] > 5 && none > 100, "{met:?} {none}");
}
