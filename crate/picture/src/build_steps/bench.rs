//! The head on the bench: both poles side by side on the ground, seen from above, close to where they are lashed. Poles, gap,
//! rope and turns are those of the rig.

use super::board::{Board, SIZE};
use super::strand::{smooth, strand};
use crate::drawing::vec2::P;
use crate::{Path, Role, Scene};
use outlean_rig::Rig;
use outlean_rig::strength::Laid;
use outlean_rigfile::fixed;

/// The two poles, and what is laid round them.
#[derive(Clone, Copy)]
pub(super) struct Bench {
    /// Middle of the plate between the poles, px.
    middle: f64,
    /// Middle of the band of turns, px from the left.
    mark: f64,
    /// Half the gap between the poles at the mark, px.
    gap: f64,
    /// Thickness of a pole at the mark and at its tip, px.
    thick: (f64, f64),
    /// Where the tips are, px from the left.
    tips: f64,
    /// Half the thickness of the rope, px.
    rope: f64,
    /// How many turns are drawn.
    turns: u32,
    fraps: u32,
    /// The lashing as it is told.
    laid: Laid,
}

/// How much of the lashing is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum Done {
    Spacer,
    FirstHitch,
    Wraps,
    Fraps,
    LastHitch,
    SpacerOut,
}

impl Bench {
    pub(super) fn new(rig: &Rig) -> Self {
        let (leg, lashing) = (rig.legs.left, rig.gear.lashing);
        let pole = leg.pole;
        let tip = pole.tip_diameter.or(pole.butt_diameter).unwrap_or(0.1);
        let girth = lashing.girth_of(&leg);
        let thick = girth.map_or(tip, |girth| girth / core::f64::consts::PI);
        let laid = lashing.as_laid();
        let spacer = laid.spacer;
        let below = leg.lashing_below_tip.max(0.15);
        // As large as the poles' height and what is above the lashing allow.
        let scale = (146.0 / (2.0 * thick + spacer)).min(190.0 / below);
        // As many as can be told apart.
        let drawn = |turns: f64| turns.clamp(1.0, 16.0) as u32;
        Self {
            middle: 0.5 * SIZE.1 + 2.0,
            tips: SIZE.0 - 12.0,
            mark: SIZE.0 - 12.0 - below * scale,
            gap: 0.5 * spacer * scale,
            thick: (thick * scale, tip * scale),
            rope: 0.5 * (lashing.rope.unwrap_or(0.01) * scale).max(4.0),
            turns: drawn(laid.turns),
            fraps: drawn(laid.frapping),
            laid,
        }
    }

    /// Upper and lower edge of a pole at x: `side` −1 the upper one, 1 the lower.
    fn pole(&self, side: f64, x: f64) -> (f64, f64) {
        let share = (x - self.mark) / (self.tips - self.mark);
        let thick = self.thick.0 + (self.thick.1 - self.thick.0) * share;
        let inner = self.middle + side * self.gap;
        let outer = inner + side * thick;
        if side < 0.0 { (outer, inner) } else { (inner, outer) }
    }

    /// From the left end of the band of turns to its right end.
    fn band(&self) -> (f64, f64) {
        let half = f64::from(self.turns) * self.rope;
        (self.mark - half, self.mark + half)
    }

    fn poles(&self, board: &mut Board) {
        for side in [-1.0, 1.0] {
            let x = [8.0, self.tips];
            let ((a, b), (c, d)) = (self.pole(side, x[0]), self.pole(side, x[1]));
            // Broken off on the left, cut on the right.
            let steps = [(0.0, 0.0), (6.0, 0.25), (-3.0, 0.5), (5.0, 0.75), (0.0, 1.0)];
            let mut outline = vec![(x[1], c), (x[1], d)];
            outline.extend(steps.iter().rev().map(|(dx, share)| (x[0] + dx, a + (b - a) * share)));
            board.scene().part_path(Path::polygon(&outline), Role::Timber, "pole");
            grain(board.scene(), (x[0] + 12.0, x[1] - 6.0), |x| self.pole(side, x));
            let middle = |x| {
                let (top, bottom) = self.pole(side, x);
                (x, 0.5 * (top + bottom))
            };
            board.sheet.keep_clear(middle(x[0]), middle(x[1]), 0.5 * self.thick.0, true);
        }
    }

    /// The marks, measured from the butts, in chalk across each pole.
    fn marks(&self, board: &mut Board) {
        for side in [-1.0, 1.0] {
            let (top, bottom) = self.pole(side, self.mark);
            board.scene().line((self.mark, top), (self.mark, bottom), Role::Stop, "mark");
        }
    }

    fn spacer_block(&self) -> [P; 4] {
        let left = self.band().1 + 16.0;
        let (top, bottom) = (self.middle - self.gap, self.middle + self.gap);
        [(left, top), (left + 34.0, top), (left + 34.0, bottom), (left, bottom)]
    }

