//! Plates of every step, on rigs of every kind: sound coordinates, names that neither meet nor leave the plate nor a person,
//! none left out on the rigs of the lessons; each step held word for word.

use super::*;
use crate::sample::{any_rig, keeps, said};
use crate::{Role, Shape, svg_in_page};
use outlean_rig::Path as LinePath;
use proptest::prelude::*;

fn words() -> Words {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/steps.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// A rig of a lesson.
fn lesson(file: &str) -> Rig {
    let path = format!("{}/../../lessons/{file}", env!("CARGO_MANIFEST_DIR"));
    outlean_rigfile::read(&std::fs::read_to_string(path).unwrap()).0.unwrap().rig
}

const RIGS: [&str; 6] = [
    "02-lashing-the-head/rig.toml",
    "03-dress-and-raise/rig.toml",
    "10-moving-under-load/rig.toml",
    "12-the-whole-rig/rig.toml",
    "04-feet-that-stay/rig.toml",
    "08-guys/rig.toml",
];

fn plate(name: &str, rig: &Rig, hold: bool) -> BuildPlate {
    build_plate(BuildStep::named(name).unwrap(), rig, &words(), hold).unwrap()
}

#[test]
fn no_name_is_left_out_of_a_lessons_plate() {
    for file in RIGS {
        let rig = lesson(file);
        for (name, step) in BuildStep::all() {
            for hold in [false, true] {
                let plate = build_plate(step, &rig, &words(), hold).unwrap();
                keeps(&plate.scene, &plate.labels).unwrap();
                assert!(plate.dropped.is_empty(), "{file}, {name}: {:?}", plate.dropped);
                assert!(!plate.labels.is_empty(), "{name} names something");
                assert_eq!(said(&plate.scene).contains(&"Hold point".to_owned()), hold, "{name}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn names_on_plates_of_any_rig_meet_nothing(rig in any_rig()) {
        let words = words();
        for (_, step) in BuildStep::all() {
            // A few of them have no geometry.
            if let Ok(plate) = build_plate(step, &rig, &words, true) {
                keeps(&plate.scene, &plate.labels)?;
                names_cover_nobody(&plate)?;
            }
        }
    }
}

/// Whether no name lies over a person or over the sign of a hold point.
fn names_cover_nobody(plate: &BuildPlate) -> Result<(), TestCaseError> {
    let seen =
        |item: &&crate::Item| matches!(item.role, Role::Skin | Role::Limb) || item.part == "hold point";
    for item in plate.scene.items.iter().filter(seen).filter(|item| item.part != "hand") {
        let (x, y) = match &item.shape {
            Shape::Circle { x, y, .. } => (*x, *y),
            Shape::Path(path) => {
                let (l, t, r, b) = path.bounds().unwrap_or_default();
                (0.5 * (l + r), 0.5 * (t + b))
            }
            Shape::Text { .. } => continue,
        };
        // Arms and legs reach farther than names keep clear; heads and trunks do not.
        let spot = Area { left: x, top: y, right: x, bottom: y };
        for (key, label) in &plate.labels {
            prop_assert!(!label.holds(spot), "{:?} over {:?}", key, item.part);
        }
    }
    Ok(())
}

#[test]
fn nobody_stands_behind_a_name() {
    for file in RIGS {
        for (_, step) in BuildStep::all() {
            names_cover_nobody(&build_plate(step, &lesson(file), &words(), true).unwrap()).unwrap();
        }
    }
}

#[test]
fn nobody_stands_in_a_guy_that_works() {
    let mut people = 0;
    for (name, step) in BuildStep::all() {
        for file in RIGS {
            let plate = build_plate(step, &lesson(file), &words(), false).unwrap();
            let of = |role: Role, part: &str| bounds_with_pen(&plate, part, role);
            for limb in of(Role::Limb, "person") {
                people += 1;
                for guy in ["aft guy", "fore guy"] {
                    for item in
                        plate.scene.items.iter().filter(|item| item.part == guy && item.role == Role::Rope)
                    {
                        let Shape::Path(path) = &item.shape else { continue };
                        let [crate::Step::Move(x, y), crate::Step::Line(u, v)] = path.steps[..] else {
                            continue;
                        };
                        assert!(!limb.meets_line((x, y), (u, v)), "{file}, {name}: {guy}");
                    }
                }
            }
        }
    }
    assert!(people > 500, "{people}");
}

/// Bounds of what is drawn of a part, with the width of its pen.
fn bounds_with_pen(plate: &BuildPlate, part: &str, role: Role) -> Vec<Area> {
    let items = plate.scene.items.iter().filter(|item| item.part == part && item.role == role);
    let area = |shape: &Shape| {
        let Shape::Path(path) = shape else { return None };
        let (left, top, right, bottom) = path.bounds()?;
        Some(Area { left, top, right, bottom }.grown(0.5 * path.pen))
    };
    items.filter_map(|item| area(&item.shape)).collect()
}

#[test]
fn every_step_has_a_name_of_its_own_and_is_told_in_words() {
    let words = words();
    let names: Vec<&str> = BuildStep::all().map(|(name, _)| name).collect();
    let rig = lesson(RIGS[1]);
    for (at, name) in names.iter().enumerate() {
        assert!(!names[..at].contains(name), "{name} twice");
        let step = BuildStep::named(name).unwrap();
        assert_eq!(step.name(), *name);
        let told = build_told(step, &rig, &words);
        assert!(told.len() > 60 && !told.contains('{') && !told.starts_with("steps."), "{name}: {told}");
    }
    assert_eq!(BuildStep::named("spacers"), None);
}

/// Bounds of what is drawn of a part.
fn bounds(plate: &BuildPlate, part: &str, role: Role) -> Vec<(f64, f64, f64, f64)> {
    let items = plate.scene.items.iter().filter(|item| item.part == part && item.role == role);
    items.filter_map(|item| if let Shape::Path(path) = &item.shape { path.bounds() } else { None }).collect()
}

#[test]
fn a_lashing_has_the_turns_of_its_rig() {
    let mut rig = lesson(RIGS[0]);
    for (turns, fraps) in [(8_u8, 3_u8), (6, 2), (14, 4)] {
        rig.gear.lashing.turns = Some(f64::from(turns));
        rig.gear.lashing.frapping = Some(f64::from(fraps));
        let plate = plate("spacer out", &rig, false);
        assert_eq!(bounds(&plate, "wrap", Role::Wrap).len(), usize::from(turns));
        assert_eq!(bounds(&plate, "frap", Role::Wrap).len(), usize::from(fraps));
    }
    // Wraps go round both poles, frapping turns stay between them.
    let done = plate("spacer out", &rig, false);
    let poles = bounds(&done, "pole", Role::Timber);
    let (top, gap_top) = (poles[0].1, poles[0].3);
    let (gap_bottom, bottom) = (poles[1].1, poles[1].3);
    assert!(bounds(&done, "wrap", Role::Wrap).iter().all(|wrap| wrap.1 < top + 3.0 && wrap.3 > bottom - 3.0));
    assert!(
        bounds(&done, "frap", Role::Wrap)
            .iter()
            .all(|frap| frap.1 > gap_top - 3.0 && frap.3 < gap_bottom + 3.0)
    );
}

#[test]
fn the_frame_is_drawn_at_its_length_and_lean() {
    for file in [RIGS[1], RIGS[3]] {
        let rig = lesson(file);
        let layout = outlean_rig::Layout::of(&rig, rig.lean).unwrap();
        let plate = plate("unload", &rig, false);
        // Centre of the lashing and middle of the foot: the leg leans by the rig's lean.
        let leg = bounds(&plate, "leg", Role::Timber)[0];
        let rope =
            plate.scene.items.iter().find(|item| item.part == "aft guy" && item.role == Role::Rope).unwrap();
        let Shape::Path(path) = &rope.shape else { panic!("a rope is a path") };
        let [crate::Step::Move(hx, hy), crate::Step::Line(ax, ay)] = path.steps[..] else {
            panic!("one stroke")
        };
        let guy = rig.guys.iter().find(|guy| guy.anchor.x() < 0.0).unwrap();
        // Head to holdfast: level and upright parts are to the scale of one another.
        let level = (hx - ax) / (layout.head.x() - guy.anchor.x());
        let upright = (ay - hy) / (layout.head.z() - guy.anchor.z() - 0.06);
        assert!((level / upright - 1.0).abs() < 1e-9, "{level} {upright}");
        assert!(leg.1 < hy && leg.3 > hy);
    }
}

#[test]
fn the_line_runs_as_the_rig_has_it() {
    let mut rig = lesson(RIGS[3]);
    let has =
        |rig: &Rig, words: &str| said(&plate("haul path", rig, false).scene).contains(&words.to_owned());
    assert!(has(&rig, "pulley between the feet"));
    rig.line.path = LinePath::StraightBack { to: outlean_rig::Point::new(-8.0, 0.0, 0.0) };
    assert!(has(&rig, "haul line") && !has(&rig, "pulley between the feet"));
    rig.line.path = LinePath::Hung;
    assert!(has(&rig, "load hung at the head") && !has(&rig, "haul line"));
    assert!(bounds(&plate("haul path", &rig, false), "haul line", Role::Rope).is_empty());
}

#[test]
fn what_holds_is_straight_and_what_does_not_hangs() {
    let rig = lesson(RIGS[1]);
    let ropes = |name: &str, part: &str| {
        let plate = plate(name, &rig, false);
        let has = |role| plate.scene.items.iter().any(|item| item.part == part && item.role == role);
        (has(Role::Rope), has(Role::SlackRope))
    };
    for (name, aft, fore) in [
        ("hands lift", (false, true), (false, true)),
        ("fore guy lifts", (false, true), (true, false)),
        ("let out", (true, false), (false, true)),
        ("haul in", (true, false), (false, true)),
        ("lower back", (false, true), (true, false)),
        ("undress", (false, false), (false, false)),
    ] {
        assert_eq!((ropes(name, "aft guy"), ropes(name, "fore guy")), (aft, fore), "{name}");
    }
}

#[test]
fn a_plate_goes_into_a_page_without_a_name_of_its_own() {
    // Many stand in one page: what is called by name would be called twice.
    for (name, step) in BuildStep::all() {
        let plate = build_plate(step, &lesson(RIGS[0]), &words(), true).unwrap();
        let element = svg_in_page(&plate.scene, "A <plate>");
        assert!(
            element.contains("aria-label=\"A &lt;plate&gt;\"") && element.contains("var(--ink)"),
            "{name}"
        );
        assert!(!element.contains("id=") && !element.contains("url(") && !element.contains("=\"#"), "{name}");
    }
}

#[test]
fn every_step_is_drawn_as_it_was() {
    for (name, step) in BuildStep::all() {
        let file = if name.contains("guy") || name.contains("system") { RIGS[2] } else { RIGS[3] };
        let plate = build_plate(step, &lesson(file), &words(), name == "upright").unwrap();
        crate::sample::hold("build_steps", &name.replace(' ', "_"), &plate.scene);
    }
}
