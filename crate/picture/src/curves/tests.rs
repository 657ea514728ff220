//! What holds of the curves of any rig, tried on a few hundred.

use super::*;
use crate::{Item, Kind, Path, Role, Shape};
use outlean_rig::{
    Guy, Leg, Lever, Line, Pair, Path as LinePath, Point, Quantity, Rig, Scatter, Side, leans_where,
    solve_at, working_range,
};
use outlean_rigfile::{DEG, Units};

/// The words as shipped.
pub(super) fn words() -> Words {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/curves.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn guy(x: f64, holdfast: Option<f64>) -> Guy {
    Guy { holdfast_allowable: holdfast, ..Guy::to(Point::new(x, 0.0, 0.0)) }
}

/// Real poles, two guys, a line straight back: the guys change over at the balance lean.
pub(super) fn straight_back() -> Rig {
    let mut rig = Rig::new(4.0, 1.4, 0.3, 240.0);
    rig.legs = Pair::both(Leg::of(4.4, 0.4, 50.0));
    rig.line = Line::along(LinePath::StraightBack { to: Point::new(-9.0, 0.0, 0.4) });
    rig.guys.extend([guy(-6.0, Some(4000.0)), guy(6.5, Some(3000.0))]);
    rig
}

/// A rig of a seeded draw, of any of the paths, most of them sensible.
pub(super) fn drawn(seed: u64) -> Rig {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x2545_f491_4f6c_dd1d;
    let mut next = |from: f64, to: f64| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        from + (to - from) * ((state >> 11) as f64 / (1_u64 << 53) as f64)
    };
    let length = next(2.5, 6.0);
    let mut rig = Rig::new(length, next(0.2, 0.5) * length, next(0.0, 50.0) * DEG, next(20.0, 900.0));
    let weight = next(0.0, 80.0);
    rig.legs = Pair::both(Leg::of(length + 0.4, 0.4, weight));
    let to = Point::new(next(-15.0, -4.0), next(-3.0, 3.0), next(0.0, 1.5));
    let foot = if next(0.0, 1.0) < 0.5 { Side::Left } else { Side::Right };
    rig.line = Line::along(match next(0.0, 6.0) as u32 {
        0 => LinePath::Hung,
        1 => LinePath::StraightBack { to },
        2 => LinePath::RedirectedAtFoot { foot, to },
        3 => LinePath::RedirectedMidBase { to },
        4 => LinePath::OverTheFront { to: Point::new(12.0, 0.0, -4.0) },
        _ => LinePath::TackleAtHead { parts: 3, to },
    });
    rig.line.pulley_efficiency = next(0.7, 1.0);
    rig.line.sling = next(0.0, 0.5);
    let share = |value: f64| (value < 9000.0).then_some(value);
    for _ in 0..(next(0.0, 4.0) as u32) {
        let mut one = guy(0.0, share(next(500.0, 14_000.0)));
        one.anchor = Point::new(next(-12.0, -2.0), next(-2.0, 2.0), 0.0);
        one.rope_allowable = share(next(2000.0, 20_000.0));
        rig.guys.push(one);
    }
    if next(0.0, 1.0) < 0.6 {
        rig.guys.push(guy(next(2.0, 9.0), share(next(500.0, 14_000.0))));
    }
    rig.limits.upright_stop = (next(0.0, 1.0) < 0.5).then_some(10.0 * DEG);
    rig.load.side_angle = if next(0.0, 1.0) < 0.3 { next(-8.0, 8.0) * DEG } else { 0.0 };
    rig.feet.held_down = next(0.0, 1.0) < 0.5;
    rig
}

pub(super) fn over(rig: &Rig, lever: Lever) -> Option<Curves> {
    Curves::of(rig, &working_range(rig).unwrap(), lever).unwrap()
}

fn sampled(rig: &Rig) -> Curves {
    over(rig, Lever::Lean).unwrap()
}

pub(super) fn options(width: f64, height: f64, k: f64, panels: Panels) -> Options {
    Options { width, height, k, units: Units::Metric, panels, revealed: true }
}

pub(super) const SIZES: [(f64, f64, f64, Panels); 5] = [
    (358.0, 400.0, 1.0, Panels::Both),
    (324.0, 180.0, 0.85, Panels::Only(PanelKind::Guys)),
    (288.0, 180.0, 0.85, Panels::Only(PanelKind::Legs)),
    (900.0, 900.0, 2.1, Panels::Only(PanelKind::Guys)),
    (358.0, 60.0, 1.0, Panels::RuleAlone),
];

