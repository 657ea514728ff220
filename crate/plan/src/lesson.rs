//! A lesson out of a plan: its text, to be written on. The rig file beside it is the plan's own.

use outlean_rig::{Rig, solve};
use outlean_rigfile::fixed;

const TEMPLATE: &str = include_str!("lesson.md");

/// The text of a lesson about a rig, called `title`, its questions named after `name` (small letters, digits, hyphens): one
/// estimate, drawn about the lean and load as planned, and the figure. `None` for a rig that does not stand.
#[must_use]
pub fn lesson_of(rig: &Rig, title: &str, name: &str) -> Option<String> {
    let solution = solve(rig).ok()?;
    let compression = solution.forces()?.compression.left.abs().max(100.0);
    let lean = libm::round(rig.lean.to_degrees());
    let to_five = |mass: f64| libm::round(mass / 5.0).max(1.0) * 5.0;
    let (mass_from, mass_to) = (to_five(0.8 * rig.load.mass), to_five(1.2 * rig.load.mass).max(10.0));
    let whole = |value: f64| fixed(value, 0);
    let title: String = title.chars().filter(|letter| !letter.is_control()).collect();
    let places = [
        ("{title}", title.replace('\\', "\\\\").replace('"', "\\\"")),
        ("{name}", name.to_owned()),
        ("{least}", fixed(compression / 5000.0, 2)),
        ("{most}", fixed(compression / 200.0, 2)),
        ("{lean_from}", whole(lean - 3.0)),
        ("{lean_to}", whole(lean + 3.0)),
        ("{mass_from}", whole(mass_from)),
        ("{mass_to}", whole(mass_to)),
    ];
    // The title last: nothing in it is a place.
    let text =
        places.iter().skip(1).fold(TEMPLATE.to_owned(), |text, (place, value)| text.replace(place, value));
    let (place, value) = places.first()?;
    Some(text.replacen(place, value, 1))
}
