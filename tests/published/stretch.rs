//! Frames on guys that stretch: independent solutions with large displacements.
//!
//! The two tables are solutions of a general-purpose structural calculation made for this project's checks, not
//! published: legs of 4 m to the lashing, feet a third of that apart, 2.7 kN, guys just taut before loading. A model
//! result: linear ropes, rigid anchors.

use outlean_rig::{
    G, Guy, LeanIs, Line, Outcome, Path, Point, Rig, Rope, STIFF_LEG, Stretch, Stretched, least_share, solve,
    stretched,
};
use outlean_tests::by_hand::least_stiffness;

const WEIGHT: f64 = 2700.0;
const STIFFNESSES: [f64; 4] = [33_400.0, 44_500.0, 66_700.0, 133_000.0];

fn frame(degrees: f64) -> (Rig, f64) {
    let rig = Rig::new(4.0, 4.0 / 3.0, degrees.to_radians(), WEIGHT / G);
    let height = solve(&rig).unwrap().layout.head_height();
    (rig, height)
}

fn ropes(rig: &Rig, stiffness: f64) -> Stretch {
    let ropes = rig.guys.iter().map(|_| Rope { stiffness, give: 0.0 }).collect();
    Stretch { leg_stiffness: STIFF_LEG, ropes, lean_is: LeanIs::SetBefore }
}

fn on_ropes(rig: &Rig, stiffness: f64) -> Outcome {
    stretched(rig, &ropes(rig, stiffness)).unwrap()
}

/// Hung load, aft guy anchored one and a half leaning head heights back.
fn hung(degrees: f64) -> Rig {
    let (mut rig, height) = frame(degrees);
    rig.guys.push(Guy::to(Point::new(-1.5 * height, 0.0, 0.0)));
    rig
}

/// Load line hauled straight back to the ground 8 m behind, fore guy anchored one and a half head heights ahead.
fn straight_back(degrees: f64) -> Rig {
    let (mut rig, height) = frame(degrees);
    rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    rig.guys.push(Guy::to(Point::new(1.5 * height, 0.0, 0.0)));
    rig
}

fn stands(outcome: Outcome, what: &str) -> Stretched {
    match outcome {
        Outcome::Stands(stretched) => stretched,
        other => panic!("{what}: {other:?}"),
    }
}

/// A cell: loaded lean (degrees), guy tension (N, or 0 where none is printed), margin (0 where none is printed).
type Cell = Option<(f64, f64, f64)>;

fn hold(name: &str, rig_at: fn(f64) -> Rig, rows: &[(f64, [Cell; 4])]) {
    for (degrees, cells) in rows {
        for (cell, stiffness) in cells.iter().zip(STIFFNESSES) {
            let what = format!("{name} at {degrees} on {stiffness}");
            let outcome = on_ropes(&rig_at(*degrees), stiffness);
            let Some((lean, tension, margin)) = cell else {
                assert!(
                    matches!(outcome, Outcome::RunsAway(multiple) if multiple < 1.0),
                    "{what}: {outcome:?}"
                );
                continue;
            };
            let found = stands(outcome, &what);
            assert!(
                (found.lean.to_degrees() - lean).abs() <= 0.0501,
                "{what}: {} for {lean}",
                found.lean.to_degrees()
            );
            if *tension > 0.0 {
                assert!(
                    (found.tension[0] - tension).abs() <= 0.51,
                    "{what}: {} for {tension} N",
                    found.tension[0]
                );
            }
            if *margin > 0.0 {
                let rig = rig_at(*degrees);
                let found = outlean_rig::margin(&rig, &ropes(&rig, stiffness)).unwrap().unwrap().multiple;
                assert!((found - margin).abs() <= 0.0051, "{what}: margin {found} for {margin}");
            }
        }
    }
}

#[test]
fn an_aft_guy_that_stretches_lets_the_head_forward_or_go() {
    let run_away = None;
    let lean = |lean| Some((lean, 0.0, 0.0));
    let guy = |lean, tension| Some((lean, tension, 0.0));
    let rows: [(f64, [Cell; 4]); 7] = [
        (15.0, [lean(23.1), lean(20.0), lean(17.9), lean(16.3)]),
        (
            18.0,
            [
                Some((30.9, 0.0, 1.10)),
                Some((25.1, 0.0, 1.46)),
                Some((21.9, 0.0, 2.19)),
                Some((19.7, 0.0, 4.37)),
            ],
        ),
        (20.0, [run_away, guy(29.0, 2218.0), guy(24.8, 1804.0), guy(22.0, 1559.0)]),
        (25.0, [run_away, run_away, guy(32.9, 2667.0), guy(28.1, 2152.0)]),
        (30.0, [run_away, run_away, Some((45.8, 4560.0, 1.04)), guy(34.6, 2930.0)]),
        (35.0, [run_away, run_away, run_away, guy(42.3, 4078.0)]),
        (40.0, [run_away, run_away, run_away, guy(54.7, 6788.0)]),
    ];
    hold("hung", hung, &rows);
}

