//! The side view: the frame seen from its right, forward to the right, true to scale.
//!
//! Metres become pixels on a [`stage`] that depends on the rig and the plate alone. Parts, forces, the arc and
//! the measures each draw themselves into a [`Draft`] and put up their labels; the labels are seated last, when
//! everything they must keep clear of is known.

mod forces;
mod guys;
mod hung;
mod line;
mod measures;
mod protractor;
mod scenery;
pub(crate) mod seats;
mod stage;
#[cfg(test)]
mod tests;
mod tipping;
pub(crate) mod twin_scale;

use crate::drawing::frame::{lashing, leg_widths, pole};
use crate::drawing::rope::sleeve;
use crate::drawing::sheet::{Finished, Sheet};
use crate::drawing::vec2::{P, add, sub, times, unit};
use crate::{HandleState, PROJECTOR, Scene, Seats, Subject, force_scale};
use outlean_rig::{Part, Side, Solution, Tip};
use stage::Stage;
pub(crate) use stage::lean_span;

/// What to draw, and how.
#[derive(Clone, Copy, Debug)]
pub struct SideViewInput<'a> {
    /// What it shows, and on which plate.
    pub of: Subject<'a>,
    /// What is shown.
    pub show: Show,
    /// What the handle at the arc is doing.
    pub handle: HandleState,
    /// What the handle at the aft holdfast is doing, by which the setback is set; `None` draws none.
    pub anchor: Option<HandleState>,
    /// How far the fall of a frame that tips has gone, 0 to 1; `None` shows no fall.
    pub tipping: Option<f64>,
    /// The seats that labels had in the last frame.
    pub seats: Option<&'a Seats>,
}

impl<'a> SideViewInput<'a> {
    /// A rig that nobody moves: nothing drawn to take hold of it by, no fall.
    #[must_use]
    pub const fn still(of: Subject<'a>, show: Show) -> Self {
        Self { of, show, handle: HandleState::Rest, anchor: None, tipping: None, seats: None }
    }
}

/// What is shown beside the rig itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Show {
    /// Forces of the legs, guys and lines.
    pub forces: bool,
    /// The resultant on the head, and where it meets the ground.
    pub resultant: bool,
    /// What the ground gives to the feet.
    pub ground_forces: bool,
    /// Setback and reach, and the twin scale.
    pub dimensions: bool,
    /// People.
    pub people: bool,
    /// The ends of the working range, named.
    pub range_names: bool,
}

impl Show {
    /// What a page shows first.
    pub const USUAL: Self = Self {
        forces: true,
        resultant: false,
        ground_forces: false,
        dimensions: true,
        people: true,
        range_names: true,
    };
    /// What is given before an answer: the rig alone.
    pub const RIG_ALONE: Self = Self { forces: false, range_names: false, ..Self::USUAL };
}

/// The side view and what a pointer needs to know of it.
#[derive(Clone, Debug, PartialEq)]
pub struct SideView {
    /// The picture. Its still part depends on everything in the input but the lean, what follows from the lean,
    /// and the handle; it changes when the frame starts or ends tipping.
    pub scene: Scene,
    /// The middle of the foot line, px.
    pub foot: (f64, f64),
    /// The head, px.
    pub head: (f64, f64),
    /// The middle of the handle at the arc, px.
    pub handle: (f64, f64),
    /// The middle of the handle at the aft holdfast, px, where one is drawn.
    pub anchor: Option<(f64, f64)>,
    /// Pixels to the metre.
    pub scale: f64,
    /// Metres drawn for a newton.
    pub force_scale: f64,
    /// The leans that the arc spans, rad.
    pub span: (f64, f64),
    /// What each label covers, px, so that a number can be pointed at.
    pub labels: Vec<(crate::LabelKey, crate::Area)>,
    /// Names of what there was no room for; not those that a projector never shows.
    pub dropped: Vec<crate::LabelKey>,
    /// The seats of the labels, for the next frame.
    pub seats: Seats,
}

impl SideView {
    /// The lean, rad, at which the frame's plane would pass through a point of the plate. Not held to any range.
    #[must_use]
    pub fn lean_at(&self, x: f64, y: f64) -> f64 {
        libm::atan2(x - self.foot.0, self.foot.1 - y)
    }

    /// The setback, m, with which a holdfast would stand under a point of the plate. Not held to any range.
    #[must_use]
    pub fn setback_at(&self, x: f64, _y: f64) -> f64 {
        (self.foot.0 - x) / self.scale
    }
}

/// A picture in the making.
struct Draft {
    sheet: Sheet,
    stage: Stage,
    /// Pixels drawn for a newton, at the share to which arrows have grown.
    px_per_newton: f64,
}

/// Where the frame is on the plate, px.
#[derive(Clone, Copy)]
struct Frame {
    head: P,
    /// Along the frame, foot to head.
    up: P,
    tip: P,
    /// Foot line to head.
    slant: f64,
    widths: (f64, f64),
}

