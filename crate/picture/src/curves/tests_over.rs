//! What holds of curves over another lever than the lean, of any rig.

use super::sample::LOOKS;
use super::tests::{SIZES, drawn, options, over, straight_back, words};
use super::*;
use outlean_rig::{Lever, Limit, Line, solve, sweep};
use outlean_rigfile::{DEG, FT, Units};

const LEVERS: [Lever; 3] = [Lever::Setback(0), Lever::Spread, Lever::HaulDirection];

#[test]
fn every_point_is_what_the_sweep_of_the_core_says_and_so_is_where_everything_holds() {
    let (mut points, mut held, mut past, mut missed) = (0, 0, 0, 0);
    for seed in 0..60 {
        let rig = drawn(seed);
        for lever in LEVERS {
            let Some(curves) = over(&rig, lever) else {
                assert_eq!(lever.get(&rig), None, "{seed} {lever:?}");
                continue;
            };
            for series in curves.legs.series.iter().chain(&curves.guys.series) {
                let samples = || series.pieces.iter().flatten();
                let swept = sweep(&rig, lever, samples().map(|sample| sample.at));
                for (sample, swept) in samples().zip(swept) {
                    let value = series.quantity.of(&swept.outcome.unwrap().0).unwrap();
                    let apart = (value - sample.value).abs();
                    assert!(apart <= 1e-6 + 1e-9 * value.abs(), "{seed} {lever:?} {sample:?} {value}");
                    points += 1;
                }
            }
            let values =
                (0..50).map(|i| curves.from + (curves.to - curves.from) * (f64::from(i) + 0.31) / 50.0);
            let near = |at: f64| {
                let ends = curves.ranges.iter().flat_map(|range| [range.from, range.to]);
                ends.into_iter().any(|end| (end - at).abs() < 2e-4 * (curves.to - curves.from))
            };
            for swept in sweep(&rig, lever, values.filter(|at| !near(*at))) {
                let holds = swept.outcome.is_ok_and(|(_, governing)| governing.holds());
                if curves.holds(swept.value) != holds {
                    // Only what is narrower than two looks are apart may be missed.
                    let apart = LOOKS * (curves.to - curves.from);
                    let around = sweep(&rig, lever, [swept.value - apart, swept.value + apart]);
                    let alike = |swept: &outlean_rig::Swept| {
                        swept.outcome.as_ref().is_ok_and(|(_, governing)| governing.holds()) == holds
                    };
                    assert!(
                        !around.into_iter().any(|swept| alike(&swept)),
                        "{seed} {lever:?} at {}",
                        swept.value
                    );
                    missed += 1;
                }
                if holds { held += 1 } else { past += 1 }
            }
        }
    }
    assert!(points > 10_000 && held > 300 && past > 300 && missed < 5, "{points} {held} {past} {missed}");
}

#[test]
fn what_is_swept_makes_no_difference_and_the_lean_does() {
    let rig = straight_back();
    for (lever, value) in [(Lever::Setback(0), 8.5), (Lever::Spread, 2.2)] {
        let mut elsewhere = rig.clone();
        lever.set(&mut elsewhere, value);
        let (here, there) = (over(&rig, lever).unwrap(), over(&elsewhere, lever).unwrap());
        assert_eq!(here, there, "{lever:?}");
        elsewhere.lean += 0.1;
        assert_ne!(over(&elsewhere, lever), Some(here));
    }
}

#[test]
fn ends_of_what_holds_are_named_and_those_of_the_picture_are_not() {
    let mut rig = straight_back();
    rig.lean = 50.0 * DEG;
    let curves = over(&rig, Lever::Setback(0)).unwrap();
    let [range] = curves.ranges[..] else { panic!("{:?}", curves.ranges) };
    // Nearer than that the aft guy carries too much; farther off it only carries less.
    assert!(range.from > curves.from && matches!(range.from_limit, Limit::Part(_)), "{range:?}");
    assert!(range.to >= curves.to && range.to_limit == Limit::NotLookedFurther, "{range:?}");
    assert!(curves.balance.is_empty());
    let chart = Chart::new(curves, options(358.0, 400.0, 1.0, Panels::Both), &words());
    assert_eq!(chart.plan.stops(&chart.curves).len(), 1);
}

