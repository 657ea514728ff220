//! The site from its right side, as in the side view of a figure: bench, cut and far side, the frame at any lean, its guys, its
//! crew. Lengths, spread, lean, setback and stop are those of the rig.

use super::board::{Board, LOW, SIZE};
use super::crew;
use super::holdfast::{guy, in_line};
use crate::drawing::frame::{lashing, leg_widths, pole, pulley, pulley_radius};
use crate::drawing::ground::{ground, picket};
use crate::drawing::hanging::weight;
use crate::drawing::person::{Pose, STANDING};
use crate::drawing::rope::{hang, slack, working};
use crate::drawing::vec2::{P, add, along, length, sub, unit};
use crate::{Path, Role};
use outlean_rig::{Fault, Guy, Layout, Point, Rig};

/// What a rope does.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Rope {
    Works,
    Slack,
    Off,
}

/// Who stands where.
#[derive(Clone, Copy)]
pub(super) enum Post {
    Aft,
    Fore,
    Feet,
    Lead,
}

/// The site and its frame.
pub(super) struct Site<'r> {
    pub rig: &'r Rig,
    pub scale: f64,
    /// The middle of the foot line, px.
    pub origin: P,
    slant: f64,
    tip: f64,
    pub aft: (f64, f64),
    pub fore: (f64, f64),
    /// How many pickets hold the aft and the fore guy, and how far apart, m.
    pickets: [(u32, f64); 2],
    edge: f64,
}

/// How deep the cut is drawn, m.
const FLOOR: f64 = -1.55;

impl<'r> Site<'r> {
    pub(super) fn new(rig: &'r Rig) -> Result<Self, Fault> {
        let layout = Layout::of(rig, 0.0)?;
        let [aft_guy, fore_guy] = [false, true].map(|ahead| guy(rig, &layout, ahead));
        let anchor = |guy: Option<&Guy>, usual: f64| {
            let at = guy.map(|guy| guy.anchor);
            at.map_or((usual, 0.0), |at: Point| (-layout.setback(at), at.z() - layout.mid_base.z()))
        };
        let slant = layout.slant_height;
        let (aft, fore) = (anchor(aft_guy, -1.6 * slant), anchor(fore_guy, 1.6 * slant));
        let (left, right) = (aft.0 - 1.5, fore.0 + 1.35);
        let scale = ((SIZE.0 - 4.0) / (right - left)).min(112.0 / (slant + rig.legs.left.lashing_below_tip));
        let origin = (0.5 * SIZE.0 - 0.5 * (left + right) * scale, LOW - 58.0);
        let edge = rig.edge.map_or(0.6, |edge| edge.ahead).clamp(0.2, (fore.0 - 1.6).max(0.3));
        let pickets = [aft_guy, fore_guy].map(|guy| in_line(guy.map(|guy| guy.holdfast)));
        Ok(Self { rig, scale, origin, slant, tip: rig.legs.left.lashing_below_tip, aft, fore, pickets, edge })
    }

    pub(super) fn p(&self, (x, z): (f64, f64)) -> P {
        (self.origin.0 + x * self.scale, self.origin.1 - z * self.scale)
    }

    /// The place so far up the frame from its foot line at a lean, m.
    pub(super) fn up(&self, far: f64, lean: f64) -> (f64, f64) {
        (far * libm::sin(lean), far * libm::cos(lean))
    }

    pub(super) fn head(&self, lean: f64) -> (f64, f64) {
        self.up(self.slant, lean)
    }

    pub(super) const fn slant(&self) -> f64 {
        self.slant
    }

    /// How high the ground is at x, m.
    fn level(&self, x: f64) -> f64 {
        if x <= self.edge {
            0.0
        } else if x >= self.far() {
            self.fore.1
        } else {
            self.floor()
        }
    }

    /// How high the floor of the cut is, m: below where the fore guy stands.
    fn floor(&self) -> f64 {
        FLOOR.min(self.fore.1 - 0.6)
    }

