//! The displaced frame is in balance, and the rigid answer is the limit of stiff guys.

use super::{EVERY_LEAN, ropes};
use crate::force_scale;
use outlean_rig::{
    Force, LeanIs, Line, LineForces, Outcome, Path, Point, Rig, Role, Rope, STIFF_LEG, Side, Stretch,
    Stretched, Vector, shared, solve, solve_at, stretched,
};
use outlean_tests::random::random_rig;

/// A force and the moment that it has about the origin.
struct Wrench(Force, Vector);

impl Wrench {
    fn add(&mut self, force: Force, at: Point) {
        self.0 += force;
        self.1 += (at - Point::ORIGIN).cross(Vector::from_array(force.components()));
    }
}

/// Everything that acts on legs, head and what is tied to the feet, from outside.
fn from_outside(rig: &Rig, found: &Stretched) -> Wrench {
    let mut all = Wrench(Force::ZERO, Vector::ZERO);
    let paths = [Some(rig.line.path), rig.second.map(|second| second.line.path)];
    let lines = [Some(found.line), found.second];
    for (path, line) in paths.into_iter().zip(lines).filter_map(|(path, line)| path.zip(line)) {
        all.add(line.on_head(), found.head);
        match (path, line.redirect) {
            (Path::RedirectedAtFoot { foot, .. }, Some(pull)) => all.add(pull, *rig.feet.at.on(foot)),
            (Path::RedirectedOnLedger { .. }, Some(pull)) => {
                Side::BOTH.into_iter().for_each(|side| all.add(pull.scaled(0.5), *rig.feet.at.on(side)));
            }
            _ => {}
        }
    }
    for (guy, tension) in rig.guys.iter().zip(&found.tension) {
        all.add(Force::along((guy.anchor - found.head).normalize(), *tension), found.head);
    }
    for side in Side::BOTH {
        let (leg, foot) = (rig.legs.on(side), *rig.feet.at.on(side));
        let middle = foot + (found.head - foot) * (0.5 * leg.length / leg.working_length());
        all.add(Force::new(0.0, 0.0, -leg.weight()), middle);
        all.add(found.footing.feet.on(side).reaction, foot);
    }
    all
}

fn each_that_stands(mut with: impl FnMut(u64, &Rig, &Stretch, &Stretched)) -> [u32; 3] {
    EVERY_LEAN.map(|lean_is| {
        let mut stand = 0;
        for seed in 0..500 {
            let rig = random_rig(seed);
            let mut stretch = ropes(&rig, seed, lean_is);
            stretch.leg_stiffness = STIFF_LEG;
            match stretched(&rig, &stretch) {
                Ok(Outcome::Stands(found)) => {
                    stand += 1;
                    with(seed, &rig, &stretch, &found);
                }
                Ok(Outcome::RunsAway(multiple)) => assert!((0.0..=1.0).contains(&multiple), "seed {seed}"),
                Ok(Outcome::NothingHolds | Outcome::Tips(_)) | Err(_) => {}
            }
        }
        stand
    })
}

#[test]
fn ground_anchors_lines_and_weight_come_to_nothing_on_the_displaced_frame() {
    let stand = each_that_stands(|seed, rig, _, found| {
        let solution = solve(rig).unwrap();
        let Wrench(force, moment) = from_outside(rig, found);
        let compression = found.compression.left.abs().max(found.compression.right.abs());
        let scale = found.tension.iter().fold(force_scale(rig, &solution).max(compression), |a, b| a.max(*b));
        assert!(force.size() <= 1e-7 * scale, "seed {seed}: {} N of {scale}", force.size());
        assert!(moment.length() <= 1e-6 * scale, "seed {seed}: {} N m of {scale}", moment.length());
        // With nothing on the head and all guys slack it stands anywhere.
        assert!(found.stiffness > 0.0 || solution.resultant.force.size() == 0.0, "seed {seed}");
    });
    assert!(stand.into_iter().all(|stand| stand > 150), "{stand:?}");
}

