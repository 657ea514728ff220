//! Guys that stretch: whatever the rig, an answer or an error, and a head in balance.

use outlean_rig::{Force, Outcome, Path, Point, Rope, STIFF_LEG, Side, Stretch, solve, stretched};
use outlean_tests::random::random_rig;

/// Ropes for the guys of a rig, from soft to hard, some with give.
fn ropes(rig: &outlean_rig::Rig, seed: u64) -> Stretch {
    let rope = |i: usize| Rope {
        stiffness: 5_000.0 * f64::from(1_u32 << ((seed as usize + i) % 9)),
        give: 0.01 * ((seed as usize + 2 * i) % 4) as f64,
    };
    Stretch { leg_stiffness: STIFF_LEG, ropes: (0..rig.guys.len()).map(rope).collect() }
}

#[test]
fn every_rig_has_an_answer_and_only_finite_numbers() {
    let (mut stand, mut go) = (0, 0);
    for seed in 0..400 {
        let rig = random_rig(seed);
        let stretch = ropes(&rig, seed);
        match stretched(&rig, &stretch) {
            Ok(Outcome::Stands(found)) => {
                stand += 1;
                assert!(found.lean.is_finite() && found.margin >= 1.0 - 1e-9, "seed {seed}: {found:?}");
                assert!(
                    found.tension.iter().all(|tension| (0.0..f64::INFINITY).contains(tension)),
                    "seed {seed}"
                );
                assert!(
                    found.compression.left.is_finite() && found.compression.right.is_finite(),
                    "seed {seed}"
                );
            }
            Ok(Outcome::RunsAway(multiple)) => {
                go += 1;
                assert!((0.0..=1.0).contains(&multiple), "seed {seed}: {multiple}");
            }
            Ok(Outcome::NothingHolds) | Err(_) => {}
        }
    }
    assert!(stand > 50 && go > 5, "{stand} stand, {go} run away");
}

#[test]
fn the_displaced_head_is_in_balance() {
    let mut balanced = 0;
    for seed in 0..400 {
        let mut rig = random_rig(seed);
        rig.line.sling = 0.0;
        (rig.second, rig.edge) = (None, None);
        let stretch = ropes(&rig, seed);
        let (Ok(Outcome::Stands(found)), Ok(unloaded)) = (stretched(&rig, &stretch), solve(&rig)) else {
            continue;
        };
        let toward = |to: Point| (to - found.head).normalize();
        let mut left = unloaded.line.load;
        let weight: f64 = Side::BOTH.iter().map(|side| rig.legs.on(*side).weight_at_head()).sum();
        left += Force::new(0.0, 0.0, -weight);
        let next = match rig.line.path {
            Path::RedirectedAtFoot { foot, .. } => Some(*rig.feet.at.on(foot)),
            Path::RedirectedMidBase { .. } | Path::RedirectedOnLedger { .. } => {
                Some(unloaded.layout.mid_base)
            }
            path => path.haul_point(),
        };
        if let Some(next) = next {
            left += Force::along(toward(next), unloaded.line.haul_tension);
        }
        let mut scale = left.size();
        for side in Side::BOTH {
            let (foot, push) = (*rig.feet.at.on(side), *found.compression.on(side));
            left += Force::along(toward(foot), -push);
            scale = scale.max(push.abs());
            // As long as the push says it is.
            let length = *unloaded.layout.working_length.on(side);
            let shorter = length - (foot - found.head).length();
            assert!(
                (shorter - push * length / STIFF_LEG).abs() < 1e-9 * length,
                "seed {seed}: leg {shorter}"
            );
        }
        for (i, guy) in rig.guys.iter().enumerate().filter(|(_, guy)| guy.rigged) {
            let (rope, tension) = (&stretch.ropes[i], found.tension[i]);
            left += Force::along(toward(guy.anchor), tension);
            scale = scale.max(tension);
            // Hooke, from the lengths themselves.
            let set = unloaded.guy_length[i];
            let unstretched = set / (1.0 + guy.pretension / rope.stiffness) + rope.give;
            let stretch = (guy.anchor - found.head).length() / unstretched - 1.0;
            let wanted = (rope.stiffness * stretch).max(0.0);
            assert!((tension - wanted).abs() <= 1e-6 * scale, "seed {seed}: guy {i} {tension} for {wanted}");
        }
        assert!(left.size() <= 1e-6 * scale, "seed {seed}: {} of {scale} N left", left.size());
        balanced += 1;
    }
    assert!(balanced > 50, "{balanced}");
}