#[test]
fn every_point_is_what_the_core_says_and_nothing_is_left_out() {
    for seed in 0..100 {
        let rig = drawn(seed);
        let curves = sampled(&rig);
        for series in curves.legs.series.iter().chain(&curves.guys.series) {
            for piece in &series.pieces {
                assert!(piece.len() > 1 && piece.windows(2).all(|p| p[0].at < p[1].at), "{seed}");
                for sample in piece {
                    let value = series.quantity.of(&solve_at(&rig, sample.at).unwrap());
                    assert_eq!(value, Some(sample.value), "{seed}");
                }
            }
        }
        // Between the points, and where there are none.
        for i in 0..200 {
            let lean = curves.from + (curves.to - curves.from) * (f64::from(i) + 0.37) / 200.0;
            let Some(solution) = solve_at(&rig, lean).ok().filter(|s| s.tips().is_none()) else {
                let drawn = curves.legs.series.iter().flat_map(|s| &s.pieces);
                for piece in drawn {
                    let (a, b) = (piece[0].at, piece[piece.len() - 1].at);
                    assert!(lean <= a + 1e-4 || lean >= b - 1e-4, "{seed}: a line where it tips");
                }
                continue;
            };
            for (number, _) in (0..).zip(&rig.guys) {
                let quantity = Quantity::GuyTension(number);
                let value = quantity.of(&solution).unwrap();
                let line = curves.guys.series.iter().find(|s| s.quantity == quantity);
                let at = line.and_then(|line| {
                    line.pieces.iter().flat_map(|p| p.windows(2)).find_map(|pair| {
                        let share = (lean - pair[0].at) / (pair[1].at - pair[0].at);
                        (0.0..=1.0)
                            .contains(&share)
                            .then(|| pair[0].value + share * (pair[1].value - pair[0].value))
                    })
                });
                match at {
                    // A half degree of a smooth curve, unless the guy is about to lose its arm.
                    Some(at) => {
                        assert!((at - value).abs() <= 2.0 + 0.02 * value.abs(), "{seed} {at} {value}")
                    }
                    None => assert!(value <= 0.0, "{seed}: guy {number} carries {value} unseen at {lean}"),
                }
            }
        }
    }
}

#[test]
fn the_leans_shown_hold_upright_sixty_degrees_and_the_working_range() {
    for seed in 0..100 {
        let rig = drawn(seed);
        let curves = sampled(&rig);
        assert!(curves.from <= 0.0 && curves.to >= 60.0 * DEG - 1e-9, "{seed}");
        for range in &curves.ranges {
            let open = outlean_rig::Limit::NotLookedFurther;
            assert!(range.from_limit == open || curves.from <= range.from, "{seed}");
            assert!(range.to_limit == open || curves.to >= range.to, "{seed}");
        }
        let elsewhere = Rig { lean: rig.lean + 0.1, ..rig };
        assert_eq!(sampled(&elsewhere), curves, "{seed}: the curves follow the lean");
    }
}

#[test]
fn the_guys_change_over_at_the_balance_lean() {
    let rig = straight_back();
    let curves = sampled(&rig);
    let balance = leans_where(&rig, Quantity::TippingMoment, 0.0).unwrap()[0];
    assert_eq!(curves.balance, [balance]);
    let [aft, fore] = &curves.guys.series[..] else { panic!("two guys") };
    let (aft, fore) = (&aft.pieces[0], &fore.pieces[0]);
    assert!((aft[0].at - balance).abs() < 1e-4 && aft[0].value < 1.0);
    assert!((fore[fore.len() - 1].at - balance).abs() < 1e-4 && fore[fore.len() - 1].value < 1.0);
}

#[test]
fn two_legs_alike_are_one_line() {
    assert_eq!(sampled(&straight_back()).legs.series.len(), 1);
    let mut redirected = straight_back();
    redirected.line =
        Line::along(LinePath::RedirectedAtFoot { foot: Side::Left, to: Point::new(-9.0, 2.0, 0.4) });
    assert_eq!(sampled(&redirected).legs.series.len(), 2);
}

#[test]
fn lettering_in_other_languages_meets_nothing() {
    for (language, words) in crate::sample::in_other_languages("curves") {
        for seed in 0..40 {
            for (width, k) in [(288.0, 0.85), (358.0, 1.0), (700.0, 2.1)] {
                let curves = sampled(&drawn(seed));
                let chart = Chart::new(curves, options(width, 400.0, k, Panels::Both), &words);
                for (i, label) in chart.labels.iter().enumerate() {
                    for other in &chart.labels[..i] {
                        assert!(!label.area.meets(other.area), "{language} {seed}: {label:?} on {other:?}");
                    }
                }
            }
        }
    }
}

