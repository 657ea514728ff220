//! Where things stand in the picture of the curves: panels, axes, the lean rule.

use super::axis::Axis;
use super::over::Rule;
use super::sample::{Curves, Panel, PanelKind};
use crate::{Area, Lettering, Tone, type_scale, width};
use outlean_rig::Lever;
use outlean_rigfile::{DEG, Units};

/// How the curves are to be drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Options {
    /// Width of the picture, CSS px.
    pub width: f64,
    /// Height of the picture, CSS px.
    pub height: f64,
    /// Size of strokes, hatching, pointer and type: 1 on a page, 0.85 narrow, 2.1 on a projector.
    pub k: f64,
    /// Units of the values.
    pub units: Units,
    /// Which panels are shown, over one axis; with none of them only its rule is drawn.
    pub panels: Panels,
    /// Whether what follows from the rig is drawn. While a prediction is open it is not: then there are
    /// panels without lines, numbers, limits or working range.
    pub revealed: bool,
}

/// Which panels are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Panels {
    /// Legs above guys.
    Both,
    /// One of them.
    Only(PanelKind),
    /// None: the rule alone.
    RuleAlone,
}

impl Panels {
    const fn kinds(self) -> &'static [PanelKind] {
        match self {
            Self::Both => &[PanelKind::Legs, PanelKind::Guys],
            Self::Only(PanelKind::Legs) => &[PanelKind::Legs],
            Self::Only(PanelKind::Guys) => &[PanelKind::Guys],
            Self::RuleAlone => &[],
        }
    }
}

/// Where one panel stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Plot {
    pub(crate) kind: PanelKind,
    pub(crate) axis: Axis,
    pub(crate) area: Area,
    /// Baseline of its title.
    pub(crate) title: f64,
}

impl Plot {
    /// Height of a value (N) in the picture, px from its top; values beyond the axis lie outside the panel.
    pub(crate) fn y_at(&self, value: f64) -> f64 {
        let Axis { least, most, .. } = self.axis;
        self.area.bottom - (value - least) / (most - least) * (self.area.bottom - self.area.top)
    }
}

/// Where everything stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Plan {
    /// The whole picture.
    pub(crate) all: Area,
    /// Size of strokes and hatching.
    pub(crate) k: f64,
    /// Size of type, 1 at k = 1.
    pub(crate) t: f64,
    /// Values of the lever shown, SI.
    pub(crate) span: (f64, f64),
    /// How they are graduated.
    pub(crate) scale: Rule,
    /// Where the first and the last of them stand, px.
    pub(crate) sides: (f64, f64),
    pub(crate) plots: Vec<Plot>,
    /// Baseline of the strip that says where everything holds; `None` where there is no room.
    pub(crate) strip: Option<f64>,
    /// Top edge of the rule.
    pub(crate) rule: f64,
}

/// Height of the band of the rule, px.
pub(crate) const BAND: f64 = 10.0;

/// An allowable farther above the greatest value within the range than this is off the scale.
const FAR: f64 = 3.0;

/// Whether an allowable (N) of a panel stands on its axis.
pub(crate) fn on_axis(panel: &Panel, allowable: f64) -> bool {
    allowable <= FAR * panel.within
}

fn axis(panel: &Panel, options: &Options) -> Axis {
    if !options.revealed {
        return Axis::for_values(0.0, 0.0, options.units);
    }
    let limit = panel.allowables.iter().map(|one| one.value).filter(|value| on_axis(panel, *value));
    let top = limit.fold(1.04 * panel.within, |top, value| top.max(1.1 * value));
    // What lies outside the working range may run out of the panel.
    Axis::for_values(panel.least.max(-top), top.max(panel.greatest.min(1.3 * top)), options.units)
}

