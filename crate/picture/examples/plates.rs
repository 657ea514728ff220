//! Draws side views of some rigs as SVG files, to be looked at: `cargo run --example plates -- DIRECTORY`.

use outlean_picture::{HandleState, Inks, Show, SideViewInput, Subject, Words, parts_past, side_view, svg};
use outlean_rig::{
    Edge, Guy, Leg, Line, Pair, Path, Point, Rig, Scenario, SecondLine, Side, Stage, Swing, solve,
    working_range,
};
use outlean_rigfile::Units;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let directory = std::env::args().nth(1).ok_or("say where to: plates DIRECTORY")?;
    let strings = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/picture.json");
    let words: Words = serde_json::from_str(&std::fs::read_to_string(strings)?)?;
    let page = (830.0, 560.0, 1.0);
    let narrow = (288.0, 263.0, 0.85);
    let projector = (1277.0, 862.0, 2.1);
    let small_projector = (830.0, 560.0, 2.1);
    let wide = (1053.0, 711.0, 1.25);
    let all = Show { resultant: true, ground_forces: true, ..Show::USUAL };
    let few = Show { dimensions: false, ..Show::USUAL };
    let plates = [
        ("hung20", hung(20.0), page, Inks::LIGHT, Show::USUAL),
        ("hung20_all", hung(20.0), page, Inks::LIGHT, all),
        ("hung12", hung(12.5), page, Inks::LIGHT, Show::USUAL),
        ("hung3", hung(3.0), page, Inks::LIGHT, Show::USUAL),
        ("hung20_dark", hung(20.0), page, Inks::DARK, all),
        ("hung20_narrow", hung(20.0), narrow, Inks::LIGHT, Show::USUAL),
        ("hung20_projector", hung(20.0), projector, Inks::PROJECTOR, few),
        ("past50", hung(50.0), page, Inks::LIGHT, Show::USUAL),
        ("past50_narrow", hung(50.0), narrow, Inks::LIGHT, Show::USUAL),
        ("foot24", foot(24.0), page, Inks::LIGHT, all),
        ("foot24_dark", foot(24.0), page, Inks::DARK, Show::USUAL),
        ("foot24_narrow", foot(24.0), narrow, Inks::LIGHT, all),
        ("foot24_projector", foot(24.0), projector, Inks::PROJECTOR, few),
        ("foot24_small_projector", foot(24.0), small_projector, Inks::PROJECTOR, few),
        ("foot24_wide", foot(24.0), wide, Inks::LIGHT, Show { ground_forces: true, ..Show::USUAL }),
        ("straight15", straight(15.0), page, Inks::LIGHT, all),
        ("straight45", straight(45.0), page, Inks::LIGHT, Show::USUAL),
        ("straight15_narrow", straight(15.0), narrow, Inks::LIGHT, Show::USUAL),
        ("tips_back", tips_back(14.0), page, Inks::LIGHT, Show::USUAL),
        ("tips_back_narrow", tips_back(14.0), narrow, Inks::DARK, Show::USUAL),
        ("tips_forward", tips_forward(22.0), page, Inks::LIGHT, Show::USUAL),
        ("far_anchor", far(26.0), page, Inks::LIGHT, Show::USUAL),
        ("no_range", no_range(24.0), page, Inks::LIGHT, Show::USUAL),
        ("tackle18", tackle(18.0), page, Inks::LIGHT, Show::USUAL),
        ("front18", front(18.0), page, Inks::LIGHT, Show::USUAL),
        ("not_over_head", not_over(18.0), page, Inks::LIGHT, Show::USUAL),
        ("small", small(16.0), page, Inks::LIGHT, all),
        ("edge", edge(24.0), page, Inks::LIGHT, Show::USUAL),
        ("edge_narrow", edge(24.0), narrow, Inks::LIGHT, Show::USUAL),
        ("bears", bears(16.0), page, Inks::LIGHT, Show::USUAL),
        (
            "second",
            second(24.0, Path::StraightBack { to: Point::new(-9.0, 0.0, 0.0) }),
            page,
            Inks::LIGHT,
            all,
        ),
        ("second_off", second(24.0, Path::NotOverHead), page, Inks::DARK, Show::USUAL),
        ("second_off_narrow", second(24.0, Path::NotOverHead), narrow, Inks::LIGHT, Show::USUAL),
        ("lost", lost(24.0), page, Inks::LIGHT, Show::USUAL),
        ("at_edge", stage(20.0, Stage::AtEdge, -6.0), page, Inks::LIGHT, Show::USUAL),
        ("tag_out", stage(24.0, Stage::OnTagLines, 9.0), page, Inks::LIGHT, Show::USUAL),
        ("tag_in_projector", stage(30.0, Stage::OnTagLines, -9.0), projector, Inks::PROJECTOR, few),
        ("splayed", splayed(24.0), page, Inks::LIGHT, all),
        ("uneven", uneven(20.0), page, Inks::LIGHT, all),
    ];
    for (name, rig, (width, height, k), inks, show) in plates {
        let solution = solve(&rig)?;
        let range = working_range(&rig)?;
        let over = parts_past(&rig, &solution);
        let view = side_view(&SideViewInput {
            of: Subject {
                rig: &rig,
                solution: &solution,
                range: &range,
                over: &over,
                units: if name.starts_with("small") { Units::Us } else { Units::Metric },
                words: &words,
                width,
                height,
                k,
                grown: 1.0,
            },
            show,
            anchor: None,
            handle: match name {
                "past50" => HandleState::Dragged,
                "straight15" => HandleState::Focus,
                _ => HandleState::Rest,
            },
            tipping: solution.tips().map(|_| 1.0),
            seats: None,
        });
        println!("{name}: {:.1} px/m, {:?}, left out {:?}", view.scale, solution.tips(), view.dropped);
        std::fs::write(format!("{directory}/{name}.svg"), svg(&view.scene, &inks, name, ""))?;
    }
    Ok(())
}