    fn spacer(&self, board: &mut Board, out: bool) {
        let block = self.spacer_block();
        let role = if out { Role::Strobe } else { Role::Timber };
        board.scene().part_path(Path::polygon(&block), role, "spacer");
        if !out && let [(left, top), _, (right, bottom), _] = block {
            // End grain: it stands on end between the poles.
            let mut rings = Path::new();
            for share in [0.3, 0.62] {
                let x = left + (right - left) * share;
                rings.move_to((x - 5.0, top + 2.0));
                rings.cubic_to((x + 2.0, top + 6.0), (x + 2.0, bottom - 6.0), (x - 5.0, bottom - 2.0));
            }
            board.scene().part_path(rings, Role::Turn, "spacer");
        }
    }

    /// A clove hitch on one pole about x: two turns that end under one diagonal. Its ends leave at `x` on either edge of the
    /// pole. Drawn over the pole.
    fn hitch(&self, scene: &mut Scene, side: f64, x: f64) {
        let d = 3.2 * self.rope;
        let over = 0.6 * self.rope;
        let at = |dx: f64, high: bool| {
            let (top, bottom) = self.pole(side, x + dx);
            (x + dx, if high { top - over } else { bottom + over })
        };
        let turns = [
            [at(0.0, false), at(-d, true)],
            [at(d, false), at(0.0, true)],
            // Over both.
            [at(-d, false), at(d, true)],
        ];
        for turn in turns {
            strand(scene, &bowed(turn), self.rope, "hitch");
        }
    }

    /// Where the first hitch is, and the last.
    fn hitch_at(&self) -> f64 {
        self.band().0 - 8.0 - 4.4 * self.rope
    }

    fn first_hitch(&self, board: &mut Board, leads: bool) {
        let x = self.hitch_at();
        let (top, bottom) = self.pole(-1.0, x);
        // Its tail, and what leads into the turns: under the lower pole at the first of them.
        let tail =
            [(x + 1.0, top - 1.0), (x - 8.0, top - 9.0), (x - 26.0, top - 12.0), (x - 44.0, top - 6.0)];
        strand(board.scene(), &smooth(&tail), self.rope, "tail");
        if leads {
            let first = self.band().0 + self.rope;
            let under = self.pole(1.0, first).1 + 0.6 * self.rope;
            let lead =
                [(x, bottom), (x + 3.0, self.middle), (first - 4.0, under - 14.0), (first - 1.0, under)];
            strand(board.scene(), &smooth(&lead), self.rope, "lead");
        } else {
            let lead = [
                (x, bottom),
                (x + 4.0, self.middle + 6.0),
                (x + 16.0, self.middle + 50.0),
                (x + 48.0, 226.0),
            ];
            strand(board.scene(), &smooth(&lead), self.rope, "lead");
            board.sheet.keep_clear_along(&smooth(&lead), self.rope, false);
        }
        self.hitch(board.scene(), -1.0, x);
    }

    fn wraps(&self, board: &mut Board) {
        let (left, right) = self.band();
        for turn in 0..self.turns {
            let x = left + (2.0 * f64::from(turn) + 1.0) * self.rope;
            let lean = 0.5 * self.rope;
            let over = 0.7 * self.rope;
            let (low, high) = (self.pole(1.0, x).1 + over, self.pole(-1.0, x).0 - over);
            strand(board.scene(), &bowed([(x - lean, low), (x + lean, high)]), self.rope, "wrap");
        }
        let half = 0.5 * (right - left) + self.rope;
        let (high, low) = (self.pole(-1.0, left).0 + half, self.pole(1.0, left).1 - half);
        board.sheet.keep_clear((self.mark, high), (self.mark, low), half, true);
    }

    fn fraps(&self, board: &mut Board) {
        let (left, right) = self.band();
        let count = f64::from(self.fraps);
        // Side by side in the gap, closer than they are thick where it is narrow.
        let pitch = (2.0 * self.rope).min((2.0 * self.gap - self.rope) / count.max(1.0));
        for turn in 0..self.fraps {
            let y = self.middle + (f64::from(turn) - 0.5 * (count - 1.0)) * pitch;
            let line =
                [(left - 1.4 * self.rope, y - 0.3 * pitch), (right + 1.4 * self.rope, y + 0.3 * pitch)];
            strand(board.scene(), &line, self.rope, "frap");
        }
    }

    /// A last hitch on the lower pole: what leads to it from the gap, the hitch, its tail with half hitches.
    fn last_hitch(&self, board: &mut Board) {
        let x = self.hitch_at();
        let (top, bottom) = self.pole(1.0, x);
        let lead = [(self.band().0 - self.rope, self.middle), (x + 6.0, self.middle + 1.0), (x, top)];
        strand(board.scene(), &smooth(&lead), self.rope, "lead");
        self.hitch(board.scene(), 1.0, x);
        // Two half hitches round the same pole, the tail leaving them.
        for back in [6.0, 8.2] {
            let x = x - back * self.rope;
            let (top, bottom) = self.pole(1.0, x);
            let turn = [
                (x - 0.5 * self.rope, bottom + 0.6 * self.rope),
                (x + 0.5 * self.rope, top - 0.6 * self.rope),
            ];
            strand(board.scene(), &bowed(turn), self.rope, "half hitch");
        }
        let tail = [
            (x, bottom),
            (x - 3.0 * self.rope, bottom + 7.0),
            (x - 9.0 * self.rope, bottom + 9.0),
            (x - 46.0, bottom + 6.0),
        ];
        strand(board.scene(), &smooth(&tail), self.rope, "tail");
    }

