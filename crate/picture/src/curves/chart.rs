//! The still layer of the curves, drawn through plotters on any of its backends.
//!
//! Plotters counts whole pixels, so everything here is drawn in sixteenths of a CSS pixel: a backend must
//! scale by [`PIXEL`] and set lettering in the families and weights that [`face_of`] reads back.

use super::label::{Label, shown_balance};
use super::plan::{BAND, Plan, Plot, on_axis};
use super::sample::{Curves, Sample};
use crate::{Anchor, Face, Hatch, Ink, Inks, Kind, Role, Stroke, Weight};
use outlean_rig::Quantity;
use plotters::coord::Shift;
use plotters::coord::cartesian::Cartesian2d;
use plotters::coord::types::RangedCoordf64;
use plotters::drawing::{DrawingArea, DrawingAreaErrorKind, IntoDrawingArea};
use plotters::element::{DashedPathElement, PathElement, Polygon};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{FontDesc, FontFamily, FontStyle, RGBAColor, ShapeStyle, TextStyle};
use plotters_backend::DrawingBackend;

/// Sixteenths of a CSS pixel are the pixels of plotters here.
pub const PIXEL: f64 = 16.0;
/// How far the box of a line of lettering reaches below its baseline, in ems; the box is one em high.
pub const BELOW_BASELINE: f64 = 0.25;

/// Width of the halo of paper round lettering, in ems.
pub const HALO: f64 = 0.3;

/// What goes wrong in drawing: only what the backend reports.
pub type DrawResult<DB> = Result<(), DrawingAreaErrorKind<<DB as DrawingBackend>::ErrorType>>;

/// The face that a plotters style means, for a backend of ours. The family names the label face or the text
/// face; bold is the heavier of the label faces.
#[must_use]
pub fn face_of(family: &str, style: &FontStyle) -> Face {
    match style {
        FontStyle::Bold => Face::Value,
        FontStyle::Italic | FontStyle::Oblique => Face::TextItalic,
        FontStyle::Normal if family == Face::Text.families() => Face::Text,
        FontStyle::Normal => Face::Label,
    }
}

/// A panel: lean (rad) to the right, value (N) upward.
type Panel<DB> = DrawingArea<DB, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// Everything that the still layer is drawn from.
pub(crate) struct Still<'a> {
    pub(crate) curves: &'a Curves,
    pub(crate) plan: &'a Plan,
    pub(crate) labels: &'a [Label],
    pub(crate) revealed: bool,
    pub(crate) inks: &'a Inks,
}