fn degrees(lean: f64) -> f64 {
    lean.to_radians()
}

/// Legs of 4.6 m, lashed 0.5 m below the tip, feet 1.5 m apart, 230 kg hung.
fn hung(lean: f64) -> Rig {
    let mut rig = Rig::new(4.1, 1.5, degrees(lean), 230.0);
    rig.legs = Pair::both(Leg::of(4.6, 0.5, 55.0));
    rig.guys.push(Guy {
        rope_allowable: Some(6000.0),
        holdfast_allowable: Some(2600.0),
        ..Guy::to(Point::new(-6.2, 0.0, 0.0))
    });
    rig.guys.push(Guy::to(Point::new(9.0, 0.0, -1.0)));
    rig.line.sling = 0.45;
    rig.limits.upright_stop = Some(degrees(10.0));
    rig
}

fn foot(lean: f64) -> Rig {
    let mut rig = hung(lean);
    rig.line = Line {
        sling: 0.45,
        pulley_efficiency: 0.9,
        redirect_efficiency: 0.9,
        ..Line::along(Path::RedirectedAtFoot { foot: Side::Left, to: Point::new(-0.2, -12.0, 0.3) })
    };
    rig
}

fn straight(lean: f64) -> Rig {
    let mut rig = hung(lean);
    rig.line = Line {
        sling: 0.4,
        pulley_efficiency: 0.85,
        ..Line::along(Path::StraightBack { to: Point::new(-7.0, 0.0, 0.0) })
    };
    rig.guys.truncate(1);
    rig.guys.push(Guy { rope_allowable: Some(5000.0), ..Guy::to(Point::new(11.0, 0.0, 0.0)) });
    rig
}

fn tips_back(lean: f64) -> Rig {
    let mut rig = straight(lean);
    rig.guys.pop();
    rig
}

fn tips_forward(lean: f64) -> Rig {
    let mut rig = hung(lean);
    rig.guys.clear();
    rig
}

