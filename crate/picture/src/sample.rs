//! What tests of whole views share: words, rigs drawn by chance, what every picture keeps to, pictures held.

use crate::{Area, LabelKey, Scene, Shape, Step, Subject, Words, parts_past};
use outlean_rig::{
    Connection, Guy, Leg, Line, Pair, Part, Path, Point, Rig, SecondLine, Side, Solution, WorkingRange,
    solve, working_range,
};
use outlean_rigfile::Units;
use proptest::prelude::*;
use std::collections::BTreeMap;

/// The words as shipped.
pub(crate) fn words() -> Words {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/picture.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// The words of a part (`picture`, `curves`, `steps`) as shipped in other languages: Spanish, and one made of the English
/// that nobody speaks, every vowel twice and with an accent, an e three times: four tenths longer, and no word of it is
/// English.
pub(crate) fn in_other_languages(part: &str) -> [(&'static str, Words); 2] {
    let read = |language: &str| -> BTreeMap<String, String> {
        let path = format!("{}/../../www/strings/{language}/{part}.json", env!("CARGO_MANIFEST_DIR"));
        serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
    };
    let english = read("en");
    let (mut spanish, mut longer) = (english.clone(), english);
    spanish.extend(read("es"));
    longer.values_mut().for_each(|text| *text = accented(text));
    [("es", Words::from(spanish)), ("longer", Words::from(longer))]
}

/// Every vowel twice and with an accent, an e three times, but for those of `{places}`.
fn accented(text: &str) -> String {
    let mut inside = false;
    let mut out = String::new();
    for letter in text.chars() {
        inside = letter == '{' || inside && letter != '}';
        match "aeiouy".find(letter).and_then(|at| "áéíóúý".chars().nth(at)) {
            Some(with) if !inside => out.extend(std::iter::repeat_n(with, if letter == 'e' { 3 } else { 2 })),
            _ => out.push(letter),
        }
    }
    out
}

/// A rig with what a view needs of it.
pub(crate) struct Solved {
    pub rig: Rig,
    pub solution: Solution,
    pub range: WorkingRange,
    pub over: Vec<Part>,
}

impl Solved {
    /// `None` for a rig that cannot be computed.
    pub(crate) fn of(rig: Rig) -> Option<Self> {
        let (solution, range) = (solve(&rig).ok()?, working_range(&rig).ok()?);
        let over = parts_past(&rig, &solution);
        Some(Self { rig, solution, range, over })
    }

    /// It on a plate of that width, height and k.
    pub(crate) fn on<'a>(&'a self, (width, height, k): (f64, f64, f64), words: &'a Words) -> Subject<'a> {
        let Self { rig, solution, range, over } = self;
        Subject { rig, solution, range, over, units: Units::Metric, words, width, height, k, grown: 1.0 }
    }
}

/// Legs of 4.5 m, lashed 0.4 m below the tip, feet 1.5 m apart, 220 kg hung, an aft and a fore guy.
pub(crate) fn frame(lean: f64) -> Rig {
    let mut rig = Rig::new(4.1, 1.5, lean.to_radians(), 220.0);
    rig.legs = Pair::both(Leg::of(4.5, 0.4, 52.0));
    rig.guys.push(Guy { holdfast_allowable: Some(3000.0), ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
    rig.guys.push(Guy::to(Point::new(8.0, 0.0, -1.0)));
    rig.line.sling = 0.4;
    rig
}

/// The same with its line along a path.
pub(crate) fn hauled(lean: f64, path: Path) -> Rig {
    let mut rig = frame(lean);
    rig.line = Line { sling: 0.4, pulley_efficiency: 0.9, redirect_efficiency: 0.9, ..Line::along(path) };
    rig
}

fn any_point() -> impl Strategy<Value = Point> {
    (-40.0..20.0, -20.0..20.0, -12.0..3.0f64).prop_map(|(x, y, z)| Point::new(x, y, z))
}

fn any_path() -> impl Strategy<Value = Path> {
    (0..8u8, any_point(), any::<bool>(), 1..6u8).prop_map(|(kind, to, left, parts)| match kind {
        0 => Path::Hung,
        1 => Path::StraightBack { to },
        2 => Path::RedirectedAtFoot { foot: if left { Side::Left } else { Side::Right }, to },
        3 => Path::RedirectedMidBase { to },
        4 => Path::OverTheFront { to },
        5 => Path::TackleAtHead { parts, to },
        6 => Path::RedirectedOnLedger { to },
        _ => Path::NotOverHead,
    })
}

prop_compose! {
    fn any_second()(path in any_path(), share in 0.0..1.0f64, sling in 0.0..0.6f64) -> SecondLine {
        SecondLine { line: Line { sling, ..Line::along(path) }, share, peak_factor: None }
    }
}

prop_compose! {
    /// A rig of any kind; a few have no geometry.
    pub(crate) fn any_rig()(
        length in 1.6..12.0f64,
        (tip, unequal, spread) in (0.0..0.25f64, 0.9..1.1f64, 0.12..0.9f64),
        lean in -28.0..78.0f64,
        mass in 0.0..2500.0f64,
        anchors in prop::collection::vec(
            (-30.0..25.0, -12.0..12.0, -6.0..2.0f64, any::<bool>(), 0.0..800.0f64), 0..5),
        allowable in 100.0..30_000.0f64,
        (path, second) in (any_path(), prop::option::of(any_second())),
        (sling, skew, step, weight, held) in
            (0.0..1.2, -0.4..0.4, -0.4..0.4f64, 0.0..160.0f64, any::<bool>()),
        (outward, side) in (-0.35..0.35f64, -0.3..0.3f64),
        (connection, height) in (0..3u8, 0.0..0.8f64),
    ) -> Rig {
        let mut rig = Rig::new(length * (1.0 - tip), spread * length, lean.to_radians(), mass);
        rig.legs = Pair::both(Leg::of(length, tip * length, weight));
        rig.legs.right.length *= unequal;
        rig.feet.at.left = Point::new(skew, rig.feet.at.left.y(), step);
        rig.feet.held_down = held;
        rig.feet.connection_height = height;
        rig.feet.connection = match connection {
            0 => Connection::None,
            1 => Connection::Hobble,
            _ => Connection::Ledger,
        };
        for (x, y, z, rigged, pretension) in anchors {
            let holdfast_allowable = Some(allowable);
            let pretension = if pretension > 400.0 { pretension } else { 0.0 };
            rig.guys.push(Guy { rigged, holdfast_allowable, pretension, ..Guy::to(Point::new(x, y, z)) });
        }
        rig.line = Line { sling, ..Line::along(path) };
        rig.second = second;
        (rig.load.outward_angle, rig.load.side_angle) = (outward, side);
        rig
    }
}

/// Every coordinate of a scene.
pub(crate) fn coordinates(scene: &Scene) -> Vec<f64> {
    let mut all = Vec::new();
    for item in &scene.items {
        match &item.shape {
            Shape::Circle { x, y, radius } => all.extend([*x, *y, *radius]),
            Shape::Text { x, y, .. } => all.extend([*x, *y]),
            Shape::Path(path) => {
                for step in &path.steps {
                    match *step {
                        Step::Move(x, y) | Step::Line(x, y) => all.extend([x, y]),
                        Step::Cubic(a, b, c, d, x, y) => all.extend([a, b, c, d, x, y]),
                        Step::Close => {}
                    }
                }
            }
        }
    }
    all
}

/// Checks what every picture keeps to: finite coordinates, labels that neither meet nor leave the plate.
pub(crate) fn keeps(scene: &Scene, labels: &[(LabelKey, Area)]) -> Result<(), TestCaseError> {
    prop_assert!(coordinates(scene).iter().all(|c| c.is_finite()));
    let plate = Area { left: 0.0, top: 0.0, right: scene.width, bottom: scene.height };
    for (i, (key, area)) in labels.iter().enumerate() {
        prop_assert!(plate.holds(*area), "{key:?} leaves the plate: {area:?}");
        for (other, covered) in labels.iter().take(i) {
            prop_assert!(!area.meets(*covered), "{key:?} meets {other:?}");
        }
    }
    Ok(())
}

/// The lettering of a scene.
pub(crate) fn said(scene: &Scene) -> Vec<String> {
    let text = |shape: &Shape| match shape {
        Shape::Text { text, .. } => Some(text.replace('\u{2009}', " ")),
        _ => None,
    };
    scene.items.iter().filter_map(|item| text(&item.shape)).collect()
}

/// Holds a scene against its file; `UPDATE_SNAPSHOTS=1` writes the file anew, to be read before it is committed.
pub(crate) fn hold(view: &str, name: &str, scene: &Scene) {
    let path = format!("{}/src/{view}/snapshots/{name}.txt", env!("CARGO_MANIFEST_DIR"));
    let drawn = scene.to_text();
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        std::fs::write(&path, &drawn).unwrap();
    }
    let held = std::fs::read_to_string(&path).unwrap_or_default();
    for (line, (drawn, held)) in (1..).zip(drawn.lines().zip(held.lines())) {
        assert_eq!(drawn, held, "{path}:{line}");
    }
    assert_eq!(drawn.lines().count(), held.lines().count(), "{path}");
}
