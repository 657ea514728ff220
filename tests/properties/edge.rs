//! The edge: a line that would run through the ground, a pulley in it, and the room over it.

use outlean_rig::{Clearance, Edge, Field, Guy, Line, Path, Point, Rig, SecondLine, solve};

fn rig() -> Rig {
    let mut rig = Rig::new(4.0, 1.2, 20f64.to_radians(), 250.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig
}

/// Behind an edge that is as high as it, or nearly, a pulley hangs in the ground: the fault says how high an edge may
/// be. Ahead of such an edge it hangs free.
#[test]
fn a_pulley_behind_the_edge_hangs_above_it() {
    let head = solve(&rig()).unwrap().layout.head;
    for (ahead, level, fault) in [
        (2.0, head.z() + 0.5, true),
        (2.0, head.z() - 0.005, true),
        (2.0, head.z() - 0.02, false),
        // Right over its line too.
        (head.x(), head.z() + 0.5, false),
        (1.0, head.z() + 0.5, false),
        (1.0, head.z() - 0.005, false),
    ] {
        let at_edge = Rig { edge: Some(Edge { level, ..Edge::at(ahead) }), ..rig() };
        match (solve(&at_edge), fault) {
            (Err(found), true) => {
                assert_eq!((found.field, found.value), (Field::EdgeLevel, level));
                assert!((found.allowed.most - (head.z() - 0.01)).abs() < 1e-12 && found.allowed.least < 0.0);
            }
            (Ok(solution), false) => assert_eq!(solution.line.bears_on_edge, ahead > head.x()),
            (found, _) => panic!("{ahead} {level}: {:?}", found.map(|solution| solution.line)),
        }
    }
}

/// Room is that of the pulley; of the head where no line runs over it; the least of two pulleys.
#[test]
fn room_is_that_of_what_the_load_hangs_from() {
    let edge = Edge { level: 0.4, litter_drop: 1.1, ..Edge::at(0.6) };
    let head = solve(&rig()).unwrap().layout.head;
    let hung = |sling| Line { sling, ..Line::hung() };
    let elsewhere = Line { sling: 0.9, ..Line::along(Path::NotOverHead) };
    let second = |line| Some(SecondLine { line, share: 0.0, peak_factor: None });
    for (line, second, below) in [
        (hung(0.5), None, 0.5),
        (elsewhere, None, 0.0),
        (elsewhere, second(hung(0.7)), 0.7),
        (hung(0.5), second(hung(0.7)), 0.7),
        (hung(0.5), second(elsewhere), 0.5),
    ] {
        let rig = Rig { line, second, ..rig() };
        let room = Clearance::of(&edge, &rig, &solve(&rig).unwrap());
        assert!((room.headroom - (head.z() - below - 0.4 - 1.1)).abs() < 1e-12, "{room:?}");
        assert!((room.clear_reach - (head.x() - 0.6)).abs() < 1e-12, "{room:?}");
    }
}

/// Behind the edge the line that holds the load bears on it; one that holds no share of it does not.
#[test]
fn a_line_that_holds_nothing_bears_on_nothing() {
    let second = SecondLine { line: Line { sling: 0.5, ..Line::hung() }, share: 0.0, peak_factor: None };
    let mut at_edge = Rig { second: Some(second), edge: Some(Edge::at(3.0)), ..rig() };
    let bear = |rig: &Rig| {
        let solution = solve(rig).unwrap();
        (solution.line.bears_on_edge, solution.second.unwrap().bears_on_edge)
    };
    assert_eq!(bear(&at_edge), (true, false));
    at_edge.second = Some(SecondLine { share: 0.5, ..second });
    assert_eq!(bear(&at_edge), (true, true));
}