impl Still<'_> {
    pub(crate) fn paint<DB: DrawingBackend>(&self, backend: DB) -> DrawResult<DB> {
        let root = backend.into_drawing_area();
        for plot in &self.plan.plots {
            self.panel(&root, plot)?;
        }
        self.strip(&root)?;
        self.rule(&root)?;
        for label in self.labels {
            self.text(&root, label)?;
        }
        root.present()
    }

    fn panel<DB: DrawingBackend>(&self, root: &DrawingArea<DB, Shift>, plot: &Plot) -> DrawResult<DB> {
        let (plan, curves, area) = (self.plan, self.curves, plot.area);
        let panel = curves.panel(plot.kind);
        if self.revealed {
            let style = Role::OutArea.style(plan.k);
            for (from, to, inside) in plan.stretches(curves) {
                if !inside {
                    let corners = (from, area.top, to, area.bottom);
                    self.fill(root, corners, style.fill, style.cover)?;
                    self.hatch(root, corners, style.hatch, style.cover)?;
                }
            }
        }
        let inside = root.clone().shrink(
            (px(area.left), px(area.top)),
            (px(area.right) - px(area.left), px(area.bottom) - px(area.top)),
        );
        let (from, to) = plan.leans;
        let (across, down) = inside.get_pixel_range();
        let values = plot.axis.least..plot.axis.most;
        let chart: Panel<DB> =
            inside.apply_coord_spec(Cartesian2d::new(from..to, values, (across, down.end..down.start)));

        let level = |value: f64| vec![(from, value), (to, value)];
        for (value, _) in plot.axis.ticks() {
            let role = if value.abs() < 1e-9 { Role::AxisLine } else { Role::Grid };
            if self.revealed || role == Role::AxisLine {
                self.line(&chart, level(value), role)?;
            }
        }
        if !self.revealed {
            return Ok(());
        }
        for lean in shown_balance(curves) {
            self.upright(root, plan.x_at(lean), (area.top, area.bottom), Role::Axis)?;
        }
        for one in panel.allowables.iter().filter(|one| on_axis(panel, one.value)) {
            self.line(&chart, level(one.value), Role::Limit)?;
        }
        for (i, series) in panel.series.iter().enumerate() {
            let kind = match series.quantity {
                Quantity::GuyTension(_) => Kind::Pull,
                _ => Kind::Push,
            };
            let weight = if i == 0 || kind == Kind::Pull { Weight::Full } else { Weight::Thin };
            for piece in &series.pieces {
                for (inside, run) in runs(piece, curves, (plot.axis.least, plot.axis.most)) {
                    let role = if inside { Role::Curve(kind, weight) } else { Role::CurveOutside(kind) };
                    self.line(&chart, run, role)?;
                }
            }
        }
        Ok(())
    }

    /// The strip over the panels: which leans are the working range.
    fn strip<DB: DrawingBackend>(&self, root: &DrawingArea<DB, Shift>) -> DrawResult<DB> {
        let (plan, t) = (self.plan, self.plan.t);
        let Some(baseline) = plan.strip else { return Ok(()) };
        let y = libm::floor(baseline + 6.0 * t) + 0.5;
        self.stroke(root, &[(plan.sides.0, y), (plan.sides.1, y)], Role::AxisLine)?;
        for x in plan.stops(self.curves) {
            self.stroke(root, &[(x, baseline - 10.0 * t), (x, baseline + 4.0 * t)], Role::Stop)?;
        }
        Ok(())
    }

    /// The lean rule: one graduated scale with the working range on it.
    fn rule<DB: DrawingBackend>(&self, root: &DrawingArea<DB, Shift>) -> DrawResult<DB> {
        let (plan, k) = (self.plan, self.plan.k);
        let (top, band) = (plan.rule, BAND * k);
        let whole = [(plan.sides.0, plan.sides.1, true)];
        let stretches = if self.revealed { plan.stretches(self.curves) } else { whole.to_vec() };
        for (from, to, inside) in stretches {
            let style = if inside { Role::InBand } else { Role::OutBand }.style(k);
            let corners = (from, top, to, top + band);
            self.fill(root, corners, style.fill, 1.0)?;
            self.hatch(root, corners, style.hatch, 1.0)?;
            let outline = [(from, top), (to, top), (to, top + band), (from, top + band), (from, top)];
            self.stroke(root, &outline, if inside { Role::InBand } else { Role::OutBand })?;
        }
        let degree = (plan.sides.1 - plan.sides.0) / (plan.leans.1 - plan.leans.0) * outlean_rigfile::DEG;
        for degrees in plan.degrees() {
            let share = match (degrees % 10, degrees % 5) {
                (0, _) => 1.0,
                (_, 0) => 0.55,
                _ if degree >= 4.4 * k => 0.3,
                _ => continue,
            };
            let x = plan.x_at(f64::from(degrees) * outlean_rigfile::DEG);
            self.stroke(root, &[(x, top + band), (x, top + band * (1.0 - share))], Role::Tick)?;
        }
        if self.revealed {
            for x in plan.stops(self.curves) {
                self.stroke(root, &[(x, top - 6.0 * k), (x, top + band + 4.0 * k)], Role::Stop)?;
            }
        }
        Ok(())
    }

    /// A line in a panel: lean (rad) and value (N).
    fn line<DB: DrawingBackend>(
        &self,
        chart: &Panel<DB>,
        points: Vec<(f64, f64)>,
        role: Role,
    ) -> DrawResult<DB> {
        let Some(stroke) = role.style(self.plan.k).stroke else { return Ok(()) };
        let style = self.style(&stroke);
        match *stroke.dash.lengths() {
            [dash, gap] => chart.draw(&DashedPathElement::new(points, px(dash), px(gap), style)),
            _ => chart.draw(&PathElement::new(points, style)),
        }
    }

    /// A line in the picture, px.
    fn stroke<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        points: &[(f64, f64)],
        role: Role,
    ) -> DrawResult<DB> {
        let Some(stroke) = role.style(self.plan.k).stroke else { return Ok(()) };
        let points: Vec<(i32, i32)> = points.iter().map(|(x, y)| (px(*x), px(*y))).collect();
        root.draw(&PathElement::new(points, self.style(&stroke)))
    }

    /// An upright line with dashes of any number of lengths, px.
    fn upright<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        x: f64,
        (top, bottom): (f64, f64),
        role: Role,
    ) -> DrawResult<DB> {
        let Some(stroke) = role.style(self.plan.k).stroke else { return Ok(()) };
        let solid = Stroke { dash: crate::Dash::SOLID, ..stroke };
        let mut y = top;
        for (i, length) in stroke.dash.lengths().iter().cycle().enumerate() {
            let end = bottom.min(y + length.max(0.5));
            if y >= bottom {
                break;
            }
            if i % 2 == 0 {
                let ends = vec![(px(x), px(y)), (px(x), px(end))];
                root.draw(&PathElement::new(ends, self.style(&solid)))?;
            }
            y = end;
        }
        Ok(())
    }

    fn fill<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        (left, top, right, bottom): (f64, f64, f64, f64),
        ink: Option<Ink>,
        cover: f64,
    ) -> DrawResult<DB> {
        let Some(ink) = ink else { return Ok(()) };
        let (left, top, right, bottom) = (px(left), px(top), px(right), px(bottom));
        let corners = vec![(left, top), (right, top), (right, bottom), (left, bottom)];
        root.draw(&Polygon::new(corners, colour(self.inks, ink, cover)))
    }

    /// Hatch lines at 45°, rising to the right, cut off at the box. Neighbouring boxes carry on one pattern.
    fn hatch<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        (left, top, right, bottom): (f64, f64, f64, f64),
        hatch: Option<Hatch>,
        cover: f64,
    ) -> DrawResult<DB> {
        let Some(hatch) = hatch else { return Ok(()) };
        let style = ShapeStyle {
            color: colour(self.inks, hatch.ink, cover),
            filled: false,
            stroke_width: px(hatch.width).unsigned_abs(),
        };
        // Along x + y = c, at every whole number of pitches.
        let pitch = (hatch.pitch * core::f64::consts::SQRT_2).max(1.0);
        let mut c = libm::ceil((left + top) / pitch) * pitch;
        while c < right + bottom {
            let (upper, lower) = (top.max(c - right), bottom.min(c - left));
            if lower > upper {
                let line = vec![(px(c - lower), px(lower)), (px(c - upper), px(upper))];
                root.draw(&PathElement::new(line, style))?;
            }
            c += pitch;
        }
        Ok(())
    }

    fn text<DB: DrawingBackend>(&self, root: &DrawingArea<DB, Shift>, label: &Label) -> DrawResult<DB> {
        let style = label.lettering.style(label.tone, self.plan.k);
        let across = match label.anchor {
            Anchor::Start => HPos::Left,
            Anchor::Middle => HPos::Center,
            Anchor::End => HPos::Right,
        };
        let font_style = match style.face {
            Face::Label | Face::Text => FontStyle::Normal,
            Face::Value => FontStyle::Bold,
            Face::TextItalic => FontStyle::Italic,
        };
        let font = FontDesc::new(FontFamily::Name(style.face.families()), style.size * PIXEL, font_style);
        let ink = colour(self.inks, style.ink, 1.0);
        let bottom = label.baseline + BELOW_BASELINE * style.size;
        let style = TextStyle::from(font).pos(Pos::new(across, VPos::Bottom)).color(&ink);
        root.draw_text(&label.text, &style, (px(label.x), px(bottom)))
    }

    fn style(&self, stroke: &Stroke) -> ShapeStyle {
        ShapeStyle {
            color: colour(self.inks, stroke.ink, 1.0),
            filled: false,
            stroke_width: px(stroke.width).unsigned_abs(),
        }
    }
}

