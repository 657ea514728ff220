//! The one handle shape: a pentagon that points at a scale.

use super::vec2::{P, add, left_of, sub, times};
use crate::{Path, Role, Scene};

/// What a handle is doing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HandleState {
    /// Nothing: hollow.
    #[default]
    Rest,
    /// A pointer is over it: hollow with a dot.
    Hover,
    /// It has the focus: framed.
    Focus,
    /// It is being dragged: solid.
    Dragged,
}

/// Length of the pentagon, px at k = 1.
pub(crate) const LENGTH: f64 = 18.5;
/// Half its width.
pub(crate) const HALF: f64 = 7.5;

/// Draws the pentagon with its point at `tip`, pointing along the unit step `way`. Gives its middle.
pub(crate) fn pointer(scene: &mut Scene, tip: P, way: P, state: HandleState, part: &'static str) -> P {
    let k = scene.k;
    let at = |back: f64, aside: f64| add(sub(tip, times(way, back * k)), times(left_of(way), aside * k));
    let middle = at(11.0, 0.0);
    if state == HandleState::Focus {
        // 2 px of paper between the pentagon and its frame.
        let (half, end) = (HALF + 5.0, LENGTH + 5.0);
        let frame = Path::polygon([at(-5.0, half), at(-5.0, -half), at(end, -half), at(end, half)]);
        scene.part_path(frame, Role::GripFocus, part);
    }
    let shape =
        Path::polygon([at(0.0, 0.0), at(10.0, -HALF), at(LENGTH, -HALF), at(LENGTH, HALF), at(10.0, HALF)]);
    let role = if state == HandleState::Dragged { Role::GripDragged } else { Role::Grip };
    scene.part_path(shape, role, part);
    if state == HandleState::Hover {
        scene.circle(at(12.0, 0.0), 2.6 * k, Role::Pin, part);
    }
    middle
}