#[test]
fn a_fore_guy_that_stretches_lets_the_head_back() {
    let guy = |lean, tension| Some((lean, tension, 0.0));
    let rows: [(f64, [Cell; 4]); 5] = [
        (5.0, [guy(-9.1, 3894.0), guy(-3.8, 3305.0), guy(-0.1, 2925.0), guy(2.7, 2648.0)]),
        (10.0, [guy(0.7, 2850.0), guy(3.9, 2546.0), guy(6.3, 2317.0), guy(8.3, 2135.0)]),
        (15.0, [guy(8.8, 2098.0), guy(10.8, 1926.0), guy(12.4, 1786.0), guy(13.8, 1669.0)]),
        (20.0, [guy(16.0, 1493.0), guy(17.2, 1396.0), guy(18.3, 1313.0), guy(19.2, 1240.0)]),
        (30.0, [guy(28.9, 525.0), guy(29.2, 502.0), guy(29.5, 481.0), guy(29.8, 462.0)]),
    ];
    hold("straight back", straight_back, &rows);
}

#[test]
fn the_first_order_columns_are_the_rigid_answer() {
    let first = |rig: &Rig| solve(rig).unwrap().forces().unwrap().guys[0].tension;
    for (degrees, tension) in [(20.0, 1386.0), (25.0, 1852.0), (30.0, 2396.0), (35.0, 3046.0), (40.0, 3842.0)]
    {
        assert!((first(&hung(degrees)) - tension).abs() <= 0.51, "{degrees}");
    }
    for (degrees, tension) in [(5.0, 2430.0), (10.0, 1984.0), (15.0, 1568.0), (20.0, 1176.0), (30.0, 445.0)] {
        assert!((first(&straight_back(degrees)) - tension).abs() <= 0.51, "{degrees}");
    }
}

#[test]
fn the_rigid_answer_is_the_limit_of_ropes_that_hardly_stretch() {
    for rig in [hung(18.0), straight_back(15.0)] {
        let rigid = solve(&rig).unwrap();
        let forces = rigid.forces().unwrap();
        let stretch = Stretch { leg_stiffness: 1e14, ..ropes(&rig, 1e14) };
        let found = stands(stretched(&rig, &stretch).unwrap(), "stiff");
        let near = |a: f64, b: f64| assert!((a - b).abs() <= 1e-9 * b.abs(), "{a} for {b}");
        near(found.tension[0], forces.guys[0].tension);
        near(found.compression.left, forces.compression.left);
        near(found.compression.right, forces.compression.right);
    }
}

#[test]
fn the_least_stiffness_is_where_a_loaded_lean_stops_standing() {
    for (degrees, printed) in [(20.0, 12_900.0), (30.0, 19_600.0), (40.0, 33_700.0), (45.0, 46_900.0)] {
        let rig = hung(degrees);
        let solution = solve(&rig).unwrap();
        let layout = &solution.layout;
        let least = least_stiffness(
            WEIGHT,
            solution.guy_length[0],
            solution.guy_arm[0],
            layout.slant_height,
            layout.head_height(),
        );
        assert!((least - printed).abs() <= 51.0, "{degrees}: {least}");
        // Leaning `degrees` under load: a hair stiffer it stands there, a hair softer it does not.
        let stiff_legs = |stiffness: f64| Stretch { leg_stiffness: 1e15, ..ropes(&rig, stiffness) };
        let share = least_share(&rig, &stiff_legs(1e5)).unwrap().unwrap();
        assert!((share * 1e5 / least - 1.0).abs() < 1e-9, "{degrees}: {} for {least}", share * 1e5);
        for (share, holds) in [(1.0 + 1e-9, true), (1.0 - 1e-9, false)] {
            let stretch = Stretch { lean_is: LeanIs::UnderLoad, ..stiff_legs(least * share) };
            let outcome = stretched(&rig, &stretch).unwrap();
            assert_eq!(matches!(outcome, Outcome::Stands(_)), holds, "{degrees} at {share}: {outcome:?}");
        }
    }
}
