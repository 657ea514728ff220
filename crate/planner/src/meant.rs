//! Meant: what a field means, in a figure of the rig and in words.

use crate::form::means;
use crate::meaning::{Plate, meaning, sketched};
use outlean_picture::svg_in_page;
use outlean_rig::{Rig, solve};
use outlean_rigfile::{Words, read, written};
use serde::Serialize;

/// A figure and what stands under it.
#[derive(Serialize, Default)]
pub struct Meant {
    /// As SVG; empty where no rig was ever read.
    picture: String,
    /// What is marked in it, its value, and from where it is seen; nothing where nothing is marked.
    said: String,
}

/// What the field of a key means on the rig of a text, or on the one that was `seen` last while the text makes none.
pub fn meant(text: &str, key: &str, seen: &mut Option<Rig>, words: &Words, plate: Plate) -> Meant {
    if let Some(file) = read(text).0 {
        *seen = Some(file.rig);
    }
    let Some((rig, solution)) = seen.as_ref().and_then(|rig| Some((rig, solve(rig).ok()?))) else {
        return Meant::default();
    };
    let found = meaning(key, rig, &solution);
    let value = written(text).ok().and_then(|mut all| all.remove(key)).filter(|value| !value.is_empty());
    let scene = sketched(rig, &solution, found.as_ref(), value.as_deref().unwrap_or("?"), plate);
    let said = found.map(|found| {
        let value = value.unwrap_or_else(|| words.say("planner.meant.unsaid").to_owned());
        let view = words.say(&format!("planner.meant.{}", found.view.name())).to_owned();
        words.fill("planner.meant", &[("name", &means(key, words)), ("value", &value), ("view", &view)])
    });
    let told = said.as_deref().unwrap_or_else(|| words.say("planner.meant.none"));
    Meant { picture: svg_in_page(&scene, told), said: said.unwrap_or_default() }
}
