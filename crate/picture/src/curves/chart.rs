//! The still layer of the curves: a scene under the lines, the lines themselves, the lettering over them.
//!
//! The lines and the grid go through plotters, on any of its backends. Plotters counts whole pixels, so they are
//! drawn in sixteenths of a CSS pixel: a backend must scale by [`PIXEL`].

use super::label::{Label, shown_balance};
use super::plan::{BAND, Plan, Plot, on_axis};
use super::sample::{Curves, Sample};
use crate::{Inks, Kind, Path, Role, Scene, Stroke, Weight};
use outlean_rig::{Bands, Quantity};
use plotters::coord::CoordTranslate;
use plotters::coord::cartesian::Cartesian2d;
use plotters::coord::types::RangedCoordf64;
use plotters::drawing::{DrawingAreaErrorKind, IntoDrawingArea};
use plotters::element::{DashedPathElement, PathElement};
use plotters::style::{RGBAColor, ShapeStyle};
use plotters_backend::DrawingBackend;

/// Sixteenths of a CSS pixel are the pixels of plotters here.
pub const PIXEL: f64 = 16.0;

/// What goes wrong in drawing: only what the backend reports.
pub type DrawResult<DB> = Result<(), DrawingAreaErrorKind<<DB as DrawingBackend>::ErrorType>>;

/// What a value (N) over the lever (SI) is in the pixels of plotters.
type Coordinates = Cartesian2d<RangedCoordf64, RangedCoordf64>;

/// A point in the pixels of plotters.
type Dot = (i32, i32);

/// A line in the pixels of plotters. All are first put into a list: what is generic in the backend comes once for
/// every element of plotters, not once for everything that is drawn.
struct Mark {
    points: Vec<Dot>,
    style: ShapeStyle,
    /// Dash and gap; 0 for a solid line.
    dash: Dot,
}

/// Everything that the still layer is drawn from.
pub(crate) struct Still<'a> {
    pub(crate) curves: &'a Curves,
    pub(crate) plan: &'a Plan,
    pub(crate) labels: &'a [Label],
    pub(crate) bands: Option<&'a Bands>,
    pub(crate) revealed: bool,
}

