//! The still layer of the curves, drawn through plotters on any of its backends.
//!
//! Plotters counts whole pixels, so everything here is drawn in sixteenths of a CSS pixel: a backend must
//! scale by [`PIXEL`] and set lettering in the families and weights that [`face_of`] reads back.

use super::label::{Label, shown_balance};
use super::plan::{BAND, Plan, Plot, on_axis};
use super::sample::{Curves, Sample};
use crate::{Anchor, Face, Ink, Inks, Kind, Role, Stroke, Weight};
use outlean_rig::Quantity;
use plotters::coord::cartesian::Cartesian2d;
use plotters::coord::types::RangedCoordf64;
use plotters::coord::{CoordTranslate, Shift};
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

/// What a value (N) over a lean (rad) is in the pixels of plotters.
type Coordinates = Cartesian2d<RangedCoordf64, RangedCoordf64>;

/// A point in the pixels of plotters.
type Dot = (i32, i32);

/// A line, or where `filled` is set the area within it, in the pixels of plotters. The still layer is first
/// made as a list of these: what is generic in the backend comes once for every element of plotters, not once for
/// everything that is drawn.
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
    pub(crate) revealed: bool,
    pub(crate) inks: &'a Inks,
}

impl Still<'_> {
    pub(crate) fn paint<DB: DrawingBackend>(&self, backend: DB) -> DrawResult<DB> {
        let root = backend.into_drawing_area();
        let mut marks = Marks { still: self, list: Vec::new() };
        for plot in &self.plan.plots {
            marks.panel(plot);
        }
        marks.strip();
        marks.rule();
        for Mark { points, style, dash } in marks.list {
            if style.filled {
                root.draw(&Polygon::new(points, style))?;
            } else if dash.0 > 0 {
                root.draw(&DashedPathElement::new(points, dash.0, dash.1, style))?;
            } else {
                root.draw(&PathElement::new(points, style))?;
            }
        }
        for label in self.labels {
            self.text(&root, label)?;
        }
        root.present()
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
}

/// The marks of the still layer in the making.
struct Marks<'a> {
    still: &'a Still<'a>,
    list: Vec<Mark>,
}

