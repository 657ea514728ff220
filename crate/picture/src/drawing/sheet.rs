//! A sheet: a picture in the making, and what its labels must keep clear of.

use super::vec2::P;
use crate::label_layout::ROOM;
use crate::sort_few::sort_few;
use crate::{
    Area, Label, LabelKey, Obstacle, PROJECTOR, Row, Scene, Seat, Seats, draw_labels, seat_labels,
    seats_taken,
};

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

    /// The boxes of labels that have their places for sure: of rank 0, with one seat.
    pub(crate) fn taken(&self) -> impl Iterator<Item = Area> + '_ {
        let sure = |label: &&Label| label.rank == 0 && label.seats.len() == 1;
        self.labels.iter().filter(sure).filter_map(|label| {
            let seat = label.seats.first()?;
            Some(seat.bounds(label.size(self.scene.k)))
        })
    }

    /// How much of ropes and legs a box with room round it would cover, px²; `None` where it meets an arrow or a
    /// label that has its place for sure, or leaves `inside`.
    pub(crate) fn cover(&self, bounds: Area, inside: Area) -> Option<f64> {
        let roomy = bounds.grown(ROOM * self.scene.k);
        let mut cost = 0.0;
        for each in &self.obstacles {
            let covered = each.covered(roomy);
            if covered > 0.0 && !each.soft {
                return None;
            }
            cost += covered;
        }
        let free = inside.holds(bounds) && !self.taken().any(|other| other.meets(roomy));
        free.then_some(cost)
    }

    /// The label put up last is left out rather than laid over anything.
    pub(crate) fn timid(&mut self) {
        if let Some(label) = self.labels.last_mut() {
            label.timid = true;
        }
    }

    /// Puts up a label.
    #[inline(never)]
    pub(crate) fn label(&mut self, key: LabelKey, rank: u8, rows: Vec<Row>, seats: Vec<Seat>) {
        self.labels.push(Label { key, rows, seats, rank, timid: false, in_line: false });
    }

    /// Seats the labels within `inside`, as in the last frame where they can, and draws them. A projector shows at
    /// most seven: those of the lowest ranks.
    pub(crate) fn finish(mut self, inside: Area, before: Option<&Seats>) -> Finished {
        let k = self.scene.k;
        if k >= PROJECTOR {
            sort_few(&mut self.labels, |label| f64::from(label.rank));
            self.labels.truncate(7);
        }
        let Self { mut scene, labels, obstacles } = self;
        let none = Seats::default();
        let seated = seat_labels(&labels, &obstacles, inside, k, before.unwrap_or(&none));
        draw_labels(&mut scene, &labels, &seated);
        let (mut places, mut dropped) = (Vec::new(), Vec::new());
        for (i, label) in labels.iter().enumerate() {
            match seated.iter().find(|each| each.label == i) {
                Some(each) => places.push((label.key, each.bounds)),
                None => dropped.push(label.key),
            }
        }
        Finished { scene, labels: places, dropped, seats: seats_taken(&labels, &seated) }
    }
}

/// A picture with its labels in their places.
pub(crate) struct Finished {
    pub scene: Scene,
    /// What each label covers, px.
    pub labels: Vec<(LabelKey, Area)>,
    /// What there was no room for.
    pub dropped: Vec<LabelKey>,
    /// For the next frame.
    pub seats: Seats,
}
