//! The one handle shape: a pentagon that points at a scale.

use super::local::{Local, Place, table};
use super::vec2::P;
use crate::{Role, Scene};

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

/// The pentagon: back from its point, aside; px at k = 1.
const SHAPE: [Place; 5] = table([(0.0, 0.0), (10.0, -HALF), (LENGTH, -HALF), (LENGTH, HALF), (10.0, HALF)]);
/// Its frame, with 2 px of paper between.
const FRAME: [Place; 4] =
    table([(-5.0, HALF + 5.0), (-5.0, -HALF - 5.0), (LENGTH + 5.0, -HALF - 5.0), (LENGTH + 5.0, HALF + 5.0)]);

/// Draws the pentagon with its point at `tip`, pointing along the unit step `way`. Gives its middle.
pub(crate) fn pointer(scene: &mut Scene, tip: P, way: P, state: HandleState, part: &'static str) -> P {
    let local = Local::back_from(tip, way, scene.k);
    if state == HandleState::Focus {
        local.closed(scene, &FRAME, Role::GripFocus, part);
    }
    let role = if state == HandleState::Dragged { Role::GripDragged } else { Role::Grip };
    local.closed(scene, &SHAPE, role, part);
    if state == HandleState::Hover {
        scene.circle(local.at(12.0, 0.0), 2.6 * scene.k, Role::Pin, part);
    }
    local.at(11.0, 0.0)
}
