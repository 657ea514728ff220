//! Pictures in other languages than English: longer names go where there is room, or are left out, and never meet.

use crate::sample::{Solved, in_other_languages, keeps, said};
use crate::{
    BuildStep, FrontViewInput, HandleState, PolygonInput, Scene, Show, SideViewInput, build_plate,
    front_view, polygon, side_view,
};
use outlean_rig::Rig;

/// A phone, a part of a page, a wide screen, a projector.
const SIZES: [(f64, f64, f64); 4] =
    [(288.0, 263.0, 0.85), (420.0, 480.0, 1.0), (1053.0, 711.0, 1.25), (1277.0, 862.0, 2.1)];

/// Every rig of the lessons by its file, at three leans.
fn rigs() -> Vec<(String, Rig)> {
    let lessons = concat!(env!("CARGO_MANIFEST_DIR"), "/../../lessons");
    let inside = |folder: &std::path::Path| std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut all = Vec::new();
    for folder in inside(std::path::Path::new(lessons)).map(|entry| entry.path()) {
        for file in inside(&folder).map(|entry| entry.path()) {
            if file.extension().is_none_or(|ending| ending != "toml") {
                continue;
            }
            let text = std::fs::read_to_string(&file).unwrap();
            let Some(read) = outlean_rigfile::read(&text).0 else { continue };
            for more in [0.0_f64, 9.0, 20.0] {
                let mut rig = read.rig.clone();
                rig.lean += more.to_radians();
                all.push((format!("{} {more}", file.display()), rig));
            }
        }
    }
    assert!(all.len() > 60, "{}", all.len());
    all
}

/// The words of a picture that stand in no file of words: in the language that nobody speaks every word has an accent.
fn plain(scene: &Scene) -> Vec<String> {
    let words = said(scene);
    let words = words.iter().flat_map(|text| text.split(|c: char| !c.is_alphabetic()));
    words.filter(|word| word.len() > 2 && word.is_ascii()).map(str::to_owned).collect()
}

#[test]
fn names_in_other_languages_meet_nothing_in_any_view() {
    for (file, rig) in rigs() {
        let Some(solved) = Solved::of(rig) else { continue };
        for (language, words) in &in_other_languages("picture") {
            for size in SIZES {
                let of = || solved.on(size, words);
                let tipping = solved.solution.tips().map(|_| 0.8);
                let show = Show { ground_forces: true, resultant: true, ..Show::USUAL };
                let at = |why| format!("{file}, {language}, {size:?}: {why}");
                let side = side_view(&SideViewInput { tipping, show, ..SideViewInput::still(of(), show) });
                keeps(&side.scene, &side.labels).map_err(at).unwrap();
                let (handle, seats) = (HandleState::Rest, None);
                let front = front_view(&FrontViewInput {
                    of: of(),
                    scale: None,
                    force_scale: None,
                    show,
                    handle,
                    tipping,
                    seats,
                });
                keeps(&front.scene, &front.labels).map_err(at).unwrap();
                let forces = polygon(&PolygonInput { of: of(), px_per_newton: None, seats: None });
                keeps(&forces.scene, &forces.labels).map_err(at).unwrap();
                for scene in [&side.scene, &front.scene, &forces.scene] {
                    assert!(*language == "es" || plain(scene).is_empty(), "{file}: {:?}", plain(scene));
                }
            }
        }
    }
}

#[test]
fn names_in_other_languages_meet_nothing_on_plates() {
    let mut left_out = [0, 0];
    for (file, rig) in rigs() {
        for ((language, words), left_out) in in_other_languages("steps").iter().zip(&mut left_out) {
            for (name, step) in BuildStep::all() {
                let Ok(plate) = build_plate(step, &rig, words, true) else { continue };
                keeps(&plate.scene, &plate.labels)
                    .map_err(|why| format!("{file}, {language}, {name}: {why}"))
                    .unwrap();
                assert!(
                    *language == "es" || plain(&plate.scene).is_empty(),
                    "{name}: {:?}",
                    plain(&plate.scene)
                );
                *left_out += plate.dropped.len();
            }
        }
    }
    println!("left out for want of room: {left_out:?}");
}