#[test]
fn a_hung_load_has_no_haul_direction() {
    let mut rig = straight_back();
    assert!(over(&rig, Lever::HaulDirection).is_some());
    rig.line = Line::hung();
    assert_eq!(over(&rig, Lever::HaulDirection), None);
    rig.guys.clear();
    assert_eq!(over(&rig, Lever::Setback(0)), None);
}

#[test]
fn lettering_meets_nothing_and_the_rule_is_numbered_over_every_lever() {
    let words = words();
    for seed in 0..60 {
        let rig = drawn(seed);
        let solution = solve(&rig).ok();
        for lever in LEVERS {
            let Some(curves) = over(&rig, lever) else { continue };
            for (width, height, k, panels) in SIZES {
                for units in [Units::Metric, Units::Us] {
                    let options = Options { units, ..options(width, height, k, panels) };
                    let chart = Chart::new(curves.clone(), options, &words);
                    for (i, label) in chart.labels.iter().enumerate() {
                        assert!(chart.plan.all.holds(label.area), "{seed} {lever:?} {k}: {label:?}");
                        for other in &chart.labels[..i] {
                            assert!(
                                !label.area.meets(other.area),
                                "{seed} {lever:?} {k}: {label:?} on {other:?}"
                            );
                        }
                    }
                    let unit = match (lever, units) {
                        (Lever::HaulDirection, _) => "°",
                        (_, Units::Metric) => "\u{2009}m",
                        (_, Units::Us) => "\u{2009}ft",
                    };
                    let under = chart.labels.iter().filter(|label| label.baseline > chart.plan.rule);
                    let mut numbers = 0;
                    for label in under {
                        // A number stands where it says.
                        let text = label.text.replace('−', "-");
                        let number: f64 = text.strip_suffix(unit).unwrap().parse().unwrap();
                        let size = match unit {
                            "°" => DEG,
                            "\u{2009}ft" => FT,
                            _ => 1.0,
                        };
                        assert!((label.x - chart.x_at(number * size)).abs() < 1e-6, "{label:?}");
                        numbers += 1;
                    }
                    assert!(numbers >= 3, "{seed} {lever:?} {k} {units:?}: {numbers} numbers");
                    let Some(solution) = &solution else { continue };
                    let scene = chart.cursor(&rig, solution, Grip::Rest);
                    let x = chart.x_at(lever.get(&rig).unwrap());
                    let on = scene.items.iter().any(
                        |item| matches!(&item.shape, crate::Shape::Circle { x: at, .. } if (at - x).abs() < 1e-6),
                    );
                    assert!(
                        on || solution.tips().is_some() || panels == Panels::RuleAlone || has_no_dot(&scene)
                    );
                }
            }
        }
    }
}

/// Values off the panel have a head instead of a dot; slack guys have nothing.
fn has_no_dot(scene: &Scene) -> bool {
    !scene.items.iter().any(|item| matches!(item.shape, crate::Shape::Circle { .. }))
}

#[test]
fn while_a_prediction_is_open_no_lever_tells_the_answer() {
    let (rig, words) = (straight_back(), words());
    let mut heavier = rig.clone();
    heavier.load.mass *= 1.7;
    let solution = solve(&rig).unwrap();
    for lever in LEVERS {
        let veiled = |rig: &Rig| {
            let options = Options { revealed: false, ..options(358.0, 400.0, 1.0, Panels::Both) };
            Chart::new(over(rig, lever).unwrap(), options, &words).svg(rig, &solution, &Inks::LIGHT, "t", "")
        };
        assert!(veiled(&rig) == veiled(&heavier), "{lever:?}");
    }
}