#[test]
fn lines_legs_and_ropes_are_as_long_as_their_forces_say() {
    let stand = each_that_stands(|seed, rig, stretch, found| {
        let unloaded = solve(rig).unwrap();
        let hangs = |line: &LineForces, sling: f64| {
            let along = line.on_head().direction().unwrap_or(-Vector::Z);
            let off = (line.pulley - found.head - along * sling).length();
            assert!(off < 1e-9, "seed {seed}: the pulley is {off} m off its sling's line");
        };
        if !matches!(rig.line.path, Path::NotOverHead) {
            hangs(&found.line, rig.line.sling);
        }
        // The haul line is aimed at its point, with the tension that it has without stretch.
        if let Path::StraightBack { to } = rig.line.path {
            let off =
                found.line.haul - Force::along((to - found.line.pulley).normalize(), found.line.haul_tension);
            assert!(off.size() < 1e-9 * found.line.haul_tension.max(1.0), "seed {seed}");
            assert!((found.line.haul_tension - unloaded.line.haul_tension).abs() < 1e-9, "seed {seed}");
        }
        if rig.edge.is_none() {
            assert!((found.line.load - unloaded.line.load).size() < 1e-9, "seed {seed}");
        }
        for side in Side::BOTH {
            let (foot, length) = (*rig.feet.at.on(side), *unloaded.layout.working_length.on(side));
            assert!(((foot - found.head).length() - length).abs() < 1e-5, "seed {seed}: a leg");
        }
        if matches!(stretch.lean_is, LeanIs::Cut) {
            for (i, guy) in rig.guys.iter().enumerate().filter(|(_, guy)| guy.rigged) {
                // Hooke, from the lengths themselves.
                let (rope, tension) = (&stretch.ropes[i], found.tension[i]);
                let unstretched =
                    unloaded.guy_length[i] / (1.0 + guy.pretension / rope.stiffness) + rope.give;
                let strain = (guy.anchor - found.head).length() / unstretched - 1.0;
                let wanted = (rope.stiffness * strain).max(0.0);
                assert!(
                    (tension - wanted).abs() <= 1e-8 * rope.stiffness,
                    "seed {seed}: {tension} for {wanted}"
                );
            }
        }
    });
    assert!(stand.into_iter().all(|stand| stand > 150), "{stand:?}");
}

#[test]
fn the_rigid_answer_is_the_limit() {
    let mut held = 0;
    for seed in 0..1500 {
        let mut rig = random_rig(seed);
        let Ok(solution) = solve(&rig) else { continue };
        let Some(number) = solution.forces().and_then(|forces| forces.working_guy) else { continue };
        // The guy that works, alone; others would share.
        for (i, guy) in (0_u8..).zip(&mut rig.guys) {
            guy.pretension = 0.0;
            guy.rigged = i == number;
        }
        let Ok(solution) = solve(&rig) else { continue };
        let Some(forces) = solution.forces() else { continue };
        let arm = solution.guy_arm[usize::from(number)].abs() / solution.layout.slant_height;
        if arm < 0.05 {
            continue;
        }
        for lean_is in EVERY_LEAN {
            let ropes = rig.guys.iter().map(|_| Rope { stiffness: 1e15, give: 0.0 }).collect();
            let stretch = Stretch { leg_stiffness: 1e15, ropes, lean_is };
            let outcome = stretched(&rig, &stretch).unwrap();
            let weighs = rig.legs.left.weight_per_metre > 0.0 && !matches!(lean_is, LeanIs::UnderLoad);
            if weighs && matches!(outcome, Outcome::NothingHolds) {
                // Unloaded, its weight goes the other way, where it has no guy.
                continue;
            }
            let Outcome::Stands(found) = outcome else { panic!("seed {seed} {lean_is:?}: {outcome:?}") };
            let scale = force_scale(&rig, &solution);
            let mut off = (found.compression.left - forces.compression.left).abs();
            off = off.max((found.compression.right - forces.compression.right).abs());
            for (tension, guy) in found.tension.iter().zip(&forces.guys) {
                off = off.max((tension - guy.tension).abs());
            }
            for side in Side::BOTH {
                let (a, b) = (found.footing.feet.on(side), forces.footing.feet.on(side));
                off = off.max((a.reaction - b.reaction).size());
            }
            assert!(
                off <= 1e-9 * scale / (arm * arm),
                "seed {seed} {lean_is:?}: {off} N of {scale}, arm {arm}"
            );
        }
        // And what guys share on rigid legs is what the one guy has.
        let one = shared(&rig, &super::alike(&rig, 5e4, LeanIs::Cut)).unwrap();
        let outlean_rig::Balance::Stands(one) = one.balance else { panic!("seed {seed}") };
        for (a, b) in one.guys.iter().zip(&forces.guys) {
            assert!((a.tension - b.tension).abs() <= 1e-9 * force_scale(&rig, &solution), "seed {seed}");
            assert!(a.role == b.role || b.role == Role::NotRigged, "seed {seed}");
        }
        held += 1;
    }
    assert!(held > 400, "{held}");
}

/// A little more load this way or that, over how far the head goes by it, is the stiffness that is reported. On
/// legs that hardly give the softest way is square to the frame.
#[test]
fn the_least_stiffness_is_force_over_displacement() {
    for sling in [0.0, 0.4] {
        let mut rig = super::hung(0.3, 275.0);
        rig.line = Line { sling, ..Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) }) };
        let stretch = super::alike(&rig, 50_000.0, LeanIs::SetBefore);
        let there = super::standing(&rig, &stretch);
        let turned = |by: f64| {
            let mut rig = rig.clone();
            rig.load.outward_angle = by;
            let pull = solve_at(&rig, there.lean).unwrap().line.on_head();
            (super::standing(&rig, &stretch).head, pull)
        };
        let ((ahead, more), (behind, less)) = (turned(1e-5), turned(-1e-5));
        let normal = solve_at(&rig, there.lean).unwrap().layout.normal;
        let stiffness = (more - less).component(normal) / (ahead - behind).dot(normal);
        assert!(
            (stiffness / there.stiffness - 1.0).abs() < 1e-4,
            "{sling}: {stiffness} for {}",
            there.stiffness
        );
    }
}
