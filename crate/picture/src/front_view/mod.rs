//! The front view: the frame seen from behind, facing the edge, so that left is left. True to scale.
//!
//! As in the side view, metres become pixels on a [`stage`] that depends on the rig and the plate alone, each part
//! draws itself into a [`Draft`] and puts up its labels, and the labels are seated last. Each arrow is the projection
//! of its force on this view, its number is the whole force.

mod connection;
mod forces;
mod frame;
mod guys;
mod line;
mod measures;
mod stage;
#[cfg(test)]
mod tests;
mod tipping;
mod toward;

use crate::drawing::frame::lashing;
use crate::drawing::ground::ground;
use crate::drawing::sheet::{Finished, Sheet};
use crate::{Area, HandleState, LabelKey, Scene, Seats, Show, Subject, force_scale};
use frame::Frame;
use outlean_rig::{Pair, Tip};
use stage::Stage;

/// What to draw, and how.
#[derive(Clone, Copy, Debug)]
pub struct FrontViewInput<'a> {
    /// What it shows, and on which plate.
    pub of: Subject<'a>,
    /// Pixels to the metre, as in the side view beside it; `None`, or more than the plate has room for, takes what
    /// fits.
    pub scale: Option<f64>,
    /// Metres drawn for a newton, as in the side view beside it; `None` chooses by the same rule.
    pub force_scale: Option<f64>,
    /// What is shown; the resultant, people and names of the range are not seen from here.
    pub show: Show,
    /// What the handle at the right foot is doing.
    pub handle: HandleState,
    /// How far the fall of a frame that tips has gone, 0 to 1; `None` shows no fall.
    pub tipping: Option<f64>,
    /// The seats that labels had in the last frame.
    pub seats: Option<&'a Seats>,
}

/// The front view and what a pointer needs to know of it.
#[derive(Clone, Debug, PartialEq)]
pub struct FrontView {
    /// The picture. Its still part does not change with the lean.
    pub scene: Scene,
    /// The head, px.
    pub head: (f64, f64),
    /// The feet, px.
    pub feet: Pair<(f64, f64)>,
    /// The middle of the handle of the spread, at the right foot, px.
    pub handle: (f64, f64),
    /// Pixels to the metre.
    pub scale: f64,
    /// Metres drawn for a newton.
    pub force_scale: f64,
    /// What each label covers, px, so that a number can be pointed at.
    pub labels: Vec<(LabelKey, Area)>,
    /// Names of what there was no room for; not those that a projector never shows.
    pub dropped: Vec<LabelKey>,
    /// The seats of the labels, for the next frame.
    pub seats: Seats,
    /// Where the middle of the foot line is across, px, and how long the foot line is for a metre seen of it.
    middle: f64,
    steepness: f64,
}

impl FrontView {
    /// The spread, m, with which the right foot would stand under a point of the plate, the feet moved alike from
    /// their middle. Never negative; not held to any range.
    #[must_use]
    pub fn spread_at(&self, x: f64, _y: f64) -> f64 {
        (2.0 * (x - self.middle) / self.scale * self.steepness).max(0.0)
    }
}

/// A picture in the making.
struct Draft {
    sheet: Sheet,
    stage: Stage,
    /// Pixels drawn for a newton, at the share to which arrows have grown.
    px_per_newton: f64,
}

/// Draws the front view.
///
/// A rig that tips is drawn where it stands, with no force on legs or guys; falls forward and back cannot be seen
/// from here and show nothing.
#[must_use]
pub fn front_view(input: &FrontViewInput<'_>) -> FrontView {
    let (width, height, k) = input.of.plate();
    let layout = &input.of.solution.layout;
    let stage = Stage::new(input.of.rig, layout, (width, height, k), input.show, input.scale);
    let scale = stage.view.scale;
    let metres_per_newton =
        input.force_scale.filter(|given| given.is_finite() && *given > 0.0).unwrap_or_else(|| {
            // The ground's answer, about half of it at each foot, must have its room below them where it is drawn.
            let room = if stage.room_below > 0.0 {
                2.0 * (stage.room_below / scale - 0.12)
            } else {
                layout.slant_height
            };
            force_scale(input.of.rig, input.of.range, room.max(0.3))
        });
    let grown = input.of.grown();
    let px_per_newton = metres_per_newton * scale * grown;
    let mut draft = Draft { sheet: Sheet::new(Scene::new(width, height, k)), stage, px_per_newton };
    let frame = Frame::new(&stage, input);

    earth(&mut draft);
    measures::title(&mut draft, input);
    if input.show.dimensions {
        measures::spread(&mut draft, input);
    }
    draft.sheet.scene.still = draft.sheet.scene.items.len();

    let tips = input.of.solution.tips().filter(|tip| matches!(tip, Tip::Left | Tip::Right));
    if let (Some(tip), Some(progress)) = (tips, input.tipping) {
        tipping::fall(&mut draft, input, &frame, tip, progress);
    }
    let guys = guys::guys(&draft.stage, input, &frame);
    let runs = line::runs(&draft.stage, input, &frame);
    guys::draw(&mut draft, input, &guys, false);
    for run in &runs {
        run.draw_load(&mut draft);
    }
    connection::hobble(&mut draft, input, &frame);
    frame::legs(&mut draft, input, &frame);
    connection::ledger(&mut draft, input, &frame);
    if input.show.forces {
        forces::legs(&mut draft, input, &frame);
    } else {
        forces::leg_names(&mut draft, input, &frame);
    }
    let across = (0.24 * scale).max(12.0 * k);
    lashing(&mut draft.sheet.scene, frame.head, frame.up, across, scale);
    for run in &runs {
        run.draw_haul(&mut draft, input, &frame);
        if input.show.forces {
            run.draw_forces(&mut draft, input, &frame);
        }
    }
    guys::draw(&mut draft, input, &guys, true);
    if input.show.forces {
        guys::forces(&mut draft, input, &frame, &guys);
    }
    if input.show.ground_forces {
        forces::ground(&mut draft, input, &frame);
        connection::forces(&mut draft, input, &frame);
    }
    let handle = measures::handle(&mut draft, input, &frame);

    let Finished { scene, labels, dropped, seats } = draft.sheet.finish(stage.inside(), input.seats);
    FrontView {
        scene,
        head: frame.head,
        feet: frame.feet,
        handle,
        scale,
        force_scale: metres_per_newton,
        labels,
        dropped,
        seats,
        middle: stage.view.origin.0,
        steepness: layout.spread / (2.0 * stage.half).max(1e-6),
    }
}

/// The ground, at its height under each foot.
fn earth(draft: &mut Draft) {
    let stage = draft.stage;
    let reach = stage.width / stage.view.scale;
    let Pair { left, right } = stage.feet;
    // A foot stands on a level place of its own.
    let (a, b) = (left.0 + 0.12, right.0 - 0.12);
    let places = if a < b {
        vec![(-reach, left.1), (a, left.1), (b, right.1), (reach, right.1)]
    } else {
        vec![(-reach, left.1), (left.0, left.1), (right.0, right.1), (reach, right.1)]
    };
    let mut line = Vec::new();
    for place in places {
        let (x, y) = stage.view.p(place);
        line.push((x.max(0.0).min(stage.width), y));
    }
    ground(&mut draft.sheet.scene, &line, -1.0, "ground");
    draft.sheet.keep_clear_along(&line, 2.0 * stage.k, true);
}