    /// Where the far side begins.
    fn far(&self) -> f64 {
        (self.fore.0 - 1.1).max(self.edge + 0.5)
    }

    pub(super) fn ground(&self, board: &mut Board) {
        let (left, right) = (-self.origin.0 / self.scale - 0.5, (SIZE.0 - self.origin.0) / self.scale + 0.5);
        let (floor, far) = (self.floor(), self.far());
        let cut = (self.edge + 0.1).min(0.5 * (self.edge + far));
        let near: Vec<P> = [(left, 0.0), (self.edge, 0.0), (cut, floor), (0.5 * (cut + far), floor)]
            .map(|at| self.p(at))
            .to_vec();
        let over: Vec<P> =
            [(0.5 * (cut + far), floor), (far - 0.12, floor), (far, self.fore.1), (right, self.fore.1)]
                .map(|at| self.p(at))
                .to_vec();
        ground(board.scene(), &near, -1.0, "ground");
        ground(board.scene(), &over, 1.0, "ground");
        board.sheet.keep_clear_along(&near, 3.0, true);
        board.sheet.keep_clear_along(&over, 3.0, true);
    }

    /// Pickets of the holdfasts, as many as there are, away from the pull.
    pub(super) fn holdfasts(&self, board: &mut Board) {
        for ((at, away), (count, apart)) in [(self.aft, -1.0), (self.fore, 1.0)].into_iter().zip(self.pickets)
        {
            for i in 0..count {
                let foot = self.p((at.0 + away * apart * f64::from(i), at.1));
                if i + 1 < count {
                    // From the head of one to the foot of the next.
                    let top = self.p((at.0 + away * (apart * f64::from(i) + 0.1), at.1 + 0.4));
                    let next = self.p((at.0 + away * apart * f64::from(i + 1), at.1 + 0.06));
                    board.scene().line(top, next, Role::Cord, "holdfast");
                }
                picket(board.scene(), foot, away, self.scale, "holdfast");
            }
            let foot = self.p(at);
            board.sheet.keep_clear(foot, add(foot, (0.0, -0.4 * self.scale)), 4.0, false);
        }
    }

    /// The frame at a lean, and its guys.
    pub(super) fn frame(&self, board: &mut Board, lean: f64, aft: Rope, fore: Rope) {
        self.guy(board, lean, self.aft, aft, "aft guy");
        self.guy(board, lean, self.fore, fore, "fore guy");
        let (butt, tip) = (self.p(self.up(-0.1, lean)), self.p(self.up(self.slant + self.tip, lean)));
        let widths = leg_widths(self.scale, 1.0);
        pole(board.scene(), butt, tip, widths, "leg");
        board.sheet.keep_clear(butt, tip, 0.5 * widths.0, true);
        let head = self.p(self.head(lean));
        let up = unit(sub(tip, butt), (0.0, -1.0));
        lashing(board.scene(), head, up, widths.1 + 4.0, self.scale);
    }

    fn guy(&self, board: &mut Board, lean: f64, anchor: (f64, f64), rope: Rope, part: &'static str) {
        let head = self.head(lean);
        let end = (anchor.0, anchor.1 + 0.06);
        match rope {
            Rope::Works => working(&mut board.sheet, self.p(head), self.p(end), part),
            Rope::Slack => {
                let chord = length(sub(end, head));
                let floor = |x: f64| self.level(x) + 0.04;
                let line: Vec<P> =
                    hang(head, end, 1.02 * chord, floor).into_iter().map(|at| self.p(at)).collect();
                slack(&mut board.sheet, &line, part);
            }
            Rope::Off => {}
        }
    }

    /// A place on a guy, for its name: the share of its way from the head down.
    pub(super) fn on_guy(&self, lean: f64, ahead: bool, share: f64) -> P {
        let (from, to) = (self.p(self.head(lean)), self.p(if ahead { self.fore } else { self.aft }));
        along(from, sub(to, from), share)
    }