#[test]
fn lettering_never_meets_lettering_nor_leaves_the_picture() {
    let words = words();
    let (mut wanted, mut named) = (0, 0);
    for seed in 0..200 {
        let curves = sampled(&drawn(seed));
        for (width, height, k, panels) in SIZES {
            let chart = Chart::new(curves.clone(), options(width, height, k, panels), &words);
            for (i, label) in chart.labels.iter().enumerate() {
                assert!(chart.plan.all.holds(label.area), "{seed} {k}: {label:?}");
                for other in &chart.labels[..i] {
                    assert!(!label.area.meets(other.area), "{seed} {k}: {label:?} on {other:?}");
                }
            }
            if k < 2.0 {
                for plot in &chart.plan.plots {
                    for series in &chart.curves.panel(plot.kind).series {
                        let name = label::name(&chart.curves, series.quantity, &words);
                        wanted += 1;
                        named += u32::from(chart.labels.iter().any(|label| label.text == name));
                    }
                }
            }
        }
    }
    // A name for which there is no seat is left out; the readings have it. That must stay rare.
    assert!(f64::from(named) > 0.95 * f64::from(wanted), "{named} of {wanted} lines are named");
}

#[test]
fn values_at_the_cursor_meet_nothing() {
    let words = words();
    let (mut met, mut said) = (0, 0);
    for seed in 0..60 {
        let rig = drawn(seed);
        let curves = sampled(&rig);
        for (width, height, k, panels) in SIZES {
            let chart = Chart::new(curves.clone(), options(width, height, k, panels), &words);
            for i in 0..12 {
                let lean = curves.from + (curves.to - curves.from) * f64::from(i) / 11.0;
                let Ok(solution) = solve_at(&rig, lean) else { continue };
                let scene = chart.cursor(&rig, &solution, Grip::Rest);
                let mut areas: Vec<_> = chart.labels.iter().map(|label| label.area).collect();
                for item in &scene.items {
                    let Role::Text(lettering, tone) = item.role else {
                        met += u32::from(matches!(item.role, Role::Dot(_)));
                        continue;
                    };
                    let Shape::Text { x, y, text, anchor } = &item.shape else { panic!("lettering") };
                    let label = Label::new(text.clone(), (*x, *y), *anchor, (lettering, tone), chart.plan.k);
                    assert!(chart.plan.all.holds(label.area), "{seed} {label:?}");
                    assert!(!areas.iter().any(|area| area.meets(label.area)), "{seed} {lean} {label:?}");
                    areas.push(label.area);
                    said += 1;
                }
            }
        }
    }
    // Two lines that cross leave no seat for both values; the readings have them.
    assert!(met > 1000 && f64::from(said) > 0.93 * f64::from(met), "{said} values at {met} dots");
}

#[test]
fn leans_and_places_map_to_one_another() {
    let chart = Chart::new(sampled(&straight_back()), options(358.0, 400.0, 1.0, Panels::Both), &words());
    for degrees in 0..=60 {
        let lean = f64::from(degrees) * DEG;
        assert!((chart.value_at(chart.x_at(lean)) - lean).abs() < 1e-12);
    }
    let ends = (chart.value_at(-1e9), chart.value_at(1e9));
    assert_eq!(ends, (chart.curves.from, chart.curves.to));
    let x = chart.x_at(0.4);
    assert!(chart.takes_hold((x + 10.0, 100.0), 0.4) && !chart.takes_hold((x + 40.0, 100.0), 0.4));
    assert!(chart.takes_hold((x + 40.0, chart.plan.rule + 5.0), 0.4));
}

#[test]
fn while_a_prediction_is_open_nothing_of_the_answer_is_drawn() {
    let (rig, words) = (straight_back(), words());
    let solution = outlean_rig::solve(&rig).unwrap();
    let veiled = |rig: &Rig| {
        let options = Options { revealed: false, ..options(358.0, 400.0, 1.0, Panels::Both) };
        Chart::new(sampled(rig), options, &words).svg(rig, &solution, &Inks::LIGHT, "t", "")
    };
    let mut heavier = rig.clone();
    heavier.load.mass *= 1.7;
    heavier.line = Line::hung();
    heavier.limits.upright_stop = Some(10.0 * DEG);
    // What is drawn is the same whatever the answer.
    assert!(veiled(&rig) == veiled(&heavier));
    assert!(veiled(&rig).contains("after your prediction"));
}

