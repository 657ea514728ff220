//! A force on its part: as long as it is to scale, or as there is room.

use super::arrow;
use super::rope::broken;
use super::sheet::Sheet;
use super::vec2::{P, along, between};
use crate::Kind;

/// A force to draw.
pub(crate) struct Length {
    pub kind: Kind,
    /// Its tail, px.
    pub tail: P,
    /// The way it acts, a unit step.
    pub way: P,
    /// Its length to scale, px.
    pub full: f64,
    /// How far there is room, px.
    pub room: f64,
    pub part: &'static str,
}

impl Length {
    /// Draws it; one that is cut short shows a break. Gives its ends, px.
    pub(crate) fn draw(&self, sheet: &mut Sheet) -> (P, P) {
        let room = self.room.max(12.0 * sheet.scene.k);
        let tip = along(self.tail, self.way, self.full.min(room));
        arrow::force(sheet, self.kind, self.tail, tip, self.way, self.part);
        if self.full > room {
            broken(&mut sheet.scene, between(self.tail, tip, 0.45), self.way);
        }
        (self.tail, tip)
    }
}