impl Frame {
    fn new(stage: &Stage, solution: &Solution) -> Self {
        let head = stage.view.p(stage.view.flat(solution.layout.head));
        let up = unit(sub(head, stage.view.origin), (0.0, -1.0));
        Self {
            head,
            up,
            tip: add(stage.view.origin, times(up, stage.tip * stage.view.scale)),
            slant: solution.layout.slant_height * stage.view.scale,
            widths: leg_widths(stage.view.scale, stage.k),
        }
    }

    /// The point `along` px up the frame from the foot line.
    fn on(&self, stage: &Stage, along: f64) -> P {
        crate::drawing::vec2::along(stage.view.origin, self.up, along)
    }
}

/// Draws the side view.
///
/// A rig that tips is drawn where it stands, with no force on legs or guys; falls to the side cannot be seen from
/// here and show nothing.
// Inlined, so that what a caller never shows (the page: the resultant) is left out of its program.
#[inline(always)]
#[must_use]
pub fn side_view(input: &SideViewInput<'_>) -> SideView {
    let (width, height, k) = input.of.plate();
    let layout = &input.of.solution.layout;
    let stage = Stage::new(input.of.rig, layout, input.of.range, (width, height, k), input.show.people);
    // The ground's answer is drawn below the feet: it must have room there.
    let room = ((height - stage.view.origin.1) / stage.view.scale).max(stage.depth) - 0.3;
    let metres_per_newton = force_scale(input.of.rig, input.of.range, room);
    let grown = input.of.grown();
    let mut draft = Draft {
        sheet: Sheet::new(Scene::new(width, height, k)),
        stage,
        px_per_newton: metres_per_newton * stage.view.scale * grown,
    };
    let frame = Frame::new(&stage, input.of.solution);
    let tips = input.of.solution.tips().filter(|tip| matches!(tip, Tip::Forward | Tip::Back));

    scenery::scenery(&mut draft, input);
    protractor::plumb(&mut draft);
    protractor::protractor(&mut draft, input);
    draft.sheet.scene.still = draft.sheet.scene.items.len();

    if let (Some(tip), Some(progress)) = (tips, input.tipping) {
        tipping::fall(&mut draft, input, tip, progress);
    }
    guys::sleeves(&mut draft, input, &frame);
    guys::guys(&mut draft, input, &frame);
    let runs = line::runs(&draft, input, &frame);
    let ring = runs.first().and_then(line::Run::carries);
    for line in &runs {
        line.draw_ropes(&mut draft, input, ring);
    }
    if input.show.resultant {
        forces::resultant(&mut draft, input, &frame);
    }
    legs(&mut draft, input, &frame);
    scenery::onlooker(&mut draft, input, tips.is_some());
    if input.show.forces {
        forces::forces(&mut draft, input, &frame, &runs);
        forces::lifts(&mut draft, input);
    }
    if input.show.ground_forces {
        forces::ground(&mut draft, input, &frame);
    }
    let across = (0.15 * stage.view.scale).max(8.0 * k);
    lashing(&mut draft.sheet.scene, frame.head, frame.up, across, stage.view.scale);
    for line in &runs {
        line.draw_hardware(&mut draft, input, &frame);
    }
    let handle = protractor::lean_pointer(&mut draft, input, layout.lean);

    let anchor = measures::anchor(&mut draft, input);
    if input.show.dimensions && k < PROJECTOR {
        measures::measures(&mut draft, input);
        twin_scale::twin_scale(&mut draft, input.of.units, metres_per_newton);
    }

    let Finished { scene, labels, dropped, seats } = draft.sheet.finish(stage.inside(), input.seats);
    SideView {
        foot: stage.view.origin,
        head: frame.head,
        handle,
        anchor,
        scale: stage.view.scale,
        force_scale: metres_per_newton,
        span: stage.span,
        labels,
        dropped,
        seats,
        scene,
    }
}

/// The legs, the left one behind.
fn legs(draft: &mut Draft, input: &SideViewInput<'_>, frame: &Frame) {
    let stage = draft.stage;
    for side in Side::BOTH {
        let foot = stage.view.p(stage.view.flat(*input.of.rig.feet.at.on(side)));
        let up = unit(sub(frame.head, foot), frame.up);
        let butt = add(foot, times(up, -0.1 * stage.view.scale));
        // Each leg runs past the head in its own direction; square feet make both the same.
        let past = crate::drawing::vec2::length(sub(frame.tip, frame.head));
        let tip = add(frame.head, times(up, past));
        if input.of.is_over(Part::Leg(side)) {
            let half = frame.widths.0 / 2.0 + 6.0 * stage.k;
            sleeve(&mut draft.sheet.scene, butt, frame.head, half, "leg");
        }
        pole(&mut draft.sheet.scene, butt, tip, frame.widths, "leg");
        // Two legs one behind the other are in the way once.
        if side == Side::Left || crate::drawing::vec2::length(sub(foot, stage.view.origin)) > 2.0 * stage.k {
            draft.sheet.keep_clear(butt, tip, frame.widths.0 / 2.0, true);
        }
    }
}