#[test]
fn nonsense_sizes_draw_something() {
    let (rig, words) = (straight_back(), words());
    let solution = outlean_rig::solve(&rig).unwrap();
    for value in [f64::NAN, f64::INFINITY, -5.0, 0.0, 1e300] {
        for panels in [Panels::Both, Panels::Only(PanelKind::Guys), Panels::RuleAlone] {
            let chart = Chart::new(sampled(&rig), options(value, value, value, panels), &words);
            assert!(chart.svg(&rig, &solution, &Inks::DARK, "t", "d").ends_with("</svg>\n"));
        }
    }
}

#[test]
fn the_still_layer_is_well_formed_and_holds_every_kind_of_mark() {
    let (rig, words) = (straight_back(), words());
    let chart = Chart::new(sampled(&rig), options(358.0, 400.0, 1.0, Panels::Both), &words);
    let svg = chart.svg(&rig, &outlean_rig::solve(&rig).unwrap(), &Inks::LIGHT, "Curves", "of a rig");
    for text in ["working range", "aft guy", "fore guy", "each leg", "balance lean", "allowable 4.00", "60°"]
    {
        assert!(svg.contains(text), "{text}");
    }
    assert_eq!(svg.matches("<g ").count(), svg.matches("</g>").count());
    assert_eq!(svg.matches("<text ").count(), svg.matches("</text>").count());
    assert!(!svg.contains("NaN") && !svg.contains("inf"));
    // Colours are those of the theme.
    let dark = chart.svg(&rig, &outlean_rig::solve(&rig).unwrap(), &Inks::DARK, "Curves", "");
    assert!(dark.contains("#a8cff6") && !dark.contains("#19429c"));
}

#[test]
fn two_working_ranges_are_both_clear_paper() {
    let rig = straight_back();
    let mut curves = sampled(&rig);
    let range = curves.ranges[0];
    let (from, to) = (range.from, range.to);
    let part = |a: f64, b: f64| outlean_rig::Interval {
        from: from + a * (to - from),
        to: from + b * (to - from),
        ..range
    };
    curves.ranges = vec![part(0.0, 0.3), part(0.6, 1.0)];
    let chart = Chart::new(curves, options(358.0, 400.0, 1.0, Panels::Both), &words());
    let inside: Vec<bool> = chart.plan.stretches(&chart.curves).iter().map(|stretch| stretch.2).collect();
    assert_eq!(inside, [false, true, false, true, false]);
    assert_eq!(chart.plan.stops(&chart.curves).len(), 4);
    assert_eq!(chart.labels.iter().filter(|label| label.text == "working range").count(), 2);
}

/// Every line has a band round it, as thin as what is off is small, and none before it is drawn.
#[test]
fn bands_lie_round_their_lines() {
    let (rig, mut chart) = banded(Scatter::USUAL);
    let bands = |chart: &Chart| -> Vec<(Kind, Path)> {
        let of = |item: &Item| match (item.role, &item.shape) {
            (Role::Band(kind), Shape::Path(path)) => Some((kind, path.clone())),
            _ => None,
        };
        chart.under().items.iter().filter_map(of).collect()
    };
    assert_eq!(bands(&chart), []);
    while chart.draw_bands(64) {}
    let found = bands(&chart);
    let lines = chart.curves().legs.series.len() + chart.curves().guys.series.len();
    assert!(found.len() >= lines, "{} bands of {lines} lines", found.len());
    let height = |path: &Path| path.bounds().map_or(0.0, |(_, top, _, bottom)| bottom - top);
    assert!(found.iter().all(|(_, path)| height(path) > 2.0));
    chart.band(&rig, None).unwrap();
    assert_eq!(bands(&chart), []);
}

/// Curves of a leaning rig with bands not drawn yet.
fn banded(scatter: Scatter) -> (Rig, Chart) {
    let mut rig = straight_back();
    rig.line = Line::along(LinePath::RedirectedAtFoot { foot: Side::Right, to: Point::new(-8.0, -0.6, 0.0) });
    let mut chart = Chart::new(sampled(&rig), options(328.0, 400.0, 1.0, Panels::Both), &words());
    chart.band(&rig, Some(scatter)).unwrap();
    (rig, chart)
}