#[test]
fn what_is_no_rope_is_refused() {
    let mut rig = outlean_rig::Rig::new(4.0, 1.2, 0.3, 200.0);
    rig.guys.push(outlean_rig::Guy::to(Point::new(-6.0, 0.0, 0.0)));
    for stiffness in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let stretch = Stretch {
            leg_stiffness: STIFF_LEG,
            ropes: [Rope { stiffness, give: 0.0 }].into_iter().collect(),
        };
        assert!(stretched(&rig, &stretch).is_err(), "{stiffness}");
    }
    let none = Stretch { leg_stiffness: STIFF_LEG, ropes: std::iter::empty().collect() };
    assert!(stretched(&rig, &none).is_err());
}

#[test]
fn a_pretension_against_the_fore_guy_keeps_the_head_back() {
    let mut rig = outlean_rig::Rig::new(4.0, 1.2, 0.35, 270.0);
    rig.guys.push(outlean_rig::Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.guys.push(outlean_rig::Guy::to(Point::new(6.0, 0.0, 0.0)));
    let lean = |aft: f64, fore: f64| {
        let mut rig = rig.clone();
        (rig.guys[0].pretension, rig.guys[1].pretension) = (aft, fore);
        let ropes = [Rope { stiffness: 66_700.0, give: 0.0 }; 2].into_iter().collect();
        match stretched(&rig, &Stretch { leg_stiffness: STIFF_LEG, ropes }).unwrap() {
            Outcome::Stands(found) => found.lean,
            other => panic!("{other:?}"),
        }
    };
    assert!(lean(400.0, 250.0) < lean(0.0, 0.0) - 0.003, "{} {}", lean(400.0, 250.0), lean(0.0, 0.0));
}

/// The lean and the margin of a frame that stands.
fn standing(rig: &outlean_rig::Rig, ropes: &[Rope]) -> (f64, f64) {
    match stretched(rig, &Stretch { leg_stiffness: STIFF_LEG, ropes: ropes.iter().copied().collect() })
        .unwrap()
    {
        Outcome::Stands(found) => (found.lean, found.margin),
        other => panic!("{other:?}"),
    }
}

#[test]
fn legs_with_weight_stand_on_a_guy_without_pretension() {
    let mut rig = outlean_rig::Rig::new(4.0, 4.0 / 3.0, 0.26, 275.0);
    rig.legs.left.weight_per_metre = 80.0;
    rig.legs.right.weight_per_metre = 80.0;
    rig.guys.push(outlean_rig::Guy::to(Point::new(-5.7, 0.0, 0.0)));
    let rope = Rope { stiffness: 133_000.0, give: 0.0 };
    let slack = standing(&rig, &[rope]);
    rig.guys[0].pretension = 1.0;
    let taut = standing(&rig, &[rope]);
    assert!(
        (slack.0 - taut.0).abs() < 1e-3 && (slack.1 - taut.1).abs() < 0.01 * taut.1,
        "{slack:?} {taut:?}"
    );
}

#[test]
fn a_rig_turned_about_the_vertical_answers_the_same() {
    let turned = |degrees: f64| {
        let (sine, cosine) = (libm::sin(degrees.to_radians()), libm::cos(degrees.to_radians()));
        let turn = |x: f64, y: f64| Point::new(cosine * x - sine * y, sine * x + cosine * y, 0.0);
        let mut rig = outlean_rig::Rig::new(4.0, 4.0 / 3.0, 0.314, 275.0);
        rig.feet.at = outlean_rig::Pair::new(turn(0.0, 2.0 / 3.0), turn(0.0, -2.0 / 3.0));
        rig.guys.push(outlean_rig::Guy::to(turn(-5.6, 0.0)));
        standing(&rig, &[Rope { stiffness: 66_700.0, give: 0.0 }])
    };
    let square = turned(0.0);
    for degrees in [45.0, 90.0, 135.0, 180.0, 270.0] {
        let (lean, margin) = turned(degrees);
        assert!(
            (lean - square.0).abs() < 1e-6 && (margin - square.1).abs() < 1e-4,
            "{degrees}: {lean} {margin}"
        );
    }
}
