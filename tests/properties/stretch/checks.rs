//! Checks of frames on guys that stretch: every number of them follows from what is put down beside it.

use super::{alike, hung};
use outlean_rig::strength::{CheckRule, Source, Symbol, Worked};
use outlean_rig::{
    EXTRA_LEAN, LeanIs, Outcome, StretchCheck, least_share, margin, solve, stretch_checks, stretched,
};
use outlean_tests::by_hand::least_stiffness;
use outlean_tests::random::random_rig;

fn noted(worked: &Worked, symbol: Symbol) -> Option<f64> {
    worked.iter().find(|value| value.symbol == symbol).map(|value| value.value)
}

#[test]
fn every_check_says_how_it_was_found() {
    let mut seen = [0; 2];
    for seed in 0..150 {
        let rig = random_rig(seed);
        for lean_is in super::EVERY_LEAN {
            let stretch = super::ropes(&rig, seed, lean_is);
            let Ok(checks) = stretch_checks(&rig, &stretch, 2.5) else { continue };
            let at = margin(&rig, &stretch).unwrap();
            for check in &checks {
                let worked = |symbol| noted(&check.worked, symbol);
                assert_eq!(check.rule.source().source, Source::OurChoice);
                match check.check {
                    StretchCheck::Stability => {
                        assert_eq!(
                            (check.rule, worked(Symbol::MarginWanted)),
                            (CheckRule::RunAway, Some(2.5))
                        );
                        let ropes = check.worked.iter().filter(|value| value.symbol == Symbol::RopeStiffness);
                        assert_eq!(ropes.count(), rig.guys.iter().filter(|guy| guy.rigged).count());
                        let multiple = at.map(|at| at.multiple).filter(|multiple| multiple.is_finite());
                        assert_eq!(worked(Symbol::Multiple), multiple, "seed {seed}");
                        if let Some(multiple) = multiple {
                            let load = worked(Symbol::WholeLoad).unwrap();
                            assert_eq!(worked(Symbol::RunAwayLoad), Some(load * multiple));
                            assert!((check.ratio - 2.5 / multiple).abs() <= 1e-12 * check.ratio);
                            seen[0] += 1;
                        }
                        let share = least_share(&rig, &stretch).unwrap().filter(|share| share.is_finite());
                        assert_eq!(worked(Symbol::LeastShare), share);
                    }
                    StretchCheck::ExtraLean => {
                        let Ok(Outcome::Stands(found)) = stretched(&rig, &stretch) else {
                            panic!("seed {seed}")
                        };
                        let [set, loaded] =
                            [Symbol::SetLean, Symbol::LoadedLean].map(|symbol| worked(symbol).unwrap());
                        assert_eq!((Some(set), loaded), (found.set_lean, found.lean));
                        assert_eq!(worked(Symbol::LeanChange), Some((loaded - set).abs()));
                        assert_eq!(worked(Symbol::LeanAllowed), Some(EXTRA_LEAN));
                        assert_eq!((check.rule, check.demand), (CheckRule::ExtraLean, (loaded - set).abs()));
                        seen[1] += 1;
                    }
                }
            }
        }
    }
    assert!(seen.iter().all(|seen| *seen > 100), "{seen:?}");
}

/// By hand from the values of the check: the closed form of the least stiffness, of a load hung on one aft guy.
#[test]
fn the_closed_form_can_be_worked_out_from_what_is_put_down() {
    for lean in [0.2, 0.35, 0.5] {
        let mut rig = hung(lean, 250.0);
        rig.guys.pop();
        let stretch = alike(&rig, 133_000.0, LeanIs::UnderLoad);
        let checks = stretch_checks(&rig, &stretch, 3.0).unwrap();
        let of = |symbol| noted(&checks[0].worked, symbol).unwrap();
        let layout = solve(&rig).unwrap().layout;
        let least = least_stiffness(
            of(Symbol::WholeLoad),
            of(Symbol::RopeLength),
            of(Symbol::RopeArm),
            layout.slant_height,
            layout.head_height(),
        );
        let share = of(Symbol::LeastShare) * of(Symbol::RopeStiffness) / least;
        assert!((share - 1.0).abs() < 1e-5, "{share}");
    }
}
