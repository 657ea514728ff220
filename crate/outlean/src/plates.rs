//! The build drawn step by step, as a list of plates in a page: number, picture, what is said of it, what is held for.

use crate::lesson::{BuildBlock, Plate, inline};
use crate::markup::escaped;
use outlean_picture::{Words, build_plate, build_told, svg_in_page};

/// The list. Each plate is a step that a speaker can go to. `words` are those of plates.
pub fn list(block: &BuildBlock, words: &Words) -> String {
    let mut out = format!("<ol class=\"plates\" id=\"{}\" role=\"list\">\n", escaped(&block.name));
    for (number, plate) in (1..).zip(&block.steps) {
        let (picture, said) = (picture(block, plate, words), caption(plate, words));
        out.push_str(&format!(
            "<li id=\"{}-{number}\"><figure>{picture}<figcaption>{said}</figcaption></figure></li>\n",
            escaped(&block.name)
        ));
    }
    out + "</ol>\n"
}

/// The picture with what it shows in words; none of a rig that has no geometry, which no lesson has.
fn picture(block: &BuildBlock, Plate { draws, hold, .. }: &Plate, words: &Words) -> String {
    let told = build_told(*draws, &block.rig, words);
    build_plate(*draws, &block.rig, words, hold.is_some())
        .map(|plate| svg_in_page(&plate.scene, &told))
        .unwrap_or_default()
}

/// What is said of it, and what is looked at before anyone goes on.
fn caption(Plate { says, hold, .. }: &Plate, words: &Words) -> String {
    let says = inline::html(says);
    match hold {
        None => says,
        Some(hold) => {
            let mark = escaped(words.say("steps.hold"));
            format!("{says} <strong class=\"hold\">{mark}:</strong> {}", inline::html(hold))
        }
    }
}
