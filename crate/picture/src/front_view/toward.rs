//! Ropes that come toward the reader or go away: what the view shows of them would lie over the frame, so that only
//! their beginning is drawn, cut off.

use super::Draft;
use super::stage::Stage;
use crate::drawing::rope::{broken, cut, slack, working};
use crate::drawing::vec2::{P, add, left_of, length, sub, times, unit};
use crate::{Edge, Path, Role, Seat};
use outlean_rig::{Layout, Point};

/// What the view shows of a rope.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Seen {
    /// All of it, up to the sides of the plate.
    Whole {
        /// Whether it goes on beyond the plate.
        cut: bool,
        /// Whether the ground hides its end.
        sunk: bool,
    },
    /// Its beginning: it comes toward the reader, or goes away from them.
    Begins {
        /// Whether toward them.
        toward: bool,
    },
}

/// A rope as seen: from where to where, px.
#[derive(Clone, Copy)]
pub(super) struct Rope {
    pub from: P,
    pub to: P,
    pub way: P,
    pub seen: Seen,
    /// What the view shows of its length.
    pub share: f64,
}

impl Rope {
    /// The rope from `from` on the plate, which is `start` in space, to `end` in space. `aside` says whether it runs so
    /// far to a side that all of it can be seen.
    pub(super) fn new(
        stage: &Stage,
        layout: &Layout,
        (from, start): (P, Point),
        end: Point,
        aside: bool,
        least: f64,
    ) -> Self {
        let ahead = (end - start).dot(layout.forward);
        let there = stage.view.at(end);
        let chord = length(sub(there, from));
        let share = chord / ((end - start).length() * stage.view.scale).max(1e-6);
        let share = share.min(1.0);
        let way = unit(sub(there, from), (0.0, 1.0));
        if !aside {
            let way = if chord < 8.0 * stage.k { (0.0, 1.0) } else { way };
            let to = add(from, times(way, least));
            return Self { from, to, way, seen: Seen::Begins { toward: ahead < 0.0 }, share };
        }
        let (mut to, is_cut) = cut(from, there, stage.inside());
        let mut sunk = false;
        // What goes over the edge and down is hidden by the ground.
        let floor = stage.ground_px(to.0);
        if ahead > 0.0 && to.1 > floor + 1.0 && floor > from.1 {
            let part = (floor - from.1) / (to.1 - from.1);
            to = add(from, times(sub(to, from), part));
            sunk = true;
        }
        Self { from, to, way, seen: Seen::Whole { cut: is_cut && !sunk, sunk }, share }
    }

    /// Draws it straight, with a break where it only begins.
    pub(super) fn draw_taut(&self, draft: &mut Draft, part: &'static str) {
        self.set_off(draft);
        working(&mut draft.sheet, self.from, self.to, part);
        if matches!(self.seen, Seen::Begins { .. }) {
            self.cut_off(draft);
        }
    }

    /// Paper on both sides of a rope that only begins, since it lies over the frame.
    fn set_off(&self, draft: &mut Draft) {
        if matches!(self.seen, Seen::Begins { .. }) {
            let k = draft.stage.k;
            let aside = times(left_of(self.way), 3.2 * k);
            let corners =
                [add(self.from, aside), add(self.to, aside), sub(self.to, aside), sub(self.from, aside)];
            draft.sheet.scene.part_path(Path::polygon(&corners), Role::Break, "");
        }
    }

    /// The break at the very end of a rope that only begins.
    fn cut_off(&self, draft: &mut Draft) {
        let k = draft.stage.k;
        broken(&mut draft.sheet.scene, add(self.to, times(self.way, 8.0 * k)), self.way);
    }

    /// Draws it slack along a curve.
    pub(super) fn draw_slack(&self, draft: &mut Draft, curve: &[P], part: &'static str) {
        self.set_off(draft);
        slack(&mut draft.sheet, curve, part);
        if let [.., before, last] = curve {
            match self.seen {
                Seen::Begins { .. } => self.cut_off(draft),
                Seen::Whole { cut: false, .. } => {}
                Seen::Whole { .. } => {
                    broken(&mut draft.sheet.scene, *last, unit(sub(*last, *before), self.way))
                }
            }
        }
    }

    /// Seats of a label at the end of a rope that only begins here: beside it, first on the side that `side` says
    /// (−1 left, 1 right), then farther off with a leader.
    pub(super) fn seats(&self, stage: &Stage, side: f64) -> Vec<Seat> {
        let k = stage.k;
        let at = sub(self.to, times(self.way, 4.0 * k));
        let mut seats = Vec::new();
        for far in [12.0, 34.0, 52.0, 72.0, 96.0, 124.0] {
            for side in [side, -side] {
                for down in [0.0, 18.0, -18.0, 40.0, -40.0] {
                    let across = if side < 0.0 { Edge::Far } else { Edge::Near };
                    let place = (at.0 + side * far * k, at.1 + down * k);
                    let seat = Seat::at(place, across, Edge::Middle);
                    seats.push(if far < 20.0 && down.abs() < 1.0 {
                        seat
                    } else {
                        seat.led_to((at.0 + 3.0 * side * k, at.1))
                    });
                }
            }
        }
        seats
    }
}
