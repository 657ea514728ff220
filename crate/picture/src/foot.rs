//! The foot of a printed picture: paper behind it, and under a hairline the caution that every print carries.

use crate::{Anchor, Item, Lettering, Path, Role, Scene, Shape, Tone, type_scale, width};

/// From one line to the next, and the room above the first, px at type of size 1.
const LINE: f64 = 18.0;
const ABOVE: f64 = 16.0;

/// The text in lines that fit a plate of this width.
fn lines(text: &str, plate: f64, k: f64) -> Vec<String> {
    let style = Lettering::Caution.style(Tone::Ink, k);
    let room = plate - 24.0 * k;
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {word}"), style.face, style.size) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// How high the foot of a picture of this width is, px: to be taken from the height before the picture is drawn.
#[must_use]
pub fn foot_height(text: &str, width: f64, k: f64) -> f64 {
    (ABOVE + LINE * lines(text, width, k).len() as f64) * type_scale(k)
}

/// The picture on paper, higher by [`foot_height`], with `text` in its foot.
#[must_use]
pub fn footed(scene: Scene, text: &str) -> Scene {
    let (k, scale) = (scene.k, type_scale(scene.k));
    let top = scene.height;
    let mut out = Scene::new(scene.width, top + foot_height(text, scene.width, k), k);
    out.path(Path::rectangle(0.0, 0.0, out.width, out.height), Role::Break);
    out.items.extend(scene.items);
    out.still = scene.still + 1;
    let margin = 12.0 * k;
    out.line((margin, top), (out.width - margin, top), Role::AxisLine, "foot");
    let mut baseline = top + (ABOVE + 2.0) * scale;
    for line in lines(text, out.width, k) {
        let shape = Shape::Text { x: margin, y: baseline, text: line, anchor: Anchor::Start };
        out.items.push(Item { shape, role: Role::Text(Lettering::Caution, Tone::Ink), part: "foot" });
        baseline += LINE * scale;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str =
        "Soil, timber and knots vary: whoever is in charge inspects the rig and load-tests it.";

    #[test]
    fn every_word_stands_in_the_foot_and_no_line_leaves_the_plate() {
        for (plate, k) in [(200.0, 0.85), (420.0, 1.0), (830.0, 1.0), (900.0, 2.1)] {
            let scene = footed(Scene::new(plate, 100.0, k), TEXT);
            let style = Lettering::Caution.style(Tone::Ink, k);
            let mut said = Vec::new();
            for item in &scene.items {
                if let Shape::Text { x, y, text, .. } = &item.shape {
                    assert!(x + width(text, style.face, style.size) <= plate, "{text} on {plate}");
                    assert!((100.0..scene.height).contains(y));
                    said.push(text.as_str());
                }
            }
            assert_eq!(said.join(" "), TEXT);
            assert!((scene.height - 100.0 - foot_height(TEXT, plate, k)).abs() < 1e-9);
        }
    }

    #[test]
    fn the_picture_itself_stays_as_it_is_on_paper() {
        let mut scene = Scene::new(300.0, 100.0, 1.0);
        scene.line((1.0, 2.0), (3.0, 4.0), Role::Rope, "rope");
        scene.still = 1;
        let footed = footed(scene.clone(), TEXT);
        assert_eq!(footed.items.get(1), scene.items.first());
        assert_eq!((footed.still, footed.items.first().map(|item| item.role)), (2, Some(Role::Break)));
    }
}