impl Still<'_> {
    /// What lies under the lines: hatch, balance leans, the strip, the rule.
    pub(crate) fn under(&self) -> Scene {
        let Self { plan, curves, revealed, .. } = *self;
        let mut scene = self.plate();
        for plot in &plan.plots {
            let area = plot.area;
            if !revealed {
                continue;
            }
            for (from, to, inside) in plan.stretches(curves) {
                if !inside {
                    scene.path(Path::rectangle(from, area.top, to, area.bottom), Role::OutArea);
                }
            }
            if let Some(bands) = self.bands {
                super::band::draw(&mut scene, plan, plot, curves, bands);
            }
            for lean in shown_balance(curves) {
                upright(&mut scene, plan.x_at(lean), (area.top, area.bottom), Role::Axis);
            }
        }
        self.strip(&mut scene);
        self.rule(&mut scene);
        scene
    }

    /// The lines of the panels over their grid.
    pub(crate) fn lines<DB: DrawingBackend>(&self, inks: &Inks, backend: DB) -> DrawResult<DB> {
        let root = backend.into_drawing_area();
        let mut marks = Vec::new();
        for plot in &self.plan.plots {
            self.panel(&mut marks, inks, plot);
        }
        for Mark { points, style, dash } in marks {
            if dash.0 > 0 {
                root.draw(&DashedPathElement::new(points, dash.0, dash.1, style))?;
            } else {
                root.draw(&PathElement::new(points, style))?;
            }
        }
        root.present()
    }

    /// The lettering over them.
    pub(crate) fn over(&self) -> Scene {
        let mut scene = self.plate();
        for label in self.labels {
            let role = Role::Text(label.lettering, label.tone);
            scene.text((label.x, label.baseline), label.text.clone(), label.anchor, role);
        }
        scene
    }

    fn plate(&self) -> Scene {
        Scene::new(self.plan.all.right, self.plan.all.bottom, self.plan.k)
    }

    fn panel(&self, marks: &mut Vec<Mark>, inks: &Inks, plot: &Plot) {
        let Self { plan, curves, revealed, .. } = *self;
        let area = plot.area;
        let panel = curves.panel(plot.kind);
        let (from, to) = plan.span;
        let (least, most) = (plot.axis.least, plot.axis.most);
        let sides = (px(area.left)..px(area.right), px(area.bottom)..px(area.top));
        let coordinates = Coordinates::new(from..to, least..most, sides);
        let mut line =
            |points: &[(f64, f64)], role| marks.extend(self.line(inks, &coordinates, points, role));

        for (value, _) in plot.axis.ticks() {
            let role = if value.abs() < 1e-9 { Role::AxisLine } else { Role::Grid };
            if revealed || role == Role::AxisLine {
                line(&[(from, value), (to, value)], role);
            }
        }
        if !revealed {
            return;
        }
        for one in &panel.allowables {
            if on_axis(panel, one.value) {
                line(&[(from, one.value), (to, one.value)], Role::Limit);
            }
        }
        for (i, series) in panel.series.iter().enumerate() {
            let kind = match series.quantity {
                Quantity::GuyTension(_) => Kind::Pull,
                _ => Kind::Push,
            };
            let weight = if i == 0 || kind == Kind::Pull { Weight::Full } else { Weight::Thin };
            for piece in &series.pieces {
                for (inside, run) in runs(piece, curves, (least, most)) {
                    let role = if inside { Role::Curve(kind, weight) } else { Role::CurveOutside(kind) };
                    line(&run, role);
                }
            }
        }
    }

    /// A line in a panel, lever (SI) and value (N), with the stroke of a role.
    #[inline(never)]
    fn line(
        &self,
        inks: &Inks,
        coordinates: &Coordinates,
        points: &[(f64, f64)],
        role: Role,
    ) -> Option<Mark> {
        let Stroke { ink, width, dash, .. } = role.style(self.plan.k).stroke?;
        let dash = match *dash.lengths() {
            [dash, gap] => (px(dash), px(gap)),
            _ => (0, 0),
        };
        let stroke_width = px(width).unsigned_abs();
        let style = ShapeStyle { color: colour(inks.colour(ink)), filled: false, stroke_width };
        Some(Mark { points: points.iter().map(|point| coordinates.translate(point)).collect(), style, dash })
    }

    /// The strip over the panels: where everything holds.
    fn strip(&self, scene: &mut Scene) {
        let t = self.plan.t;
        let Some(baseline) = self.plan.strip else { return };
        let y = libm::floor(baseline + 6.0 * t) + 0.5;
        scene.line((self.plan.sides.0, y), (self.plan.sides.1, y), Role::AxisLine, "");
        self.stops(scene, (baseline - 10.0 * t, baseline + 4.0 * t));
    }

    /// The rule: one graduated scale, with where everything holds on it.
    fn rule(&self, scene: &mut Scene) {
        let Self { plan, curves, revealed, .. } = *self;
        let k = plan.k;
        let (top, bottom) = (plan.rule, plan.rule + BAND * k);
        let stretches =
            if revealed { plan.stretches(curves) } else { vec![(plan.sides.0, plan.sides.1, true)] };
        for (from, to, inside) in stretches {
            let role = if inside { Role::InBand } else { Role::OutBand };
            scene.path(Path::rectangle(from, top, to, bottom), role);
        }
        let apart = plan.x_at(plan.span.0 + plan.scale.fine) - plan.sides.0;
        let every = plan.scale.every(apart, plan.number_room());
        for stroke in plan.scale.strokes(plan.span) {
            let share = match (stroke % 10, stroke % 5) {
                (0, _) => 1.0,
                _ if stroke % every == 0 => 1.0,
                (_, 0) => 0.55,
                _ if apart >= 4.4 * k => 0.3,
                _ => continue,
            };
            let x = plan.x_at(f64::from(stroke) * plan.scale.fine);
            upright(scene, x, (bottom, top + BAND * k * (1.0 - share)), Role::Tick);
        }
        if revealed {
            self.stops(scene, (top - 6.0 * k, bottom + 4.0 * k));
        }
    }

    /// The ends of what holds.
    fn stops(&self, scene: &mut Scene, ends: (f64, f64)) {
        for x in self.plan.stops(self.curves) {
            upright(scene, x, ends, Role::Stop);
        }
    }
}