fn far(lean: f64) -> Rig {
    let mut rig = hung(lean);
    let anchors = [Point::new(-14.0, 0.0, 0.0), Point::new(3.6, 0.0, 0.0)];
    for (guy, anchor) in rig.guys.iter_mut().zip(anchors) {
        guy.anchor = anchor;
    }
    rig.line = Line { sling: 0.0, ..Line::along(Path::StraightBack { to: Point::new(-18.0, 0.0, 0.0) }) };
    rig
}

fn no_range(lean: f64) -> Rig {
    let mut rig = hung(lean);
    for guy in &mut rig.guys {
        guy.holdfast_allowable = Some(150.0);
    }
    rig.limits.upright_stop = Some(degrees(15.0));
    rig
}

fn tackle(lean: f64) -> Rig {
    let mut rig = hung(lean);
    let path = Path::TackleAtHead { parts: 3, to: Point::new(-6.0, 0.0, 0.0) };
    rig.line = Line { sling: 0.3, pulley_efficiency: 0.9, ..Line::along(path) };
    rig
}

fn front(lean: f64) -> Rig {
    let mut rig = hung(lean);
    rig.line = Line { sling: 0.3, ..Line::along(Path::OverTheFront { to: Point::new(6.0, 0.0, -12.0) }) };
    rig
}

fn not_over(lean: f64) -> Rig {
    let mut rig = hung(lean);
    rig.line.path = Path::NotOverHead;
    rig
}

/// A stated edge, with the ground rising to it.
fn edge(lean: f64) -> Rig {
    let mut rig = hung(lean);
    rig.edge = Some(Edge { level: 0.25, ..Edge::at(0.8) });
    rig
}

/// A line that bears on the edge.
fn bears(lean: f64) -> Rig {
    let mut rig = straight(lean);
    rig.edge = Some(Edge::at(1.6));
    rig
}

fn second(lean: f64, path: Path) -> Rig {
    let mut rig = foot(lean);
    let line = Line { sling: 0.3, ..Line::along(path) };
    rig.second = Some(SecondLine { line, share: 0.4, peak_factor: Some(2.0) });
    rig.edge = Some(Edge::at(0.5));
    rig
}

fn lost(lean: f64) -> Rig {
    let mut rig = second(lean, Path::StraightBack { to: Point::new(-9.0, 0.0, 0.0) });
    rig.case.scenario = Scenario::MainLost;
    rig
}

fn stage(lean: f64, stage: Stage, outward: f64) -> Rig {
    let mut rig = hung(lean);
    let swing = Some(Swing { side: 0.0, outward: degrees(outward) });
    rig.load.at_edge = swing;
    rig.load.on_tag_lines = swing;
    rig.case.stage = stage;
    rig
}

/// Two aft guys splayed to the sides, one tied lower than the feet.
fn splayed(lean: f64) -> Rig {
    let mut rig = hung(lean);
    rig.guys.clear();
    for (y, z, pretension) in [(3.0, 0.0, 0.0), (-3.0, -0.5, 300.0)] {
        rig.guys.push(Guy { pretension, ..Guy::to(Point::new(-6.0 - y / 4.0, y, z)) });
    }
    rig.guys.push(Guy::to(Point::new(8.0, -2.0, -1.0)));
    rig
}

/// Feet out of level and out of line, a load that swings: the right foot, held down, is lifted.
fn uneven(lean: f64) -> Rig {
    let mut rig = hung(lean);
    rig.feet.at.left = Point::new(0.2, 0.75, 0.25);
    rig.feet.at.right = Point::new(-0.2, -0.75, -0.25);
    rig.load.side_angle = degrees(20.0);
    rig
}

/// Short legs, a light load, no sling, no tip.
fn small(lean: f64) -> Rig {
    let mut rig = Rig::new(2.4, 0.9, degrees(lean), 80.0);
    rig.guys.push(Guy::to(Point::new(-3.5, 0.0, 0.0)));
    rig
}
