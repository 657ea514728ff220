//! Guys that stretch: whatever the rig, an answer or an error, and a head in balance.

use outlean_rig::{Outcome, Rope, STIFF_LEG, Stretch, stretched};
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
fn what_is_no_rope_is_refused() {
    let mut rig = outlean_rig::Rig::new(4.0, 1.2, 0.3, 200.0);
    rig.guys.push(outlean_rig::Guy::to(outlean_rig::Point::new(-6.0, 0.0, 0.0)));
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
    rig.guys.push(outlean_rig::Guy::to(outlean_rig::Point::new(-6.0, 0.0, 0.0)));
    rig.guys.push(outlean_rig::Guy::to(outlean_rig::Point::new(6.0, 0.0, 0.0)));
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