fn upright(scene: &mut Scene, x: f64, (from, to): (f64, f64), role: Role) {
    scene.line((x, from), (x, to), role, "");
}

/// CSS pixels in sixteenths. A cast of a float saturates.
fn px(value: f64) -> i32 {
    libm::round(value * PIXEL) as i32
}

/// The colour of an ink. Plotters knows red, green and blue only, so an ink must be `#rrggbb` or
/// `rgb(r, g, b)`; anything else is drawn in grey, which is seen on any paper.
#[inline(never)]
fn colour(text: &str) -> RGBAColor {
    let found = match text.strip_prefix('#') {
        Some(digits) if digits.len() == 6 => [0, 2, 4].map(|at| {
            let pair = digits.get(at..at + 2)?;
            u8::from_str_radix(pair, 16).ok()
        }),
        Some(_) => [None; 3],
        None => triple(text),
    };
    match found {
        [Some(r), Some(g), Some(b)] => RGBAColor(r, g, b, 1.0),
        _ => RGBAColor(128, 128, 128, 1.0),
    }
}

/// The three numbers of `rgb(r, g, b)`.
fn triple(text: &str) -> [Option<u8>; 3] {
    let mut found = [None; 3];
    let Some(list) = text.strip_prefix("rgb(").and_then(|rest| rest.strip_suffix(')')) else { return found };
    let mut parts = list.split([',', ' ']).filter(|part| !part.is_empty());
    for place in &mut found {
        *place = parts.next().and_then(|part| part.parse().ok());
    }
    found
}

/// The parts of a piece that lie on the axis, each where everything holds or not.
fn runs(piece: &[Sample], curves: &Curves, (least, most): (f64, f64)) -> Vec<(bool, Vec<(f64, f64)>)> {
    let mut runs: Vec<(bool, Vec<(f64, f64)>)> = Vec::new();
    for pair in piece.windows(2) {
        let &[a, b] = pair else { continue };
        let inside = curves.holds(0.5 * (a.at + b.at));
        // Cut to the axis.
        let rise = b.value - a.value;
        let at = |value: f64| if rise.abs() > 0.0 { ((value - a.value) / rise).clamp(0.0, 1.0) } else { 0.0 };
        let (mut start, mut end) = (0.0, 1.0);
        for (value, over_a, over_b) in
            [(least, a.value < least, b.value < least), (most, a.value > most, b.value > most)]
        {
            match (over_a, over_b) {
                (true, true) => end = -1.0,
                (true, false) => start = f64::max(start, at(value)),
                (false, true) => end = f64::min(end, at(value)),
                (false, false) => {}
            }
        }
        if end <= start {
            continue;
        }
        let point = |t: f64| (a.at + (b.at - a.at) * t, a.value + rise * t);
        let joins = |run: &&mut (bool, Vec<(f64, f64)>)| {
            run.0 == inside && start <= 0.0 && run.1.last().is_some_and(|(end, _)| (end - a.at).abs() < 1e-12)
        };
        match runs.last_mut().filter(joins) {
            Some(run) => run.1.push(point(end)),
            None => runs.push((inside, vec![point(start), point(end)])),
        }
    }
    runs
}
