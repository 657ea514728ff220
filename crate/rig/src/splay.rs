//! Splay: two guys that stand apart, one to either side of the frame's middle, and hold together.

use crate::guy::Station;
use crate::solve::Posture;
use crate::{Layout, Point, Rig, Side};

/// A guy stands to a side from here on: its anchor's distance off the middle of the foot line, along it, over that square
/// to it, about 6°. Our choice: guys meant to stand in the middle are nearer by any tape.
const SPLAYED: f64 = 0.1;

/// The guys, by their numbers, that hold a moment together: one, or two splayed to either side.
#[derive(Clone, Copy)]
pub(crate) struct Together {
    first: usize,
    fellow: Option<usize>,
}

impl Together {
    /// The guy `first` and, where it is splayed to a side, the first other one of its station splayed to the other side, of
    /// those that `can`.
    pub(crate) fn of(rig: &Rig, posture: &Posture, first: usize, can: impl Fn(usize) -> bool) -> Self {
        let stands = |number: usize| {
            let anchor = rig.guys.get(number)?.anchor;
            Some((Station::of(anchor, &posture.layout), splayed_to(anchor, &posture.layout)?))
        };
        let fellow = stands(first).and_then(|(station, side)| {
            let beside = Some((station, side.other()));
            (0..rig.guys.len()).find(|number| stands(*number) == beside && can(*number))
        });
        Self { first, fellow }
    }

    /// How much more each must pull, N, for a moment of `more` N m against the loads; where there is but one, it is named
    /// again with nothing.
    ///
    /// Two take it up as arm over length, as guys of like rope do on legs that do not give, however little they stretch.
    /// One alone would draw the head to its side.
    pub(crate) fn pull(self, posture: &Posture, more: f64) -> [(usize, f64); 2] {
        let Posture { guy_arm, guy_length, .. } = posture;
        let (first, fellow) = (self.first, self.fellow.unwrap_or(self.first));
        let arm_and_length =
            |number: usize| guy_arm.get(number).copied().zip(guy_length.get(number).copied());
        let (Some((arm, length)), Some((other_arm, other_length))) =
            (arm_and_length(first), arm_and_length(fellow))
        else {
            return [(first, 0.0); 2];
        };
        if first == fellow {
            return [(first, more / arm), (first, 0.0)];
        }
        let (by, other_by) = (arm / length, other_arm / other_length);
        let turn = more / (arm * by + other_arm * other_by);
        [(first, turn * by), (fellow, turn * other_by)]
    }

    /// Whether a guy is one of them.
    pub(crate) fn has(self, number: usize) -> bool {
        number == self.first || Some(number) == self.fellow
    }
}

/// The side to which a guy anchored there is splayed, if it is.
pub(crate) fn splayed_to(anchor: Point, layout: &Layout) -> Option<Side> {
    let from_middle = anchor - layout.mid_base;
    let to_left = from_middle.dot(layout.foot_line);
    let splayed = to_left.abs() > SPLAYED * from_middle.dot(layout.forward).abs();
    splayed.then_some(if to_left > 0.0 { Side::Left } else { Side::Right })
}
