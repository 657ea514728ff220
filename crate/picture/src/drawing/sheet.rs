//! A sheet: a picture in the making, and what its labels must keep clear of.

use super::vec2::P;
use crate::{Label, LabelKey, Obstacle, Row, Scene, Seat};

/// Shapes, and labels still without a place.
pub(crate) struct Sheet {
    pub scene: Scene,
    pub labels: Vec<Label>,
    pub obstacles: Vec<Obstacle>,
}

impl Sheet {
    pub(crate) fn new(scene: Scene) -> Self {
        Self { scene, labels: Vec::new(), obstacles: Vec::new() }
    }

    /// Asks labels to keep clear of a straight stroke, `half` px on either side: always, or where they can.
    #[inline(never)]
    pub(crate) fn keep_clear(&mut self, from: P, to: P, half: f64, soft: bool) {
        self.obstacles.push(Obstacle { from, to, half, soft });
    }

    /// As [`Self::keep_clear`], of each piece of a line.
    #[inline(never)]
    pub(crate) fn keep_clear_along(&mut self, line: &[P], half: f64, soft: bool) {
        for piece in line.windows(2) {
            if let [from, to] = piece {
                self.keep_clear(*from, *to, half, soft);
            }
        }
    }

    /// Puts up a label.
    #[inline(never)]
    pub(crate) fn label(&mut self, key: LabelKey, rank: u8, rows: Vec<Row>, seats: Vec<Seat>) {
        self.labels.push(Label { key, rows, seats, rank, timid: false, in_line: false });
    }
}
