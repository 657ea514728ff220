//! Draws front views and force polygons of some rigs as SVG files, to be looked at:
//! `cargo run --example views -- DIRECTORY`.

use outlean_picture::{
    FrontViewInput, HandleState, Inks, PolygonInput, Show, Subject, Words, front_view, parts_past, polygon,
    svg,
};
use outlean_rig::{
    Connection, Guy, Leg, Line, Pair, Path, Point, Rig, SecondLine, Side, solve, working_range,
};
use outlean_rigfile::Units;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let directory = std::env::args().nth(1).ok_or("say where to: views DIRECTORY")?;
    let strings = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/picture.json");
    let words: Words = serde_json::from_str(&std::fs::read_to_string(strings)?)?;
    let sizes = [
        ("narrow", (280.0, 320.0, 0.85), Inks::LIGHT),
        ("page", (420.0, 480.0, 1.0), Inks::LIGHT),
        ("dark", (420.0, 480.0, 1.0), Inks::DARK),
        ("projector", (760.0, 900.0, 2.1), Inks::PROJECTOR),
    ];
    let ground = Show { ground_forces: true, ..Show::USUAL };
    let rigs = [
        ("foot", foot(), Show::USUAL),
        ("foot_ground", foot(), ground),
        ("back", back(), Show::USUAL),
        ("hobble", hobble(), ground),
        ("ledger", ledger(), ground),
        ("splayed", splayed(), Show::USUAL),
        ("uneven", uneven(), Show::USUAL),
        ("unequal", unequal(), Show::USUAL),
        ("tips", tips(), Show::USUAL),
        ("pulls", pulls(), ground),
        ("second", second(), Show::USUAL),
        ("past", past(), Show::USUAL),
        ("veiled", foot(), Show::RIG_ALONE),
        ("tackle", tackle(), Show::USUAL),
    ];
    for (name, rig, show) in &rigs {
        let solution = solve(rig)?;
        let range = working_range(rig)?;
        let over = parts_past(rig, &solution);
        for (size, (width, height, k), inks) in &sizes {
            let subject = Subject {
                rig,
                solution: &solution,
                range: &range,
                over: &over,
                units: Units::Metric,
                words: &words,
                width: *width,
                height: *height,
                k: *k,
                grown: 1.0,
            };
            let view = front_view(&FrontViewInput {
                of: subject,
                scale: None,
                force_scale: None,
                show: *show,
                handle: HandleState::Rest,
                tipping: solution.tips().map(|_| 1.0),
                seats: None,
            });
            println!("front_{name}_{size}: {:.1} px/m, left out {:?}", view.scale, view.dropped);
            std::fs::write(format!("{directory}/front_{name}_{size}.svg"), svg(&view.scene, inks, name, ""))?;
            let forces = polygon(&PolygonInput { of: subject, px_per_newton: None, seats: None });
            println!("polygon_{name}_{size}: left out {:?}", forces.dropped);
            std::fs::write(
                format!("{directory}/polygon_{name}_{size}.svg"),
                svg(&forces.scene, inks, name, ""),
            )?;
        }
    }
    Ok(())
}

/// Legs of 4.7 m, lashed 0.45 m below the tip, feet 1.6 m apart, 240 kg hung.
fn hung() -> Rig {
    let mut rig = Rig::new(4.25, 1.6, 21f64.to_radians(), 240.0);
    rig.legs = Pair::both(Leg::of(4.7, 0.45, 50.0));
    rig.guys.push(Guy { holdfast_allowable: Some(4200.0), ..Guy::to(Point::new(-6.4, 0.0, 0.0)) });
    rig.guys.push(Guy::to(Point::new(7.0, 0.0, -1.2)));
    rig.line.sling = 0.45;
    rig
}

fn over(mut rig: Rig, path: Path) -> Rig {
    rig.line = Line { sling: 0.45, pulley_efficiency: 0.9, redirect_efficiency: 0.9, ..Line::along(path) };
    rig
}

fn foot() -> Rig {
    over(hung(), Path::RedirectedAtFoot { foot: Side::Left, to: Point::new(-1.0, -11.0, 0.2) })
}

fn back() -> Rig {
    over(hung(), Path::StraightBack { to: Point::new(-9.0, 0.0, 0.0) })
}

fn hobble() -> Rig {
    let mut rig = hung();
    rig.feet.connection = Connection::Hobble;
    rig.feet.connection_height = 0.15;
    rig
}

fn ledger() -> Rig {
    let mut rig = over(hung(), Path::RedirectedOnLedger { to: Point::new(0.0, 9.0, 0.0) });
    rig.feet.connection = Connection::Ledger;
    rig.feet.connection_height = 0.4;
    rig
}

fn splayed() -> Rig {
    let mut rig = hung();
    rig.guys.clear();
    for y in [2.6, -2.6] {
        rig.guys.push(Guy { pretension: 600.0, ..Guy::to(Point::new(-5.5, y, 0.0)) });
    }
    rig.guys.push(Guy::to(Point::new(5.0, 1.9, -1.0)));
    rig
}

fn uneven() -> Rig {
    let mut rig = over(hung(), Path::RedirectedAtFoot { foot: Side::Right, to: Point::new(0.0, 12.0, 0.3) });
    rig.feet.at.left = Point::new(0.1, 0.8, 0.35);
    rig.feet.at.right = Point::new(-0.1, -0.8, -0.15);
    rig
}

fn unequal() -> Rig {
    let mut rig = hung();
    rig.legs.left = Leg::of(5.2, 0.95, 50.0);
    rig.legs.right = Leg::of(4.5, 0.6, 50.0);
    rig.feet.at.right = Point::new(0.0, -1.0, 0.0);
    rig
}

fn tips() -> Rig {
    let mut rig = hung();
    rig.feet.held_down = false;
    rig.load.side_angle = -(20f64.to_radians());
    rig
}

fn pulls() -> Rig {
    let mut rig = tips();
    rig.feet.held_down = true;
    rig
}

fn second() -> Rig {
    let mut rig = foot();
    rig.second = Some(SecondLine {
        line: Line {
            sling: 0.3,
            pulley_efficiency: 0.9,
            ..Line::along(Path::StraightBack { to: Point::new(-8.0, -2.5, 0.0) })
        },
        share: 0.4,
        peak_factor: None,
    });
    rig
}

fn past() -> Rig {
    let mut rig = splayed();
    rig.lean = 38f64.to_radians();
    rig.guys.clear();
    rig.guys.push(Guy {
        rope_allowable: Some(1400.0),
        holdfast_allowable: Some(1500.0),
        ..Guy::to(Point::new(-5.5, 2.6, 0.0))
    });
    rig
}

fn tackle() -> Rig {
    over(hung(), Path::TackleAtHead { parts: 3, to: Point::new(-4.0, 3.0, 0.0) })
}