    /// The lashing as far as it is made.
    pub(super) fn draw(&self, board: &mut Board, done: Done) {
        self.poles(board);
        if done < Done::Wraps {
            self.marks(board);
        }
        self.spacer(board, done == Done::SpacerOut);
        if done >= Done::FirstHitch {
            self.first_hitch(board, done >= Done::Wraps);
        }
        if done >= Done::Wraps {
            self.wraps(board);
        }
        if done >= Done::Fraps {
            self.fraps(board);
        }
        if done >= Done::LastHitch {
            self.last_hitch(board);
        }
        self.names(board, done);
    }

    fn names(&self, board: &mut Board, done: Done) {
        let (left, right) = self.band();
        let (above, below) = (self.pole(-1.0, self.mark).0, self.pole(1.0, self.mark).1);
        let hitch = self.hitch_at();
        match done {
            Done::Spacer => {
                board.name("steps.mark", (self.mark, above), (-0.4, -1.0), 6.0);
                let [.., (x, y)] = self.spacer_block();
                let wide = Board::millimetres(self.laid.spacer);
                board.name_with("steps.spacer", ("wide", &wide), (x + 17.0, y - 4.0), (0.3, 1.0), 66.0);
            }
            Done::FirstHitch => {
                board.name("steps.clove_hitch", (hitch + 8.0, above + 4.0), (0.8, -1.0), 10.0);
                board.name("steps.running_end", (hitch + 44.0, 222.0), (1.0, -0.2), 10.0);
            }
            Done::Wraps => {
                let turns = fixed(self.laid.turns, 0);
                board.name_with("steps.wraps", ("count", &turns), (self.mark, above - 2.0), (0.5, -1.0), 6.0);
                let end = [
                    (right - self.rope, below - 6.0),
                    (right + 4.0, below + 7.0),
                    (right + 22.0, below + 14.0),
                ];
                strand(board.scene(), &smooth(&end), self.rope, "running end");
                board.pulls((right + 22.0, below + 14.0), (right + 52.0, below + 24.0));
                board.name("steps.each_tight", (right + 56.0, below + 23.0), (1.0, 0.0), 8.0);
            }
            Done::Fraps => {
                let fraps = fixed(self.laid.frapping, 0);
                board.name_with(
                    "steps.fraps",
                    ("count", &fraps),
                    (right + 3.0, self.middle),
                    (0.4, 1.0),
                    92.0,
                );
                let y = self.middle;
                let end = [(left - self.rope, y), (left - 22.0, y + 1.0), (left - 44.0, y - 1.0)];
                strand(board.scene(), &smooth(&end), self.rope, "running end");
                board.pulls((left - 44.0, y - 1.0), (left - 82.0, y - 4.0));
            }
            Done::LastHitch => {
                board.name("steps.other_leg", (hitch + 6.0, below - 2.0), (1.0, 0.3), 76.0);
                board.name("steps.tails", (8.0, below + 11.0), (0.35, 1.0), 5.0);
            }
            Done::SpacerOut => {
                let [(x, y), ..] = self.spacer_block();
                board.moves(&[(x + 17.0, y + self.gap), (x + 62.0, y + self.gap)]);
                board.name("steps.spacer_out", (x + 40.0, y + self.gap), (0.2, 1.0), 92.0);
                board.name("steps.every_turn", (self.mark, above - 2.0), (0.5, -1.0), 6.0);
            }
        }
    }
}

/// A turn over a pole, from edge to edge, a little bowed.
fn bowed([from, to]: [P; 2]) -> Vec<P> {
    let middle = (0.5 * (from.0 + to.0), 0.5 * (from.1 + to.1));
    smooth(&[from, middle, to])
}

/// Draws grain along a pole from x to x, whose edges `edges` gives.
pub(super) fn grain(scene: &mut Scene, (from, to): (f64, f64), edges: impl Fn(f64) -> (f64, f64)) {
    let mut path = Path::new();
    for (share, start, end) in [
        (0.22, 0.05, 0.34),
        (0.3, 0.5, 0.93),
        (0.55, 0.0, 0.2),
        (0.62, 0.36, 0.7),
        (0.8, 0.12, 0.5),
        (0.84, 0.66, 0.97),
    ] {
        let at = |along: f64, bow: f64| {
            let x = from + (to - from) * along;
            let (top, bottom) = edges(x);
            (x, top + (bottom - top) * (share + bow))
        };
        path.move_to(at(start, 0.0));
        path.cubic_to(
            at(start + 0.3 * (end - start), 0.03),
            at(start + 0.7 * (end - start), -0.03),
            at(end, 0.01),
        );
    }
    scene.part_path(path, Role::GroundStroke, "grain");
}