/// CSS pixels in sixteenths. A cast of a float saturates.
fn px(value: f64) -> i32 {
    libm::round(value * PIXEL) as i32
}

/// The colour of an ink. Plotters knows red, green and blue only, so an ink must be `#rrggbb` or
/// `rgb(r, g, b)`; anything else is drawn in grey, which is seen on any paper.
fn colour(inks: &Inks, ink: Ink, cover: f64) -> RGBAColor {
    let text = inks.colour(ink);
    let hex = |hex: &str| {
        let value = u32::from_str_radix(hex, 16).ok().filter(|_| hex.len() == 6)?;
        let [_, r, g, b] = value.to_be_bytes();
        Some((r, g, b))
    };
    let triple = |list: &str| {
        let mut each =
            list.split([',', ' ']).filter(|part| !part.is_empty()).map(|part| part.parse::<u8>().ok());
        Some((each.next()??, each.next()??, each.next()??))
    };
    let found = match text.strip_prefix('#') {
        Some(digits) => hex(digits),
        None => text.strip_prefix("rgb(").and_then(|rest| rest.strip_suffix(')')).and_then(triple),
    };
    let (r, g, b) = found.unwrap_or((128, 128, 128));
    RGBAColor(r, g, b, cover)
}

/// The parts of a piece that lie on the axis, each in or out of the working range.
fn runs(piece: &[Sample], curves: &Curves, (least, most): (f64, f64)) -> Vec<(bool, Vec<(f64, f64)>)> {
    let mut runs: Vec<(bool, Vec<(f64, f64)>)> = Vec::new();
    for pair in piece.windows(2) {
        let &[a, b] = pair else { continue };
        let inside = curves.holds(0.5 * (a.lean + b.lean));
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
        let point = |t: f64| (a.lean + (b.lean - a.lean) * t, a.value + rise * t);
        let joins = |run: &&mut (bool, Vec<(f64, f64)>)| {
            run.0 == inside
                && start <= 0.0
                && run.1.last().is_some_and(|(lean, _)| (lean - a.lean).abs() < 1e-12)
        };
        match runs.last_mut().filter(joins) {
            Some(run) => run.1.push(point(end)),
            None => runs.push((inside, vec![point(start), point(end)])),
        }
    }
    runs
}
