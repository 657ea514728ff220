//! Still pictures of a rig, for pages before their program runs and where it cannot.

use outlean_picture::{Inks, Show, SideViewInput, Subject, Words, side_view as view, svg};
use outlean_rig::{Rig, solve, working_range};
use outlean_rigfile::Units;

/// The side view of a rig as an SVG file, with its forces or without; `None` for a rig that cannot be solved.
pub fn side_view(rig: &Rig, words: &Words, forces: bool) -> Option<String> {
    let solution = solve(rig).ok()?;
    let range = working_range(rig).ok()?;
    let of = Subject {
        rig,
        solution: &solution,
        range: &range,
        over: &[],
        units: Units::Metric,
        words,
        width: 830.0,
        height: 560.0,
        k: 1.0,
        grown: 1.0,
    };
    let input = SideViewInput::still(of, if forces { Show::USUAL } else { Show::RIG_ALONE });
    let title = words.say("side.title");
    Some(svg(&view(&input).scene, &Inks::LIGHT, title, ""))
}