impl Plan {
    pub(crate) fn of(curves: &Curves, options: &Options) -> Self {
        let sound = |value: f64, least: f64, most: f64| {
            if value.is_finite() { value.max(least).min(most) } else { least }
        };
        let (across, height) = (sound(options.width, 120.0, 8000.0), sound(options.height, 60.0, 8000.0));
        let k = sound(options.k, 0.5, 4.0);
        let t = type_scale(k);
        let kinds = options.panels.kinds();
        let axes: Vec<Axis> = kinds.iter().map(|kind| axis(curves.panel(*kind), options)).collect();

        // Which leans are shown follows from the working range, so it would give the answer away.
        let told = options.revealed || curves.lever != Lever::Lean;
        let span = if told { (curves.from, curves.to) } else { (0.0, 60.0 * DEG) };
        let scale = Rule::of(curves.lever.dimension(), span, options.units);

        let note = Lettering::Note.style(Tone::Quiet, k);
        let number = |text: &str| width(text, note.face, note.size);
        let numbers = axes.iter().flat_map(Axis::ticks).map(|(_, text)| number(&text));
        let widest = if options.revealed { numbers.fold(0.0, f64::max) } else { 0.0 };
        // The numbers at both ends of the rule stand midway under them.
        let ends =
            [span.0, span.1].map(|at| scale.number(libm::round(at / scale.fine).clamp(-1e3, 1e3) as i32));
        let end = 0.5 * ends.iter().map(|text| number(text)).fold(number("−10°"), f64::max) + 2.0;
        let sides = if kinds.is_empty() {
            (end, across - end)
        } else {
            ((widest + 9.0 * k).max(30.0 * k).max(end), across - end)
        };

        let below = BAND * k + 19.0 * t;
        let pointer = 24.0 * k;
        let rule = libm::floor(height - below) + 0.5;
        let title = 26.0 * t;
        let gap = 12.0 * k;
        let count = kinds.len() as f64;
        let room = |strip: f64| {
            (rule - pointer - strip - count * title - (count - 1.0).max(0.0) * gap) / count.max(1.0)
        };
        let strip = (!kinds.is_empty() && options.revealed && room(24.0 * t) >= 90.0 * k).then_some(12.0 * t);
        let each = room(strip.map_or(0.0, |_| 24.0 * t)).max(20.0);

        // From the rule upward, each panel a whole number of pixels a half step, so that its grid is crisp.
        let mut bottom = rule - pointer;
        let mut plots: Vec<Plot> = Vec::new();
        for (kind, axis) in kinds.iter().zip(axes).rev() {
            let half = (each / axis.half_steps()).max(1.0);
            let drawn = libm::floor(half) * axis.half_steps();
            let top = bottom - drawn;
            let area = Area::new(sides.0, top, sides.1, bottom);
            plots.push(Plot { kind: *kind, axis, area, title: top - 10.0 * t });
            bottom = libm::floor(bottom - each - title - gap) + 0.5;
        }
        plots.reverse();
        let all = Area::new(0.0, 0.0, across, height);
        Self { all, k, t, span, scale, sides, plots, strip, rule }
    }

    /// Where a value of the lever (SI) stands, px from the left; those not shown stand at the ends.
    pub(crate) fn x_at(&self, value: f64) -> f64 {
        let ((from, to), (left, right)) = (self.span, self.sides);
        left + ((value - from) / (to - from)).clamp(0.0, 1.0) * (right - left)
    }

    /// Which value of the lever (SI) stands at `x` px; beyond the ends the end.
    pub(crate) fn value_at(&self, x: f64) -> f64 {
        let ((from, to), (left, right)) = (self.span, self.sides);
        from + ((x - left) / (right - left)).clamp(0.0, 1.0) * (to - from)
    }

    /// Room that a number of the rule needs, px.
    pub(crate) fn number_room(&self) -> f64 {
        34.0 * self.t
    }

    /// The stretches that hold and that do not, in order: from px, to px, whether it holds.
    pub(crate) fn stretches(&self, curves: &Curves) -> Vec<(f64, f64, bool)> {
        let mut all = Vec::new();
        let mut at = self.sides.0;
        for range in &curves.ranges {
            let (from, to) = (self.x_at(range.from), self.x_at(range.to));
            if from > at {
                all.push((at, from, false));
            }
            if to > from {
                all.push((from, to, true));
            }
            at = at.max(to);
        }
        if self.sides.1 > at {
            all.push((at, self.sides.1, false));
        }
        all
    }

    /// Where the stretches that hold end within the picture, px. Ends at which nothing was found to govern, or
    /// beyond what is shown, have none.
    pub(crate) fn stops(&self, curves: &Curves) -> Vec<f64> {
        let ends = curves.ranges.iter().flat_map(|r| [(r.from, r.from_limit), (r.to, r.to_limit)]);
        ends.filter(|(lean, limit)| {
            *limit != outlean_rig::Limit::NotLookedFurther
                && (curves.from - 1e-9..=curves.to + 1e-9).contains(lean)
        })
        .map(|(lean, _)| self.x_at(lean))
        .collect()
    }
}