    /// The frame where it was, or where it may go: dashed.
    pub(super) fn was(&self, board: &mut Board, lean: f64) {
        let (butt, tip) = (self.p((0.0, 0.0)), self.p(self.up(self.slant + self.tip, lean)));
        board.scene().line(butt, tip, Role::Strobe, "was");
        board.sheet.keep_clear(butt, tip, 3.0, true);
    }

    /// The way of the head from one lean to another, above its tips.
    pub(super) fn swings(&self, board: &mut Board, from: f64, to: f64) {
        let far = self.slant + self.tip + 9.0 / self.scale;
        let places: Vec<P> =
            (0..=12).map(|i| self.p(self.up(far, from + (to - from) * f64::from(i) / 12.0))).collect();
        board.moves(&places);
    }

    /// Someone at x, facing right (1) or left (−1).
    pub(super) fn someone(&self, board: &mut Board, x: f64, pose: &Pose, facing: f64) {
        let at = self.p((x, self.level(x)));
        crew::stands(board, (at.0, at.1 - 1.0), pose, facing, self.scale);
    }

    /// Someone at their post.
    pub(super) fn post(&self, board: &mut Board, post: Post, pulls: bool) {
        let pose = if pulls { &crew::PULLING } else { &STANDING };
        let (x, pose, facing) = match post {
            Post::Aft => (self.aft.0 - 0.5, pose, 1.0),
            Post::Fore => (self.fore.0 + 0.5, pose, -1.0),
            Post::Feet => (-0.62, &crew::KNEELING, 1.0),
            Post::Lead => (self.lead(), &crew::LEADING, 1.0),
        };
        self.someone(board, x, pose, facing);
    }

    /// Where who leads stands: under no rope.
    pub(super) fn lead(&self) -> f64 {
        0.25 * self.aft.0
    }

    /// Where the pulley hangs at a lean, m.
    pub(super) fn pulley(&self, lean: f64) -> (f64, f64) {
        let (x, z) = self.head(lean);
        (x, z - self.rig.line.sling.max(0.25))
    }

    /// Sling and pulley, and the load line from it with a weight at the end, its underside so far above the floor, m.
    pub(super) fn load(&self, board: &mut Board, lean: f64, above: Option<f64>) {
        let (head, at) = (self.p(self.head(lean)), self.p(self.pulley(lean)));
        board.scene().line(head, at, Role::Cord, "sling");
        let radius = pulley_radius(self.scale, 1.0);
        if let Some(above) = above {
            // Plumb, off the right of the pulley.
            let ring = add(self.floor_below(lean), (0.0, -(above + 0.86) * self.scale));
            working(&mut board.sheet, (ring.0, at.1), ring, "load line");
            weight(board.scene(), ring, self.scale);
            board.sheet.keep_clear(ring, add(ring, (0.0, 0.86 * self.scale)), 0.34 * self.scale, false);
        }
        pulley(board.scene(), at, radius, "pulley");
    }

    /// The floor of the cut below the load line, px.
    pub(super) fn floor_below(&self, lean: f64) -> P {
        let below = self.p((self.pulley(lean).0, self.floor()));
        add(below, (pulley_radius(self.scale, 1.0), 0.0))
    }

    /// A tie from the feet to a peg behind them.
    pub(super) fn tied_back(&self, board: &mut Board) {
        let (foot, peg) = (self.p((0.0, 0.08)), self.p((-1.35, 0.06)));
        board.scene().line(foot, peg, Role::Cord, "tie");
        picket(board.scene(), self.p((-1.35, 0.0)), -1.0, 0.6 * self.scale, "tie");
    }

    /// A plumb line from the head to a mark on the ground, or as far as the cut's floor.
    pub(super) fn plumb(&self, board: &mut Board, lean: f64) -> P {
        let head = self.p(self.head(lean));
        let x = self.head(lean).0;
        let foot = self.p((x, self.level(x)));
        board.scene().line(head, foot, Role::Axis, "plumb");
        board.scene().path(Path::through(&[add(foot, (-5.0, 0.0)), foot, add(foot, (5.0, 0.0))]), Role::Stop);
        board.sheet.keep_clear(head, foot, 2.0, true);
        foot
    }
}
