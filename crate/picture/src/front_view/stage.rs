//! The stage of the front view: how metres become pixels. It depends on the rig's own dimensions and the plate,
//! never on the lean, so that nothing is rescaled while the frame moves.

use crate::drawing::pointer;
use crate::drawing::projection::Projection;
use crate::drawing::vec2::P;
use crate::{Area, PROJECTOR, Show, type_scale};
use outlean_rig::{Layout, Pair, Rig};

/// The plate and the view on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stage {
    pub width: f64,
    pub height: f64,
    pub k: f64,
    pub view: Projection,
    /// The feet in the view, m.
    pub feet: Pair<P>,
    /// Half the distance between them as seen, m.
    pub half: f64,
    /// Room below the lower foot for what the ground gives, px.
    pub room_below: f64,
}

impl Stage {
    pub(super) fn new(
        rig: &Rig,
        layout: &Layout,
        (width, height, k): (f64, f64, f64),
        show: Show,
        wanted: Option<f64>,
    ) -> Self {
        let lettering = type_scale(k);
        let flat = Projection::from_behind(layout, 1.0, (0.0, 0.0));
        let feet = Pair::new(flat.flat(rig.feet.at.left), flat.flat(rig.feet.at.right));
        let half = (feet.right.0 - feet.left.0) / 2.0;
        let uneven = (feet.right.1 - feet.left.1).abs() / 2.0;
        let working = (layout.working_length.left + layout.working_length.right) / 2.0;
        let beyond = beyond(rig.legs.left.lashing_below_tip).max(beyond(rig.legs.right.lashing_below_tip));
        let tall = layout.slant_height * (1.0 + beyond / working) + 2.0 * uneven;

        let above = 12.0 * k;
        let handle = pointer::LENGTH * k + 10.0 * k;
        let least_below = if show.dimensions && k < PROJECTOR { handle + 12.0 * lettering } else { handle };
        // What the ground gives is drawn below the feet.
        let forces = if show.ground_forces && k < PROJECTOR { 0.17 * tall } else { 0.0 };
        let fits_height = (height - above - least_below) / (tall + forces);
        let side = (width / 2.0 - 14.0 * k) / (half + 0.3);
        let beside = (width / 2.0 - 66.0 * lettering).max(0.3 * width) / (0.45 * half + 0.1);
        let fits = fits_height.min(side).min(beside).clamp(1.0, 1000.0);
        let scale = wanted
            .filter(|wanted| wanted.is_finite() && *wanted > 0.0)
            .map_or(fits, |wanted| wanted.max(1.0).min(fits));
        let below = least_below + forces * scale;
        let spare = (height - above - tall * scale - below).max(0.0);
        let ground = above + (tall - uneven) * scale + 0.6 * spare;
        Self {
            width,
            height,
            k,
            view: Projection::from_behind(layout, scale, (width / 2.0, ground)),
            feet,
            half,
            room_below: forces * scale,
        }
    }

    /// The height of the ground at a place across, m: level beyond the feet, a slope between them.
    pub(super) fn ground_at(&self, x: f64) -> f64 {
        let Pair { left, right } = self.feet;
        let share = ((x - left.0) / (right.0 - left.0).max(1e-6)).clamp(0.0, 1.0);
        left.1 + (right.1 - left.1) * share
    }

    /// The same, of a place on the plate, px.
    pub(super) fn ground_px(&self, x: f64) -> f64 {
        self.view.p((0.0, self.ground_at((x - self.view.origin.0) / self.view.scale))).1
    }

    /// The lower foot, px from the top.
    pub(super) fn lowest(&self) -> f64 {
        self.view.p((0.0, self.feet.left.1.min(self.feet.right.1))).1
    }

    /// The whole plate.
    pub(super) fn plate(&self) -> Area {
        Area { left: 0.0, top: 0.0, right: self.width, bottom: self.height }
    }

    /// Where labels and cut lines end.
    pub(super) fn inside(&self) -> Area {
        self.plate().grown(-3.0 * self.k)
    }
}

/// How far a leg is drawn beyond the head, m.
pub(super) fn beyond(lashing_below_tip: f64) -> f64 {
    if lashing_below_tip > 0.05 { lashing_below_tip } else { 0.3 }
}