impl Marks<'_> {
    fn panel(&mut self, plot: &Plot) {
        let Still { plan, curves, revealed, .. } = *self.still;
        let area = plot.area;
        let panel = curves.panel(plot.kind);
        if revealed {
            for (from, to, inside) in plan.stretches(curves) {
                if !inside {
                    self.fill((from, area.top, to, area.bottom), Role::OutArea);
                }
            }
        }
        let (from, to) = plan.leans;
        let (least, most) = (plot.axis.least, plot.axis.most);
        let sides = (px(area.left)..px(area.right), px(area.bottom)..px(area.top));
        let coordinates = Coordinates::new(from..to, least..most, sides);

        for (value, _) in plot.axis.ticks() {
            let role = if value.abs() < 1e-9 { Role::AxisLine } else { Role::Grid };
            if revealed || role == Role::AxisLine {
                self.line(&coordinates, &[(from, value), (to, value)], role);
            }
        }
        if !revealed {
            return;
        }
        for lean in shown_balance(curves) {
            self.upright(plan.x_at(lean), (area.top, area.bottom), Role::Axis);
        }
        for one in &panel.allowables {
            if on_axis(panel, one.value) {
                self.line(&coordinates, &[(from, one.value), (to, one.value)], Role::Limit);
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
                    self.line(&coordinates, &run, role);
                }
            }
        }
    }

    /// The strip over the panels: which leans are the working range.
    fn strip(&mut self) {
        let Still { plan, curves, .. } = *self.still;
        let t = plan.t;
        let Some(baseline) = plan.strip else { return };
        let y = libm::floor(baseline + 6.0 * t) + 0.5;
        self.stroke((plan.sides.0, y), (plan.sides.1, y), Role::AxisLine);
        for x in plan.stops(curves) {
            self.stroke((x, baseline - 10.0 * t), (x, baseline + 4.0 * t), Role::Stop);
        }
    }

    /// The lean rule: one graduated scale with the working range on it.
    fn rule(&mut self) {
        let Still { plan, curves, revealed, .. } = *self.still;
        let k = plan.k;
        let (top, bottom) = (plan.rule, plan.rule + BAND * k);
        let stretches =
            if revealed { plan.stretches(curves) } else { vec![(plan.sides.0, plan.sides.1, true)] };
        for (from, to, inside) in stretches {
            let role = if inside { Role::InBand } else { Role::OutBand };
            self.fill((from, top, to, bottom), role);
            let outline = [(from, top), (to, top), (to, bottom), (from, bottom), (from, top)];
            self.mark(outline.map(dot).to_vec(), role);
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
            self.stroke((x, bottom), (x, top + BAND * k * (1.0 - share)), Role::Tick);
        }
        if revealed {
            for x in plan.stops(curves) {
                self.stroke((x, top - 6.0 * k), (x, bottom + 4.0 * k), Role::Stop);
            }
        }
    }

    /// A line in a panel: lean (rad) and value (N).
    #[inline(never)]
    fn line(&mut self, coordinates: &Coordinates, points: &[(f64, f64)], role: Role) {
        let mut dots = Vec::with_capacity(points.len());
        for point in points {
            dots.push(coordinates.translate(point));
        }
        self.mark(dots, role);
    }

    /// A straight line in the picture, px.
    #[inline(never)]
    fn stroke(&mut self, from: (f64, f64), to: (f64, f64), role: Role) {
        self.mark(vec![dot(from), dot(to)], role);
    }

    /// A line with the stroke of a role.
    #[inline(never)]
    fn mark(&mut self, points: Vec<Dot>, role: Role) {
        let Some(Stroke { ink, width, dash, .. }) = role.style(self.still.plan.k).stroke else { return };
        let dash = match *dash.lengths() {
            [dash, gap] => (px(dash), px(gap)),
            _ => (0, 0),
        };
        self.add(points, ink, 1.0, width, dash);
    }

    /// Adds a line, or an area where its width is 0.
    #[inline(never)]
    fn add(&mut self, points: Vec<Dot>, ink: Ink, cover: f64, width: f64, dash: Dot) {
        let style = ShapeStyle {
            color: colour(self.still.inks, ink, cover),
            filled: width <= 0.0,
            stroke_width: px(width).unsigned_abs(),
        };
        self.list.push(Mark { points, style, dash });
    }

    /// An upright line with dashes of any number of lengths, px.
    fn upright(&mut self, x: f64, (top, bottom): (f64, f64), role: Role) {
        let Some(stroke) = role.style(self.still.plan.k).stroke else { return };
        let mut y = top;
        for (i, length) in stroke.dash.lengths().iter().cycle().enumerate() {
            let end = bottom.min(y + length.max(0.5));
            if y >= bottom {
                break;
            }
            if i % 2 == 0 {
                self.add(vec![dot((x, y)), dot((x, end))], stroke.ink, 1.0, stroke.width, (0, 0));
            }
            y = end;
        }
    }

    /// A box with the fill and the hatch of a role: lines at 45°, rising to the right, cut off at the box.
    /// Neighbouring boxes carry on one pattern.
    fn fill(&mut self, (left, top, right, bottom): (f64, f64, f64, f64), role: Role) {
        let style = role.style(self.still.plan.k);
        if let Some(ink) = style.fill {
            let corners = [(left, top), (right, top), (right, bottom), (left, bottom)];
            self.add(corners.map(dot).to_vec(), ink, style.cover, 0.0, (0, 0));
        }
        let Some(hatch) = style.hatch else { return };
        // Along x + y = c, at every whole number of pitches.
        let pitch = (hatch.pitch * core::f64::consts::SQRT_2).max(1.0);
        let mut c = libm::ceil((left + top) / pitch) * pitch;
        while c < right + bottom {
            let (upper, lower) = (top.max(c - right), bottom.min(c - left));
            if lower > upper {
                let line = vec![dot((c - lower, lower)), dot((c - upper, upper))];
                self.add(line, hatch.ink, style.cover, hatch.width, (0, 0));
            }
            c += pitch;
        }
    }
}

/// A point in sixteenths of a CSS pixel.
fn dot((x, y): (f64, f64)) -> Dot {
    (px(x), px(y))
}

/// CSS pixels in sixteenths. A cast of a float saturates.
fn px(value: f64) -> i32 {
    libm::round(value * PIXEL) as i32
}

/// The colour of an ink. Plotters knows red, green and blue only, so an ink must be `#rrggbb` or
/// `rgb(r, g, b)`; anything else is drawn in grey, which is seen on any paper.
#[inline(never)]
fn colour(inks: &Inks, ink: Ink, cover: f64) -> RGBAColor {
    let text = inks.colour(ink);
    let found = match text.strip_prefix('#') {
        Some(digits) if digits.len() == 6 => [0, 2, 4].map(|at| {
            let pair = digits.get(at..at + 2)?;
            u8::from_str_radix(pair, 16).ok()
        }),
        Some(_) => [None; 3],
        None => triple(text),
    };
    match found {
        [Some(r), Some(g), Some(b)] => RGBAColor(r, g, b, cover),
        _ => RGBAColor(128, 128, 128, cover),
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
